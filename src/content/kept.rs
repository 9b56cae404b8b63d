//! What could not be kept, read or taken in, and what to do next.

use crate::finding::doubt::{Doubted, MOST_WOUNDS};
use crate::ledger::{CarryError, CarryFault, Cause, EVENTS_SCHEMA, Lacking, LedgerError};
use crate::phrase::{Phrase, Text, ledger as phrase};
use std::path::Path;

/// Why the ledger could not do what was asked.
pub fn fault(error: &LedgerError) -> Phrase {
    match error {
        LedgerError::Open { path, cause } => phrase::unopened(behind(cause), place(path)),
        LedgerError::Newer { path } => phrase::newer(place(path)),
        LedgerError::Older { path } => phrase::older(place(path)),
        LedgerError::OldSqlite(version) => phrase::old_sqlite(Text::typed(*version)),
        LedgerError::Clash => phrase::clash(),
        LedgerError::Full => phrase::full(),
        LedgerError::Held => phrase::held(),
        LedgerError::Damaged { path, cause } => phrase::damaged(behind(cause), place(path)),
        LedgerError::ReadOnly => phrase::read_only(),
        LedgerError::NoCase(name) => phrase::no_case(Text::typed(name)),
        LedgerError::SeveralCases { name, count } => phrase::several(Text::typed(name), *count),
        LedgerError::Gone { path } => phrase::gone(place(path)),
        LedgerError::NotWhole(lacking) => phrase::not_whole(named(lacking), lacking.found, lacking.expected),
        LedgerError::Disk(cause) => phrase::disk(behind(cause)),
        LedgerError::Unreadable { case, seq, cause } => {
            phrase::unreadable(Text::typed(case), Text::typed(seq.to_string()), behind(cause))
        }
    }
}

/// Why nothing was taken in, or carried out.
pub fn carried(error: &CarryError) -> Text {
    let number = |count: &u64| Text::typed(count.to_string());
    match error {
        CarryError::Line { line, what } => phrase::line(number(line), line_fault(what)).into(),
        CarryError::NotWhole { told, found } => phrase::file_not_whole(number(told), number(found)).into(),
        CarryError::Differs { line, case } => phrase::differs(number(line), Text::typed(case)).into(),
        CarryError::Io(error) => Text::typed(error.to_string()),
        CarryError::Ledger(error) => fault(error).into(),
    }
}

/// What stands behind a failure.
fn behind(cause: &Cause) -> Text {
    match cause {
        Cause::System(said) => Text::typed(said),
        Cause::Doubted(what) => doubted(*what).into(),
        Cause::OpenElsewhere => phrase::open_elsewhere().into(),
        Cause::BackupDiffers => phrase::backup_differs().into(),
        Cause::NotOpen => phrase::not_open().into(),
    }
}

/// Why something cannot have come from an examination.
fn doubted(what: Doubted) -> Phrase {
    let number = |number: &dyn ToString| Text::typed(number.to_string());
    match what {
        Doubted::NoMoment(at) => phrase::no_moment(number(&at)),
        Doubted::WoundNumber(wound) => phrase::wound_number(number(&wound), number(&MOST_WOUNDS)),
        Doubted::Control => phrase::control(),
        Doubted::Weight(grams) => phrase::weight(number(&grams)),
    }
}

/// What is wrong with a line of a file that was to be taken in.
fn line_fault(what: &CarryFault) -> Phrase {
    let schema = || Text::typed(EVENTS_SCHEMA);
    match what {
        CarryFault::Empty => phrase::line_empty(schema()),
        CarryFault::Schema(told) => phrase::line_schema(Text::typed(told), schema()),
        CarryFault::Newer(body) => phrase::line_newer(Text::typed(body.to_string())),
        CarryFault::Gap(case) => phrase::line_gap(Text::typed(case)),
        CarryFault::Wounds(case, wounds) => {
            let [wounds, most] = [*wounds, MOST_WOUNDS].map(|count| Text::typed(count.to_string()));
            phrase::line_wounds(Text::typed(case), wounds, most)
        }
        CarryFault::Name => phrase::line_name(),
        CarryFault::Doubted(what) => doubted(*what),
        CarryFault::TooLong => phrase::line_too_long(),
        CarryFault::NotText => phrase::line_not_text(),
        CarryFault::Unread(said, letter) => phrase::line_unread(Text::typed(said), Text::typed(letter.to_string())),
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
