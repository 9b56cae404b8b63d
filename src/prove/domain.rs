//! What may still be found: the answers an open question can get, and which birds cannot be.

use super::gauge::Marks;
use crate::bird::Kind;
use crate::finding::Answer;
use crate::protocol::Protocol;
use crate::protocol::cond::{QuestionAt, Threshold};
use crate::protocol::question::Question;
use crate::protocol::rule::Exclusion;
use crate::sheet::{Cell, Sheet, Subject};
use crate::typed::weight::{LEAST, MOST};
use crate::unit::{Band, Grams};
use std::collections::BTreeSet;

/// What a place may hold that nobody has answered: each answer, "cannot tell", and where a number may be given instead the
/// least and the most, between which every measure lies; of weights, which have no worse end, one for every stretch between the
/// values some rule holds them against.
pub fn domain(protocol: &Protocol, at: QuestionAt) -> Vec<Cell> {
    // Only weights are told apart at what rules hold them against.
    let marks = if protocol.ask(at).is_weight() { Marks::of(protocol) } else { Marks::default() };
    domain_at(protocol, at, &marks)
}

/// The same, for marks that need not be the protocol's own.
pub fn domain_at(protocol: &Protocol, at: QuestionAt, marks: &Marks) -> Vec<Cell> {
    let question = protocol.ask(at);
    let choices = (0u8..).zip(&question.choices).map(|(at, _)| Cell::Given(at));
    let mut cells: Vec<Cell> = choices.collect();
    if question.is_weight() {
        let marks = marks.thresholds.iter().filter_map(|mark| match *mark {
            Threshold::Weight(grams) if grams > LEAST && grams <= MOST => Some(grams),
            _ => None,
        });
        // The ends of what is taken of any kind; those that are not hers are ruled out with her kind.
        let kinds = std::iter::once(None).chain(Kind::ALL.map(Some));
        let ends = kinds.map(Kind::taken_of).flat_map(|Band { low, high }| [low, high]);
        let told: BTreeSet<Grams> = ends.chain(marks).collect();
        cells.extend(told.into_iter().map(|Grams(grams)| Cell::Amount(grams)));
    }
    if let Some(of) = question.figure() {
        let at = |value: u64| {
            let (first, last) = question.stands_for(Band::exactly(value))?;
            Some(Cell::Worked(Band::exactly(value), first, last))
        };
        let told = marks.figures.iter().filter(|(kind, _)| *kind == of).map(|(_, value)| *value);
        let told: BTreeSet<u64> = [0, of.most()].into_iter().chain(told).collect();
        cells.extend(told.into_iter().filter_map(at));
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

/// Whether a bird of whom so much is known can be: no answer or weight is one of other kinds only, and none excludes another.
///
/// What clashes already in what is known stays said and counts for nothing more: the person is told of it elsewhere.
pub fn is_possible(protocol: &Protocol, known: &Sheet, bird: &Sheet) -> bool {
    let misplaced = |of: &Sheet, at: QuestionAt, question: &Question| match of.cell(Subject::Bird, at) {
        Cell::Given(choice) => !question.is_offered(choice, of.kind()),
        Cell::Amount(grams) => !Kind::taken_of(of.kind()).holds(&Grams(grams)),
        Cell::NotAsked | Cell::Worked(..) | Cell::CannotTell => false,
    };
    // While her kind is open, any answer may turn out to be one of her kind's.
    let kind_is_open = known.cell(Subject::Bird, protocol.roles.kind.question) == Cell::NotAsked;
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
