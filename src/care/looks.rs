//! When to look again: a short list of moments from the intervals the rules ask for.

use crate::protocol::raw::Looks;
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

#[cfg(test)]
mod tests {
    use super::*;

    /// After a blow to the head: every half hour to 2 h, two-hourly to 8 h, eight-hourly to 48 h. Re-scoring every 6-8 h
    /// over 48 h is published (Vet Times, head trauma; Foss et al. 2023); the shorter steps before are our inference.
    #[test]
    fn looks_after_a_blow_to_the_head_thin_out() {
        let looks = [
            Looks { every_min: 30, until_h: 2, late: false },
            Looks { every_min: 120, until_h: 8, late: false },
            Looks { every_min: 480, until_h: 48, late: false },
        ];
        let start = DateTime::UNIX_EPOCH;
        let minutes: Vec<i64> = times(&looks, start).iter().map(|at| (*at - start).num_minutes()).collect();
        assert_eq!(minutes, [30, 60, 90, 120, 240, 360, 480, 960, 1440, 1920, 2400, 2880]);
    }

    /// Arithmetic: two-hourly to 8 h and a quarter of an hour to 24 h is a quarter of an hour all the way.
    #[test]
    fn a_longer_watch_that_is_closer_is_not_thinned_out_by_a_shorter_one() {
        let looks =
            [Looks { every_min: 120, until_h: 8, late: false }, Looks { every_min: 15, until_h: 24, late: false }];
        assert_eq!(times(&looks, DateTime::UNIX_EPOCH).len(), 96);
    }

    #[test]
    fn the_shorter_interval_wins_over_the_same_hours() {
        let looks =
            [Looks { every_min: 1440, until_h: 72, late: false }, Looks { every_min: 720, until_h: 72, late: false }];
        assert_eq!(times(&looks, DateTime::UNIX_EPOCH).len(), 6);
    }
}
