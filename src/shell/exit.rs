//! How a run ends: the exit code, and one clear message on standard error.

use crate::finding::doubt::unseen;
use crate::ledger::LedgerError;
use std::io::{self, Write};
use std::process::ExitCode;

/// Why a run could not do what was asked, with the exit code that says so (after the BSD `sysexits` convention).
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// A protocol's claims do not hold, or were not decided: 1.
    #[error("{0}")]
    Refuted(String),
    /// Wrong usage: 2.
    #[error("{0}")]
    Usage(String),
    /// A file's content is wrong: 65.
    #[error("{0}")]
    Data(String),
    /// A file cannot be read: 66.
    #[error("{0}")]
    NoInput(String),
}

impl Refusal {
    const fn code(&self) -> u8 {
        match self {
            Self::Refuted(_) => 1,
            Self::Usage(_) => 2,
            Self::Data(_) => 65,
            Self::NoInput(_) => 66,
        }
    }
}

/// Reports a failure and gives the exit code. A reader that closed the pipe early is no failure.
pub fn code(done: anyhow::Result<ExitCode>) -> ExitCode {
    let error = match done {
        Ok(code) => return code,
        Err(error) => error,
    };
    let closed = |io: &io::Error| io.kind() == io::ErrorKind::BrokenPipe;
    if error.chain().any(|cause| cause.downcast_ref().is_some_and(closed)) {
        return ExitCode::SUCCESS;
    }
    // A closed standard error leaves nobody to tell.
    let _ = writeln!(io::stderr().lock(), "coopside: {}", shown(&format!("{error:#}")));
    let refusal = error.downcast_ref::<Refusal>().map(Refusal::code);
    ExitCode::from(refusal.or_else(|| error.downcast_ref().map(of_ledger)).unwrap_or(74))
}

/// A message as a terminal may be given it: what a file says is quoted in it, and must not work the terminal.
fn shown(message: &str) -> String {
    let letter = |c: char| if unseen(c) && c != '\n' { c.escape_default().to_string() } else { c.to_string() };
    message.chars().map(letter).collect()
}

/// A name that stands for no case is wrong usage; a file that is no ledger of ours has wrong content; the rest is the disk.
const fn of_ledger(error: &LedgerError) -> u8 {
    match error {
        LedgerError::NoCase(_) | LedgerError::SeveralCases { .. } => 2,
        LedgerError::Newer { .. } | LedgerError::Older { .. } | LedgerError::Damaged { .. } => 65,
        LedgerError::Open { .. }
        | LedgerError::OldSqlite(_)
        | LedgerError::Clash
        | LedgerError::Full
        | LedgerError::Held
        | LedgerError::ReadOnly
        | LedgerError::Disk(_)
        | LedgerError::Gone { .. }
        | LedgerError::NotWhole(_)
        | LedgerError::Unreadable { .. } => 74,
    }
}
