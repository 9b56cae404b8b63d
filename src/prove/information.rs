//! The information an answer would give: which open question would settle most, by birds drawn from the likelihoods the
//! protocol's authors gave.
//!
//! The draw decides nothing but the order of a hint. It is made with a fixed seed, so the same findings get the same hint.

use super::domain::{domain, is_possible};
use crate::judge::levels;
use crate::protocol::Protocol;
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::Asked;
use crate::sheet::{Cell, Sheet, Subject, Truth};
use std::collections::BTreeMap;

/// How many birds are drawn.
const BIRDS: usize = 192;
/// How often a bird of whom the look-over is not finished has one more wound.
const MORE_WOUNDS: f64 = 0.5;
const SEED: u64 = 2026;

/// Three rungs as the judge gives them.
type Outcome = [u8; 3];

/// What may be turned to next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Telling {
    /// A question.
    Question(Asked),
    /// The look-over for wounds.
    Wounds,
}

/// What of `among` would settle how much, most first; what would settle nothing is left out.
///
/// What is settled is the entropy of the outcome, in bits, less what chance alone would make of so few birds.
pub fn most_telling(protocol: &Protocol, sheet: &Sheet, among: &[Telling]) -> Vec<(Telling, f64)> {
    if among.is_empty() {
        return Vec::new();
    }
    let mut rng = fastrand::Rng::with_seed(SEED);
    let drawn: Vec<(Sheet, Outcome)> = (0..BIRDS)
        .map(|_| draw(protocol, sheet, &mut rng))
        .filter(|bird| is_possible(protocol, sheet, bird))
        .map(|bird| {
            let levels = levels(protocol, &bird);
            let outcome = [levels.need.low as u8, levels.humane.low as u8, levels.authority.low as u8];
            (bird, outcome)
        })
        .collect();
    let before = entropy(&drawn.iter().map(|(_, outcome)| *outcome).collect::<Vec<_>>());
    let mut found: Vec<(Telling, f64)> = among
        .iter()
        .map(|telling| (*telling, before - after(&drawn, *telling)))
        .filter(|(_, settles)| *settles > 0.0)
        .collect();
    found.sort_by(|(_, one), (_, other)| other.total_cmp(one));
    found
}

/// A bird of whom everything open is filled in as likely as the authors think it.
fn draw<'p>(protocol: &Protocol, sheet: &Sheet<'p>, rng: &mut fastrand::Rng) -> Sheet<'p> {
    let mut bird = sheet.clone();
    if !bird.looked_over() && rng.f64() < MORE_WOUNDS {
        bird.suppose_wound();
    }
    bird.suppose_looked_over();
    for (at, question) in protocol.enumerated() {
        for about in bird.abouts(question) {
            if bird.cell(Subject::from(about), at) == Cell::NotAsked {
                let cell = answer(protocol, at, &bird, rng);
                bird.suppose(Asked { about, question: at }, cell);
            }
        }
    }
    bird.suppose_applies();
    bird
}

fn answer(protocol: &Protocol, at: QuestionAt, bird: &Sheet, rng: &mut fastrand::Rng) -> Cell {
    let question = protocol.ask(at);
    let offered = (0u8..).zip(&question.choices).filter(|(at, _)| question.is_offered(*at, bird.kind()));
    let offered: Vec<(u8, u32)> = offered.map(|(at, choice)| (at, choice.often)).collect();
    let all: u32 = offered.iter().map(|(_, often)| often).sum();
    let mut left = if all == 0 { 0 } else { rng.u32(0..all) };
    for (at, often) in offered {
        if left < often {
            return Cell::Given(at);
        }
        left -= often;
    }
    domain(protocol, at).into_iter().next_back().unwrap_or(Cell::CannotTell)
}

/// What stays unsettled on average once this is known. Unit: bits.
fn after(drawn: &[(Sheet, Outcome)], telling: Telling) -> f64 {
    let mut by_answer: BTreeMap<Option<usize>, Vec<Outcome>> = BTreeMap::new();
    for (bird, outcome) in drawn {
        by_answer.entry(shown(bird, telling)).or_default().push(*outcome);
    }
    let all = count(drawn.len());
    by_answer.values().map(|outcomes| count(outcomes.len()) / all * entropy(outcomes)).sum()
}

/// What a bird would show there.
fn shown(bird: &Sheet, telling: Telling) -> Option<usize> {
    let asked = match telling {
        Telling::Wounds => return Some(bird.wounds()),
        Telling::Question(asked) => asked,
    };
    let subject = Subject::from(asked.about);
    match bird.cell(subject, asked.question) {
        Cell::Given(at) if bird.applies(subject, asked.question) != Truth::No => Some(usize::from(at)),
        _ => None,
    }
}

/// Entropy of outcomes, in bits, with the correction of Miller and Madow for small samples (Miller 1955, from memory).
fn entropy(outcomes: &[Outcome]) -> f64 {
    let mut counts: BTreeMap<Outcome, usize> = BTreeMap::new();
    for outcome in outcomes {
        *counts.entry(*outcome).or_default() += 1;
    }
    let all = count(outcomes.len());
    let plain: f64 = counts.values().map(|times| count(*times) / all).map(|share| -share * share.log2()).sum();
    plain + (count(counts.len()) - 1.0) / (2.0 * all * std::f64::consts::LN_2)
}

#[expect(clippy::cast_precision_loss, reason = "a few hundred birds")]
const fn count(many: usize) -> f64 {
    many as f64
}
