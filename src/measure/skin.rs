//! How much of a bird's skin is open: the one measure that sums over her wounds.

use crate::unit::{Band, Grams, Microlitres, Permille, Reading, SquareMillimetres};

/// A bird's skin from her weight: 10 x W^(2/3), W in grams, the result in square centimetres.
///
/// Source, read: Walsberg & King, J Exp Biol 76:185-189, 1978 (Meeh's form with Rubner's constant, first found for domestic fowl).
/// Unit: square millimetres.
pub fn whole(weight: Grams) -> f64 {
    10.0 * f64::from(weight.0).cbrt().powi(2) * 100.0
}

/// The water that wounds of so large a share lose in a day, as an order of magnitude only. Unit: microlitres.
///
/// The burn texts' rule for people, (25 + percent) x square metres in mL an hour (from memory), of which the wounds' part is
/// percent x square metres. No bird was ever measured so.
pub fn moisture_a_day(share: Band<Permille>, weight: Band<Grams>) -> Band<Microlitres> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "neither is negative; the cast saturates"
    )]
    let of = |share: Permille, grams: Grams| {
        let square_metres = whole(grams) / 1_000_000.0;
        Microlitres((f64::from(share.0) / 10.0 * square_metres * 24.0 * 1000.0).round() as u64)
    };
    Band { low: of(share.low, weight.low), high: of(share.high, weight.high) }
}

/// The line an open share has crossed. Proposals of ours: no share is published for birds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Line {
    /// Under 2 in 100.
    Little,
    /// 2 in 100 or more.
    Two,
    /// 5 in 100 or more.
    Five,
    /// 10 in 100 or more.
    Ten,
}

impl Line {
    /// The line that this share has crossed.
    pub const fn of(share: Permille) -> Self {
        match share.0 {
            0..20 => Self::Little,
            20..50 => Self::Two,
            50..100 => Self::Five,
            100.. => Self::Ten,
        }
    }
}

/// The share of skin that is open, in thousandths.
///
/// `wounds` holds the open area of each wound; `None` where it is not known yet.
/// `complete` says that no further wound may be found. The low end uses the smallest wounds on the heaviest bird,
/// the high end the largest wounds on the lightest; both are rounded outwards.
pub fn open_share(
    wounds: impl IntoIterator<Item = Option<Band<SquareMillimetres>>>,
    complete: bool,
    weight: Reading<Grams>,
) -> Reading<Permille> {
    let (mut low, mut high, mut settled) = (0.0, 0.0, complete && weight.settled);
    for wound in wounds {
        match wound {
            Some(area) => {
                low += f64::from(area.low.0);
                high += f64::from(area.high.0);
            }
            None => settled = false,
        }
    }
    let low = permille((1000.0 * low / whole(weight.band.high)).floor());
    let high = if settled { permille((1000.0 * high / whole(weight.band.low)).ceil()) } else { Permille(1000) };
    Reading { band: Band { low, high }, settled }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0..=1000 first")]
fn permille(share: f64) -> Permille {
    Permille(share.clamp(0.0, 1000.0) as u32)
}
