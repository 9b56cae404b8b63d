//! Clock times in a zone of the earth, also where the clock is changed.

#![expect(clippy::panic, reason = "a failing test panics")]

use chrono::{NaiveDateTime, TimeDelta};
use coopside::zone::Zone;

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
