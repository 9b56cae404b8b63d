//! Breaths a minute from a count, with the error of counting.

use crate::bird::Kind;
use crate::finding::figure::Count;
use crate::unit::{Band, Grams, Round, TenthsPerMinute, quotient};
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// The shortest count: fewer seconds are taken as so many.
pub const LEAST_SECONDS: u32 = 5;

/// The rate from so many breaths in so many seconds, one breath more or less.
///
/// `seconds` from 5 to 300; fewer are taken as 5. Unit: tenths a minute. The error is that of the method: a breath at
/// either end of the time may be counted or missed.
pub fn rate(count: u32, seconds: u32) -> Band<TenthsPerMinute> {
    let tenths = |count: u64, round| {
        let tenths = quotient(u128::from(count) * 600, u128::from(seconds.max(LEAST_SECONDS)), round);
        TenthsPerMinute(u32::try_from(tenths).unwrap_or(u32::MAX))
    };
    let count = u64::from(count);
    Band { low: tenths(count.saturating_sub(1), Round::Down), high: tenths(count + 1, Round::Up) }
}

/// The exact 95 % limits of a count as if breaths came by chance (Garwood): an outer bound only, since breathing is regular,
/// and it decides nothing. Unit: tenths a minute, rounded outwards.
pub fn outer(count: u32, seconds: u32) -> Band<TenthsPerMinute> {
    let limits = garwood(count);
    let tenths = |breaths: f64| breaths * 600.0 / f64::from(seconds.max(5));
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "limits of a count are not negative; the cast saturates"
    )]
    let band = Band {
        low: TenthsPerMinute(tenths(limits.low).floor() as u32),
        high: TenthsPerMinute(tenths(limits.high).ceil() as u32),
    };
    band
}

/// The limits themselves, by the chi-square form, in breaths of the count.
pub fn garwood(count: u32) -> Band<f64> {
    let half = |freedom: f64, share: f64| ChiSquared::new(freedom).map_or(0.0, |chi| chi.inverse_cdf(share) / 2.0);
    let count = f64::from(count);
    let low = if count > 0.0 { half(2.0 * count, 0.025) } else { 0.0 };
    Band { low, high: half(2.0 * count + 2.0, 0.975) }
}

/// Several counts of one bird: the band that holds them all.
pub fn repeated(counts: &[Count]) -> Option<Band<TenthsPerMinute>> {
    counts.iter().map(|count| rate(count.breaths, count.seconds)).reduce(Band::hull)
}

/// What is published for a bird at rest, untouched and not hot. Unit: tenths a minute.
///
/// Chickens 12 to 37 (clinic and extension pages, second-hand and read); turkeys 28 to 49 (clinic page, read); ducks 30 to
/// 95 and geese 13 to 40 (waterfowl texts, from memory, low), a goose truly at rest 8.5 (Butler and Woakes 1980, read). None for quail, guinea fowl or chicks.
/// No line is drawn from heart rates: the formula by weight is wrong by a factor of two, either way (hens 250-300 against
/// 133 worked out; a resting goose 72 against 140).
pub const fn at_rest(kind: Kind) -> Option<Band<TenthsPerMinute>> {
    let (low, high) = match kind {
        Kind::Hen | Kind::Cock | Kind::Bantam => (120, 370),
        Kind::Turkey => (280, 490),
        Kind::Duck => (300, 950),
        Kind::Goose => (85, 400),
        Kind::Chick | Kind::Quail | Kind::GuineaFowl => return None,
    };
    Some(Band { low: TenthsPerMinute(low), high: TenthsPerMinute(high) })
}

/// How a rate stands to a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Below all of it.
    Slower,
    /// Inside it, as far as the count can tell.
    Within,
    /// Above all of it.
    Faster,
    /// The count's error reaches over its end.
    Edge,
}

impl Against {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Slower => "slower",
            Self::Within => "within",
            Self::Faster => "faster",
            Self::Edge => "edge",
        }
    }
}

/// How a rate stands to its kind's range.
pub fn against(rate: Band<TenthsPerMinute>, range: Band<TenthsPerMinute>) -> Against {
    if rate.low > range.high {
        Against::Faster
    } else if rate.high < range.low {
        Against::Slower
    } else if rate.low >= range.low && rate.high <= range.high {
        Against::Within
    } else {
        Against::Edge
    }
}

/// Breaths at rest by weight, 17.2 x M^-0.31 a minute, M in kilograms (Calder 1968, from memory): a check of sense only, which
/// decides nothing. Unit: tenths a minute.
pub fn by_weight(weight: Grams) -> TenthsPerMinute {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not negative; the cast saturates")]
    let tenths = (172.0 * (f64::from(weight.0.max(1)) / 1000.0).powf(-0.31)).round() as u32;
    TenthsPerMinute(tenths)
}

/// Above this a hen at rest is past her comfort: 60 a minute (British Poultry Science, thermoneutral zone of the hen, read).
pub const HEAT: TenthsPerMinute = TenthsPerMinute(600);
