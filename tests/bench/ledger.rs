//! How fast the ledger is, against the same done by bare SQL through the same library: `cargo bench --bench ledger`. Read the
//! medians, and the ratios between them; and over 1,000, 10,000 and 100,000 cases of twenty events, the curve.

use chrono::{DateTime, TimeDelta, Utc};
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{CaseId, Cover, Event, EventId, FILE, Filter, Ledger, Mark};
use divan::{Bencher, black_box};
use rusqlite::{Connection, TransactionBehavior, params};
use std::collections::BTreeMap;
use std::sync::{LazyLock, Mutex};
use tempfile::TempDir;

fn main() {
    divan::main();
}

fn fail(error: impl std::fmt::Display) -> ! {
    eprintln!("{error}");
    std::process::exit(1)
}

fn said() -> Entry {
    let answer = Answer::Choice("small".into());
    Entry::Said(vec![Statement { about: About::Wound(1), question: "size".into(), answer }])
}

fn at() -> DateTime<Utc> {
    DateTime::UNIX_EPOCH + TimeDelta::days(20_000)
}

const INSERT: &str = "INSERT INTO event (case_id, seq, event_id, at_utc, zone_min, kind, schema, body, protocol, fingerprint) \
     VALUES (?1, ?2, ?3, ?4, 60, 'said', 1, ?5, '0', 'f')";
const COVER: &str = "INSERT INTO cover (case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint) \
     VALUES (?1, ?2, ?2, 1, '', '', '', NULL, 'open', 0, 'f') ON CONFLICT (case_id) DO UPDATE SET last_utc = ?2, events = events + 1";

/// One event kept, with the cover it leaves the case with.
#[divan::bench]
fn keep_one_event(bencher: Bencher) {
    let folder = tempfile::tempdir().unwrap_or_else(|error| fail(error));
    let mut ledger = Ledger::open(folder.path()).unwrap_or_else(|error| fail(error));
    let (case, mark) = (CaseId::new(), Mark { version: "0".into(), fingerprint: "f".into() });
    let mut seq = 0;
    bencher.bench_local(|| {
        let stamped = Stamped { at: at(), entry: said() };
        let event = Event { id: EventId::new(), case: case.clone(), seq, stamped, zone_min: 60 };
        seq += 1;
        ledger.append(&event, &mark, &Cover::default()).unwrap_or_else(|error| fail(error));
    });
}

/// The same two statements in the same transaction with the same durability, by hand.
#[divan::bench]
fn keep_one_event_by_bare_sql(bencher: Bencher) {
    let folder = tempfile::tempdir().unwrap_or_else(|error| fail(error));
    drop(Ledger::open(folder.path()).unwrap_or_else(|error| fail(error)));
    let mut connection = bare(&folder);
    let mut seq = 0;
    bencher.bench_local(|| {
        let transaction =
            connection.transaction_with_behavior(TransactionBehavior::Immediate).unwrap_or_else(|error| fail(error));
        let body = r#"{"said":[{"about":{"wound":1},"question":"size","answer":{"choice":"small"}}]}"#;
        let done = transaction
            .prepare_cached(INSERT)
            .and_then(|mut insert| {
                insert.execute(params!["case", seq, seq.to_string(), "2024-10-04T00:00:00+00:00", body])
            })
            .and_then(|_| transaction.prepare_cached(COVER)?.execute(params!["case", "2024-10-04T00:00:00+00:00"]));
        done.and_then(|_| transaction.commit()).unwrap_or_else(|error| fail(error));
        seq += 1;
    });
}

fn bare(folder: &TempDir) -> Connection {
    let connection = Connection::open(folder.path().join(FILE)).unwrap_or_else(|error| fail(error));
    let set =
        connection.execute_batch("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF;");
    set.unwrap_or_else(|error| fail(error));
    connection
}

/// Ledgers of so many cases of twenty events each, made once.
static LEDGERS: LazyLock<Mutex<BTreeMap<u32, TempDir>>> = LazyLock::new(Mutex::default);

