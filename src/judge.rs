//! From findings to a verdict: every rule is weighed, the worst wins, and what is not known stays visible.
//!
//! `judge` is a pure function of protocol, findings and the time: no clock, no disk, no screen.

mod actions;
pub mod figures;
mod force;
mod gather;
mod levels;
mod verdict;
mod weigh;

pub use levels::levels;
pub use verdict::{
    Advised, Deadline, Dropped, Forbidden, Held, Level, Levels, Reason, Scored, Standing, Target, Verdict, Waiting,
    Watched, brief, brief_told,
};

use crate::finding::{About, Answer, Findings};
use crate::protocol::raw::Reach;
use crate::protocol::scale::Need;
use crate::protocol::{Protocol, REACH};
use crate::sheet::Sheet;
use chrono::{DateTime, Utc};

/// Judges a bird from what has been found so far.
///
/// The verdict is a band: "at least" holds however the open questions are answered, "at most" is never too low.
pub fn judge(protocol: &Protocol, findings: &Findings, now: DateTime<Utc>) -> Verdict {
    let sheet = Sheet::lay(protocol, findings, now);
    let weighed = weigh::rules(protocol, &sheet);
    let answered_at = findings.said().iter().map(|said| said.at).max().unwrap_or(now);
    let mut verdict = gather::verdict(protocol, &sheet, &weighed, answered_at, now);
    if verdict.need.low == Need::Now {
        verdict.look_urgently(protocol.urgent_looks);
    }
    let forbidden = |id: &str| verdict.never.iter().any(|never| protocol.action(never.target.action).id == *id);
    let figures = figures::figures(protocol, &sheet, findings, &verdict.acts, forbidden);
    Verdict { figures, no_vet: no_vet(protocol, findings), ..verdict }
}

/// Whether what was said of reach means that no vet can be reached.
fn no_vet(protocol: &Protocol, findings: &Findings) -> bool {
    let said = findings.answer(About::Bird, REACH).map(|said| &said.statement.answer);
    let Some(Answer::Choice(told)) = said else { return false };
    let choices = protocol.question(REACH).into_iter().flat_map(|question| &question.choices);
    choices.filter(|choice| choice.reach == Some(Reach::Nobody)).any(|choice| choice.id == *told)
}
