//! Why a line stands: the reason, what it leads to, and the two labels with their sources.

use super::terms;
use crate::finding::About;
use crate::judge::{Reason, Standing};
use crate::phrase::{Text, terms as words, why};
use crate::protocol::Protocol;
use crate::protocol::rule::Advice;
use crate::protocol::scale::{Authority, Humane};
use crate::protocol::source::{Source, Strength};
use crate::protocol::table::At;

/// The reason itself, with the wound it is about and how firmly it stands.
pub fn headline(protocol: &Protocol, reason: Reason) -> Text {
    headline_of(protocol, reason, &[reason])
}

/// The same, for all the wounds it is said of.
pub fn headline_of(protocol: &Protocol, reason: Reason, of: &[Reason]) -> Text {
    let text = Text::quoted(&protocol.rule(reason.rule).reason);
    let wounds: Vec<usize> = of
        .iter()
        .filter_map(|reason| match reason.about {
            About::Bird => None,
            About::Wound(number) => Some(number),
        })
        .collect();
    terms::of_wounds(
        &wounds,
        match reason.standing {
            Standing::Seen => text,
            Standing::CouldNotTell => why::could_not_tell(text).into(),
            Standing::ExceptionOpen => why::exception_open(text).into(),
        },
    )
}

/// What the rule leads to on the scales, as her keeper reads them; where it stands on doubt alone, no further than doubt may lead.
/// Empty where it moves none.
pub fn consequence(protocol: &Protocol, reason: Reason, no_vet: bool) -> Text {
    let rule = protocol.rule(reason.rule);
    let (humane, authority) = match reason.standing {
        Standing::CouldNotTell => (Humane::MayComeIntoQuestion, Authority::Ask),
        Standing::Seen | Standing::ExceptionOpen => (Humane::Advised, Authority::CallNow),
    };
    let parts = [
        rule.need.map(|need| terms::need(need, no_vet)),
        rule.humane.map(|rung| why::humane(terms::humane(rung.min(humane)))),
        rule.authority.map(|rung| terms::authority(rung.min(authority))),
    ];
    let told = Text::clauses(parts.into_iter().flatten());
    match reason.standing {
        Standing::ExceptionOpen if !told.is_empty() => why::not_settled(told).into(),
        Standing::ExceptionOpen | Standing::Seen | Standing::CouldNotTell => told,
    }
}

/// Both labels: what the finding rests on, what the recommendation rests on, and whose figures they are.
pub fn labels(protocol: &Protocol, reason: Reason) -> Vec<Text> {
    let rule = protocol.rule(reason.rule);
    let finding = why::finding(cite(protocol, rule.source, rule.strength));
    let advice = match &rule.advice {
        Advice::Says(source) => why::advice(name(protocol, *source)),
        Advice::Ours => why::ours(),
    };
    let borrowed = rule.borrowed.as_ref().map(|kind| why::borrowed(Text::quoted(kind)));
    [finding, advice].into_iter().chain(borrowed).map(Text::from).collect()
}

/// A source and how well it is known; common practice and our own proposals have only the latter.
pub fn cite(protocol: &Protocol, source: At<Source>, strength: Strength) -> Text {
    let how = terms::strength(strength);
    match strength {
        Strength::Practice | Strength::Proposal => how.into(),
        Strength::Read | Strength::SecondHand | Strength::Memory => words::cite(name(protocol, source), how).into(),
    }
}

/// A source by its name among those of the protocol.
fn name(protocol: &Protocol, source: At<Source>) -> Text {
    Text::quoted(&protocol.sources.of(source).cite)
}
