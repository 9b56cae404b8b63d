//! A bird that refutes a claim, made as healthy as she can be with the fault still showing, in readable words.

use super::{Prover, Sort};
use crate::finding::{About, Id};
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, Question};
use crate::prove::clauses::{Bit, Clauses, OutOfBudget};
use crate::prove::domain::answer_of;
use crate::prove::form::Form;
use crate::sheet::{Cell, Sheet, Subject, Truth};
use crate::unit::Band;

/// What is wrong, and the bird of whom it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Witness {
    /// What is wrong, in one sentence.
    pub what: String,
    /// The item of the protocol it is wrong in, where it is in one.
    pub item: Option<Id>,
    /// Of which sort that is: a sign to watch for may have a rule's name.
    pub sort: Option<Sort>,
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
        Self { what, item: None, sort: None, bird: Vec::new(), said: Vec::new(), other: Vec::new() }
    }

    /// A fault of one item that shows without a bird.
    pub(super) fn in_item(sort: Sort, item: &Id, what: String) -> Self {
        Self::plain(what).item(sort, item)
    }

    /// The same fault, and the item it is in.
    pub(super) fn item(self, sort: Sort, item: &Id) -> Self {
        Self { item: Some(item.clone()), sort: Some(sort), ..self }
    }

    /// A fault of a bird the solver found.
    pub(super) fn of(desk: &Prover, what: String, bird: &Sheet) -> Self {
        let said = said(desk.protocol, bird);
        Self { bird: in_words(desk.protocol, &said), said, ..Self::plain(what) }
    }

    /// The same fault with the second bird beside the first.
    pub(super) fn beside(self, desk: &Prover, other: &Sheet) -> Self {
        Self { other: said(desk.protocol, other), ..self }
    }
}

/// A cell in plain words, figures beyond the answers among them.
pub(super) fn words_of(question: &Question, cell: Cell) -> String {
    match (cell, answer_of(question, cell)) {
        (_, Some(answer)) => question.for_author(&answer),
        (Cell::Worked(band, ..), None) if band.high == 0 => "none at all".to_owned(),
        (Cell::Worked(Band { low, .. }, ..), None) if question.figure().is_some_and(|of| low < of.most()) => {
            question.figure().map_or_else(String::new, |of| of.for_author(low))
        }
        (_, None) => "far more than any answer".to_owned(),
    }
}

/// What was found on a bird and is not fine, in words.
pub(in crate::prove) fn in_words(protocol: &Protocol, said: &[(Asked, Cell)]) -> Vec<String> {
    // "Fine" is the first answer only where answers get worse; a cause or a place has none that is fine.
    let fine = |asked: &Asked, cell: Cell| cell == Cell::Given(0) && protocol.ask(asked.question).ordered;
    let telling = said.iter().filter(|(asked, cell)| !fine(asked, *cell));
    let words = telling.map(|(asked, cell)| {
        let question = protocol.ask(asked.question);
        let about = match asked.about {
            About::Bird => String::new(),
            About::Wound(number) => format!("wound {}, ", number + 1),
        };
        format!("{about}{}: {}", question.topic, words_of(question, *cell))
    });
    words.collect()
}

/// Everything said of a bird that applies to her.
pub(in crate::prove) fn said(protocol: &Protocol, bird: &Sheet) -> Vec<(Asked, Cell)> {
    let mut found = Vec::new();
    for (at, question) in protocol.enumerated() {
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
    Ok(healthiest_of(&[form], clauses, assumed, &[])?.and_then(|mut birds| birds.pop()))
}

/// The same as one bird is told to several protocols; `first` is wished for before anything else.
///
/// # Errors
/// Where the work allowed does not suffice.
pub(in crate::prove) fn healthiest_of<'p>(
    forms: &[&Form<'_, 'p>],
    clauses: &mut Clauses,
    assumed: &[Bit],
    first: &[Bit],
) -> Result<Option<Vec<Sheet<'p>>>, OutOfBudget> {
    let Some(mut best) = Form::can_be(forms, clauses, assumed)? else { return Ok(None) };
    let mut fixed = assumed.to_vec();
    let mut wishes = first.to_vec();
    for form in forms {
        wishes.extend(form.wounds().rev().map(|column| form.present(column).not()));
    }
    for form in forms {
        wishes.extend(form.places().filter_map(|(_, options)| options.first().map(|(_, bit)| *bit)));
    }
    let granted = |clauses: &Clauses| wishes.iter().map(|wish| clauses.value(*wish)).collect::<Vec<bool>>();
    let mut so = granted(clauses);
    for (at, wish) in wishes.iter().enumerate() {
        fixed.push(*wish);
        // The bird found last may be so already.
        if so.get(at) == Some(&true) {
            continue;
        }
        match Form::can_be(forms, clauses, &fixed) {
            Ok(Some(birds)) => {
                best = birds;
                so = granted(clauses);
            }
            Ok(None) => {
                fixed.pop();
            }
            // She shows the fault, if not as healthy as she might be.
            Err(OutOfBudget) => break,
        }
    }
    Ok(Some(best))
}
