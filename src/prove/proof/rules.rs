//! Proofs about rules and rungs: each is reached, none by inference alone where it must not be, exceptions are asked.

use super::witness::healthiest;
use super::{Desk, Found, Looked, Witness};
use crate::protocol::Protocol;
use crate::protocol::raw::Advice;
use crate::protocol::rule::{Rule, RuleAt};
use crate::protocol::scale::Humane;
use crate::prove::clauses::{Bit, Clauses};
use crate::prove::envelope::reaches;
use crate::prove::form::{BIRD, Form};
use crate::prove::scales::{Rung, Scale};

/// Whether a rule is in force for some column.
pub fn in_force(form: &mut Form, clauses: &mut Clauses, at: RuleAt, in_doubt: bool) -> Bit {
    let rule = form.protocol().rule(at);
    let columns = if rule.per_wound { form.wounds() } else { BIRD..BIRD + 1 };
    let mut found = Vec::new();
    for column in columns {
        found.push(form.stands(clauses, at, column, in_doubt));
    }
    clauses.any(&found)
}

/// Every rule with its position.
pub fn placed(protocol: &Protocol) -> impl Iterator<Item = (RuleAt, &Rule)> {
    (0u16..).map(RuleAt).zip(&protocol.rules)
}

/// The scales start at a floor, so every bird stands somewhere; here each rung above is shown to be reached.
pub fn every_rung(desk: &Desk) -> Looked {
    let mut found = Found::default();
    let (mut clauses, mut form) = desk.form();
    if Form::can_be(&[&form], &mut clauses, &[])?.is_none() {
        found.refuted.push(Witness::plain("no bird can be at all: the exclusions rule out every one".into()));
        return Ok(found);
    }
    for scale in Scale::ALL {
        for rung in 0..=scale.top() {
            found.cases += 1;
            let at_least = reaches(&mut form, &mut clauses, scale, rung);
            let above =
                if rung < scale.top() { reaches(&mut form, &mut clauses, scale, rung + 1) } else { Bit::Known(false) };
            let at_least = if rung == 0 { Bit::Known(true) } else { at_least };
            if Form::can_be(&[&form], &mut clauses, &[at_least, above.not()])?.is_none() {
                let what = format!("no bird comes to `{}` on the scale of {}", scale.words(rung), scale.name());
                // The mildest rung is where nothing was found; that some care is always due hurts nobody.
                if rung == 0 { found.noted.push(what) } else { found.refuted.push(Witness::plain(what)) }
            }
        }
    }
    Ok(found)
}

/// Each rule holds of some bird; where it moves a scale, it is said if it never is the one that does.
pub fn every_rule(desk: &Desk) -> Looked {
    let mut found = Found::default();
    let (mut clauses, mut form) = desk.form();
    for (at, rule) in placed(desk.protocol) {
        found.cases += 1;
        let holds = in_force(&mut form, &mut clauses, at, false);
        if Form::can_be(&[&form], &mut clauses, &[holds])?.is_none() {
            found.refuted.push(Witness::plain(format!("rule `{}` holds of no bird", rule.id)));
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
            let what = format!("rule `{}` never decides a scale: others always lead as far", rule.id);
            found.noted.push(what);
        }
    }
    Ok(found)
}

/// This rule brings a scale to its rung, and no other does.
fn alone(form: &mut Form, clauses: &mut Clauses, at: RuleAt, scale: Scale, rung: Rung) -> Bit {
    let protocol = form.protocol();
    let in_doubt = rung <= scale.most_in_doubt();
    let mut parts = vec![in_force(form, clauses, at, in_doubt)];
    let others = placed(protocol).filter(|(other, rule)| *other != at && scale.of(rule) >= rung);
    for (other, _) in others {
        parts.push(in_force(form, clauses, other, in_doubt).not());
    }
    clauses.all(&parts)
}

/// A rung above "may come into question" needs advice that a source itself gives.
pub fn no_inference_advises(desk: &Desk) -> Found {
    let mut found = Found::default();
    for rule in &desk.protocol.rules {
        found.cases += 1;
        let advises = rule.humane.is_some_and(|rung| rung > Humane::MayComeIntoQuestion);
        if advises && !matches!(rule.advice, Advice::Says(_)) {
            found.refuted.push(Witness::plain(format!("rule `{}` advises a humane end by inference alone", rule.id)));
        }
    }
    found
}

/// Where a humane-end rule's condition is met, no question of its exceptions has become pointless to ask.
pub fn exceptions_are_asked(desk: &Desk) -> Looked {
    let mut found = Found::default();
    let (mut clauses, mut form) = desk.form();
    for rule in desk.protocol.rules.iter().filter(|rule| rule.humane.is_some()) {
        for asked in rule.unless.iter().flat_map(crate::protocol::cond::Cond::questions) {
            let question = desk.protocol.ask(asked);
            let Some(moot) = &question.moot else { continue };
            found.cases += 1;
            let columns = if rule.per_wound { form.wounds() } else { BIRD..BIRD + 1 };
            for column in columns {
                let when = form.holds(&mut clauses, &rule.when, column, false);
                let moot = form.holds(&mut clauses, moot, column, false);
                let present = form.present(column);
                if let Some(bird) = healthiest(&form, &mut clauses, &[present, when, moot])? {
                    let what =
                        format!("rule `{}` holds, and its exception `{}` is not asked any more", rule.id, question.id);
                    found.refuted.push(Witness::of(desk, what, &bird));
                    break;
                }
            }
        }
    }
    Ok(found)
}
