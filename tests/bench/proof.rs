//! How fast proofs and exact bands are, and how they grow: `cargo bench --bench proof`. Read the ratios.

use chrono::{DateTime, Utc};
use coopside::finding::Findings;
use coopside::judge::{self, levels};
use coopside::practice;
use coopside::protocol::Protocol;
use coopside::protocol::question::Asked;
use coopside::protocol::rule::Rule;
use coopside::prove::{Claim, Telling, Work, envelope, explain, matters, most_telling, prove, prove_one};
use coopside::sheet::{Sheet, Truth};
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
        let still = judge::open(&PROTOCOL, &sheet).questions;
        let Ok(proven) = envelope(&PROTOCOL, &sheet, ENOUGH) else { return 0 };
        let open = matters(&PROTOCOL, &sheet, &proven, &still, ENOUGH).unwrap_or_default();
        most_telling(&PROTOCOL, &sheet, &tellings(&open)).len()
    };
    let mut all: Vec<_> = PREFIXES.iter().map(|findings| timed(|| both(findings))).collect();
    all.sort_unstable();
    eprintln!("matters and ask next: 99 in 100 under {:?}, slowest {:?}", all.get(all.len() * 99 / 100), all.last());
    let mut turn = PREFIXES.iter().cycle();
    bencher.with_inputs(|| turn.next()).bench_local_values(|findings| findings.map(both));
}

/// How many questions it takes until nothing open changes the verdict any more, the danger signs first: by the hint, in the order
/// of the body, and at the least, as one would ask who knew every answer beforehand. Counted once over every fourth scripted
/// bird and told on standard error.
#[divan::bench(sample_count = 1, sample_size = 1)]
fn questions_to_a_settled_verdict() {
    let whole: Vec<&Findings> = PREFIXES.iter().filter(|findings| findings.looked_over()).step_by(4).collect();
    let count = |by_hint: bool| whole.iter().map(|known| questions_asked(known, by_hint)).sum::<usize>();
    let (hint, body) = (count(true), count(false));
    let least: usize = whole.iter().map(|known| questions_needed(known)).sum();
    eprintln!(
        "questions to a settled verdict over {} birds: {hint} by the hint, {body} in the order of the body, {least} at the least",
        whole.len()
    );
}

/// The smallest set of answers found that settles the verdict: the danger signs, and what cannot be left out of the rest, the best of
/// a few orders of leaving out.
fn questions_needed(known: &Findings) -> usize {
    let said = known.said();
    let listed = |at: usize| {
        let question = said.get(at).and_then(|said| PROTOCOL.question_at(said.statement.question.as_str()));
        question.is_some_and(|at| PROTOCOL.is_danger_sign(PROTOCOL.ask(at)))
    };
    let settles = |kept: &[bool]| {
        let mut findings = found_wounds(known);
        for (said, _) in said.iter().zip(kept).filter(|(_, kept)| **kept) {
            findings.say(said.statement.clone(), said.at);
        }
        let sheet = Sheet::lay(&PROTOCOL, &findings, now());
        envelope(&PROTOCOL, &sheet, ENOUGH).is_ok_and(|proven| proven.is_settled())
    };
    let by_order = |seed: u64| {
        let mut kept = vec![true; said.len()];
        let mut order: Vec<usize> = (0..said.len()).filter(|at| !listed(*at)).collect();
        fastrand::Rng::with_seed(seed).shuffle(&mut order);
        for at in order {
            kept.iter_mut().skip(at).take(1).for_each(|kept| *kept = false);
            let settled = settles(&kept);
            kept.iter_mut().skip(at).take(1).for_each(|kept| *kept = !settled);
        }
        kept.into_iter().filter(|kept| *kept).count()
    };
    (0..6).map(by_order).min().unwrap_or_default()
}

/// A bird of whom nothing is known but how many wounds she has.
fn found_wounds(known: &Findings) -> Findings {
    let mut findings = Findings::default();
    (0..known.wounds()).for_each(|_| {
        findings.find_wound();
    });
    findings.look_over();
    findings
}

fn questions_asked(known: &Findings, by_hint: bool) -> usize {
    let mut so_far = found_wounds(known);
    for asked in 0..known.said().len() {
        let sheet = Sheet::lay(&PROTOCOL, &so_far, now());
        let Ok(proven) = envelope(&PROTOCOL, &sheet, ENOUGH) else { return asked };
        if proven.is_settled() {
            return asked;
        }
        let rest = |asked: &Asked| {
            let id = PROTOCOL.ask(asked.question).id.as_str();
            so_far.answer(asked.about, id).is_none() && known.answer(asked.about, id).is_some()
        };
        let listed = |asked: &Asked| PROTOCOL.is_danger_sign(PROTOCOL.ask(asked.question));
        let open: Vec<Asked> = judge::open(&PROTOCOL, &sheet).questions.into_iter().filter(rest).collect();
        let hint = || {
            let still = matters(&PROTOCOL, &sheet, &proven, &open, ENOUGH).unwrap_or_default();
            most_telling(&PROTOCOL, &sheet, &tellings(&still)).first().and_then(|(telling, _)| match telling {
                Telling::Question(asked) => Some(*asked),
                Telling::Wounds => None,
            })
        };
        let red = open.iter().copied().find(listed);
        let next = red.or_else(|| by_hint.then(hint).flatten());
        let in_order = || {
            let left = known.said().iter().map(|said| &said.statement).filter_map(|said| {
                Some(Asked { about: said.about, question: PROTOCOL.question_at(said.question.as_str())? })
            });
            left.filter(rest)
                .filter(|asked| sheet.applies(asked.about.into(), asked.question) != Truth::No)
                .min_by_key(|asked| (asked.question, asked.about))
        };
        let next = next.or_else(in_order);
        let said = next.and_then(|asked| known.answer(asked.about, PROTOCOL.ask(asked.question).id.as_str()));
        let Some(said) = said else { return asked };
        so_far.say(said.statement.clone(), said.at);
    }
    known.said().len()
}

fn tellings(open: &[Asked]) -> Vec<Telling> {
    open.iter().copied().map(Telling::Question).collect()
}

/// The best of three, so that what the machine does besides is not counted; every run works it out anew.
fn timed<T>(run: impl Fn() -> T) -> std::time::Duration {
    let once = || {
        let began = std::time::Instant::now();
        black_box(run());
        began.elapsed()
    };
    once().min(once()).min(once())
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
