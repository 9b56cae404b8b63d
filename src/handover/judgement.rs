//! The verdict as a document: the three scales, why, what is open, severity, what else it could be.

use super::document::{self, Item, Judged, Reader, Section, Tone, list, paragraphs, section, topic, upper_first};
use super::{answers, figures, proven, unweighed, why};
use crate::judge::{Level, Reason};
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::Asked;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, NO_VET, Need, Severity, System};
use crate::protocol::texts::Under;
use crate::prove::{Exact, Whole};
use crate::sheet::Sheet;
use std::collections::BTreeSet;

/// A scale's band in words: one rung where both ends agree, else what stands and what could still come.
pub fn band<T: Copy + PartialEq + Default>(level: Level<T>, words: impl Fn(T) -> &'static str) -> String {
    if level.low == level.high {
        words(level.low).to_owned()
    } else if level.low == T::default() {
        format!("{} so far; open questions could mean: {}", words(level.low), words(level.high))
    } else {
        format!("{} at least; open questions could mean: {}", words(level.low), words(level.high))
    }
}

/// With more questions open than this, the worst that could still come is no news: nobody has looked at her yet.
const HARDLY_BEGUN: usize = 20;

/// A grave scale in words. While the look has hardly begun, what it could still come to would only frighten.
fn band_so_far<T: Copy + Default + PartialEq>(
    verdict: &Whole,
    level: Level<T>,
    words: fn(T) -> &'static str,
) -> String {
    if level.low == T::default() && level.high != level.low && verdict.open.len() > HARDLY_BEGUN {
        format!("{} so far; the look is not finished", words(level.low))
    } else {
        band(level, words)
    }
}

/// The verdict: the three scales, severity, why, what is open.
pub fn sections(protocol: &Protocol, judged: Judged, reader: Reader) -> Vec<Section> {
    let verdict = judged.verdict;
    let sheet = Sheet::lay(protocol, judged.findings, verdict.judged_at);
    let because = |moves: &dyn Fn(&Rule) -> bool| because(protocol, verdict, moves);
    let need = format!("Need: {}", band(verdict.need, Need::told(verdict.no_vet())));
    let scales = vec![
        Item {
            why: because(&|rule| rule.need.is_some()),
            ..with_slower(
                protocol,
                judged,
                Item {
                    more: no_vet(verdict)
                        .into_iter()
                        .chain([proven::settled(verdict, is_told(protocol, &sheet))])
                        .chain(looks_again(protocol, &sheet, verdict, &|rule| rule.need == Some(verdict.need.low)))
                        .collect(),
                    ..Item::plain(need)
                },
            )
        },
        Item {
            why: because(&|rule| rule.humane.is_some()),
            more: turns_on(protocol, verdict)
                .into_iter()
                .chain(looks_again(protocol, &sheet, verdict, &|rule| rule.humane == Some(verdict.humane.low)))
                .collect(),
            ..Item::plain(format!("Humane end: {}", band_so_far(verdict, verdict.humane, Humane::words)))
        },
        Item {
            why: because(&|rule| rule.authority.is_some()),
            more: looks_again(protocol, &sheet, verdict, &|rule| rule.authority == Some(verdict.authority.low))
                .into_iter()
                .collect(),
            ..Item::plain(format!(
                "Animal-health authority: {}",
                band_so_far(verdict, verdict.authority, Authority::words)
            ))
        },
    ];
    let why = reasons(protocol, verdict).into_iter().map(|(lead, why)| Item { lead, why, ..Item::default() });
    let mut sections = vec![
        section("VERDICT", Tone::Plain, scales),
        section("WHY", Tone::Plain, why.collect()),
        figures::told(protocol, verdict),
        section("STILL OPEN", Tone::Plain, still_open(protocol, verdict)),
        section("BY PART OF THE BODY (no odds of survival)", Tone::Plain, severity(protocol, verdict)),
        section("TO COMPARE AT THE NEXT LOOK (our own words, no odds)", Tone::Plain, scores(protocol, verdict)),
        section("COULD ALSO BE", Tone::Plain, paragraphs(protocol, verdict, Under::CouldBe)),
        unweighed::told(protocol, judged.findings, verdict),
        section("DO NOT FIT TOGETHER", Tone::Plain, verdict.clashes.iter().map(Item::plain).collect()),
        section(
            "NOT UNDERSTOOD BY THIS PROTOCOL, COUNTED AS CANNOT TELL",
            Tone::Plain,
            verdict.not_understood.iter().map(Item::plain).collect(),
        ),
    ];
    sections.extend(proven::sections(protocol, judged, reader).into_iter().map(Some));
    sections.push(document::caution(reader.country));
    sections.into_iter().flatten().collect()
}

