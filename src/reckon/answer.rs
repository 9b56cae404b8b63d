//! An answer to a sum: lines with low and high, the formula, and what each figure rests on.

use crate::phrase::{Quantity, Text};
use crate::protocol::strength::Rest;
use crate::unit::{Band, Microlitres};

/// One line of an answer.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswerLine {
    /// What it is.
    pub what: Text,
    /// What it comes to.
    pub told: Text,
}

/// An answer to a sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What was reckoned.
    pub title: Text,
    /// The figures, the deciding one first.
    pub lines: Vec<AnswerLine>,
    /// How they were worked out.
    pub formula: Text,
    /// What they rest on.
    pub rests_on: Vec<Rest>,
    /// What must be kept in mind.
    pub notes: Vec<Text>,
}

impl Answer {
    /// An answer without lines yet.
    pub fn new(title: impl Into<Text>, formula: impl Into<Text>) -> Self {
        Self {
            title: title.into(),
            lines: Vec::new(),
            formula: formula.into(),
            rests_on: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// With one more line.
    #[must_use]
    pub fn line(mut self, what: impl Into<Text>, told: impl Into<Text>) -> Self {
        self.lines.push(AnswerLine { what: what.into(), told: told.into() });
        self
    }

    /// With one more note.
    #[must_use]
    pub fn note(mut self, note: impl Into<Text>) -> Self {
        self.notes.push(note.into());
        self
    }
}

/// A volume; its unit stands in the sentence around it.
pub fn volume(volume: Microlitres) -> Quantity {
    Quantity::volume(Band::exactly(volume))
}
