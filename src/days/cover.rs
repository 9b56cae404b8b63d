//! What the cover of a case says: worked out anew from its log.

use super::due::{Examined, due, examined};
use super::{Days, since_vet};
use crate::care::cupboard::Cupboard;
use crate::finding::About;
use crate::finding::log::{self, Stamped};
use crate::judge::{Level, brief, judge};
use crate::ledger::{Cover, State};
use crate::protocol::scale::Need;
use crate::protocol::{KIND, Protocol};
use chrono::{DateTime, Utc};

/// The cover of a case as it stands now.
pub fn cover(protocol: &Protocol, log: &[Stamped], cupboard: &Cupboard, now: DateTime<Utc>) -> Cover {
    let days = Days::of(log);
    let findings = log::findings(&log::standing(log));
    let kind = findings
        .answer(About::Bird, KIND)
        .and_then(|said| Some(protocol.question(KIND)?.words(&said.statement.answer)));
    let verdict = judge(protocol, &findings, now);
    let due = due(protocol, log, &days, cupboard, now);
    Cover {
        need: state(protocol, log, &days, verdict.need),
        name: days.name,
        kind: kind.unwrap_or_default(),
        due: due.waits_since(),
        state: days.end.map_or(State::Open, |end| State::Closed(end.outcome)),
        archived: days.archived,
    }
}

/// How she stands, in a few words: how it ended, where it did; that she was not examined, where she was not; else how soon she
/// needs a vet, and what has become of that since one was asked.
pub fn state(protocol: &Protocol, log: &[Stamped], days: &Days, need: Level<Need>) -> String {
    if let Some(end) = days.over() {
        return end.outcome.words().to_owned();
    }
    let vet = || since_vet(protocol, log, days).map_or_else(String::new, |vet| format!("; {}", vet.words()));
    match (examined(protocol, log, days), need.low) {
        (Examined::Not, _) => "not examined".to_owned(),
        // That nothing was found so far says nothing of a bird that was not looked at to the end.
        (Examined::InPart, Need::None) => "not examined to the end".to_owned() + &vet(),
        (Examined::InPart, Need::Home | Need::WithinADay | Need::WithinHours) => {
            format!("not examined to the end; so far {}{}", brief(need), vet())
        }
        (Examined::InPart, Need::Now) | (Examined::Whole, _) => brief(need) + &vet(),
    }
}
