//! Cage cards for a shelter: name, intake number, need, what to do now, what never, the next look; several on a sheet.

use super::writer::{SheetCase, bird};
use crate::content::days::{self, day};
use crate::content::document::upper_first;
use crate::content::old::caution_text;
use crate::content::phone::vet_said;
use crate::days::due::Due;
use crate::days::{End, cover};
use crate::finding::particular::Particular;
use crate::protocol::Protocol;
use crate::protocol::scale::TALK;
use crate::words::Reader;

/// At most this many lines of what to do, and of what never to.
const LINES: usize = 3;

/// A card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card {
    /// Her name, or her kind.
    pub name: String,
    /// The shelter's number; empty where there is none.
    pub intake: String,
    /// How soon she needs a vet; empty where her case is over.
    pub need: String,
    /// How her case ended, and when; empty where it has not.
    pub ended: String,
    /// What to do now; that a humane end is advised, where it is, stands first, then what a vet said, where one did.
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
pub fn cards(protocol: &Protocol, birds: &[SheetCase], reader: Reader) -> Cards {
    let cards = birds.iter().map(|told| card(protocol, *told, reader)).collect();
    Cards { cards, caution: caution_text(reader.country) }
}

fn card(protocol: &Protocol, told: SheetCase, reader: Reader) -> Card {
    let over = told.days.over().is_some();
    let intake = told.days.noted.iter().find(|noted| noted.what == Particular::Intake);
    let plan = told.plan;
    let never = plan.never_once().take(LINES).map(|action| protocol.action(action).never().to_owned());
    let vet = told.days.heard.last().map(|heard| vet_said(&heard.said));
    let humane = told.verdict.humane.low.advice().map(|advice| format!("{}. {TALK}", upper_first(advice)));
    let steps = plan.steps.iter().map(|step| reader.say(&step.say(protocol, told.verdict, plan)));
    Card {
        name: bird(protocol, told),
        intake: intake.map(|noted| noted.said.clone()).unwrap_or_default(),
        need: if over { String::new() } else { reader.say(&cover::need(protocol, told.log, told.days, told.verdict)) },
        ended: told.days.end.as_ref().map(|end| ended(end, reader)).unwrap_or_default(),
        act: if over {
            days::catching(told.verdict).map(crate::words::english).into_iter().collect()
        } else {
            humane.into_iter().chain(vet).chain(steps.take(LINES)).collect()
        },
        never: if over { Vec::new() } else { never.collect() },
        look: if over { "none: her case is closed".into() } else { look(told.due, reader) },
    }
}

/// How a case ended, and when.
pub(super) fn ended(end: &End, reader: Reader) -> String {
    format!("{}, {}", end.outcome.words(), day(reader.zone, end.at))
}

/// When to look at her next, in words.
pub(super) fn look(due: &Due, reader: Reader) -> String {
    if let Some(since) = due.examine {
        return format!("now: not examined to the end since {}", day(reader.zone, since));
    }
    let now = due.overdue().map(|look| format!("now, due since {}", day(reader.zone, look.at)));
    let ahead = || due.next().map(|look| day(reader.zone, look.at));
    now.or_else(ahead).unwrap_or_else(|| "none is due".into())
}

impl Card {
    /// What is told before all else: how it ended, where it did; then how soon she needs a vet, where that is still asked.
    pub fn first(&self) -> Vec<(&'static str, &str)> {
        let told = [("ENDED", self.ended.as_str()), ("NEED", self.need.as_str())];
        told.into_iter().filter(|(_, told)| !told.is_empty()).collect()
    }

    /// Who she is, with her number.
    pub fn title(&self) -> String {
        if self.intake.is_empty() { self.name.clone() } else { format!("{} No. {}", self.name, self.intake) }
    }
}
