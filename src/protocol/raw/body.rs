//! What a protocol file may say of the picture of the bird: views drawn in letters, and the regions marked in them.

use crate::protocol::action::Pressing;
use crate::protocol::body::Turns;
use serde::Deserialize;

/// The bird drawn from one side.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct View {
    pub id: String,
    pub name: String,
    /// Whether her beak points to the left as she is seen from above: what is drawn below the middle is then her left.
    #[serde(default)]
    pub left_below: bool,
    /// What it is called where her left side is to be seen as drawn, and her right, for which it is turned round.
    #[serde(default)]
    pub turns: Option<Turns>,
    /// Drawn in letters; a capital letter marks where a region lies.
    pub lines: Vec<String>,
}

/// A region of the body.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Region {
    /// The answer to "where is it?" it stands for.
    pub place: String,
    /// The capital letter that marks it in the pictures.
    pub letter: char,
    /// What lies under it that no liquid may reach.
    #[serde(default)]
    pub danger: Option<String>,
    /// How hard it may be pressed.
    #[serde(default)]
    pub pressing: Pressing,
    #[serde(default)]
    pub source: Option<String>,
}
