//! One of the numbered lines a person chooses from.

use super::meaning::Meaning;
use crate::phrase::Text;

/// One line to choose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it says.
    pub label: Text,
    /// Whether it is what stands now.
    pub marked: bool,
    /// Whether it can no longer change how soon; words say so too.
    pub faint: bool,
    /// What it is chosen by.
    pub by: ChosenBy,
    /// What choosing it means.
    pub meaning: Meaning,
}

impl Row {
    /// Its own number, where it has one.
    pub fn number(&self) -> Option<&str> {
        match &self.by {
            ChosenBy::Number(number) => Some(number),
            ChosenBy::Place | ChosenBy::Always => None,
        }
    }
}

/// What a line is chosen by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChosenBy {
    /// The figure of its place among the lines of the page that have none of their own.
    Place,
    /// A number of its own, wherever it stands.
    Number(String),
    /// The one key that says "I looked: as always".
    Always,
}

/// A line chosen by the figure of its place.
pub(super) fn row(label: impl Into<Text>, marked: bool, meaning: Meaning) -> Row {
    Row { label: label.into(), marked, faint: false, by: ChosenBy::Place, meaning }
}

/// A line that the one key for "as always" chooses.
pub(super) fn as_always(label: impl Into<Text>, meaning: Meaning) -> Row {
    Row { by: ChosenBy::Always, ..row(label, false, meaning) }
}
