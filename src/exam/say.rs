//! What an answer amounts to in the log: the statements, and the instruction an answer calls up at once.

use super::Exam;
use crate::finding::log::{self, Entry, Spot, Stamped};
use crate::finding::{About, Answer, Statement};
use crate::protocol::question::{Asked, ListAt};
use crate::protocol::rule::InstructionAt;
use crate::protocol::{Protocol, cond::QuestionAt};
use chrono::{DateTime, Utc};

/// What is asked once an instruction has been carried out: the wound's question that called it up, again, where something
/// else comes if it has not helped; else the question the protocol names for it.
pub fn asks_after(protocol: &Protocol, log: &[Stamped], instruction: InstructionAt) -> Option<Spot> {
    let instruction = protocol.instruction(instruction);
    let standing = log::standing(log);
    let began =
        standing.iter().rposition(|stamped| matches!(&stamped.entry, Entry::Began(id) if *id == instruction.id))?;
    // It may have been put aside and gone back to in between, and what one key asks beside it answered.
    let beside = |said: &Statement| protocol.question(said.question.as_str()).is_some_and(|q| q.adds_to.is_some());
    let by_itself = |entry: &Entry| match entry {
        Entry::Began(_)
        | Entry::Ended(_)
        | Entry::Turned(_)
        | Entry::Went(_)
        | Entry::Timed { .. }
        | Entry::ClockEnded
        | Entry::Ticked { .. } => true,
        Entry::Said(statements) => statements.iter().all(beside),
        _ => false,
    };
    let before = standing.iter().take(began).rfind(|stamped| !by_itself(&stamped.entry));
    let called_by = before.and_then(|before| match &before.entry {
        Entry::Said(statements) => statements.last(),
        _ => None,
    });
    if let Some(Statement { about: about @ About::Wound(_), question, .. }) = called_by {
        instruction.again?;
        return Some(Spot { about: *about, question: question.clone() });
    }
    let then = protocol.ask(instruction.then?);
    Some(Spot { about: About::Bird, question: then.id.clone() })
}

/// The entries for one answer to one question.
///
/// Where the answer calls up what has just been done for it, as long as it takes, more of the same has not helped: what comes next
/// is told.
pub fn answer(protocol: &Protocol, exam: &Exam, asked: Asked, answer: Answer, now: DateTime<Utc>) -> Vec<Entry> {
    let instruct = instruction(protocol, asked.question, &answer);
    let instruct = instruct.map(|called| {
        let spot = exam.spot(asked);
        let did = exam.followed.as_ref().filter(|did| did.asks == spot && did.is_done(protocol, now));
        did.and_then(|done| goes_on(protocol, done.did, called)).unwrap_or(called)
    });
    // What only keeps from harm is told once.
    let again = |at: InstructionAt| protocol.instruction(at).once && exam.shown.contains(&at);
    let instruct = instruct.map(|at| exam.fitting(at, asked.about)).filter(|at| !again(*at));
    let mut entries = vec![Entry::Said(vec![statement(protocol, asked, answer)])];
    entries.extend(instruct.map(|at| began(protocol, at)));
    entries
}

/// What comes after an instruction that has not helped, where the one called up now leads the same way.
fn goes_on(protocol: &Protocol, did: InstructionAt, called: InstructionAt) -> Option<InstructionAt> {
    let again = |at: &InstructionAt| protocol.instruction(*at).again;
    // A protocol is refused where this would never end.
    let way = |from: InstructionAt| std::iter::successors(Some(from), again);
    way(called).any(|on_the_way| way(did).any(|other| other == on_the_way)).then(|| again(&did)).flatten()
}

/// The entry that an instruction comes on screen.
pub fn began(protocol: &Protocol, instruction: InstructionAt) -> Entry {
    Entry::Began(protocol.instruction(instruction).id.clone())
}

/// The entry that it is over, or put aside.
pub fn ended(protocol: &Protocol, instruction: InstructionAt) -> Entry {
    Entry::Ended(protocol.instruction(instruction).id.clone())
}

