//! A verdict in the fewest words, wherever it is told.

use super::Level;
use crate::phrase::{Phrase, Text, need as phrase, terms};
use crate::protocol::scale::{Humane, Need};

/// How soon a vet is needed, as a bird's keeper reads it; without one in reach how grave it is, since no vet's clock is told of her.
pub const fn need(rung: Need, no_vet: bool) -> Phrase {
    match (rung, no_vet) {
        (Need::None, _) => terms::need_none(),
        (Need::Home, _) => terms::need_home(),
        (Need::WithinADay, false) => terms::need_day(),
        (Need::WithinHours, false) => terms::need_hours(),
        (Need::Now, false) => terms::need_now(),
        (Need::WithinADay, true) => terms::need_serious(),
        (Need::WithinHours, true) => terms::need_grave(),
        (Need::Now, true) => terms::need_gravest(),
    }
}

/// That a humane end is advised, in one line; nothing while it may only come into question.
pub const fn advice(rung: Humane) -> Option<Phrase> {
    match rung {
        Humane::NotInQuestion | Humane::MayComeIntoQuestion => None,
        Humane::AdvisedUnlessVet => Some(terms::humane_advice_unless()),
        Humane::Advised => Some(terms::humane_advice()),
    }
}

/// The need, for a vet.
pub fn brief(need: Level<Need>) -> Phrase {
    settled_or_not(need, false)
}

/// The same for her keeper: without a vet in reach how grave it is, and whom to phone.
pub fn brief_told(need: Level<Need>, no_vet: bool) -> Text {
    let beside = (no_vet && need.low >= Need::WithinADay).then(terms::no_vet);
    Text::clauses([settled_or_not(need, no_vet)].into_iter().chain(beside))
}

fn settled_or_not(level: Level<Need>, no_vet: bool) -> Phrase {
    let told = need(level.low, no_vet);
    if level.low == level.high { told } else { phrase::not_settled(told) }
}
