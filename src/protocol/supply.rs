//! What can be in the house, how an action is done with it, and what comes round again once it is done.

use super::action::Stance;
use super::cond::QuestionAt;
use super::rule::ActionAt;
use super::source::{Source, Strength};
use super::strength::refuses;
use super::table::At;
use crate::finding::Id;
use crate::unit::MilligramsPerLitre;
use serde::{Deserialize, Serialize};

/// The position of a supply in [`super::Protocol::supplies`].
pub type SupplyAt = At<Supply>;

/// The position of a way in [`super::Protocol::ways`].
pub type WayAt = At<Way>;

/// The position of a round in [`super::Protocol::rounds`].
pub type RoundAt = At<Round>;

/// Something a carer may have in the house.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Supply {
    /// Its key.
    pub id: Id,
    /// What it is called.
    pub name: String,
    /// Why to have it before it is needed.
    pub why: String,
    /// Whether it bears a date after which it does not count.
    pub dated: bool,
    /// The strength it is thinned to, where it comes as a stock; this and the next two by the table of strengths.
    pub thin_to: Option<MilligramsPerLitre>,
    /// Strengths at which a bottle of it is as a rule another product, and what is said of it.
    pub others: Vec<(MilligramsPerLitre, String)>,
    /// The strongest that is used, and why nothing stronger is.
    pub at_most: Option<(MilligramsPerLitre, String)>,
    /// Whether eggs and meat are withheld once it has been used.
    pub withholds: bool,
    /// Its source.
    pub source: At<Source>,
}

impl Supply {
    /// Why a strength of it is not used, where it is not.
    pub fn refuses(&self, strength: MilligramsPerLitre) -> Option<&str> {
        refuses(&self.others, self.at_most.as_ref(), strength)
    }
}

/// One way to do an action.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Way {
    /// The action.
    pub act: ActionAt,
    /// All it takes; nothing for the last way of an action.
    pub needs: Vec<SupplyAt>,
    /// The line on screen in place of the action's own.
    pub say: Option<String>,
    /// Whether the action is then not done, but something in its place.
    pub undone: bool,
    /// What to do, line by line.
    pub lines: Vec<String>,
    /// What state they bring her into: the way is not gone where that is barred.
    pub keeps: Vec<Stance>,
    /// A picture in letters, line by line; empty for none.
    pub picture: Vec<String>,
    /// How long it takes by the clock. Seconds.
    pub timer_s: Option<u16>,
    /// The sign that means: stop, and go; empty for none of its own.
    pub stop: String,
    /// The sign that means: go on with it, and phone a vet; empty for none of its own.
    pub phone_if: String,
    /// Its source.
    pub source: At<Source>,
    /// How well it is known.
    pub strength: Strength,
    /// The kind it is borrowed from, where that is not poultry.
    pub borrowed: Option<String>,
}

/// Something to be looked at or done again and again, once an action has been done.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Round {
    /// Its key.
    pub id: Id,
    /// The actions it comes with.
    pub with: Vec<ActionAt>,
    /// The questions that tell of its sign at a later look.
    pub told_by: Vec<QuestionAt>,
    /// The first times. Minutes after the plan was made.
    pub at_min: Vec<u32>,
    /// Then every so many minutes.
    pub every_min: u32,
    /// Until so many hours have gone.
    pub until_h: u32,
    /// What it is about, in a word or three.
    pub topic: String,
    /// What to look at or do.
    pub say: String,
    /// The sign that ends home care.
    pub stop: String,
    /// Its source.
    pub source: At<Source>,
    /// How well it is known.
    pub strength: Strength,
    /// The kind it is borrowed from, where that is not poultry.
    pub borrowed: Option<String>,
}
