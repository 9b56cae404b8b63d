//! What a protocol file may say of care: what can be in the house, how an action is done with it, and what comes round again.

use crate::protocol::action::Stance;
use crate::protocol::source::Strength;
use crate::protocol::substance::{Elsewhere, Ruling};
use serde::Deserialize;

/// Something a carer may have in the house.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Supply {
    pub id: String,
    pub name: String,
    /// Why to have it before it is needed.
    pub why: String,
    /// Whether it bears a date after which it does not count.
    #[serde(default)]
    pub dated: bool,
    /// Whether eggs and meat are withheld once it has been used.
    #[serde(default)]
    pub withholds: bool,
    #[serde(default)]
    pub source: Option<String>,
}

/// A strength.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Stock {
    /// Milligrams in a litre: 1000 is 0.1 %.
    MilligramsPerLitre(u64),
}

/// One way to do an action, with what it takes.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Way {
    pub act: String,
    /// All of these; a way that needs nothing is the last of its action.
    #[serde(default)]
    pub needs: Vec<String>,
    /// The line on screen in place of the action's own, at most eight words.
    #[serde(default)]
    pub say: Option<String>,
    /// Whether the action is then not done, but something in its place.
    #[serde(default)]
    pub undone: bool,
    pub lines: Vec<String>,
    /// What state its lines bring her into: it is not gone where that is barred.
    #[serde(default)]
    pub keeps: Vec<Stance>,
    /// A picture in letters, line by line.
    #[serde(default)]
    pub picture: Vec<String>,
    /// How long it takes by the clock. Seconds.
    #[serde(default)]
    pub timer_s: Option<u16>,
    /// The sign that means: stop, and go.
    #[serde(default)]
    pub stop: String,
    /// The sign that means: go on, and phone a vet.
    #[serde(default)]
    pub phone_if: String,
    #[serde(default)]
    pub source: Option<String>,
    #[serde(default)]
    pub strength: Option<Strength>,
    #[serde(default)]
    pub borrowed: Option<String>,
}

/// A substance, or a family of them, as it may stand on a label.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Substance {
    pub id: String,
    pub name: String,
    pub ruling: Ruling,
    /// The action that puts it on a bird; for what is not for birds in general, the one for which it is all the same.
    #[serde(default)]
    pub act: Option<String>,
    /// The supply it is.
    #[serde(default)]
    pub supply: Option<String>,
    /// The words people type or find printed on a label, brands and trade words among them: matched, never told as its name.
    pub names: Vec<String>,
    /// How its names begin, end, or what they hold, spelled as `spelling` spells.
    #[serde(default)]
    pub starts: Vec<String>,
    #[serde(default)]
    pub ends: Vec<String>,
    #[serde(default)]
    pub holds: Vec<String>,
    /// What begins so and is none of them.
    #[serde(default)]
    pub but: Vec<String>,
    pub say: String,
    #[serde(default)]
    pub source: Option<String>,
    #[serde(default)]
    pub strength: Option<Strength>,
    #[serde(default)]
    pub borrowed: Option<String>,
    /// The countries whose law bars it, where a law does.
    #[serde(default)]
    pub law_of: Vec<String>,
    /// How it is ruled where none of their laws holds; as here, where nothing is said.
    #[serde(default)]
    pub elsewhere: Option<Elsewhere>,
    /// Whether a vet who gave it for this very bird settles it. What harms whoever gave it is not settled so.
    #[serde(default)]
    pub by_vet: bool,
}

/// Something to be looked at or done again and again, once an action has been done.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Round {
    pub id: String,
    /// The actions it comes with.
    pub with: Vec<String>,
    /// The questions that tell of its sign at a later look.
    #[serde(default)]
    pub told_by: Vec<String>,
    /// At these minutes first, then every so many until so many hours have gone.
    #[serde(default)]
    pub at_min: Vec<u32>,
    pub every_min: u32,
    pub until_h: u32,
    /// What it is about, in a word or three.
    pub topic: String,
    pub say: String,
    /// The sign that ends home care.
    pub stop: String,
    #[serde(default)]
    pub source: Option<String>,
    #[serde(default)]
    pub strength: Option<Strength>,
    #[serde(default)]
    pub borrowed: Option<String>,
}
