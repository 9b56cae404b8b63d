//! The table of strengths: on what a family of substances may be put, how strong, and which bottles are as a rule something
//! else. Labels, sums, recipes and supplies rest on it alone.

use super::Protocol;
use super::source::{Source, Strength};
use super::substance::{Ruling, Substance};
use super::table::At;
use crate::finding::Id;
use crate::unit::{Band, MicrogramsPerLitre, MilligramsPerLitre};
use serde::{Deserialize, Serialize};

/// The position of a use in [`Protocol::uses`].
pub type UseAt = At<Use>;

/// Something a product may be put on.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Use {
    /// Its key.
    pub id: Id,
    /// What it is called: "an open wound".
    pub name: String,
    /// The answers of a wound that tell it: each a question and its answers.
    pub told_by: Vec<(Id, Vec<Id>)>,
}

/// A family of substances that are put on a bird alike.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Family {
    /// Its key.
    pub id: Id,
    /// What it is called.
    pub name: String,
    /// The substances it is made of.
    pub of: Vec<Id>,
    /// Whether it comes as a stock that is thinned before it is used.
    pub thinned: bool,
    /// How it is ruled on each use, in the order of [`Protocol::uses`].
    pub on: Vec<On>,
    /// Strengths at which a bottle of that name is as a rule another product, and what is said of it.
    pub others: Vec<(MilligramsPerLitre, String)>,
    /// The strongest that is thinned or used, and why nothing stronger is.
    pub at_most: Option<(MilligramsPerLitre, String)>,
    /// What is kept in mind with this family alone; empty for nothing.
    pub note: String,
    /// What it rests on.
    pub rests: Vec<Rest>,
}

/// How a family is ruled on one use.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct On {
    /// What is ruled.
    pub ruling: Ruling,
    /// Why.
    pub say: String,
    /// How strong it is wanted there, where strength matters.
    pub wanted: Option<Wanted>,
}

/// How strong a thing is wanted.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Wanted {
    /// The weakest and the strongest that sources print.
    pub published: Band<MilligramsPerLitre>,
    /// What counts as that, measured in a kitchen.
    pub right: Band<MilligramsPerLitre>,
    /// What this program makes.
    pub make: MilligramsPerLitre,
    /// What is said of one that is stronger.
    pub strong: String,
    /// What is said of one that is weaker.
    pub weak: String,
}

/// What a family or a sum rests on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rest {
    /// The source.
    pub source: At<Source>,
    /// How we know it.
    pub strength: Strength,
    /// What is taken from it.
    pub what: String,
    /// The kind it is borrowed from, where that is not poultry.
    pub borrowed: Option<String>,
}

/// How a strength stands to what is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// All of it is stronger than what counts as right.
    Stronger,
    /// Some of it may be.
    PerhapsStronger,
    /// All of it counts as right.
    Right,
    /// Some of it may be too weak, none too strong.
    PerhapsWeaker,
    /// All of it is too weak.
    Weaker,
}

impl Wanted {
    /// How a strength stands to it; a band of which both ends are possible.
    pub fn against(&self, strength: Band<MicrogramsPerLitre>) -> Against {
        let (least, most): (MicrogramsPerLitre, MicrogramsPerLitre) = (self.right.low.into(), self.right.high.into());
        if strength.low > most {
            Against::Stronger
        } else if strength.high > most {
            Against::PerhapsStronger
        } else if strength.high < least {
            Against::Weaker
        } else if strength.low < least {
            Against::PerhapsWeaker
        } else {
            Against::Right
        }
    }
}

impl Family {
    /// How strong it is wanted: on the first use it is wanted for.
    pub fn wanted(&self) -> Option<&Wanted> {
        self.on.iter().find_map(|on| on.wanted.as_ref())
    }

    /// How it is ruled on a use.
    pub fn on(&self, at: UseAt) -> Option<&On> {
        self.on.get(at.nth())
    }

    /// Why a bottle of this strength is not used, where it is not.
    pub fn refuses(&self, strength: MilligramsPerLitre) -> Option<&str> {
        refuses(&self.others, self.at_most.as_ref(), strength)
    }
}

/// Why a strength is not used: a bottle that is as a rule another product, or one that is stronger than any that is used.
pub fn refuses<'t>(
    others: &'t [(MilligramsPerLitre, String)],
    at_most: Option<&'t (MilligramsPerLitre, String)>,
    strength: MilligramsPerLitre,
) -> Option<&'t str> {
    let other = others.iter().find(|(at, _)| *at == strength);
    let (_, because) = other.or_else(|| at_most.filter(|(most, _)| strength > *most))?;
    Some(because)
}

impl Protocol {
    /// Every use with its position.
    pub fn uses_enumerated(&self) -> impl Iterator<Item = (UseAt, &Use)> {
        self.uses.placed()
    }

    /// The use with this key.
    pub fn use_at(&self, id: &str) -> Option<UseAt> {
        self.uses_enumerated().find(|(_, one)| one.id == *id).map(|(at, _)| at)
    }

    /// What a use is called.
    pub fn use_name(&self, at: UseAt) -> &str {
        self.uses.get(at.nth()).map_or("", |one| &one.name)
    }

    /// The family with this key.
    pub fn family(&self, id: &str) -> Option<&Family> {
        self.families.iter().find(|family| family.id == *id)
    }

    /// The family a substance is of, where strengths and uses are told of it.
    pub fn family_of(&self, substance: &Substance) -> Option<&Family> {
        self.families.iter().find(|family| family.of.contains(&substance.id))
    }
}
