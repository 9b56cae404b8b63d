//! Cage cards for a shelter: name, intake number, need, what to do now, what never, the next look; several on a sheet.

use super::writer::{SheetCase, bird};
use super::{RungsTold, brief};
use crate::content::days;
use crate::content::document::caution_text;
use crate::content::phone::vet_said;
use crate::content::terms;
use crate::days::due::Due;
use crate::days::{End, cover, outcome};
use crate::finding::particular::Particular;
use crate::phrase::{Text, card as phrase, heading, sheet, terms as words};
use crate::protocol::Protocol;
use crate::words::Reader;
use chrono::{DateTime, Utc};

/// At most this many lines of what to do, and of what never to.
const LINES: usize = 3;

/// A card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card<T = String> {
    /// Her name, or her kind.
    pub name: T,
    /// Who she is, with her number.
    pub title: T,
    /// The same as a heading of a page of many, short enough for it.
    pub numbered: T,
    /// The shelter's number; empty where there is none.
    pub intake: T,
    /// How soon she needs a vet; empty where her case is over.
    pub need: T,
    /// How her case ended, and when; empty where it has not.
    pub ended: T,
    /// What to do now; that a humane end is advised, where it is, stands first, then what a vet said, where one did.
    pub act: Vec<T>,
    /// What never to do.
    pub never: Vec<T>,
    /// When to look again.
    pub look: T,
    /// The moment of that look, for a program; where it is overdue, since when.
    pub look_at: Option<DateTime<Utc>>,
    /// The rungs she stands on, for a program; none where her case is over.
    pub rungs: Option<RungsTold>,
}

/// Cards, and what stands on each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cards<T = String> {
    /// One for each bird.
    pub cards: Vec<Card<T>>,
    /// The caution.
    pub caution: T,
    /// What stands before the lines of every card.
    pub labels: CardLabels<T>,
}

/// What stands before the lines of a card, whatever bird it is of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardLabels<T = String> {
    /// The language it is said in, by its standard tag; nothing as long as nobody has said it.
    pub language: T,
    /// What they are.
    pub cards: T,
    /// Before how her case ended.
    pub ended: T,
    /// Before how soon she needs a vet.
    pub need: T,
    /// Before what to do.
    pub do_now: T,
    /// Before what never to do.
    pub never: T,
    /// Before when to look again.
    pub next_look: T,
    /// Before the caution, within a page and as a heading.
    pub caution: T,
    /// See [`CardLabels::caution`].
    pub caution_heading: T,
    /// What ends a text that is cut.
    pub cut: T,
}

/// The cards of birds.
pub fn cards(protocol: &Protocol, birds: &[SheetCase], reader: Reader) -> Cards<Text> {
    let cards = birds.iter().map(|told| card(protocol, *told, reader)).collect();
    let labels = CardLabels {
        language: Text::default(),
        cards: phrase::cards().into(),
        ended: phrase::ended().into(),
        need: phrase::need().into(),
        do_now: phrase::do_now().into(),
        never: phrase::never().into(),
        next_look: phrase::next_look().into(),
        caution: sheet::caution().into(),
        caution_heading: heading::caution().into(),
        cut: sheet::cut_here().into(),
    };
    Cards { cards, caution: caution_text(reader.country), labels }
}

fn card(protocol: &Protocol, told: SheetCase, reader: Reader) -> Card<Text> {
    let over = told.days.over().is_some();
    let plan = told.plan;
    let name = bird(protocol, told);
    let intake = told.days.noted.iter().find(|noted| noted.what == Particular::Intake);
    let intake = intake.map(|noted| Text::typed(&noted.said)).unwrap_or_default();
    let short = |text: &Text| Text::typed(brief(&reader.say(text), &reader.phrase(&sheet::cut_here())));
    let (title, numbered) = if intake.is_empty() {
        (name.clone(), short(&name))
    } else {
        (phrase::title(name.clone(), intake.clone()).into(), phrase::numbered(short(&name), short(&intake)).into())
    };
    let never = plan.never_once().take(LINES).map(|of| Text::quoted(told.verdict.fitting.never(protocol, of)));
    let vet = told.days.heard.last().map(|heard| vet_said(&heard.said));
    let advice = terms::advice(told.verdict.humane.low);
    let humane = advice.map(|advice| Text::row([words::ended(Text::opening(advice)), words::talk()]));
    let steps = plan.steps.iter().map(|step| step.say(protocol, told.verdict, plan));
    Card {
        name,
        title,
        numbered,
        intake,
        need: if over { Text::default() } else { cover::need(protocol, told.log, told.days, told.verdict) },
        ended: told.days.end.as_ref().map(ended).unwrap_or_default(),
        act: if over {
            days::catching(told.verdict).map(Text::from).into_iter().collect()
        } else {
            humane.into_iter().chain(vet).chain(steps.take(LINES)).collect()
        },
        never: if over { Vec::new() } else { never.collect() },
        look: if over { phrase::closed().into() } else { look(told.due) },
        look_at: if over { None } else { look_at(told.due) },
        rungs: RungsTold::of(told),
    }
}

/// How a case ended, and when.
pub(super) fn ended(end: &End) -> Text {
    Text::list([outcome(end.outcome).into(), Text::day(end.at)])
}

/// When to look at her next, in words.
pub(super) fn look(due: &Due) -> Text {
    if let Some(since) = due.examine {
        return phrase::examine(Text::day(since)).into();
    }
    let now = due.overdue().map(|look| phrase::overdue(Text::day(look.at)).into());
    let ahead = || due.next().map(|look| Text::day(look.at));
    now.or_else(ahead).unwrap_or_else(|| phrase::none_due().into())
}

/// The moment of the same.
fn look_at(due: &Due) -> Option<DateTime<Utc>> {
    due.examine.or_else(|| due.overdue().or_else(|| due.next()).map(|look| look.at))
}

impl Cards {
    /// What is told of a bird before all else: how it ended, where it did; then how soon she needs a vet, where that is still asked.
    pub fn first<'a>(&'a self, card: &'a Card) -> Vec<(&'a str, &'a str)> {
        let told = [(&self.labels.ended, &card.ended), (&self.labels.need, &card.need)];
        let told = told.into_iter().filter(|(_, told)| !told.is_empty());
        told.map(|(label, told)| (label.as_str(), told.as_str())).collect()
    }

    /// A text short enough for the page.
    pub(crate) fn brief(&self, text: &str) -> String {
        brief(text, &self.labels.cut)
    }
}
