//! The bird's own zone: which clock time an instant is there, also on the far side of a change of the clock.

use crate::unit::Band;
use chrono::{DateTime, FixedOffset, MappedLocalTime, NaiveDateTime, Offset, TimeDelta, TimeZone, Utc};
use chrono_tz::Tz;

/// A zone of the earth, or a plain distance from UTC where none is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// A zone of the IANA database, which knows when its clocks change.
    Named(Tz),
    /// A distance from UTC that never changes.
    Fixed(FixedOffset),
}

impl Zone {
    /// The zone whose clock is that of UTC.
    pub const UTC: Self = Self::Named(Tz::UTC);

    /// The zone with this name of the IANA database, for example `Europe/Dublin`.
    pub fn named(name: &str) -> Option<Self> {
        name.parse().ok().map(Self::Named)
    }

    /// The zone's distance from UTC at an instant.
    pub fn offset(self, at: DateTime<Utc>) -> FixedOffset {
        match self {
            Self::Named(zone) => at.with_timezone(&zone).offset().fix(),
            Self::Fixed(offset) => offset,
        }
    }

    /// An instant with the zone's distance from UTC at that instant.
    pub fn local(self, at: DateTime<Utc>) -> DateTime<FixedOffset> {
        at.with_timezone(&self.offset(at))
    }

    /// An instant as people say it: weekday and clock time.
    pub fn clock(self, at: DateTime<Utc>) -> String {
        self.local(at).format("%a %H:%M").to_string()
    }

    /// The instants a clock time may stand for: two where the clock is put back and shows it twice, the moment of the change
    /// where it is put forward and never shows it. Nothing for a time beyond what can be reckoned with.
    pub fn instants(self, clock: NaiveDateTime) -> Option<Band<DateTime<Utc>>> {
        match self.at(clock) {
            MappedLocalTime::Single(at) => Some(Band::exactly(at)),
            MappedLocalTime::Ambiguous(one, other) => Some(Band { low: one.min(other), high: one.max(other) }),
            MappedLocalTime::None => self.change_over(clock).map(Band::exactly),
        }
    }

    fn at(self, clock: NaiveDateTime) -> MappedLocalTime<DateTime<Utc>> {
        match self {
            Self::Named(zone) => zone.from_local_datetime(&clock).map(|at| at.to_utc()),
            Self::Fixed(offset) => offset.from_local_datetime(&clock).map(|at| at.to_utc()),
        }
    }

    /// The moment at which the clock jumped over this time: the last minute before it that the clock did show, and
    /// on to the first it shows again. No jump was ever longer than a day (Samoa left one out in 2011).
    fn change_over(self, clock: NaiveDateTime) -> Option<DateTime<Utc>> {
        let minutes = |count: i32| clock.checked_add_signed(TimeDelta::minutes(i64::from(count)));
        let shown = |clock: NaiveDateTime| self.at(clock).earliest();
        let after = (1..=24 * 60 + 1).find_map(|count| shown(minutes(count)?))?;
        let before = (1..=24 * 60 + 1).find_map(|count| shown(minutes(-count)?))?;
        // Both lie within a minute of the change; the later one is on its far side.
        Some(after.max(before))
    }
}

#[cfg(test)]
#[expect(clippy::panic, reason = "a failing test panics")]
mod tests {
    use super::*;

    fn clock(text: &str) -> NaiveDateTime {
        NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// Directive 2000/84/EC (read): clocks go forward on the last Sunday of March and back on the last of October, at 1:00 UTC.
    #[test]
    fn a_clock_time_is_right_across_a_change_of_the_clock() {
        let zone = Zone::named("Europe/Dublin").unwrap_or_else(|| panic!("no such zone"));
        let at = |text| zone.instants(clock(text)).unwrap_or_else(|| panic!("{text}"));
        let evening = at("2026-10-24 20:00").low;
        assert_eq!(zone.clock(evening + TimeDelta::hours(12)), "Sun 07:00");
        let spring = at("2026-03-28 20:00").low;
        assert_eq!(zone.clock(spring + TimeDelta::hours(12)), "Sun 09:00");
        let twice = at("2026-10-25 01:30");
        assert_eq!((twice.high - twice.low).num_minutes(), 60);
        let never = at("2026-03-29 01:30");
        assert_eq!(zone.clock(never.low), "Sun 02:00");
        let samoa = Zone::named("Pacific/Apia").unwrap_or_else(|| panic!("no such zone"));
        let left_out = samoa.instants(clock("2011-12-30 12:00")).unwrap_or_else(|| panic!("no instant"));
        assert_eq!(samoa.clock(left_out.low), "Sat 00:00");
        assert_eq!(Zone::named("Middle/Earth"), None);
    }
}
