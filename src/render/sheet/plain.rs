//! The sheet as plain text: for paper, for a message, for reading aloud.

use crate::content::booklet::{Booklet, Leaf};
use crate::content::document::{Item, Section, Tone};
use crate::content::sheet::card::{CardLabels, Cards};
use crate::content::sheet::{Sheet, SheetLabels};
use crate::render::text::COLUMNS;
use std::fmt::Write;

/// The whole sheet, at most 72 columns wide.
pub fn text(sheet: &Sheet) -> String {
    let SheetLabels { heading, phone, shift, .. } = &sheet.labels;
    let mut out = format!("{heading}\n{}\n", sheet.made);
    for (heading, said) in [(phone, &sheet.script), (shift, &sheet.shift)] {
        let _ = writeln!(out, "\n{heading}");
        fill(&mut out, said, "  ");
    }
    for part in &sheet.parts {
        let _ = writeln!(out, "\n{}", part.heading);
        for row in &part.rows {
            let told = sheet.brief(&row.told);
            let line = if row.name.is_empty() { told } else { format!("{}: {told}", row.name) };
            fill(&mut out, &line, "  - ");
        }
        for row in part.table.iter().flat_map(|table| &table.rows) {
            let head = part.table.iter().flat_map(|table| table.head.iter().skip(1).map(|head| head.to_lowercase()));
            let cells = head.zip(row.iter().skip(1)).map(|(head, cell)| format!("{head}: {}", sheet.brief(cell)));
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
    let rest = " ".repeat(first.chars().count());
    let options = textwrap::Options::new(COLUMNS).initial_indent(first).subsequent_indent(&rest);
    for line in textwrap::wrap(line, options) {
        let _ = writeln!(out, "{}", line.trim_end());
    }
}

/// The cards as plain text, each within a frame, to be cut apart.
pub fn cards(cards: &Cards) -> String {
    let mut out = String::new();
    for card in &cards.cards {
        let rule = "-".repeat(COLUMNS);
        let _ = writeln!(out, "{rule}");
        let before = |label: &str| format!("{}: ", label.to_uppercase());
        let CardLabels { do_now, never, next_look, .. } = &cards.labels;
        fill(&mut out, &cards.brief(&card.title), "");
        for (label, told) in cards.first(card) {
            fill(&mut out, &told.to_uppercase(), &before(label));
        }
        for act in &card.act {
            fill(&mut out, act, &before(do_now));
        }
        for ban in &card.never {
            fill(&mut out, ban, &before(never));
        }
        fill(&mut out, &card.look, &before(next_look));
        fill(&mut out, &cards.caution, "! ");
        let _ = writeln!(out, "{rule}\n");
    }
    out
}

/// A booklet, at most 72 columns wide; what is asked stands below each leaf.
pub fn booklet(booklet: &Booklet) -> String {
    let mut out = format!("{}\n{}\n\n", booklet.title.to_uppercase(), booklet.made);
    fill(&mut out, &booklet.caution, "! ");
    for chapter in &booklet.chapters {
        let rule = "=".repeat(COLUMNS);
        let _ = writeln!(out, "\n{rule}");
        fill(&mut out, &chapter.heading, "");
        for line in &chapter.intro {
            fill(&mut out, line, "");
        }
        for leaf in &chapter.leaves {
            let _ = writeln!(out, "{}", "-".repeat(COLUMNS));
            leaf_lines(&mut out, leaf);
        }
    }
    let _ = writeln!(out);
    fill(&mut out, &booklet.caution, "! ");
    out
}

fn leaf_lines(out: &mut String, leaf: &Leaf) {
    fill(out, &leaf.title(), "");
    if !leaf.rung.is_empty() {
        fill(out, &leaf.rung, "    ");
    }
    for section in &leaf.sections {
        section_lines(out, section);
    }
    for line in leaf.ask.iter().flat_map(crate::content::booklet::Ask::lines) {
        let _ = writeln!(out, "    {line}");
    }
}

fn section_lines(out: &mut String, section: &Section) {
    if !section.heading.is_empty() {
        let _ = writeln!(out, "  {}", section.heading);
    }
    for (number, Item { lead, more, picture: _, asked: _, why: _, timed: _ }) in (1..).zip(&section.items) {
        let mark = match section.tone {
            Tone::Act => format!("{number:3}. "),
            Tone::Never => "   x ".to_owned(),
            Tone::Plain | Tone::Grave | Tone::Caution => "   - ".to_owned(),
        };
        fill(out, lead, &mark);
        for line in more {
            fill(out, line, "     ");
        }
    }
}
