//! Why a line stands: the reason in words, what it leads to, and the two labels with their sources.

use crate::finding::About;
use crate::judge::{Reason, Standing};
use crate::protocol::Protocol;
use crate::protocol::rule::Advice;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::source::Strength;

/// The reason itself, with the wound it is about and how firmly it stands.
pub fn headline(protocol: &Protocol, reason: Reason) -> String {
    headline_of(protocol, reason, &[reason])
}

/// The same, for all the wounds it is said of.
pub fn headline_of(protocol: &Protocol, reason: Reason, of: &[Reason]) -> String {
    let text = &protocol.rule(reason.rule).reason;
    let numbers = of.iter().filter_map(|reason| match reason.about {
        About::Bird => None,
        About::Wound(number) => Some((number + 1).to_string()),
    });
    let numbers: Vec<String> = numbers.collect();
    let wound = match numbers.len() {
        0 => String::new(),
        1 => format!("Wound {}: ", numbers.concat()),
        _ => format!("Wounds {}: ", numbers.join(", ")),
    };
    match reason.standing {
        Standing::Seen => format!("{wound}{text}"),
        Standing::CouldNotTell => format!("{wound}Not ruled out, so it counts. {text}"),
        Standing::ExceptionOpen => format!("{wound}{text} (One more question could still hold this back.)"),
    }
}

/// What the rule leads to on the scales, as her keeper reads them; where it stands on doubt alone, no further than doubt may lead.
pub fn consequence(protocol: &Protocol, reason: Reason, no_vet: bool) -> String {
    let rule = protocol.rule(reason.rule);
    let (humane, authority) = match reason.standing {
        Standing::CouldNotTell => (Humane::MayComeIntoQuestion, Authority::Ask),
        Standing::Seen | Standing::ExceptionOpen => (Humane::Advised, Authority::CallNow),
    };
    let parts = [
        rule.need.map(|need| Need::told(no_vet)(need).to_owned()),
        rule.humane.map(|rung| format!("humane end {}", rung.min(humane).words())),
        rule.authority.map(|rung| rung.min(authority).words().to_owned()),
    ];
    let told = parts.into_iter().flatten().collect::<Vec<_>>().join("; ");
    match reason.standing {
        Standing::ExceptionOpen if !told.is_empty() => format!("not settled, {told}"),
        Standing::ExceptionOpen | Standing::Seen | Standing::CouldNotTell => told,
    }
}

/// Both labels: what the finding rests on, what the recommendation rests on, and whose figures they are.
pub fn labels(protocol: &Protocol, reason: Reason) -> Vec<String> {
    let rule = protocol.rule(reason.rule);
    let finding = format!("Finding: {}.", cite(protocol, protocol.source_id(rule.source).as_str(), rule.strength));
    let advice = match &rule.advice {
        Advice::Says(source) => {
            format!("Advice: the source itself, {}.", name(protocol, protocol.source_id(*source).as_str()))
        }
        Advice::Ours => "Advice: our inference, not reviewed by a vet.".to_owned(),
    };
    let borrowed = rule.borrowed.as_ref().map(|kind| format!("Borrowed from: {kind}."));
    [finding, advice].into_iter().chain(borrowed).collect()
}

/// A source and how well it is known; common practice and our own proposals have only the latter.
pub fn cite(protocol: &Protocol, source: &str, strength: Strength) -> String {
    match strength {
        Strength::Practice | Strength::Proposal => strength.words().to_owned(),
        Strength::Read | Strength::SecondHand | Strength::Memory => {
            format!("{} ({})", name(protocol, source), strength.words())
        }
    }
}

fn name(protocol: &Protocol, source: &str) -> String {
    protocol.source(source).map_or_else(|| source.to_owned(), |source| source.cite.clone())
}
