//! Proofs about rules and rungs: each is reached, none by inference alone where it must not be, exceptions are asked.

use super::witness::healthiest;
use super::{Found, Looked, Prover, Sort, Witness};
use crate::protocol::rule::{Advice, RuleAt};
use crate::protocol::scale::Humane;
use crate::prove::clauses::{Bit, Clauses};
use crate::prove::envelope::reaches;
use crate::prove::form::{BIRD, Form};
use crate::prove::scales::{Rung, Scale};
use crate::sheet::Cell;

/// The scales start at a floor, so every bird stands somewhere; here each rung above is shown to be reached.
pub fn every_rung(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut form) = desk.form();
    if Form::can_be(&[&form], &mut clauses, &[])?.is_none() {
        found.refuted.push(Witness::plain("no bird can be at all: the exclusions rule out every one".into()));
        return Ok(());
    }
    for scale in Scale::ALL {
        let mut at_least = Bit::Known(true);
        for rung in 0..=scale.top() {
            found.cases += 1;
            clauses.allow_anew();
            let top = rung == scale.top();
            let above = if top { Bit::Known(false) } else { reaches(&mut form, &mut clauses, scale, rung + 1) };
            if Form::can_be(&[&form], &mut clauses, &[at_least, above.not()])?.is_none() {
                let what = format!("no bird comes to `{}` on the scale of {}", scale.words(rung), scale.name());
                // The mildest rung is where nothing was found; that some care is always due hurts nobody.
                if rung == 0 { found.noted.push(what) } else { found.refuted.push(Witness::plain(what)) }
            }
            at_least = above;
        }
    }
    Ok(())
}

/// A danger sign fills the screen and sends for a vet at once; nothing else that is found may take that back.
pub fn danger_is_now(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut form) = desk.form();
    let now = reaches(&mut form, &mut clauses, Scale::Need, Scale::Need.top());
    for (at, question) in desk.protocol.enumerated().filter(|(_, question)| desk.protocol.is_danger_sign(question)) {
        for (cell, bit) in form.options(BIRD, at).to_vec() {
            let choice = match cell {
                Cell::Given(choice) => question.choices.get(usize::from(choice)),
                _ => None,
            };
            let Some(choice) = choice.filter(|choice| choice.instruct.is_some()) else { continue };
            found.cases += 1;
            clauses.allow_anew();
            let applies = form.applies(BIRD, at, false);
            if let Some(bird) = healthiest(&form, &mut clauses, &[applies, bit, now.not()])? {
                let what = format!("`{}` answered `{}` does not need a vet at once", question.id, choice.id);
                found.refuted.push(Witness::of(desk, what, &bird).item(Sort::Question, &question.id));
            }
        }
    }
    Ok(())
}

/// What has to be so before a bird is left in the dark for a night is never so with a danger sign, nor where one could not be told.
pub fn night_is_safe(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut form) = desk.form();
    let stable = form.holds(&mut clauses, &desk.protocol.stable_when, BIRD, false);
    for (at, question) in desk.protocol.enumerated().filter(|(_, question)| desk.protocol.is_danger_sign(question)) {
        for (cell, bit) in form.options(BIRD, at).to_vec() {
            let choice = match cell {
                Cell::Given(choice) => question.choices.get(usize::from(choice)).filter(|one| one.instruct.is_some()),
                _ => None,
            };
            let told = match (choice, cell) {
                (Some(choice), _) => choice.id.as_str(),
                (None, Cell::CannotTell) => "cannot_tell",
                (None, _) => continue,
            };
            found.cases += 1;
            clauses.allow_anew();
            let applies = form.applies(BIRD, at, false);
            if let Some(bird) = healthiest(&form, &mut clauses, &[applies, bit, stable])? {
                let what = format!("`{}` answered `{told}` is left alone for a night", question.id);
                found.refuted.push(Witness::of(desk, what, &bird).item(Sort::Question, &question.id));
            }
        }
    }
    Ok(())
}

