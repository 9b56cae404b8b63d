//! What comes in from outside, and what the shell is asked to do.

use crate::finding::Id;
use crate::finding::log::Stamped;
use crate::ledger::{Case, CaseId};
use crate::screen::keys::Key;
use chrono::{DateTime, Utc};

/// What comes in from outside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Input {
    /// A key.
    Key(Key),
    /// Pasted text.
    Paste(String),
    /// The screen has this many columns and rows now.
    Size(u16, u16),
    /// Time has gone by.
    Tick,
    /// One event is on disk.
    Kept(DateTime<Utc>),
    /// A country was set before.
    Country(Id),
    /// What was in the house before, as it was written.
    Cupboard(String),
    /// The disk takes again what it refused.
    Recovered,
    /// A case was found that can be gone on with.
    Left(Case),
    /// The disk refuses.
    NotKept(String),
    /// Another window went on with this bird, too.
    Parted,
}

/// What the shell has to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Effect {
    /// Put this on disk.
    Keep(Stamped),
    /// From here on, keep to this case, which has this many events.
    GoOnWith(CaseId, usize),
    /// Keep the country that was chosen.
    SetCountry(Id),
    /// Keep what is in the house.
    SetCupboard(String),
    /// Ring the bell.
    Bell,
    /// Step aside until the shell brings us back.
    Suspend,
    /// Leave.
    Leave,
}
