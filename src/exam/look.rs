//! A later look: what it asks again, and what was answered before it began.

use super::Exam;
use crate::finding::log::{self, Entry, Spot, Stamped};
use crate::finding::{About, Findings, Said};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::sheet::{Sheet, Truth};
use chrono::{DateTime, Utc};

/// A look at a bird that was examined before.
#[derive(Clone, Debug)]
pub(super) struct Look<'p> {
    /// What it asks, as its beginning says.
    asks: Vec<Spot>,
    /// What was answered or skipped since.
    dealt: Vec<Spot>,
    /// What was known as it began, and laid out.
    before: Findings,
    sheet: Sheet<'p>,
}

impl<'p> Look<'p> {
    /// The look that began last, if one did; over or not, it is what the examination stands in.
    pub fn of(protocol: &'p Protocol, standing: &[&Stamped]) -> Option<Self> {
        let began = standing.iter().rposition(|stamped| matches!(stamped.entry, Entry::LookBegan(_)))?;
        let (earlier, since) = standing.split_at(began);
        let Entry::LookBegan(asks) = &since.first()?.entry else { return None };
        let before = log::findings(earlier);
        let dealt = since.iter().flat_map(|stamped| dealt_with(&stamped.entry)).collect();
        let sheet = Sheet::lay(protocol, &before, DateTime::UNIX_EPOCH);
        Some(Self { asks: asks.clone(), dealt, before, sheet })
    }

    /// Whether it wants an answer: it was to be asked, or has come to apply by what was answered since.
    pub fn wants(&self, spot: &Spot, asked: Asked) -> bool {
        let is_new = || match asked.about {
            About::Wound(number) if number >= self.before.wounds() => true,
            about => self.sheet.applies(about.into(), asked.question) != Truth::Yes,
        };
        !self.dealt.contains(spot) && (self.asks.contains(spot) || is_new())
    }

    /// Whether a question was answered or skipped since it began.
    pub fn has_dealt_with(&self, spot: &Spot) -> bool {
        self.dealt.contains(spot)
    }

    /// What was answered before it began.
    pub fn before(&self, spot: &Spot) -> Option<&Said> {
        self.before.answer(spot.about, spot.question.as_str())
    }
}

/// The places an entry answers or skips.
fn dealt_with(entry: &Entry) -> Vec<Spot> {
    match entry {
        Entry::Said(statements) => {
            statements.iter().map(|said| Spot { about: said.about, question: said.question.clone() }).collect()
        }
        Entry::Skipped(spots) => spots.clone(),
        _ => Vec::new(),
    }
}

impl Exam<'_> {
    /// Whether this is a later look at a bird that was examined before.
    pub fn is_look(&self) -> bool {
        self.look.is_some()
    }

    /// What was answered last time, at a later look.
    pub fn last_time(&self, asked: Asked) -> Option<&Said> {
        self.look.as_ref()?.before(&self.spot(asked))
    }

    /// What stands as answer to a question and was said in this sitting.
    pub fn said_now(&self, asked: Asked) -> Option<&crate::finding::Answer> {
        let now = self.look.as_ref().is_none_or(|look| look.has_dealt_with(&self.spot(asked)));
        self.standing(asked).filter(|_| now)
    }

    /// When the look began that was begun last.
    pub fn look_began(log: &[Stamped]) -> Option<DateTime<Utc>> {
        log.iter().rev().find(|stamped| matches!(stamped.entry, Entry::LookBegan(_))).map(|stamped| stamped.at)
    }
}
