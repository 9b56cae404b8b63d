//! Breaths a minute from a count, with the error of counting.

use crate::bird::Kind;
use crate::unit::{Band, TenthsPerMinute};

/// The rate from so many breaths in so many seconds, one breath more or less.
///
/// `seconds` from 5 to 300; fewer are taken as 5. Unit: tenths a minute. The error is that of the method: a breath at
/// either end of the time may be counted or missed.
pub fn rate(count: u32, seconds: u32) -> Band<TenthsPerMinute> {
    let seconds = u64::from(seconds.max(5));
    let tenths = |count: u64, up: bool| {
        let all = count * 600;
        TenthsPerMinute(u32::try_from(if up { all.div_ceil(seconds) } else { all / seconds }).unwrap_or(u32::MAX))
    };
    let count = u64::from(count);
    Band { low: tenths(count.saturating_sub(1), false), high: tenths(count + 1, true) }
}

/// Several counts of one bird: the band that holds them all.
pub fn repeated(counts: &[Band<TenthsPerMinute>]) -> Option<Band<TenthsPerMinute>> {
    counts.iter().copied().reduce(Band::hull)
}

/// What is published for a bird at rest, untouched and not hot. Unit: tenths a minute.
///
/// Chickens 12 to 37 (clinic and extension pages, second-hand and read); turkeys 28 to 49 (clinic page, read); ducks 30 to
/// 95 and geese 13 to 40 (waterfowl texts, from memory, low). None for quail, guinea fowl or chicks.
/// No line is drawn from heart rates: the formula by weight is wrong by a factor of two, either way (hens 250-300 against
/// 133 worked out; a resting goose 72 against 140).
pub const fn at_rest(kind: Kind) -> Option<Band<TenthsPerMinute>> {
    let (low, high) = match kind {
        Kind::Hen | Kind::Cock | Kind::Bantam => (120, 370),
        Kind::Turkey => (280, 490),
        Kind::Duck => (300, 950),
        Kind::Goose => (130, 400),
        Kind::Chick | Kind::Quail | Kind::GuineaFowl => return None,
    };
    Some(Band { low: TenthsPerMinute(low), high: TenthsPerMinute(high) })
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

    #[test]
    fn repeated_counts_are_held_by_one_band() {
        let both = repeated(&[rate(10, 30), rate(14, 30)]);
        assert_eq!(both, Some(Band { low: TenthsPerMinute(180), high: TenthsPerMinute(300) }));
        assert_eq!(repeated(&[]), None);
    }
}
