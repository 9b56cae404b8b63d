//! On what a product may be put: ruled by its family where that has a word on it, and by the wounds of the bird it is for.

use super::printed::{begins_word, is_between};
use super::{Before, Part};
use crate::finding::{About, Answer};
use crate::judge::Target;
use crate::protocol::Protocol;
use crate::protocol::known::{By, ReadAs};
use crate::protocol::strength::UseAt;
use crate::protocol::substance::Ruling;

/// How a part, or the whole, is ruled on one use.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnUse<'p> {
    /// On what.
    pub at: UseAt,
    /// What is ruled there.
    pub ruling: Ruling,
    /// Why, in the protocol's words, where the table tells it.
    pub say: Option<&'p str>,
}

/// The ingredients, and on what they are to be put where that stands behind them: `silver nitrate, on: nail`. A use nobody knows
/// is read as part of the ingredients, and rules as what nobody knows.
pub fn behind<'t>(protocol: &Protocol, printed: &'t str) -> (&'t str, Option<UseAt>) {
    let lower = printed.to_ascii_lowercase();
    let told = lower.rmatch_indices("on:").map(|(at, _)| at).find(|at| begins_word(printed, *at)).and_then(|at| {
        let named = lower.get(at + "on:".len()..)?.trim_matches(is_between);
        Some((printed.get(..at)?, protocol.use_at(named)?))
    });
    match told {
        Some((ingredients, at)) => (ingredients.trim_end_matches(is_between), Some(at)),
        None => (printed, None),
    }
}

/// How a substance is ruled on every use. What was not read by its exact name is never ruled milder than in general.
pub fn of<'p>(protocol: &'p Protocol, read_as: ReadAs<'p>, general: Ruling, floor: Ruling) -> Vec<OnUse<'p>> {
    let family = protocol.family_of(read_as.substance);
    let on = |at: UseAt| {
        let Some(on) = family.and_then(|family| family.on(at)) else { return (general, None) };
        match read_as.by {
            By::Name => (on.ruling, Some(on.say.as_str())),
            By::Stem | By::Likeness => (on.ruling.max(general), Some(on.say.as_str())),
        }
    };
    protocol
        .uses_enumerated()
        .map(|(at, _)| {
            let (ruling, say) = on(at);
            OnUse { at, ruling: ruling.max(floor), say }
        })
        .collect()
}

/// The same ruling on every use.
pub fn all(protocol: &Protocol, ruling: Ruling) -> Vec<OnUse<'static>> {
    protocol.uses_enumerated().map(|(at, _)| OnUse { at, ruling, say: None }).collect()
}

/// Of several parts the strictest on each use; the strictest use first.
pub fn strictest<'p>(protocol: &Protocol, parts: &[Part<'p>]) -> Vec<OnUse<'p>> {
    let of = |at: UseAt| {
        let on = parts.iter().flat_map(|part| &part.uses).filter(|on| on.at == at);
        // Where two are as strict, the one that says why.
        on.max_by_key(|on| (on.ruling, on.say.is_some())).cloned()
    };
    let mut uses: Vec<OnUse> = protocol.uses_enumerated().filter_map(|(at, _)| of(at)).collect();
    uses.sort_by_key(|on| std::cmp::Reverse(on.ruling));
    uses
}

/// The uses a wound of hers is: what it is, and where. None where nothing of it is told.
pub fn of_wound(protocol: &Protocol, before: Before, wound: usize) -> Vec<UseAt> {
    let said = |question: &str| match before.findings.answer(About::Wound(wound), question).map(|s| &s.statement.answer)
    {
        Some(Answer::Choice(answer)) => Some(answer),
        Some(Answer::Amount(_) | Answer::Figure(_) | Answer::CannotTell) | None => None,
    };
    let told = |(question, answers): &(_, Vec<_>)| {
        let question: &crate::finding::Id = question;
        said(question.as_str()).is_some_and(|answer| answers.contains(answer))
    };
    protocol.uses_enumerated().filter(|(_, one)| one.told_by.iter().any(told)).map(|(at, _)| at).collect()
}

/// Of the wounds her plan asks it for, those it may go on: no use of such a wound forbids it, and it is the use that was named.
pub fn open_to(
    protocol: &Protocol,
    before: Before,
    (uses, named): (&[OnUse], Option<UseAt>),
    planned: &[Target],
) -> Vec<Target> {
    let forbidden = |at: &UseAt| uses.iter().any(|on| on.at == *at && on.ruling >= Ruling::Unknown);
    let open = |target: &&Target| {
        let Some(wound) = target.wound else { return true };
        let of = of_wound(protocol, before, wound);
        !of.iter().any(forbidden) && named.is_none_or(|named| of.is_empty() || of.contains(&named))
    };
    planned.iter().filter(open).copied().collect()
}
