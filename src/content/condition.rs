//! A rule's condition in words a vet can hold against what they know: topics and answers as they are asked, measures with units.

use crate::protocol::Protocol;
use crate::protocol::cond::{AnswerSet, Cond, QuestionAt, Threshold};
use crate::protocol::question::Question;
use crate::reckon::percent;
use crate::typed::weight;
use crate::unit::{Minutes, TenthsPerMinute};

/// A condition in one line. What joins its parts stands in capitals; a part of several stands in brackets.
pub fn words(protocol: &Protocol, cond: &Cond) -> String {
    match cond {
        Cond::Always => "always".to_owned(),
        Cond::Answer(at, set) => answer(protocol, *at, *set),
        Cond::All(parts) => joined(protocol, parts, " AND "),
        Cond::Any(parts) => joined(protocol, parts, " OR "),
        Cond::Not(part) => not(protocol, part),
        Cond::Count(least, parts) => {
            let parts: Vec<String> = parts.iter().map(|part| inner(protocol, part)).collect();
            format!("at least {least} of these: {}", parts.join("; "))
        }
        Cond::SomeWound(part) => format!("some wound with {}", inner(protocol, part)),
        Cond::AtLeast(threshold) => format!("{} or more", measure(*threshold)),
        Cond::Under(threshold) => format!("less than {}", measure(*threshold)),
    }
}

/// What is not so. Of an ordered question that is what the other answers say.
fn not(protocol: &Protocol, part: &Cond) -> String {
    match part {
        Cond::Answer(at, AnswerSet(bits)) if protocol.ask(*at).ordered => answer(protocol, *at, AnswerSet(!bits)),
        _ => format!("NOT {}", inner(protocol, part)),
    }
}

fn joined(protocol: &Protocol, parts: &[Cond], by: &str) -> String {
    parts.iter().map(|part| inner(protocol, part)).collect::<Vec<_>>().join(by)
}

/// A part of another condition: in brackets where it has parts itself.
fn inner(protocol: &Protocol, cond: &Cond) -> String {
    match cond {
        Cond::All(parts) | Cond::Any(parts) if parts.len() > 1 => format!("({})", words(protocol, cond)),
        Cond::Count(..) | Cond::SomeWound(_) => format!("({})", words(protocol, cond)),
        Cond::All(_)
        | Cond::Any(_)
        | Cond::Always
        | Cond::Answer(..)
        | Cond::Not(_)
        | Cond::AtLeast(_)
        | Cond::Under(_) => words(protocol, cond),
    }
}

/// A question's topic with the answers meant; a sign that is answered with its own name is named once.
fn answer(protocol: &Protocol, at: QuestionAt, set: AnswerSet) -> String {
    let question = protocol.ask(at);
    let told = answers(question, set);
    if told == question.topic { told } else { format!("{}: {told}", question.topic) }
}

fn answers(question: &Question, set: AnswerSet) -> String {
    let placed = (0u8..).zip(&question.choices);
    let held: Vec<(u8, &str)> =
        placed.filter(|(at, _)| set.holds(*at)).map(|(at, choice)| (at, choice.say.as_str())).collect();
    let last = question.choices.len().saturating_sub(1);
    let (Some((from, mildest)), Some((to, _))) = (held.first(), held.last()) else { return "nothing".to_owned() };
    let unbroken = usize::from(to - from) + 1 == held.len();
    if question.ordered && unbroken && held.len() > 1 && usize::from(*to) == last && *from > 0 {
        return format!("{mildest}, or worse");
    }
    held.iter().map(|(_, say)| *say).collect::<Vec<_>>().join(" / ")
}

fn measure(threshold: Threshold) -> String {
    match threshold {
        Threshold::Weight(grams) => weight::show(grams),
        Threshold::TimeSince(Minutes(minutes)) if minutes % 60 == 0 => format!("{} h since she was hurt", minutes / 60),
        Threshold::TimeSince(Minutes(minutes)) => format!("{minutes} min since she was hurt"),
        Threshold::SkinOpen(share) => format!("{} % of her skin open", percent(share)),
        Threshold::BloodLost(share) => format!("{} % of her blood lost", percent(share)),
        Threshold::BloodOfWeight(share) => format!("blood lost worth {} % of her weight", percent(share)),
        Threshold::BreathRate(TenthsPerMinute(tenths)) => format!("{} breaths a minute", tenths / 10),
        Threshold::Dryness(share) => format!("{} % of her weight lacking in water", percent(share)),
    }
}
