//! Breaths tapped as they come, and a vein timed: both run on the moments that come in with each key.

use crate::finding::figure::Count;
use crate::unit::TenthsOfSecond;
use chrono::{DateTime, TimeDelta, Utc};

/// Breaths being tapped. The first tap starts the time; every later one is a breath.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taps {
    /// How long one count runs. Seconds.
    pub over: u32,
    /// The counts that are done.
    pub counts: Vec<Count>,
    /// The count that runs: since when, and how many breaths so far.
    pub running: Option<(DateTime<Utc>, u32)>,
    /// When the last count ended, and whether no breath at all was tapped in it.
    pub ended: Option<(DateTime<Utc>, bool)>,
}

/// A tap so soon after the end was meant for the count that has ended. Milliseconds.
const TOO_SOON_MS: i64 = 1_500;

/// The times a count may run, by their keys. Seconds.
pub const OVER: [u32; 3] = [15, 30, 60];

impl Taps {
    /// Ready to count, after counts made before.
    pub const fn after(counts: Vec<Count>) -> Self {
        Self { over: 30, counts, running: None, ended: None }
    }

    /// A tap; `held` says whether she is in the hand.
    pub fn tap(&mut self, now: DateTime<Utc>, held: bool) {
        // A breath after the end belongs to no count.
        let just_ended = self.ended.is_some_and(|(at, _)| (now - at).num_milliseconds().abs() < TOO_SOON_MS);
        if self.settle(now, held) || (self.running.is_none() && just_ended) {
            return;
        }
        self.running = match self.running {
            None => Some((now, 0)),
            Some((since, breaths)) => Some((since, breaths.saturating_add(1))),
        };
    }

    /// Ends the count that runs once its time is up. True where it has just ended.
    pub fn settle(&mut self, now: DateTime<Utc>, held: bool) -> bool {
        let Some((since, breaths)) = self.running else { return false };
        if now - since < TimeDelta::seconds(i64::from(self.over)) {
            return false;
        }
        // No breath at all is no count of a living bird: it is said, and counted again.
        if breaths > 0 {
            self.counts.push(Count { breaths, seconds: self.over, held });
        }
        self.running = None;
        self.ended = Some((now, breaths == 0));
        true
    }

    /// Sets how long a count runs; not while one does.
    pub fn run_over(&mut self, at: usize) {
        if let (None, Some(over)) = (self.running, OVER.get(at)) {
            self.over = *over;
        }
    }

    /// The seconds left of the count that runs.
    pub fn left(&self, now: DateTime<Utc>) -> Option<u32> {
        let (since, _) = self.running?;
        let gone = (now - since).num_seconds().max(0);
        Some(self.over.saturating_sub(u32::try_from(gone).unwrap_or(u32::MAX)))
    }

    /// A step back: the count that runs is dropped, else the last one that is done. False where there is none.
    pub fn back(&mut self) -> bool {
        self.running.take().is_some() || self.counts.pop().is_some()
    }
}

/// The wing vein being timed: from letting go until it is full again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Vein {
    /// When the finger let go.
    pub since: Option<DateTime<Utc>>,
    /// How long it took.
    pub took: Option<TenthsOfSecond>,
}

impl Vein {
    /// A tap: lets go, or has seen it full.
    pub fn tap(&mut self, now: DateTime<Utc>) {
        *self = match self.since {
            None => Self { since: Some(now), took: None },
            Some(since) => {
                // Rounded up: towards the graver answer.
                let tenths = ((now - since).num_milliseconds().max(0) + 99) / 100;
                let tenths = tenths.min(600);
                Self { since: None, took: Some(TenthsOfSecond(u32::try_from(tenths).unwrap_or(600))) }
            }
        };
    }

    /// A step back. False where there is nothing to take back.
    pub fn back(&mut self) -> bool {
        let any = self.since.is_some() || self.took.is_some();
        *self = Self::default();
        any
    }
}
