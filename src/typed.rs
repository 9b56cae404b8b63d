//! Quantities as people type them: a number and its unit, read one way or not at all; and as they are written again.
//!
//! What `write_…` gives back reads as the same quantity.

mod amount;
mod household;
mod mistyped;
pub mod weight;

pub use amount::NoAmount;
pub use household::Household;
pub use mistyped::{Example, Mistyped, TypedError};

use crate::unit::{Band, Microlitres, Micrometres, MilligramsPerLitre, Permille, TenthsOfSecond};
use amount::Unit;

/// A volume, as the country has it: `500 ml`, `1.900 l`, `1 1/2 tsp`, `1/3 cup`, `2 pints`, `us pint`, `imperial quart`.
///
/// Spoons, cups, fluid ounces, pints, quarts and gallons hold less in one country than in the other: where neither is known,
/// the band holds both. The sources stand beside the units.
///
/// # Errors
/// Without a number, without a unit, of nothing, or where it can be read in two ways.
pub fn volume(text: &str, household: Household) -> Result<Band<Microlitres>, TypedError> {
    let read =
        amount::read(text, |unit| household::volume(unit, household)).map_err(|wrong| wrong.of(text, "500 ml"))?;
    let Band { low, high } = read.some(text, "500 ml")?;
    Ok(Band { low: Microlitres(low), high: Microlitres(high) })
}

/// A volume that is to be measured out: one that is not the same everywhere is refused, with what to type instead.
///
/// # Errors
/// As [`volume`], and where it holds less in one country than in another.
pub fn one_volume(text: &str, household: Household) -> Result<Microlitres, TypedError> {
    let Band { low, high } = volume(text, household)?;
    if low == high {
        return Ok(low);
    }
    let what = Mistyped::DiffersByCountry { least_ml: low.0 / 1_000, most_ml: high.0.div_ceil(1_000) };
    Err(TypedError::new(text, what, "500 ml"))
}

/// A volume as it can be read again.
pub fn write_volume(volume: Microlitres) -> String {
    decimal(volume.0, 1_000, "ml", "ul")
}

/// A strength: `10 %`, `0.05 %`, `9 g/l`.
///
/// # Errors
/// Without a number, without a unit, of nothing, or above 100 %.
pub fn strength(text: &str) -> Result<MilligramsPerLitre, TypedError> {
    let units = |unit: &str| match unit {
        "%" | "percent" => Some(Unit::of(10_000)),
        "g/l" | "mg/ml" => Some(Unit::of(1_000)),
        "mg/l" => Some(Unit::small(1)),
        _ => None,
    };
    let strength = one(text, "10 %", units)?;
    if strength > 1_000_000 {
        return Err(TypedError::new(text, Mistyped::MoreThanAll, "10 %"));
    }
    Ok(MilligramsPerLitre(strength))
}

/// A strength as it can be read again.
pub fn write_strength(strength: MilligramsPerLitre) -> String {
    decimal(strength.0, 10_000, "%", "mg/l")
}

/// A small mass in milligrams: `9 g`, `2.25 g`, `500 mg`, `1 kg`.
///
/// # Errors
/// Without a number, without a unit, or of nothing.
pub fn milligrams(text: &str) -> Result<u64, TypedError> {
    one(text, "9 g", weight::milligrams)
}

/// A length: `6 cm`, `45 mm`, `2 in`.
///
/// # Errors
/// Without a number, without a unit, or of nothing.
pub fn length(text: &str) -> Result<Micrometres, TypedError> {
    let units = |unit: &str| match unit {
        "um" | "µm" | "μm" => Some(Unit::small(1)),
        "mm" => Some(Unit::small(1_000)),
        "cm" => Some(Unit::of(10_000)),
        "m" => Some(Unit::of(1_000_000)),
        // International yard and pound agreement, 1959 (from memory): 25.4 mm.
        "in" | "inch" | "inches" | "\"" => Some(Unit::of(25_400)),
        _ => None,
    };
    one(text, "6 cm", units).map(Micrometres)
}

/// A length as it can be read again.
pub fn write_length(length: Micrometres) -> String {
    decimal(length.0, 1_000, "mm", "um")
}

