//! What a protocol file may say: the shapes of RON, before anything is checked.

mod action;
mod body;
mod care;
mod cond;
mod law;
mod question;
mod roles;
mod strength;

pub use action::{Action, BanFit, Fit, Forbidden, Until};
pub use body::{Region, View};
pub use care::{Round, Stock, Substance, Supply, Way};
pub use cond::{Amount, Cond};
pub use law::{Country, Law, NotFound};
pub use question::{Answer, Course, Form, Question, Wording, YesNo};
pub use roles::{Kinds, Roles, Sides};
pub use strength::{Family, Rest, Sum, Use, Wanted};

use super::scale::{Authority, Humane, Need, Severity, System};
use super::source::{Grade, Strength};
use super::whom::Whom;
use crate::protocol::action::{Air, Stance};
use crate::protocol::rule::{By, Looks};
use crate::protocol::texts::{OnCard, Under};
use serde::Deserialize;

/// The protocol's own facts, from `protocol.ron`.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    pub version: String,
    /// Refused wherever it is told: the caution is the program's own.
    #[serde(default)]
    pub caution: Option<String>,
    /// How long a bird may be in the hand before she is put down. Seconds.
    pub hold_s: u32,
    /// How soon she is looked at again by how soon she needs a vet, whatever that rests on.
    pub looks_by_need: Vec<(Need, Vec<Looks>)>,
    /// When a bird should not be handled more than she must, and what is then said above every look that needs hands.
    pub spare_when: Cond,
    /// The signs of these that count as seen where they could not be told.
    pub spare_in_doubt: Cond,
    pub spare_say: String,
    /// What has to be so, beside what the program works out itself, before a bird is left in the dark for a night.
    pub stable_when: Cond,
    pub night: Night,
    /// When a bird has less blood than a sound one: ill, old or fat.
    pub frail_when: Cond,
    /// When the bird or the wound may still bleed: then no figure of blood is told, only to press.
    pub bleeds_when: Cond,
    /// When a wound is known to go no deeper than the skin: until then no liquid goes in where something lies under it.
    pub skin_only_when: Cond,
    /// Until when eggs and meat are withheld.
    pub withheld_until: String,
    /// The questions whose answers are said first on the phone, in that order.
    pub said_first: Vec<String>,
    /// The questions of a wound whose answers are said there.
    pub said_of_wounds: Vec<String>,
    pub hold_source: String,
    /// What is asked again at each look once a humane end has come into question.
    pub each_look: String,
    pub steps: Vec<Step>,
    pub lists: Vec<List>,
}

/// The dark hours in which nobody looks at a stable bird.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Night {
    /// The hours of the clock, 0 to 23.
    pub from_h: u8,
    pub until_h: u8,
    /// What brings heat or a wrap: within a day of it she is looked at by night, too.
    pub acts: Vec<String>,
    pub source: String,
}

/// Signs that stand on one screen.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct List {
    pub id: String,
    pub ask: String,
    pub look: String,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    pub id: String,
    pub name: String,
    pub hands_on: bool,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    pub id: String,
    pub cite: String,
    #[serde(default)]
    pub at: String,
    pub grade: Grade,
    /// How it came to us, wherever nothing else is said.
    #[serde(default)]
    pub known: Strength,
    /// Which animals it is about, where they are not poultry: whatever rests on it is borrowed from them.
    #[serde(default)]
    pub about: Option<String>,
}

/// A condition that many rules read, under a name of its own.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Named {
    pub id: String,
    pub when: Cond,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    pub id: String,
    pub when: Cond,
    /// Named exceptions: any of them, answered, holds the rule back.
    #[serde(default)]
    pub unless: Vec<Cond>,
    #[serde(default)]
    pub need: Option<Need>,
    #[serde(default)]
    pub humane: Option<Humane>,
    #[serde(default)]
    pub authority: Option<Authority>,
    #[serde(default)]
    pub severity: Vec<(System, Severity)>,
    #[serde(default)]
    pub acts: Vec<String>,
    #[serde(default)]
    pub never: Vec<String>,
    /// Of those, which no test at home ends where this rule holds, and why.
    #[serde(default)]
    pub stays: Vec<(String, String)>,
    #[serde(default)]
    pub watch: Vec<String>,
    #[serde(default)]
    pub by: Option<By>,
    #[serde(default)]
    pub looks: Vec<Looks>,
    /// Why, and nothing to do: what is done stands with the action.
    pub reason: String,
    /// What the finding rests on; common practice where nothing is said.
    #[serde(default)]
    pub source: Option<String>,
    /// How well that is known, where it is not known as the source is.
    #[serde(default)]
    pub strength: Option<Strength>,
    /// The source that itself recommends what follows; ours where nothing is said.
    #[serde(default)]
    pub says: Option<String>,
    /// The kind a figure is borrowed from, where it is not the one the source is about.
    #[serde(default)]
    pub borrowed: Option<String>,
}

