//! The verdict as a document: the three scales, why, what is open, severity, what else it could be.

use super::document::{self, Item, Judged, Section, Tone, paragraphs, section, topic};
use super::{answers, figures, proven, terms, unweighed, why};
use crate::judge::{Clash, Level, Reason};
use crate::phrase::{Phrase, Text, heading, terms as words, verdict as phrase};
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::Asked;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Need, Severity, System};
use crate::protocol::texts::{Country, Under};
use crate::prove::{Exact, Whole};
use crate::sheet::Sheet;
use std::collections::BTreeSet;

/// A scale's band: one rung where both ends agree, else what stands and what could still come.
pub fn band<T: Copy + PartialEq + Default>(level: Level<T>, words: impl Fn(T) -> Phrase) -> Text {
    band_of(level, |rung| words(rung).into())
}

/// The same of words at hand.
pub(super) fn band_of<T: Copy + PartialEq + Default>(level: Level<T>, words: impl Fn(T) -> Text) -> Text {
    let (low, high) = (words(level.low), words(level.high));
    if level.low == level.high {
        low
    } else if level.low == T::default() {
        phrase::so_far(low, high).into()
    } else {
        phrase::at_least(low, high).into()
    }
}

/// With more questions open than this, the worst that could still come is no news: nobody has looked at her yet.
const HARDLY_BEGUN: usize = 20;

/// A grave scale. While the look has hardly begun, what it could still come to would only frighten.
fn band_so_far<T: Copy + Default + PartialEq>(verdict: &Whole, level: Level<T>, words: fn(T) -> Phrase) -> Text {
    if level.low == T::default() && level.high != level.low && verdict.open.len() > HARDLY_BEGUN {
        phrase::not_finished(words(level.low)).into()
    } else {
        band(level, words)
    }
}

/// What of her answers cannot all be true.
pub fn clash(clash: &Clash) -> Text {
    match clash {
        Clash::Told(said) => Text::quoted(said),
        Clash::Misweighed => phrase::misweighed().into(),
    }
}

/// The verdict: the three scales, severity, why, what is open.
pub fn sections(protocol: &Protocol, judged: Judged, country: &Country) -> Vec<Section<Text>> {
    let verdict = judged.verdict;
    let why = reasons(protocol, verdict).into_iter().map(|(lead, why)| Item { lead, why, ..Item::default() });
    let clashes = verdict.clashes.iter().map(|clash| Item::plain(self::clash(clash)));
    let not_understood = verdict.not_understood.iter().map(|told| Item::plain(Text::typed(told)));
    let mut sections = vec![
        section(heading::verdict(), Tone::Plain, scales(protocol, judged)),
        section(heading::why(), Tone::Plain, why.collect()),
        figures::told(protocol, verdict),
        section(heading::still_open(), Tone::Plain, still_open(protocol, verdict)),
        section(heading::severity(), Tone::Plain, severity(protocol, verdict)),
        section(heading::scores(), Tone::Plain, scores(protocol, verdict)),
        section(heading::could_be(), Tone::Plain, paragraphs(protocol, verdict, Under::CouldBe)),
        unweighed::told(protocol, judged.findings, verdict),
        section(heading::clashes(), Tone::Plain, clashes.collect()),
        section(heading::not_understood(), Tone::Plain, not_understood.collect()),
    ];
    sections.extend(proven::sections(protocol, judged).into_iter().map(Some));
    sections.push(document::caution(country));
    sections.into_iter().flatten().collect()
}

/// Where she stands on each of the three scales, with what each rests on.
fn scales(protocol: &Protocol, judged: Judged) -> Vec<Item<Text>> {
    let Judged { findings, verdict, .. } = judged;
    let sheet = Sheet::lay(protocol, findings, verdict.judged_at);
    let because = |moves: &dyn Fn(&Rule) -> bool| because(protocol, verdict, moves);
    let again = |brings: &dyn Fn(&Rule) -> bool| looks_again(protocol, &sheet, verdict, brings).map(Text::from);
    let need = phrase::need(band(verdict.need, |rung| terms::need(rung, verdict.no_vet())));
    let settled = proven::settled(verdict, is_told(protocol, &sheet)).into();
    let slower = document::slower(protocol, findings, verdict).map(Text::from);
    vec![
        Item {
            why: because(&|rule| rule.need.is_some()),
            more: no_vet(verdict)
                .into_iter()
                .chain([settled])
                .chain(again(&|rule| rule.need == Some(verdict.need.low)))
                .chain(slower)
                .collect(),
            ..Item::plain(need)
        },
        Item {
            why: because(&|rule| rule.humane.is_some()),
            more: turns_on(protocol, verdict)
                .into_iter()
                .chain(again(&|rule| rule.humane == Some(verdict.humane.low)))
                .collect(),
            ..Item::plain(phrase::humane(band_so_far(verdict, verdict.humane, terms::humane)))
        },
        Item {
            why: because(&|rule| rule.authority.is_some()),
            more: again(&|rule| rule.authority == Some(verdict.authority.low)).into_iter().collect(),
            ..Item::plain(phrase::authority(band_so_far(verdict, verdict.authority, terms::authority)))
        },
    ]
}

/// Whether nothing that was asked could not be told, as it stands now: what was looked at again and answered is told.
fn is_told(protocol: &Protocol, sheet: &Sheet) -> bool {
    protocol
        .enumerated()
        .all(|(question, asks)| sheet.abouts(asks).all(|about| !sheet.could_not_be_told(Asked { about, question })))
}

