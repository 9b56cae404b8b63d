//! What can go wrong with a ledger, and what to do next.

use super::Lacking;
use rusqlite::{ErrorCode, ffi};
use std::path::PathBuf;

/// Why the ledger could not do what was asked; each says what to do next.
#[derive(Debug, thiserror::Error)]
pub enum LedgerError {
    /// The folder or file cannot be made or opened.
    #[error(
        "the ledger cannot be opened ({cause}); let its folder be written, or give another place with --data ({path})"
    )]
    Open {
        /// Where it was looked for.
        path: PathBuf,
        /// What the system said.
        cause: String,
    },
    /// A newer Coopside wrote the ledger.
    #[error("a newer Coopside wrote this ledger; use that one, or give another place with --data ({path})")]
    Newer {
        /// Where it stands.
        path: PathBuf,
    },
    /// An older Coopside wrote the ledger, and it can only be read here.
    #[error("an older Coopside wrote this ledger; start `coopside` once where it can be written ({path})")]
    Older {
        /// Where it stands.
        path: PathBuf,
    },
    /// `SQLite` is too old to be trusted with two windows.
    #[error("SQLite {0} can lose data with two windows open; 3.51.3 or newer is needed")]
    OldSqlite(&'static str),
    /// Another window has gone on with the same case.
    #[error("another window has gone on with this bird; both are kept, open her again to see what it wrote")]
    Clash,
    /// The disk is full.
    #[error("the disk is full; free some room, it will be tried again")]
    Full,
    /// Another program holds the file and does not let go.
    #[error("another program holds the ledger; close it, or try again in a moment; nothing was changed")]
    Held,
    /// The file is damaged, or is no ledger.
    #[error(
        "the ledger is damaged, or is none ({cause}); it is left as it is; `coopside restore` brings back the newest good backup ({path})"
    )]
    Damaged {
        /// Where it stands.
        path: PathBuf,
        /// What was found.
        cause: String,
    },
    /// The ledger can be read and not written.
    #[error(
        "the ledger can only be read here; nothing new can be kept; make its folder writable, or give another place with --data"
    )]
    ReadOnly,
    /// There is no such case.
    #[error("no case `{0}`; `coopside cases` lists them all")]
    NoCase(String),
    /// A short name stands for several cases.
    #[error("`{name}` stands for {count} cases; give more of the name, as `coopside cases` shows it")]
    SeveralCases {
        /// What was asked for.
        name: String,
        /// How many.
        count: usize,
    },
    /// The open file is no longer the one at its path: deleted, renamed, replaced or cut short.
    #[error(
        "the ledger was deleted, moved or cut short while it was open ({path}); put it back, or let its folder be written: what was said here is then written there again; `coopside restore` brings back a backup of the rest"
    )]
    Gone {
        /// Where it stood.
        path: PathBuf,
    },
    /// A case lacks some of its events.
    #[error(
        "{} is not whole: {} of its {} entries can be found; none is shown, for what is missing may be the worst; nothing was changed. `coopside restore` brings back the newest backup; `coopside export -o FILE` writes what can still be read", named(.0), .0.found, .0.expected
    )]
    NotWhole(Box<Lacking>),
    /// Something else went wrong with the disk.
    #[error("the disk answers: {0}; it will be tried again")]
    Disk(String),
    /// A stored event cannot be read.
    #[error(
        "case {case} cannot be read at event {seq} ({cause}); the others can, and nothing was changed; a backup from before may hold it whole: `coopside restore`"
    )]
    Unreadable {
        /// The case.
        case: String,
        /// Its place in the case.
        seq: u64,
        /// What is wrong.
        cause: String,
    },
}

/// A case by its short name, and the bird's where she has one.
fn named(lacking: &Lacking) -> String {
    match lacking.bird.as_str() {
        "" => format!("case {}", lacking.case.short()),
        bird => format!("case {} ({bird})", lacking.case.short()),
    }
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
            _ => Self::Disk(error.to_string()),
        }
    }
}
