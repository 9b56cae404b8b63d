//! The ledger: what is kept stays kept, two windows never overwrite each other, and trouble has a calm sentence.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use chrono::{DateTime, TimeDelta, Utc};
use coopside::finding::log::{Entry, Outcome, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{
    self, BACKUPS, CaseId, Clock, Cover, Event, EventId, Filter, Ledger, LedgerError, Mark, Setting, State,
};
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
    ledger.append(event, &mark(), &Cover::default()).unwrap_or_else(|error| panic!("{error}"));
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
    let log = read.map(|events| events.into_iter().map(|kept| kept.event.stamped).collect::<Vec<_>>());
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
    assert_eq!(latest.map(|events| (events[0].event.case.clone(), events.len())), Some((one, 2)));
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
    let clash = other.append(&second, &mark(), &Cover::default());
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
    let refused = (1..2000)
        .find_map(|seq| ledger.append(&event(&case, seq), &mark(), &Cover::default()).err().map(|error| (seq, error)));
    let Some((seq, error)) = refused else { panic!("the disk never filled") };
    assert!(matches!(error, LedgerError::Full), "{error}");
    assert!(crate::fault(&error).contains("tried again"));
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
    let told = Ledger::open(&file.join("inside")).err().map(|error| crate::fault(&error)).unwrap_or_default();
    assert!(told.contains("cannot be opened") && told.contains("--data"), "{told}");
}

#[test]
fn a_ledger_of_the_first_version_is_brought_up_and_loses_nothing() {
    let folder = folder();
    let case = CaseId::new();
    append(&mut open(folder.path()), &event(&case, 0));
    let path = folder.path().join("coopside.sqlite");
    let raw = Connection::open(&path).unwrap_or_else(|error| panic!("{error}"));
    raw.execute_batch("DROP TABLE cover; DROP TABLE setting; PRAGMA user_version = 1;")
        .unwrap_or_else(|error| panic!("{error}"));
    drop(raw);
    let mut ledger = open(folder.path());
    assert_eq!(ledger.setting(Setting::Country).ok(), Some(None));
    for id in ["eu", "uk"] {
        ledger.set(Setting::Country, id).unwrap_or_else(|error| panic!("{error}"));
    }
    assert_eq!(open(folder.path()).setting(Setting::Country).ok().flatten(), Some("uk".into()));
    assert_eq!(ledger.load(case).map(|case| case.log.len()).ok(), Some(1));
}

fn covered(ledger: &mut Ledger, seq: u64, case: &CaseId, cover: &Cover) {
    ledger.append(&event(case, seq), &mark(), cover).unwrap_or_else(|error| panic!("{error}"));
}

fn names(ledger: &Ledger, filter: &Filter) -> Vec<String> {
    let cases = ledger.cases(filter, 0, 10).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(ledger.count(filter).ok(), Some(cases.len()));
    cases.into_iter().map(|case| case.cover.name).collect()
}

