//! The first screen of the verdict: how soon, whom, why, and nothing more; and what is told of a humane end, and when.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::rolled::bird as rolled;
use crate::common::walk::Walk;
use crate::common::{PROTOCOL, count, now};
use coopside::content::in_short::{self, MOST_WORDS};
use coopside::finding::Findings;
use coopside::finding::log::Entry;
use coopside::practice;
use coopside::protocol::scale::Humane;
use coopside::session::context::Context;

/// Every scripted bird, and 200 drawn ones.
fn birds() -> Vec<(String, Findings)> {
    let scripted = practice::shipped().into_iter().map(|(name, text)| {
        let read = practice::read(&PROTOCOL, name, text, now());
        (name.to_owned(), read.unwrap_or_else(|faults| panic!("\n{faults}")).1)
    });
    let mut rng = fastrand::Rng::with_seed(28);
    let drawn: Vec<_> = (0..count(80, 2_000)).map(|nth| (format!("drawn {nth}"), rolled(&mut rng, now()))).collect();
    scripted.chain(drawn).collect()
}

/// What stands between the lines that part header, page and keys.
fn page(frame: &str) -> Vec<&str> {
    let rule = |line: &&str| line.contains('─');
    let lines: Vec<&str> = frame.lines().collect();
    let first = lines.iter().position(&rule).map_or(0, |at| at + 1);
    let last = lines.iter().rposition(rule).unwrap_or(lines.len());
    let page = lines.get(first..last).unwrap_or_default();
    // That there is more is said where its key stands.
    page.iter().filter(|line| !line.contains("more below")).copied().collect()
}

fn words(lines: &[&str]) -> usize {
    lines.iter().flat_map(|line| line.split_whitespace()).filter(|word| word.chars().any(char::is_alphanumeric)).count()
}

#[test]
fn the_first_screen_of_a_verdict_is_how_soon_whom_and_why() {
    let mut over = Vec::new();
    let mut seen = 0;
    for (name, known) in birds() {
        let mut walk = Walk::at(&known);
        walk.press("v");
        if walk.session.context() != Context::Verdict {
            continue;
        }
        seen += 1;
        let session = &walk.session;
        let short = session.reader().section(&in_short::section(session.protocol, &session.verdict, &session.plan));
        let said: String = short.items.iter().map(|item| item.lead.clone()).collect::<Vec<_>>().join(" ");
        for (columns, rows) in [(40, 20), (60, 24)] {
            let frame = walk.frame(columns, rows);
            let lines = page(&frame);
            let count = words(&lines);
            if count > MOST_WORDS {
                over.push(format!("{name}, {columns}x{rows}: {count} words\n{frame}"));
            }
            // All of it, in its order, and nothing of what lies below.
            let letters = |text: &str| text.chars().filter(|letter| letter.is_alphanumeric()).collect::<String>();
            let (shown, whole) = (letters(&lines.concat()), letters(&said));
            assert!(shown.ends_with(&whole), "{name}, {columns}x{rows}: {whole}\n{frame}");
            // The page after it begins with the rest.
            assert!(frame.contains("more below"), "{name}\n{frame}");
        }
    }
    assert!(seen > 200, "{seen}");
    assert!(over.is_empty(), "{} over\n{}", over.len(), over.join("\n"));
}

#[test]
fn why_is_the_gravest_finding_and_one_call_at_most_is_asked_for() {
    for (name, known) in birds() {
        let walk = Walk::at(&known);
        let (protocol, verdict) = (walk.session.protocol, &walk.session.verdict);
        let short = in_short::section(protocol, verdict, &walk.session.plan);
        let lines: Vec<String> = short.items.iter().map(|item| walk.session.say(item.lead.clone())).collect();
        assert!(lines.iter().filter(|line| line.contains("hone a")).count() <= 1, "{name}: {lines:?}");
        assert!(
            !lines.iter().any(|line| line.contains("Nothing you can still find") || line.contains("Needs:")),
            "{lines:?}"
        );
        let gravest = verdict.reasons.iter().filter_map(|reason| protocol.rule(reason.rule).need).max();
        let told = verdict.reasons.iter().map(|reason| protocol.rule(reason.rule)).filter(|rule| rule.need == gravest);
        // What nobody could tell is never told as if it had been seen.
        let doubt = verdict.reasons.iter().find(|reason| protocol.rule(reason.rule).need.is_some());
        let maybe = lines.iter().any(|line| line.starts_with("Maybe: "));
        assert_eq!(maybe, doubt.is_some_and(|reason| reason.is_doubt()), "{name}: {lines:?}");
        let begins = |reason: &str| {
            let bare = |line: &str| line.trim_start_matches("Maybe: ").trim_end_matches(['.', '?']).to_lowercase();
            lines.iter().take(4).any(|line| reason.to_lowercase().starts_with(&bare(line)))
        };
        assert!(gravest.is_none() || told.into_iter().any(|rule| begins(&rule.reason)), "{name}: {lines:?}");
    }
}

/// Whether a text speaks of a humane end.
fn speaks_of_it(text: &str) -> bool {
    text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase().contains("humane end")
}

#[test]
fn a_humane_end_stands_over_no_question_before_it_is_settled() {
    let (mut frames, mut unsettled) = (0, 0);
    for (name, text) in practice::shipped() {
        let read = practice::read(&PROTOCOL, name, text, now());
        let (_, known) = read.unwrap_or_else(|faults| panic!("\n{faults}"));
        let mut walk = Walk::new();
        for _ in 0..known.wounds() {
            walk.session.record(Entry::FoundWound);
        }
        let said: Vec<_> = known.said().iter().map(|said| said.statement.clone()).collect();
        for some in said.chunks(said.len().div_ceil(4).max(1)) {
            walk.session.record(Entry::Said(some.to_vec()));
            let humane = walk.session.verdict.humane;
            if humane.low == humane.high
                || !matches!(walk.session.context(), Context::Ask | Context::List | Context::Wounds | Context::Body)
            {
                continue;
            }
            unsettled += usize::from(humane.low > Humane::NotInQuestion);
            for (columns, rows) in [(40, 20), (60, 24), (100, 30)] {
                frames += 1;
                let frame = walk.frame(columns, rows);
                assert!(!speaks_of_it(&frame), "{name}, {columns}x{rows}\n{frame}");
            }
            // The verdict tells it once, gently, and never first.
            walk.press("v");
            if walk.session.context() == Context::Verdict {
                let frame = walk.frame(40, 20);
                let lines = page(&frame);
                let told = lines.join(" ").matches("humane").count();
                assert!(told <= 1, "{name}\n{frame}");
                let first = lines.iter().take(3).map(ToString::to_string).collect::<Vec<_>>().join(" ");
                assert!(!speaks_of_it(&first), "{name}\n{frame}");
            }
            walk.press("v");
        }
    }
    assert!(frames > 400 && unsettled > 5, "{frames} {unsettled}");
}
