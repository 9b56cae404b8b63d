//! How long a handover sheet takes in each form, for a bird with five wounds, and how much is allocated for it.

#![expect(clippy::panic, reason = "a benchmark that cannot run panics")]

use chrono::{DateTime, TimeDelta, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::care::{self, Plan};
use coopside::content::sheet::{Sheet, SheetCase, sheet};
use coopside::days::Days;
use coopside::days::due::{Due, due};
use coopside::finding::Findings;
use coopside::finding::log::{Entry, Stamped};
use coopside::practice;
use coopside::protocol::Protocol;
use coopside::prove::Whole;
use coopside::render::sheet::{html, json, markdown, pdf, text};
use coopside::words::Reader;
use coopside::zone::Zone;
use divan::{AllocProfiler, Bencher, black_box};
use std::sync::LazyLock;

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

/// A bird with five wounds that was looked at again on each of twelve days.
struct Kept {
    log: Vec<Stamped>,
    days: Days,
    findings: Findings,
    verdict: Whole,
    plan: Plan,
    due: Due,
}

static PROTOCOL: LazyLock<Protocol> = LazyLock::new(|| Protocol::shipped().unwrap_or_else(|faults| panic!("{faults}")));
static KEPT: LazyLock<Kept> = LazyLock::new(kept);
static SHEET: LazyLock<Sheet> = LazyLock::new(made);

fn now() -> DateTime<Utc> {
    DateTime::UNIX_EPOCH + TimeDelta::days(20_012)
}

fn kept() -> Kept {
    let first = DateTime::UNIX_EPOCH + TimeDelta::days(20_000);
    let text = include_str!("five_wounds.ron");
    let (_, findings) = practice::read(&PROTOCOL, "five", text, first).unwrap_or_else(|faults| panic!("{faults}"));
    let said: Vec<_> = findings.said().iter().map(|said| said.statement.clone()).collect();
    let stamp = |day: i64, entry| Stamped { at: first + TimeDelta::days(day), entry };
    let mut log: Vec<Stamped> = (0..findings.wounds()).map(|_| stamp(0, Entry::FoundWound)).collect();
    log.push(stamp(0, Entry::Said(said.clone())));
    log.push(stamp(0, Entry::LookedOver));
    for day in 1..=12 {
        log.extend(
            [Entry::LookBegan(Vec::new()), Entry::Said(said.clone()), Entry::LookDone].map(|entry| stamp(day, entry)),
        );
    }
    let days = Days::of(&log);
    let verdict = coopside::prove::judge(&PROTOCOL, &findings, now());
    let plan = care::plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
    let due = due(&PROTOCOL, &log, &days, &Cupboard::default(), coopside::zone::Zone::UTC, now());
    assert_eq!((findings.wounds(), days.sittings.len()), (5, 13));
    Kept { log, days, findings, verdict, plan, due }
}

fn made() -> Sheet {
    let reader = Reader::english(Zone::UTC, PROTOCOL.no_country());
    let Kept { log, days, findings, verdict, plan, due } = &*KEPT;
    let told = SheetCase { log, days, findings, verdict, plan, due, keeper: None, practice: false };
    reader.sheet(&sheet(&PROTOCOL, told, reader, now()))
}

fn main() {
    // Made before anything is timed.
    LazyLock::force(&SHEET);
    divan::main();
}

#[divan::bench]
fn the_sheet_itself(bencher: Bencher) {
    bencher.bench(|| black_box(made()));
}

#[divan::bench]
fn as_text(bencher: Bencher) {
    bencher.bench(|| text(&SHEET));
}

#[divan::bench]
fn as_markdown(bencher: Bencher) {
    bencher.bench(|| markdown(&SHEET));
}

#[divan::bench]
fn as_html(bencher: Bencher) {
    bencher.bench(|| html(&SHEET));
}

#[divan::bench]
fn as_json(bencher: Bencher) {
    bencher.bench(|| json(&SHEET));
}

#[divan::bench]
fn as_pdf(bencher: Bencher) {
    bencher.bench(|| pdf(&SHEET));
}
