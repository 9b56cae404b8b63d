//! Proofs about questions: each answer can be given, and makes a difference.

use super::{Found, Looked, Prover, Sort, Witness};
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::Question;
use crate::prove::clauses::{Bit, Clauses};
use crate::prove::form::{BIRD, Form};
use crate::sheet::Cell;

/// Some bird can be given each answer, and the question applies to her.
pub fn every_answer_possible(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, form) = desk.form();
    for (at, question) in desk.protocol.enumerated() {
        let column = column(question);
        let applies = form.applies(column, at, false);
        for (choice, bit) in choices(&form, question, column, at) {
            found.cases += 1;
            clauses.allow_anew();
            if Form::can_be(&[&form], &mut clauses, &[form.present(column), applies, bit])?.is_none() {
                let what = format!("no bird can answer `{}` with `{choice}`", question.id);
                found.refuted.push(Witness::in_item(Sort::Question, &question.id, what));
            }
        }
    }
    Ok(())
}

/// From each answer to some other a rule tells a difference, or a measure, a paragraph, a score, a further question.
pub fn every_answer_matters(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut form) = desk.form();
    let before = fires(&mut form, &mut clauses);
    for (at, question) in desk.protocol.enumerated() {
        let column = column(question);
        let mut twin = form.twin(&mut clauses, column, at);
        let after = fires(&mut twin, &mut clauses);
        let differ: Vec<Bit> = before.iter().zip(&after).map(|(one, other)| clauses.differ(*one, *other)).collect();
        let differ = clauses.any(&differ);
        let ours = choices(&form, question, column, at);
        let theirs = choices(&twin, question, column, at);
        for (place, (one, ours)) in ours.iter().enumerate() {
            found.cases += 1;
            clauses.allow_anew();
            let mut apart = ours_alone(&theirs);
            let mut next_is_like = false;
            for (other_place, (other, theirs)) in theirs.iter().enumerate().filter(|(other, _)| *other != place) {
                let assumed = [form.present(column), *ours, *theirs, differ];
                let differs = told_apart(desk, question, at, one, other)
                    || Form::can_be(&[&form, &twin], &mut clauses, &assumed)?.is_some();
                apart |= differs;
                next_is_like |= !differs && other_place == place + 1;
                if apart && other_place > place {
                    break;
                }
            }
            if !apart {
                let what = format!("no rule tells `{one}` of `{}` from any other answer", question.id);
                found.refuted.push(Witness::in_item(Sort::Question, &question.id, what));
            } else if let (true, true, Some((next, _))) = (next_is_like, question.ordered, theirs.get(place + 1)) {
                found.noted.push(format!("`{one}` and `{next}` of `{}` lead to the same", question.id));
            }
        }
    }
    Ok(())
}

/// A question with one answer has none to be told from.
fn ours_alone(answers: &[(String, Bit)]) -> bool {
    answers.len() < 2
}

/// Whether a rule holds, rule by rule, doubt counted both ways.
fn fires(form: &mut Form, clauses: &mut Clauses) -> Vec<Bit> {
    let protocol = form.protocol();
    protocol
        .rules_enumerated()
        .flat_map(|(at, _)| [form.in_force(clauses, at, true), form.in_force(clauses, at, false)])
        .collect()
}

/// Whether something besides the rules tells two answers of a question apart.
fn told_apart(desk: &Prover, question: &Question, at: QuestionAt, one: &str, other: &str) -> bool {
    let protocol = desk.protocol;
    let (Some(one), Some(other)) = (question.choice_at(one), question.choice_at(other)) else { return false };
    let mut apart = false;
    let mut visit = |cond: &Cond| {
        if let Cond::Answer(read, set) = cond {
            apart |= *read == at && set.holds(one) != set.holds(other);
        }
    };
    protocol.read_beside_rules().for_each(|cond| cond.walk(&mut visit));
    let scored = protocol.scores.iter().any(|score| score.of.contains(&at));
    let choice = |at: u8| question.choices.get(usize::from(at));
    let worth = |at: u8| choice(at).and_then(|choice| choice.worth);
    let instruct = |at: u8| choice(at).and_then(|choice| choice.instruct);
    // A kind decides what she may weigh; what feeds a measure, what the measure comes to.
    let kind = protocol.roles.kind.question == at;
    // What only tells another answer more fully is read by people, not by rules.
    let told = question.adds_to.is_some();
    apart || scored || kind || told || worth(one) != worth(other) || instruct(one) != instruct(other)
}

fn column(question: &Question) -> usize {
    if question.wound { BIRD + 1 } else { BIRD }
}

/// The answers of a place, by name.
fn choices(form: &Form, question: &Question, column: usize, at: QuestionAt) -> Vec<(String, Bit)> {
    let named = |(cell, bit): &(Cell, Bit)| match cell {
        Cell::Given(choice) => question.choices.get(usize::from(*choice)).map(|choice| (choice.id.to_string(), *bit)),
        _ => None,
    };
    form.options(column, at).iter().filter_map(named).collect()
}
