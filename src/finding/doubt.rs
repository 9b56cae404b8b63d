//! What no examination can have said: numbers, moments and letters that only a broken or hostile file holds.

use super::log::{Entry, Spot, Stamped};
use super::{About, Answer, Statement};
use crate::typed::weight;
use crate::unit::Grams;
use chrono::{DateTime, Datelike, Utc};

/// The most wounds one bird is told to have. More are one wound, or no bird.
pub const MOST_WOUNDS: usize = 99;

/// The years in which a bird can have been examined: a machine whose clock was never set begins at 1970.
const YEARS: std::ops::RangeInclusive<i32> = 1970..=2199;

/// Why something cannot have come from an examination; `content::kept` tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubted {
    /// No bird was examined then.
    NoMoment(DateTime<Utc>),
    /// A wound of this number, from 1, above [`MOST_WOUNDS`].
    WoundNumber(usize),
    /// A text with letters that drive a terminal.
    Control,
    /// So many grams, which no bird weighs.
    Weight(u32),
}

/// Why this cannot have come from an examination; nothing where it can.
pub fn doubt(stamped: &Stamped) -> Option<Doubted> {
    if !is_moment(stamped.at) {
        return Some(Doubted::NoMoment(stamped.at));
    }
    let (abouts, texts) = told(&stamped.entry);
    if let Some(number) = abouts.into_iter().find_map(too_many) {
        return Some(Doubted::WoundNumber(number));
    }
    if texts.into_iter().any(has_control) {
        return Some(Doubted::Control);
    }
    let Entry::Said(statements) = &stamped.entry else { return None };
    statements.iter().find_map(|statement| match statement.answer {
        Answer::Amount(grams) if !(weight::LEAST..=weight::MOST).contains(&Grams(grams)) => {
            Some(Doubted::Weight(grams))
        }
        Answer::Amount(_) | Answer::Choice(_) | Answer::Figure(_) | Answer::CannotTell => None,
    })
}

/// Whether a bird can have been examined then.
pub fn is_moment(at: DateTime<Utc>) -> bool {
    YEARS.contains(&at.year())
}

/// Whether a letter does not show, but drives a terminal, turns the text round it, or hides in it.
pub fn unseen(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// Whether a text holds what drives a terminal instead of being read.
pub fn has_control(text: &str) -> bool {
    text.chars().any(char::is_control)
}

fn too_many(about: About) -> Option<usize> {
    match about {
        About::Wound(number) if number >= MOST_WOUNDS => Some(number.saturating_add(1)),
        About::Wound(_) | About::Bird => None,
    }
}

/// What an entry is about, and its texts.
fn told(entry: &Entry) -> (Vec<About>, Vec<&str>) {
    match entry {
        Entry::Said(statements) => {
            statements.iter().map(said).fold((Vec::new(), Vec::new()), |mut all, (about, texts)| {
                all.0.push(about);
                all.1.extend(texts);
                all
            })
        }
        Entry::Skipped(spots) | Entry::LookBegan(spots) => {
            spots.iter().map(|spot| (spot.about, spot.question.as_str())).unzip()
        }
        Entry::Went(Some(Spot { about, question })) | Entry::Turned(Spot { about, question }) => {
            (vec![*about], vec![question.as_str()])
        }
        Entry::Opened(id)
        | Entry::Began(id)
        | Entry::Ended(id)
        | Entry::Timed { action: id, .. }
        | Entry::Ticked { what: id, .. } => (Vec::new(), vec![id.as_str()]),
        Entry::Named(text) | Entry::VetSaid(text) | Entry::Noted(_, text) | Entry::Closed { proved: text, .. } => {
            (Vec::new(), vec![text.as_str()])
        }
        Entry::FoundWound
        | Entry::LookedOver
        | Entry::Went(None)
        | Entry::PickedUp
        | Entry::PutDown
        | Entry::ClockEnded
        | Entry::LookDone
        | Entry::Reopened
        | Entry::Archived
        | Entry::TookBack => (Vec::new(), Vec::new()),
    }
}

fn said(statement: &Statement) -> (About, Vec<&str>) {
    let choice = match &statement.answer {
        Answer::Choice(id) => Some(id.as_str()),
        Answer::Amount(_) | Answer::Figure(_) | Answer::CannotTell => None,
    };
    (statement.about, std::iter::once(statement.question.as_str()).chain(choice).collect())
}
