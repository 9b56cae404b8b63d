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

/// Time since the injury as a measure; with nothing said it may be anything.
pub fn reading(ago: Option<Ago>, may_still_be_said: bool, now: DateTime<Utc>) -> Reading<Minutes> {
    let anything = Band { low: Minutes(0), high: Minutes(u32::MAX) };
    ago.map_or(Reading { band: anything, settled: !may_still_be_said }, |ago| Reading {
        band: ago.at(now),
        settled: true,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn noon() -> DateTime<Utc> {
        DateTime::UNIX_EPOCH + TimeDelta::hours(12)
    }

    #[test]
    fn the_span_grows_with_the_clock() {
        let ago = Ago { span: Band { low: Minutes(60), high: Minutes(720) }, said_at: noon() };
        assert_eq!(ago.at(noon() + TimeDelta::hours(2)), Band { low: Minutes(180), high: Minutes(840) });
        assert_eq!(ago.at(noon() - TimeDelta::hours(2)), ago.span);
        assert_eq!(ago.earliest(), DateTime::UNIX_EPOCH);
    }
}
