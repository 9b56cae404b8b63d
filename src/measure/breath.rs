//! Breaths a minute from a count, with the error of counting.

use crate::bird::Kind;
use crate::finding::figure::Count;
use crate::unit::{Band, Grams, Round, TenthsPerMinute, quotient};
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// The rate from so many breaths in so many seconds, one breath more or less.
///
/// `seconds` from 5 to 300; fewer are taken as 5. Unit: tenths a minute. The error is that of the method: a breath at
/// either end of the time may be counted or missed.
pub fn rate(count: u32, seconds: u32) -> Band<TenthsPerMinute> {
    let tenths = |count: u64, round| {
        let tenths = quotient(u128::from(count) * 600, u128::from(seconds.max(5)), round);
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

/// The limits themselves, by the chi-square form.
fn garwood(count: u32) -> Band<f64> {
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
    /// In words; never "fine", for a number alone clears no bird.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Slower => "slower than published: look at her again",
            Self::Within => "as it is published for her kind at rest",
            Self::Faster => "FASTER than published",
            Self::Edge => "at the edge: count again",
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

#[cfg(test)]
mod tests {
    use super::*;

    /// 15 in 30 s and 30 in 60 s are 30 a minute, 10 in 15 s are 40 (arithmetic); a step is 4 a minute at 15 s, 2 at 30 s.
    #[test]
    fn counts_become_rates_with_one_breath_either_way() {
        let band = |low, high| Band { low: TenthsPerMinute(low), high: TenthsPerMinute(high) };
        assert_eq!(rate(15, 30), band(280, 320));
        assert_eq!(rate(30, 60), band(290, 310));
        assert_eq!(rate(10, 15), band(360, 440));
        assert_eq!(rate(0, 30), band(0, 20));
    }

    /// Exact 95 % limits of counts 0 to 30 (Garwood's chi-square form, worked with another library).
    #[test]
    fn the_outer_bound_is_the_published_one() {
        for (count, low, high) in [
            (0, 0.0, 3.6889),
            (1, 0.0253, 5.5716),
            (2, 0.2422, 7.2247),
            (5, 1.6235, 11.6683),
            (10, 4.7954, 18.3904),
            (20, 12.2165, 30.8884),
            (30, 20.2409, 42.8269),
        ] {
            let limits = garwood(count);
            assert!((limits.low - low).abs() < 1e-3 && (limits.high - high).abs() < 1e-3, "{count}: {limits:?}");
        }
        // statsmodels, test_rates_poisson.py: 15 events in 400: 0.0209884653 to 0.0618505472 each.
        let limits = garwood(15);
        assert!(
            (limits.low / 400.0 - 0.020_988_465).abs() < 1e-6 && (limits.high / 400.0 - 0.061_850_547).abs() < 1e-6
        );
        assert_eq!(outer(15, 30), Band { low: TenthsPerMinute(167), high: TenthsPerMinute(495) });
    }

    /// Check values of 17.2 x M^-0.31 (arithmetic from Calder 1968): 120 g 33.2, 600 g 20.2, 1 kg 17.2, 2 kg 13.9, 5 kg 10.4,
    /// 10 kg 8.4. At 2 kg it lies inside the published 12 to 37 of chickens; the heart's formula, 155.8 x M^-0.23 = 133, is half
    /// of their published 250 to 300, and at 1.8 kg twice the 72 of a goose at rest (Butler and Woakes 1980): none is used.
    #[test]
    fn breath_by_weight_is_a_check_of_sense_and_the_heart_has_none() {
        for (grams, tenths) in [(120, 332), (600, 202), (1000, 172), (2000, 139), (5000, 104), (10_000, 84)] {
            assert!(by_weight(Grams(grams)).0.abs_diff(tenths) <= 1, "{grams}");
        }
        let heart = |kilograms: f64| 155.8 * kilograms.powf(-0.23);
        assert!((heart(2.0) - 132.8).abs() < 0.1 && heart(2.0) * 1.8 < 250.0 && heart(1.8) > 72.0 * 1.8);
    }

    #[test]
    fn repeated_counts_are_held_by_one_band() {
        let count = |breaths| Count { breaths, seconds: 30, held: false };
        let both = repeated(&[count(10), count(14)]);
        assert_eq!(both, Some(Band { low: TenthsPerMinute(180), high: TenthsPerMinute(300) }));
        assert_eq!(repeated(&[]), None);
    }
}