fn large<T>(cases: u32, with: impl FnOnce(&TempDir) -> T) -> T {
    let mut ledgers = LEDGERS.lock().unwrap_or_else(|error| fail(error));
    with(ledgers.entry(cases).or_insert_with(|| {
        let folder = tempfile::tempdir().unwrap_or_else(|error| fail(error));
        drop(Ledger::open(folder.path()).unwrap_or_else(|error| fail(error)));
        let connection = bare(&folder);
        let filled = connection.execute_batch(&format!(
            "PRAGMA synchronous = OFF; BEGIN;
             WITH RECURSIVE c(n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM c WHERE n < {cases} - 1), s(k) AS (SELECT 0 UNION ALL SELECT k + 1 FROM s WHERE k < 19)
             INSERT INTO event SELECT printf('case-%08d', n), k, printf('%d-%d', n, k), strftime('%Y-%m-%dT%H:%M:%S+00:00', 1700000000 + n * 60 + k, 'unixepoch'),
                60, 'said', 1, '{{\"said\":[{{\"about\":\"bird\",\"question\":\"eyelid\",\"answer\":{{\"choice\":\"pink\"}}}}]}}', '0', 'f' FROM c, s;
             INSERT INTO cover (case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint) SELECT case_id, min(at_utc), max(at_utc), count(*), 'Bird ' || substr(case_id, 6), 'hen', 'care at home',
                CASE WHEN substr(case_id, 13) < '3' THEN max(at_utc) END, CASE WHEN substr(case_id, 12) < '50' THEN 'open' ELSE 'recovered' END, 0, 'f' FROM event GROUP BY case_id;
             COMMIT; PRAGMA wal_checkpoint(TRUNCATE);"
        ));
        filled.unwrap_or_else(|error| fail(error));
        folder
    }))
}

const SIZES: [u32; 3] = [1_000, 10_000, 100_000];

/// The first page of the list.
#[divan::bench(args = SIZES)]
fn list_the_first_page(bencher: Bencher, cases: u32) {
    let ledger = large(cases, |folder| Ledger::open(folder.path()).unwrap_or_else(|error| fail(error)));
    bencher.bench_local(|| ledger.cases(black_box(&Filter::default()), 0, 20).unwrap_or_else(|error| fail(error)));
}

#[divan::bench(args = SIZES)]
fn list_the_first_page_by_bare_sql(bencher: Bencher, cases: u32) {
    let connection = large(cases, bare);
    let sql = "SELECT case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint FROM cover \
         WHERE state = 'open' AND archived = 0 ORDER BY coalesce(due_utc, '9'), last_utc DESC LIMIT 20";
    bencher.bench_local(|| {
        let mut statement = connection.prepare_cached(sql).unwrap_or_else(|error| fail(error));
        // The moments read, as a list needs them.
        let moment = |text: Option<String>| text.and_then(|text| text.parse::<DateTime<Utc>>().ok());
        let rows = statement.query_map([], |row| {
            let words: [String; 5] = [row.get(0)?, row.get(4)?, row.get(5)?, row.get(6)?, row.get(8)?];
            let moments = [moment(row.get(1)?), moment(row.get(2)?), moment(row.get(7)?)];
            Ok((words, moments, row.get::<_, i64>(3)?, row.get::<_, bool>(9)?, row.get::<_, String>(10)?))
        });
        rows.and_then(Iterator::collect::<rusqlite::Result<Vec<_>>>).unwrap_or_else(|error| fail(error))
    });
}

/// One case in full.
#[divan::bench(args = SIZES)]
fn open_a_case(bencher: Bencher, cases: u32) {
    let ledger = large(cases, |folder| Ledger::open(folder.path()).unwrap_or_else(|error| fail(error)));
    let id = ledger.find(&format!("case-{:08}", cases / 2)).unwrap_or_else(|error| fail(error));
    bencher.bench_local(|| ledger.load(black_box(id.clone())).unwrap_or_else(|error| fail(error)));
}

#[divan::bench(args = SIZES)]
fn open_a_case_by_bare_sql(bencher: Bencher, cases: u32) {
    let connection = large(cases, bare);
    let id = format!("case-{:08}", cases / 2);
    bencher.bench_local(|| {
        let sql = "SELECT seq, at_utc, body FROM event WHERE case_id = ?1 ORDER BY seq";
        let mut statement = connection.prepare_cached(sql).unwrap_or_else(|error| fail(error));
        let rows = statement.query_map([&id], |row| {
            let (at, body): (String, String) = (row.get(1)?, row.get(2)?);
            let parsed = at.parse::<DateTime<Utc>>().ok().zip(serde_json::from_str::<Entry>(&body).ok());
            Ok((row.get::<_, i64>(0)?, parsed))
        });
        rows.and_then(Iterator::collect::<rusqlite::Result<Vec<_>>>).unwrap_or_else(|error| fail(error))
    });
}

/// What is due now.
#[divan::bench(args = SIZES)]
fn list_what_is_due(bencher: Bencher, cases: u32) {
    let ledger = large(cases, |folder| Ledger::open(folder.path()).unwrap_or_else(|error| fail(error)));
    bencher.bench_local(|| ledger.due_before(at(), 20).unwrap_or_else(|error| fail(error)));
}
