//! Measurements laid out for drawing: where each point, its reach and the floor stand on a small rectangle.

use super::Plot;

/// The rectangle, and the room left in it for the labels. In the drawing's own units.
pub const WIDE: u32 = 300;
/// Its height.
pub const HIGH: u32 = 76;
/// The room left before the first measurement.
pub const LEFT: u32 = 62;
/// The room left after the last.
pub const RIGHT: u32 = 6;
/// The room left above the most that is shown.
pub const TOP: u32 = 6;
/// The room left below the least.
pub const FOOT: u32 = 16;

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
    pub fn of<T>(plot: &Plot<T>) -> Self {
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