/// The entries for a sign of a list that is chosen: it is seen.
///
/// Chosen again it stays seen, for a key pressed twice makes nothing milder: nothing is said anew, but where its instruction is
/// wanted each time.
pub fn choose_sign(protocol: &Protocol, exam: &Exam, asked: Asked, sign: &Answer, now: DateTime<Utc>) -> Vec<Entry> {
    let wanted_again = instruction(protocol, asked.question, sign).is_some_and(|at| !protocol.instruction(at).once);
    if exam.said_now(asked) == Some(sign) && !wanted_again {
        return Vec::new();
    }
    answer(protocol, exam, asked, sign.clone(), now)
}

/// Whether a graver answer to the same question was given in this sitting: on a list both may be seen of her, and a milder one said
/// after it takes nothing back.
pub fn graver_stands(protocol: &Protocol, exam: &Exam, asked: Asked, sign: &Answer) -> bool {
    let question = protocol.ask(asked.question);
    let at = |answer: &Answer| match answer {
        Answer::Choice(id) => question.choice_at(id.as_str()),
        Answer::CannotTell | Answer::Amount(_) | Answer::Figure(_) => None,
    };
    let stands = exam.said_now(asked).and_then(at);
    question.ordered && stands.zip(at(sign)).is_some_and(|(stands, said)| stands > said)
}

/// The entry that answers every sign of a list not spoken of yet with its first answer: "none of the rest".
pub fn none_of_the_rest(protocol: &Protocol, exam: &Exam, list: ListAt) -> Option<Entry> {
    rest(protocol, exam, list, |at| protocol.ask(at).first_answer())
}

/// The entry that leaves these signs, as many of them as were not spoken of yet, at "cannot tell".
pub fn cannot_tell_these(protocol: &Protocol, exam: &Exam, signs: &[Asked]) -> Option<Entry> {
    these(protocol, exam, signs, |_| Some(Answer::CannotTell))
}

/// The entry that answers these signs, as many of them as were not spoken of yet, with their first answer.
pub fn none_of_these(protocol: &Protocol, exam: &Exam, signs: &[Asked]) -> Option<Entry> {
    these(protocol, exam, signs, |at| protocol.ask(at).first_answer())
}

/// The entry that answers every sign of a list not spoken of yet in this sitting as it was answered last time.
pub fn as_last_time(protocol: &Protocol, exam: &Exam, list: ListAt) -> Option<Entry> {
    rest(protocol, exam, list, |at| exam.last_time(Asked::of_bird(at)).map(|said| said.statement.answer.clone()))
}

/// What could not be told with these entries either: how a sign goes on that nobody could tell.
pub fn untold(protocol: &Protocol, log: &[Stamped]) -> Vec<Statement> {
    let exam = Exam::from_log(protocol, log);
    exam.untold().into_iter().map(|asked| statement(protocol, asked, Answer::CannotTell)).collect()
}

fn rest(protocol: &Protocol, exam: &Exam, list: ListAt, with: impl Fn(QuestionAt) -> Option<Answer>) -> Option<Entry> {
    these(protocol, exam, &exam.signs(list), with)
}

fn these(
    protocol: &Protocol,
    exam: &Exam,
    signs: &[Asked],
    with: impl Fn(QuestionAt) -> Option<Answer>,
) -> Option<Entry> {
    let statements: Vec<Statement> = signs
        .iter()
        .filter(|asked| exam.said_now(**asked).is_none())
        .filter_map(|asked| Some(statement(protocol, *asked, with(asked.question)?)))
        .collect();
    (!statements.is_empty()).then_some(Entry::Said(statements))
}

fn statement(protocol: &Protocol, asked: Asked, answer: Answer) -> Statement {
    Statement { about: asked.about, question: protocol.ask(asked.question).id.clone(), answer }
}

fn instruction(protocol: &Protocol, question: QuestionAt, answer: &Answer) -> Option<InstructionAt> {
    let Answer::Choice(id) = answer else {
        return None;
    };
    let question = protocol.ask(question);
    let at = question.choice_at(id.as_str())?;
    question.choices.get(usize::from(at))?.instruct
}
