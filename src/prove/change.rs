//! What would change the verdict: the nearest other findings, and the hour at which the clock alone does it.

use super::domain::{domain, is_possible};
use super::envelope::bands;
use super::gauge::{thresholds, value};
use super::scales::{Rung, Scale};
use crate::finding::{About, Findings};
use crate::judge::{Verdict, judge, levels};
use crate::protocol::Protocol;
use crate::protocol::cond::Threshold;
use crate::protocol::question::Asked;
use crate::sheet::{Cell, Sheet, Subject, Truth};
use chrono::{DateTime, TimeDelta, Utc};

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

/// What would have moved a scale: one other answer, else two; of several the one nearest to what was said.
pub fn what_if(protocol: &Protocol, sheet: &Sheet, scale: Scale) -> WhatIf {
    let before = floor(protocol, sheet, scale);
    let single = otherwise(protocol, sheet);
    let mut tried: Vec<(u32, Change)> = Vec::new();
    for (far, one) in &single {
        tried.extend(outcome(protocol, sheet, &[*one], scale).map(|change| (*far, change)));
    }
    let nearest = |tried: &[(u32, Change)], wanted: &dyn Fn(Rung) -> bool| {
        let moving = tried.iter().filter(|(_, change)| wanted(change.rung));
        moving.min_by_key(|(far, _)| *far).map(|(_, change)| change.clone())
    };
    let graver = nearest(&tried, &|rung| rung > before);
    let mut milder = nearest(&tried, &|rung| rung < before);
    if milder.is_none() && before > 0 {
        // Two findings each hold it up: only such as the scale's rules speak of can be among them.
        let raising = raising(protocol, sheet, scale, before);
        let few: Vec<&(u32, Otherwise)> = single.iter().filter(|(_, one)| raising.contains(&one.asked)).collect();
        let mut pairs: Vec<(u32, Change)> = Vec::new();
        for (at, (far, one)) in few.iter().enumerate() {
            for (further, other) in few.iter().skip(at + 1).filter(|(_, other)| other.asked != one.asked) {
                pairs.extend(outcome(protocol, sheet, &[*one, *other], scale).map(|change| (far + further, change)));
            }
        }
        milder = nearest(&pairs, &|rung| rung < before);
    }
    WhatIf { milder, graver }
}

fn floor(protocol: &Protocol, sheet: &Sheet, scale: Scale) -> Rung {
    let bands = bands(levels(protocol, sheet));
    let at = Scale::ALL.iter().position(|one| *one == scale).unwrap_or(0);
    bands.get(at).map_or(0, |band| band.low)
}

fn outcome(protocol: &Protocol, sheet: &Sheet, instead: &[Otherwise], scale: Scale) -> Option<Change> {
    let mut other = sheet.clone();
    for one in instead {
        other.suppose(one.asked, one.cell);
    }
    other.suppose_applies();
    let rung = floor(protocol, &other, scale);
    is_possible(protocol, &other).then(|| Change { instead: instead.to_vec(), rung })
}

/// Every other answer to what was answered with an answer, and how far it is from that.
fn otherwise(protocol: &Protocol, sheet: &Sheet) -> Vec<(u32, Otherwise)> {
    let mut found = Vec::new();
    for (at, question) in protocol.enumerated().filter(|(at, _)| Some(*at) != protocol.kind_at()) {
        let abouts = if question.wound { (0..sheet.wounds()).map(About::Wound).collect() } else { vec![About::Bird] };
        for asked in abouts.into_iter().map(|about| Asked { about, question: at }) {
            let subject = Subject::from(asked.about);
            let said = sheet.cell(subject, at);
            if said == Cell::NotAsked || sheet.applies(subject, at) == Truth::No {
                continue;
            }
            for cell in domain(question) {
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
        let abouts = if rule.per_wound { (0..sheet.wounds()).map(About::Wound).collect() } else { vec![About::Bird] };
        for about in abouts.into_iter().filter(|about| sheet.in_doubt_too(&rule.when, (*about).into())) {
            for cond in std::iter::once(&rule.when).chain(&rule.unless) {
                found.extend(protocol.rests_on(cond, about, sheet.wounds()));
            }
        }
    }
    found
}

/// The next hour at which the clock alone makes something else of the same findings, and what it is then.
///
/// Only time since the injury moves by itself; it does so where it passes a value some rule holds it against.
pub fn holds_until(protocol: &Protocol, findings: &Findings, verdict: &Verdict) -> Option<(DateTime<Utc>, Verdict)> {
    let now = verdict.judged_at;
    let sheet = Sheet::lay(protocol, findings, now);
    let subjects = std::iter::once(Subject::Bird).chain((0..sheet.wounds()).map(Subject::Wound));
    let mut moments: Vec<DateTime<Utc>> = Vec::new();
    for hurt in subjects.filter_map(|subject| sheet.hurt(subject)) {
        for threshold in thresholds(protocol) {
            let Threshold::TimeSince(_) = threshold else { continue };
            for end in [hurt.span.low, hurt.span.high] {
                let left = i64::try_from(value(threshold)).unwrap_or(i64::MAX) - i64::from(end.0);
                let left = TimeDelta::try_minutes(left).unwrap_or(TimeDelta::MAX);
                moments.extend(hurt.said_at.checked_add_signed(left).filter(|moment| *moment > now));
            }
        }
    }
    moments.sort_unstable();
    moments.dedup();
    moments.into_iter().find_map(|moment| {
        let then = judge(protocol, findings, moment);
        differs(verdict, &then).then_some((moment, then))
    })
}

/// Whether a verdict says something else to do, or puts a scale elsewhere.
fn differs(one: &Verdict, other: &Verdict) -> bool {
    let targets = |verdict: &Verdict| {
        let acts: Vec<_> = verdict.acts.iter().map(|act| act.target).collect();
        let never: Vec<_> = verdict.never.iter().map(|never| never.target).collect();
        (acts, never)
    };
    (one.need, one.humane, one.authority) != (other.need, other.humane, other.authority)
        || targets(one) != targets(other)
}