#[test]
fn cases_are_listed_by_what_is_due_and_found_by_a_few_letters() {
    let folder = folder();
    let mut ledger = open(folder.path());
    let start = DateTime::UNIX_EPOCH;
    let cover = |name: &str, due: Option<i64>| Cover {
        name: name.into(),
        kind: "hen".into(),
        due: due.map(|hours| start + TimeDelta::hours(hours)),
        ..Cover::default()
    };
    let cases: Vec<CaseId> = (0..4).map(|_| CaseId::new()).collect();
    covered(&mut ledger, 0, &cases[0], &cover("Dill", None));
    covered(&mut ledger, 0, &cases[1], &cover("Sorrel", Some(9)));
    covered(&mut ledger, 0, &cases[2], &cover("Tansy", Some(2)));
    let closed = Cover { state: State::Closed(Outcome::Recovered), ..cover("Rue", None) };
    covered(&mut ledger, 0, &cases[3], &closed);
    assert_eq!(names(&ledger, &Filter::default()), ["Tansy", "Sorrel", "Dill"]);
    let letters = |text: &str| Filter { text: text.into(), ..Filter::default() };
    assert_eq!(names(&ledger, &letters("SORR")), ["Sorrel"]);
    assert!(names(&ledger, &letters("%")).is_empty() && names(&ledger, &letters("'")).is_empty());
    assert_eq!(names(&ledger, &Filter { closed: true, ..letters("rue") }), ["Rue"]);
    let due = ledger.due_before(start + TimeDelta::hours(5), 10).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(due.iter().map(|case| &case.id).collect::<Vec<_>>(), [&cases[2]]);
    assert_eq!(ledger.find("tansy").ok().as_ref(), Some(&cases[2]));
    assert_eq!(ledger.find(cases[0].short()).ok().as_ref(), Some(&cases[0]));
    assert_eq!(ledger.find(&cases[0].short().to_uppercase()).ok().as_ref(), Some(&cases[0]));
    let none = ledger.find("nobody").err().map(|error| crate::fault(&error)).unwrap_or_default();
    assert!(none.contains("nobody") && none.contains("coopside cases"), "{none}");
    // A later event brings its own cover; the number of events is counted.
    covered(&mut ledger, 1, &cases[2], &Cover { archived: true, ..cover("Tansy", None) });
    assert_eq!(names(&ledger, &Filter::default()), ["Sorrel", "Dill"]);
    let all = Filter { archived: true, ..letters("Tansy") };
    assert_eq!(ledger.cases(&all, 0, 1).ok().and_then(|cases| cases.first().map(|case| case.events)), Some(2));
}

#[test]
fn a_ledger_without_covers_gets_them_from_its_events_after_a_backup() {
    let folder = folder();
    let case = CaseId::new();
    append(&mut open(folder.path()), &event(&case, 0));
    let raw = Connection::open(folder.path().join("coopside.sqlite")).unwrap_or_else(|error| panic!("{error}"));
    raw.execute_batch("DROP TABLE cover; PRAGMA user_version = 2;").unwrap_or_else(|error| panic!("{error}"));
    drop(raw);
    let ledger = open(folder.path());
    let doubted =
        ledger.doubted("f", "", 10).map(|covers| covers.into_iter().map(|cover| cover.id).collect::<Vec<_>>());
    assert_eq!(doubted.ok(), Some(vec![case]));
    let backups = ledger::good(folder.path());
    assert_eq!(backups.iter().map(|backup| backup.events).collect::<Vec<_>>(), [1]);
}

#[test]
fn a_damaged_ledger_is_told_left_alone_and_a_backup_brings_it_back() {
    let folder = folder();
    let case = CaseId::new();
    let mut ledger = open(folder.path());
    (0..5).for_each(|seq| append(&mut ledger, &event(&case, seq)));
    let now = Utc::now();
    let backup = ledger.back_up(now).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(backup.events, 5);
    assert_eq!(ledger.back_up_daily(now + TimeDelta::hours(30)).ok(), Some(None), "nothing has been kept since");
    append(&mut ledger, &event(&case, 5));
    assert!(ledger.back_up_daily(now + TimeDelta::hours(1)).is_ok_and(|made| made.is_none()), "not a day old");
    assert!(
        ledger.back_up_daily(now + TimeDelta::hours(31)).is_ok_and(|made| made.is_some_and(|made| made.events == 6))
    );
    // While a window is open nothing is put in its place.
    let refused =
        ledger::restore(folder.path(), &backup, now).err().map(|error| crate::fault(&error)).unwrap_or_default();
    assert!(refused.contains("another window"), "{refused}");
    drop(ledger);
    let path = folder.path().join("coopside.sqlite");
    fs::write(&path, "this was a ledger once, and now it is something else altogether").unwrap_or_default();
    let told = Ledger::open(folder.path()).err().map(|error| crate::fault(&error)).unwrap_or_default();
    assert!(told.contains("damaged") && told.contains("coopside restore"), "{told}");
    let spoiled = folder.path().join(BACKUPS).join("coopside-20990101-000000.sqlite");
    fs::write(spoiled, "no backup").unwrap_or_default();
    let good = ledger::good(folder.path());
    let newest = good.last().unwrap_or_else(|| panic!("no good backup"));
    assert_eq!((good.len(), newest.events), (2, 6), "what does not open is passed over");
    let aside = ledger::restore(folder.path(), newest, now).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(open(folder.path()).load(case).map(|case| case.log.len()).ok(), Some(6));
    assert!(fs::read_to_string(&aside[0]).is_ok_and(|text| text.starts_with("this was")), "the original is kept");
}

