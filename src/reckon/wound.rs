//! Sums about wounds: the skin they take, how they close, and the hours since they were made.

use super::answer::Answer;
use super::{Moment, ReckonError, Values, Wrong, checked, means};
use crate::finding::figure::Lines;
use crate::measure::elapsed::{self, Window};
use crate::measure::healing::{self, Flag};
use crate::measure::skin;
use crate::phrase::{Decimal, Quantity, Text, UnitOf, grammar, mistyped, sum as units, sum_wound as says};
use crate::typed::{self, weight as weighing};
use crate::unit::{Band, Minutes, Reading, SquareMillimetres};
use crate::zone::Zone;
use chrono::{DateTime, Datelike, NaiveDateTime, NaiveTime, TimeDelta, Utc};

/// Wounds by two lines each, apart with `;`.
pub fn wounds(text: &str) -> Result<Vec<Lines>, Wrong> {
    let wounds: Vec<Lines> =
        text.split(';').filter(|part| !part.trim().is_empty()).map(Lines::read).collect::<Result<_, _>>()?;
    if wounds.is_empty() {
        Err(Wrong::new(text, mistyped::says_nothing(), Text::typed("8 x 5 cm")))
    } else {
        Ok(wounds)
    }
}

/// Whether a text is a clock time.
pub fn is_clock(text: &str) -> Result<(), Wrong> {
    checked(clock(text, Zone::UTC, DateTime::UNIX_EPOCH + TimeDelta::days(20_000)))
}

/// Whether a text names a zone.
pub fn is_zone(text: &str) -> Result<(), Wrong> {
    checked(zone(text))
}

fn zone(text: &str) -> Result<Zone, Wrong> {
    Zone::named(text).ok_or_else(|| Wrong::new(text, says::no_zone(), Text::typed("Europe/Dublin")))
}

/// The share of her skin that her wounds take.
pub fn skin(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let grams = values.read("weight", weighing::parse)?;
    let wounds = values.read("wounds", wounds)?;
    let weight = Reading { band: Band::exactly(grams), settled: true };
    let share = skin::open_share(wounds.iter().map(|wound| Some(wound.area_read())), true, weight).band;
    let centimetres = |area: SquareMillimetres| Decimal::new(u64::from(area.0).div_ceil(10), 1);
    let mut answer = Answer::new(says::skin(), says::skin_formula())
        .line(says::means(), means::skin(skin::Line::of(share.high)))
        .line(says::share(), Quantity::share(share).signed());
    for (number, wound) in (1u32..).zip(&wounds) {
        answer = answer.line(
            says::number(number),
            Quantity::of(wound.area_read(), centimetres, UnitOf::SquareCentimetres).signed(),
        );
    }
    Ok(answer
        .line(
            says::water_lost(),
            Quantity::volume(skin::moisture_a_day(share, weight.band)).in_words(units::a_day_order()),
        )
        .note(says::more_by_lines()))
}

/// How a wound closes between two looks.
pub fn healing(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let (before, after) = (values.read("before", Lines::read)?, values.read("after", Lines::read)?);
    let days = values.may("days", |text| -> Result<u32, Wrong> {
        let days = typed::count(text)?;
        let fits = (1..=3650).contains(&days);
        if fits { Ok(days) } else { Err(Wrong::new(text, says::days_outside(), Text::typed("7"))) }
    })?;
    let since = values.may("since", typed::count)?;
    let closed = healing::closed_read(before, after).unwrap_or(Band::exactly(0.0));
    let come = healing::advance_read(before, after).unwrap_or(Band::exactly(0.0));
    let mut answer = Answer::new(says::healing(), says::healing_formula())
        .line(
            says::area_closed(),
            Quantity::of(closed, |share| Decimal::rounded(share * 100.0, 0), UnitOf::Percent).signed(),
        )
        .line(says::edge_in(), Quantity::of(come, |come| Decimal::rounded(come, 1), UnitOf::Millimetres).signed())
        .line(says::edge_now(), Quantity::one(Decimal::rounded(after.edge() / 10.0, 1), UnitOf::Centimetres).signed());
    if let Some(days) = days {
        let a_day = |come: f64| Decimal::rounded(come / f64::from(days), 2);
        let mid = healing::advance(before, after).unwrap_or(0.0) / f64::from(days);
        answer = answer
            .line(says::a_day(), Quantity::of(come, a_day, UnitOf::Millimetres).signed())
            .line(says::a_day_measured(), Quantity::one(Decimal::rounded(mid, 2), UnitOf::Millimetres).signed());
        answer = match healing::closes_in(before, after, days) {
            Some(left) => answer
                .line(says::closed_in(), Quantity::of(left, Decimal::whole, UnitOf::Days).in_words(units::days_more()))
                .note(says::goes_on()),
            None => answer.line(says::closed_in(), says::not_foretold()),
        };
    }
    if let Some(flag) = since.or(days).and_then(|since| healing::flag(before, after, since)) {
        answer = answer.note(match flag {
            Flag::GrewAfterDay3 => says::grew(),
            Flag::NotSmallerByDay7 => says::not_smaller(),
        });
    }
    if come.low <= 0.0 && come.high >= 0.0 {
        answer = answer.note(says::ruler());
    }
    Ok(answer.note(says::no_rate()))
}

