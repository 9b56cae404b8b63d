//! A bird's case over days, folded from its log: the looks at her, what a vet said, how it ended.

pub mod again;
pub mod change;
pub mod course;
pub mod cover;
pub mod due;

use crate::finding::log::{self, Entry, Outcome, Stamped};
use crate::finding::particular::Particular;
use crate::finding::{About, Answer, Findings};
use crate::judge::Reason;
use crate::phrase::{Phrase, Text, days as phrase, terms};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::prove::{Exact, judge_bands};
use chrono::{DateTime, Utc};
use std::collections::BTreeSet;

/// What bird she is, as it was told; nothing where nobody said.
fn kind(protocol: &Protocol, findings: &Findings) -> Option<Text> {
    let question = protocol.kind_question();
    match &findings.answer(About::Bird, question.id.as_str())?.statement.answer {
        Answer::Choice(id) => {
            let choice = question.choices.iter().find(|choice| choice.id == *id);
            let unknown = || terms::answer_unknown(Text::typed(id.as_str())).into();
            Some(choice.map_or_else(unknown, |choice| Text::quoted(&choice.say)))
        }
        Answer::CannotTell => Some(terms::cannot_tell().into()),
        Answer::Amount(_) | Answer::Figure(_) => None,
    }
}

/// One time somebody examined or looked at her.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sitting {
    /// The first place of the log that belongs to it.
    pub from: usize,
    /// The place after its last.
    pub to: usize,
    /// When it began.
    pub began: DateTime<Utc>,
    /// When the last answer of it was given; its beginning where none was.
    pub ended: DateTime<Utc>,
    /// Whether it was finished: one that was left in the middle does not count as held.
    pub over: bool,
    /// Whether any answer of it stands: only answers make a look.
    pub answered: bool,
}

/// Something a vet said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heard {
    /// When it was written down.
    pub at: DateTime<Utc>,
    /// What was said.
    pub said: String,
    /// How much of the log came before it.
    pub before: usize,
}

/// What was written down for a vet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Noted {
    /// When.
    pub at: DateTime<Utc>,
    /// What it is about.
    pub what: Particular,
    /// What was written.
    pub said: String,
}

/// How a case ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// When it was closed.
    pub at: DateTime<Utc>,
    /// How.
    pub outcome: Outcome,
    /// What it proved right or wrong.
    pub proved: String,
}

/// A case over days.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Days {
    /// The bird's name.
    pub name: String,
    /// Every sitting, the first being the examination.
    pub sittings: Vec<Sitting>,
    /// What vets said.
    pub heard: Vec<Heard>,
    /// What was written down for a vet, in order.
    pub noted: Vec<Noted>,
    /// How it ended, where it did.
    pub end: Option<End>,
    /// Whether it was put out of sight.
    pub archived: bool,
}

impl Days {
    /// Writes something down; what does not add up takes the place of what stood there, and nothing takes it away.
    fn note(&mut self, what: Particular, said: &str, at: DateTime<Utc>) {
        if !what.adds_up() {
            self.noted.retain(|noted| noted.what != what);
        }
        if !said.trim().is_empty() {
            self.noted.push(Noted { at, what, said: said.to_owned() });
        }
    }

    /// Folds a log. Where the clock was set back, the order of the log counts.
    pub fn of(log: &[Stamped]) -> Self {
        let mut days = Self::default();
        let answers: BTreeSet<usize> = log::in_place(log)
            .into_iter()
            .filter(|(_, stamped)| stamped.entry.kind().is_finding())
            .map(|(place, _)| place)
            .collect();
        for (place, Stamped { at, entry }) in log.iter().enumerate() {
            match entry {
                Entry::Named(name) => days.name.clone_from(name),
                // Nothing written takes the last word back: it was written down wrongly.
                Entry::VetSaid(said) if said.trim().is_empty() => drop(days.heard.pop()),
                Entry::VetSaid(said) => days.heard.push(Heard { at: *at, said: said.clone(), before: place }),
                Entry::Noted(what, said) => days.note(*what, said, *at),
                Entry::Closed { outcome, proved } => {
                    days.end = Some(End { at: *at, outcome: *outcome, proved: proved.clone() });
                }
                Entry::Archived => days.archived = true,
                Entry::Reopened => (days.end, days.archived) = (None, false),
                Entry::LookBegan(_) => days.begin(place, *at),
                Entry::LookDone => {
                    if let Some(last) = days.sittings.last_mut() {
                        (last.over, last.to) = (true, place + 1);
                    }
                }
                // What is not written into the case goes on with the look at her.
                _ => days.go_on(place, *at, answers.contains(&place)),
            }
        }
        days
    }