/// A count of base units in the larger unit, where two decimals hold it, else in the smaller one.
fn decimal(value: u64, unit: u64, large: &str, small: &str) -> String {
    let hundredth = unit / 100;
    if !value.is_multiple_of(hundredth) || value / unit > 999_999_999 {
        return format!("{value} {small}");
    }
    let (whole, part) = (value / unit, value % unit / hundredth);
    match (part, part % 10) {
        (0, _) => format!("{whole} {large}"),
        (part, 0) => format!("{whole}.{} {large}", part / 10),
        (part, _) => format!("{whole}.{part:02} {large}"),
    }
}

/// A share of body weight that is water lost: `8 %`. Above 15 % no bird is alive (published signs end at 12).
///
/// # Errors
/// Without a number or `%`, of nothing, or above 15 %.
pub fn dryness(text: &str) -> Result<Permille, TypedError> {
    let value = one(text, "8 %", |unit| (unit == "%").then_some(Unit::of(10)))?;
    u32::try_from(value)
        .ok()
        .filter(|value| *value <= 150)
        .map(Permille)
        .ok_or_else(|| TypedError::new(text, Mistyped::TooDry, "8 %"))
}

/// A length of time in minutes: `90 min`, `6 h`, `2 days`.
///
/// # Errors
/// Without a number, without a unit, of less than a minute, or above ten years.
pub fn minutes(text: &str) -> Result<u32, TypedError> {
    let units = |unit: &str| match unit {
        "min" | "minute" | "minutes" => Some(Unit::small(1)),
        "h" | "hour" | "hours" => Some(Unit::of(60)),
        "d" | "day" | "days" => Some(Unit::of(1440)),
        _ => None,
    };
    let minutes = one(text, "6 h", units)?;
    u32::try_from(minutes)
        .ok()
        .filter(|minutes| *minutes <= 5_256_000)
        .ok_or_else(|| TypedError::new(text, Mistyped::OverTenYears, "6 h"))
}

/// A time in seconds to the tenth, at most a minute; the unit may be left out: `1.2 s`, `1 1/2`.
///
/// # Errors
/// Where it is no number, or longer than a minute.
pub fn tenths_of_second(text: &str, example: &'static str) -> Result<TenthsOfSecond, TypedError> {
    let units = |unit: &str| matches!(unit, "" | "s" | "sec" | "second" | "seconds").then_some(Unit::of(10));
    let read = amount::read(text, units).map_err(|wrong| wrong.of(text, example))?;
    let tenths = u32::try_from(read.nearest().high).ok().filter(|tenths| *tenths < 610);
    tenths.map(TenthsOfSecond).ok_or_else(|| TypedError::new(text, Mistyped::OverAMinute, example))
}

/// An amount with a unit that is the same everywhere, in the base unit; more than nothing.
fn one(text: &str, example: &'static str, units: impl Fn(&str) -> Option<Unit>) -> Result<u64, TypedError> {
    let read = amount::read(text, units).map_err(|wrong| wrong.of(text, example))?;
    Ok(read.some(text, example)?.high)
}

/// A count without a unit, up to a hundred thousand.
///
/// # Errors
/// Where it is no whole number, or too many.
pub fn count(text: &str) -> Result<u32, TypedError> {
    let count: u32 = text.trim().parse().map_err(|_| TypedError::new(text, Mistyped::NoWholeNumber, "15"))?;
    if count > 100_000 { Err(TypedError::new(text, Mistyped::TooMany, "15")) } else { Ok(count) }
}

/// One of some words.
///
/// # Errors
/// Where it is none of them; all are named.
pub fn word<T: Copy>(text: &str, known: &[(&'static str, T)]) -> Result<T, TypedError> {
    let told = text.trim().to_lowercase();
    known.iter().find(|(word, _)| *word == told).map(|(_, value)| *value).ok_or_else(|| {
        let words: Vec<&str> = known.iter().map(|(word, _)| *word).collect();
        let example = words.first().copied().unwrap_or_default();
        TypedError::new(text, Mistyped::NotOneOf(words), example)
    })
}
