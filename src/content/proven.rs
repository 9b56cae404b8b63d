//! What is proven of a verdict, in plain words: why at least this, what ruled out worse, what would change it, how long it holds.

use super::document::{Item, Judged, Section, Tone, section, topic};
use super::{answers, terms};
use crate::finding::{Answer, Findings};
use crate::phrase::{Phrase, Text, heading, terms as words, verdict as phrase};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::{Change, Exact, Otherwise, Rung, Scale, ScaleTold, Whole, answer_of};
use chrono::{DateTime, TimeDelta, Utc};

/// How many findings that ruled out worse are named.
const NAMED: usize = 6;

/// The sections that explain a verdict.
pub fn sections(protocol: &Protocol, judged: Judged) -> Vec<Section<Text>> {
    let Judged { verdict, explained: Some(explained), .. } = judged else { return Vec::new() };
    let of_scales =
        |line: &dyn Fn(&ScaleTold) -> Vec<Item<Text>>| explained.scales.iter().flat_map(line).collect::<Vec<_>>();
    let at_least = of_scales(&|told| why_at_least(protocol, judged, told).into_iter().collect());
    let ruled_out = of_scales(&|told| ruled_out(protocol, judged, told).into_iter().collect());
    let mut change = of_scales(&|told| what_if(protocol, verdict, told));
    change.extend(
        explained
            .until
            .iter()
            .map(|(moment, then)| Item::plain(by_the_clock(verdict, then, at_time(*moment, verdict.judged_at)))),
    );
    [
        section(heading::fewest(), Tone::Plain, at_least),
        section(heading::ruled_out(), Tone::Plain, ruled_out),
        section(heading::would_change(), Tone::Plain, change),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What the clock alone makes of a verdict, scale by scale.
fn by_the_clock(verdict: &Exact, then: &Exact, at: Text) -> Phrase {
    let moved = [
        (verdict.need != then.need).then(|| phrase::need_then(terms::need(then.need.low, verdict.no_vet()))),
        (verdict.humane != then.humane).then(|| phrase::humane_then(terms::humane(then.humane.low))),
        (verdict.authority != then.authority).then(|| phrase::authority_then(terms::authority(then.authority.low))),
    ];
    let moved: Vec<Phrase> = moved.into_iter().flatten().collect();
    if moved.is_empty() { phrase::clock_acts(at) } else { phrase::clock_changes(at, Text::list(moved)) }
}

/// A moment on the bird's own clock; by its date where the weekday alone could mean another week.
fn at_time(moment: DateTime<Utc>, now: DateTime<Utc>) -> Text {
    if moment - now > TimeDelta::days(6) { Text::far(moment) } else { Text::clock(moment) }
}

/// Whether anything can still change, in one sentence; `told` where nothing that was asked could not be told.
pub fn settled(verdict: &Whole, told: bool) -> Phrase {
    let (need, humane, authority) = (verdict.need, verdict.humane, verdict.authority);
    let one_rung = need.low == need.high && humane.low == humane.high && authority.low == authority.high;
    if one_rung && verdict.open.is_empty() && !verdict.open_wounds {
        if told { phrase::settled() } else { phrase::settled_untold() }
    } else {
        phrase::no_less(terms::need(verdict.need.low, verdict.no_vet()))
    }
}

fn why_at_least(protocol: &Protocol, judged: Judged, told: &ScaleTold) -> Option<Item<Text>> {
    if told.at_least.is_empty() {
        return None;
    }
    let found = Text::clauses(told.at_least.iter().map(|asked| said(protocol, judged.findings, *asked)));
    let lead = words::follows(phrase::scale_at(scale(told.scale), rung(judged.verdict, told.scale, told.floor)));
    Some(Item::with(Text::opening(lead), words::ended(found), &[]))
}

fn ruled_out(protocol: &Protocol, judged: Judged, told: &ScaleTold) -> Option<Item<Text>> {
    if told.ruled_out.is_empty() {
        return None;
    }
    let named = told.ruled_out.iter().take(NAMED).map(|(asked, _)| said(protocol, judged.findings, *asked));
    let more = told.ruled_out.len().saturating_sub(NAMED);
    let more = (more > 0).then(|| phrase::and_more(more).into());
    let lead = phrase::no_further(scale(told.scale), rung(judged.verdict, told.scale, told.top));
    Some(Item::with(Text::opening(lead), words::ended(Text::clauses(named.chain(more))), &[]))
}

fn what_if(protocol: &Protocol, verdict: &Exact, told: &ScaleTold) -> Vec<Item<Text>> {
    let line = |change: &Change| {
        let instead = change.instead.iter().map(|one| otherwise(protocol, one));
        let instead = instead.reduce(|before, last| phrase::and(before, last).into()).unwrap_or_default();
        let then = words::ended(phrase::scale_at(scale(told.scale), rung(verdict, told.scale, change.rung)));
        Item::with(phrase::if_instead(instead), Text::opening(then), &[])
    };
    told.what_if.milder.iter().chain(&told.what_if.graver).map(line).collect()
}

/// A scale by its name.
const fn scale(scale: Scale) -> Phrase {
    match scale {
        Scale::Need => phrase::scale_need(),
        Scale::Humane => phrase::scale_humane(),
        Scale::Authority => phrase::scale_authority(),
    }
}

/// A rung, as her keeper reads it.
fn rung(verdict: &Exact, scale: Scale, rung: Rung) -> Text {
    let at = usize::from(rung);
    let told = match scale {
        Scale::Need => Need::ALL.get(at).map(|rung| terms::need(*rung, verdict.no_vet())),
        Scale::Humane => Humane::ALL.get(at).map(|rung| terms::humane(*rung)),
        Scale::Authority => Authority::ALL.get(at).map(|rung| terms::authority(*rung)),
    };
    told.map_or_else(Text::default, Text::from)
}

/// A question's topic and what was said to it.
fn said(protocol: &Protocol, findings: &Findings, asked: Asked) -> Text {
    let question = protocol.ask(asked.question);
    let said = findings.answer(asked.about, question.id.as_str());
    let words = said.map_or_else(|| phrase::not_asked().into(), |said| answers::of(question, &said.statement.answer));
    named(topic(protocol, asked), words)
}

/// A topic with an answer; a sign that is answered with its own name is named once.
fn named(topic: Text, answer: Text) -> Text {
    if topic == answer { topic } else { words::named(topic, answer).into() }
}

fn otherwise(protocol: &Protocol, one: &Otherwise) -> Text {
    let question = protocol.ask(one.asked.question);
    let answer = answer_of(question, one.cell).unwrap_or(Answer::CannotTell);
    named(topic(protocol, one.asked), answers::of(question, &answer))
}
