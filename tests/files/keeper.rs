//! The commands for whoever keeps the ledger, run as a person runs them; and files that are bad in every way.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use assert_cmd::Command;
use coopside::ledger::Ledger;
use coopside::notes;
use coopside::protocol::Protocol;
use icalendar::{Calendar, Component};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;
use tempfile::TempDir;

static PROTOCOL: LazyLock<Protocol> =
    LazyLock::new(|| Protocol::shipped().unwrap_or_else(|faults| panic!("\n{faults}")));

fn folder() -> TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

fn coopside(data: &Path, arguments: &[&str]) -> (i32, String, String) {
    let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
    command.args(arguments).env("TZ", "UTC").env("COOPSIDE_DATA", data);
    let output = command.output().unwrap_or_else(|error| panic!("{error}"));
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

/// The practice flock; without a terminal it is loaded, and the screen that would open then refuses.
fn flock(data: &Path) -> PathBuf {
    let (code, _, err) = coopside(data, &["practise", "--flock"]);
    assert_eq!(code, 2, "{err}");
    data.join("practice")
}

const CAUTION: &str = "no vet has reviewed it";

#[test]
fn the_practice_flock_is_listed_told_and_never_in_the_real_ledger() {
    let data = folder();
    let practice = flock(data.path());
    assert!(!data.path().join("coopside.sqlite").exists(), "the real ledger is not touched");
    let (code, out, _) = coopside(&practice, &["cases"]);
    assert_eq!(code, 0);
    assert!(out.contains("Saffron, hen") && out.contains("Borage, bantam") && !out.contains("Clover"), "{out}");
    assert!(out.contains(CAUTION));
    let (_, out, _) = coopside(&practice, &["cases", "--closed", "clov"]);
    assert!(out.contains("Clover, duck") && out.contains("recovered") && !out.contains("Saffron"), "{out}");
    let (_, json, _) = coopside(&practice, &["cases", "--closed", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((json["schema"].as_str(), json["count"].as_u64()), (Some("coopside.cases/2"), Some(4)));
    let cases = json["cases"].as_array().cloned().unwrap_or_default();
    let rungs = ["none", "home", "within_a_day", "within_hours", "now"];
    let named = |case: &serde_json::Value| case["need"]["at_least"].as_str().is_some_and(|rung| rungs.contains(&rung));
    assert!(cases.len() == 4 && cases.iter().all(named), "{cases:#?}");
    assert!(json["caution"].as_str().is_some_and(|caution| caution.contains(CAUTION)));
    let (_, out, _) = coopside(&practice, &["case", "saffron"]);
    for part in ["HOW SOON A VET, OVER TIME", "WEIGHT", "SIZE OF WOUND 1", "may close in", "A VET SAID", CAUTION] {
        assert!(out.contains(part), "{part}:\n{out}");
    }
    let (_, out, _) = coopside(&practice, &["due"]);
    assert!(out.contains("Tansy") && out.contains("LOOK NOW"), "{out}");
    // Loaded once: a second time adds nothing, unless it is asked for.
    flock(data.path());
    assert!(coopside(&practice, &["cases", "--closed", "--json"]).1.contains("\"count\": 4"));
    coopside(data.path(), &["practise", "--flock", "--afresh"]);
    assert!(coopside(&practice, &["cases", "--closed", "--json"]).1.contains("\"count\": 8"));
}

#[test]
fn a_ledger_that_is_not_for_practice_is_never_taken_for_it() {
    let (data, birds) = (folder(), folder());
    let practice = flock(birds.path());
    let lines = birds.path().join("birds.jsonl");
    assert_eq!(coopside(&practice, &["export", "-o", &lines.display().to_string()]).0, 0);
    let real = data.path().join("practice");
    assert_eq!(coopside(&real, &["import", &lines.display().to_string()]).0, 0);
    let before = fs::read(real.join("coopside.sqlite")).unwrap_or_default();
    let (code, _, err) = coopside(data.path(), &["practise", "--flock"]);
    assert!(code == 65 && err.contains("not for practice"), "{code} {err}");
    assert_eq!(fs::read(real.join("coopside.sqlite")).unwrap_or_default(), before);
}

#[test]
fn a_name_that_stands_for_no_case_or_for_several_is_one_clear_message() {
    let data = folder();
    let practice = flock(data.path());
    let (code, out, err) = coopside(&practice, &["case", "Nobody"]);
    assert!(code == 2 && out.is_empty() && err.contains("no case `Nobody`"), "{code} {err}");
    coopside(data.path(), &["practise", "--flock", "--afresh"]);
    let (code, _, err) = coopside(&practice, &["case", "Saffron"]);
    assert!(code == 2 && err.contains("2 cases"), "{code} {err}");
    // Where there is no ledger, a command that reads makes none.
    let empty = folder();
    for command in [&["cases"][..], &["due"], &["backup"]] {
        assert_eq!(coopside(empty.path(), command).0, 0);
    }
    assert_eq!(coopside(empty.path(), &["export"]).0, 66);
    assert_eq!(fs::read_dir(empty.path()).map(Iterator::count).ok(), Some(0));
}

fn calendar(text: &str) -> BTreeMap<String, (u32, String)> {
    let calendar: Calendar = text.parse().unwrap_or_else(|error| panic!("{error}"));
    let events = calendar.events().map(|event| {
        let status = event.property_value("STATUS").unwrap_or_default().to_owned();
        (event.get_uid().unwrap_or_default().to_owned(), (event.get_sequence().unwrap_or(0), status))
    });
    events.collect()
}

/// RFC 5545: a UID names one event for ever, SEQUENCE tells which telling is the newest, STATUS:CANCELLED takes it away.
#[test]
fn a_calendar_told_again_replaces_and_never_doubles() {
    let data = folder();
    let practice = flock(data.path());
    let file = data.path().join("looks.ics");
    let name = file.display().to_string();
    let tell = || {
        let (code, out, err) = coopside(&practice, &["reminders", "-o", &name]);
        assert_eq!(code, 0, "{err}");
        assert!(out.contains("may not sound the alarm"), "{out}");
        calendar(&fs::read_to_string(&file).unwrap_or_default())
    };
    let first = tell();
    assert!(
        first.len() >= 5 && first.values().all(|(sequence, status)| *sequence == 0 && status == "CONFIRMED"),
        "{first:?}"
    );
    assert_eq!(tell(), first, "told twice is told once");
    let text = fs::read_to_string(&file).unwrap_or_default();
    assert!(text.contains("TRIGGER:-PT") && text.contains("BEGIN:VALARM") && text.lines().all(|line| line.len() <= 75));
    assert!(text.contains("DTSTART:") && !text.contains("TZID"), "instants, whatever the clock of the place does");
    // A case that is closed is looked at no more: its looks are cancelled.
    let mut ledger = Ledger::open(&practice).unwrap_or_else(|error| panic!("{error}"));
    let case = ledger.find("Tansy").unwrap_or_else(|error| panic!("{error}"));
    let log = ledger.load(case.clone()).map(|case| case.log).unwrap_or_default();
    close(&mut ledger, &case, log.len());
    drop(ledger);
    let after = tell();
    let cancelled: Vec<_> = after.iter().filter(|(_, (_, status))| status == "CANCELLED").collect();
    assert!(!cancelled.is_empty() && cancelled.iter().all(|(_, (sequence, _))| *sequence == 1), "{after:?}");
    // Another parser reads both tellings after the tests: tests/oracle/looks.py.
    let spare = Path::new(env!("CARGO_TARGET_TMPDIR"));
    for (name, text) in [("first.ics", &text), ("second.ics", &fs::read_to_string(&file).unwrap_or_default())] {
        fs::write(spare.join(name), text).unwrap_or_else(|error| panic!("{error}"));
    }
    assert!(after.keys().collect::<BTreeSet<_>>().is_subset(&first.keys().collect()));
    // A file of somebody else's is left as it is.
    fs::write(&file, "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n").unwrap_or_else(|error| panic!("{error}"));
    let (code, _, err) = coopside(&practice, &["reminders", "-o", &name]);
    assert!(code == 2 && err.contains("no calendar of ours"), "{code} {err}");
    assert_eq!(fs::read_to_string(&file).ok().as_deref(), Some("BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n"));
}

/// A calendar has a reminder for every bird that needs one: a thousand that wait take none away from the one that came last.
#[test]
fn a_calendar_holds_every_bird_that_waits_however_many_there_are() {
    use coopside::finding::log::Entry;
    use coopside::finding::{About, Answer, Statement};
    let (data, file) = (folder(), folder());
    let file = file.path().join("birds.jsonl");
    let now = chrono::Utc::now();
    let line = |case: usize, at: chrono::DateTime<chrono::Utc>, entry: &Entry| {
        serde_json::json!({
            "case": format!("case-{case:08}"), "seq": 0, "event": format!("event-{case}"), "at": at, "zone_min": 0,
            "schema": 1, "body": entry, "protocol": "0", "fingerprint": "f",
        })
        .to_string()
    };
    let many = 1_050;
    let head = serde_json::json!({
        "schema": "coopside.events/1", "caution": "none", "reviewed_by_a_veterinarian": false, "events": many + 1,
    });
    let said = |question: &str, answer: &str| Statement {
        about: About::Bird,
        question: question.into(),
        answer: Answer::Choice(answer.into()),
    };
    let fresh = Entry::Said(vec![said("kind", "hen"), said("fighting_breath", "yes")]);
    let lines: Vec<String> = std::iter::once(head.to_string())
        .chain((0..many).map(|nth| line(nth, now - chrono::TimeDelta::hours(9), &Entry::Named(format!("Rue {nth}")))))
        .chain([line(many, now, &fresh)])
        .collect();
    fs::write(&file, lines.join("\n")).unwrap_or_else(|error| panic!("{error}"));
    let (code, _, err) = coopside(data.path(), &["import", &file.display().to_string()]);
    assert_eq!(code, 0, "{err}");
    let (code, out, err) = coopside(data.path(), &["reminders"]);
    assert_eq!(code, 0, "{err}");
    let told = calendar(&out);
    let of = |case: usize| told.keys().filter(|uid| uid.starts_with(&format!("case-{case:08}-"))).count();
    assert!((0..many).all(|case| of(case) == 1), "each waits to be examined");
    assert!(of(many) >= 2, "the looks of the one that needs a vet at once");
    // The list counts them all, whatever it shows.
    let (_, out, _) = coopside(data.path(), &["due"]);
    assert!(out.contains(&format!("and {} more", many - 100)) && out.contains("not examined"), "{out}");
}

fn close(ledger: &mut Ledger, case: &coopside::ledger::CaseId, seq: usize) {
    use coopside::finding::log::{Entry, Outcome, Stamped};
    use coopside::ledger::{Cover, Event, EventId, Mark, State};
    let entry = Entry::Closed { outcome: Outcome::MovedOn, proved: String::new() };
    let stamped = Stamped { at: chrono::Utc::now(), entry };
    let event = Event { id: EventId::new(), case: case.clone(), seq: seq as u64, stamped, zone_min: 0 };
    let mark = Mark { version: PROTOCOL.version.clone(), fingerprint: PROTOCOL.fingerprint.clone() };
    let cover = Cover { name: "Tansy".into(), state: State::Closed(Outcome::MovedOn), ..Cover::default() };
    ledger.append(&event, &mark, &cover).unwrap_or_else(|error| panic!("{error}"));
}

#[test]
fn cases_are_carried_out_and_in_backed_up_and_restored() {
    let (data, other) = (folder(), folder());
    let practice = flock(data.path());
    let file = data.path().join("birds.jsonl");
    let name = file.display().to_string();
    let (code, out, _) = coopside(&practice, &["export", "-o", &name]);
    assert!(code == 0 && out.contains("events in"), "{out}");
    let (code, _, err) = coopside(&practice, &["export", "-o", &name]);
    assert!(code == 74 && err.contains("is there already"), "not written over: {code} {err}");
    let (code, out, _) = coopside(other.path(), &["import", &name]);
    assert!(code == 0 && out.contains("4 cases have something new"), "{out}");
    let (_, again, _) = coopside(other.path(), &["import", &name]);
    assert!(again.starts_with("0 events taken in"), "{again}");
    let (_, one, _) = coopside(&practice, &["export"]);
    let (_, two, _) = coopside(other.path(), &["export"]);
    assert_eq!(one, two, "lossless");
    assert!(coopside(other.path(), &["cases"]).1.contains("Saffron, hen"), "covers are made anew");
    let (code, out, _) = coopside(other.path(), &["backup"]);
    assert!(code == 0 && out.contains("opened and checked"), "{out}");
    // The ledger is spoiled: every command says so and leaves it; restore brings the backup back and keeps what stood there.
    let ledger = other.path().join("coopside.sqlite");
    for ending in ["-wal", "-shm"] {
        let _ = fs::remove_file(other.path().join(format!("coopside.sqlite{ending}")));
    }
    fs::write(&ledger, "spoiled").unwrap_or_else(|error| panic!("{error}"));
    let (code, _, err) = coopside(other.path(), &["cases"]);
    assert!(code == 65 && err.contains("coopside restore"), "{code} {err}");
    assert_eq!(fs::read_to_string(&ledger).ok().as_deref(), Some("spoiled"));
    // A file elsewhere is not taken for a backup of the same name, and the message names it.
    let (code, _, err) = coopside(other.path(), &["restore", "/nowhere/coopside-20260101-000000.sqlite"]);
    assert!(code == 65 && err.contains("/nowhere/coopside-20260101-000000.sqlite is no good backup"), "{code} {err}");
    let (code, out, err) = coopside(other.path(), &["restore"]);
    assert!(code == 0 && out.contains("kept as"), "{code} {out} {err}");
    assert_eq!(coopside(other.path(), &["export"]).1, two);
    assert_eq!(coopside(folder().path(), &["restore"]).0, 65, "nothing to restore");
}

/// Every committed bad file: one clear message, exit 65, and nothing changed.
#[test]
fn every_bad_import_is_one_message_and_changes_nothing() {
    let data = folder();
    let practice = flock(data.path());
    let before = coopside(&practice, &["export"]).1;
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/imports");
    let mut files = 0;
    for entry in fs::read_dir(&corpus).unwrap_or_else(|error| panic!("{error}")).flatten() {
        let (code, out, err) = coopside(&practice, &["import", &entry.path().display().to_string()]);
        let name = entry.file_name();
        assert!(code == 65 && out.is_empty(), "{name:?}: {code} {out}");
        assert_eq!(err.lines().count(), 1, "{name:?}: {err}");
        assert!(!err.trim_end().contains(char::is_control), "{name:?}: {err:?}");
        assert_eq!(coopside(&practice, &["export"]).1, before, "{name:?}");
        files += 1;
    }
    assert!(files >= 19);
    assert_eq!(coopside(&practice, &["import", "nowhere.jsonl"]).0, 66);
}

fn corpus(folder: &str) -> Vec<Vec<u8>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let files = fs::read_dir(path).unwrap_or_else(|error| panic!("{error}")).flatten();
    files.filter(|file| file.path().is_file()).map(|file| fs::read(file.path()).unwrap_or_default()).collect()
}

/// A file of a corpus with some bytes changed, cut off, or put in twice.
fn mutated(folder: &'static str) -> impl Strategy<Value = Vec<u8>> {
    let files = corpus(folder);
    (0..files.len(), prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..4u8), 1..6)).prop_map(
        move |(file, changes)| {
            let mut bytes = files[file].clone();
            for (at, byte, how) in changes.into_iter().filter(|_| true) {
                if bytes.is_empty() {
                    break;
                }
                let at = at.index(bytes.len());
                match how {
                    0 => bytes[at] = byte,
                    1 => bytes.truncate(at),
                    2 => bytes.insert(at, byte),
                    _ => bytes.extend_from_within(at..),
                }
            }
            bytes
        },
    )
}

