//! The measures of a household: spoons, cups, pints and their kin, which hold less in one country than in another.

use super::amount::Unit;
use crate::unit::Band;
use serde::{Deserialize, Serialize};

/// Whose spoons, cups and pints are meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Household {
    /// Those of the United States.
    UnitedStates,
    /// The imperial and metric ones of the United Kingdom, Ireland, New Zealand and most others.
    Elsewhere,
    /// Those, but for a larger tablespoon.
    Australia,
    /// Nobody said, or several are in use, as in Canada: the band of all.
    Unknown,
}

/// A millilitre, in billionths of a microlitre.
const ML: u128 = 1_000_000_000_000;

/// A teaspoon of the United States: 4.92892159375 mL, a 768th of the gallon of 231 cubic inches, 3.785411784 L. A tablespoon is
/// three, a fluid ounce six, a cup 48, a liquid pint 96, a quart 192 (NIST Handbook 44, Appendix C, units of capacity, from
/// memory).
const US_TEASPOON: u128 = 4_928_921_593_750;

/// The imperial fluid ounce: 28.4130625 mL, a twentieth of the pint of 0.56826125 L, a 160th of the gallon of 4.54609 L
/// (Weights and Measures Act 1985, Schedule 1, Part IV, from memory).
const IMPERIAL_OUNCE: u128 = 28_413_062_500_000;

const fn band(low: u128, high: u128) -> Band<u128> {
    Band { low, high }
}

/// What one of a household's measures holds: in the United States, and elsewhere.
///
/// On food labels of the United States a teaspoon is 5 mL, a tablespoon 15, a fluid ounce 30 and a cup 240 (21 CFR 101.9(b)(5),
/// from memory). Elsewhere spoons are metric, 5 and 15 mL; a cup is the metric one of 250 mL or half an imperial pint (common
/// practice, no source). An Australian tablespoon is 20 mL, four teaspoons, or 15 where it came from abroad (common practice, no
/// source).
fn measure(name: &str) -> Option<(Band<u128>, Band<u128>)> {
    Some(match name {
        "tsp" | "tsps" | "teaspoon" | "teaspoons" | "level tsp" | "level teaspoon" | "level teaspoons" => {
            (band(US_TEASPOON, 5 * ML), Band::exactly(5 * ML))
        }
        name if is_tablespoon(name) => (band(3 * US_TEASPOON, 15 * ML), Band::exactly(15 * ML)),
        "fl oz" | "floz" | "fl. oz" | "fluid ounce" | "fluid ounces" => {
            (band(6 * US_TEASPOON, 30 * ML), Band::exactly(IMPERIAL_OUNCE))
        }
        "cup" | "cups" => (band(48 * US_TEASPOON, 240 * ML), band(250 * ML, 10 * IMPERIAL_OUNCE)),
        "pint" | "pints" | "pt" | "pts" => (Band::exactly(96 * US_TEASPOON), Band::exactly(20 * IMPERIAL_OUNCE)),
        "quart" | "quarts" | "qt" | "qts" => (Band::exactly(192 * US_TEASPOON), Band::exactly(40 * IMPERIAL_OUNCE)),
        "gallon" | "gallons" | "gal" => (Band::exactly(768 * US_TEASPOON), Band::exactly(160 * IMPERIAL_OUNCE)),
        _ => return None,
    })
}

fn is_tablespoon(name: &str) -> bool {
    matches!(
        name,
        "tbsp" | "tbsps" | "tablespoon" | "tablespoons" | "level tbsp" | "level tablespoon" | "level tablespoons"
    )
}

/// A unit of volume by its name, in microlitres.
pub fn volume(name: &str, household: Household) -> Option<Unit> {
    let exact = match name {
        "ul" | "µl" | "μl" => Some(Unit::small(1)),
        "ml" | "cc" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => Some(Unit::small(1_000)),
        "cl" => Some(Unit::of(10_000)),
        "dl" => Some(Unit::of(100_000)),
        "l" | "litre" | "litres" | "liter" | "liters" => Some(Unit::of(1_000_000)),
        "metric cup" | "metric cups" => Some(Unit::of(250_000)),
        "imperial cup" | "imperial cups" => Some(Unit::fine(10 * IMPERIAL_OUNCE)),
        // The measures of the handbook themselves, where somebody names them.
        "us tsp" | "us teaspoon" | "us teaspoons" => Some(Unit::fine(US_TEASPOON)),
        "us tbsp" | "us tablespoon" | "us tablespoons" => Some(Unit::fine(3 * US_TEASPOON)),
        "us fl oz" | "us fluid ounce" | "us fluid ounces" => Some(Unit::fine(6 * US_TEASPOON)),
        "us cup" | "us cups" => Some(Unit::fine(48 * US_TEASPOON)),
        _ => None,
    };
    if exact.is_some() {
        return exact;
    }
    let said = |words: &[&str]| words.iter().find_map(|word| name.strip_prefix(word)).map(str::trim_start);
    let (household, name) = match (said(&["us ", "u.s. "]), said(&["imperial ", "imp ", "uk ", "metric "])) {
        (Some(name), _) => (Household::UnitedStates, name),
        (_, Some(name)) => (Household::Elsewhere, name),
        (None, None) => (household, name),
    };
    let (us, elsewhere) = measure(name)?;
    let australian = if is_tablespoon(name) { band(15 * ML, 20 * ML) } else { elsewhere };
    let fine = match household {
        Household::UnitedStates => us,
        Household::Elsewhere => elsewhere,
        Household::Australia => australian,
        Household::Unknown => us.hull(elsewhere).hull(australian),
    };
    Some(Unit { fine, thousands: false, then: None })
}
