//! The sheet as Markdown (`CommonMark`, with the tables most readers know).

use crate::content::booklet::{Ask, Booklet, Leaf};
use crate::content::document::{Item, Section, Tone};
use crate::content::sheet::card::{Card, CardLabels, Cards};
use crate::content::sheet::{Sheet, SheetLabels};
use std::fmt::Write;

/// The whole sheet.
pub fn markdown(sheet: &Sheet) -> String {
    let SheetLabels { title, phone, shift, caution, .. } = &sheet.labels;
    let plain = |text: &str| whole(&sheet.brief(text));
    let mut out = format!("# {}\n\n{}\n", whole(title), plain(&sheet.made));
    for (heading, said) in [(phone, &sheet.script), (shift, &sheet.shift)] {
        let _ = write!(out, "\n## {}\n\n{}\n", sentence(heading), plain(said));
    }
    for part in &sheet.parts {
        let _ = write!(out, "\n## {}\n\n", sentence(&part.heading));
        for row in &part.rows {
            let _ = match row.name.as_str() {
                "" => writeln!(out, "- {}", plain(&row.told)),
                name => writeln!(out, "- **{}:** {}", plain(name), plain(&row.told)),
            };
        }
        if let Some(table) = &part.table {
            let line = |cells: &[String]| {
                format!("| {} |", cells.iter().map(|cell| plain(cell)).collect::<Vec<_>>().join(" | "))
            };
            let rule = vec!["---".to_owned(); table.head.len()].join(" | ");
            let _ = write!(out, "\n{}:\n\n{}\n| {rule} |\n", plain(&table.caption), line(&table.head));
            for row in &table.rows {
                let _ = writeln!(out, "{}", line(row));
            }
        }
        if let Some(drawing) = &part.drawing {
            let _ = write!(out, "\n{}\n\n```text\n{}\n```\n", plain(&drawing.words), drawing.lines.join("\n"));
        }
    }
    let _ = write!(out, "\n> **{caution}** {}\n", plain(&sheet.caution));
    out
}

/// Cage cards, one after another.
pub fn cards(cards: &Cards) -> String {
    let plain = |text: &str| whole(&cards.brief(text));
    let CardLabels { cards: all, do_now, never, next_look, caution, .. } = &cards.labels;
    let mut out = format!("# {all}\n\n> **{caution}** {}\n", plain(&cards.caution));
    for card in &cards.cards {
        let Card { numbered, act, never: bans, look, .. } = card;
        let _ = write!(out, "\n## {}\n\n", whole(numbered));
        for (label, told) in cards.first(card) {
            let _ = writeln!(out, "- **{label}:** {}", plain(told));
        }
        for (label, lines) in [(do_now, act), (never, bans)] {
            for line in lines {
                let _ = writeln!(out, "- **{label}:** {}", plain(line));
            }
        }
        let _ = writeln!(out, "- **{next_look}:** {}", plain(look));
    }
    out
}

/// A booklet; what is asked stands below each leaf.
pub fn booklet(booklet: &Booklet) -> String {
    let (title, made, caution) = (whole(&booklet.title), whole(&booklet.made), whole(&booklet.caution));
    let label = &booklet.labels.caution;
    let mut out = format!("# {title}\n\n{made}\n\n> **{label}** {caution}\n");
    for chapter in &booklet.chapters {
        let _ = write!(out, "\n## {}\n", whole(&sentence(&chapter.heading)));
        for line in &chapter.intro {
            let _ = write!(out, "\n{}\n", whole(line));
        }
        for leaf in &chapter.leaves {
            leaf_lines(&mut out, leaf);
        }
    }
    let _ = write!(out, "\n> **{label}** {caution}\n");
    out
}

fn leaf_lines(out: &mut String, leaf: &Leaf) {
    let _ = write!(out, "\n### {}\n\n", whole(&leaf.title()));
    if !leaf.rung.is_empty() {
        let _ = write!(out, "**{}**\n\n", whole(&leaf.rung));
    }
    for Section { heading, tone, items } in &leaf.sections {
        if !heading.is_empty() {
            let _ = write!(out, "\n#### {}\n\n", whole(&sentence(heading)));
        }
        for (number, Item { lead, more, picture: _, asked: _, why: _, timed: _ }) in (1..).zip(items) {
            let mark = if *tone == Tone::Act { format!("{number}. ") } else { "- ".to_owned() };
            let lines: Vec<String> = std::iter::once(lead).chain(more).map(|line| whole(line)).collect();
            let _ = writeln!(out, "{mark}{}", lines.join(" "));
        }
    }
    for line in leaf.ask.iter().flat_map(Ask::lines) {
        let _ = write!(out, "\n{}\n", whole(&line));
    }
}

/// A heading as a sentence begins.
fn sentence(heading: &str) -> String {
    crate::words::upper_first(&heading.to_lowercase())
}

/// A text none of whose letters mean anything to a reader of Markdown, or of the HTML some readers let through.
fn whole(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars() {
        if matches!(letter, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '#' | '~' | '&' | '!') {
            out.push('\\');
        }
        out.push(letter);
    }
    out
}