fn exported(ledger: &mut Ledger) -> Vec<u8> {
    let mut out = Vec::new();
    ledger.carry_out(None, "caution", &mut out).unwrap_or_else(|error| panic!("{error}"));
    out
}

#[test]
fn what_is_carried_out_comes_in_again_without_loss_and_only_once() {
    let (from, to) = (folder(), folder());
    let mut ledger = open(from.path());
    let cases = [CaseId::new(), CaseId::new()];
    for seq in 0..3 {
        for case in &cases {
            append(&mut ledger, &event(case, seq));
        }
    }
    let lines = exported(&mut ledger);
    let mut other = open(to.path());
    let carried = other.carry_in(&mut lines.as_slice()).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((carried.new, carried.known, carried.cases.len()), (6, 0, 2));
    assert_eq!(exported(&mut other), lines, "lossless");
    let again = other.carry_in(&mut lines.as_slice()).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((again.new, again.known), (0, 6));
    assert_eq!(exported(&mut other), lines);
}

#[test]
fn a_file_that_is_not_whole_foreign_or_at_odds_changes_nothing() {
    let (from, to) = (folder(), folder());
    let mut ledger = open(from.path());
    let case = CaseId::new();
    (0..3).for_each(|seq| append(&mut ledger, &event(&case, seq)));
    let lines = String::from_utf8(exported(&mut ledger)).unwrap_or_default();
    let mut other = open(to.path());
    let mut refused = |text: &str| {
        let error = other.carry_in(&mut text.as_bytes()).err().map(|error| crate::carried(&error)).unwrap_or_default();
        assert_eq!(other.count(&Filter::default()).ok(), Some(0), "{error}");
        error
    };
    let without_last = lines.lines().take(3).collect::<Vec<_>>().join("\n");
    assert!(refused(&without_last).contains("not whole"));
    let cut = lines.get(..lines.len() - 20).unwrap_or_default();
    assert!(refused(cut).contains("line 4"), "{}", refused(cut));
    assert!(refused("").contains("empty") && refused("{\"a\": 1}").contains("line 1"));
    assert!(refused(&lines.replace("coopside.events/1", "coopside.events/9")).contains("not known here"));
    assert!(refused(&lines.replace("\"schema\":1", "\"schema\":9")).contains("newer Coopside"));
    let gap = lines.replace("\"seq\":1,", "\"seq\":7,");
    assert!(refused(&gap).contains("missing"), "{}", refused(&gap));
    // A case that went on differently here.
    append(&mut other, &event(&case, 0));
    let error = other.carry_in(&mut lines.as_bytes()).err().map(|error| crate::carried(&error)).unwrap_or_default();
    assert!(error.contains("gone on differently"), "{error}");
    assert_eq!(other.load(case).map(|case| case.log.len()).ok(), Some(1));
}

#[test]
fn a_ledger_that_cannot_be_written_is_read_and_left_as_it_is() {
    let folder = folder();
    let case = CaseId::new();
    append(&mut open(folder.path()), &event(&case, 0));
    let before = fs::read(folder.path().join("coopside.sqlite")).unwrap_or_default();
    let mut ledger = Ledger::read(folder.path()).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(ledger.load(case.clone()).map(|case| case.log.len()).ok(), Some(1));
    let refused = ledger.append(&event(&case, 1), &mark(), &Cover::default());
    assert!(matches!(refused, Err(LedgerError::ReadOnly)), "{refused:?}");
    drop(ledger);
    assert_eq!(fs::read(folder.path().join("coopside.sqlite")).unwrap_or_default(), before);
    assert!(matches!(Ledger::read(&folder.path().join("nothing")), Err(LedgerError::Open { .. })));
}

