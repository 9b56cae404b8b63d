//! Proofs about what is done and what never is.

use super::witness::healthiest;
use super::{Found, Looked, Prover, Sort, Witness};
use crate::protocol::action::{Action, ActionAt, Asks};
use crate::protocol::rule::{Conflict, InstructionAt};
use crate::prove::clauses::{Bit, Clauses};
use crate::prove::form::{BIRD, Form};
use crate::sheet::Cell;
use std::collections::BTreeSet;

/// Conflicts can be settled, nothing is told and forbidden in one breath, no two acts contradict each other, and every
/// instruction leaves something to do.
pub fn no_conflict(desk: &Prover, found: &mut Found) -> Looked {
    conflicts_can_be_settled(desk, found);
    told_and_forbidden(desk, found);
    no_contradiction(desk, found)?;
    something_is_left(desk, found)
}

fn conflicts_can_be_settled(desk: &Prover, found: &mut Found) {
    let named = |at: ActionAt| &desk.protocol.action(at).id;
    for conflict in &desk.protocol.conflicts {
        found.cases += 1;
        let turned = |other: &Conflict| other.keep == conflict.drop && other.drop == conflict.keep;
        if conflict.keep == conflict.drop {
            let what = format!("`{}` is in conflict with itself", named(conflict.keep));
            found.refuted.push(Witness::in_item(Sort::Action, named(conflict.keep), what));
        } else if desk.protocol.conflicts.iter().any(turned) && conflict.keep < conflict.drop {
            let (one, other) = (named(conflict.keep), named(conflict.drop));
            found.refuted.push(Witness::in_item(
                Sort::Action,
                one,
                format!("of `{one}` and `{other}` each is to go for the other"),
            ));
        }
    }
}

/// In plans a never takes out what it forbids; one item that says both is a slip all the same.
fn told_and_forbidden(desk: &Prover, found: &mut Found) {
    let rules = desk.protocol.rules.iter().map(|rule| (Sort::Rule, &rule.id, &rule.acts, &rule.never));
    let instructions = desk.protocol.instructions.iter().map(|one| (Sort::Instruction, &one.id, &one.acts, &one.never));
    for (sort, id, acts, never) in rules.chain(instructions) {
        found.cases += 1;
        for action in acts.iter().filter(|action| never.contains(action)) {
            let what =
                format!("{} `{id}` tells to do and never to do `{}`", sort.name(), desk.protocol.action(*action).id);
            found.refuted.push(Witness::in_item(sort, id, what));
        }
    }
}

/// Two actions that ask for air of another warmth, or bring her into states that contradict each other, are never both left in
/// the plan of one bird. What is done to one wound leaves the others alone, and what fits her only in another state keeps her in
/// another: those are held against made-up birds, not proven.
fn no_contradiction(desk: &Prover, found: &mut Found) -> Looked {
    let protocol = desk.protocol;
    let (mut clauses, mut form) = desk.form();
    let all: Vec<(ActionAt, &Action)> = protocol.actions_enumerated().collect();
    for (nth, (one, first)) in all.iter().enumerate() {
        for (other, second) in all.iter().skip(nth + 1) {
            let Some(what) = contradiction(first, second) else { continue };
            found.cases += 1;
            clauses.allow_anew();
            let pair = [*one, *other];
            if protocol.conflicts.iter().any(|known| pair.contains(&known.keep) && pair.contains(&known.drop)) {
                continue;
            }
            let mut both = Vec::new();
            for action in pair {
                both.push(told(&mut form, &mut clauses, action));
                both.push(forbidden(&mut form, &mut clauses, action).not());
            }
            if let Some(bird) = healthiest(&form, &mut clauses, &both)? {
                let [one, other] = [&first.id, &second.id];
                let what = format!("`{one}` and `{other}` {what}, and this bird gets both; name which one goes");
                found.refuted.push(Witness::of(desk, what, &bird).item(Sort::Action, one));
            }
        }
    }
    Ok(())
}

/// Why two actions for the whole bird cannot both be followed.
fn contradiction(one: &Action, other: &Action) -> Option<&'static str> {
    asks_of_her(one).contradicts(asks_of_her(other))
}

