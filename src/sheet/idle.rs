//! What was said and moves nothing: never passed over in silence.

use super::{Cell, Sheet, Truth};
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::Asked;
use chrono::{DateTime, TimeDelta, Utc};

/// Why an answer moves nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Idle {
    /// Other answers mean that it is not asked of such a bird or wound: one of them may be wrong, or was changed since.
    NotAsked,
    /// Nothing is made of it.
    NothingMade,
}

impl Sheet<'_> {
    /// Every answer that says something and moves nothing, and why, in the order of asking.
    pub fn idle(&self) -> impl Iterator<Item = (Asked, Idle)> + '_ {
        let places = self.protocol.enumerated().filter(|(_, question)| question.worked_out.is_none());
        let places =
            places.flat_map(|(at, question)| self.abouts(question).map(move |about| Asked { about, question: at }));
        places.filter_map(|asked| Some((asked, self.why_idle(asked)?)))
    }

    fn why_idle(&self, asked: Asked) -> Option<Idle> {
        let subject = asked.about.into();
        let cell = self.cell(subject, asked.question);
        if !self.says_something(asked.question, cell) {
            return None;
        }
        match self.applies(subject, asked.question) {
            Truth::No => (!self.is_outlived(asked)).then_some(Idle::NotAsked),
            Truth::Open | Truth::Yes => (!self.makes_something(asked.question, cell)).then_some(Idle::NothingMade),
        }
    }

    /// Whether what calls for a question was looked at again an hour later or more: then its answer was true of her before, and the
    /// two do not contradict each other.
    fn is_outlived(&self, asked: Asked) -> bool {
        let Some(said) = self.said_at(asked) else { return false };
        let gates = self.protocol.asked_by(asked.question, asked.about).into_iter();
        gates.filter_map(|gate| self.said_at(gate)).any(|later| later - said >= TimeDelta::hours(1))
    }

    fn said_at(&self, asked: Asked) -> Option<DateTime<Utc>> {
        let column = self.column(asked.about.into(), asked.question);
        column.said_at.get(asked.question.nth()).copied().flatten()
    }

    fn says_something(&self, at: QuestionAt, cell: Cell) -> bool {
        match cell {
            Cell::NotAsked => false,
            Cell::Given(choice) => self.protocol.says_something(at, choice),
            Cell::Worked(band, ..) => band.high > 0,
            Cell::Amount(_) | Cell::CannotTell => true,
        }
    }

    /// What could not be told counts as the worst of what it may be.
    fn makes_something(&self, at: QuestionAt, cell: Cell) -> bool {
        match cell {
            Cell::Given(choice) => self.protocol.makes_something(at, choice),
            Cell::Worked(_, first, last) => (first..=last).any(|choice| self.protocol.makes_something(at, choice)),
            Cell::NotAsked | Cell::Amount(_) | Cell::CannotTell => true,
        }
    }
}
