//! The sums the program can do, and what each rests on. Which sums there are is the program's own; what they rest on stands in
//! the protocol, since it names sources.

use super::Protocol;
use super::strength::Rest;
use serde::{Deserialize, Serialize};

/// A sum the program can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum SumOf {
    /// Blood lost.
    Blood,
    /// Breaths counted.
    Breaths,
    /// Weight.
    Weight,
    /// Skin open.
    Skin,
    /// Printed recipes.
    Recipe,
    /// Stocks thinned.
    Solution,
    /// Salt water.
    Saline,
    /// Rehydration salts.
    Salts,
    /// Fluids.
    Fluids,
    /// Warmth.
    Warmth,
    /// Weight over days.
    Trend,
    /// Healing.
    Healing,
    /// Time.
    Time,
}

impl SumOf {
    /// Every sum, in the order they are told.
    pub const ALL: [Self; 13] = [
        Self::Blood,
        Self::Breaths,
        Self::Weight,
        Self::Skin,
        Self::Recipe,
        Self::Solution,
        Self::Saline,
        Self::Salts,
        Self::Fluids,
        Self::Warmth,
        Self::Trend,
        Self::Healing,
        Self::Time,
    ];

    /// Its name, as it is typed.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Blood => "blood",
            Self::Breaths => "breaths",
            Self::Weight => "weight",
            Self::Skin => "skin",
            Self::Recipe => "recipe",
            Self::Solution => "solution",
            Self::Saline => "saline",
            Self::Salts => "salts",
            Self::Fluids => "fluids",
            Self::Warmth => "warmth",
            Self::Trend => "trend",
            Self::Healing => "healing",
            Self::Time => "time",
        }
    }
}

/// What a sum rests on.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Sum {
    /// The sum.
    pub sum: SumOf,
    /// What it rests on, the weightiest first.
    pub rests: Vec<Rest>,
}

impl Protocol {
    /// What a sum rests on.
    pub fn rests_of(&self, sum: SumOf) -> &[Rest] {
        self.sums.iter().find(|told| told.sum == sum).map_or(&[], |told| &told.rests)
    }
}
