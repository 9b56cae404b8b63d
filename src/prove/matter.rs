//! What can still matter: for each open question, whether any answer to it can still change the outcome.

use super::clauses::{Bit, Clauses, OutOfBudget, Work};
use super::domain::{domain, is_possible};
use super::envelope::{Envelope, more_wounds, reaches};
use super::form::{BIRD, Form};
use super::scales::Scale;
use crate::finding::About;
use crate::judge::levels;
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::sheet::{Cell, Sheet};

/// Which of these open questions can still change need, humane end or authority, in the order given.
///
/// A question can where two birds that differ in nothing but its answer come out differently. What is decided by the envelope
/// is not looked at again.
///
/// # Errors
/// Where the work allowed does not suffice: then any of them may matter.
pub fn matters(
    protocol: &Protocol,
    sheet: &Sheet,
    envelope: &Envelope,
    open: &[Asked],
    work: Work,
) -> Result<Vec<Asked>, OutOfBudget> {
    if envelope.is_settled() {
        return Ok(Vec::new());
    }
    // Most questions are shown to matter by a bird at hand; only for the rest one is searched for.
    let birds: Vec<Sheet> = envelope.birds.first().map(|bird| healed(protocol, bird, open)).into_iter().collect();
    let shown = |asked: &Asked| birds.iter().any(|bird| turns(protocol, bird, *asked));
    let (mut found, rest): (Vec<Asked>, Vec<Asked>) = open.iter().partition(|asked| shown(asked));
    if rest.is_empty() {
        return Ok(found);
    }
    let mut clauses = Clauses::new(work);
    let mut form = Form::new(protocol, sheet, &mut clauses, more_wounds(protocol));
    let before = outcomes(&mut form, &mut clauses, envelope);
    for asked in rest {
        let column = match asked.about {
            About::Bird => BIRD,
            About::Wound(wound) => wound + 1,
        };
        let mut twin = form.twin(&mut clauses, column, asked.question);
        let after = outcomes(&mut twin, &mut clauses, envelope);
        let differ: Vec<Bit> = before.iter().zip(&after).map(|(one, other)| clauses.differ(*one, *other)).collect();
        let differ = clauses.any(&differ);
        if Form::can_be(&[&form, &twin], &mut clauses, &[differ])?.is_some() {
            found.push(asked);
        }
    }
    found.sort_by_key(|asked| open.iter().position(|one| one == asked));
    Ok(found)
}

/// A bird with every open sign at its mildest: beside her a single graver answer shows.
fn healed<'p>(protocol: &Protocol, bird: &Sheet<'p>, open: &[Asked]) -> Sheet<'p> {
    let mut healed = bird.clone();
    for asked in open.iter().filter(|asked| protocol.ask(asked.question).ordered) {
        healed.suppose(*asked, Cell::Given(0));
    }
    healed.suppose_applies();
    healed
}

/// Whether another answer to a question makes something else of a bird, all else staying as it is.
fn turns(protocol: &Protocol, bird: &Sheet, asked: Asked) -> bool {
    if !is_possible(protocol, bird) {
        return false;
    }
    let before = levels(protocol, bird);
    let mut turned = bird.clone();
    let kind = protocol.kind_at() == Some(asked.question);
    domain(protocol.ask(asked.question)).into_iter().rev().any(|cell| {
        turned.suppose(asked, cell);
        turned.suppose_applies();
        !kind && is_possible(protocol, &turned) && levels(protocol, &turned) != before
    })
}

/// For every rung that is neither certain nor out of reach, whether it is reached.
fn outcomes(form: &mut Form, clauses: &mut Clauses, envelope: &Envelope) -> Vec<Bit> {
    let mut found = Vec::new();
    for scale in Scale::ALL {
        let band = envelope.of(scale);
        for rung in band.low + 1..=band.high {
            found.push(reaches(form, clauses, scale, rung));
        }
    }
    found
}
