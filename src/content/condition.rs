//! A rule's condition in words a vet can hold against what they know: topics and answers as they are asked, measures with units.

use super::answers::choice as choice_of;
use crate::phrase::{Phrase, Quantity, Text, condition as phrase, terms};
use crate::protocol::Protocol;
use crate::protocol::cond::{AnswerSet, Cond, QuestionAt, Threshold};
use crate::protocol::question::Question;
use crate::unit::{Band, Minutes, Permille, TenthsPerMinute};

/// A condition in one line. What joins its parts stands in capitals; a part of several stands in brackets.
pub fn words(protocol: &Protocol, cond: &Cond) -> Text {
    match cond {
        Cond::Always => phrase::always().into(),
        Cond::Answer(at, set) => answer(protocol, *at, *set),
        Cond::All(parts) => joined(protocol, parts, phrase::and),
        Cond::Any(parts) => joined(protocol, parts, phrase::or),
        Cond::Not(part) => not(protocol, part),
        Cond::Count(least, parts) => {
            let parts = Text::clauses(parts.iter().map(|part| inner(protocol, part)));
            phrase::count(*least, parts).into()
        }
        Cond::SomeWound(part) => phrase::some_wound(inner(protocol, part)).into(),
        Cond::AtLeast(threshold) => phrase::or_more(measure(*threshold)).into(),
        Cond::Under(threshold) => phrase::less_than(measure(*threshold)).into(),
    }
}

/// What is not so. Of an ordered question that is what the other answers say.
fn not(protocol: &Protocol, part: &Cond) -> Text {
    match part {
        Cond::Answer(at, AnswerSet(bits)) if protocol.ask(*at).ordered => answer(protocol, *at, AnswerSet(!bits)),
        _ => phrase::not(inner(protocol, part)).into(),
    }
}

fn joined(protocol: &Protocol, parts: &[Cond], by: fn(Text, Text) -> Phrase) -> Text {
    let parts = parts.iter().map(|part| inner(protocol, part));
    parts.reduce(|one, other| by(one, other).into()).unwrap_or_default()
}

/// A part of another condition: in brackets where it has parts itself.
fn inner(protocol: &Protocol, cond: &Cond) -> Text {
    let told = words(protocol, cond);
    match cond {
        Cond::All(parts) | Cond::Any(parts) if parts.len() > 1 => phrase::inner(told).into(),
        Cond::Count(..) | Cond::SomeWound(_) => phrase::inner(told).into(),
        Cond::All(_)
        | Cond::Any(_)
        | Cond::Always
        | Cond::Answer(..)
        | Cond::Not(_)
        | Cond::AtLeast(_)
        | Cond::Under(_) => told,
    }
}

/// A question's topic with the answers meant; a sign that is answered with its own name is named once.
fn answer(protocol: &Protocol, at: QuestionAt, set: AnswerSet) -> Text {
    let question = protocol.ask(at);
    let (topic, told) = (Text::quoted(&question.topic), answers(question, set));
    if told == topic { told } else { terms::named(topic, told).into() }
}

fn answers(question: &Question, set: AnswerSet) -> Text {
    let placed = (0u8..).zip(&question.choices);
    let held: Vec<(u8, Text)> =
        placed.filter(|(at, _)| set.holds(*at)).map(|(at, choice)| (at, choice_of(question, choice))).collect();
    let last = question.choices.len().saturating_sub(1);
    let (Some((from, mildest)), Some((to, _))) = (held.first(), held.last()) else { return phrase::nothing().into() };
    let unbroken = usize::from(to - from) + 1 == held.len();
    if question.ordered && unbroken && held.len() > 1 && usize::from(*to) == last && *from > 0 {
        return phrase::or_worse(mildest.clone()).into();
    }
    let held = held.into_iter().map(|(_, say)| say);
    held.reduce(|one, other| phrase::either(one, other).into()).unwrap_or_default()
}

fn measure(threshold: Threshold) -> Text {
    let share = |share: Permille| Text::from(Quantity::share(Band::exactly(share)));
    match threshold {
        Threshold::Weight(grams) => Quantity::weight(Band::exactly(grams)).into(),
        Threshold::TimeSince(Minutes(minutes)) if minutes % 60 == 0 => phrase::hours_since(minutes / 60).into(),
        Threshold::TimeSince(Minutes(minutes)) => phrase::minutes_since(minutes).into(),
        Threshold::SkinOpen(of) => phrase::skin_open(share(of)).into(),
        Threshold::BloodLost(of) => phrase::blood_lost(share(of)).into(),
        Threshold::BloodOfWeight(of) => phrase::blood_of_weight(share(of)).into(),
        Threshold::BreathRate(TenthsPerMinute(tenths)) => phrase::breaths(tenths / 10).into(),
        Threshold::Dryness(of) => phrase::dryness(share(of)).into(),
    }
}