/// What an action asks of every bird it is told for.
fn asks_of_her(action: &Action) -> Asks<'_> {
    let always = !action.wound && action.fits.iter().all(|fit| fit.keeps.is_none());
    Asks { air: action.air, keeps: if always { &action.keeps } else { &[] } }
}

/// An instruction fills the screen at once. What a rule in force forbids is left out of it; so for every bird whose answer
/// calls it up something must be left to do.
fn something_is_left(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut form) = desk.form();
    for (at, instruction) in desk.protocol.instructions.placed() {
        clauses.allow_anew();
        let called = called_up(&form, &mut clauses, at);
        let mut assumed = vec![called];
        for action in &instruction.acts {
            found.cases += 1;
            let forbidden = forbidden(&mut form, &mut clauses, *action);
            assumed.push(forbidden);
            if Form::can_be(&[&form], &mut clauses, &[called, forbidden])?.is_some() {
                let (one, action) = (&instruction.id, &desk.protocol.action(*action).id);
                found.noted.push(format!("instruction `{one}` leaves out `{action}` for birds it is forbidden for"));
            }
        }
        if let Some(bird) = healthiest(&form, &mut clauses, &assumed)? {
            let what = format!("of instruction `{}` nothing is left to do for this bird", instruction.id);
            found.refuted.push(Witness::of(desk, what, &bird).item(Sort::Instruction, &instruction.id));
        }
    }
    Ok(())
}

/// Some rule that was seen to hold advises the action: doubt advises none.
fn told(form: &mut Form, clauses: &mut Clauses, action: ActionAt) -> Bit {
    let telling = form.protocol().rules_enumerated().filter(|(_, rule)| rule.acts.contains(&action));
    let bits: Vec<Bit> = telling.map(|(at, _)| form.in_force(clauses, at, false)).collect();
    clauses.any(&bits)
}

/// Some answer calls the instruction up.
fn called_up(form: &Form, clauses: &mut Clauses, instruction: InstructionAt) -> Bit {
    let mut calls = Vec::new();
    for (at, question) in form.protocol().enumerated() {
        let columns = if question.wound { form.wounds() } else { BIRD..BIRD + 1 };
        for column in columns {
            for (cell, bit) in form.options(column, at) {
                let Cell::Given(choice) = cell else { continue };
                let choice = question.choices.get(usize::from(*choice));
                if choice.and_then(|choice| choice.instruct) == Some(instruction) {
                    let applies = form.applies(column, at, false);
                    calls.push(clauses.all(&[form.present(column), applies, *bit]));
                }
            }
        }
    }
    clauses.any(&calls)
}

/// Some rule in force forbids the action, or forbids what drags it along; what could not be told forbids too.
fn forbidden(form: &mut Form, clauses: &mut Clauses, action: ActionAt) -> Bit {
    let protocol = form.protocol();
    let dragged = |never: &ActionAt| {
        *never == action || protocol.rules_out.iter().any(|out| out.never == *never && out.drop == action)
    };
    let forbidding = protocol.rules_enumerated().filter(|(_, rule)| rule.never.iter().any(dragged));
    let bits: Vec<Bit> = forbidding.map(|(at, _)| form.in_force(clauses, at, true)).collect();
    clauses.any(&bits)
}

/// What some rule or instruction forbids says what to do instead.
pub fn every_never_has_an_instead(desk: &Prover, found: &mut Found) {
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
            let what = format!("`{}` is forbidden, and nothing is told instead", action.id);
            found.refuted.push(Witness::in_item(Sort::Action, &action.id, what));
        }
    }
}

/// An action that no rule and no instruction advises or forbids is told to nobody: mostly a name was forgotten.
pub fn every_action_is_used(desk: &Prover, found: &mut Found) {
    let protocol = desk.protocol;
    let of_rules = protocol.rules.iter().flat_map(|rule| rule.acts.iter().chain(&rule.never));
    let used: BTreeSet<ActionAt> = of_rules
        .chain(protocol.instructions.iter().flat_map(|one| one.acts.iter().chain(&one.never)))
        .copied()
        .collect();
    for (_, action) in protocol.actions_enumerated().filter(|(at, _)| !used.contains(at)) {
        found.noted.push(format!("action `{}` is neither advised nor forbidden by any rule or instruction", action.id));
    }
}
