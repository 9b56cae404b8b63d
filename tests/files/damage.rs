//! Ledgers that lost something: a case is shown whole or refused by name, and a file that was taken away keeps nothing unnoticed.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use assert_cmd::Command;
use chrono::{DateTime, TimeDelta, Utc};
use coopside::finding::log::{Entry, Stamped};
use coopside::ledger::{self, CaseId, Cover, Event, EventId, Ledger, LedgerError, Mark};
use rusqlite::Connection;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const FILE: &str = "coopside.sqlite";

fn folder() -> TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

fn open(folder: &Path) -> Ledger {
    Ledger::open(folder).unwrap_or_else(|error| panic!("{error}"))
}

fn append(ledger: &mut Ledger, case: &CaseId, seq: u64, name: &str) -> Result<(), LedgerError> {
    let at: DateTime<Utc> = DateTime::UNIX_EPOCH + TimeDelta::days(20_000);
    let stamped = Stamped { at, entry: Entry::VetSaid(format!("word {seq} of {name}")) };
    let event = Event { id: EventId::new(), case: case.clone(), seq, stamped, zone_min: 0 };
    let mark = Mark { version: "0".into(), fingerprint: "f".into() };
    ledger.append(&event, &mark, &Cover { name: name.into(), ..Cover::default() })
}

/// Two birds with so many events each, one after the other.
fn two_birds(folder: &Path, events: u64) -> [CaseId; 2] {
    let mut ledger = open(folder);
    let birds = [(CaseId::new(), "Saffron"), (CaseId::new(), "Tansy")];
    for seq in 0..events {
        for (case, name) in &birds {
            append(&mut ledger, case, seq, name).unwrap_or_else(|error| panic!("{error}"));
        }
    }
    birds.map(|(case, _)| case)
}

fn damage(folder: &Path, sql: &str) {
    let raw = Connection::open(folder.join(FILE)).unwrap_or_else(|error| panic!("{error}"));
    raw.execute_batch(&format!("DROP TRIGGER IF EXISTS event_is_never_removed; {sql}"))
        .unwrap_or_else(|error| panic!("{error}"));
}

