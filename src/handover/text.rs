//! The document as plain text of at most 72 columns: for paper, for a phone, for reading aloud.

use super::document::{self, Item, Judged, Reader, Section, Tone};
use super::{hazards, judgement, unweighed, why};
use crate::care::Plan;
use crate::finding::Findings;
use crate::protocol::Protocol;
use crate::prove::{Whole, explain};
use std::fmt::Write;

/// The width of every plain text.
pub const COLUMNS: usize = 72;

/// Verdict and plan in full, with both labels under every reason.
pub fn whole(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> String {
    let explained = explain(protocol, findings, verdict);
    let judged_bird = Judged { findings, verdict, explained: Some(&explained) };
    let at = reader.zone.local(verdict.judged_at).format("%Y-%m-%d %H:%M");
    let mut out = format!("COOPSIDE, {at}, protocol {} ({})\n", protocol.version, short(&protocol.fingerprint));
    let caution = |section: &Section| section.tone == Tone::Caution;
    let verdict_parts = judgement::sections(protocol, judged_bird, reader);
    let plan_parts = super::plan::sections(protocol, findings, verdict, plan, reader);
    let (judged, open): (Vec<_>, Vec<_>) =
        verdict_parts.iter().filter(|s| !caution(s)).partition(|s| s.heading == "VERDICT");
    // First what was decided, then what to do; the reasons come after what cannot wait.
    for part in judged.into_iter().chain(plan_parts.iter().filter(|s| !caution(s))).chain(open) {
        section(&mut out, protocol, part);
    }
    if let Some(hazards) = hazards::hers(protocol, findings, verdict) {
        section(&mut out, protocol, &hazards);
    }
    let all = [verdict_parts.as_slice(), &plan_parts].concat();
    if let Some(words) = document::glossary(protocol, &all) {
        section(&mut out, protocol, &words);
    }
    for part in verdict_parts.iter().filter(|s| caution(s)) {
        section(&mut out, protocol, part);
    }
    out
}

/// The need and the plan, without the reasons.
pub fn plan(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> String {
    let judged = judgement::sections(protocol, Judged { findings, verdict, explained: None }, reader);
    let mut told: Vec<Section> = judged.into_iter().filter(|section| section.heading == "VERDICT").collect();
    told.extend(super::plan::sections(protocol, findings, verdict, plan, reader));
    // What is no part of a plan, but must not be lost where nothing else is read.
    let last = told.len().saturating_sub(1);
    told.splice(last..last, unweighed::in_short(protocol, findings, verdict));
    let words = document::glossary(protocol, &told);
    let before_caution = told.len().saturating_sub(1);
    told.splice(before_caution..before_caution, words);
    sections(protocol, &told)
}

/// Headed lists as plain text, without labels.
pub fn sections(protocol: &Protocol, sections: &[Section]) -> String {
    let mut out = String::new();
    for part in sections {
        section(&mut out, protocol, part);
    }
    out.trim_start().to_owned()
}

/// The first characters of a fingerprint: enough to tell two protocols apart by eye.
pub fn short(fingerprint: &str) -> &str {
    fingerprint.get(..12).unwrap_or(fingerprint)
}

fn section(out: &mut String, protocol: &Protocol, part: &Section) {
    let _ = write!(out, "\n{}\n", part.heading);
    for (number, item) in (1..).zip(&part.items) {
        let mark = match part.tone {
            Tone::Act => format!("{number:2}. "),
            Tone::Never => "  x ".to_owned(),
            Tone::Plain | Tone::Grave => "  - ".to_owned(),
            Tone::Caution => "  ! ".to_owned(),
        };
        item_lines(out, protocol, item, &mark, part.heading == "WHY");
    }
}

fn item_lines(out: &mut String, protocol: &Protocol, item: &Item, mark: &str, with_labels: bool) {
    let pad = " ".repeat(4);
    fill(out, &item.lead, mark, &pad);
    for more in &item.more {
        fill(out, more, &pad, &pad);
    }
    for line in &item.picture {
        let _ = writeln!(out, "{pad}  {line}");
    }
    for asked in &item.asked {
        fill(out, asked, &pad, &pad);
    }
    if with_labels {
        for reason in &item.why {
            for label in why::labels(protocol, *reason) {
                fill(out, &label, &pad, &pad);
            }
        }
    }
}

fn fill(out: &mut String, text: &str, first: &str, rest: &str) {
    let options = textwrap::Options::new(COLUMNS).initial_indent(first).subsequent_indent(rest);
    for line in textwrap::wrap(text, options) {
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