/// Whatever bytes come in, the answer is a message and the ledger is as it was.
#[test]
fn no_bytes_at_all_break_the_importer() {
    let folder = folder();
    let mut ledger = open(folder.path());
    append(&mut ledger, &event(&CaseId::new(), 0));
    let whole = exported(&mut ledger);
    let mut rng = fastrand::Rng::with_seed(7);
    for _ in 0..2000 {
        let mut bytes = whole.clone();
        for _ in 0..rng.usize(1..6) {
            let at = rng.usize(0..bytes.len());
            bytes[at] = rng.u8(..);
        }
        bytes.truncate(rng.usize(0..=bytes.len()));
        let _ = ledger.carry_in(&mut bytes.as_slice());
        assert!(ledger.count(&Filter::default()).is_ok());
    }
    let raw = Connection::open(folder.path().join("coopside.sqlite")).unwrap_or_else(|error| panic!("{error}"));
    let whole: String = raw.query_row("PRAGMA integrity_check", [], |row| row.get(0)).unwrap_or_default();
    assert_eq!(whole, "ok");
}

/// The open birds by name, each with the number she is chosen by.
fn tags(ledger: &Ledger) -> Vec<(String, u32)> {
    let cases = ledger.cases(&Filter::default(), 0, 200).unwrap_or_else(|error| panic!("{error}"));
    let mut tags: Vec<(String, u32)> = cases.into_iter().map(|case| (case.cover.name, case.tag)).collect();
    tags.sort();
    tags
}

fn named(name: &str) -> Cover {
    Cover { name: name.into(), ..Cover::default() }
}

/// Something kept of a case just now.
fn kept_now(ledger: &mut Ledger, seq: u64, case: &CaseId, cover: &Cover) {
    let event = event(case, seq);
    let stamped = Stamped { at: Utc::now(), ..event.stamped };
    ledger.append(&Event { stamped, ..event }, &mark(), cover).unwrap_or_else(|error| panic!("{error}"));
}

#[test]
fn a_birds_number_is_hers_while_she_is_open_and_rests_for_a_day_after() {
    let folder = folder();
    let mut ledger = open(folder.path());
    let cases: Vec<CaseId> = (0..4).map(|_| CaseId::new()).collect();
    for (case, name) in cases.iter().zip(["Dill", "Rue", "Sorrel"]) {
        kept_now(&mut ledger, 0, case, &named(name));
    }
    let of = |name: &str, tag| (name.to_owned(), tag);
    assert_eq!(tags(&ledger), [of("Dill", 1), of("Rue", 2), of("Sorrel", 3)]);
    // However her order among the others changes, it stays.
    let due = Some(Utc::now() - TimeDelta::hours(3));
    kept_now(&mut ledger, 1, &cases[2], &Cover { due, ..named("Sorrel") });
    let anew = ledger::Anew { case: cases[1].clone(), events: 1, cover: Cover { due, ..named("Rue") } };
    assert_eq!(ledger.cover_anew(&[anew], "g").ok(), Some(1));
    assert_eq!(tags(&ledger), [of("Dill", 1), of("Rue", 2), of("Sorrel", 3)]);
    // Closed, she bears none, and no new bird takes hers the same day.
    kept_now(&mut ledger, 1, &cases[0], &Cover { state: State::Closed(Outcome::Recovered), ..named("Dill") });
    kept_now(&mut ledger, 0, &cases[3], &named("Tansy"));
    assert_eq!(tags(&ledger), [of("Rue", 2), of("Sorrel", 3), of("Tansy", 4)]);
    let closed = Filter { closed: true, ..Filter::default() };
    let all = ledger.cases(&closed, 0, 10).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(all.iter().find(|case| case.id == cases[0]).map(|case| case.tag), Some(0));
    // Open again the same day, she has her own back; closed long ago, her number is free.
    kept_now(&mut ledger, 2, &cases[0], &named("Dill"));
    assert_eq!(tags(&ledger).first(), Some(&of("Dill", 1)));
    let long_ago = event(&cases[0], 3);
    let put_away = Cover { archived: true, ..named("Dill") };
    ledger.append(&long_ago, &mark(), &put_away).unwrap_or_else(|error| panic!("{error}"));
    let new = CaseId::new();
    kept_now(&mut ledger, 0, &new, &named("Yarrow"));
    assert_eq!(tags(&ledger).last(), Some(&of("Yarrow", 1)));
    // Whoever comes back after that bears another.
    kept_now(&mut ledger, 4, &cases[0], &named("Dill"));
    assert_eq!(tags(&ledger).first(), Some(&of("Dill", 5)));
}