fn coopside(data: &Path, arguments: &[&str]) -> (i32, String, String) {
    let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
    let output = command.args(arguments).env("COOPSIDE_DATA", data).output().unwrap_or_else(|error| panic!("{error}"));
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

#[test]
fn a_case_that_lacks_an_event_is_refused_by_name_and_the_others_are_shown() {
    for (what, sql, found) in [
        ("one in the middle", "DELETE FROM event WHERE case_id = '{}' AND seq = 2", 4),
        ("the last", "DELETE FROM event WHERE case_id = '{}' AND seq = 4", 4),
        ("the first", "DELETE FROM event WHERE case_id = '{}' AND seq = 0", 4),
        ("all", "DELETE FROM event WHERE case_id = '{}'", 0),
        ("its cover", "DELETE FROM cover WHERE case_id = '{}'", 5),
    ] {
        let data = folder();
        let [saffron, tansy] = two_birds(data.path(), 5);
        let backup = open(data.path()).back_up(Utc::now()).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(backup.lacking, 0);
        damage(data.path(), &sql.replace("{}", saffron.as_str()));
        let ledger = open(data.path());
        let refused = ledger.load(saffron.clone());
        let Err(LedgerError::NotWhole(lacking)) = &refused else { panic!("{what}: {refused:?}") };
        assert_eq!((lacking.case.clone(), lacking.found, lacking.expected), (saffron.clone(), found, 5), "{what}");
        let told = refused.err().map(|error| crate::fault(&error)).unwrap_or_default();
        for part in [saffron.short(), "not whole", "`coopside restore`", "`coopside export -o FILE`"] {
            assert!(told.contains(part), "{what}: {part}: {told}");
        }
        assert_eq!(ledger.load(tansy).map(|case| case.log.len()).ok(), Some(5), "{what}");
        assert_eq!(ledger.lacking().map(|all| all.len()).ok(), Some(1), "{what}");
        // A newer backup of the damaged ledger does not go before the whole one.
        let newer = ledger.back_up(Utc::now() + TimeDelta::hours(1)).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(newer.lacking, 1, "{what}");
        drop(ledger);
        // Nothing of her is printed as if it were all; what can be read is carried out, and said not to be all.
        let (code, out, err) = coopside(data.path(), &["handover", saffron.as_str()]);
        assert!(code != 0 && out.is_empty() && !err.is_empty(), "{what}: {code} {out} {err}");
        let file = data.path().join("birds.jsonl");
        let (code, _, err) = coopside(data.path(), &["export", "-o", &file.display().to_string()]);
        assert!(code == 65 && err.contains(saffron.short()) && err.contains("is not all"), "{what}: {code} {err}");
        let lines = fs::read_to_string(&file).unwrap_or_default().lines().count();
        assert_eq!(lines as u64, 1 + 5 + found, "{what}");
        assert_eq!(coopside(data.path(), &["restore"]).0, 0);
        assert_eq!(open(data.path()).load(saffron).map(|case| case.log.len()).ok(), Some(5), "{what}");
        assert!(ledger::good(data.path()).len() >= 2);
    }
}

/// Half a thousand zeros are what a disk puts in place of a sector it lost. Wherever they fall in the file, a case is shown whole
/// or not at all.
#[test]
fn a_zeroed_sector_never_makes_an_answer_vanish() {
    let data = folder();
    let birds = two_birds(data.path(), 60);
    let whole = birds.clone().map(|case| open(data.path()).load(case).unwrap_or_else(|error| panic!("{error}")).log);
    let bytes = fs::read(data.path().join(FILE)).unwrap_or_default();
    let (mut lost, mut unharmed, mut tried) = (0, 0, 0);
    for at in (0..bytes.len()).step_by(512) {
        let sector = at..(at + 512).min(bytes.len());
        if bytes[sector.clone()].iter().all(|byte| *byte == 0) {
            continue;
        }
        tried += 1;
        let copy = folder();
        let mut spoiled = bytes.clone();
        spoiled[sector].fill(0);
        fs::write(copy.path().join(FILE), &spoiled).unwrap_or_else(|error| panic!("{error}"));
        let Ok(ledger) = Ledger::open(copy.path()) else { continue };
        for (case, whole) in birds.iter().zip(&whole) {
            match ledger.load(case.clone()) {
                Ok(case) => {
                    unharmed += 1;
                    assert_eq!(case.log, *whole, "sector at {at}: shown as if whole");
                }
                Err(LedgerError::NotWhole(lacking)) => {
                    lost += 1;
                    assert_eq!(lacking.case, *case);
                }
                Err(_) => {}
            }
        }
    }
    // Some fall where nothing else would have told of it.
    assert!(tried > 40 && unharmed > 0 && lost > 0, "{tried} tried, {unharmed} unharmed, {lost} not whole");
}

/// A way a ledger is taken away under whoever has it open.
#[cfg(unix)]
type Way<'a> = (&'a str, &'a dyn Fn(&Path) -> std::io::Result<()>);

/// The open file is the one at its path at each commit, or nothing is said to be kept.
#[cfg(unix)]
#[test]
fn a_ledger_that_was_taken_away_keeps_nothing_unnoticed() {
    let delete = |ledger: &Path| fs::remove_file(ledger);
    let rename = |ledger: &Path| fs::rename(ledger, ledger.with_extension("away"));
    let folder_too = |ledger: &Path| {
        let birds = ledger.parent().unwrap_or(ledger);
        fs::rename(birds, birds.with_extension("away"))
    };
    let cut = |ledger: &Path| fs::File::options().write(true).open(ledger)?.set_len(512);
    let replace = |ledger: &Path| {
        let other = folder();
        two_birds(other.path(), 1);
        fs::copy(other.path().join(FILE), ledger.with_extension("new"))?;
        fs::rename(ledger.with_extension("new"), ledger)
    };
    let beside = |ledger: &Path| fs::remove_file(ledger.with_extension("sqlite-wal"));
    let ways: [Way; 6] = [
        ("deleted", &delete),
        ("renamed", &rename),
        ("its folder renamed", &folder_too),
        ("cut short", &cut),
        ("replaced", &replace),
        ("its log deleted", &beside),
    ];
    for (way, take_away) in ways {
        let base = folder();
        let data = base.path().join("birds");
        let case = CaseId::new();
        let mut ledger = open(&data);
        for seq in 0..3 {
            append(&mut ledger, &case, seq, "Saffron").unwrap_or_else(|error| panic!("{way}: {error}"));
            assert!(ledger.still_there().is_ok(), "{way}: not taken away yet");
        }
        take_away(&data.join(FILE)).unwrap_or_else(|error| panic!("{way}: {error}"));
        let refused = append(&mut ledger, &case, 3, "Saffron");
        assert!(matches!(refused, Err(LedgerError::Gone { .. })), "{way}: {refused:?}");
        let told = refused.err().map(|error| crate::fault(&error)).unwrap_or_default();
        assert!(told.contains(FILE) && told.contains("coopside restore"), "{told}");
        assert!(matches!(ledger.set(ledger::Setting::Country, "eu"), Err(LedgerError::Gone { .. })), "{way}");
        // What was put in its place is left as it is: nothing of the ledger that was taken away is read into it.
        drop(ledger);
        if way == "replaced" {
            let there = open(&data);
            assert_eq!(there.count(&ledger::Filter::default()).ok(), Some(2), "{way}");
            assert!(matches!(there.load(case), Err(LedgerError::NoCase(_))), "{way}");
        }
    }
}
