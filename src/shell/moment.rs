//! A moment by three clocks, and what happened between two of them: the clock of the wall can be set, and a machine can sleep.

use chrono::{DateTime, TimeDelta, Utc};
use std::time::{Duration, Instant};

/// How far two clocks drift apart before something happened.
const APART: TimeDelta = TimeDelta::seconds(2);
/// A beat comes each second: after so long without one the machine slept, whatever its clocks say.
const MISSED: Duration = Duration::from_secs(5);

/// A moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ThreeClocks {
    /// By the clock of the wall.
    pub wall: DateTime<Utc>,
    /// By a clock that nobody sets, since some beginning. Whether it goes on while the machine sleeps is the system's affair.
    pub steady: Duration,
    /// By one that nobody sets and that goes on in sleep, where the system has it.
    pub whole: Option<Duration>,
}

/// What happened between two moments.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leap {
    /// Nothing but time.
    None,
    /// The machine slept: time has gone by, and nobody counted.
    Slept,
    /// The clock of the wall was set by so much; no time has gone by for it.
    Set(TimeDelta),
}

impl ThreeClocks {
    /// This moment; `began` is where the steady clock is counted from.
    pub fn now(began: Instant) -> Self {
        Self { wall: Utc::now(), steady: began.elapsed(), whole: whole() }
    }

    /// What happened since an earlier moment.
    pub fn leap(&self, before: &Self) -> Leap {
        let wall = self.wall - before.wall;
        let steady = self.steady.saturating_sub(before.steady);
        let whole = self.whole.zip(before.whole).map(|(now, then)| now.saturating_sub(then));
        let gone = TimeDelta::from_std(whole.unwrap_or(steady)).unwrap_or(TimeDelta::MAX);
        let apart = wall - gone;
        // Where no clock goes on in sleep, a wall clock that is ahead may tell of sleep; one that is behind was set.
        let set = if whole.is_some() { apart.abs() > APART } else { apart < -APART };
        if set {
            Leap::Set(apart)
        } else if gone - TimeDelta::from_std(steady).unwrap_or(gone) > APART || apart > APART || steady > MISSED {
            Leap::Slept
        } else {
            Leap::None
        }
    }
}

#[cfg(target_os = "linux")]
fn whole() -> Option<Duration> {
    let now = rustix::time::clock_gettime(rustix::time::ClockId::Boottime);
    Some(Duration::new(u64::try_from(now.tv_sec).ok()?, u32::try_from(now.tv_nsec).ok()?))
}

#[cfg(not(target_os = "linux"))]
const fn whole() -> Option<Duration> {
    None
}
