//! How fast proofs and exact bands are, and how they grow: `cargo bench --bench proof`. Read the ratios.

use chrono::{DateTime, Utc};
use coopside::finding::Findings;
use coopside::judge::{judge, levels};
use coopside::practice;
use coopside::protocol::Protocol;
use coopside::protocol::rule::Rule;
use coopside::prove::{Claim, Work, envelope, explain, matters, most_telling, prove, prove_one};
use coopside::sheet::Sheet;
use divan::{Bencher, black_box};
use std::fs;
use std::sync::LazyLock;

static PROTOCOL: LazyLock<Protocol> = LazyLock::new(|| Protocol::shipped().unwrap_or_else(|faults| exit(&faults)));
/// The protocol with every rule there once, twice and four times, under names of their own.
static SIZES: LazyLock<[Protocol; 3]> = LazyLock::new(|| [1, 2, 4].map(times));

const ENOUGH: Work = Work(2000);

fn exit(why: &dyn std::fmt::Display) -> ! {
    eprintln!("{why}");
    std::process::exit(1)
}

fn main() {
    divan::main();
}

fn now() -> DateTime<Utc> {
    DateTime::UNIX_EPOCH
}

fn times(times: usize) -> Protocol {
    let mut protocol = PROTOCOL.clone();
    let copies = (1..times).flat_map(|nth| {
        PROTOCOL.rules.iter().map(move |rule| Rule { id: format!("{}_{nth}", rule.id).as_str().into(), ..rule.clone() })
    });
    protocol.rules.extend(copies);
    protocol
}

/// Every scripted bird, and what is known after each of her answers: what a person sees at every key press.
static PREFIXES: LazyLock<Vec<Findings>> = LazyLock::new(|| {
    let mut found = vec![Findings::default()];
    let mut files: Vec<_> = fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/scenarios"))
        .unwrap_or_else(|error| exit(&error))
        .flatten()
        .map(|entry| entry.path())
        .collect();
    files.sort();
    for file in files {
        let text = fs::read_to_string(&file).unwrap_or_else(|error| exit(&error));
        let known = practice::read(&PROTOCOL, "scenario", &text, now()).unwrap_or_else(|faults| exit(&faults)).1;
        let mut so_far = Findings::default();
        for said in known.said() {
            so_far.say(said.statement.clone(), said.at);
            found.push(so_far.clone());
        }
        found.push(known);
    }
    found
});

/// The envelope at every key press of every scripted bird; the slowest of all is told on standard error.
#[divan::bench]
fn envelope_at_every_key(bencher: Bencher) {
    let sheets: Vec<Sheet> = PREFIXES.iter().map(|findings| Sheet::lay(&PROTOCOL, findings, now())).collect();
    let mut all: Vec<_> = sheets.iter().map(|sheet| timed(|| envelope(&PROTOCOL, sheet, ENOUGH))).collect();
    all.sort_unstable();
    let (many, most) = (all.len(), all.get(all.len() * 99 / 100));
    eprintln!("envelope: {many} key presses, 99 in 100 under {most:?}, slowest {:?}", all.last());
    let mut turn = sheets.iter().cycle();
    bencher
        .with_inputs(|| turn.next())
        .bench_local_values(|sheet| sheet.map(|sheet| envelope(&PROTOCOL, sheet, ENOUGH).is_ok()));
}

/// What still matters and what to ask next, at every key press of every scripted bird.
#[divan::bench]
fn matters_and_ask_next_at_every_key(bencher: Bencher) {
    let both = |findings: &Findings| {
        let sheet = Sheet::lay(&PROTOCOL, findings, now());
        let verdict = judge(&PROTOCOL, findings, now());
        let Ok(proven) = envelope(&PROTOCOL, &sheet, ENOUGH) else { return 0 };
        let open = matters(&PROTOCOL, &sheet, &proven, &verdict.open, ENOUGH).unwrap_or_default();
        most_telling(&PROTOCOL, &sheet, &open).len()
    };
    let mut all: Vec<_> = PREFIXES.iter().map(|findings| timed(|| both(findings))).collect();
    all.sort_unstable();
    eprintln!("matters and ask next: 99 in 100 under {:?}, slowest {:?}", all.get(all.len() * 99 / 100), all.last());
    let mut turn = PREFIXES.iter().cycle();
    bencher.with_inputs(|| turn.next()).bench_local_values(|findings| findings.map(both));
}

fn timed<T>(run: impl FnOnce() -> T) -> std::time::Duration {
    let began = std::time::Instant::now();
    black_box(run());
    began.elapsed()
}

/// Why at least this, what ruled out worse, what would change it, until when: once a person looks.
#[divan::bench]
fn a_verdict_explained(bencher: Bencher) {
    let known = practice::read(&PROTOCOL, "five", include_str!("five_wounds.ron"), now());
    let known = known.unwrap_or_else(|faults| exit(&faults)).1;
    let verdict = coopside::prove::judge(&PROTOCOL, &known, now());
    bencher.bench(|| explain(&PROTOCOL, black_box(&known), &verdict));
}

/// The scales of a bird of whom everything is known, nothing else.
#[divan::bench]
fn levels_of_a_known_bird(bencher: Bencher) {
    let known = PREFIXES.last().cloned().unwrap_or_default();
    let sheet = Sheet::lay(&PROTOCOL, &known, now());
    bencher.bench(|| levels(&PROTOCOL, black_box(&sheet)));
}

/// Every claim over every bird: the shipped protocol, and its rules twice and four times.
#[divan::bench(args = [0, 1, 2], sample_count = 10)]
fn whole_proof(bencher: Bencher, size: usize) {
    let protocol = SIZES.get(size).unwrap_or(&PROTOCOL);
    bencher.bench(|| prove(black_box(protocol), ENOUGH));
}

/// What `tests/oracle/second_mind.py` proves under `monotone`, to be held against the time it tells.
#[divan::bench(sample_count = 20)]
fn monotone_alone(bencher: Bencher) {
    bencher.bench(|| prove_one(black_box(&PROTOCOL), Claim::WorseNeverMilder, ENOUGH));
}
