//! Weights as people type them, and as they are shown again: in both systems.

use super::amount::{self, NoAmount, Unit};
use super::{Example, Mistyped, TypedError};
use crate::unit::{Band, Grams};

pub use crate::unit::{HEAVIEST as MOST, LIGHTEST as LEAST};

/// Weights that would be taken, in the systems people weigh by.
pub const EXAMPLES: [&str; 3] = ["950 g", "1.9 kg", "4 lb 6 oz"];

fn wrong(text: &str, what: Mistyped) -> TypedError {
    TypedError { text: text.trim().to_owned(), what, example: Example::Weights }
}

/// Reads a bird's weight as people type it: `950 g`, `2 kg`, `1,9 kg`, `4 lb 6 oz`, `4lb6`, `4 1/2 lb`, `70 oz`.
///
/// The result is rounded to the nearest gram.
///
/// # Errors
/// When there is no number, no unit, an unknown unit, a reading in two ways, or a weight outside 5 g to 30 kg.
pub fn parse(text: &str) -> Result<Grams, TypedError> {
    let grams = mass(text)?;
    if (LEAST..=MOST).contains(&grams) { Ok(grams) } else { Err(wrong(text, Mistyped::NoBirdsWeight)) }
}

/// Reads the weight of anything on a kitchen scale, from nothing to 30 kg; otherwise as [`parse`].
///
/// # Errors
/// As [`parse`].
pub fn mass(text: &str) -> Result<Grams, TypedError> {
    let read = amount::read(text, grams).map_err(|error| match error {
        NoAmount::NoNumber | NoAmount::StrangeUnit => wrong(text, Mistyped::NoWeight),
        NoAmount::NoUnit | NoAmount::TwoWays | NoAmount::NotOne => wrong(text, Mistyped::Amount(error)),
    })?;
    let grams = u32::try_from(read.nearest().high).ok().map(Grams).filter(|grams| *grams <= MOST);
    grams.ok_or_else(|| wrong(text, Mistyped::TooHeavy))
}

/// Ounce and pound in billionths of a gram, exact (International yard and pound agreement, 1959, from memory).
const OUNCE: u128 = 28_349_523_125;
const POUND: u128 = 16 * OUNCE;

/// A unit of weight by its name, in grams.
fn grams(unit: &str) -> Option<Unit> {
    Some(match unit {
        "g" | "gr" | "gram" | "grams" | "gramme" | "grammes" => Unit::small(1),
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => Unit::of(1000),
        "lb" | "lbs" | "pound" | "pounds" => Unit { then: Some(OUNCE), ..Unit::fine(POUND) },
        "oz" | "ounce" | "ounces" => Unit::fine(OUNCE),
        _ => return None,
    })
}

/// A unit of weight by its name, in milligrams.
pub(super) fn milligrams(unit: &str) -> Option<Unit> {
    if unit == "mg" {
        return Some(Unit::small(1));
    }
    let Unit { fine, thousands, then } = grams(unit)?;
    let thousand = |fine: u128| fine.saturating_mul(1000);
    Some(Unit {
        fine: Band { low: thousand(fine.low), high: thousand(fine.high) },
        thousands,
        then: then.map(thousand),
    })
}

/// A weight as it can be read again, to the gram.
pub fn write(grams: Grams) -> String {
    format!("{} g", grams.0)
}

/// Shows a weight in one system: `1.98 kg`.
pub fn metric(grams: Grams) -> String {
    match grams.0 {
        0..1000 => format!("{} g", grams.0),
        more => format!("{}.{:02} kg", more / 1000, (more % 1000) / 10),
    }
}

/// Shows a weight in both systems, so that a person sees how it was read: `1.98 kg (4 lb 6 oz)`.
pub fn show(grams: Grams) -> String {
    let metric = metric(grams);
    // Ounces from grams, to the nearest: integer arithmetic on the exact 28.349523125.
    let ounces = (u64::from(grams.0) * 1_000_000_000 + 14_174_761_562) / 28_349_523_125;
    match (ounces / 16, ounces % 16) {
        // Below an ounce only grams say anything.
        _ if grams.0 < 28 => metric,
        (0, oz) => format!("{metric} ({oz} oz)"),
        (lb, 0) => format!("{metric} ({lb} lb)"),
        (lb, oz) => format!("{metric} ({lb} lb {oz} oz)"),
    }
}
