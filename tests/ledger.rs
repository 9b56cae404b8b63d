//! The ledger: what is kept stays kept, two windows never overwrite each other, and trouble has a calm sentence.

#![expect(clippy::panic, reason = "a failing test panics")]

use chrono::{DateTime, TimeDelta, Utc};
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{CaseId, Event, EventId, Ledger, LedgerError, Mark};
use rusqlite::Connection;
use std::path::Path;
use std::{fs, thread};
use tempfile::TempDir;

fn folder() -> TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

fn open(folder: &Path) -> Ledger {
    Ledger::open(folder).unwrap_or_else(|error| panic!("{error}"))
}

fn mark() -> Mark {
    Mark { version: "0".into(), fingerprint: "f".into() }
}

fn event(case: &CaseId, seq: u64) -> Event {
    let statement =
        Statement { about: About::Wound(1), question: "size".into(), answer: Answer::Choice("small".into()) };
    let at: DateTime<Utc> = DateTime::UNIX_EPOCH + TimeDelta::milliseconds(1_700_000_000_123);
    Event {
        id: EventId::new(),
        case: case.clone(),
        seq,
        stamped: Stamped { at, entry: Entry::Said(vec![statement]) },
        zone_min: 60,
    }
}

fn append(ledger: &mut Ledger, event: &Event) {
    ledger.append(event, &mark()).unwrap_or_else(|error| panic!("{error}"));
}

#[test]
fn what_was_kept_is_read_back_exactly() {
    let folder = folder();
    let case = CaseId::new();
    let mut ledger = open(folder.path());
    append(&mut ledger, &event(&case, 0));
    let back = Event { stamped: Stamped { at: Utc::now(), entry: Entry::TookBack }, ..event(&case, 1) };
    append(&mut ledger, &back);
    drop(ledger);
    let read = open(folder.path()).latest().unwrap_or_else(|error| panic!("{error}"));
    let log = read.map(|case| case.log);
    assert_eq!(log, Some(vec![event(&case, 0).stamped, back.stamped]));
}

#[test]
fn the_case_written_last_is_the_one_offered() {
    let folder = folder();
    let mut ledger = open(folder.path());
    let (one, other) = (CaseId::new(), CaseId::new());
    append(&mut ledger, &event(&one, 0));
    append(&mut ledger, &event(&other, 0));
    append(&mut ledger, &event(&one, 1));
    let latest = ledger.latest().unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(latest.map(|case| (case.id, case.log.len())), Some((one, 2)));
}

#[test]
fn a_new_ledger_holds_no_case() {
    let folder = folder();
    assert!(matches!(open(&folder.path().join("new").join("place")).latest(), Ok(None)));
}

#[test]
fn two_windows_on_one_case_clash_and_overwrite_nothing() {
    let folder = folder();
    let case = CaseId::new();
    let (mut one, mut other) = (open(folder.path()), open(folder.path()));
    append(&mut one, &event(&case, 0));
    let second = Event { stamped: Stamped { at: Utc::now(), entry: Entry::LookedOver }, ..event(&case, 0) };
    let clash = other.append(&second, &mark());
    assert!(matches!(clash, Err(LedgerError::Clash)), "{clash:?}");
    let log = one.load(case).map(|case| case.log);
    assert!(log.is_ok_and(|log| log.len() == 1 && log.first().map(|s| &s.entry) != Some(&Entry::LookedOver)));
}

#[test]
fn an_event_kept_twice_is_kept_once() {
    let folder = folder();
    let mut ledger = open(folder.path());
    let event = event(&CaseId::new(), 0);
    append(&mut ledger, &event);
    append(&mut ledger, &event);
    assert!(ledger.load(event.case).is_ok_and(|case| case.log.len() == 1));
}

#[test]
fn a_case_that_two_windows_went_on_with_becomes_two_and_loses_nothing() {
    let folder = folder();
    let case = CaseId::new();
    let mut ledger = open(folder.path());
    for seq in 0..3 {
        append(&mut ledger, &event(&case, seq));
    }
    let own = ledger.fork(&case, 2).unwrap_or_else(|error| panic!("{error}"));
    append(&mut ledger, &event(&own, 2));
    for (case, count) in [(case, 3), (own, 3)] {
        assert!(ledger.load(case).is_ok_and(|case| case.log.len() == count));
    }
}

