//! The sheet as Markdown (`CommonMark`, with the tables most readers know).

use crate::content::booklet::{Ask, Booklet, Leaf};
use crate::content::document::{Item, Section, Tone};
use crate::content::sheet::card::{Card, Cards};
use crate::content::sheet::{PHONE, SHIFT, Sheet, brief};
use std::fmt::Write;

/// The whole sheet.
pub fn markdown(sheet: &Sheet) -> String {
    let mut out = format!("# Handover: {}\n\n{}\n", plain(&sheet.bird), plain(&sheet.made));
    for (heading, said) in [(PHONE, &sheet.script), (SHIFT, &sheet.shift)] {
        let _ = write!(out, "\n## {}\n\n{}\n", sentence(heading), plain(said));
    }
    for part in &sheet.parts {
        let _ = write!(out, "\n## {}\n\n", sentence(part.heading));
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
    let _ = write!(out, "\n> **Caution.** {}\n", plain(&sheet.caution));
    out
}

/// Cage cards, one after another.
pub fn cards(cards: &Cards) -> String {
    let mut out = format!("# Cage cards\n\n> **Caution.** {}\n", plain(&cards.caution));
    for card in &cards.cards {
        let Card { name, intake, act, never, look, .. } = card;
        let number = if intake.is_empty() { String::new() } else { format!(", number {}", plain(intake)) };
        let _ = write!(out, "\n## {}{number}\n\n", plain(name));
        for (lead, told) in card.first() {
            let _ = writeln!(out, "- **{}:** {}", sentence(lead), plain(told));
        }
        for (lead, lines) in [("Do now", act), ("Never", never)] {
            for line in lines {
                let _ = writeln!(out, "- **{lead}:** {}", plain(line));
            }
        }
        let _ = writeln!(out, "- **Next look:** {}", plain(look));
    }
    out
}

/// A booklet; what is asked stands below each leaf.
pub fn booklet(booklet: &Booklet) -> String {
    let (title, made, caution) = (whole(&booklet.title), whole(&booklet.made), whole(&booklet.caution));
    let mut out = format!("# {title}\n\n{made}\n\n> **Caution.** {caution}\n");
    for chapter in &booklet.chapters {
        let _ = write!(out, "\n## {}\n", whole(&sentence(&chapter.heading)));
        for line in &chapter.intro {
            let _ = write!(out, "\n{}\n", whole(line));
        }
        for leaf in &chapter.leaves {
            leaf_lines(&mut out, leaf);
        }
    }
    let _ = write!(out, "\n> **Caution.** {caution}\n");
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
        for (number, Item { lead, more, .. }) in (1..).zip(items) {
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
    crate::content::document::upper_first(&heading.to_lowercase())
}

/// A text none of whose letters mean anything to a reader of Markdown, or of the HTML some readers let through.
fn plain(text: &str) -> String {
    whole(&brief(text))
}

/// The same, however long it is.
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
