//! When to look again: a short list of moments from the intervals the rules ask for.

use crate::protocol::raw::Looks;
use chrono::{DateTime, TimeDelta, Utc};

/// The moments to look again, from now on.
///
/// Intervals run one after the other: every half hour until two hours have gone, then every two hours until eight, and
/// so on. Where two rules ask for different intervals over the same hours, the shorter one is kept.
pub fn times(looks: &[Looks], from: DateTime<Utc>) -> Vec<DateTime<Utc>> {
    let mut looks = looks.to_vec();
    looks.sort_by_key(|look| (look.until_h, look.every_min));
    let (mut times, mut done_min) = (Vec::new(), 0);
    for look in looks {
        let until_min = i64::from(look.until_h) * 60;
        let every = i64::from(look.every_min).max(1);
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

    #[test]
    fn the_shorter_interval_wins_over_the_same_hours() {
        let looks =
            [Looks { every_min: 1440, until_h: 72, late: false }, Looks { every_min: 720, until_h: 72, late: false }];
        assert_eq!(times(&looks, DateTime::UNIX_EPOCH).len(), 6);
    }
}
