//! Worse never looks better: of two birds, one worse in some signs and alike in all else, the worse one stands no lower.

use super::witness::words_of;
use super::{Found, Looked, Prover, Sort, Witness, wounds};
use crate::finding::About;
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::{Asked, Question};
use crate::prove::clauses::{Bit, Clauses};
use crate::prove::domain::domain;
use crate::prove::envelope::reaches;
use crate::prove::form::Form;
use crate::prove::gauge::Dial;
use crate::prove::scales::Scale;
use crate::sheet::{Cell, Sheet, Subject};

/// Two birds in one set of clauses: the second at least as bad in every ordered sign and the same in all others.
pub fn worse_is_never_milder(desk: &Prover, found: &mut Found) -> Looked {
    let (mut clauses, mut mild) = desk.form();
    let mut bad = Form::new(desk.protocol, &desk.sheet, &mut clauses, wounds(desk.protocol));
    for column in mild.wounds() {
        same(&mut clauses, mild.present(column), bad.present(column));
    }
    let places: Vec<(usize, QuestionAt)> = mild.places().map(|(place, _)| place).collect();
    for (column, at) in places {
        no_better(&mut clauses, desk.protocol.ask(at), mild.options(column, at), bad.options(column, at));
    }
    for scale in Scale::ALL {
        for rung in 1..=scale.top() {
            found.cases += 1;
            clauses.allow_anew();
            let high = reaches(&mut mild, &mut clauses, scale, rung);
            let low = reaches(&mut bad, &mut clauses, scale, rung).not();
            gauges_follow(desk, &mut clauses, &mild, &bad);
            if let Some(birds) = Form::can_be(&[&mild, &bad], &mut clauses, &[high, low])? {
                let [one, other] = birds.as_slice() else { continue };
                let worse: Vec<String> = worse(desk, one, other);
                let what = format!(
                    "{} reaches `{}`, and no longer does when worse: {}",
                    scale.name(),
                    scale.words(rung),
                    worse.join("; ")
                );
                found.refuted.push(Witness::of(desk, what, one).beside(desk, other));
            }
        }
    }
    Ok(())
}

fn same(clauses: &mut Clauses, one: Bit, other: Bit) {
    clauses.require(&[one.not(), other]);
    clauses.require(&[one, other.not()]);
}

/// An order of answers from fine to worst: a figure of nothing before them, one beyond all of them after.
fn rank(cell: &Cell) -> Option<usize> {
    match *cell {
        Cell::Worked(band, ..) if band.high == 0 => Some(0),
        Cell::Given(at) => Some(1 + usize::from(at)),
        Cell::Worked(..) => Some(usize::MAX),
        Cell::CannotTell | Cell::Amount(_) | Cell::NotAsked => None,
    }
}

fn no_better(clauses: &mut Clauses, question: &Question, mild: &[(Cell, Bit)], bad: &[(Cell, Bit)]) {
    for ((cell, one), (_, other)) in mild.iter().zip(bad) {
        match rank(cell) {
            Some(place) if question.ordered => {
                // Where the mild bird stands at this answer, the worse one stands at it or beyond.
                let beyond = bad.iter().filter(|(cell, _)| rank(cell).is_some_and(|rank| rank >= place));
                let clause: Vec<Bit> = std::iter::once(one.not()).chain(beyond.map(|(_, bit)| *bit)).collect();
                clauses.require(&clause);
            }
            Some(_) | None => same(clauses, *one, *other),
        }
    }
}

/// Measures grow with what they are read from (see [`measures_grow`]); where all of that is the same, so are they.
fn gauges_follow(desk: &Prover, clauses: &mut Clauses, mild: &Form, bad: &Form) {
    let others: Vec<_> = bad.open_gauges().collect();
    for (dial, gauge) in mild.open_gauges() {
        let ordered = inputs(desk, dial).iter().any(|at| desk.protocol.ask(*at).ordered);
        for (other_dial, other) in &others {
            let follows = *other_dial == dial || (dial, *other_dial) == (Dial::BloodLost(false), Dial::BloodLost(true));
            if !follows {
                continue;
            }
            for ((_, low, high), (_, other_low, other_high)) in gauge.marks.iter().zip(&other.marks) {
                for (one, other) in [(*low, *other_low), (*high, *other_high)] {
                    clauses.require(&[one.not(), other]);
                    if !ordered && *other_dial == dial {
                        clauses.require(&[one, other.not()]);
                    }
                }
            }
        }
    }
}

