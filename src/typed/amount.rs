//! The one reader of amounts: numbers and fractions, each with its unit, one after the other; read exactly and one way only.

use super::{Mistyped, TypedError};
use crate::unit::{Band, Round, quotient};

/// Amounts are held in so many parts of the base unit: every legal factor comes out even in them.
pub const FINE: u128 = 1_000_000_000;

/// What one of a unit comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unit {
    /// In billionths of the base unit.
    pub fine: Band<u128>,
    /// Whether thousands of it are an everyday amount: then a point before three digits may part thousands.
    pub thousands: bool,
    /// The unit of a number that stands after it by itself: `4 lb 6`. In billionths of the base unit.
    pub then: Option<u128>,
}

impl Unit {
    /// So many of the base unit.
    pub const fn of(base: u64) -> Self {
        Self::fine(base as u128 * FINE)
    }

    /// So many of the base unit, where thousands of it are an everyday amount.
    pub const fn small(base: u64) -> Self {
        Self { thousands: true, ..Self::of(base) }
    }

    /// So many billionths of the base unit.
    pub const fn fine(fine: u128) -> Self {
        Self { fine: Band::exactly(fine), thousands: false, then: None }
    }
}

/// What was read, in billionths of the base unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Amount(Band<u128>);

impl Amount {
    /// In the base unit: to the nearest where it is one amount, outwards where it is a band.
    pub fn nearest(self) -> Band<u64> {
        let Self(Band { low, high }) = self;
        if low == high {
            Band::exactly(quotient(low.saturating_add(FINE / 2), FINE, Round::Down))
        } else {
            Band { low: quotient(low, FINE, Round::Down), high: quotient(high, FINE, Round::Up) }
        }
    }

    /// The same, more than nothing.
    ///
    /// # Errors
    /// Where it is nothing.
    pub fn some(self, text: &str, example: &'static str) -> Result<Band<u64>, TypedError> {
        let nearest = self.nearest();
        if nearest.low == 0 { Err(TypedError::new(text, Mistyped::Nothing, example)) } else { Ok(nearest) }
    }
}

/// Why an amount cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoAmount {
    /// There is no number where one is needed.
    NoNumber,
    /// A number without a unit.
    NoUnit,
    /// A unit that is not known here.
    StrangeUnit,
    /// A point that may part thousands.
    TwoWays,
    /// Units that do not go from larger to smaller: not one amount.
    NotOne,
}

impl NoAmount {
    /// As an error, with an example of what would be taken.
    pub fn of(self, text: &str, example: &'static str) -> TypedError {
        TypedError::new(text, Mistyped::Amount(self), example)
    }
}

/// A number as it was written.
#[derive(Clone, Copy)]
struct Number {
    part: u128,
    of: u128,
    /// Whether it may be a number of thousands.
    thousands: bool,
}

/// Reads an amount: `1.5 l`, `1/3 cup`, `4 1/2 lb`, `4½ lb`, `4 lb 6 oz`, `4lb6`.
///
/// `units` knows a unit by its name in small letters; nothing at all is asked for, too.
pub fn read(text: &str, units: impl Fn(&str) -> Option<Unit>) -> Result<Amount, NoAmount> {
    let lower = text.trim().to_lowercase();
    let mut rest = lower.as_str();
    let mut sum: Option<(Band<u128>, Unit)> = None;
    while !rest.is_empty() || sum.is_none() {
        let (number, after) = number(rest)?;
        let end = after.find(begins_number).unwrap_or(after.len());
        let (name, after) = after.split_at(end);
        let name = name.trim().trim_end_matches('.');
        let unit = match (units(name), sum.and_then(|(_, before)| before.then)) {
            (Some(unit), _) => unit,
            (None, Some(then)) if name.is_empty() && after.is_empty() => Unit::fine(then),
            (None, _) if name.is_empty() => return Err(NoAmount::NoUnit),
            (None, _) => return Err(NoAmount::StrangeUnit),
        };
        if number.thousands && unit.thousands {
            return Err(NoAmount::TwoWays);
        }
        let here = times(number, unit.fine);
        let before = match sum {
            Some((_, before)) if before.fine.low <= unit.fine.high => return Err(NoAmount::NotOne),
            Some((before, _)) => before,
            None => Band::exactly(0),
        };
        let both = Band { low: before.low.saturating_add(here.low), high: before.high.saturating_add(here.high) };
        sum = Some((both, unit));
        rest = after.trim_start();
    }
    sum.map(|(sum, _)| Amount(sum)).ok_or(NoAmount::NoNumber)
}

fn times(number: Number, unit: Band<u128>) -> Band<u128> {
    let of = |fine: u128| number.part.saturating_mul(fine);
    if unit.low == unit.high {
        return Band::exactly(of(unit.low).saturating_add(number.of / 2) / number.of);
    }
    Band { low: of(unit.low) / number.of, high: of(unit.high).div_ceil(number.of) }
}

fn begins_number(c: char) -> bool {
    c.is_ascii_digit() || vulgar(c).is_some()
}

/// A fraction that is one letter.
const fn vulgar(letter: char) -> Option<(u128, u128)> {
    Some(match letter {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}

/// The number a text begins with, and what is left of the text.
fn number(text: &str) -> Result<(Number, &str), NoAmount> {
    if let Some((part, of, rest)) = fraction(text) {
        return Ok((Number { part, of, thousands: false }, rest));
    }
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).unwrap_or(text.len());
    let (written, rest) = text.split_at(end);
    let Some((whole, decimals)) = written.split_once(['.', ',']) else {
        let whole = digits(written, 9)?;
        // A fraction may follow: `4 1/2`, `4½`.
        let (part, of, rest) = fraction(rest.trim_start()).unwrap_or((0, 1, rest));
        return Ok((Number { part: whole * of + part, of, thousands: false }, rest));
    };
    let whole_part = if whole.is_empty() { 0 } else { digits(whole, 9)? };
    let decimal_part = if decimals.is_empty() && !whole.is_empty() { 0 } else { digits(decimals, 6)? };
    if fraction(rest.trim_start()).is_some() {
        return Err(NoAmount::NoNumber);
    }
    let of = 10u128.pow(u32::try_from(decimals.len()).unwrap_or(0));
    // Nobody parts thousands after a nought.
    let thousands = decimals.len() == 3 && !whole.is_empty() && !whole.starts_with('0');
    Ok((Number { part: whole_part * of + decimal_part, of, thousands }, rest))
}

/// A fraction the text begins with: `1/3`, `½`; and what is left of the text.
fn fraction(text: &str) -> Option<(u128, u128, &str)> {
    let first = text.chars().next()?;
    if let Some((part, of)) = vulgar(first) {
        return Some((part, of, text.get(first.len_utf8()..)?));
    }
    let (part, rest) = text.split_once('/')?;
    let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let (of, rest) = rest.split_at(end);
    let (part, of) = (digits(part.trim_end(), 2).ok()?, digits(of, 2).ok()?);
    (of > 1).then_some((part, of, rest))
}

/// Plain digits, at most so many.
fn digits(text: &str, most: usize) -> Result<u128, NoAmount> {
    let plain = !text.is_empty() && text.len() <= most && text.bytes().all(|b| b.is_ascii_digit());
    if plain { text.parse().map_err(|_| NoAmount::NoNumber) } else { Err(NoAmount::NoNumber) }
}
