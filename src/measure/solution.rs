//! Solutions: so much of a stock made up to a strength; and the true strength of a printed recipe. How strong a thing should be
//! stands in the protocol's table of strengths.

use crate::unit::{Band, MicrogramsPerLitre, Microlitres, MilligramsPerLitre, Round, quotient};

/// Why a solution cannot be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SolutionError {
    /// The stock is weaker than the target.
    TooWeak,
    /// A strength or an amount is nothing.
    Nothing,
}

/// So much stock, and so much water to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mix {
    /// How much of the stock.
    pub stock: Microlitres,
    /// How much water.
    pub water: Microlitres,
}

/// How to make `amount` of `target` out of `stock`: stock = amount x target / stock, to the nearest microlitre.
///
/// # Errors
/// Where anything is nothing, or the stock is too weak.
pub fn dilute(
    stock: MilligramsPerLitre,
    target: MilligramsPerLitre,
    amount: Microlitres,
) -> Result<Mix, SolutionError> {
    if stock.0 == 0 || target.0 == 0 || amount.0 == 0 {
        return Err(SolutionError::Nothing);
    }
    if stock < target {
        return Err(SolutionError::TooWeak);
    }
    let part = (u128::from(amount.0) * u128::from(target.0) + u128::from(stock.0) / 2) / u128::from(stock.0);
    let part = u64::try_from(part).unwrap_or(amount.0).min(amount.0);
    Ok(Mix { stock: Microlitres(part), water: Microlitres(amount.0 - part) })
}

/// "One in so many": made up to that many parts, and added to that many parts. Both readings are in use.
pub fn one_in(stock: MilligramsPerLitre, parts: u64) -> [MicrogramsPerLitre; 2] {
    let MicrogramsPerLitre(stock) = stock.into();
    let nearest = |parts: u64| MicrogramsPerLitre(stock.saturating_add(parts / 2) / parts.max(1));
    [nearest(parts.max(1)), nearest(parts.max(1).saturating_add(1))]
}

/// How many drops a volume is, from large drops to small ones: 20 to 50 a millilitre (second-hand).
pub const fn drops(volume: Microlitres) -> Band<u64> {
    Band { low: volume.0 * 20 / 1000, high: (volume.0 * 50).div_ceil(1000) }
}

/// A stock so strong that a spoon of it is too much is thinned twice: first one in ten.
pub const fn in_two_steps(mix: Mix) -> bool {
    mix.stock.0 < 5_000
}

/// A thing of a printed recipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thing {
    /// Table salt: a level teaspoon holds 4.2 g (a public recipe, read) to 6 g (food tables, from memory).
    Salt,
    /// Table sugar: a level teaspoon holds 4.0 g (food tables, from memory) to 4.2 (a public recipe, read).
    Sugar,
    /// A stock of this strength.
    Stock(MilligramsPerLitre),
}

/// How much of a thing goes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Much {
    /// Weighed, in milligrams.
    Weighed(u64),
    /// By volume; a level teaspoon is 5 mL.
    Volume(Microlitres),
}

impl Thing {
    /// What so much of it holds, in micrograms. Nothing where a stock is given by weight.
    pub fn micrograms(self, much: Much) -> Option<Band<u64>> {
        // Milligrams a teaspoon of 5 mL, low and high.
        let spoon = |volume: Microlitres, low: u64, high: u64| {
            let of = |spoon, round| quotient(u128::from(volume.0) * u128::from(spoon) * 1000, 5_000, round);
            Band { low: of(low, Round::Down), high: of(high, Round::Up) }
        };
        match (self, much) {
            (Self::Salt | Self::Sugar, Much::Weighed(milligrams)) => {
                Some(Band::exactly(milligrams.saturating_mul(1000)))
            }
            (Self::Salt, Much::Volume(volume)) => Some(spoon(volume, 4_200, 6_000)),
            (Self::Sugar, Much::Volume(volume)) => Some(spoon(volume, 4_000, 4_200)),
            (Self::Stock(strength), Much::Volume(volume)) => {
                let of = |round| quotient(u128::from(volume.0) * u128::from(strength.0), 1_000, round);
                Some(Band { low: of(Round::Down), high: of(Round::Up) })
            }
            (Self::Stock(_), Much::Weighed(_)) => None,
        }
    }
}

/// The true strength of so many micrograms in so much water.
///
/// # Errors
/// Where there is no water.
pub fn strength_of(micrograms: Band<u64>, water: Band<Microlitres>) -> Result<Band<MicrogramsPerLitre>, SolutionError> {
    if water.low.0 == 0 {
        return Err(SolutionError::Nothing);
    }
    let of = |micrograms: u64, water: Microlitres, round| {
        MicrogramsPerLitre(quotient(u128::from(micrograms) * 1_000_000, u128::from(water.0), round))
    };
    Ok(Band { low: of(micrograms.low, water.high, Round::Down), high: of(micrograms.high, water.low, Round::Up) })
}

/// A salt of the drink below.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Salt {
    /// Sodium chloride.
    Table,
    /// Glucose.
    Glucose,
    /// Potassium chloride.
    PotassiumChloride,
    /// Trisodium citrate dihydrate.
    TrisodiumCitrate,
}

/// The rehydration salts of WHO and UNICEF for a litre, low osmolarity, by weight in milligrams (read).
pub const REHYDRATION: [(Salt, u64); 4] =
    [(Salt::Table, 2_600), (Salt::Glucose, 13_500), (Salt::PotassiumChloride, 1_500), (Salt::TrisodiumCitrate, 2_900)];
