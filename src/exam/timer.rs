//! The clock of one step: what is done by the clock, such as pressing, ends when the clock says so and not by feeling.

use super::asks_after;
use crate::finding::Id;
use crate::finding::log::{Entry, Spot, Stamped};
use crate::protocol::Protocol;
use crate::protocol::rule::InstructionAt;
use chrono::{DateTime, TimeDelta, Utc};

/// A step that is being timed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timer {
    /// The action of the protocol.
    pub action: Id,
    /// How long it takes. Seconds.
    pub seconds: u16,
    /// When its time is up.
    pub ends_at: DateTime<Utc>,
}

impl Timer {
    /// The time that is left; below zero once it is up. Where the clock was set back, no more than the whole of it.
    pub fn left(&self, now: DateTime<Utc>) -> TimeDelta {
        (self.ends_at - now).min(TimeDelta::seconds(i64::from(self.seconds)))
    }
}

/// The step that is being timed after everything in the log. It stands, its time up or not, until someone ends it.
pub fn timer(log: &[Stamped]) -> Option<Timer> {
    log.iter().fold(None, |running, Stamped { at, entry }| match entry {
        Entry::Timed { action, seconds } => {
            let ends_at = *at + TimeDelta::seconds(i64::from(*seconds));
            Some(Timer { action: action.clone(), seconds: *seconds, ends_at })
        }
        Entry::ClockEnded => None,
        _ => running,
    })
}

/// What is asked once the clock that runs beside the check is over, and the instruction it was begun by: before that nobody can tell
/// what has come of it.
pub fn asks_when_over(protocol: &Protocol, log: &[Stamped]) -> Option<(InstructionAt, Spot)> {
    let timer = timer(log)?;
    let instructions = log.iter().rev().filter_map(|stamped| match &stamped.entry {
        Entry::Began(id) => protocol.instructions.at(id.as_str()),
        _ => None,
    });
    let goes_by_it = |act: &_| protocol.action(*act).id == timer.action;
    let mut of_act = instructions.filter(|at| protocol.instruction(*at).acts.iter().any(goes_by_it));
    let last = of_act.next()?;
    Some((last, asks_after(protocol, log, last)?))
}
