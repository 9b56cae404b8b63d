//! The document as plain text of at most 72 columns: for paper, for a phone, for reading aloud.

use crate::care::Plan;
use crate::content::document::{self, Item, Judged, Section, Tone};
use crate::content::{hazards, judgement, plan as plan_of, unweighed, why};
use crate::finding::Findings;
use crate::phrase::{Phrase, Text, heading};
use crate::protocol::Protocol;
use crate::prove::{Whole, explain};
use crate::words::Reader;
use std::fmt::Write;

/// The width of every plain text.
pub const COLUMNS: usize = 72;

/// Verdict and plan in full, with both labels under every reason.
pub fn whole(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> String {
    let explained = explain(protocol, findings, verdict);
    let judged_bird = Judged { findings, verdict, explained: Some(&explained) };
    let at = reader.zone.local(verdict.judged_at).format("%Y-%m-%d %H:%M");
    let mut out =
        format!("COOPSIDE, {at}, protocol {} ({})\n", protocol.version, document::short(&protocol.fingerprint));
    let told = judgement::sections(protocol, judged_bird, reader.country);
    let plan_parts = plan_of::sections(protocol, findings, verdict, plan, reader);
    let plan_parts: Vec<Section> = reader.sections(plan_parts);
    let is = |section: &Section<Text>, id: Phrase| section.heading == Text::from(id);
    let say = |section: &Section<Text>| reader.section(section);
    let caution = |section: &Section| section.tone == Tone::Caution;
    let none: &dyn Fn(&Item) -> Vec<String> = &|_| Vec::new();
    let labels = |item: &Item| {
        let of = item.why.iter().flat_map(|reason| why::labels(protocol, *reason));
        of.map(|label| reader.say(&label)).collect()
    };
    let verdict_parts: Vec<Section> = told.iter().map(say).collect();
    // First what was decided, then what to do; the reasons come after what cannot wait.
    for part in told.iter().filter(|part| is(part, heading::verdict())) {
        section(&mut out, &say(part), none);
    }
    for part in plan_parts.iter().filter(|part| !caution(part)) {
        section(&mut out, part, none);
    }
    for part in told.iter().filter(|part| !is(part, heading::verdict()) && !is(part, heading::caution())) {
        section(&mut out, &say(part), if is(part, heading::why()) { &labels } else { none });
    }
    let all = [verdict_parts.as_slice(), &plan_parts].concat();
    let last = document::glossary(protocol, &all).into_iter().chain(document::caution(reader.country));
    let hers = hazards::hers(protocol, findings, verdict);
    for part in hers.into_iter().chain(last) {
        section(&mut out, &say(&part), none);
    }
    out
}

/// The need and the plan, without the reasons.
pub fn plan(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> String {
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
    sections(&told)
}

/// Headed lists as plain text, without labels.
pub fn sections(sections: &[Section]) -> String {
    let mut out = String::new();
    for part in sections {
        section(&mut out, part, &|_| Vec::new());
    }
    out.trim_start().to_owned()
}

fn section(out: &mut String, part: &Section, labels: &dyn Fn(&Item) -> Vec<String>) {
    let _ = write!(out, "\n{}\n", part.heading);
    for (number, item) in (1..).zip(&part.items) {
        let mark = match part.tone {
            Tone::Act => format!("{number:2}. "),
            Tone::Never => "  x ".to_owned(),
            Tone::Plain | Tone::Grave => "  - ".to_owned(),
            Tone::Caution => "  ! ".to_owned(),
        };
        item_lines(out, item, &mark);
        for label in labels(item) {
            fill(out, &label, PAD, PAD);
        }
    }
}

/// What lines under a line are set in by.
const PAD: &str = "    ";

fn item_lines(out: &mut String, item: &Item, mark: &str) {
    fill(out, &item.lead, mark, PAD);
    for more in &item.more {
        fill(out, more, PAD, PAD);
    }
    for line in &item.picture {
        let _ = writeln!(out, "{PAD}  {line}");
    }
    for asked in &item.asked {
        fill(out, asked, PAD, PAD);
    }
}

fn fill(out: &mut String, text: &str, first: &str, rest: &str) {
    let options = textwrap::Options::new(COLUMNS).initial_indent(first).subsequent_indent(rest);
    for line in textwrap::wrap(text, options) {
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
