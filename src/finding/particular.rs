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

    /// In plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Breed => "breed or class",
            Self::Age => "age",
            Self::Sex => "sex",
            Self::Laying => "laying",
            Self::Flock => "kept with",
            Self::Vaccines => "vaccines",
            Self::Witness => "seen by",
            Self::Given => "given",
            Self::Done => "done",
            Self::NotDone => "not done",
            Self::EggsWithheld => "eggs withheld from",
            Self::Wants => "what the keeper wants and can do",
            Self::Photos => "photos",
            Self::Intake => "intake number",
            Self::Keeper => "keeper",
        }
    }

    /// How it is asked, with an example.
    pub const fn ask(self) -> &'static str {
        match self {
            Self::Breed => "For example: laying hybrid, brown.",
            Self::Age => "For example: two years, or hatched in May.",
            Self::Sex => "For example: hen, drake, not known.",
            Self::Laying => "For example: yes, last egg on Tuesday.",
            Self::Flock => "For example: eleven hens and a cock, none ill.",
            Self::Vaccines => "For example: none; or the names on the paper.",
            Self::Witness => "For example: the neighbour, at half past two.",
            Self::Given => "Product, strength, amount, hour. Each dose by itself.",
            Self::Done => "For example: pressed for ten minutes, rinsed with salt water.",
            Self::NotDone => "For example: not rinsed, it lies over an air sac.",
            Self::EggsWithheld => "For example: from the evening of the 27th.",
            Self::Wants => "For example: a pet; treatment up to 150; no operation.",
            Self::Photos => "The names of the files, parted by commas.",
            Self::Intake => "The number on her cage.",
            Self::Keeper => "Name, address, phone. Told only if you ask for it.",
        }
    }

    /// Whether each one said is kept beside the others, rather than taking the place of the last.
    pub const fn adds_up(self) -> bool {
        matches!(self, Self::Given | Self::Done | Self::NotDone | Self::Photos)
    }

    /// Whether it tells who somebody is or where they live.
    pub const fn is_private(self) -> bool {
        matches!(self, Self::Keeper)
    }
}
