//! How long a handover sheet takes in each form, for a bird with five wounds, and how much is allocated for it.

use chrono::{DateTime, TimeDelta, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::care::{self, Plan};
use coopside::days::Days;
use coopside::finding::Findings;
use coopside::finding::log::{Entry, Stamped};
use coopside::handover::document::Reader;
use coopside::handover::sheet::{Sheet, Told, html, json, markdown, pdf, sheet, text};
use coopside::judge::Verdict;
use coopside::notes;
use coopside::protocol::{Protocol, UNSET};
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
    verdict: Verdict,
    plan: Plan,
}

static PROTOCOL: LazyLock<Option<Protocol>> = LazyLock::new(|| Protocol::shipped().ok());
static KEPT: LazyLock<Option<Kept>> = LazyLock::new(|| kept(PROTOCOL.as_ref()?));
static SHEET: LazyLock<Option<Sheet>> = LazyLock::new(made);

fn now() -> DateTime<Utc> {
    DateTime::UNIX_EPOCH + TimeDelta::days(20_012)
}

fn kept(protocol: &Protocol) -> Option<Kept> {
    let first = DateTime::UNIX_EPOCH + TimeDelta::days(20_000);
    let findings = notes::read(protocol, "five", include_str!("five_wounds.ron"), first).ok()?;
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
    let verdict = coopside::judge::judge(protocol, &findings, now());
    let plan = care::plan(protocol, &verdict, &Cupboard::default());
    Some(Kept { log, days, findings, verdict, plan })
}

fn made() -> Option<Sheet> {
    let (protocol, kept) = (PROTOCOL.as_ref()?, KEPT.as_ref()?);
    let reader = Reader { zone: Zone::named("Etc/UTC")?, country: protocol.country(UNSET) };
    let Kept { log, days, findings, verdict, plan } = kept;
    Some(sheet(protocol, Told { log, days, findings, verdict, plan, with_keeper: false }, reader, now()))
}

fn main() {
    divan::main();
}

#[divan::bench]
fn the_sheet_itself(bencher: Bencher) {
    bencher.bench(|| black_box(made()));
}

#[divan::bench]
fn as_text(bencher: Bencher) {
    bencher.bench(|| SHEET.as_ref().map(text));
}

#[divan::bench]
fn as_markdown(bencher: Bencher) {
    bencher.bench(|| SHEET.as_ref().map(markdown));
}

#[divan::bench]
fn as_html(bencher: Bencher) {
    bencher.bench(|| SHEET.as_ref().map(html));
}

#[divan::bench]
fn as_json(bencher: Bencher) {
    bencher.bench(|| SHEET.as_ref().map(json));
}

#[divan::bench]
fn as_pdf(bencher: Bencher) {
    bencher.bench(|| SHEET.as_ref().map(pdf));
}
