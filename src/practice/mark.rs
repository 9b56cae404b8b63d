//! The mark of one go: what was given and what was right, kept as lines of JSON under the schema `coopside.marks/1`.

use super::debrief::Debrief;
use super::trial::Trial;
use crate::finding::Id;
use crate::protocol::Protocol;
use crate::protocol::fault::{Fault, Faults};
use crate::protocol::scale::{Authority, Humane, Need};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

/// The schema every line names.
pub const SCHEMA: &str = "coopside.marks/1";

/// A rung on each of the three scales.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rungs3 {
    /// How soon.
    pub need: Need,
    /// Whether a humane end has come into question.
    pub humane: Humane,
    /// Whether to call the authority.
    pub authority: Authority,
}

impl Rungs3 {
    /// Whether she cannot wait: a vet at once, or a humane end advised unless one can act in time.
    pub fn is_urgent(self) -> bool {
        self.need == Need::Now || self.humane >= Humane::AdvisedUnlessVet
    }
}

/// The mark of one go.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mark {
    /// The schema.
    pub schema: String,
    /// When the verdict was given.
    pub at: DateTime<Utc>,
    /// Who gave it.
    pub novice: String,
    /// The scripted bird.
    pub bird: String,
    /// The version of the protocol.
    pub protocol: String,
    /// The protocol's fingerprint.
    pub fingerprint: String,
    /// What was given.
    pub given: Rungs3,
    /// What was right.
    pub reference: Rungs3,
    /// Signs that were there and were not found, or taken for less.
    #[serde(default)]
    pub missed: Vec<Id>,
    /// What was done that harms.
    #[serde(default)]
    pub harm: Vec<Id>,
    /// What had to be done at once and was not, or came late.
    #[serde(default)]
    pub late: Vec<Id>,
    /// The longest she was held at one stretch. Seconds.
    #[serde(default)]
    pub held_s: i64,
}

impl Mark {
    /// The mark of a go that has been talked over.
    pub fn of(protocol: &Protocol, trial: &Trial, debrief: &Debrief) -> Self {
        let question = |asked: crate::protocol::question::Asked| protocol.ask(asked.question).id.clone();
        let action = |at| protocol.action(at).id.clone();
        Self {
            schema: SCHEMA.into(),
            at: debrief.at,
            novice: trial.novice.clone(),
            bird: trial.script.name.clone(),
            protocol: protocol.version.clone(),
            fingerprint: protocol.fingerprint.clone(),
            given: debrief.given,
            reference: debrief.right,
            missed: debrief.missed().map(|reading| question(reading.asked)).collect(),
            harm: debrief.harm.iter().map(|at| action(*at)).collect(),
            late: debrief.late.iter().map(|late| action(late.action)).collect(),
            held_s: debrief.held.num_seconds(),
        }
    }

    /// Whether nothing is left to better.
    pub fn is_clean(&self) -> bool {
        self.given == self.reference && self.missed.is_empty() && self.harm.is_empty() && self.late.is_empty()
    }

    /// How well it went, from 0 to 5, for the schedule: under 3 it is practised again tomorrow. The grading is ours.
    pub fn quality(&self) -> u8 {
        let (given, right) = (self.given, self.reference);
        let too_low = given.need < right.need || given.humane < right.humane || given.authority < right.authority;
        match (self.harm.is_empty(), too_low, given == right, self.is_clean()) {
            (false, ..) => 0,
            (true, true, ..) => 1,
            (true, false, false, _) => 2,
            (true, false, true, false) => 4,
            (true, false, true, true) => 5,
        }
    }
}

/// Reads marks, one a line.
///
/// # Errors
/// Every line that cannot be read, at once.
pub fn marks(file: &str, text: &str) -> Result<Vec<Mark>, Faults> {
    let (mut marks, mut faults) = (Vec::new(), Vec::new());
    for (line, text) in (1..).zip(text.lines()).filter(|(_, text)| !text.trim().is_empty()) {
        let mut fault = |what: String| {
            faults.push(Fault { file: file.into(), line, item: String::new(), what, nearest: None });
        };
        match serde_json::from_str::<Mark>(text) {
            Ok(mark) if mark.schema == SCHEMA => marks.push(mark),
            Ok(mark) => fault(format!("this line follows `{}`; this program reads `{SCHEMA}`", mark.schema)),
            Err(error) => fault(format!("this is no mark of a go: {error}")),
        }
    }
    if faults.is_empty() { Ok(marks) } else { Err(Faults(faults)) }
}
