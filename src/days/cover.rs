//! What the cover of a case says: worked out anew from its log.

use super::{Days, due, since_vet};
use crate::care::cupboard::Cupboard;
use crate::finding::About;
use crate::finding::log::{self, Stamped};
use crate::judge::{brief, judge};
use crate::ledger::{Cover, State};
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
    let due = due::due(protocol, log, &days, cupboard, now);
    let vet = since_vet(protocol, log, &days).map_or_else(String::new, |vet| format!("; {}", vet.words()));
    Cover {
        name: days.name,
        kind: kind.unwrap_or_default(),
        need: brief(verdict.need) + &vet,
        due: due.since().map(|look| look.at),
        state: days.end.map_or(State::Open, |end| State::Closed(end.outcome)),
        archived: days.archived,
    }
}
