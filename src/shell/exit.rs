//! How a run ends: the exit code, and one clear message on standard error.

use super::here::here;
use crate::content::kept::fault;
use crate::finding::doubt::unseen;
use crate::ledger::LedgerError;
use crate::phrase::Text;
use crate::words::{Words, english, say};
use std::io::{self, Write};
use std::process::ExitCode;

/// Why a run could not do what was asked, with the exit code that says so (after the BSD `sysexits` convention).
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// A protocol's claims do not hold, or were not decided: 1.
    #[error("{}", english(.0.clone()))]
    Refuted(Text),
    /// Wrong usage: 2.
    #[error("{}", english(.0.clone()))]
    Usage(Text),
    /// A file's content is wrong: 65.
    #[error("{}", english(.0.clone()))]
    Data(Text),
    /// A file cannot be read: 66.
    #[error("{}", english(.0.clone()))]
    NoInput(Text),
    /// The disk would not write, or something else failed: 74.
    #[error("{}", english(.0.clone()))]
    Failed(Text),
}

impl Refusal {
    const fn code(&self) -> u8 {
        match self {
            Self::Refuted(_) => 1,
            Self::Usage(_) => 2,
            Self::Data(_) => 65,
            Self::NoInput(_) => 66,
            Self::Failed(_) => 74,
        }
    }

    const fn text(&self) -> &Text {
        match self {
            Self::Refuted(text) | Self::Usage(text) | Self::Data(text) | Self::NoInput(text) | Self::Failed(text) => {
                text
            }
        }
    }
}

/// A failure as a text: what was refused, what the ledger or a file that was to be taken in answers, or what the system said.
pub fn told(error: &anyhow::Error) -> Text {
    if let Some(refusal) = error.downcast_ref::<Refusal>() {
        return refusal.text().clone();
    }
    match error.downcast_ref::<LedgerError>() {
        Some(error) => fault(error).into(),
        None => Text::typed(format!("{error:#}")),
    }
}

/// Reports a failure, in the words that were chosen, and gives the exit code. A reader that closed the pipe early is no failure.
pub fn code(done: anyhow::Result<ExitCode>, words: &Words) -> ExitCode {
    let error = match done {
        Ok(code) => return code,
        Err(error) => error,
    };
    let closed = |io: &io::Error| io.kind() == io::ErrorKind::BrokenPipe;
    if error.chain().any(|cause| cause.downcast_ref().is_some_and(closed)) {
        return ExitCode::SUCCESS;
    }
    // A closed standard error leaves nobody to tell.
    let refusal = error.downcast_ref::<Refusal>();
    let told = say(words, here(), &told(&error));
    let _ = writeln!(io::stderr().lock(), "coopside: {}", shown(&told));
    let refusal = refusal.map(Refusal::code);
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
