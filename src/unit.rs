//! Quantities with their units, and bands of them: whole numbers in exact base units, never a bare figure.

use serde::{Deserialize, Serialize};

/// A low-high band; both ends are possible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Band<T> {
    /// The least the true value may be.
    pub low: T,
    /// The most the true value may be.
    pub high: T,
}

impl<T: Copy> Band<T> {
    /// The band that holds just one value.
    pub const fn exactly(value: T) -> Self {
        Self { low: value, high: value }
    }
}

impl<T: Copy + Ord> Band<T> {
    /// Whether a value lies in it.
    pub fn holds(&self, value: &T) -> bool {
        self.low <= *value && *value <= self.high
    }

    /// The smallest band that holds both.
    #[must_use]
    pub fn hull(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }
}

/// Which way a figure that does not come out even is rounded: a band's low end down, its high end up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Round {
    /// To the whole number below.
    Down,
    /// To the whole number above.
    Up,
}

/// A whole number divided by another, rounded one way; the largest number there is where it would not fit. What is divided
/// by nothing is divided by one.
pub fn quotient(part: u128, by: u128, round: Round) -> u64 {
    let by = by.max(1);
    let whole = match round {
        Round::Down => part / by,
        Round::Up => part.div_ceil(by),
    };
    u64::try_from(whole).unwrap_or(u64::MAX)
}

/// A weight. Unit: whole grams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Grams(pub u32);

/// The lightest weight taken for a bird: below the lightest quail chick.
pub const LIGHTEST: Grams = Grams(5);
/// The heaviest weight taken for a bird: above the heaviest turkey stag.
pub const HEAVIEST: Grams = Grams(30_000);

/// An area of skin. Unit: square millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SquareMillimetres(pub u32);

/// A share. Unit: thousandths (per mille), from 0 to 1000.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Permille(pub u32);

/// A length of time. Unit: whole minutes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Minutes(pub u32);

/// A measure's value, and whether more answers could still narrow it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading<T> {
    /// Every value the answers still allow.
    pub band: Band<T>,
    /// True when everything it is worked out from has been answered: the band is final.
    pub settled: bool,
}

/// A volume. Unit: whole microlitres (1 mL = 1000).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Microlitres(pub u64);

/// The strength of a solution, mass in volume. Unit: milligrams a litre (1 % = 10,000).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct MilligramsPerLitre(pub u64);

/// The strength of a solution, as finely as it is told. Unit: micrograms a litre (1 % = 10,000,000).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct MicrogramsPerLitre(pub u64);

impl From<MilligramsPerLitre> for MicrogramsPerLitre {
    fn from(MilligramsPerLitre(strength): MilligramsPerLitre) -> Self {
        Self(strength.saturating_mul(1000))
    }
}

/// A length. Unit: micrometres (1 mm = 1000).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Micrometres(pub u64);

/// A rate. Unit: tenths a minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct TenthsPerMinute(pub u32);

/// A temperature. Unit: tenths of a degree Celsius.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TenthsOfDegree(pub i32);

/// A short time taken with a watch. Unit: tenths of a second.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct TenthsOfSecond(pub u32);
