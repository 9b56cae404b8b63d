//! A rule, an action and what else the protocol advises, in checked form.

use super::cond::{Cond, QuestionAt};
use super::raw::{Advice, Air, By, Home, Looks, Part};
use super::scale::{Authority, Humane, Need, Severity, System};
use super::source::Strength;
use super::whom::Whom;
use crate::finding::Id;
use serde::{Deserialize, Serialize};

/// The position of an action in [`super::Protocol::actions`]; the order is the order of doing, life first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct ActionAt(pub u16);

/// The position of a sign to watch for in [`super::Protocol::watches`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct WatchAt(pub u16);

/// The position of a rule in [`super::Protocol::rules`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct RuleAt(pub u16);

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
    pub source: Id,
    /// How well the finding is known.
    pub strength: Strength,
    /// What the recommendation rests on.
    pub advice: Advice,
    /// The kind a figure is borrowed from, where it is not poultry.
    pub borrowed: Option<String>,
}

impl Rule {
    /// Whether its finding or its advice rests on a source.
    pub fn rests_on(&self, source: &str) -> bool {
        self.source == *source || matches!(&self.advice, Advice::Says(said) if said == source)
    }
}

/// Something a person does: a verb, a place and a means, so that two actions can be compared.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Action {
    /// Its key.
    pub id: Id,
    /// What is done: press, cover, warm.
    pub verb: String,
    /// Where: this wound, the whole bird.
    pub place: String,
    /// With what, where that matters.
    pub means: String,
    /// The line on screen, at most eight words.
    pub say: String,
    /// A sentence or two more; empty for what nobody advises.
    pub how: String,
    /// Why not and what instead, for what some rule forbids.
    pub forbidden: Option<Forbidden>,
    /// The state whose air it asks for.
    pub air: Option<Air>,
    /// Whether it comes before any phone call.
    pub at_once: bool,
    /// Whether it is done to one wound.
    pub wound: bool,
    /// In which part of the plan it stands.
    pub part: Part,
    /// What becomes of it where a vet will see her within hours.
    pub home: Home,
    /// What it stands in for, for the same wound, where it is done.
    pub replaces: Vec<ActionAt>,
    /// The action whose ways it is done by, where that is not its own.
    pub done_like: Option<ActionAt>,
    /// Its source.
    pub source: Id,
}

impl Action {
    /// The line on screen where it must not be done.
    pub fn never(&self) -> &str {
        self.forbidden.as_ref().and_then(|forbidden| forbidden.say.as_deref()).unwrap_or(&self.say)
    }
}

/// What is told of an action that must not be done.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Forbidden {
    /// The line on screen, where the action's own is worded as an instruction.
    pub say: Option<String>,
    /// Why not, in words a frightened person can read.
    pub why: String,
    /// What to do instead.
    pub instead: String,
    /// What ends it.
    pub until: Until,
}

/// What ends a ban. A clock never does: it can only be time to try the test again.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Until {
    /// Whether a vet's word ends it.
    pub vet: bool,
    /// What ends it without a vet.
    pub alone: End,
}

/// What ends a ban without a vet.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum End {
    /// A test is passed.
    Test {
        /// The answers with which it is passed.
        when: Cond,
        /// What to see, in words, and what then.
        say: String,
    },
    /// Nothing does, because of this.
    Lives {
        /// Why not.
        because: String,
    },
}

impl Until {
    /// An end that only a vet's word is.
    pub fn only_a_vet(because: &str) -> Self {
        Self { vet: true, alone: End::Lives { because: because.to_owned() } }
    }

    /// The end in words. Where no vet can be reached, nothing is said of one.
    pub fn say(&self, no_vet: bool) -> String {
        match (&self.alone, self.vet && !no_vet) {
            (End::Test { say, .. }, false) => format!("Until: {say}"),
            (End::Test { say, .. }, true) => format!("Until a vet says so. If none can be had: {say}"),
            (End::Lives { because }, false) => format!("It stays forbidden: {because}"),
            (End::Lives { because }, true) => format!("Until a vet says so. At home it stays forbidden: {because}"),
        }
    }
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
    pub source: Id,
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
    pub then: Option<Id>,
    /// The instruction in its place where the answer after it calls it up once more.
    pub again: Option<Id>,
    /// The question one key asks while it runs.
    pub beside: Option<Id>,
    /// Whether it is shown once for a bird, however many answers call it up.
    pub once: bool,
    /// Whom it says to phone, now or when the time is up.
    pub phones: Option<Whom>,
    /// Its source.
    pub source: Id,
}

/// Two answers that cannot both be true of one bird.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Exclusion {
    /// Its key.
    pub id: Id,
    /// One answer.
    pub one: Cond,
    /// The other.
    pub other: Cond,
    /// What to tell the person.
    pub say: String,
}
