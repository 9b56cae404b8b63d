//! Sums about wounds: the skin they take, how they close, and the hours since they were made.

use super::answer::{Answer, figure, millilitres, percent, span};
use super::{Moment, ReckonError, Values};
use crate::finding::figure::Lines;
use crate::measure::elapsed::{self, Window};
use crate::measure::healing::{self, Flag};
use crate::measure::skin;
use crate::typed::{self, TypedError, weight as weighing};
use crate::unit::{Band, Minutes, Reading, SquareMillimetres};
use crate::zone::Zone;
use chrono::{DateTime, Datelike, NaiveDateTime, NaiveTime, TimeDelta, Utc};

/// Wounds by two lines each, apart with `;`.
pub fn wounds(text: &str) -> Result<Vec<Lines>, TypedError> {
    let wounds: Vec<Lines> =
        text.split(';').filter(|part| !part.trim().is_empty()).map(Lines::read).collect::<Result<_, _>>()?;
    if wounds.is_empty() { Err(TypedError::new(text, "says nothing", "8 x 5 cm")) } else { Ok(wounds) }
}

/// Whether a text is a clock time.
pub fn is_clock(text: &str) -> Result<(), TypedError> {
    clock(text, Zone::UTC, DateTime::UNIX_EPOCH + TimeDelta::days(20_000)).map(drop)
}

/// Whether a text names a zone.
pub fn is_zone(text: &str) -> Result<(), TypedError> {
    zone(text).map(drop)
}

fn zone(text: &str) -> Result<Zone, TypedError> {
    Zone::named(text).ok_or_else(|| TypedError::new(text, "is no zone we know", "Europe/Dublin"))
}

/// The share of her skin that her wounds take.
pub fn skin(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let grams = values.read("weight", weighing::parse)?;
    let wounds = values.read("wounds", wounds)?;
    let weight = Reading { band: Band::exactly(grams), settled: true };
    let share = skin::open_share(wounds.iter().map(|wound| Some(wound.area_read())), true, weight).band;
    let centimetres = |area: SquareMillimetres| figure(u64::from(area.0).div_ceil(10), 1);
    let mut answer = Answer::new("skin", "pi/4 x length x width, to 2 mm each / (10 x W^(2/3) cm2, W in grams)")
        .line("means", skin::Line::of(share.high).words())
        .line("share of her skin", span(share, percent, "%"));
    for (number, wound) in (1..).zip(&wounds) {
        answer = answer.line(format!("wound {number}"), span(wound.area_read(), centimetres, "cm2"));
    }
    Ok(answer
        .line(
            "water lost through it, about",
            span(skin::moisture_a_day(share, weight.band), millilitres, "mL a day (order of magnitude)"),
        )
        .note("Length times width would say 27 in 100 more."))
}

/// How a wound closes between two looks.
pub fn healing(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let (before, after) = (values.read("before", Lines::read)?, values.read("after", Lines::read)?);
    let days = values.may("days", |text| {
        let days = typed::count(text)?;
        let fits = (1..=3650).contains(&days);
        if fits { Ok(days) } else { Err(TypedError::new(text, "is outside 1 to 3650", "7")) }
    })?;
    let since = values.may("since", typed::count)?;
    let closed = healing::closed_read(before, after).unwrap_or(Band::exactly(0.0));
    let come = healing::advance_read(before, after).unwrap_or(Band::exactly(0.0));
    let mut answer = Answer::new("healing", "area = pi/4 x length x width; edge in = area closed / mean edge")
        .line("area closed", span(closed, |share| format!("{:.0}", share * 100.0), "%"))
        .line("edge came in", span(come, |come| format!("{come:.1}"), "mm"))
        .line("edge of it now", format!("{:.1} cm", after.edge() / 10.0));
    if let Some(days) = days {
        let a_day = |come: f64| format!("{:.2}", come / f64::from(days));
        let mid = healing::advance(before, after).unwrap_or(0.0) / f64::from(days);
        answer = answer.line("a day", span(come, a_day, "mm")).line("a day, as measured", format!("{mid:.2} mm"));
        answer = match healing::closes_in(before, after, days) {
            Some(left) => answer
                .line("may be closed in", span(left, |days| days.to_string(), "days more"))
                .note("The forecast takes the edge to go on as it did; wounds slow down and stop. Measure again."),
            None => answer.line("may be closed in", "not foretold: too few days, or less than a ruler can tell"),
        };
    }
    if let Some(flag) = since.or(days).and_then(|since| healing::flag(before, after, since)) {
        answer = answer.note(match flag {
            Flag::GrewAfterDay3 => "It has grown after the third day. A vet, within a day (our inference).",
            Flag::NotSmallerByDay7 => "Not clearly smaller by the seventh day. A vet, within a day (our inference).",
        });
    }
    if come.low <= 0.0 && come.high >= 0.0 {
        answer = answer.note("The change is smaller than the ruler can tell. Measure again in some days.");
    }
    Ok(answer.note("No rate of healing is published for birds."))
}

/// A clock time: `2026-10-24 20:00`, or `20:00` for the last time it was that.
fn clock(text: &str, zone: Zone, now: DateTime<Utc>) -> Result<Band<DateTime<Utc>>, TypedError> {
    let typed = text.trim();
    let example = "'2026-10-24 20:00' or 20:00";
    let known = |at: NaiveDateTime| {
        let near = (1990..=2200).contains(&at.year());
        let instants = zone.instants(at).filter(|_| near);
        instants.ok_or_else(|| TypedError::new(text, "is outside the years 1990 to 2200", example))
    };
    if let Ok(at) = NaiveDateTime::parse_from_str(typed, "%Y-%m-%d %H:%M") {
        return known(at);
    }
    let time =
        NaiveTime::parse_from_str(typed, "%H:%M").map_err(|_| TypedError::new(text, "is no clock time", example))?;
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
        return Err(ReckonError::DoNotFit("`from` comes after `to`", values.example.clone()));
    }
    if hurt.low > now {
        return Err(ReckonError::DoNotFit("`from` is still to come", values.example.clone()));
    }
    let hurt = Band { low: hurt.low, high: hurt.high.min(now) };
    let since = elapsed::since(hurt, now);
    let shown = |at: DateTime<Utc>| zone.local(at).format("%a %Y-%m-%d %H:%M").to_string();
    let answer =
        Answer::new("time", "a deadline counts from the earliest moment it may have happened, a watch from the latest")
            .line("hours since", span(tenths_of_hours(since), |tenths| figure(tenths, 1), "h"))
            .line("reckoned at", shown(now));
    let told = |answer: Answer, window: Window| {
        let ends = window.ends(hurt);
        let past = if ends <= now { " (past)" } else { "" };
        answer.line(window.words(), format!("{}{past}", shown(ends)))
    };
    Ok(Window::ALL
        .into_iter()
        .fold(answer, told)
        .note("A past window changes what is done, never how soon a vet is needed."))
}

/// Minutes as tenths of an hour, rounded outwards.
fn tenths_of_hours(since: Band<Minutes>) -> Band<u64> {
    Band { low: u64::from(since.low.0) / 6, high: u64::from(since.high.0).div_ceil(6) }
}