impl Rule {
    /// Whether anything follows from it.
    pub const fn says_something(&self) -> bool {
        self.need.is_some()
            || self.humane.is_some()
            || self.authority.is_some()
            || self.by.is_some()
            || !self.severity.is_empty()
            || !self.acts.is_empty()
            || !self.never.is_empty()
            || !self.watch.is_empty()
            || !self.looks.is_empty()
    }
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Watch {
    pub id: String,
    pub say: String,
    /// The questions that tell of it at a later look.
    pub told_by: Vec<String>,
    #[serde(default)]
    pub source: Option<String>,
}

/// Two actions that must not be advised together; `keep` stays.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Conflict {
    pub keep: String,
    pub drop: String,
    /// Why; left out where `keep` says the same and more, so that nothing is lost.
    #[serde(default)]
    pub because: String,
}

/// Where `never` is forbidden, `drop` is not advised either.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RulesOut {
    pub never: String,
    pub drop: String,
    pub because: String,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Instruction {
    pub id: String,
    pub title: String,
    pub acts: Vec<String>,
    pub never: Vec<String>,
    #[serde(default)]
    pub timer_s: Option<u32>,
    /// What to do when the time is up.
    #[serde(default)]
    pub after: String,
    /// The question that is asked when it has been carried out.
    #[serde(default)]
    pub then: Option<String>,
    /// The instruction in its place where the answer after it calls it up once more.
    #[serde(default)]
    pub again: Option<String>,
    /// The question one key asks while it runs. By itself that question is never asked.
    #[serde(default)]
    pub beside: Option<String>,
    /// What comes on screen in its place for a bird it would harm; the first that is so beyond doubt.
    #[serde(default)]
    pub instead: Vec<Instead>,
    /// Whether it is shown once for a bird, however many answers call it up.
    #[serde(default)]
    pub once: bool,
    /// Whom it says to phone, now or when the time is up.
    #[serde(default)]
    pub phones: Option<Whom>,
    #[serde(default)]
    pub source: Option<String>,
}

/// An instruction in place of another one.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Instead {
    pub when: Cond,
    pub by: String,
}

/// Two answers that cannot both be true of one bird.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Exclusion {
    pub id: String,
    pub one: Cond,
    pub other: Cond,
    pub say: String,
}

/// A paragraph of the plan, told in full where its condition is met.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Paragraph {
    pub id: String,
    pub under: Under,
    #[serde(default)]
    pub when: Cond,
    pub title: String,
    pub lines: Vec<String>,
    /// What of it stands on a card.
    #[serde(default)]
    pub card: Option<OnCard>,
    /// The paragraph it is told in place of, wherever it is told.
    #[serde(default)]
    pub in_place_of: Option<String>,
    /// Whether it is told only where no authority has a word in it: whoever is phoned says what becomes of her then.
    #[serde(default)]
    pub unless_authority: bool,
    /// What state its lines bring her into or keep her in.
    #[serde(default)]
    pub keeps: Vec<Stance>,
    /// The state whose air they ask for.
    #[serde(default)]
    pub air: Option<Air>,
    #[serde(default)]
    pub source: Option<String>,
    #[serde(default)]
    pub strength: Option<Strength>,
    #[serde(default)]
    pub borrowed: Option<String>,
}

/// A word a keeper may not know, and what it means.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Term {
    pub term: String,
    pub means: String,
}

/// A sum over ordered questions, for seeing change; in our own words, and no odds of survival.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Score {
    pub id: String,
    pub name: String,
    pub of: Vec<String>,
    pub say: String,
    #[serde(default)]
    pub source: Option<String>,
}

/// What each grade means in one body system, in our own words for birds.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Grades {
    pub system: System,
    pub slight: String,
    pub serious: String,
    pub grave: String,
}
