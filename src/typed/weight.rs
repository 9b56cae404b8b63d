//! Weights as people type them, and as they are shown again: in both systems.

use super::TypedError;
use crate::unit::Grams;

/// The lightest weight taken for a bird, in grams: below the lightest quail chick.
pub const LEAST: Grams = Grams(5);
/// The heaviest weight taken for a bird, in grams: above the heaviest turkey stag.
pub const MOST: Grams = Grams(30_000);

fn wrong(text: &str, what: &str) -> TypedError {
    TypedError::new(text.trim(), what, "950 g, 1.9 kg or 4 lb 6 oz")
}

/// Reads a bird's weight as people type it: `950 g`, `2 kg`, `1,9 kg`, `4 lb 6 oz`, `4½ lb`, `70 oz`.
///
/// Factors are exact: 1 lb = 453.59237 g, 1 oz = 28.349523125 g (International yard and pound agreement, 1959).
/// The result is rounded to the nearest gram.
///
/// # Errors
/// When there is no number, no unit, an unknown unit, a reading in two ways, or a weight outside 5 g to 30 kg.
pub fn parse(text: &str) -> Result<Grams, TypedError> {
    let grams = mass(text)?;
    if (LEAST..=MOST).contains(&grams) {
        Ok(grams)
    } else {
        Err(wrong(text, "is outside 5 g to 30 kg; look at the unit again"))
    }
}

/// Reads the weight of anything on a kitchen scale, from nothing to 30 kg; otherwise as [`parse`].
///
/// # Errors
/// As [`parse`].
pub fn mass(text: &str) -> Result<Grams, TypedError> {
    let typed = text.trim();
    let mut rest = typed.to_lowercase();
    for (sign, plain) in [("½", ".5"), ("¼", ".25"), ("¾", ".75")] {
        rest = rest.replace(&format!(" {sign}"), plain).replace(sign, plain);
    }
    let mut grams = 0.0_f64;
    let mut parts = 0;
    let mut rest = rest.as_str();
    while !rest.trim().is_empty() {
        rest = rest.trim_start();
        let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(rest.len());
        let (number, after) = rest.split_at(end);
        let after = after.trim_start();
        let end = after.find(|c: char| !c.is_alphabetic()).unwrap_or(after.len());
        let (unit, after) = after.split_at(end);
        let number = decimal(number, unit, typed)?;
        let factor = match unit {
            "g" | "gr" | "gram" | "grams" | "gramme" | "grammes" => 1.0,
            "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => 1000.0,
            "lb" | "lbs" | "pound" | "pounds" => 453.592_37,
            "oz" | "ounce" | "ounces" => 28.349_523_125,
            "" if parts == 0 => return Err(wrong(typed, "has no unit")),
            _ => return Err(wrong(typed, "is not a weight")),
        };
        grams += number * factor;
        parts += 1;
        rest = after;
    }
    if parts == 0 {
        return Err(wrong(typed, "is not a weight"));
    }
    let grams = grams.round();
    if !(0.0..=f64::from(MOST.0)).contains(&grams) {
        return Err(wrong(typed, "is more than 30 kg; look at the unit again"));
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held to 0..=30000 just above")]
    Ok(Grams(grams as u32))
}

/// Reads one decimal number with a point or a comma; refuses what may also be a thousand.
fn decimal(number: &str, unit: &str, typed: &str) -> Result<f64, TypedError> {
    let marks = number.chars().filter(|c| matches!(c, '.' | ',')).count();
    let decimals = number.rsplit(['.', ',']).next().map_or(0, str::len);
    // `1,500 g` is fifteen hundred to one reader and one and a half to another; `1.900 kg` is plain.
    if marks > 1 || (marks == 1 && decimals == 3 && !unit.starts_with('k')) {
        return Err(wrong(typed, "can be read in two ways; leave the comma or point out"));
    }
    number.replace(',', ".").parse().map_err(|_| wrong(typed, "is not a weight"))
}

/// A weight as it can be read again, to the gram.
pub fn write(grams: Grams) -> String {
    format!("{} g", grams.0)
}

/// Shows a weight in both systems, so that a person sees how it was read: `1.98 kg (4 lb 6 oz)`.
pub fn show(grams: Grams) -> String {
    let metric = match grams.0 {
        0..1000 => format!("{} g", grams.0),
        more => format!("{}.{:02} kg", more / 1000, (more % 1000) / 10),
    };
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