fn rounds() -> u32 {
    if crate::common::long() { 20_000 } else { 300 }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(rounds()) })]

    #[test]
    fn no_bytes_break_the_importer(bytes in mutated("tests/data/imports")) {
        let place = folder();
        let mut ledger = Ledger::open(place.path()).unwrap_or_else(|error| panic!("{error}"));
        let kept = ledger.carry_in(&mut bytes.as_slice());
        let count = ledger.count(&coopside::ledger::Filter { closed: true, archived: true, ..Default::default() }).unwrap_or(99);
        let events = ledger.carry_out(None, "", &mut Vec::new()).unwrap_or(99);
        prop_assert_eq!(events, kept.as_ref().map_or(0, |carried| carried.new));
        prop_assert_eq!(count == 0, kept.map_or(true, |carried| carried.cases.is_empty()));
    }

    #[test]
    fn no_bytes_break_the_reader_of_notes(bytes in mutated("scenarios"), plain in prop::collection::vec(any::<u8>(), 0..300)) {
        for bytes in [bytes, plain] {
            let text = String::from_utf8_lossy(&bytes);
            if let Err(faults) = notes::read(&PROTOCOL, "notes", &text, chrono::DateTime::UNIX_EPOCH) {
                prop_assert!(!faults.to_string().is_empty());
            }
        }
    }
}

/// A file that another program holds fast: one clear message, and nothing is changed.
#[test]
fn a_locked_ledger_is_left_alone() {
    let data = folder();
    let practice = flock(data.path());
    let file = practice.join("coopside.sqlite");
    let other = rusqlite::Connection::open(&file).unwrap_or_else(|error| panic!("{error}"));
    let hold = "PRAGMA locking_mode = EXCLUSIVE; BEGIN IMMEDIATE; INSERT INTO setting VALUES ('held', 'yes'); COMMIT;";
    other.execute_batch(hold).unwrap_or_else(|error| panic!("{error}"));
    // Not opened to compare: closing it here would let the lock go.
    let state = || fs::metadata(&file).and_then(|told| Ok((told.len(), told.modified()?))).ok();
    let before = state();
    for arguments in [&["cases"][..], &["contacts"]] {
        let (code, _, err) = coopside(&practice, arguments);
        assert_eq!(code, 74, "{arguments:?}: {err}");
        assert!(err.contains("another program holds the ledger; close it"), "{arguments:?}: {err}");
        assert_eq!(state(), before);
    }
    drop(other);
    assert_eq!(coopside(&practice, &["cases"]).0, 0);
}
