//! A rule, and what names actions beside it, in checked form.

use super::cond::{Cond, QuestionAt};
use super::scale::{Authority, Humane, Need, Severity, System};
use super::source::{Source, Strength};
use super::table::At;
use super::whom::Whom;
use crate::finding::Id;
use serde::{Deserialize, Serialize};

pub use super::action::ActionAt;

/// The position of a sign to watch for in [`super::Protocol::watches`].
pub type WatchAt = At<Watch>;

/// The position of an instruction among the instructions.
pub type InstructionAt = At<Instruction>;

/// The position of a rule in [`super::Protocol::rules`].
pub type RuleAt = At<Rule>;

/// A rule: a condition, what follows from it, and what both rest on.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Rule {
    /// Its key.
    pub id: Id,
    /// Whether it is judged for each wound by itself.
    pub per_wound: bool,
    /// When it holds.
    pub when: Cond,
    /// Named exceptions, each of which holds it back.
    pub unless: Vec<Cond>,
    /// The need it raises to.
    pub need: Option<Need>,
    /// The rung of humane end it raises to.
    pub humane: Option<Humane>,
    /// The authority call it raises to.
    pub authority: Option<Authority>,
    /// The severity it gives to body systems.
    pub severity: Vec<(System, Severity)>,
    /// What to do.
    pub acts: Vec<ActionAt>,
    /// What never to do.
    pub never: Vec<ActionAt>,
    /// Of those, which only a vet's word ends while this rule holds, whatever their own end; each with why.
    pub stays: Vec<(ActionAt, String)>,
    /// What to watch for.
    pub watch: Vec<WatchAt>,
    /// What has to be done by some hour after the injury.
    pub by: Option<By>,
    /// When to look again.
    pub looks: Vec<Looks>,
    /// Why, in words a frightened person can read.
    pub reason: String,
    /// The source the finding rests on.
    pub source: At<Source>,
    /// How well the finding is known.
    pub strength: Strength,
    /// What the recommendation rests on.
    pub advice: Advice,
    /// The kind a figure is borrowed from, where it is not poultry.
    pub borrowed: Option<String>,
}

impl Rule {
    /// Whether its finding or its advice rests on a source.
    pub fn rests_on(&self, source: At<Source>) -> bool {
        self.source == source || matches!(self.advice, Advice::Says(said) if said == source)
    }
}

/// What a recommendation rests on.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Advice {
    /// The named source itself recommends it.
    Says(At<Source>),
    /// Our inference, unreviewed.
    Ours,
}

/// A sign that ends home care.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Watch {
    /// Its key.
    pub id: Id,
    /// The sign in everyday words.
    pub say: String,
    /// The questions that tell of it at a later look.
    pub told_by: Vec<QuestionAt>,
    /// Its source.
    pub source: At<Source>,
}

/// Two actions that must not be advised together.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Conflict {
    /// The action that stays.
    pub keep: ActionAt,
    /// The action that goes.
    pub drop: ActionAt,
    /// Why, in a few words; empty where the action that stays says the same and more.
    pub because: String,
}

/// An action that is not advised where another is forbidden.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct RulesOut {
    /// The forbidden action.
    pub never: ActionAt,
    /// The action that goes.
    pub drop: ActionAt,
    /// Why, in a few words.
    pub because: String,
}

/// What fills the screen when seconds count: actions in order, what never to do, and a timer.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Instruction {
    /// Its key.
    pub id: Id,
    /// Three or four words in capitals.
    pub title: String,
    /// What to do, in order.
    pub acts: Vec<ActionAt>,
    /// What never to do.
    pub never: Vec<ActionAt>,
    /// How long, in seconds.
    pub timer_s: Option<u32>,
    /// What to do when the time is up.
    pub after: String,
    /// The question that is asked when it has been carried out.
    pub then: Option<QuestionAt>,
    /// The instruction in its place where the answer after it calls it up once more.
    pub again: Option<InstructionAt>,
    /// The question one key asks while it runs.
    pub beside: Option<QuestionAt>,
    /// What comes on screen in its place for a bird it would harm; the first that is so beyond doubt.
    pub instead: Vec<Instead>,
    /// Whether it is shown once for a bird, however many answers call it up.
    pub once: bool,
    /// Whom it says to phone, now or when the time is up.
    pub phones: Option<Whom>,
    /// Its source.
    pub source: At<Source>,
}

/// An instruction in place of another one.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Instead {
    /// For which bird.
    pub when: Cond,
    /// Which instruction.
    pub by: InstructionAt,
}

/// Two answers that cannot both be true of one bird.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Exclusion {
    /// Its key.
    pub id: Id,
    /// One answer.
    pub one: Cond,
    /// The other, or what of her is not so.
    pub other: Cond,
    /// What to tell the person.
    pub say: String,
}

/// Something that has to be done by some hour.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct By {
    /// What.
    pub what: String,
    /// Hours after the injury.
    pub hours: u32,
}

/// Look again every so many minutes, until so many hours have gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Looks {
    /// Minutes from one look to the next.
    pub every_min: u32,
    /// Hours until the last.
    pub until_h: u32,
    /// Whether they are kept even if all seems well since: a decline may come late.
    #[serde(default)]
    pub late: bool,
}
