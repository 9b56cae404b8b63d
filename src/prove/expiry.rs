//! The expiry of a verdict: the hour at which the clock alone makes something else of the same findings.

use super::exact::Exact;
use super::gauge::{thresholds, value};
use crate::finding::Findings;
use crate::judge::Verdict;
use crate::protocol::Protocol;
use crate::protocol::cond::Threshold;
use crate::sheet::{Sheet, Subject};
use chrono::{DateTime, TimeDelta, Utc};

/// The next moment at which the clock alone makes something else of the same findings, and what it is then.
///
/// Only time since the injury moves by itself; it does so where it passes a value some rule holds it against. `judge` is what
/// gave the verdict.
pub fn holds_until(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Exact,
    judge: impl Fn(DateTime<Utc>) -> Exact,
) -> Option<(DateTime<Utc>, Exact)> {
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
        let then = judge(moment);
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
