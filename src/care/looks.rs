//! When to look again: a short list of moments from the intervals the rules ask for.

use crate::protocol::rule::Looks;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::BTreeSet;

/// The moments to look again, from now on.
///
/// Intervals run one after the other: every half hour until two hours have gone, then every two hours until eight, and
/// so on. Where two rules ask for different intervals over the same hours, the shorter one is kept.
pub fn times(looks: &[Looks], from: DateTime<Utc>) -> Vec<DateTime<Utc>> {
    let ends: BTreeSet<u32> = looks.iter().map(|look| look.until_h).collect();
    let (mut times, mut done_min) = (Vec::new(), 0);
    for until_h in ends {
        // Whatever runs at least as long as this stretch holds in it, too.
        let held = looks.iter().filter(|look| look.until_h >= until_h).map(|look| look.every_min);
        let until_min = i64::from(until_h) * 60;
        let every = held.min().map_or(1, i64::from).max(1);
        let mut at = done_min + every;
        while at <= until_min {
            times.push(from + TimeDelta::minutes(at));
            done_min = at;
            at += every;
        }
    }
    times
}
