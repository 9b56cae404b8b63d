//! What the screen holds of practice: the lessons, who takes them, the go that is on, and what came of those before.

use crate::finding::log::Stamped;
use crate::practice::{Debrief, Mark, Pair, Script, Trial};
use crate::protocol::question::Step;
use crate::protocol::table::At;
use chrono::TimeDelta;
use std::sync::Arc;

/// Practice, while it is on.
#[derive(Clone, Debug, Default)]
pub struct Practice {
    /// The lessons that ship, the easiest first; one of them may have been named.
    pub lessons: Vec<Arc<Script>>,
    /// Who practises; empty while nobody said.
    pub novice: String,
    /// Whether a mentor reads aloud and takes the answers back.
    pub aloud: bool,
    /// The go that is on.
    pub trial: Option<Trial>,
    /// The step the novice chose to look at.
    pub step: Option<At<Step>>,
    /// The last go, talked over.
    pub debrief: Option<Debrief>,
    /// The marks of all goes that were kept.
    pub marks: Vec<Mark>,
    /// The examination of a real bird by two people, while that is on.
    pub pair: Option<Pairing>,
}

/// Two people look at one bird, one after the other.
#[derive(Clone, Debug, Default)]
pub struct Pairing {
    /// What the first one said, once it is the second one's turn.
    pub first: Option<Vec<Stamped>>,
    /// How both compare, at the end.
    pub pair: Option<Pair>,
}

impl Practice {
    /// The go that is on and has not ended.
    pub fn on(&self) -> Option<&Trial> {
        self.trial.as_ref().filter(|trial| trial.ended.is_none())
    }

    /// By how much the clock runs ahead because time was skipped.
    pub fn skipped(&self) -> TimeDelta {
        self.trial.as_ref().map_or_else(TimeDelta::zero, |trial| trial.skipped)
    }
}
