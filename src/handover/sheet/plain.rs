//! The sheet as plain text: for paper, for a message, for reading aloud.

use super::{PHONE, SHIFT, Sheet, brief};
use crate::handover::text::COLUMNS;
use std::fmt::Write;

/// The whole sheet, at most 72 columns wide.
pub fn text(sheet: &Sheet) -> String {
    let mut out = format!("HANDOVER: {}\n{}\n", brief(&sheet.bird), sheet.made);
    for (heading, said) in [(PHONE, &sheet.script), (SHIFT, &sheet.shift)] {
        let _ = writeln!(out, "\n{heading}");
        fill(&mut out, said, "  ");
    }
    for part in &sheet.parts {
        let _ = writeln!(out, "\n{}", part.heading);
        for row in &part.rows {
            let line =
                if row.name.is_empty() { brief(&row.told) } else { format!("{}: {}", row.name, brief(&row.told)) };
            fill(&mut out, &line, "  - ");
        }
        for row in part.table.iter().flat_map(|table| &table.rows) {
            let head = part.table.iter().flat_map(|table| table.head.iter().skip(1).map(|head| head.to_lowercase()));
            let cells = head.zip(row.iter().skip(1)).map(|(head, cell)| format!("{head}: {}", brief(cell)));
            let name = row.first().map(String::as_str).unwrap_or_default();
            fill(&mut out, &format!("{name}: {}", cells.collect::<Vec<_>>().join("; ")), "  - ");
        }
        for line in part.drawing.iter().flat_map(|drawing| &drawing.lines) {
            let _ = writeln!(out, "      {line}");
        }
    }
    let _ = writeln!(out);
    fill(&mut out, &sheet.caution, "! ");
    out
}

/// Adds a text in lines no wider than the page.
pub(super) fn fill(out: &mut String, line: &str, first: &str) {
    let rest = " ".repeat(first.len());
    let options = textwrap::Options::new(COLUMNS).initial_indent(first).subsequent_indent(&rest);
    for line in textwrap::wrap(line, options) {
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
