//! Measurements laid out for drawing: where each point, its reach and the floor stand on a small rectangle.

use super::Plot;

/// The rectangle, and the room left in it for the labels. In the drawing's own units.
pub const WIDE: u32 = 300;
/// Its height.
pub const HIGH: u32 = 76;
const LEFT: u32 = 62;
const RIGHT: u32 = 6;
const TOP: u32 = 6;
const FOOT: u32 = 16;

/// A plot laid out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Curve {
    /// Each measurement: across, down, and down to the top and the bottom of its reach.
    pub dots: Vec<Dot>,
    /// How far down the floor stands.
    pub floor: Option<u32>,
    /// The least and the most that is shown.
    pub ends: (u32, u32),
}

/// A measurement's place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dot {
    /// Across.
    pub x: u32,
    /// Down.
    pub y: u32,
    /// Down to the most it can be.
    pub top: u32,
    /// Down to the least it can be.
    pub bottom: u32,
}

impl Curve {
    /// Lays a plot out.
    pub fn of(plot: &Plot) -> Self {
        let least = plot.points.iter().map(|point| point.low).chain(plot.floor).min().unwrap_or(0);
        let most = plot.points.iter().map(|point| point.high).chain(plot.floor).max().unwrap_or(0);
        let end = plot.points.last().map_or(0, |point| point.minute);
        let across = |minute: u32| LEFT + share(minute, end, WIDE - LEFT - RIGHT);
        let down = |value: u32| HIGH - FOOT - share(value - least, most - least, HIGH - FOOT - TOP);
        let dot = |point: &super::Point| Dot {
            x: across(point.minute),
            y: down(point.value),
            top: down(point.high),
            bottom: down(point.low),
        };
        Self { dots: plot.points.iter().map(dot).collect(), floor: plot.floor.map(down), ends: (least, most) }
    }

    /// The line through the measurements, as a drawing writes it.
    pub fn line(&self) -> String {
        self.dots.iter().map(|dot| format!("{},{}", dot.x, dot.y)).collect::<Vec<_>>().join(" ")
    }
}

/// A part of a whole, of so much room.
fn share(part: u32, whole: u32, room: u32) -> u32 {
    let of = u64::from(part) * u64::from(room) / u64::from(whole.max(1));
    u32::try_from(of).unwrap_or(room).min(room)
}

#[cfg(test)]
mod tests {
    use super::super::Point;
    use super::*;

    #[test]
    fn the_least_stands_at_the_foot_and_the_most_at_the_top() {
        let point = |minute, low, value, high| Point { minute, low, value, high };
        let points = vec![point(0, 90, 100, 110), point(1440, 40, 50, 60)];
        let plot =
            Plot { words: String::new(), unit: "mm2", from: String::new(), to: String::new(), points, floor: None };
        let curve = Curve::of(&plot);
        assert_eq!(curve.ends, (40, 110));
        let (first, last) = (curve.dots.first().copied(), curve.dots.last().copied());
        assert_eq!(first.map(|dot| (dot.x, dot.top)), Some((LEFT, TOP)));
        assert_eq!(last.map(|dot| (dot.x, dot.bottom)), Some((WIDE - RIGHT, HIGH - FOOT)));
        assert!(first.map(|dot| dot.y) < last.map(|dot| dot.y), "less stands lower");
    }

    #[test]
    fn one_moment_and_one_value_divide_by_nothing() {
        let points = vec![Point { minute: 0, low: 5, value: 5, high: 5 }; 2];
        let plot =
            Plot { words: String::new(), unit: "g", from: String::new(), to: String::new(), points, floor: Some(5) };
        assert_eq!(Curve::of(&plot).ends, (5, 5));
    }
}
