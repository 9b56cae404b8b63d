//! Verdict and plan put together as they are read: what was decided, what to do, and why.

use super::document::{self, Judged, Section, Tone};
use super::{hazards, judgement, plan as plan_of, unweighed, why};
use crate::care::Plan;
use crate::finding::Findings;
use crate::phrase::{Phrase, Text, document as phrase, heading};
use crate::protocol::Protocol;
use crate::prove::{Exact, Whole, explain};
use crate::words::Reader;

/// When and by what a verdict was reached, as the first line of all that tells it whole.
pub fn made(protocol: &Protocol, verdict: &Exact) -> Text {
    let print = document::short(&protocol.fingerprint);
    phrase::made(Text::date(verdict.judged_at), Text::typed(&protocol.version), Text::typed(print)).into()
}

/// Verdict and plan in full, with both labels under every reason.
pub fn judged(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> Vec<Section> {
    let explained = explain(protocol, findings, verdict);
    let judged_bird = Judged { findings, verdict, explained: Some(&explained) };
    let told = judgement::sections(protocol, judged_bird, reader.country);
    let plan_parts = plan_of::sections(protocol, findings, verdict, plan, reader);
    let plan_parts: Vec<Section> = reader.sections(plan_parts);
    let is = |section: &Section<Text>, id: Phrase| section.heading == Text::from(id);
    let say = |section: &Section<Text>| reader.section(section);
    let verdict_parts: Vec<Section> = told.iter().map(say).collect();
    // First what was decided, then what to do; the reasons come after what cannot wait.
    let mut parts: Vec<Section> = told.iter().filter(|part| is(part, heading::verdict())).map(say).collect();
    parts.extend(plan_parts.iter().filter(|part| part.tone != Tone::Caution).cloned());
    for part in told.iter().filter(|part| !is(part, heading::verdict()) && !is(part, heading::caution())) {
        parts.push(if is(part, heading::why()) { labelled(protocol, say(part), reader) } else { say(part) });
    }
    let all = [verdict_parts.as_slice(), &plan_parts].concat();
    let last = document::glossary(protocol, &all).into_iter().chain(document::caution(reader.country));
    let hers = hazards::hers(protocol, findings, verdict);
    parts.extend(hers.into_iter().chain(last).map(|part| say(&part)));
    parts
}

/// A section with both labels of every rule under the line that rests on it.
fn labelled(protocol: &Protocol, mut part: Section, reader: Reader) -> Section {
    for item in &mut part.items {
        let labels = item.why.iter().flat_map(|reason| why::labels(protocol, *reason));
        item.asked.extend(labels.map(|label| reader.say(&label)));
    }
    part
}

/// The need and the plan, without the reasons.
pub fn planned(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> Vec<Section> {
    let judged = judgement::sections(protocol, Judged { findings, verdict, explained: None }, reader.country);
    let judged = judged.iter().filter(|section| section.heading == Text::from(heading::verdict()));
    let mut told: Vec<Section> = judged.map(|section| reader.section(section)).collect();
    told.extend(reader.sections(plan_of::sections(protocol, findings, verdict, plan, reader)));
    // What is no part of a plan, but must not be lost where nothing else is read.
    let last = told.len().saturating_sub(1);
    told.splice(last..last, unweighed::in_short(protocol, findings, verdict).map(|section| reader.section(&section)));
    let words = document::glossary(protocol, &told).map(|section| reader.section(&section));
    let before_caution = told.len().saturating_sub(1);
    told.splice(before_caution..before_caution, words);
    told
}
