//! An action in checked form: what is done, what it waits for, what ends it, and what is told where it is forbidden.

use super::cond::Cond;
use super::raw::{Air, Harm, Home, InDoubt, Part, Pressing, Stance};
use super::source::Source;
use super::table::At;
use crate::finding::Id;
use serde::{Deserialize, Serialize};

/// The position of an action in [`super::Protocol::actions`]; the order is the order of doing, life first.
pub type ActionAt = At<Action>;

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
    /// The line on screen, at most eight words; true of every bird of which nothing more is known.
    pub say: String,
    /// A sentence or two more; empty for what nobody advises.
    pub how: String,
    /// Its lines where more is known of her; the first that fits stands.
    pub fits: Vec<Fit>,
    /// Whether it presses on her.
    pub presses: bool,
    /// What it waits for.
    pub opens: Option<Seen>,
    /// What is done for her as long as it waits; empty where nothing is.
    pub meanwhile: String,
    /// How one sees that it worked.
    pub worked: Option<Seen>,
    /// What ends it, where it is a state that lasts.
    pub ends: Option<Until>,
    /// What to do where it cannot be done; empty where it always can.
    pub undoable: String,
    /// How soon it kills or maims if it is left out; nothing for what nobody advises.
    pub left_out: Option<Harm>,
    /// The actions it comes before.
    pub before: Vec<ActionAt>,
    /// What state it keeps her in.
    pub keeps: Vec<Stance>,
    /// Why not and what instead, for what some rule forbids.
    pub forbidden: Option<Forbidden>,
    /// The state whose air it asks for.
    pub air: Option<Air>,
    /// Whether it comes before any phone call.
    pub at_once: bool,
    /// What becomes of it in doubt: what does nothing to her is advised then, too.
    pub in_doubt: InDoubt,
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
    pub source: At<Source>,
}

impl Action {
    /// The line on screen where it must not be done.
    pub fn never(&self) -> &str {
        self.forbidden.as_ref().and_then(|forbidden| forbidden.say.as_deref()).unwrap_or(&self.say)
    }
}

/// Other lines for a bird or a wound of which something is known beyond doubt.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Fit {
    /// What is known.
    pub when: Cond,
    /// In place of the action's own line.
    pub say: String,
    /// In place of how it is done; empty where that holds all the same.
    pub how: String,
    /// How hard one presses then.
    pub pressing: Option<Pressing>,
    /// In place of the state the action keeps her in.
    pub keeps: Option<Vec<Stance>>,
    /// Its own source, where it has one.
    pub source: Option<At<Source>>,
}

/// What a line of a plan asks of the state she is in.
#[derive(Clone, Copy, Debug)]
pub struct Asks<'a> {
    /// The state whose air it asks for.
    pub air: Option<Air>,
    /// What it brings her into or keeps her in.
    pub keeps: &'a [Stance],
}

impl Asks<'_> {
    /// Why two lines cannot both be followed, in words that go on after their names; nothing where they can.
    pub fn contradicts(self, other: Asks) -> Option<&'static str> {
        if self.air.zip(other.air).is_some_and(|(one, other)| one != other) {
            Some("ask for air of another warmth")
        } else if self.keeps.iter().any(|one| other.keeps.iter().any(|two| one.contradicts(*two))) {
            Some("bring her into states that contradict each other")
        } else {
            None
        }
    }
}

/// What is to be seen: answers, and the words for them.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Seen {
    /// The answers.
    pub when: Cond,
    /// What to see, in words.
    pub say: String,
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
    /// How soon it kills or maims if it is done all the same.
    pub broken: Harm,
    /// What no other line may then bring her into.
    pub bars: Vec<Stance>,
    /// Another reason and way out where more is known of her; the first that fits stands.
    pub fits: Vec<BanFit>,
}

/// What is told of a ban on a bird or a wound of which something is known beyond doubt.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct BanFit {
    /// What is known.
    pub when: Cond,
    /// Why not.
    pub why: String,
    /// What to do instead.
    pub instead: String,
    /// What ends it then, in place of the ban's own end.
    pub until: Option<Until>,
}

/// What ends a ban, or a state that lasts. A clock never ends a ban: it can only be time to try the test again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Until {
    /// Whether a vet's word ends it.
    pub vet: bool,
    /// What ends it without a vet.
    pub alone: End,
}

/// What ends something without a vet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
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

    /// The end of a ban in words. Where no vet can be reached, nothing is said of one.
    pub fn say(&self, no_vet: bool) -> String {
        match (&self.alone, self.vet && !no_vet) {
            (End::Test { say, .. }, false) => format!("Until: {say}"),
            (End::Test { say, .. }, true) => format!("Until a vet says so. If none can be had: {say}"),
            (End::Lives { because }, false) => format!("It stays forbidden: {because}"),
            (End::Lives { because }, true) => format!("Until a vet says so. At home it stays forbidden: {because}"),
        }
    }

    /// The end of what is done for her, in words.
    pub fn say_of_act(&self, no_vet: bool) -> String {
        match (&self.alone, self.vet && !no_vet) {
            (End::Test { say, .. }, false) => format!("Go on until: {say}"),
            (End::Test { say, .. }, true) => format!("Go on until a vet says otherwise. If none can be had: {say}"),
            (End::Lives { because }, false) => format!("It stays so: {because}"),
            (End::Lives { because }, true) => {
                format!("Go on until a vet says otherwise. At home it stays so: {because}")
            }
        }
    }
}
