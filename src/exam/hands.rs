//! How long the bird has been in the hand: held too long she overheats and tires, and can die of it.

use crate::finding::log::{Entry, Stamped};
use chrono::{DateTime, TimeDelta, Utc};

/// Where the bird is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hands {
    /// Not picked up yet.
    NotYet,
    /// In the hand since this moment.
    Held(DateTime<Utc>),
    /// Put down at this moment.
    Down(DateTime<Utc>),
}

impl Hands {
    /// How long she has been held by now; nothing when she is not. A clock set back counts as no time gone.
    pub fn held_for(self, now: DateTime<Utc>) -> Option<TimeDelta> {
        match self {
            Self::Held(since) => Some((now - since).max(TimeDelta::zero())),
            Self::NotYet | Self::Down(_) => None,
        }
    }
}

/// Where the bird is after everything in the log. Taking an answer back does not put a bird down.
pub fn hands(log: &[Stamped]) -> Hands {
    log.iter().fold(Hands::NotYet, |hands, Stamped { at, entry }| match (entry, hands) {
        (Entry::PickedUp, Hands::Held(since)) => Hands::Held(since),
        (Entry::PickedUp, _) => Hands::Held(*at),
        (Entry::PutDown, _) => Hands::Down(*at),
        (_, hands) => hands,
    })
}