/// What to look at again where a rung stands on nothing but what could not be told.
fn looks_again(protocol: &Protocol, sheet: &Sheet, verdict: &Exact, brings: &dyn Fn(&Rule) -> bool) -> Option<Phrase> {
    let bring = |reason: &&Reason| brings(protocol.rule(reason.rule));
    let mut reasons = verdict.reasons.iter().filter(bring);
    let untold =
        answers::untold(protocol, sheet, reasons.clone()).filter(|_| reasons.all(|reason| reason.is_doubt()))?;
    Some(phrase::look_again(untold))
}

/// Whom to phone in place of a vet in reach, once she needs one.
fn no_vet(verdict: &Exact) -> Option<Text> {
    (verdict.no_vet() && verdict.need.low >= Need::WithinADay)
        .then(|| words::ended(Text::opening(words::no_vet())).into())
}

/// Why, gravest first; what is said alike of several wounds is said once.
fn reasons(protocol: &Protocol, verdict: &Exact) -> Vec<(Text, Vec<Reason>)> {
    let mut told: Vec<(Text, Vec<Reason>)> = Vec::new();
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
    let line = |(leads_to, of): (Text, Vec<Reason>)| {
        let headline = of.first().map_or_else(Text::default, |first| why::headline_of(protocol, *first, &of));
        (Text::opening(words::named(leads_to, headline)), of)
    };
    told.into_iter().map(line).collect()
}

/// So many open questions a grave matter turns on are named; more only daunt, and stand under what is still open.
const TURNS_ON: usize = 4;

/// Which open questions could bring a humane end into question, or further into it.
fn turns_on(protocol: &Protocol, verdict: &Whole) -> Option<Text> {
    let could = |rule: &&Rule| rule.humane.is_some_and(|rung| rung > verdict.humane.low);
    let read = protocol.rules.iter().filter(could).flat_map(|rule| {
        let unless = rule.unless.iter().flat_map(Cond::questions);
        rule.when.questions().into_iter().chain(unless)
    });
    let read: BTreeSet<QuestionAt> = read.collect();
    let open = verdict.open.iter().filter(|asked| read.contains(&asked.question));
    let topics: Vec<Text> = open.map(|asked| topic(protocol, *asked)).collect();
    let few = (1..=TURNS_ON).contains(&topics.len());
    (few && verdict.humane.low < verdict.humane.high).then(|| phrase::turns_on(Text::list_ended(topics)).into())
}

/// Severity where something was found; the systems of which nothing is known yet in one line.
fn severity(protocol: &Protocol, verdict: &Exact) -> Vec<Item<Text>> {
    let found = |level: &Level<Severity>| level.low > Severity::Nothing;
    let told = verdict.severity.iter().filter(|(_, level)| found(level));
    let mut items: Vec<Item<Text>> = told
        .map(|(system, level)| Item {
            why: because(protocol, verdict, &|rule| rule.severity.iter().any(|(of, _)| of == system)),
            more: severity_told(protocol, verdict, *system, level.low),
            ..Item::plain(words::named(terms::system(*system), band(*level, terms::severity)))
        })
        .collect();
    let unknown = verdict.severity.iter().filter(|(_, level)| !found(level)).map(|(system, _)| terms::system(*system));
    let unknown: Vec<Phrase> = unknown.collect();
    if !unknown.is_empty() {
        items.push(Item::plain(phrase::unknown_systems(Text::list_ended(unknown))));
    }
    items
}

/// Each score with its parts; a part that is not known leaves the sum open.
fn scores(protocol: &Protocol, verdict: &Exact) -> Vec<Item<Text>> {
    let told = verdict.scores.iter().map(|scored| {
        let score = protocol.score(scored.score);
        let sum = scored.total().map_or_else(phrase::score_open, |total| phrase::score(total, scored.most));
        let parts = score.of.iter().zip(&scored.parts).map(|(at, points)| {
            let points =
                points.map_or_else(|| Text::from(phrase::points_unknown()), |points| Text::typed(points.to_string()));
            words::named(Text::quoted(&protocol.ask(*at).topic), points)
        });
        let more = vec![Text::list_ended(parts), Text::quoted(&score.say)];
        Item { lead: words::named(Text::quoted(&score.name), sum).into(), more, ..Item::default() }
    });
    told.collect()
}

/// What makes a system so grave in this bird, and what else would count as the same.
fn severity_told(protocol: &Protocol, verdict: &Exact, system: System, grade: Severity) -> Vec<Text> {
    let gives = |rule: &Rule| rule.severity.contains(&(system, grade));
    let found = because(protocol, verdict, &gives).first().map(|reason| why::headline(protocol, *reason));
    let like = protocol.grades_of(system, grade).map(|words| phrase::as_grave(Text::quoted(words)).into());
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

fn still_open(protocol: &Protocol, verdict: &Whole) -> Vec<Item<Text>> {
    let mut items = Vec::new();
    if !verdict.held.is_empty() {
        let mut ask: Vec<Text> =
            verdict.held.iter().flat_map(|held| &held.ask).map(|asked| topic(protocol, *asked)).collect();
        ask.dedup();
        items.push(Item::with(phrase::ask_next(), Text::list_ended(ask), &[]));
    }
    if verdict.open_wounds {
        items.push(Item::plain(phrase::look_over()));
    }
    if !verdict.open.is_empty() {
        let topics = Text::list_ended(verdict.open.iter().map(|asked| topic(protocol, *asked)));
        items.push(Item::with(phrase::could_change(verdict.open.len()), topics, &[]));
    }
    items
}