/// A clock time: `2026-10-24 20:00`, or `20:00` for the last time it was that.
fn clock(text: &str, zone: Zone, now: DateTime<Utc>) -> Result<Band<DateTime<Utc>>, Wrong> {
    let typed = text.trim();
    let example = says::clock_times;
    let known = |at: NaiveDateTime| {
        let near = (1990..=2200).contains(&at.year());
        let instants = zone.instants(at).filter(|_| near);
        instants.ok_or_else(|| Wrong::new(text, says::years(), example()))
    };
    if let Ok(at) = NaiveDateTime::parse_from_str(typed, "%Y-%m-%d %H:%M") {
        return known(at);
    }
    let time = NaiveTime::parse_from_str(typed, "%H:%M").map_err(|_| Wrong::new(text, says::no_clock(), example()))?;
    let today = zone.local(now).date_naive().and_time(time);
    let at = known(today)?;
    if at.low > now { known(today - TimeDelta::days(1)) } else { Ok(at) }
}

/// The hours since she was hurt, and the clock times that hang on them.
pub fn time(values: &Values, moment: &Moment) -> Result<Answer, ReckonError> {
    let zone = values.may("zone", zone)?;
    let zone = zone.unwrap_or(moment.zone);
    let now = values.may("now", |text| clock(text, zone, moment.now))?.map_or(moment.now, |now| now.low);
    let from = values.read("from", |text| clock(text, zone, now))?;
    let to = values.may("to", |text| clock(text, zone, now))?.unwrap_or(from);
    let hurt = Band { low: from.low, high: to.high };
    if hurt.low > hurt.high {
        return Err(ReckonError::DoNotFit(units::from_after_to(), Text::typed(&values.example)));
    }
    if hurt.low > now {
        return Err(ReckonError::DoNotFit(units::from_to_come(), Text::typed(&values.example)));
    }
    let hurt = Band { low: hurt.low, high: hurt.high.min(now) };
    let since = elapsed::since(hurt, now);
    // By the bird's own clock, which may be another than the reader's.
    let shown = |at: DateTime<Utc>| {
        let local = zone.local(at);
        says::at(
            grammar::weekday(local.weekday().number_from_monday()),
            Text::typed(local.format("%Y-%m-%d %H:%M").to_string()),
        )
    };
    let answer = Answer::new(says::time(), says::time_formula())
        .line(
            says::hours_since(),
            Quantity::of(tenths_of_hours(since), |tenths| Decimal::new(tenths, 1), UnitOf::Hours).signed(),
        )
        .line(says::reckoned_at(), shown(now));
    let told = |answer: Answer, window: Window| {
        let ends = window.ends(hurt);
        let told = shown(ends);
        answer.line(means::window(window), if ends <= now { says::past(told) } else { told })
    };
    Ok(Window::ALL.into_iter().fold(answer, told).note(says::past_window()))
}

/// Minutes as tenths of an hour, rounded outwards.
fn tenths_of_hours(since: Band<Minutes>) -> Band<u64> {
    Band { low: u64::from(since.low.0) / 6, high: u64::from(since.high.0).div_ceil(6) }
}
