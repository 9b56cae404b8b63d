//! Time since something happened: what the person said then, and how far the clock has moved since.

use crate::unit::{Band, Minutes, Reading};
use chrono::{DateTime, TimeDelta, Utc};

/// A time span that was said at some moment, for example "one to twelve hours ago".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ago {
    /// The span as it was when it was said.
    pub span: Band<Minutes>,
    /// When it was said.
    pub said_at: DateTime<Utc>,
}

impl Ago {
    /// How long ago that is at `now`. A clock set back counts as no time gone, so the span never shrinks.
    pub fn at(self, now: DateTime<Utc>) -> Band<Minutes> {
        let since = u32::try_from((now - self.said_at).num_minutes().max(0)).unwrap_or(u32::MAX);
        Band {
            low: Minutes(self.span.low.0.saturating_add(since)),
            high: Minutes(self.span.high.0.saturating_add(since)),
        }
    }

    /// The earliest moment it may have happened: deadlines are counted from here.
    pub fn earliest(self) -> DateTime<Utc> {
        self.said_at - TimeDelta::minutes(i64::from(self.span.high.0))
    }
}

/// Within how many hours something is still worth doing. Unit: hours since the injury.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Window {
    /// Many stop closing a cut from then on: 6 to 12 h (common practice, no source); the earlier counts.
    Closing,
    /// Treatment of any bite, even a small hole: within 12 h (our step; that bites need it soon is read, Tully et al.).
    Bite,
    /// Nerve signs may still come: watched for 48 h (our step).
    Nerves,
}

impl Window {
    /// All of them, in the order they are told.
    pub const ALL: [Self; 3] = [Self::Closing, Self::Bite, Self::Nerves];

    /// The hours after the injury at which it ends.
    pub const fn hours(self) -> u32 {
        match self {
            Self::Closing => 6,
            Self::Bite => 12,
            Self::Nerves => 48,
        }
    }

    /// When it ends: a deadline counts from the earliest moment it may have happened, a watch from the latest.
    pub fn ends(self, hurt: Band<DateTime<Utc>>) -> DateTime<Utc> {
        let from = match self {
            Self::Closing | Self::Bite => hurt.low,
            Self::Nerves => hurt.high,
        };
        from.checked_add_signed(TimeDelta::hours(i64::from(self.hours()))).unwrap_or(DateTime::<Utc>::MAX_UTC)
    }
}

/// How long ago it happened by now, where it happened between two moments. A moment still to come counts as now.
pub fn since(hurt: Band<DateTime<Utc>>, now: DateTime<Utc>) -> Band<Minutes> {
    let ago = |at: DateTime<Utc>| Minutes(u32::try_from((now - at).num_minutes().max(0)).unwrap_or(u32::MAX));
    Band { low: ago(hurt.high), high: ago(hurt.low) }
}

/// Time since the injury as a measure; with nothing said it may be anything.
pub fn reading(ago: Option<Ago>, may_still_be_said: bool, now: DateTime<Utc>) -> Reading<Minutes> {
    let anything = Band { low: Minutes(0), high: Minutes(u32::MAX) };
    ago.map_or(Reading { band: anything, settled: !may_still_be_said }, |ago| Reading {
        band: ago.at(now),
        settled: true,
    })
}
