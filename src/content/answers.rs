//! What was said in words: an answer with what another adds to it, "droops, but moves (left)".

use super::document::topic;
use super::seen;
use super::terms::build;
use crate::finding::{About, Answer, Findings};
use crate::judge::Reason;
use crate::phrase::{Quantity, Text, terms};
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, Choice, Question};
use crate::sheet::{Sheet, Truth};
use crate::unit::{Band, Grams};
use chrono::DateTime;

/// The answer to a question in words, where it is known: one that could not be told is not.
pub fn known(protocol: &Protocol, findings: &Findings, about: About, question: &Question) -> Option<Text> {
    let words = alone(findings, about, question)?;
    let at = protocol.question_at(question.id.as_str());
    let adds = protocol.enumerated().filter(|(_, other)| other.adds_to.is_some() && other.adds_to == at);
    let added: Vec<Text> = adds
        .filter_map(|(at, other)| {
            let words = alone(findings, about, other)?;
            applies(protocol, findings, Asked { about, question: at }).then_some(words)
        })
        .collect();
    Some(if added.is_empty() { words } else { terms::cite(words, Text::list(added)).into() })
}

fn alone(findings: &Findings, about: About, question: &Question) -> Option<Text> {
    let answer = &findings.answer(about, question.id.as_str())?.statement.answer;
    (*answer != Answer::CannotTell).then(|| of(question, answer))
}

/// An answer to a question as it is read.
pub fn of(question: &Question, answer: &Answer) -> Text {
    match answer {
        Answer::CannotTell => terms::cannot_tell().into(),
        Answer::Amount(grams) => Quantity::weight(Band::exactly(Grams(*grams))).into(),
        Answer::Figure(figure) => seen::figure(figure),
        Answer::Choice(id) => {
            question.choice_at(id.as_str()).and_then(|at| question.choices.get(usize::from(at))).map_or_else(
                || terms::answer_unknown(Text::typed(id.as_str())).into(),
                |choice| self::choice(question, choice),
            )
        }
    }
}

/// An answer that may be chosen, as it is read.
pub fn choice(question: &Question, choice: &Choice) -> Text {
    question.build(choice).map_or_else(|| Text::quoted(&choice.say), |of| build(of.of).into())
}

/// An action that was done, by its line; by its id where this protocol does not know it.
pub fn act(protocol: &Protocol, id: &str) -> Text {
    let known = protocol.actions.iter().find(|known| known.id.as_str() == id);
    known.map_or_else(|| Text::typed(id), |known| Text::quoted(&known.say))
}

/// At most so many of what could not be told are named at once.
const UNTOLD: usize = 3;

/// What could not be told of all that these reasons read, in a list; none where all was told.
pub fn untold<'a>(protocol: &Protocol, sheet: &Sheet, reasons: impl IntoIterator<Item = &'a Reason>) -> Option<Text> {
    let read = reasons
        .into_iter()
        .flat_map(|reason| protocol.rests_on(&protocol.rule(reason.rule).when, reason.about, sheet.wounds()));
    let mut topics: Vec<Text> = Vec::new();
    for asked in read.filter(|asked| sheet.could_not_be_told(*asked)) {
        let told = topic(protocol, asked);
        if !topics.contains(&told) {
            topics.push(told);
        }
    }
    topics.truncate(UNTOLD);
    (!topics.is_empty()).then(|| Text::list_ended(topics))
}

/// Whether a question still applies: a wound said to be on the left wing, and then on the back, has no side.
fn applies(protocol: &Protocol, findings: &Findings, asked: Asked) -> bool {
    // No question applies by the clock, so any moment will do.
    let sheet = Sheet::lay(protocol, findings, DateTime::UNIX_EPOCH);
    sheet.applies(asked.about.into(), asked.question) == Truth::Yes
}
