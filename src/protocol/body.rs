//! The bird drawn in letters, and the regions of her body marked in the drawing.

use super::action::Pressing;
use super::source::Source;
use super::table::At;
use crate::finding::Id;
use serde::{Deserialize, Serialize};

/// The bird drawn from one side.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct BodyView {
    /// Its key.
    pub id: Id,
    /// From where she is seen.
    pub name: String,
    /// What it is called where her left side is to be seen as drawn, and her right, for which it is turned round.
    pub turns: Option<Turns>,
    /// The drawing, line by line; where a region lies stands an empty cell.
    pub lines: Vec<String>,
}

/// A region of the body.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Region {
    /// The answer to the question where a wound is.
    pub place: Id,
    /// What it is called: the words of that answer.
    pub name: String,
    /// Where it lies in the drawings.
    pub spots: Vec<Spot>,
    /// What lies under it that no liquid may reach, until a wound there is known to be skin only.
    pub danger: Option<String>,
    /// How hard it may be pressed.
    pub pressing: Pressing,
    /// Its source.
    pub source: At<Source>,
}

/// A side of the bird: her own left or right, not the looker's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Side {
    /// Her left.
    Left,
    /// Her right.
    Right,
}

impl Side {
    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// A cell of a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spot {
    /// The position of the view in [`super::Protocol::views`].
    pub view: usize,
    /// The line, from 0.
    pub row: usize,
    /// The column, from 0.
    pub column: usize,
    /// The side of her it is on, where the drawing tells. Of a pair seen from the side the first is the near one: it is her left,
    /// and her right where the view is turned round.
    pub side: Option<Side>,
}

/// The names of a view of either side.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Turns {
    /// From her left.
    pub left: String,
    /// From her right.
    pub right: String,
}
