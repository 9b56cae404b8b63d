//! What an answer amounts to in the log: the statements, and the instruction an answer calls up at once.

use super::Exam;
use crate::finding::log::Entry;
use crate::finding::{Answer, Id, Statement};
use crate::protocol::question::Asked;
use crate::protocol::{Protocol, cond::QuestionAt};

/// The entries for one answer to one question.
pub fn answer(protocol: &Protocol, asked: Asked, answer: Answer) -> Vec<Entry> {
    let instruct = instruction(protocol, asked.question, &answer);
    let mut entries = vec![Entry::Said(vec![statement(protocol, asked, answer)])];
    entries.extend(instruct.map(Entry::Began));
    entries
}

/// The entries for a sign of a list that is seen: its worst answer. Saying it again calls its instruction up again.
pub fn affirm(protocol: &Protocol, asked: Asked) -> Vec<Entry> {
    let worst = protocol.ask(asked.question).choices.last().map(|worst| Answer::Choice(worst.id.clone()));
    worst.map_or_else(Vec::new, |worst| answer(protocol, asked, worst))
}

/// The entry that answers every sign of a list not spoken of yet with its first answer: "none of the rest".
pub fn none_of_the_rest(protocol: &Protocol, exam: &Exam, list: &Id) -> Option<Entry> {
    rest(protocol, exam, list, |at| protocol.ask(at).choices.first().map(|first| Answer::Choice(first.id.clone())))
}

/// The entry that leaves every sign of a list not spoken of yet at "cannot tell".
pub fn cannot_tell_rest(protocol: &Protocol, exam: &Exam, list: &Id) -> Option<Entry> {
    rest(protocol, exam, list, |_| Some(Answer::CannotTell))
}

fn rest(protocol: &Protocol, exam: &Exam, list: &Id, with: impl Fn(QuestionAt) -> Option<Answer>) -> Option<Entry> {
    let statements: Vec<Statement> = protocol
        .list(list)
        .into_iter()
        .map(|question| Asked { about: crate::finding::About::Bird, question })
        .filter(|asked| exam.standing(*asked).is_none())
        .filter_map(|asked| Some(statement(protocol, asked, with(asked.question)?)))
        .collect();
    (!statements.is_empty()).then_some(Entry::Said(statements))
}

fn statement(protocol: &Protocol, asked: Asked, answer: Answer) -> Statement {
    Statement { about: asked.about, question: protocol.ask(asked.question).id.clone(), answer }
}

fn instruction(protocol: &Protocol, question: QuestionAt, answer: &Answer) -> Option<Id> {
    let Answer::Choice(id) = answer else {
        return None;
    };
    let question = protocol.ask(question);
    let at = question.choice_at(id.as_str())?;
    question.choices.get(usize::from(at))?.instruct.clone()
}
