//! What other findings would have come to: the nearest that would have moved a scale.

use super::clauses::Work;
use super::domain::{domain, is_possible};
use super::envelope::{envelope, floor_of};
use super::reasons::subjects;
use super::scales::{Rung, Scale};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::sheet::{Cell, Sheet, Subject, Truth};

/// Another answer to a question that was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Otherwise {
    /// The question.
    pub asked: Asked,
    /// What it would have been answered with.
    pub cell: Cell,
}

/// What other findings would have come to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// One other answer, or two where no single one does it.
    pub instead: Vec<Otherwise>,
    /// The rung the scale would stand on at least.
    pub rung: Rung,
}

/// The nearest change that would bring a scale's floor lower, and the nearest that would raise it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WhatIf {
    /// Fewer or milder findings.
    pub milder: Option<Change>,
    /// Graver findings.
    pub graver: Option<Change>,
}

/// How many pairs of other answers are tried, the nearest first.
const PAIRS: usize = 2000;
/// Of how many changes that look milder the exact floor is worked out, the nearest first.
const LOOKED_INTO: usize = 24;

/// What would have moved a scale from its `floor`: one other answer, else two; of several the one nearest to what was said.
///
/// A change is told only where the exact floor of the changed bird is another; the judge's own floor may be too low.
pub fn what_if(protocol: &Protocol, sheet: &Sheet, scale: Scale, floor: Rung, work: Work) -> WhatIf {
    let single = otherwise(protocol, sheet);
    let tried = nearest_first(single.iter().map(|(far, one)| (*far, vec![*one])).collect());
    let nearest = |tried: &[(u32, Vec<Otherwise>)], wanted: &dyn Fn(Rung) -> bool| {
        let changed = tried.iter().filter_map(|(_, instead)| Some((instead, changed(protocol, sheet, instead)?)));
        let moving = changed.filter(|(_, bird)| wanted(floor_of(protocol, bird, scale)));
        let exact = moving.take(LOOKED_INTO).filter_map(|(instead, bird)| {
            let rung = envelope(protocol, &bird, work).ok()?.of(scale).low;
            Some(Change { instead: instead.clone(), rung })
        });
        exact.into_iter().find(|change| wanted(change.rung))
    };
    let graver = nearest(&tried, &|rung| rung > floor);
    let milder = nearest(&tried, &|rung| rung < floor).or_else(|| {
        // Two findings each hold it up: only such as the scale's rules speak of can be among them.
        let raising = raising(protocol, sheet, scale, floor);
        let few: Vec<&(u32, Otherwise)> = single.iter().filter(|(_, one)| raising.contains(&one.asked)).collect();
        let pairs = few.iter().enumerate().flat_map(|(at, (far, one))| {
            let others = few.iter().skip(at + 1).filter(|(_, other)| other.asked != one.asked);
            others.map(move |(further, other)| (far + further, vec![*one, *other]))
        });
        let mut pairs = nearest_first(pairs.collect());
        pairs.truncate(PAIRS);
        nearest(&pairs, &|rung| rung < floor)
    });
    WhatIf { milder, graver }
}

fn nearest_first(mut tried: Vec<(u32, Vec<Otherwise>)>) -> Vec<(u32, Vec<Otherwise>)> {
    tried.sort_by_key(|(far, _)| *far);
    tried
}

/// The bird with other answers, where she can be.
fn changed<'p>(protocol: &Protocol, sheet: &Sheet<'p>, instead: &[Otherwise]) -> Option<Sheet<'p>> {
    let mut other = sheet.clone();
    for one in instead {
        other.suppose(one.asked, one.cell);
    }
    other.suppose_applies();
    is_possible(protocol, sheet, &other).then_some(other)
}

/// Every other answer to what was answered with an answer, and how far it is from that.
fn otherwise(protocol: &Protocol, sheet: &Sheet) -> Vec<(u32, Otherwise)> {
    let mut found = Vec::new();
    for (at, question) in protocol.enumerated().filter(|(at, _)| *at != protocol.roles.kind.question) {
        for asked in sheet.abouts(question).map(|about| Asked { about, question: at }) {
            let subject = Subject::from(asked.about);
            let said = sheet.cell(subject, at);
            if said == Cell::NotAsked || sheet.applies(subject, at) == Truth::No {
                continue;
            }
            for cell in domain(protocol, at) {
                if let Cell::Given(to) = cell
                    && cell != said
                {
                    let far = match said {
                        Cell::Given(from) if question.ordered => u32::from(from.abs_diff(to)),
                        _ => 2,
                    };
                    found.push((far, Otherwise { asked, cell }));
                }
            }
        }
    }
    found
}

/// What the rules that hold the scale up speak of.
fn raising(protocol: &Protocol, sheet: &Sheet, scale: Scale, floor: Rung) -> Vec<Asked> {
    let mut found = Vec::new();
    for rule in protocol.rules.iter().filter(|rule| scale.of(rule) >= floor) {
        for about in subjects(rule, sheet).filter(|about| sheet.in_doubt_too(&rule.when, (*about).into())) {
            for cond in std::iter::once(&rule.when).chain(&rule.unless) {
                found.extend(protocol.rests_on(cond, about, sheet.wounds()));
            }
        }
    }
    found
}
