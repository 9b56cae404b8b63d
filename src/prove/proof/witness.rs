//! A bird that refutes a claim, made as healthy as she can be with the fault still showing, in readable words.

use super::Desk;
use crate::finding::About;
use crate::finding::Id;
use crate::protocol::question::{Asked, Question};
use crate::prove::clauses::{Bit, Clauses, OutOfBudget};
use crate::prove::domain::answer_of;
use crate::prove::form::Form;
use crate::sheet::{Cell, Sheet, Subject, Truth};

/// What is wrong, and the bird of whom it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Witness {
    /// What is wrong, in one sentence.
    pub what: String,
    /// The item of the protocol it is wrong in, where it is in one.
    pub item: Option<Id>,
    /// What was found on her, where it is not the first answer; empty where the fault needs no bird.
    pub bird: Vec<String>,
    /// All of it, as the judge reads it.
    pub said: Vec<(Asked, Cell)>,
    /// The same of a second bird, where the fault lies between two.
    pub other: Vec<(Asked, Cell)>,
}

impl Witness {
    /// A fault that shows without a bird.
    pub(super) fn plain(what: String) -> Self {
        Self { what, item: None, bird: Vec::new(), said: Vec::new(), other: Vec::new() }
    }

    /// A fault of one item that shows without a bird.
    pub(super) fn in_item(item: &Id, what: String) -> Self {
        Self::plain(what).item(item)
    }

    /// The same fault, and the item it is in.
    pub(super) fn item(self, item: &Id) -> Self {
        Self { item: Some(item.clone()), ..self }
    }

    /// A fault of a bird the solver found.
    pub(super) fn of(desk: &Desk, what: String, bird: &Sheet) -> Self {
        let said = said(desk, bird);
        // "Fine" is the first answer only where answers get worse; a cause or a place has none that is fine.
        let fine = |asked: &Asked, cell: Cell| cell == Cell::Given(0) && desk.protocol.ask(asked.question).ordered;
        let telling = said.iter().filter(|(asked, cell)| !fine(asked, *cell));
        let words = telling.map(|(asked, cell)| {
            let question = desk.protocol.ask(asked.question);
            let about = match asked.about {
                About::Bird => String::new(),
                About::Wound(number) => format!("wound {}, ", number + 1),
            };
            format!("{about}{}: {}", question.topic, words_of(question, *cell))
        });
        Self { bird: words.collect(), said, ..Self::plain(what) }
    }

    /// The same fault with the second bird beside the first.
    pub(super) fn beside(self, desk: &Desk, other: &Sheet) -> Self {
        Self { other: said(desk, other), ..self }
    }
}

/// A cell in plain words, figures beyond the answers among them.
pub(super) fn words_of(question: &Question, cell: Cell) -> String {
    match (cell, answer_of(question, cell)) {
        (_, Some(answer)) => question.words(&answer),
        (Cell::Worked(band, ..), None) if band.high == 0 => "none at all".to_owned(),
        (_, None) => "far more than any answer".to_owned(),
    }
}

/// Everything said of a bird that applies to her.
fn said(desk: &Desk, bird: &Sheet) -> Vec<(Asked, Cell)> {
    let mut found = Vec::new();
    for (at, question) in desk.protocol.enumerated() {
        for about in bird.abouts(question) {
            let subject = Subject::from(about);
            let cell = bird.cell(subject, at);
            if cell != Cell::NotAsked && bird.applies(subject, at) != Truth::No {
                found.push((Asked { about, question: at }, cell));
            }
        }
    }
    found
}

/// A bird of whom all of `assumed` is true, as healthy as can be: no wound, and every first answer, that is not needed.
///
/// # Errors
/// Where the work allowed does not suffice.
pub(super) fn healthiest<'p>(
    form: &Form<'_, 'p>,
    clauses: &mut Clauses,
    assumed: &[Bit],
) -> Result<Option<Sheet<'p>>, OutOfBudget> {
    let Some(mut best) = Form::can_be(&[form], clauses, assumed)? else { return Ok(None) };
    let mut fixed = assumed.to_vec();
    let wounds: Vec<Bit> = form.wounds().rev().map(|column| form.present(column).not()).collect();
    let first: Vec<Bit> = form.places().filter_map(|(_, options)| options.first().map(|(_, bit)| *bit)).collect();
    for wish in wounds.into_iter().chain(first) {
        fixed.push(wish);
        match Form::can_be(&[form], clauses, &fixed) {
            Ok(Some(birds)) => best = birds,
            Ok(None) => {
                fixed.pop();
            }
            // She shows the fault, if not as healthy as she might be.
            Err(OutOfBudget) => break,
        }
    }
    Ok(best.pop())
}
