//! Moments and quantities as they are read, and as they are read aloud.

use super::Voice;
use crate::phrase::{Decimal, Phrase, Quantity, Text, Told, UnitOf, UnitTold, grammar, speech};
use crate::typed::weight;
use crate::zone::Zone;
use chrono::{DateTime, Datelike, Timelike, Utc};

type Say<'a> = &'a dyn Fn(&Text) -> String;
type SayPhrase<'a> = &'a dyn Fn(Phrase) -> String;

/// A figure as it is read: low to high, one where both are read alike, and its unit where the sentence does not tell it.
pub fn quantity(of: &Quantity, voice: Voice, say: Say, phrase: SayPhrase) -> String {
    let figure = |decimal: Decimal| match of.unit() {
        UnitOf::Weight => weight::show(decimal.grams()),
        UnitOf::MetricWeight => weight::metric(decimal.grams()),
        UnitOf::Grams
        | UnitOf::Millilitres
        | UnitOf::Percent
        | UnitOf::PercentAnHour
        | UnitOf::PerMinute
        | UnitOf::Degrees
        | UnitOf::Minutes
        | UnitOf::Hours
        | UnitOf::Days
        | UnitOf::Millimetres
        | UnitOf::Centimetres
        | UnitOf::SquareMillimetres
        | UnitOf::SquareCentimetres
        | UnitOf::GramsADay
        | UnitOf::Count => decimal.to_string(),
    };
    let (low, high) = (figure(of.band().low), figure(of.band().high));
    let band = if low == high { low } else { phrase(grammar::between(Text::Typed(low), Text::Typed(high))) };
    let unit = match of.told() {
        UnitTold::BySentence => return band,
        UnitTold::BySign => match voice {
            Voice::Written => of.unit().id().to_owned(),
            Voice::Aloud => phrase(unit_aloud(of.unit())),
        },
        UnitTold::ByWords(words) => say(words),
    };
    phrase(grammar::with_unit(Text::Typed(band), Text::Typed(unit)))
}

/// A unit as it is read aloud.
const fn unit_aloud(unit: UnitOf) -> Phrase {
    match unit {
        UnitOf::Weight | UnitOf::MetricWeight | UnitOf::Grams => speech::grams(),
        UnitOf::Millilitres => speech::millilitres(),
        UnitOf::Percent => speech::percent(),
        UnitOf::PercentAnHour => speech::percent_an_hour(),
        UnitOf::PerMinute => speech::a_minute(),
        UnitOf::Degrees => speech::degrees(),
        UnitOf::Minutes => speech::minutes(),
        UnitOf::Hours => speech::hours(),
        UnitOf::Days => speech::days(),
        UnitOf::Millimetres => speech::millimetres(),
        UnitOf::Centimetres => speech::centimetres(),
        UnitOf::SquareMillimetres => speech::square_millimetres(),
        UnitOf::SquareCentimetres => speech::square_centimetres(),
        UnitOf::GramsADay => speech::grams_a_day(),
        UnitOf::Count => speech::times(),
    }
}

/// A time on a clock that runs down: `4:59`; aloud "4 minutes 59". Seconds.
pub fn left(seconds: u64, voice: Voice, phrase: SayPhrase) -> String {
    let (minutes, rest) = (seconds / 60, seconds % 60);
    match (voice, minutes, rest) {
        (Voice::Written, minutes, rest) => format!("{minutes}:{rest:02}"),
        (Voice::Aloud, 0, seconds) => phrase(speech::left_seconds(seconds)),
        (Voice::Aloud, minutes, 0) => phrase(speech::left_minutes(minutes)),
        (Voice::Aloud, minutes, rest) => phrase(speech::left_both(speech::left_minutes(minutes), rest)),
    }
}

/// A moment as its clock shows it.
pub fn moment(zone: Zone, (at, told): (DateTime<Utc>, Told), voice: Voice, say: Say, phrase: SayPhrase) -> String {
    let at = zone.local(at);
    let typed = |form: &str| Text::Typed(at.format(form).to_string());
    let weekday = || match voice {
        Voice::Written => grammar::weekday(at.weekday().number_from_monday()),
        Voice::Aloud => speech::weekday(at.weekday().number_from_monday()),
    };
    let time = || match voice {
        Voice::Written => typed("%H:%M"),
        Voice::Aloud => spoken_clock(at.hour(), at.minute()).into(),
    };
    // The calendar as numbers is for the eye alone: aloud the month has a name.
    let date = || match voice {
        Voice::Written => at.format("%Y-%m-%d %H:%M").to_string(),
        Voice::Aloud => phrase(grammar::far(typed("%-d"), grammar::month_whole(at.month()), time())),
    };
    match told {
        Told::After(before) if zone.local(before).date_naive() == at.date_naive() => say(&time()),
        Told::Clock | Told::After(_) => phrase(grammar::clock(weekday(), time())),
        Told::Day => phrase(grammar::day(weekday(), typed("%d"), grammar::month(at.month()), time())),
        Told::DayAlone => phrase(grammar::day_alone(weekday(), typed("%-d"), grammar::month(at.month()))),
        Told::Far => phrase(grammar::far(typed("%-d"), grammar::month_whole(at.month()), time())),
        Told::DayOfMonth => phrase(grammar::day_of_month(typed("%d"), grammar::month(at.month()))),
        Told::Date => date(),
        Told::Second => at.format("%H:%M:%S").to_string(),
    }
}

/// Hours and minutes as they are read aloud: "two oh seven", "fourteen o'clock".
pub fn spoken_clock(hour: u32, minute: u32) -> Phrase {
    match minute {
        0 if hour == 0 => speech::midnight(),
        0 => speech::full_hour(speech::number(hour)),
        1..=9 => speech::clock_oh(speech::number(hour), speech::number(minute)),
        _ => speech::clock(speech::number(hour), speech::number(minute)),
    }
}
