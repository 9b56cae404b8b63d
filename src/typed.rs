//! Quantities as people type them: a number and its unit, read one way or not at all; and as they are written again.
//!
//! What `write_…` gives back reads as the same quantity.

pub mod weight;

use crate::unit::{Microlitres, Micrometres, MilligramsPerLitre, Permille};

/// Why a typed quantity could not be taken, and one that could.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{} {what}; for example {example}", if text.is_empty() { "nothing typed:".to_owned() } else { format!("`{text}`") })]
pub struct TypedError {
    /// What was typed.
    pub text: String,
    /// What is wrong with it.
    pub what: String,
    /// What would be taken.
    pub example: String,
}

impl TypedError {
    /// A text that cannot be taken.
    pub fn new(text: &str, what: impl Into<String>, example: impl Into<String>) -> Self {
        Self { text: text.into(), what: what.into(), example: example.into() }
    }

    /// The same with an example of the whole it is a part of.
    #[must_use]
    pub fn example_of(self, whole: &str) -> Self {
        Self { example: whole.into(), ..self }
    }
}

/// A number with its unit, in thousandths of the unit.
struct Number<'t> {
    thousandths: u64,
    unit: &'t str,
}

/// Reads a number with at most three decimals; a point or comma before three digits may part thousands, so it is refused.
fn number<'t>(text: &'t str, example: &str) -> Result<Number<'t>, TypedError> {
    let wrong = |what: &str| TypedError::new(text, what, example);
    let typed = text.trim();
    let fraction = [("1/2", 500), ("1/4", 250), ("3/4", 750)];
    if let Some((typed, thousandths)) = fraction.iter().find_map(|(f, value)| Some((typed.strip_prefix(f)?, *value))) {
        return Ok(Number { thousandths, unit: typed.trim() });
    }
    let end = typed.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(typed.len());
    let (digits, unit) = typed.split_at(end);
    let (of_one, unit) = match unit.trim_start().chars().next() {
        Some('½') => (500, unit.trim_start().trim_start_matches('½')),
        Some('¼') => (250, unit.trim_start().trim_start_matches('¼')),
        Some('¾') => (750, unit.trim_start().trim_start_matches('¾')),
        _ => (0, unit),
    };
    let (whole, part) = match digits.split_once(['.', ',']) {
        Some(_) if of_one > 0 => return Err(wrong("is no number")),
        Some((_, part)) if part.contains(['.', ',']) => return Err(wrong("is no number")),
        Some((_, part)) if part.len() == 3 => {
            return Err(wrong("can be read in two ways; leave the point or comma out"));
        }
        Some((whole, part)) => (whole, part),
        None => (digits, ""),
    };
    if whole.is_empty() && part.is_empty() && of_one == 0 || whole.len() > 9 || part.len() > 3 {
        return Err(wrong("is no number we can read"));
    }
    let whole: u64 = if whole.is_empty() { 0 } else { whole.parse().map_err(|_| wrong("is no number"))? };
    let part: u64 = format!("{part:0<3}").parse().map_err(|_| wrong("is no number"))?;
    Ok(Number { thousandths: whole * 1000 + part + of_one, unit: unit.trim() })
}

/// A value times a factor for its unit, in thousandths of the base unit; more than nothing.
fn scaled(text: &str, example: &str, factor: impl Fn(&str) -> Option<u64>) -> Result<u64, TypedError> {
    let read = number(text, example)?;
    let unit = read.unit.to_lowercase();
    let factor = factor(&unit).ok_or_else(|| {
        let what = if unit.is_empty() { "has no unit" } else { "has no unit we know" };
        TypedError::new(text, what, example)
    })?;
    let value = read.thousandths.saturating_mul(factor) / 1000;
    if value == 0 { Err(TypedError::new(text, "must be more than nothing", example)) } else { Ok(value) }
}

