//! What comes in from outside, and what the shell is asked to do.

use crate::content::sheet::Sheet;
use crate::days::due::Waits;
use crate::finding::log::Stamped;
use crate::ledger::{Case, CaseId, Covered, Filter, Setting};
use crate::phrase::Text;
use crate::practice::Mark;
use crate::session::change::Change;
use crate::view::keys::{Key, Untaken};
use chrono::{DateTime, TimeDelta, Utc};

/// What comes in from outside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Input {
    /// A key.
    Key(Key),
    /// A key was pressed that does not count for what is on screen.
    Untaken(Untaken),
    /// Pasted text.
    Paste(String),
    /// Time has gone by.
    Tick,
    /// The clock jumped, or the machine slept: what was counted meanwhile is not to be trusted.
    Jumped,
    /// The clock was set by so much, and no time has gone by for it.
    ClockSet(TimeDelta),
    /// One event is on disk.
    Kept(DateTime<Utc>),
    /// A setting was kept before, as it was written.
    Set(Setting, String),
    /// What was changed here of a setting is on disk: from now on what is kept holds.
    Changed(Change),
    /// The disk takes again what it refused.
    Recovered,
    /// A case was found that can be gone on with.
    Left(Case),
    /// The disk refuses.
    NotKept(Text),
    /// Another window went on with this bird, too; what it kept stands in this case, ours in one of its own.
    Parted(CaseId),
    /// The cases that were asked for, and how many there are in all.
    Listed(Vec<Covered>, usize),
    /// The case that was asked for.
    Opened(Case),
    /// The birds that are due a look now or soon.
    Waiting(Waits),
    /// What was asked for could not be had.
    Refused(Text),
}

/// What the shell has to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Effect {
    /// Put this on disk.
    Keep(Stamped),
    /// From here on, keep to this case, which has this many events.
    GoOnWith(CaseId, usize),
    /// From here on, keep to a case of its own, not begun yet.
    NewBird,
    /// Ask for the cases.
    List(Filter),
    /// Ask for one case.
    Open(CaseId),
    /// End the clock of another bird, the one that is up at this moment, in her own log.
    EndClock(CaseId, DateTime<Utc>),
    /// Put this on the window's title.
    Title(Text),
    /// Keep a change of a setting.
    Change(Change),
    /// Keep the mark of a practice go.
    KeepMark(Box<Mark>),
    /// Write the sheet she is handed over with, and say where.
    WriteSheet(Box<Sheet>),
    /// Ring the bell.
    Bell,
    /// Step aside until the shell brings us back.
    Suspend,
    /// Leave.
    Leave,
}
