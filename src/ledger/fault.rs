//! What can go wrong with a ledger, and what to do next.

use super::Lacking;
use crate::finding::doubt::Doubted;
use rusqlite::{ErrorCode, ffi};
use std::path::PathBuf;

/// What stands behind a failure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cause {
    /// What the system said, in its own words.
    System(String),
    /// What no examination can have said.
    Doubted(Doubted),
    /// Another window has the ledger open.
    OpenElsewhere,
    /// A backup that does not hold what the ledger holds.
    BackupDiffers,
    /// The ledger was not opened.
    NotOpen,
}

impl Cause {
    /// What the system said.
    pub(super) fn said(error: &impl std::fmt::Display) -> Self {
        Self::System(error.to_string())
    }
}

/// Why the ledger could not do what was asked. What is told of it, and what to do next, stands in `content::kept`.
#[derive(Debug, thiserror::Error)]
#[error("{self:?}")]
pub enum LedgerError {
    /// The folder or file cannot be made or opened.
    Open {
        /// Where it was looked for.
        path: PathBuf,
        /// What stood in the way.
        cause: Cause,
    },
    /// A newer Coopside wrote the ledger.
    Newer {
        /// Where it stands.
        path: PathBuf,
    },
    /// An older Coopside wrote the ledger, and it can only be read here.
    Older {
        /// Where it stands.
        path: PathBuf,
    },
    /// `SQLite` is too old to be trusted with two windows.
    OldSqlite(&'static str),
    /// Another window has gone on with the same case.
    Clash,
    /// The disk is full.
    Full,
    /// Another program holds the file and does not let go.
    Held,
    /// The file is damaged, or is no ledger.
    Damaged {
        /// Where it stands.
        path: PathBuf,
        /// What was found.
        cause: Cause,
    },
    /// The ledger can be read and not written.
    ReadOnly,
    /// There is no such case.
    NoCase(String),
    /// A short name stands for several cases.
    SeveralCases {
        /// What was asked for.
        name: String,
        /// How many.
        count: usize,
    },
    /// The open file is no longer the one at its path: deleted, renamed, replaced or cut short.
    Gone {
        /// Where it stood.
        path: PathBuf,
    },
    /// A case lacks some of its events.
    NotWhole(Box<Lacking>),
    /// Something else went wrong with the disk.
    Disk(Cause),
    /// A stored event cannot be read.
    Unreadable {
        /// The case.
        case: String,
        /// Its place in the case.
        seq: u64,
        /// What is wrong.
        cause: Cause,
    },
}

/// Whether a place or a name was already taken, rather than some other rule of the table broken.
pub(super) fn is_taken(error: &rusqlite::Error) -> bool {
    let code = error.sqlite_error().map(|error| error.extended_code);
    matches!(code, Some(ffi::SQLITE_CONSTRAINT_PRIMARYKEY | ffi::SQLITE_CONSTRAINT_UNIQUE))
}

impl From<rusqlite::Error> for LedgerError {
    fn from(error: rusqlite::Error) -> Self {
        match error.sqlite_error_code() {
            Some(ErrorCode::DiskFull) => Self::Full,
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Held,
            Some(ErrorCode::ReadOnly) => Self::ReadOnly,
            Some(ErrorCode::ConstraintViolation) if is_taken(&error) => Self::Clash,
            _ => Self::Disk(Cause::said(&error)),
        }
    }
}
