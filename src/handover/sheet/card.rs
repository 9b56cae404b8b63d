//! Cage cards for a shelter: name, intake number, need, what to do now, what never, the next look; several on a sheet.

use super::brief;
use super::content::{Told, bird};
use super::plain::fill;
use crate::days::due::Due;
use crate::finding::particular::Particular;
use crate::handover::days::day;
use crate::handover::document::{Reader, caution_text};
use crate::handover::phone::vet_said;
use crate::handover::text::COLUMNS;
use crate::protocol::Protocol;
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
    /// What to do now; what a vet said, where one did, stands first.
    pub act: Vec<String>,
    /// What never to do.
    pub never: Vec<String>,
    /// When to look again.
    pub look: String,
}

/// Cards, and what stands on each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cards {
    /// One for each bird.
    pub cards: Vec<Card>,
    /// The caution.
    pub caution: String,
}

/// The cards of birds.
pub fn cards(protocol: &Protocol, birds: &[Told], reader: Reader) -> Cards {
    let cards = birds.iter().map(|told| card(protocol, *told, reader)).collect();
    Cards { cards, caution: caution_text(reader.country) }
}

fn card(protocol: &Protocol, told: Told, reader: Reader) -> Card {
    let intake = told.days.noted.iter().find(|noted| noted.what == Particular::Intake);
    let plan = told.plan;
    let never = plan.never_once().take(LINES).map(|action| protocol.action(action).never().to_owned());
    let vet = told.days.heard.last().map(|heard| vet_said(&heard.said));
    let steps = plan.steps.iter().map(|step| step.say(protocol, told.verdict, plan));
    Card {
        name: bird(protocol, told),
        intake: intake.map(|noted| noted.said.clone()).unwrap_or_default(),
        need: crate::judge::brief(told.verdict.need),
        act: vet.into_iter().chain(steps.take(LINES)).collect(),
        never: never.collect(),
        look: look(told.due, reader),
    }
}

/// When to look at her next, in words.
pub(super) fn look(due: &Due, reader: Reader) -> String {
    let now = due.overdue().map(|look| format!("now, due since {}", day(reader.zone, look.at)));
    let ahead = || due.next().map(|look| day(reader.zone, look.at));
    now.or_else(ahead).unwrap_or_else(|| "none is due".into())
}

/// The cards as plain text, each within a frame, to be cut apart.
pub fn text(cards: &Cards) -> String {
    let mut out = String::new();
    for card in &cards.cards {
        let rule = "-".repeat(COLUMNS);
        let _ = writeln!(out, "{rule}");
        fill(&mut out, &brief(&card.title()), "");
        fill(&mut out, &card.need.to_uppercase(), "NEED: ");
        for act in &card.act {
            fill(&mut out, act, "DO NOW: ");
        }
        for never in &card.never {
            fill(&mut out, never, "NEVER: ");
        }
        fill(&mut out, &card.look, "NEXT LOOK: ");
        fill(&mut out, &cards.caution, "! ");
        let _ = writeln!(out, "{rule}\n");
    }
    out
}

impl Card {
    /// Who she is, with her number.
    pub fn title(&self) -> String {
        if self.intake.is_empty() { self.name.clone() } else { format!("{} No. {}", self.name, self.intake) }
    }
}
