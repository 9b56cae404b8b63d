//! The document as plain text of at most 72 columns: for paper, for a phone, for reading aloud.

use crate::care::Plan;
use crate::content::document::{Item, Section, Tone};
use crate::content::whole;
use crate::finding::Findings;
use crate::protocol::Protocol;
use crate::prove::Whole;
use crate::words::Reader;
use std::fmt::Write;

/// The width of every plain text.
pub const COLUMNS: usize = 72;

/// Verdict and plan in full, with both labels under every reason.
pub fn whole(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> String {
    let parts = whole::judged(protocol, findings, verdict, plan, reader);
    format!("{}\n\n{}", reader.say(&whole::made(protocol, verdict)), sections(&parts))
}

/// The need and the plan, without the reasons.
pub fn plan(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> String {
    sections(&whole::planned(protocol, findings, verdict, plan, reader))
}

/// Headed lists as plain text.
pub fn sections(sections: &[Section]) -> String {
    let mut out = String::new();
    for part in sections {
        section(&mut out, part);
    }
    out.trim_start().to_owned()
}

fn section(out: &mut String, part: &Section) {
    // What goes on under the same heading has none of its own.
    if !part.heading.is_empty() {
        let _ = write!(out, "\n{}\n", part.heading);
    }
    for (number, item) in (1..).zip(&part.items) {
        let mark = match part.tone {
            Tone::Act => format!("{number:2}. "),
            Tone::Never => "  x ".to_owned(),
            Tone::Plain | Tone::Grave => "  - ".to_owned(),
            Tone::Caution => "  ! ".to_owned(),
        };
        item_lines(out, item, &mark);
    }
}

/// What lines under a line are set in by.
const PAD: &str = "    ";

fn item_lines(out: &mut String, item: &Item, mark: &str) {
    let Item { lead, more, picture, asked, why: _, timed: _ } = item;
    fill(out, lead, mark, PAD);
    for more in more {
        fill(out, more, PAD, PAD);
    }
    for line in picture {
        let _ = writeln!(out, "{PAD}  {line}");
    }
    for asked in asked {
        fill(out, asked, PAD, PAD);
    }
}

fn fill(out: &mut String, text: &str, first: &str, rest: &str) {
    let options = textwrap::Options::new(COLUMNS).initial_indent(first).subsequent_indent(rest);
    for line in textwrap::wrap(text, options) {
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
