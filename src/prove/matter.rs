//! What can still matter: for each open question, whether any answer to it can still change the outcome.

use super::clauses::{Bit, Clauses, OutOfBudget, Work};
use super::domain::{domain, is_possible};
use super::envelope::{Envelope, floors, more_wounds, reaches};
use super::form::{BIRD, Form};
use super::scales::Scale;
use crate::finding::About;
use crate::judge::levels;
use crate::protocol::Protocol;
use crate::protocol::cond::Cond;
use crate::protocol::question::Asked;
use crate::sheet::{Cell, Sheet, Truth};
use std::borrow::Cow;

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
    // The milder a bird is, the more shows on her.
    let healed = envelope
        .birds
        .iter()
        .map(|bird| healed(protocol, bird, open))
        .filter(|bird| is_possible(protocol, sheet, bird));
    let bird = healed.min_by_key(|bird| floors(protocol, bird));
    let shown = |asked: &Asked| {
        bird.as_ref().is_some_and(|bird| turns(protocol, sheet, &asked_of(protocol, sheet, bird, *asked), *asked))
    };
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

/// The same bird with just enough found that the question is asked of her, as far as a plain condition says how.
fn asked_of<'b, 'p>(protocol: &Protocol, known: &Sheet, bird: &'b Sheet<'p>, asked: Asked) -> Cow<'b, Sheet<'p>> {
    let applies = protocol.ask(asked.question).applies.as_ref();
    let Some(applies) = applies.filter(|_| bird.applies(asked.about.into(), asked.question) != Truth::Yes) else {
        return Cow::Borrowed(bird);
    };
    let mut bird = bird.clone();
    find(protocol, known, &mut bird, applies, asked.about);
    bird.suppose_applies();
    Cow::Owned(bird)
}

/// Supposes the mildest answers that meet a condition, where it is a plain one. What is known stays as it is.
fn find(protocol: &Protocol, known: &Sheet, bird: &mut Sheet, cond: &Cond, about: About) {
    match cond {
        Cond::Answer(at, set) => {
            let question = protocol.ask(*at);
            let about = if question.wound { about } else { About::Bird };
            let mildest = (0u8..).zip(&question.choices).map(|(choice, _)| choice).find(|choice| set.holds(*choice));
            let (Some(mildest), Cell::NotAsked) = (mildest, known.cell(about.into(), *at)) else { return };
            if let Some(gate) = &question.applies {
                find(protocol, known, bird, gate, about);
            }
            bird.suppose(Asked { about, question: *at }, Cell::Given(mildest));
        }
        Cond::All(parts) => parts.iter().for_each(|part| find(protocol, known, bird, part, about)),
        Cond::Any(parts) => parts.iter().take(1).for_each(|part| find(protocol, known, bird, part, about)),
        Cond::SomeWound(part) if bird.wounds() > 0 => find(protocol, known, bird, part, About::Wound(0)),
        Cond::Always | Cond::Not(_) | Cond::Count(..) | Cond::SomeWound(_) | Cond::AtLeast(_) | Cond::Under(_) => {}
    }
}

/// Whether another answer to a question makes something else of a bird, all else staying as it is.
fn turns(protocol: &Protocol, known: &Sheet, bird: &Sheet, asked: Asked) -> bool {
    // Her kind decides what else may be answered; what she is otherwise cannot simply stay.
    if protocol.roles.kind.question == asked.question || !is_possible(protocol, known, bird) {
        return false;
    }
    let before = levels(protocol, bird);
    let mut turned = bird.clone();
    domain(protocol, asked.question).into_iter().rev().any(|cell| {
        turned.suppose(asked, cell);
        turned.suppose_applies();
        is_possible(protocol, known, &turned) && levels(protocol, &turned) != before
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
