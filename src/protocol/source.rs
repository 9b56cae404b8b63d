//! Where a claim comes from, and how well it is known: no rule stands without both.

use crate::finding::Id;
use serde::{Deserialize, Serialize};

/// What sort of thing a source is; the higher a paper stands, the lower a keeper's account.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Grade {
    /// A paper with measurements.
    Paper,
    /// A veterinary manual, textbook or proceedings.
    Manual,
    /// A law, or the text of an authority.
    Law,
    /// A clinic's own page or report.
    Clinic,
    /// A lay page.
    Lay,
    /// Common practice, no source; or a proposal of ours.
    Practice,
}

impl Grade {
    /// Every grade, the best first.
    pub const ALL: [Self; 6] = [Self::Paper, Self::Manual, Self::Law, Self::Clinic, Self::Lay, Self::Practice];
}

/// How the figure or sign came to us.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Strength {
    /// Read in the source itself.
    #[default]
    Read,
    /// Read second-hand.
    SecondHand,
    /// Remembered with its citation, not read again.
    Memory,
    /// Common practice, no source.
    Practice,
    /// A proposal of ours, published nowhere.
    Proposal,
}

impl Strength {
    /// The label in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::SecondHand => "read second-hand",
            Self::Memory => "from memory",
            Self::Practice => "common practice, no source",
            Self::Proposal => "our proposal, published nowhere",
        }
    }
}

/// A published source, or the standing entry for common practice.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Source {
    /// Its key.
    pub id: Id,
    /// Who, what, when, where published.
    pub cite: String,
    /// An address, where there is one.
    pub at: String,
    /// What sort of thing it is.
    pub grade: Grade,
}

impl Source {
    /// Who published it, in few words: what stands before the first comma.
    pub fn short(&self) -> &str {
        self.cite.split(',').next().unwrap_or(&self.cite)
    }
}
