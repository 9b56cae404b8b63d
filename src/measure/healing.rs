//! Healing: a wound's area and edge from two lines, and how far the edge has come in between two looks.

use crate::unit::{Micrometres, SquareMillimetres};

/// A wound by its longest line and the longest at right angles to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Size {
    /// The longest line.
    pub length: Micrometres,
    /// The longest at right angles to it.
    pub width: Micrometres,
}

impl Size {
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
pub fn advance(before: Size, after: Size) -> Option<f64> {
    let edge = f64::midpoint(before.edge(), after.edge());
    (edge > 0.0).then(|| (before.area() - after.area()) / edge)
}

/// The share of the area that has closed; below zero where it grew. Nothing where there was none.
pub fn closed(before: Size, after: Size) -> Option<f64> {
    (before.area() > 0.0).then(|| (before.area() - after.area()) / before.area())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(length: u64, width: u64) -> Size {
        Size { length: Micrometres(length * 10_000), width: Micrometres(width * 10_000) }
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

    #[test]
    fn nothing_comes_of_nothing() {
        assert_eq!(advance(size(0, 0), size(0, 0)), None);
        assert_eq!(closed(size(0, 0), size(1, 1)), None);
    }
}