#[test]
fn many_windows_make_a_new_ledger_at_once_and_lose_nothing() {
    let folder = folder();
    let writers: Vec<_> = (0..4)
        .map(|_| {
            let place = folder.path().to_owned();
            thread::spawn(move || {
                let mut ledger = open(&place);
                let case = CaseId::new();
                for seq in 0..25 {
                    append(&mut ledger, &event(&case, seq));
                }
                case
            })
        })
        .collect();
    let ledger = open(folder.path());
    for writer in writers {
        let case = writer.join().unwrap_or_else(|_| panic!("a writer failed"));
        assert!(ledger.load(case).is_ok_and(|case| case.log.len() == 25));
    }
}

#[test]
fn events_can_be_neither_changed_nor_removed() {
    let folder = folder();
    append(&mut open(folder.path()), &event(&CaseId::new(), 0));
    let raw = Connection::open(folder.path().join("coopside.sqlite")).unwrap_or_else(|error| panic!("{error}"));
    for sql in ["UPDATE event SET body = '{}'", "DELETE FROM event"] {
        let error = raw.execute(sql, []).err().map(|error| error.to_string()).unwrap_or_default();
        assert!(error.contains("never"), "{sql}: {error}");
    }
}

#[test]
fn every_commit_reaches_the_disk() {
    let folder = folder();
    append(&mut open(folder.path()), &event(&CaseId::new(), 0));
    let raw = Connection::open(folder.path().join("coopside.sqlite")).unwrap_or_else(|error| panic!("{error}"));
    let mode: String = raw.pragma_query_value(None, "journal_mode", |row| row.get(0)).unwrap_or_default();
    assert_eq!(mode, "wal");
    // Bundled SQLite, with the write-ahead-log corruption of 3.7.0 to 3.51.2 mended (SQLite release notes, 3.51.3).
    assert!(rusqlite::version_number() >= 3_051_003, "{}", rusqlite::version());
}

#[test]
fn a_full_disk_is_told_and_what_was_kept_stays() {
    let folder = folder();
    let case = CaseId::new();
    let mut ledger = open(folder.path());
    append(&mut ledger, &event(&case, 0));
    let raw = Connection::open(folder.path().join("coopside.sqlite")).unwrap_or_else(|error| panic!("{error}"));
    let pages: i64 = raw.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap_or(1);
    drop(raw);
    ledger.limit_pages(pages).unwrap_or_else(|error| panic!("{error}"));
    let refused = (1..2000).find_map(|seq| ledger.append(&event(&case, seq), &mark()).err().map(|error| (seq, error)));
    let Some((seq, error)) = refused else { panic!("the disk never filled") };
    assert!(matches!(error, LedgerError::Full), "{error}");
    assert!(error.to_string().contains("tried again"));
    let kept = open(folder.path()).load(case).map(|case| case.log.len() as u64);
    assert_eq!(kept.ok(), Some(seq));
}

#[test]
fn a_newer_ledger_is_left_as_it_is() {
    let folder = folder();
    drop(open(folder.path()));
    let path = folder.path().join("coopside.sqlite");
    let raw = Connection::open(&path).unwrap_or_else(|error| panic!("{error}"));
    raw.pragma_update(None, "user_version", 99).unwrap_or_else(|error| panic!("{error}"));
    drop(raw);
    let before = fs::read(&path).unwrap_or_default();
    let refused = Ledger::open(folder.path());
    assert!(matches!(refused, Err(LedgerError::Newer { .. })));
    assert_eq!(fs::read(&path).unwrap_or_default(), before);
}

#[test]
fn a_place_that_cannot_be_written_is_told_with_what_to_do() {
    let folder = folder();
    let file = folder.path().join("file");
    fs::write(&file, "in the way").unwrap_or_else(|error| panic!("{error}"));
    let told = Ledger::open(&file.join("inside")).err().map(|error| error.to_string()).unwrap_or_default();
    assert!(told.contains("cannot be opened") && told.contains("--data"), "{told}");
}

#[test]
fn a_ledger_of_the_first_version_is_brought_up_and_loses_nothing() {
    let folder = folder();
    let case = CaseId::new();
    append(&mut open(folder.path()), &event(&case, 0));
    let path = folder.path().join("coopside.sqlite");
    let raw = Connection::open(&path).unwrap_or_else(|error| panic!("{error}"));
    raw.execute_batch("DROP TABLE setting; PRAGMA user_version = 1;").unwrap_or_else(|error| panic!("{error}"));
    drop(raw);
    let mut ledger = open(folder.path());
    assert_eq!(ledger.country().ok(), Some(None));
    for id in ["eu", "uk"] {
        ledger.set_country(&id.into()).unwrap_or_else(|error| panic!("{error}"));
    }
    assert_eq!(open(folder.path()).country().ok().flatten(), Some("uk".into()));
    assert_eq!(ledger.load(case).map(|case| case.log.len()).ok(), Some(1));
}
