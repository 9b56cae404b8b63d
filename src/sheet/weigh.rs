//! Weighing conditions: what holds, what does not, what is open; and how "cannot tell" counts.

use super::truth::Truth;
use super::{Cell, Sheet};
use crate::finding::About;
use crate::protocol::cond::{AnswerSet, Cond, QuestionAt, Threshold};
use crate::unit::{Permille, Reading};

/// What a rule is weighed about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// The bird.
    Bird,
    /// A wound that was found.
    Wound(usize),
    /// A wound that may yet be found while the look-over is unfinished.
    Unfound,
}

impl From<About> for Subject {
    fn from(about: About) -> Self {
        match about {
            About::Bird => Self::Bird,
            About::Wound(number) => Self::Wound(number),
        }
    }
}

/// How an answer of "cannot tell" counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// As the worst that could not be ruled out: for need, authority, severity and nevers.
    CountsAsMet,
    /// As nothing: what must not rest on doubt alone, a humane end.
    CountsAsUnmet,
}

impl Doubt {
    /// The other way round.
    const fn turned(self) -> Self {
        match self {
            Self::CountsAsMet => Self::CountsAsUnmet,
            Self::CountsAsUnmet => Self::CountsAsMet,
        }
    }
}

/// Weighs conditions over one sheet, under one reading of doubt.
#[derive(Clone, Copy)]
pub struct Weigher<'a, 'p> {
    /// The findings.
    pub sheet: &'a Sheet<'p>,
    /// How "cannot tell" counts.
    pub doubt: Doubt,
}

impl Weigher<'_, '_> {
    /// Whether the condition holds for the subject.
    ///
    /// `raises` says whether holding makes things graver: doubt then counts towards holding, and against it where
    /// holding would make things milder (inside `Not`, and for exceptions).
    pub fn holds(self, cond: &Cond, subject: Subject, raises: bool) -> Truth {
        match cond {
            Cond::Always => Truth::Yes,
            Cond::Answer(at, set) => self.answered(*at, *set, subject, raises),
            Cond::All(parts) => Truth::all(parts.iter().map(|part| self.holds(part, subject, raises))),
            Cond::Any(parts) => Truth::any(parts.iter().map(|part| self.holds(part, subject, raises))),
            Cond::Not(part) => self.holds(part, subject, !raises).not(),
            Cond::Count(needed, parts) => {
                Truth::count(*needed, parts.iter().map(|part| self.holds(part, subject, raises)))
            }
            Cond::SomeWound(part) => self.some_wound(part, raises),
            Cond::AtLeast(threshold) => self.reaches(*threshold, subject, raises),
            // Staying under a value is not reaching it, so doubt turns round as it does for `Not`.
            Cond::Under(threshold) => self.reaches(*threshold, subject, !raises).not(),
        }
    }

    fn some_wound(self, part: &Cond, raises: bool) -> Truth {
        let found = (0..self.sheet.wounds()).map(|wound| self.holds(part, Subject::Wound(wound), raises));
        let unfound = if self.sheet.looked_over() {
            Truth::No
        } else {
            self.holds(part, Subject::Unfound, raises).min(Truth::Open)
        };
        Truth::any(found.chain([unfound]))
    }

    #[inline]
    fn answered(self, at: QuestionAt, set: AnswerSet, subject: Subject, raises: bool) -> Truth {
        let said = match self.sheet.cell(subject, at) {
            Cell::NotAsked => Truth::Open,
            Cell::Given(choice) => Truth::from(set.holds(choice)),
            Cell::Amount(_) => Truth::No,
            Cell::Worked(_, first, last) => {
                match ((first..=last).all(|at| set.holds(at)), (first..=last).any(|at| set.holds(at))) {
                    (true, _) => Truth::Yes,
                    (false, false) => Truth::No,
                    (false, true) => self.doubtful(raises),
                }
            }
            Cell::CannotTell => self.doubtful(raises),
        };
        // What does not apply is never found; what may not apply is never certain. Doubt whether it applies counts the same
        // way as doubt about its answer: inside `Not` the other way round.
        let doubt = if raises { self.doubt } else { self.doubt.turned() };
        said.min(self.sheet.applies_under(doubt, subject, at))
    }

    fn reaches(self, threshold: Threshold, subject: Subject, raises: bool) -> Truth {
        match threshold {
            Threshold::Weight(value) => self.over(self.sheet.weight(), value, raises),
            Threshold::TimeSince(value) => self.over(self.sheet.time_since(subject), value, raises),
            Threshold::SkinOpen(value) => self.over(self.sheet.skin_open(), value, raises),
            Threshold::BloodOfWeight(value) => self.over(self.sheet.blood_of_weight(), value, raises),
            Threshold::BreathRate(value) => self.over(self.sheet.breath_rate(), value, raises),
            Threshold::Dryness(value) => self.over(self.sheet.dryness(), value, raises),
            Threshold::BloodLost(value) => self.blood_lost(value, raises),
        }
    }

    /// While it is open whether she has less blood than a sound bird, what both readings agree on holds, and the rest is open.
    fn blood_lost(self, value: Permille, raises: bool) -> Truth {
        let share = |frail| self.over(self.sheet.blood_share(frail), value, raises);
        match self.sheet.frail() {
            Truth::Yes => share(true),
            Truth::No => share(false),
            Truth::Open if share(true) == share(false) => share(false),
            Truth::Open => Truth::Open,
        }
    }

    #[inline]
    fn over<T: Copy + Ord>(self, reading: Reading<T>, value: T, raises: bool) -> Truth {
        if reading.band.low >= value {
            Truth::Yes
        } else if reading.band.high < value {
            Truth::No
        } else if reading.settled {
            self.doubtful(raises)
        } else {
            Truth::Open
        }
    }

    #[inline]
    fn doubtful(self, raises: bool) -> Truth {
        Truth::from((self.doubt == Doubt::CountsAsMet) == raises)
    }
}
