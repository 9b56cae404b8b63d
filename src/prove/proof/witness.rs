//! A bird that refutes a claim, made as healthy as she can be with the fault still showing, in readable words.

use super::Desk;
use crate::finding::About;
use crate::protocol::question::Asked;
use crate::prove::clauses::{Bit, Clauses, OutOfBudget};
use crate::prove::domain::answer_of;
use crate::prove::form::Form;
use crate::sheet::{Cell, Sheet, Subject, Truth};

/// What is wrong, and the bird of whom it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Witness {
    /// What is wrong, in one sentence.
    pub what: String,
    /// What was found on her, where it is not the first answer; empty where the fault needs no bird.
    pub bird: Vec<String>,
    /// All of it, as the judge reads it.
    pub said: Vec<(Asked, Cell)>,
    /// The same of a second bird, where the fault lies between two.
    pub other: Vec<(Asked, Cell)>,
}

impl Witness {
    /// A fault that shows without a bird.
    pub fn plain(what: String) -> Self {
        Self { what, bird: Vec::new(), said: Vec::new(), other: Vec::new() }
    }

    /// A fault of a bird the solver found.
    pub(super) fn of(desk: &Desk, what: String, bird: &Sheet) -> Self {
        let said = said(desk, bird);
        let words = said.iter().filter(|(_, cell)| *cell != Cell::Given(0)).map(|(asked, cell)| {
            let question = desk.protocol.ask(asked.question);
            let about = match asked.about {
                About::Bird => String::new(),
                About::Wound(number) => format!("wound {}, ", number + 1),
            };
            let answer = answer_of(question, *cell)
                .map_or_else(|| "far more than any answer".to_owned(), |answer| question.words(&answer));
            format!("{about}{}: {answer}", question.topic)
        });
        Self { what, bird: words.collect(), said, other: Vec::new() }
    }

    /// The same fault with the second bird beside the first.
    pub(super) fn beside(self, desk: &Desk, other: &Sheet) -> Self {
        Self { other: said(desk, other), ..self }
    }
}

/// Everything said of a bird that applies to her.
fn said(desk: &Desk, bird: &Sheet) -> Vec<(Asked, Cell)> {
    let mut found = Vec::new();
    for (at, question) in desk.protocol.enumerated() {
        let abouts = if question.wound { (0..bird.wounds()).map(About::Wound).collect() } else { vec![About::Bird] };
        for about in abouts {
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
        match Form::can_be(&[form], clauses, &fixed)? {
            Some(mut birds) => best = std::mem::take(&mut birds),
            None => {
                fixed.pop();
            }
        }
    }
    Ok(best.pop())
}
