//! Proofs about what is done and what never is.

use super::rules::{in_force, placed};
use super::witness::healthiest;
use super::{Desk, Found, Looked, Witness};
use crate::protocol::rule::{ActionAt, Instruction};
use crate::prove::clauses::{Bit, Clauses};
use crate::prove::form::{BIRD, Form};
use crate::sheet::Cell;

/// An instruction fills the screen at once. What a rule in force forbids is left out of it; so for every bird whose answer calls
/// it up something must be left to do. In plans a never takes out what it forbids, and one of two in conflict goes; here the files are held
/// against themselves for conflicts that cannot be settled.
pub fn no_conflict(desk: &Desk) -> Looked {
    let mut found = Found::default();
    let protocol = desk.protocol;
    for conflict in &protocol.conflicts {
        found.cases += 1;
        let named = |at: ActionAt| &protocol.action(at).id;
        if conflict.keep == conflict.drop {
            found.refuted.push(Witness::plain(format!("`{}` is in conflict with itself", named(conflict.keep))));
        }
        let turned =
            |other: &&crate::protocol::rule::Conflict| other.keep == conflict.drop && other.drop == conflict.keep;
        if protocol.conflicts.iter().any(|other| turned(&other)) && conflict.keep < conflict.drop {
            let what =
                format!("of `{}` and `{}` each is to go for the other", named(conflict.keep), named(conflict.drop));
            found.refuted.push(Witness::plain(what));
        }
    }
    for rule in &protocol.rules {
        found.cases += 1;
        for action in rule.acts.iter().filter(|action| rule.never.contains(action)) {
            let what = format!("rule `{}` tells to do and never to do `{}`", rule.id, protocol.action(*action).id);
            found.refuted.push(Witness::plain(what));
        }
    }
    let (mut clauses, mut form) = desk.form();
    for instruction in &protocol.instructions {
        for action in instruction.acts.iter().filter(|action| instruction.never.contains(action)) {
            let what = format!(
                "instruction `{}` tells to do and never to do `{}`",
                instruction.id,
                protocol.action(*action).id
            );
            found.refuted.push(Witness::plain(what));
        }
        let called = called_up(&form, &mut clauses, instruction);
        let mut assumed = vec![called];
        for action in &instruction.acts {
            found.cases += 1;
            let forbidden = forbidden(&mut form, &mut clauses, *action);
            assumed.push(forbidden);
            if Form::can_be(&[&form], &mut clauses, &[called, forbidden])?.is_some() {
                let (one, action) = (&instruction.id, &protocol.action(*action).id);
                found.noted.push(format!("instruction `{one}` leaves out `{action}` for birds it is forbidden for"));
            }
        }
        if let Some(bird) = healthiest(&form, &mut clauses, &assumed)? {
            let what = format!("of instruction `{}` nothing is left to do for this bird", instruction.id);
            found.refuted.push(Witness::of(desk, what, &bird));
        }
    }
    Ok(found)
}

/// Some answer calls the instruction up.
fn called_up(form: &Form, clauses: &mut Clauses, instruction: &Instruction) -> Bit {
    let mut calls = Vec::new();
    for (at, question) in form.protocol().enumerated() {
        let columns = if question.wound { form.wounds() } else { BIRD..BIRD + 1 };
        for column in columns {
            for (cell, bit) in form.options(column, at) {
                let Cell::Given(choice) = cell else { continue };
                let choice = question.choices.get(usize::from(*choice));
                if choice.and_then(|choice| choice.instruct.as_ref()) == Some(&instruction.id) {
                    let applies = form.applies(column, at, false);
                    calls.push(clauses.all(&[form.present(column), applies, *bit]));
                }
            }
        }
    }
    clauses.any(&calls)
}

/// Some rule in force forbids the action, or forbids what drags it along.
fn forbidden(form: &mut Form, clauses: &mut Clauses, action: ActionAt) -> Bit {
    let protocol = form.protocol();
    let dragged = |never: &ActionAt| {
        *never == action || protocol.rules_out.iter().any(|out| out.never == *never && out.drop == action)
    };
    let forbidding = placed(protocol).filter(|(_, rule)| rule.never.iter().any(dragged));
    let bits: Vec<Bit> = forbidding.map(|(at, _)| in_force(form, clauses, at, false)).collect();
    clauses.any(&bits)
}

/// What some rule or instruction forbids says what to do instead.
pub fn every_never_has_an_instead(desk: &Desk) -> Found {
    let mut found = Found::default();
    let protocol = desk.protocol;
    let never = protocol.rules.iter().flat_map(|rule| &rule.never);
    let mut all: Vec<ActionAt> =
        never.chain(protocol.instructions.iter().flat_map(|one| &one.never)).copied().collect();
    all.sort_unstable();
    all.dedup();
    for action in all {
        found.cases += 1;
        let action = protocol.action(action);
        if action.forbidden.as_ref().is_none_or(|forbidden| forbidden.instead.trim().is_empty()) {
            found.refuted.push(Witness::plain(format!("`{}` is forbidden, and nothing is told instead", action.id)));
        }
    }
    found
}
