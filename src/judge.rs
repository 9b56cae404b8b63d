//! From findings to a verdict: every rule is weighed, the worst wins, and what is not known stays visible.
//!
//! `judge` is a pure function of protocol, findings and the time: no clock, no disk, no screen.

mod actions;
mod brief;
pub mod figures;
mod fitting;
mod force;
mod gather;
mod levels;
mod verdict;
mod weigh;

pub use brief::{advice, brief, brief_told, need};
pub use fitting::Fitting;
pub use levels::levels;
pub use verdict::{
    Advised, Clash, Deadline, Dropped, Forbidden, Held, Later, Level, Levels, Open, Reason, Scored, Standing, Target,
    Verdict, Waiting, Watched, barred,
};

use crate::finding::Findings;
use crate::protocol::Protocol;
use crate::sheet::Sheet;
use chrono::{DateTime, Utc};

/// Judges a bird from what has been found so far.
///
/// The verdict is a band: "at least" holds however the open questions are answered, "at most" is never too low.
pub fn judge(protocol: &Protocol, findings: &Findings, now: DateTime<Utc>) -> Verdict {
    let sheet = Sheet::lay(protocol, findings, now);
    let answered_at = findings.said().iter().map(|said| said.at).max().unwrap_or(now);
    let verdict = of_sheet(protocol, &sheet, answered_at);
    let forbidden = |action| verdict.never.iter().any(|never| never.target.action == action);
    let figures = figures::figures(protocol, &sheet, findings, &verdict.acts, forbidden);
    Verdict { figures, ..verdict }
}

/// The same of findings laid out already, but for the figures, which tell and decide nothing.
pub fn of_sheet(protocol: &Protocol, sheet: &Sheet, answered_at: DateTime<Utc>) -> Verdict {
    let weighed = weigh::rules(protocol, sheet);
    let mut verdict = gather::verdict(protocol, sheet, &weighed, answered_at, sheet.now());
    verdict.look_by_need(protocol);
    verdict
}

/// What could still raise a scale of a bird: perhaps too much, never too little.
pub fn open(protocol: &Protocol, sheet: &Sheet) -> Open {
    gather::open(protocol, sheet, &weigh::rules(protocol, sheet))
}
