//! What a vet asks of a bird that no look at her answers: her breed, age and laying, who saw it, what was given, what is wanted.

use serde::{Deserialize, Serialize};

/// One of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Particular {
    /// Breed or class: laying hybrid, heavy breed, bantam.
    Breed,
    /// Age.
    Age,
    /// Sex.
    Sex,
    /// Whether she lays, and when last.
    Laying,
    /// How many birds are kept with her, and which.
    Flock,
    /// Against what she was vaccinated.
    Vaccines,
    /// Who saw it happen, and when.
    Witness,
    /// What was given: product, strength, amount.
    Given,
    /// What was done to her.
    Done,
    /// What was left undone, and why.
    NotDone,
    /// From when on her eggs are withheld.
    EggsWithheld,
    /// Whether she is kept for food or as a pet, what may be spent, what is wanted for her.
    Wants,
    /// File names of photos.
    Photos,
    /// A shelter's intake number.
    Intake,
    /// Name, address and phone of who keeps her: told only where that is asked for.
    Keeper,
}

impl Particular {
    /// Every particular, in the order a vet asks.
    pub const ALL: [Self; 15] = [
        Self::Breed,
        Self::Age,
        Self::Sex,
        Self::Laying,
        Self::Flock,
        Self::Vaccines,
        Self::Witness,
        Self::Given,
        Self::Done,
        Self::NotDone,
        Self::EggsWithheld,
        Self::Wants,
        Self::Photos,
        Self::Intake,
        Self::Keeper,
    ];

    /// Whether each one said is kept beside the others, rather than taking the place of the last.
    pub const fn adds_up(self) -> bool {
        matches!(self, Self::Given | Self::Done | Self::NotDone | Self::Photos)
    }

    /// Whether it tells who somebody is or where they live.
    pub const fn is_private(self) -> bool {
        matches!(self, Self::Keeper)
    }
}
