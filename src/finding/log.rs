//! What a person did during an examination, in the order they did it; findings are a fold over it.

use super::particular::Particular;
use super::{About, Findings, Id, Statement};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Where in the examination a question stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spot {
    /// The bird or a wound.
    pub about: About,
    /// The question.
    pub question: Id,
}

/// How a case ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// She recovered.
    Recovered,
    /// She died.
    Died,
    /// Her life was ended to spare her.
    HumaneEnd,
    /// Someone else has her now.
    MovedOn,
}

impl Outcome {
    /// Every outcome.
    pub const ALL: [Self; 4] = [Self::Recovered, Self::Died, Self::HumaneEnd, Self::MovedOn];

    /// Whether nothing more is to be done for her here: no vet is called any more, and no look is due.
    pub const fn is_over(self) -> bool {
        match self {
            Self::Recovered | Self::Died | Self::HumaneEnd => true,
            Self::MovedOn => false,
        }
    }
}

/// One thing a person did. Each is stored as it happens; none is ever changed afterwards.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Entry {
    /// Answered one question, or several that stood on one screen.
    Said(Vec<Statement>),
    /// Found one more wound.
    FoundWound,
    /// Finished looking for wounds.
    LookedOver,
    /// Left what stood on one screen open and went on.
    Skipped(Vec<Spot>),
    /// Turned to a question out of order, or (`None`) back to the first open one.
    Went(Option<Spot>),
    /// Opened a list of signs again.
    Opened(Id),
    /// The program turned to a question by itself, because a grave advice hangs on it.
    Turned(Spot),
    /// An instruction came on screen; its timer runs from here.
    Began(Id),
    /// The instruction was carried out, or put aside, and the examination went on.
    Ended(Id),
    /// Took the bird in the hand.
    PickedUp,
    /// Put the bird down to rest.
    PutDown,
    /// Started the clock of a step of the plan.
    Timed {
        /// The action of the protocol.
        action: Id,
        /// How long it takes. Seconds.
        seconds: u16,
    },
    /// Ended that clock, its time up or not.
    ClockEnded,
    /// Ticked a line of a card off as done, or took the tick away again.
    Ticked {
        /// The line, by its name on the cards.
        what: Id,
        /// Whether it is done.
        done: bool,
    },
    /// Gave the bird a name, or another one.
    Named(String),
    /// Began to look at her again, hours or days after: what is asked then, as it was worked out at that moment.
    LookBegan(Vec<Spot>),
    /// Finished that look.
    LookDone,
    /// Wrote down what a vet said.
    VetSaid(String),
    /// Wrote down what a vet will ask.
    Noted(Particular, String),
    /// Closed the case: how it ended, and what that proved right or wrong.
    Closed {
        /// How it ended.
        outcome: Outcome,
        /// What it proved right or wrong, in the person's own words; empty where nothing was said.
        proved: String,
    },
    /// Opened a closed or archived case again.
    Reopened,
    /// Put the case out of sight.
    Archived,
    /// Took back the last thing said. The entry itself stays: undoing is something a person did, too.
    TookBack,
}

/// An entry and when it was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamped {
    /// When. The order of entries never rests on it: clocks are set back.
    pub at: DateTime<Utc>,
    /// What was done.
    pub entry: Entry,
}

/// The entries that still stand after every "take back" has been carried out.
///
/// Taking back removes the last decision and what the program did on its account (an instruction it opened),
/// never the handling of the bird.
pub fn standing(log: &[Stamped]) -> Vec<&Stamped> {
    in_place(log).into_iter().map(|(_, stamped)| stamped).collect()
}

/// The same, each with its place in the log.
pub fn in_place(log: &[Stamped]) -> Vec<(usize, &Stamped)> {
    let mut standing: Vec<(usize, &Stamped)> = Vec::with_capacity(log.len());
    for (place, stamped) in log.iter().enumerate() {
        if stamped.entry != Entry::TookBack {
            standing.push((place, stamped));
        } else if let Some(last) = last_decision(&standing) {
            let handled = standing.split_off(last);
            standing.extend(handled.into_iter().filter(|(_, after)| after.entry.kind().is_lasting()));
        }
    }
    standing
}

/// The last decision that can be taken back: nothing from before the look that began last, for those answers were true then.
fn last_decision(standing: &[(usize, &Stamped)]) -> Option<usize> {
    let sitting = standing.iter().rposition(|(_, before)| matches!(before.entry, Entry::LookBegan(_))).unwrap_or(0);
    standing.iter().rposition(|(_, before)| before.entry.kind().is_decision()).filter(|last| *last >= sitting)
}

/// What stands ticked off on the cards, with when: since the last look began, for a new look asks for what is to be done then.
pub fn ticked(log: &[Stamped]) -> BTreeMap<Id, DateTime<Utc>> {
    let mut ticked = BTreeMap::new();
    for Stamped { at, entry } in standing(log) {
        match entry {
            Entry::LookBegan(_) => ticked.clear(),
            Entry::Ticked { what, done: true } => {
                ticked.insert(what.clone(), *at);
            }
            Entry::Ticked { what, done: false } => {
                ticked.remove(what);
            }
            // All else ticks nothing.
            _ => {}
        }
    }
    ticked
}

/// The findings that a list of standing entries amounts to.
pub fn findings(standing: &[&Stamped]) -> Findings {
    let mut findings = Findings::default();
    for Stamped { at, entry } in standing {
        match entry {
            Entry::Said(statements) => {
                for statement in statements {
                    findings.say(statement.clone(), *at);
                }
            }
            Entry::FoundWound => {
                findings.find_wound();
            }
            Entry::LookedOver => findings.look_over(),
            // All else is no finding, by its kind.
            _ => {}
        }
    }
    findings
}