    fn begin(&mut self, place: usize, at: DateTime<Utc>) {
        self.sittings.push(Sitting { from: place, to: place + 1, began: at, ended: at, over: false, answered: false });
    }

    fn go_on(&mut self, place: usize, at: DateTime<Utc>, answered: bool) {
        // What is changed between two looks belongs to the sitting before.
        if self.sittings.is_empty() {
            self.begin(place, at);
        }
        if let Some(last) = self.sittings.last_mut() {
            last.to = place + 1;
            last.ended = if answered { at } else { last.ended };
            last.answered |= answered;
        }
    }

    /// How it ended, where nothing more is to be done for her here.
    pub fn over(&self) -> Option<&End> {
        self.end.as_ref().filter(|end| end.outcome.is_over())
    }

    /// Whether a look is going on.
    pub fn looking(&self) -> bool {
        self.sittings.len() > 1 && self.sittings.last().is_some_and(|last| !last.over)
    }
}

/// How a case ended, in a word or two.
pub const fn outcome(outcome: Outcome) -> Phrase {
    match outcome {
        Outcome::Recovered => phrase::recovered(),
        Outcome::Died => phrase::died(),
        Outcome::HumaneEnd => phrase::humane_end(),
        Outcome::MovedOn => phrase::moved_on(),
    }
}

/// What has become of her since a vet last said something of her.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SinceVet {
    /// Nothing graver was found.
    NotWorse(DateTime<Utc>),
    /// A scale has risen, or something that needs a vet was found for the first time: the vet spoke of a bird less ill.
    Worse(DateTime<Utc>),
}

impl SinceVet {
    /// In a few words.
    pub const fn told(self) -> Phrase {
        match self {
            Self::NotWorse(_) => phrase::vet_asked(),
            Self::Worse(_) => phrase::worse_since(),
        }
    }
}

/// What has become of her since a vet last said something; nothing where none did, or where only what was found before is known. It
/// never lowers a need: what was found stands.
pub fn since_vet(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<SinceVet> {
    if days.over().is_some() {
        return None;
    }
    let heard = days.heard.last()?;
    let before = log.get(..heard.before)?;
    let then = by_all(protocol, before, &Days::of(before))?;
    let now = by_all(protocol, log, days)?;
    Some(if is_graver(protocol, &now, &then) { SinceVet::Worse(heard.at) } else { SinceVet::NotWorse(heard.at) })
}

/// Whether a scale has risen, or something that needs a vet within hours was seen that had not been. A need that stood at its
/// highest already can rise no further; a bird can still get worse.
fn is_graver(protocol: &Protocol, now: &Exact, then: &Exact) -> bool {
    let risen =
        now.need.low > then.need.low || now.humane.low > then.humane.low || now.authority.low > then.authority.low;
    let weighs = |reason: &&Reason| !reason.is_doubt() && protocol.rule(reason.rule).need >= Some(Need::WithinHours);
    let known = |reason: &Reason| {
        then.reasons.iter().filter(weighs).any(|before| (before.rule, before.about) == (reason.rule, reason.about))
    };
    risen || now.reasons.iter().filter(weighs).any(|reason| !known(reason))
}

/// What all that was answered comes to; nothing where nothing was.
fn by_all(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<Exact> {
    let last = days.sittings.iter().rfind(|sitting| sitting.answered)?;
    Some(judge_bands(protocol, &known(log, last), last.ended))
}

/// What was known at the end of a sitting.
pub fn known(log: &[Stamped], sitting: &Sitting) -> Findings {
    log::findings(&log::standing(log.get(..sitting.to).unwrap_or(log)))
}
