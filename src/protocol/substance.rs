//! A substance, or a family of them, as it may stand on a label; and how it is known there.

use super::rule::ActionAt;
use super::source::{Source, Strength};
use super::supply::SupplyAt;
use super::table::At;
use super::texts::Country;
use crate::finding::Id;
use serde::{Deserialize, Serialize};

/// A substance, or a family of them.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Substance {
    /// Its key.
    pub id: Id,
    /// What it is called.
    pub name: String,
    /// What is ruled of it.
    pub ruling: Ruling,
    /// The action that puts it on a bird.
    pub act: Option<ActionAt>,
    /// The supply it is.
    pub supply: Option<SupplyAt>,
    /// Its names, each as its words in the one spelling.
    pub names: Vec<Vec<String>>,
    /// How its names begin.
    pub starts: Vec<String>,
    /// How they end.
    pub ends: Vec<String>,
    /// What they hold.
    pub holds: Vec<String>,
    /// What begins so and is none of them.
    pub but: Vec<String>,
    /// Why, in words a frightened person can read.
    pub say: String,
    /// Its source.
    pub source: At<Source>,
    /// How well it is known.
    pub strength: Strength,
    /// The kind it is borrowed from, where that is not poultry.
    pub borrowed: Option<String>,
    /// The countries whose law bars it, where a law does.
    pub law_of: Vec<Id>,
    /// How it is ruled where none of their laws holds, if otherwise.
    pub elsewhere: Option<Elsewhere>,
    /// Whether a vet who gave it for this very bird settles it.
    pub by_vet: bool,
}

impl Substance {
    /// Whether a law of this country bars it; of no country's where none is set, so the strictest holds.
    pub fn is_barred_in(&self, country: &Country) -> bool {
        self.law_of.contains(&country.id) || (country.stands_for_none && !self.law_of.is_empty())
    }

    /// How it is ruled in a country, and why.
    pub fn ruled_in(&self, country: &Country) -> (Ruling, &str) {
        match &self.elsewhere {
            Some(elsewhere) if !self.is_barred_in(country) => (elsewhere.ruling, &elsewhere.say),
            Some(_) | None => (self.ruling, &self.say),
        }
    }

    /// Whether a word is one of the family by the stem of its name.
    pub fn has_stem(&self, word: &str) -> bool {
        let found = self.starts.iter().any(|start| word.starts_with(start.as_str()))
            || self.ends.iter().any(|end| word.ends_with(end.as_str()))
            || self.holds.iter().any(|held| word.contains(held.as_str()));
        found && !self.but.iter().any(|but| word.starts_with(but.as_str()))
    }
}

/// What is ruled of a substance on a label, from the mildest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Ruling {
    /// It only carries the rest.
    Carrier,
    /// It may be used, in its place.
    MayBeUsed,
    /// A vet gave it for this bird: never said in a file.
    AsTheVetWrote,
    /// Only with a vet's word.
    AskFirst,
    /// Nothing is known of it.
    Unknown,
    /// Not on this bird, or not in this place.
    NotHere,
    /// Never on a bird.
    Never,
}

/// How a substance is ruled where the law that bars it does not hold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Elsewhere {
    /// The ruling, milder than the law's and never milder than "ask first".
    pub ruling: Ruling,
    /// Why, in other words.
    pub say: String,
}