/// Whether nothing that was asked could not be told, as it stands now: what was looked at again and answered is told.
fn is_told(protocol: &Protocol, sheet: &Sheet) -> bool {
    protocol
        .enumerated()
        .all(|(question, asks)| sheet.abouts(asks).all(|about| !sheet.could_not_be_told(Asked { about, question })))
}

/// What to look at again where a rung stands on nothing but what could not be told.
fn looks_again(protocol: &Protocol, sheet: &Sheet, verdict: &Exact, brings: &dyn Fn(&Rule) -> bool) -> Option<String> {
    let bring = |reason: &&Reason| brings(protocol.rule(reason.rule));
    let mut reasons = verdict.reasons.iter().filter(bring);
    let untold =
        answers::untold(protocol, sheet, reasons.clone()).filter(|_| reasons.all(|reason| reason.is_doubt()))?;
    Some(format!("Nobody could tell, so it counts: {untold} Can it be seen now? Look, and answer it."))
}

/// Whom to phone in place of a vet in reach, once she needs one.
fn no_vet(verdict: &Exact) -> Option<String> {
    (verdict.no_vet() && verdict.need.low >= Need::WithinADay).then(|| format!("{}.", upper_first(NO_VET)))
}

/// Why, gravest first; what is said alike of several wounds is said once.
fn reasons(protocol: &Protocol, verdict: &Exact) -> Vec<(String, Vec<Reason>)> {
    let mut told: Vec<(String, Vec<Reason>)> = Vec::new();
    for reason in verdict.reasons.iter().filter(|reason| moves_a_scale(protocol, **reason)) {
        let leads_to = why::consequence(protocol, *reason, verdict.no_vet());
        // The rule alone tells two wounds apart no more than its words do.
        let alike = |before: &Reason| before.rule == reason.rule && before.standing == reason.standing;
        if let Some((_, of)) = told.iter_mut().find(|(_, of)| of.first().is_some_and(alike)) {
            of.push(*reason);
        } else {
            told.push((leads_to, vec![*reason]));
        }
    }
    let line = |(leads_to, of): (String, Vec<Reason>)| {
        let headline = of.first().map_or_else(String::new, |first| why::headline_of(protocol, *first, &of));
        (upper_first(&format!("{leads_to}: {headline}")), of)
    };
    told.into_iter().map(line).collect()
}

/// So many open questions a grave matter turns on are named; more only daunt, and stand under what is still open.
const TURNS_ON: usize = 4;

/// Which open questions could bring a humane end into question, or further into it.
fn turns_on(protocol: &Protocol, verdict: &Whole) -> Option<String> {
    let could = |rule: &&Rule| rule.humane.is_some_and(|rung| rung > verdict.humane.low);
    let read = protocol.rules.iter().filter(could).flat_map(|rule| {
        let unless = rule.unless.iter().flat_map(Cond::questions);
        rule.when.questions().into_iter().chain(unless)
    });
    let read: BTreeSet<QuestionAt> = read.collect();
    let open = verdict.open.iter().filter(|asked| read.contains(&asked.question));
    let topics: Vec<String> = open.map(|asked| topic(protocol, *asked)).collect();
    let few = (1..=TURNS_ON).contains(&topics.len());
    (few && verdict.humane.low < verdict.humane.high).then(|| format!("It turns on: {}", list(&topics)))
}

