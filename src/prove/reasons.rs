//! The reasons of a scale's rung: the fewest findings that bring it so far, and those that ruled out worse.

use super::envelope::floor_of;
use super::scales::{Rung, Scale};
use crate::finding::About;
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::rule::Rule;
use crate::sheet::{Cell, Doubt, Sheet, Subject, Truth, Weigher};

/// The findings that by themselves bring a scale to at least this floor, and none of which can be left out.
///
/// Of several such sets the smallest, and of equals the one asked first. Empty for the mildest rung, and where no single rule
/// brings it so far: then it is every bird that can still be who stands there.
pub fn why_at_least(protocol: &Protocol, sheet: &Sheet, scale: Scale, floor: Rung) -> Vec<Asked> {
    if floor == 0 {
        return Vec::new();
    }
    let raising = protocol.rules.iter().filter(|rule| scale.of(rule) >= floor);
    let sets = raising.flat_map(|rule| subjects(rule, sheet).map(move |about| (rule, about)));
    let sets = sets.filter_map(|(rule, about)| {
        let known = known(protocol, sheet, rule, about);
        let alone = only(protocol, sheet, &known);
        (floor_of(protocol, &alone, scale) >= floor).then(|| smallest(protocol, alone, known, scale, floor))
    });
    sets.min_by_key(|set| (set.len(), set.clone())).unwrap_or_default()
}

/// A finding and how many rules that would have brought a scale higher it rules out by itself.
pub type RuledOut = (Asked, usize);

/// What ruled out worse: findings without which a scale could still come higher than it can now, the most telling first.
///
/// `top` is the highest rung still in reach. Rules that no single finding rules out are told by none.
pub fn ruled_out(protocol: &Protocol, sheet: &Sheet, scale: Scale, top: Rung) -> Vec<RuledOut> {
    let mut found: Vec<RuledOut> = Vec::new();
    for rule in protocol.rules.iter().filter(|rule| scale.of(rule) > top) {
        for about in subjects(rule, sheet) {
            if may_hold(sheet, rule, about) {
                continue;
            }
            for asked in known(protocol, sheet, rule, about) {
                let mut without = sheet.clone();
                without.suppose(asked, Cell::NotAsked);
                without.suppose_applies();
                if may_hold(&without, rule, about) {
                    match found.iter_mut().find(|(known, _)| *known == asked) {
                        Some((_, times)) => *times += 1,
                        None => found.push((asked, 1)),
                    }
                }
            }
        }
    }
    found.sort_by_key(|(asked, times)| (std::cmp::Reverse(*times), *asked));
    found
}

fn may_hold(sheet: &Sheet, rule: &Rule, about: About) -> bool {
    let weigher = Weigher { sheet, doubt: Doubt::CountsAsMet };
    let held = rule.unless.iter().any(|cond| weigher.holds(cond, about.into(), false) == Truth::Yes);
    !held && weigher.holds(&rule.when, about.into(), true) != Truth::No
}

/// What a rule speaks of on a sheet: the bird, or each wound found.
pub fn subjects(rule: &Rule, sheet: &Sheet) -> impl Iterator<Item = About> + use<> {
    let (bird, wounds) = if rule.per_wound { (None, sheet.wounds()) } else { (Some(About::Bird), 0) };
    bird.into_iter().chain((0..wounds).map(About::Wound))
}

/// What was said of everything a rule reads, and of what decides whether that applies.
fn known(protocol: &Protocol, sheet: &Sheet, rule: &Rule, about: About) -> Vec<Asked> {
    let mut found: Vec<Asked> = Vec::new();
    let mut waiting: Vec<Asked> = std::iter::once(&rule.when)
        .chain(&rule.unless)
        .flat_map(|cond| protocol.rests_on(cond, about, sheet.wounds()))
        .collect();
    while let Some(asked) = waiting.pop() {
        if !found.contains(&asked) {
            let applies = protocol.ask(asked.question).applies.iter();
            waiting.extend(applies.flat_map(|cond| protocol.rests_on(cond, asked.about, sheet.wounds())));
            found.push(asked);
        }
    }
    found.retain(|asked| sheet.cell(Subject::from(asked.about), asked.question) != Cell::NotAsked);
    found.sort_unstable();
    found
}

/// The sheet with nothing known but these.
fn only<'p>(protocol: &Protocol, sheet: &Sheet<'p>, known: &[Asked]) -> Sheet<'p> {
    let mut alone = sheet.clone();
    for (at, question) in protocol.enumerated() {
        for asked in sheet.abouts(question).map(|about| Asked { about, question: at }) {
            if !known.contains(&asked) {
                alone.suppose(asked, Cell::NotAsked);
            }
        }
    }
    alone.suppose_applies();
    alone
}

/// Leaves out one finding after the other for as long as the rest brings the scale so far.
fn smallest(protocol: &Protocol, mut alone: Sheet, mut known: Vec<Asked>, scale: Scale, floor: Rung) -> Vec<Asked> {
    // From the last asked: what was seen first is what a person remembers.
    for asked in known.clone().into_iter().rev() {
        let mut without = alone.clone();
        without.suppose(asked, Cell::NotAsked);
        without.suppose_applies();
        if floor_of(protocol, &without, scale) >= floor {
            known.retain(|one| *one != asked);
            alone = without;
        }
    }
    known
}
