//! Healing: a wound's area and edge from two lines, and how far the edge has come in between two looks.

use crate::finding::figure::Lines;
use crate::unit::{Band, Micrometres, SquareMillimetres};

/// A ruler held beside a wound is read to within this.
pub const RULER: Micrometres = Micrometres(2_000);

impl Lines {
    /// Its area as an ellipse, in square millimetres: pi/4 x length x width. Length times width would say 27 in 100 more.
    pub fn area(self) -> f64 {
        std::f64::consts::FRAC_PI_4 * millimetres(self.length) * millimetres(self.width)
    }

    /// Its area in whole square millimetres, to the nearest.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "an area is not negative; the cast saturates"
    )]
    pub fn square(self) -> SquareMillimetres {
        SquareMillimetres(self.area().round() as u32)
    }

    /// Its area where each line is read to within [`RULER`], in whole square millimetres, rounded outwards.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "neither end is negative; the cast saturates"
    )]
    pub fn area_read(self) -> Band<SquareMillimetres> {
        let (area, doubt) = (self.area(), self.doubt(RULER).min(1.0));
        let (low, high) = (area * (1.0 - doubt), area * (1.0 + doubt));
        Band { low: SquareMillimetres(low.floor() as u32), high: SquareMillimetres(high.ceil() as u32) }
    }

    /// Its edge, in millimetres (Ramanujan's form for an ellipse).
    pub fn edge(self) -> f64 {
        let (a, b) = (millimetres(self.length) / 2.0, millimetres(self.width) / 2.0);
        std::f64::consts::PI * (3.0 * (a + b) - ((3.0 * a + b) * (a + 3.0 * b)).sqrt())
    }

    /// How far off the area may be, as a share, where each line is read to within `error`.
    pub fn doubt(self, error: Micrometres) -> f64 {
        let of = |line: Micrometres| millimetres(error) / millimetres(line).max(0.001);
        of(self.length).hypot(of(self.width))
    }
}

#[expect(clippy::cast_precision_loss, reason = "a wound is far below 2^53 micrometres")]
fn millimetres(line: Micrometres) -> f64 {
    line.0 as f64 / 1000.0
}

/// How far the edge came in, in millimetres: the area closed over the mean edge (Gilman 1990, from memory). Below zero
/// where the wound grew; nothing where it has no edge.
pub fn advance(before: Lines, after: Lines) -> Option<f64> {
    let edge = f64::midpoint(before.edge(), after.edge());
    (edge > 0.0).then(|| (before.area() - after.area()) / edge)
}

/// How far the edge came in, in millimetres, with the ruler's reading carried through: below zero where it may have grown.
pub fn advance_read(before: Lines, after: Lines) -> Option<Band<f64>> {
    let edge = f64::midpoint(before.edge(), after.edge());
    let (one, other) = (before.area_read(), after.area_read());
    let of = |from: SquareMillimetres, to: SquareMillimetres| (f64::from(from.0) - f64::from(to.0)) / edge;
    (edge > 0.0).then(|| Band { low: of(one.low, other.high), high: of(one.high, other.low) })
}

/// What two looks at a wound give cause to say. Our inference from wounds of people; no figure is published for birds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flag {
    /// Not clearly smaller by the seventh day: any change is less than a ruler can tell.
    NotSmallerByDay7,
    /// Larger after the third day.
    GrewAfterDay3,
}

/// The flag a change raises, `days` after the injury.
pub fn flag(before: Lines, after: Lines, days: u32) -> Option<Flag> {
    let smaller = advance_read(before, after).is_some_and(|come| come.low > 0.0);
    if days > 3 && after.area() > before.area() {
        Some(Flag::GrewAfterDay3)
    } else if days >= 7 && !smaller {
        Some(Flag::NotSmallerByDay7)
    } else {
        None
    }
}