/// A volume: `500 ml`, `1 l`, `2 tsp`, `1 tbsp`, `1 cup`, `1 pint`. Household measures are metric (5, 15, 240 mL); a pint is
/// the imperial one of 568 mL, and is told as such; a fluid ounce is that of the United States, 29.57 mL.
///
/// # Errors
/// Without a number, without a unit, or of nothing.
pub fn volume(text: &str) -> Result<Microlitres, TypedError> {
    let factor = |unit: &str| match unit {
        "ul" | "µl" => Some(1),
        "ml" => Some(1_000),
        "cl" => Some(10_000),
        "dl" => Some(100_000),
        "l" | "litre" | "litres" | "liter" | "liters" => Some(1_000_000),
        "tsp" | "teaspoon" | "teaspoons" => Some(5_000),
        "tbsp" | "tablespoon" | "tablespoons" => Some(15_000),
        "cup" | "cups" => Some(240_000),
        "pint" | "pints" | "pt" => Some(568_261),
        "fl oz" | "floz" => Some(29_574),
        _ => None,
    };
    scaled(text, "500 ml", factor).map(Microlitres)
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
    let factor = |unit: &str| match unit {
        "%" | "percent" => Some(10_000),
        "g/l" => Some(1_000),
        "mg/l" => Some(1),
        _ => None,
    };
    let strength = scaled(text, "10 %", factor)?;
    if strength > 1_000_000 {
        return Err(TypedError::new(text, "is more than 100 %", "10 %"));
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
    let factor = |unit: &str| match unit {
        "mg" => Some(1),
        "g" | "gram" | "grams" => Some(1_000),
        "kg" => Some(1_000_000),
        _ => None,
    };
    scaled(text, "9 g", factor)
}

/// A length: `6 cm`, `45 mm`, `2 in`.
///
/// # Errors
/// Without a number, without a unit, or of nothing.
pub fn length(text: &str) -> Result<Micrometres, TypedError> {
    let factor = |unit: &str| match unit {
        "um" | "µm" => Some(1),
        "mm" => Some(1_000),
        "cm" => Some(10_000),
        "m" => Some(1_000_000),
        "in" | "inch" | "inches" => Some(25_400),
        _ => None,
    };
    scaled(text, "6 cm", factor).map(Micrometres)
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
    let value = scaled(text, "8 %", |unit| (unit == "%").then_some(10))?;
    u32::try_from(value)
        .ok()
        .filter(|value| *value <= 150)
        .map(Permille)
        .ok_or_else(|| TypedError::new(text, "is more than a living bird can lack (15 %)", "8 %"))
}

/// A length of time in minutes: `90 min`, `6 h`, `2 days`.
///
/// # Errors
/// Without a number, without a unit, of less than a minute, or above ten years.
pub fn minutes(text: &str) -> Result<u32, TypedError> {
    let factor = |unit: &str| match unit {
        "min" | "minute" | "minutes" => Some(1),
        "h" | "hour" | "hours" => Some(60),
        "d" | "day" | "days" => Some(1440),
        _ => None,
    };
    let minutes = scaled(text, "6 h", factor)?;
    u32::try_from(minutes)
        .ok()
        .filter(|minutes| *minutes <= 5_256_000)
        .ok_or_else(|| TypedError::new(text, "is longer than ten years", "6 h"))
}

/// A count without a unit, up to a hundred thousand.
///
/// # Errors
/// Where it is no whole number, or too many.
pub fn count(text: &str) -> Result<u32, TypedError> {
    let count: u32 = text.trim().parse().map_err(|_| TypedError::new(text, "is no whole number", "15"))?;
    if count > 100_000 { Err(TypedError::new(text, "is too many to have been counted", "15")) } else { Ok(count) }
}

/// One of some words.
///
/// # Errors
/// Where it is none of them; all are named.
pub fn word<T: Copy>(text: &str, known: &[(&str, T)]) -> Result<T, TypedError> {
    let told = text.trim().to_lowercase();
    known.iter().find(|(word, _)| *word == told).map(|(_, value)| *value).ok_or_else(|| {
        let words = known.iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", ");
        TypedError::new(text, format!("is not one of {words}"), known.first().map_or("", |(word, _)| word))
    })
}
