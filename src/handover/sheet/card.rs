//! Cage cards for a shelter: name, intake number, need, what to do now, what never, the next look; several on a sheet.

use super::content::Told;
use crate::days::due::Due;
use crate::finding::particular::Particular;
use crate::handover::days::day;
use crate::handover::document::{Reader, caution_text, upper_first};
use crate::handover::text::COLUMNS;
use crate::protocol::{KIND, Protocol};
use std::fmt::Write;

/// At most this many lines of what to do, and of what never to.
const LINES: usize = 3;

/// A card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card {
    /// Her name, or her kind.
    pub name: String,
    /// The shelter's number; empty where there is none.
    pub intake: String,
    /// How soon she needs a vet.
    pub need: String,
    /// What to do now.
    pub act: Vec<String>,
    /// What never to do.
    pub never: Vec<String>,
    /// When to look again.
    pub look: String,
}

/// The card of a bird.
pub fn card(protocol: &Protocol, told: Told, due: &Due, reader: Reader) -> Card {
    let kind = told.findings.answer(crate::finding::About::Bird, KIND).map(|said| &said.statement.answer);
    let kind = kind.zip(protocol.question(KIND)).map(|(answer, question)| question.words(answer)).unwrap_or_default();
    let name = match told.days.name.as_str() {
        "" => upper_first(&kind),
        name => format!("{name}, {kind}"),
    };
    let intake = told.days.noted.iter().find(|noted| noted.what == Particular::Intake);
    let plan = told.plan;
    let never = plan.never.iter().take(LINES).map(|(target, _)| protocol.action(target.action).never().to_owned());
    Card {
        name,
        intake: intake.map(|noted| noted.said.clone()).unwrap_or_default(),
        need: crate::judge::brief(told.verdict.need),
        act: plan.steps.iter().take(LINES).map(|step| step.say(protocol, told.verdict, plan)).collect(),
        never: never.collect(),
        look: due.next().map_or_else(|| "none is due".into(), |look| day(reader.zone, look.at)),
    }
}

/// The cards as plain text, each within a frame, to be cut apart.
pub fn text(protocol: &Protocol, cards: &[Card], reader: Reader) -> String {
    let mut out = String::new();
    for card in cards {
        let rule = "-".repeat(COLUMNS);
        let _ = writeln!(out, "{rule}");
        let intake = if card.intake.is_empty() { String::new() } else { format!(" No. {}", card.intake) };
        fill(&mut out, &format!("{}{intake}", card.name), "");
        fill(&mut out, &card.need.to_uppercase(), "NEED: ");
        for act in &card.act {
            fill(&mut out, act, "DO NOW: ");
        }
        for never in &card.never {
            fill(&mut out, never, "NEVER: ");
        }
        fill(&mut out, &card.look, "NEXT LOOK: ");
        fill(&mut out, &caution_text(protocol, reader.country), "! ");
        let _ = writeln!(out, "{rule}\n");
    }
    out
}

fn fill(out: &mut String, line: &str, first: &str) {
    let rest = " ".repeat(first.len());
    let options = textwrap::Options::new(COLUMNS).initial_indent(first).subsequent_indent(&rest);
    for line in textwrap::wrap(&super::brief(line), options) {
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