fn with_slower(protocol: &Protocol, judged: Judged, mut need: Item) -> Item {
    need.more.extend(document::slower(protocol, judged.findings, judged.verdict).map(str::to_owned));
    need
}

/// Severity where something was found; the systems of which nothing is known yet in one line.
fn severity(protocol: &Protocol, verdict: &Exact) -> Vec<Item> {
    let found = |level: &Level<Severity>| level.low > Severity::Nothing;
    let told = verdict.severity.iter().filter(|(_, level)| found(level));
    let mut items: Vec<Item> = told
        .map(|(system, level)| Item {
            why: because(protocol, verdict, &|rule| rule.severity.iter().any(|(of, _)| of == system)),
            more: severity_told(protocol, verdict, *system, level.low),
            ..Item::plain(format!("{}: {}", system.words(), band(*level, Severity::words)))
        })
        .collect();
    let unknown: Vec<String> = verdict
        .severity
        .iter()
        .filter(|(_, level)| !found(level))
        .map(|(system, _)| system.words().to_owned())
        .collect();
    if !unknown.is_empty() {
        items.push(Item::plain(format!("nothing found so far, not all looked at: {}", list(&unknown))));
    }
    items
}

/// Each score with its parts; a part that is not known leaves the sum open.
fn scores(protocol: &Protocol, verdict: &Exact) -> Vec<Item> {
    let told = verdict.scores.iter().map(|scored| {
        let score = protocol.score(scored.score);
        let sum =
            scored.total().map_or_else(|| "not complete".to_owned(), |total| format!("{total} of {}", scored.most));
        let parts = score.of.iter().zip(&scored.parts).map(|(at, points)| {
            let points = points.map_or_else(|| "not known".to_owned(), |points| points.to_string());
            format!("{}: {points}", protocol.ask(*at).topic)
        });
        let parts = list(&parts.collect::<Vec<_>>());
        Item { lead: format!("{}: {sum}", score.name), more: vec![parts, score.say.clone()], ..Item::default() }
    });
    told.collect()
}

/// What makes a system so grave in this bird, and what else would count as the same.
fn severity_told(protocol: &Protocol, verdict: &Exact, system: System, grade: Severity) -> Vec<String> {
    let gives = |rule: &Rule| rule.severity.contains(&(system, grade));
    let found = because(protocol, verdict, &gives).first().map(|reason| why::headline(protocol, *reason));
    let like = protocol.grades_of(system, grade).map(|words| format!("As grave as, for example: {words}."));
    found.into_iter().chain(like).collect()
}

/// The rules in force that do a certain thing, gravest first.
fn because(protocol: &Protocol, verdict: &Exact, does: &dyn Fn(&Rule) -> bool) -> Vec<Reason> {
    verdict.reasons.iter().copied().filter(|reason| does(protocol.rule(reason.rule))).collect()
}

fn moves_a_scale(protocol: &Protocol, reason: Reason) -> bool {
    let rule = protocol.rule(reason.rule);
    rule.need.is_some() || rule.humane.is_some() || rule.authority.is_some()
}

fn still_open(protocol: &Protocol, verdict: &Whole) -> Vec<Item> {
    let mut items = Vec::new();
    if !verdict.held.is_empty() {
        let ask: Vec<String> =
            verdict.held.iter().flat_map(|held| &held.ask).map(|asked| topic(protocol, *asked)).collect();
        items.push(Item::with("Ask next: whether a humane end is in question turns on it.", list(&dedup(ask)), &[]));
    }
    if verdict.open_wounds {
        items.push(Item::plain("The look-over for wounds is not finished."));
    }
    if !verdict.open.is_empty() {
        let topics: Vec<String> = verdict.open.iter().map(|asked| topic(protocol, *asked)).collect();
        let count = verdict.open.len();
        let lead = format!("{count} {} could still change this:", if count == 1 { "question" } else { "questions" });
        items.push(Item::with(lead, list(&topics), &[]));
    }
    items
}

fn dedup(mut items: Vec<String>) -> Vec<String> {
    items.dedup();
    items
}