fn inputs(desk: &Prover, dial: Dial) -> Vec<QuestionAt> {
    let (of_bird, of_wounds) = dial.fed_by(desk.protocol);
    of_bird.into_iter().chain(of_wounds).collect()
}

/// Every dial at every combination of what it is read from, one wound at most: a worse answer reads no lower, at either end;
/// and a frail bird has lost no smaller a share than a sound one.
pub fn measures_grow(desk: &Prover, found: &mut Found) {
    let dials = [
        Dial::SkinOpen,
        Dial::BloodLost(false),
        Dial::BloodLost(true),
        Dial::BloodOfWeight,
        Dial::BreathRate,
        Dial::Dryness,
    ];
    for dial in dials {
        let mut sheet = desk.sheet.clone();
        if !dial.fed_by(desk.protocol).1.is_empty() {
            sheet.suppose_wound();
        }
        sheet.suppose_looked_over();
        let inputs = inputs(desk, dial);
        try_all(desk, dial, &mut sheet, &inputs, found);
    }
}

fn try_all(desk: &Prover, dial: Dial, sheet: &mut Sheet, left: &[QuestionAt], found: &mut Found) {
    let Some((at, rest)) = left.split_first() else {
        found.cases += 1;
        grows_here(desk, dial, sheet, found);
        return;
    };
    let about = if desk.protocol.ask(*at).wound { About::Wound(0) } else { About::Bird };
    sheet.suppose_asked(Asked { about, question: *at });
    for cell in domain(desk.protocol, *at) {
        sheet.suppose(Asked { about, question: *at }, cell);
        try_all(desk, dial, sheet, rest, found);
    }
}

fn grows_here(desk: &Prover, dial: Dial, sheet: &mut Sheet, found: &mut Found) {
    let before = dial.read(sheet, Subject::Bird).band;
    if dial == Dial::BloodLost(false) {
        let frail = Dial::BloodLost(true).read(sheet, Subject::Bird).band;
        if frail.low < before.low || frail.high < before.high {
            found.refuted.push(Witness::of(desk, "a frail bird reads lower than a sound one".into(), sheet));
        }
    }
    for at in inputs(desk, dial) {
        let question = desk.protocol.ask(at);
        let about = if question.wound { About::Wound(0) } else { About::Bird };
        let asked = Asked { about, question: at };
        let here = sheet.cell(Subject::from(about), at);
        let cells = domain(desk.protocol, at);
        let next = cells.iter().filter(|cell| rank(cell) > rank(&here) && rank(&here).is_some());
        let Some(next) = next.min_by_key(|cell| rank(cell)).filter(|_| question.ordered) else { continue };
        sheet.suppose(asked, *next);
        let after = dial.read(sheet, Subject::Bird).band;
        sheet.suppose(asked, here);
        if after.low < before.low || after.high < before.high {
            let what = format!("{} reads lower when `{}` gets worse", dial.name(), question.id);
            found.refuted.push(Witness::of(desk, what, sheet).item(Sort::Question, &question.id));
        }
    }
}

/// What is worse of one bird than of the other, in words.
fn worse(desk: &Prover, mild: &Sheet, bad: &Sheet) -> Vec<String> {
    let mut found = Vec::new();
    for (at, question) in desk.protocol.enumerated().filter(|(_, question)| question.ordered) {
        for subject in bad.abouts(question).map(Subject::from) {
            let (one, other) = (mild.cell(subject, at), bad.cell(subject, at));
            if one != other {
                found.push(format!("{}: {}", question.topic, words_of(question, other)));
            }
        }
    }
    found
}
