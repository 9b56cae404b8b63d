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
