//! Three clocks: what is set and what sleeps is told apart.

use crate::common::now;
use chrono::TimeDelta;
use coopside::shell::moment::{Leap, ThreeClocks};
use std::time::Duration;

/// A moment so many seconds after the start, by each clock.
fn at(wall: i64, steady: u64, whole: Option<u64>) -> ThreeClocks {
    let begin = 1_000;
    ThreeClocks {
        wall: now() + TimeDelta::seconds(wall),
        steady: Duration::from_secs(steady),
        whole: whole.map(|seconds| Duration::from_secs(begin + seconds)),
    }
}

/// Arithmetic of clocks; on Linux the clock that goes on in sleep is there (`clock_gettime(2)`, `CLOCK_BOOTTIME`).
#[test]
fn a_clock_that_is_set_is_told_from_a_machine_that_slept() {
    let before = at(0, 0, Some(0));
    for (after, leap) in [
        (at(1, 1, Some(1)), Leap::None),
        (at(3_601, 1, Some(1)), Leap::Set(TimeDelta::hours(1))),
        (at(-3_599, 1, Some(1)), Leap::Set(TimeDelta::hours(-1))),
        // Slept an hour: the steady clock stood still, or went on.
        (at(3_600, 0, Some(3_600)), Leap::Slept),
        (at(3_600, 3_600, Some(3_600)), Leap::Slept),
        // Slept an hour, and set by one.
        (at(7_200, 0, Some(3_600)), Leap::Set(TimeDelta::hours(1))),
    ] {
        assert_eq!(after.leap(&before), leap, "{after:?}");
    }
    // Without such a clock an hour more may be sleep, an hour less is not.
    let before = at(0, 0, None);
    for (after, leap) in [
        (at(1, 1, None), Leap::None),
        (at(3_600, 1, None), Leap::Slept),
        (at(-3_599, 1, None), Leap::Set(TimeDelta::hours(-1))),
        (at(9, 9, None), Leap::Slept),
    ] {
        assert_eq!(after.leap(&before), leap, "{after:?}");
    }
}
