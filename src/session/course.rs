//! Which cards there are of the bird at hand, and which one shows.

use super::Session;
use crate::care::PlanStep;
use crate::care::contacts::Contacts;
use crate::content::course::{CourseCard, Does, cards};
use crate::finding::Id;
use crate::finding::log::ticked;
use crate::protocol::Protocol;
use crate::protocol::rule::ActionAt;
use crate::words::{Reader, Voice, Words};
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

impl Session<'_> {
    /// Lays the cards of the course out. Whatever changes the plan, whom to call, or for whom it is said comes through here.
    pub fn lay_cards(&mut self) {
        let nobody = Contacts::default();
        // A practice bird is no reason to phone.
        let contacts = if self.practice.is_some() || self.flock.practice { &nobody } else { &self.contacts };
        // Where a card ends is the same whether it is read or heard.
        let reader = Reader { voice: Voice::Written, ..self.reader() };
        self.cards = cards(self.protocol, &self.verdict, &self.plan, contacts, reader);
    }

    /// Takes the catalogue all of it is said by.
    pub fn speak(&mut self, words: &'static Words) {
        self.words = words;
        self.lay_cards();
    }

    /// Which card shows: the one that was turned to, else the one that lies open.
    pub fn card_at(&self, cards: &[CourseCard]) -> usize {
        let open = || current(cards, self.protocol, &ticked(&self.log));
        self.turned_card.filter(|at| *at < cards.len()).unwrap_or_else(open)
    }

    /// The step of the plan that the card's next open line is; none where it is a look, a test, or what a paragraph asks.
    pub fn step_here(&self) -> Option<&PlanStep> {
        let card = self.cards.get(self.card_at(&self.cards))?;
        let open = first_open(card, self.protocol, &ticked(&self.log))?;
        let does = &card.acts.get(open)?.does;
        self.plan.steps.iter().find(|step| match (step, does) {
            (PlanStep::Act(target, _), Does::Act(here)) => target == here,
            (PlanStep::Phone(phone), Does::Phone(here)) => phone == here,
            (PlanStep::Act(..) | PlanStep::Phone(_), _) => false,
        })
    }

    /// What of that step goes by the clock, and how long. Seconds.
    pub fn timed_here(&self) -> Option<(ActionAt, u16)> {
        let PlanStep::Act(target, _) = self.step_here()? else { return None };
        self.plan.timed(self.protocol, target.action).map(|seconds| (target.action, seconds))
    }
}

/// The first line of a card that is not ticked off.
pub fn first_open(card: &CourseCard, protocol: &Protocol, ticked: &BTreeMap<Id, DateTime<Utc>>) -> Option<usize> {
    card.acts.iter().position(|act| !ticked.contains_key(&act.does.name(protocol)))
}

/// The card that lies open: the first on which something is still to be done; the last where all is done.
pub fn current(cards: &[CourseCard], protocol: &Protocol, ticked: &BTreeMap<Id, DateTime<Utc>>) -> usize {
    let open = cards.iter().position(|card| first_open(card, protocol, ticked).is_some());
    open.unwrap_or_else(|| cards.len().saturating_sub(1))
}