/// In how many days more the edges may meet: half the width left over the rate, both ends of the rate's band. Nothing where
/// the data cannot carry it: fewer than three days between the looks, or a change the ruler may have made up.
pub fn closes_in(before: Lines, after: Lines, days: u32) -> Option<Band<u32>> {
    let come = advance_read(before, after).filter(|come| come.low > 0.0 && days >= 3)?;
    let left = millimetres(after.width) / 2.0;
    let in_days = |come: f64| left / (come / f64::from(days));
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "neither is negative; the cast saturates"
    )]
    let band = Band { low: in_days(come.high).floor() as u32, high: in_days(come.low).ceil() as u32 };
    Some(band)
}

/// The share of the area that has closed, with the ruler's reading carried through. Nothing where there was none.
pub fn closed_read(before: Lines, after: Lines) -> Option<Band<f64>> {
    let (was, is) = (before.area_read(), after.area_read());
    let share = |was: SquareMillimetres, is: SquareMillimetres| 1.0 - f64::from(is.0) / f64::from(was.0.max(1));
    (before.area() > 0.0).then(|| Band { low: share(was.low, is.high), high: share(was.high, is.low) })
}

/// The share of the area that has closed; below zero where it grew. Nothing where there was none.
pub fn closed(before: Lines, after: Lines) -> Option<f64> {
    (before.area() > 0.0).then(|| (before.area() - after.area()) / before.area())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(length: u64, width: u64) -> Lines {
        Lines { length: Micrometres(length * 10_000), width: Micrometres(width * 10_000) }
    }

    fn near(value: f64, expected: f64, within: f64) -> bool {
        (value - expected).abs() < within
    }

    /// Worked (arithmetic): 6 x 4 to 5 x 3 cm: 18.85 and 11.78 cm2, edges 15.87 and 12.76 cm, 0.494 cm in, 37.5 % closed.
    /// A disc of 4 to 2 cm: 1.0 cm in, 75 % closed.
    #[test]
    fn the_edge_comes_in() {
        let (before, after) = (size(6, 4), size(5, 3));
        assert!(near(before.area() / 100.0, 18.85, 0.005) && near(after.area() / 100.0, 11.78, 0.005));
        assert!(near(before.edge() / 10.0, 15.87, 0.005) && near(after.edge() / 10.0, 12.76, 0.005));
        assert!(advance(before, after).is_some_and(|come| near(come, 4.94, 0.005)));
        assert!(closed(before, after).is_some_and(|share| near(share, 0.375, 1e-9)));
        assert!(advance(size(4, 4), size(2, 2)).is_some_and(|come| near(come, 10.0, 1e-6)));
        assert!(closed(size(4, 4), size(2, 2)).is_some_and(|share| near(share, 0.75, 1e-9)));
    }

    /// A ruler read to 2 mm (arithmetic): 6 % of a 6 x 4 cm wound, 22 % of a 2 x 1 cm one.
    #[test]
    fn a_ruler_is_read_with_doubt() {
        let error = Micrometres(2_000);
        assert!(near(size(6, 4).doubt(error), 0.06, 0.001) && near(size(2, 1).doubt(error), 0.2236, 0.001));
    }

    /// 6 x 4 to 5 x 3 cm in 7 days (arithmetic): 0.706 mm a day, 15 mm left, so about 21 days; the ruler makes a band of it.
    #[test]
    fn a_forecast_is_a_band_and_withheld_where_it_cannot_be_carried() {
        let days = closes_in(size(6, 4), size(5, 3), 7);
        assert!(days.is_some_and(|days| days.low < 21 && 21 < days.high), "{days:?}");
        assert_eq!(closes_in(size(6, 4), size(5, 3), 2), None);
        assert_eq!(closes_in(size(2, 1), size(2, 1), 7), None);
        assert_eq!(flag(size(2, 1), size(2, 1), 7), Some(Flag::NotSmallerByDay7));
        assert_eq!(flag(size(2, 1), size(3, 1), 4), Some(Flag::GrewAfterDay3));
        assert_eq!((flag(size(2, 1), size(3, 1), 3), flag(size(9, 6), size(5, 3), 9)), (None, None));
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert_eq!(advance(size(0, 0), size(0, 0)), None);
        assert_eq!(closed(size(0, 0), size(1, 1)), None);
    }
}
