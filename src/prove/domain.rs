//! What may still be found: the answers an open question can get, and which birds cannot be.

use super::gauge::thresholds;
use crate::finding::Answer;
use crate::protocol::Protocol;
use crate::protocol::cond::{QuestionAt, Threshold};
use crate::protocol::question::Question;
use crate::protocol::raw::Measure;
use crate::protocol::rule::Exclusion;
use crate::sheet::{Cell, Sheet, Subject};
use crate::typed::weight::{LEAST, MOST};
use crate::unit::{Band, Grams};

/// What a place may hold that nobody has answered: each answer, "cannot tell", and where a number may be given instead the
/// least and the most, between which every measure lies; of weights, which have no worse end, one for every stretch between the
/// values some rule holds them against.
pub fn domain(protocol: &Protocol, at: QuestionAt) -> Vec<Cell> {
    let question = protocol.ask(at);
    let choices = (0u8..).zip(&question.choices).map(|(at, _)| Cell::Given(at));
    let mut cells: Vec<Cell> = choices.collect();
    if question.is_weight() {
        let marks = thresholds(protocol).into_iter().filter_map(|mark| match mark {
            Threshold::Weight(Grams(grams)) if grams > LEAST.0 && grams <= MOST.0 => Some(grams),
            _ => None,
        });
        cells.extend([LEAST.0, MOST.0].into_iter().chain(marks).map(Cell::Amount));
    }
    if question.figure().is_some() {
        let at = |value: u64| {
            let (first, last) = question.stands_for(Band::exactly(value))?;
            Some(Cell::Worked(Band::exactly(value), first, last))
        };
        cells.extend([at(0), at(most(question))].into_iter().flatten());
    }
    cells.push(Cell::CannotTell);
    cells
}

/// The answer a cell stands for, where a person can give it by choosing.
pub fn answer_of(question: &Question, cell: Cell) -> Option<Answer> {
    match cell {
        Cell::Given(at) => question.choices.get(usize::from(at)).map(|choice| Answer::Choice(choice.id.clone())),
        Cell::Amount(grams) => Some(Answer::Amount(grams)),
        Cell::CannotTell => Some(Answer::CannotTell),
        Cell::Worked(..) | Cell::NotAsked => None,
    }
}

/// Whether a bird of whom so much is known can be: no answer is one offered to other kinds only, and none excludes another.
///
/// What clashes already in what is known stays said and counts for nothing more: the person is told of it elsewhere.
pub fn is_possible(protocol: &Protocol, known: &Sheet, bird: &Sheet) -> bool {
    let misplaced = |of: &Sheet, at: QuestionAt, question: &Question| matches!(of.cell(Subject::Bird, at), Cell::Given(choice) if !question.is_offered(choice, of.kind()));
    // While her kind is open, any answer may turn out to be one of her kind's.
    let kind_is_open = protocol.kind_at().is_some_and(|at| known.cell(Subject::Bird, at) == Cell::NotAsked);
    let offered = protocol
        .enumerated()
        .filter(|(_, question)| !question.wound)
        .all(|(at, question)| !misplaced(bird, at, question) || (!kind_is_open && misplaced(known, at, question)));
    let subjects = || std::iter::once(Subject::Bird).chain((0..bird.wounds()).map(Subject::Wound));
    let excluded = |exclusion: &Exclusion| {
        let holds = |of: &Sheet, subject| of.surely(&exclusion.one, subject) && of.surely(&exclusion.other, subject);
        subjects().any(|subject| holds(bird, subject) && !holds(known, subject))
    };
    offered && !protocol.exclusions.iter().any(excluded)
}

/// More than a figure of this measure can come to, in its base unit.
fn most(question: &Question) -> u64 {
    match question.gives {
        Some(Measure::BloodLost) => u64::from(MOST.0) * 1000,
        Some(Measure::BreathRate) => 20_000,
        Some(Measure::Refill) => 10_000,
        _ => u64::from(u32::MAX),
    }
}
