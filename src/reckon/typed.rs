//! Quantities as people type them: a number and its unit, read one way or not at all.

use super::ReckonError;
use crate::unit::{Microlitres, Micrometres, MilligramsPerLitre, Permille};

/// A number with its unit, in thousandths of the unit.
struct Number<'t> {
    thousandths: u64,
    unit: &'t str,
}

/// Reads a number with at most three decimals; a point or comma before three digits may part thousands, so it is refused.
fn number<'t>(name: &str, text: &'t str, example: &str) -> Result<Number<'t>, ReckonError> {
    let wrong = |what: &str| ReckonError::value(name, text, what, example);
    let typed = text.trim();
    let end = typed.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(typed.len());
    let (digits, unit) = typed.split_at(end);
    let (whole, part) = match digits.split_once(['.', ',']) {
        Some((_, part)) if part.contains(['.', ',']) => return Err(wrong("is no number")),
        Some((_, part)) if part.len() == 3 => {
            return Err(wrong("can be read in two ways; leave the point or comma out"));
        }
        Some((whole, part)) => (whole, part),
        None => (digits, ""),
    };
    if whole.is_empty() && part.is_empty() || whole.len() > 9 || part.len() > 3 {
        return Err(wrong("is no number we can read"));
    }
    let whole: u64 = if whole.is_empty() { 0 } else { whole.parse().map_err(|_| wrong("is no number"))? };
    let part: u64 = format!("{part:0<3}").parse().map_err(|_| wrong("is no number"))?;
    Ok(Number { thousandths: whole * 1000 + part, unit: unit.trim() })
}

/// A value times a factor for its unit, in thousandths of the base unit; more than nothing.
fn scaled(name: &str, text: &str, example: &str, factor: impl Fn(&str) -> Option<u64>) -> Result<u64, ReckonError> {
    let read = number(name, text, example)?;
    let wrong = |what: &str| ReckonError::value(name, text, what, example);
    let factor = factor(&read.unit.to_lowercase()).ok_or_else(|| wrong("has no unit we know"))?;
    let value = read.thousandths.saturating_mul(factor) / 1000;
    if value == 0 { Err(wrong("must be more than nothing")) } else { Ok(value) }
}

/// A volume: `500 ml`, `1 l`, `2 tsp`, `1 tbsp`, `1 cup`.
pub fn volume(name: &str, text: &str) -> Result<Microlitres, ReckonError> {
    let factor = |unit: &str| match unit {
        "ul" | "µl" => Some(1),
        "ml" => Some(1_000),
        "cl" => Some(10_000),
        "dl" => Some(100_000),
        "l" | "litre" | "litres" | "liter" | "liters" => Some(1_000_000),
        "tsp" | "teaspoon" | "teaspoons" => Some(5_000),
        "tbsp" | "tablespoon" | "tablespoons" => Some(15_000),
        "cup" | "cups" => Some(240_000),
        _ => None,
    };
    scaled(name, text, "500 ml", factor).map(Microlitres)
}

/// A strength: `10 %`, `0.05 %`, `9 g/l`.
pub fn strength(name: &str, text: &str) -> Result<MilligramsPerLitre, ReckonError> {
    let factor = |unit: &str| match unit {
        "%" | "percent" => Some(10_000),
        "g/l" => Some(1_000),
        "mg/l" => Some(1),
        _ => None,
    };
    scaled(name, text, "10 %", factor).map(MilligramsPerLitre)
}

/// A length: `6 cm`, `45 mm`, `2 in`.
pub fn length(name: &str, text: &str) -> Result<Micrometres, ReckonError> {
    let factor = |unit: &str| match unit {
        "mm" => Some(1_000),
        "cm" => Some(10_000),
        "m" => Some(1_000_000),
        "in" | "inch" | "inches" => Some(25_400),
        _ => None,
    };
    scaled(name, text, "6 cm", factor).map(Micrometres)
}

/// A share of body weight that is water lost: `8 %`. Above 15 % no bird is alive (published signs end at 12).
pub fn share(name: &str, text: &str) -> Result<Permille, ReckonError> {
    let value = scaled(name, text, "8 %", |unit| (unit == "%").then_some(10))?;
    u32::try_from(value)
        .ok()
        .filter(|value| *value <= 150)
        .map(Permille)
        .ok_or_else(|| ReckonError::value(name, text, "is more than a living bird can lack (15 %)", "8 %"))
}

/// A count without a unit, up to a hundred thousand.
pub fn count(name: &str, text: &str) -> Result<u32, ReckonError> {
    let wrong = |what: &str| ReckonError::value(name, text, what, "15");
    let count: u32 = text.trim().parse().map_err(|_| wrong("is no whole number"))?;
    if count > 100_000 { Err(wrong("is too many to have been counted")) } else { Ok(count) }
}

/// One of some words.
pub fn word<T: Copy>(name: &str, text: &str, known: &[(&str, T)]) -> Result<T, ReckonError> {
    let told = text.trim().to_lowercase();
    known.iter().find(|(word, _)| *word == told).map(|(_, value)| *value).ok_or_else(|| {
        ReckonError::value(
            name,
            text,
            format!("is not one of {}", known.iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", ")),
            known.first().map_or("", |(word, _)| word),
        )
    })
}
