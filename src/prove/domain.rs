//! What may still be found: the answers an open question can get, and which birds cannot be.

use crate::finding::Answer;
use crate::protocol::Protocol;
use crate::protocol::question::Question;
use crate::protocol::raw::Measure;
use crate::protocol::rule::Exclusion;
use crate::sheet::{Cell, Sheet, Subject};
use crate::typed::weight::{LEAST, MOST};
use crate::unit::Band;

/// What a place may hold that nobody has answered: each answer, "cannot tell", and where a number may be given instead the
/// least and the most, between which every measure lies.
pub fn domain(question: &Question) -> Vec<Cell> {
    let choices = (0u8..).zip(&question.choices).map(|(at, _)| Cell::Given(at));
    let mut cells: Vec<Cell> = choices.collect();
    if question.is_weight() {
        cells.extend([Cell::Amount(LEAST.0), Cell::Amount(MOST.0)]);
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

/// Whether such a bird can be: no answer is one offered to other kinds only, and none excludes another.
pub fn is_possible(protocol: &Protocol, bird: &Sheet) -> bool {
    let offered = protocol.enumerated().filter(|(_, question)| !question.wound).all(|(at, question)| {
        !matches!(bird.cell(Subject::Bird, at), Cell::Given(choice) if !question.is_offered(choice, bird.kind()))
    });
    let subjects = || std::iter::once(Subject::Bird).chain((0..bird.wounds()).map(Subject::Wound));
    let excluded = |exclusion: &Exclusion| {
        subjects().any(|subject| bird.surely(&exclusion.one, subject) && bird.surely(&exclusion.other, subject))
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