/// Each rule holds of some bird; where it moves a scale, it is said if it never is the one that does.
pub fn every_rule(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut form) = desk.form();
    for (at, rule) in desk.protocol.rules_enumerated() {
        found.cases += 1;
        clauses.allow_anew();
        let holds = form.in_force(&mut clauses, at, false);
        if Form::can_be(&[&form], &mut clauses, &[holds])?.is_none() {
            found.refuted.push(Witness::in_item(Sort::Rule, &rule.id, format!("rule `{}` holds of no bird", rule.id)));
            continue;
        }
        let moves: Vec<(Scale, Rung)> =
            Scale::ALL.iter().map(|scale| (*scale, scale.of(rule))).filter(|(_, rung)| *rung > 0).collect();
        let mut decides = moves.is_empty();
        for (scale, rung) in moves {
            let alone = alone(&mut form, &mut clauses, at, scale, rung);
            decides |= Form::can_be(&[&form], &mut clauses, &[alone])?.is_some();
        }
        if !decides {
            found.noted.push(format!("wherever rule `{}` holds, another leads as far", rule.id));
        }
    }
    Ok(())
}

/// This rule brings a scale to its rung, and no other does.
fn alone(form: &mut Form, clauses: &mut Clauses, at: RuleAt, scale: Scale, rung: Rung) -> Bit {
    let protocol = form.protocol();
    let in_doubt = rung <= scale.most_in_doubt();
    let mut parts = vec![form.in_force(clauses, at, in_doubt)];
    let others = protocol.rules_enumerated().filter(|(other, rule)| *other != at && scale.of(rule) >= rung);
    for (other, _) in others {
        parts.push(form.in_force(clauses, other, in_doubt).not());
    }
    clauses.all(&parts)
}

/// A rung above "may come into question" needs advice that a source itself gives.
pub fn no_inference_advises(desk: &Prover, found: &mut Found) {
    for rule in &desk.protocol.rules {
        found.cases += 1;
        let advises = rule.humane.is_some_and(|rung| rung > Humane::MayComeIntoQuestion);
        if advises && !matches!(rule.advice, Advice::Says(_)) {
            found.refuted.push(Witness::in_item(
                Sort::Rule,
                &rule.id,
                format!("rule `{}` advises a humane end by inference alone", rule.id),
            ));
        }
    }
}

/// Where a humane-end rule's condition is met, no question of its exceptions has become pointless to ask.
pub fn exceptions_are_asked(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut form) = desk.form();
    for rule in desk.protocol.rules.iter().filter(|rule| rule.humane.is_some()) {
        for asked in rule.unless.iter().flat_map(crate::protocol::cond::Cond::questions) {
            let question = desk.protocol.ask(asked);
            if question.moot.is_none() && question.asked_if.is_none() {
                continue;
            }
            found.cases += 1;
            clauses.allow_anew();
            let columns = if rule.per_wound { form.wounds() } else { BIRD..BIRD + 1 };
            for column in columns {
                // What could not be told counts as the worst, so the rule stands on it too.
                let when = form.holds(&mut clauses, &rule.when, column, true);
                let moot = question.moot.as_ref().map(|moot| form.holds(&mut clauses, moot, column, false));
                let asked_if =
                    question.asked_if.as_ref().map(|cond| form.holds(&mut clauses, cond, column, true).not());
                let passed: Vec<Bit> = moot.into_iter().chain(asked_if).collect();
                let passed = clauses.any(&passed);
                let present = form.present(column);
                if let Some(bird) = healthiest(&form, &mut clauses, &[present, when, passed])? {
                    let what =
                        format!("rule `{}` holds, and its exception `{}` is not asked any more", rule.id, question.id);
                    found.refuted.push(Witness::of(desk, what, &bird).item(Sort::Question, &question.id));
                    break;
                }
            }
        }
    }
    Ok(())
}
