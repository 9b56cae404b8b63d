//! What is proven of a verdict, in plain words: why at least this, what ruled out worse, what would change it, how long it holds.

use super::document::{Item, Judged, Reader, Section, Tone, section, topic};
use crate::finding::{Answer, Findings};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::scale::Need;
use crate::prove::{Change, Exact, Otherwise, Rung, Scale, ScaleTold, Whole, answer_of};
use chrono::{DateTime, TimeDelta, Utc};

/// How many findings that ruled out worse are named.
const NAMED: usize = 6;

/// The sections that explain a verdict.
pub fn sections(protocol: &Protocol, judged: Judged, reader: Reader) -> Vec<Section> {
    let Judged { verdict, explained: Some(explained), .. } = judged else { return Vec::new() };
    let of_scales = |line: &dyn Fn(&ScaleTold) -> Vec<Item>| explained.scales.iter().flat_map(line).collect::<Vec<_>>();
    let at_least = of_scales(&|told| why_at_least(protocol, judged, told).into_iter().collect());
    let ruled_out = of_scales(&|told| ruled_out(protocol, judged, told).into_iter().collect());
    let mut change = of_scales(&|told| what_if(protocol, verdict, told));
    change.extend(
        explained.until.iter().map(|(moment, then)| {
            Item::plain(by_the_clock(verdict, then, &at_time(reader, *moment, verdict.judged_at)))
        }),
    );
    [
        section("FEWEST FINDINGS THAT BRING IT THERE", Tone::Plain, at_least),
        section("WHAT RULED OUT WORSE", Tone::Plain, ruled_out),
        section("WHAT WOULD CHANGE IT", Tone::Plain, change),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What the clock alone makes of a verdict, scale by scale.
fn by_the_clock(verdict: &Exact, then: &Exact, at: &str) -> String {
    let moved = [
        (verdict.need != then.need).then(|| format!("need then {}", Need::told(verdict.no_vet())(then.need.low))),
        (verdict.humane != then.humane).then(|| format!("humane end then {}", then.humane.low.words())),
        (verdict.authority != then.authority).then(|| format!("authority then {}", then.authority.low.words())),
    ];
    let moved: Vec<String> = moved.into_iter().flatten().collect();
    if moved.is_empty() {
        format!("At {at} the clock alone changes what to do. Open this again then.")
    } else {
        format!("At {at} the clock alone changes this: {}.", moved.join(", "))
    }
}

/// A moment on the bird's own clock; by its date where the weekday alone could mean another week.
fn at_time(reader: Reader, moment: DateTime<Utc>, now: DateTime<Utc>) -> String {
    let far = moment - now > TimeDelta::days(6);
    reader.zone.local(moment).format(if far { "%e %B, %H:%M" } else { "%a %H:%M" }).to_string()
}

/// Whether anything can still change, in one sentence; `told` where nothing that was asked could not be told.
pub fn settled(verdict: &Whole, told: bool) -> String {
    let (need, humane, authority) = (verdict.need, verdict.humane, verdict.authority);
    let one_rung = need.low == need.high && humane.low == humane.high && authority.low == authority.high;
    if one_rung && verdict.open.is_empty() && !verdict.open_wounds {
        let settled = "Settled: no answer still open changes need, humane end or authority.";
        let untold = "As far as could be told, settled: only what could not be told may change it.";
        if told { settled } else { untold }.to_owned()
    } else {
        format!("Nothing you can still find makes this less than: {}.", Need::told(verdict.no_vet())(verdict.need.low))
    }
}

fn why_at_least(protocol: &Protocol, judged: Judged, told: &ScaleTold) -> Option<Item> {
    if told.at_least.is_empty() {
        return None;
    }
    let found: Vec<String> = told.at_least.iter().map(|asked| said(protocol, judged.findings, *asked)).collect();
    let lead = format!("{}, {}:", told.scale.name(), rung(judged.verdict, told.scale, told.floor));
    Some(Item::with(super::document::upper_first(&lead), format!("{}.", found.join("; ")), &[]))
}

fn ruled_out(protocol: &Protocol, judged: Judged, told: &ScaleTold) -> Option<Item> {
    if told.ruled_out.is_empty() {
        return None;
    }
    let named = told.ruled_out.iter().take(NAMED).map(|(asked, _)| said(protocol, judged.findings, *asked));
    let more = told.ruled_out.len().saturating_sub(NAMED);
    let more = (more > 0).then(|| format!("and {more} more"));
    let found: Vec<String> = named.chain(more).collect();
    let lead = format!("{}, no further than {}:", told.scale.name(), rung(judged.verdict, told.scale, told.top));
    let lead = super::document::upper_first(&lead);
    Some(Item::with(lead, format!("{}.", found.join("; ")), &[]))
}

fn what_if(protocol: &Protocol, verdict: &Exact, told: &ScaleTold) -> Vec<Item> {
    let line = |change: &Change| {
        let instead: Vec<String> = change.instead.iter().map(|one| otherwise(protocol, one)).collect();
        let then = format!("{}, {}.", told.scale.name(), rung(verdict, told.scale, change.rung));
        Item::with(format!("If instead {}:", instead.join(", and ")), super::document::upper_first(&then), &[])
    };
    told.what_if.milder.iter().chain(&told.what_if.graver).map(line).collect()
}

/// A rung in words, as her keeper reads them.
fn rung(verdict: &Exact, scale: Scale, rung: Rung) -> &'static str {
    let need = (scale == Scale::Need).then(|| Need::ALL.get(usize::from(rung)).copied()).flatten();
    need.map_or_else(|| scale.words(rung), Need::told(verdict.no_vet()))
}

/// A question's topic and what was said to it.
fn said(protocol: &Protocol, findings: &Findings, asked: Asked) -> String {
    let question = protocol.ask(asked.question);
    let said = findings.answer(asked.about, question.id.as_str());
    let words = said.map_or_else(|| "not asked".to_owned(), |said| question.words(&said.statement.answer));
    named(topic(protocol, asked), &words)
}

/// A topic with an answer; a sign that is answered with its own name is named once.
fn named(topic: String, words: &str) -> String {
    if topic == words { topic } else { format!("{topic}: {words}") }
}

fn otherwise(protocol: &Protocol, one: &Otherwise) -> String {
    let question = protocol.ask(one.asked.question);
    let answer = answer_of(question, one.cell).unwrap_or(Answer::CannotTell);
    named(topic(protocol, one.asked), &question.words(&answer))
}
