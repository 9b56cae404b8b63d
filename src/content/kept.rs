//! What could not be kept, read or taken in, and what to do next.

use crate::ledger::{CarryError, Lacking, LedgerError};
use crate::phrase::{Phrase, Text, ledger as phrase};
use std::path::Path;

/// Why the ledger could not do what was asked.
pub fn fault(error: &LedgerError) -> Phrase {
    match error {
        LedgerError::Open { path, cause } => phrase::unopened(Text::typed(cause), place(path)),
        LedgerError::Newer { path } => phrase::newer(place(path)),
        LedgerError::Older { path } => phrase::older(place(path)),
        LedgerError::OldSqlite(version) => phrase::old_sqlite(Text::typed(*version)),
        LedgerError::Clash => phrase::clash(),
        LedgerError::Full => phrase::full(),
        LedgerError::Held => phrase::held(),
        LedgerError::Damaged { path, cause } => phrase::damaged(Text::typed(cause), place(path)),
        LedgerError::ReadOnly => phrase::read_only(),
        LedgerError::NoCase(name) => phrase::no_case(Text::typed(name)),
        LedgerError::SeveralCases { name, count } => phrase::several(Text::typed(name), *count),
        LedgerError::Gone { path } => phrase::gone(place(path)),
        LedgerError::NotWhole(lacking) => phrase::not_whole(named(lacking), lacking.found, lacking.expected),
        LedgerError::Disk(answer) => phrase::disk(Text::typed(answer)),
        LedgerError::Unreadable { case, seq, cause } => {
            phrase::unreadable(Text::typed(case), Text::typed(seq.to_string()), Text::typed(cause))
        }
    }
}

/// Why nothing was taken in, or carried out.
pub fn carried(error: &CarryError) -> Text {
    let number = |count: &u64| Text::typed(count.to_string());
    match error {
        CarryError::Line { line, what } => phrase::line(number(line), Text::typed(what)).into(),
        CarryError::NotWhole { told, found } => phrase::file_not_whole(number(told), number(found)).into(),
        CarryError::Differs { line, case } => phrase::differs(number(line), Text::typed(case)).into(),
        CarryError::Io(error) => Text::typed(error.to_string()),
        CarryError::Ledger(error) => fault(error).into(),
    }
}

/// A case by its short name, and the bird's where she has one.
fn named(lacking: &Lacking) -> Text {
    let case = Text::typed(lacking.case.short());
    if lacking.bird.is_empty() { case } else { phrase::case_of(case, Text::typed(&lacking.bird)).into() }
}

fn place(path: &Path) -> Text {
    Text::typed(path.display().to_string())
}