/// More open birds than there are numbers: the rest bear none, and nothing is refused.
#[test]
fn no_two_open_birds_bear_one_number() {
    let folder = folder();
    let mut ledger = open(folder.path());
    for nth in 0..110 {
        kept_now(&mut ledger, 0, &CaseId::new(), &named(&format!("Bird {nth}")));
    }
    let mut borne: Vec<u32> = tags(&ledger).into_iter().map(|(_, tag)| tag).filter(|tag| *tag > 0).collect();
    borne.sort_unstable();
    assert_eq!(borne, (1..=102).collect::<Vec<_>>());
}

#[test]
fn a_ledger_of_the_fourth_version_gets_numbers_in_the_order_of_beginning() {
    let folder = folder();
    let mut ledger = open(folder.path());
    for name in ["Dill", "Rue"] {
        kept_now(&mut ledger, 0, &CaseId::new(), &named(name));
    }
    kept_now(&mut ledger, 0, &CaseId::new(), &Cover { archived: true, ..named("Sorrel") });
    drop(ledger);
    let raw = Connection::open(folder.path().join("coopside.sqlite")).unwrap_or_else(|error| panic!("{error}"));
    raw.execute_batch(
        "DROP INDEX cover_tag; DROP INDEX cover_clock; ALTER TABLE cover DROP COLUMN tag; ALTER TABLE cover DROP COLUMN clock; \
         ALTER TABLE cover DROP COLUMN clock_utc; PRAGMA user_version = 4;",
    )
    .unwrap_or_else(|error| panic!("{error}"));
    drop(raw);
    let ledger = open(folder.path());
    assert_eq!(tags(&ledger), [("Dill".to_owned(), 1), ("Rue".to_owned(), 2)]);
    // What their covers say of a clock is worked out anew, after a backup.
    assert_eq!(ledger.doubted("f", "", 10).map(|doubted| doubted.len()).ok(), Some(3));
    assert_eq!(ledger::good(folder.path()).len(), 1);
}

#[test]
fn the_clocks_of_open_birds_are_told_from_their_covers_alone() {
    let folder = folder();
    let mut ledger = open(folder.path());
    let now = Utc::now();
    let runs = |name: &str, ends_in: i64| Cover {
        clock: Some(Clock { what: "press".into(), ends_at: now + TimeDelta::seconds(ends_in) }),
        ..named(name)
    };
    let cases: Vec<CaseId> = (0..4).map(|_| CaseId::new()).collect();
    kept_now(&mut ledger, 0, &cases[0], &runs("Rue", 200));
    kept_now(&mut ledger, 0, &cases[1], &runs("Dill", 100));
    kept_now(&mut ledger, 0, &cases[2], &runs("Sorrel", -90_000));
    kept_now(&mut ledger, 0, &cases[3], &Cover { archived: true, ..runs("Tansy", 50) });
    // No event of any case is read for it: they could not be.
    let raw = Connection::open(folder.path().join("coopside.sqlite")).unwrap_or_else(|error| panic!("{error}"));
    raw.execute_batch("DROP TRIGGER event_is_never_removed; DELETE FROM event;")
        .unwrap_or_else(|error| panic!("{error}"));
    let clocks = |ledger: &Ledger, most| {
        let told = ledger.clocks(now - TimeDelta::hours(2), most).unwrap_or_else(|error| panic!("{error}"));
        told.into_iter().map(|case| (case.cover.name, case.cover.clock.map(|clock| clock.what))).collect::<Vec<_>>()
    };
    let press = |name: &str| (name.to_owned(), Some("press".to_owned()));
    assert_eq!(clocks(&ledger, 20), [press("Dill"), press("Rue")]);
    assert_eq!(clocks(&ledger, 1), [press("Dill")]);
    // Ended, it is told no more.
    kept_now(&mut ledger, 1, &cases[1], &named("Dill"));
    assert_eq!(clocks(&ledger, 20), [press("Rue")]);
}
