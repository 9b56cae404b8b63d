//! Findings laid out against the protocol's questions: one column for the bird, one a wound, one for a wound not
//! found yet; and what holds of them.

mod truth;
mod weigh;

pub use truth::Truth;
pub use weigh::{Doubt, Subject, Weigher};

use crate::bird::Kind;
use crate::finding::{About, Answer, Findings};
use crate::measure::elapsed::{self, Ago};
use crate::measure::{skin, weight};
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::Asked;
use crate::protocol::raw::Measure;
use crate::protocol::{KIND, Protocol};
use crate::unit::{Band, Grams, Minutes, Permille, Reading, SquareMillimetres};
use chrono::{DateTime, Utc};

/// What stands in one place of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Not asked, or skipped: any answer is still possible.
    NotAsked,
    /// The answer at this position.
    Given(u8),
    /// A typed amount.
    Amount(u32),
    /// Looked at, and could not tell.
    CannotTell,
}

/// One column: what was said of one subject, and which questions apply to it.
#[derive(Clone, Debug)]
struct Column {
    cells: Vec<Cell>,
    said_at: Vec<Option<DateTime<Utc>>>,
    /// With doubt counted as met, and as unmet.
    applies: Vec<(Truth, Truth)>,
}

/// The findings in the form the rules read.
#[derive(Clone, Debug)]
pub struct Sheet<'p> {
    protocol: &'p Protocol,
    bird: Column,
    wounds: Vec<Column>,
    unfound: Column,
    looked_over: bool,
    now: DateTime<Utc>,
    /// What was said but this protocol does not know, in words; never dropped in silence.
    pub not_understood: Vec<String>,
}

impl<'p> Sheet<'p> {
    /// Lays out the findings as they stand at `now`.
    pub fn lay(protocol: &'p Protocol, findings: &Findings, now: DateTime<Utc>) -> Self {
        let count = protocol.questions.len();
        let blank = Column {
            cells: vec![Cell::NotAsked; count],
            said_at: vec![None; count],
            applies: vec![(Truth::Yes, Truth::Yes); count],
        };
        let mut sheet = Self {
            protocol,
            bird: blank.clone(),
            wounds: vec![blank.clone(); findings.wounds()],
            unfound: blank,
            looked_over: findings.looked_over(),
            now,
            not_understood: Vec::new(),
        };
        for said in findings.said() {
            let statement = &said.statement;
            let Some(at) = protocol.question_at(statement.question.as_str()) else {
                sheet.not_understood.push(format!("question `{}`", statement.question));
                continue;
            };
            let question = protocol.ask(at);
            let cell = match &statement.answer {
                Answer::CannotTell => Cell::CannotTell,
                Answer::Amount(amount) => Cell::Amount(*amount),
                Answer::Choice(id) => question.choice_at(id.as_str()).map_or_else(
                    || {
                        sheet.not_understood.push(format!("answer `{id}` to `{}`", statement.question));
                        Cell::CannotTell
                    },
                    Cell::Given,
                ),
            };
            sheet.put(Asked { about: statement.about, question: at }, cell, said.at);
        }
        sheet.apply();
        sheet
    }

    fn put(&mut self, asked: Asked, cell: Cell, at: DateTime<Utc>) {
        let column = match asked.about {
            About::Bird => Some(&mut self.bird),
            About::Wound(number) => self.wounds.get_mut(number),
        };
        let index = usize::from(asked.question.0);
        if let Some(column) = column
            && let (Some(into), Some(said_at)) = (column.cells.get_mut(index), column.said_at.get_mut(index))
        {
            *into = cell;
            *said_at = Some(at);
        }
    }

    /// Works out which questions apply. A question depends only on earlier ones, so one pass in order is enough.
    fn apply(&mut self) {
        let protocol = self.protocol;
        let wounds: Vec<Subject> = (0..self.wounds.len()).map(Subject::Wound).collect();
        for (at, question) in protocol.enumerated() {
            let subjects: &[Subject] =
                if question.wound { &[wounds.as_slice(), &[Subject::Unfound]].concat() } else { &[Subject::Bird] };
            for subject in subjects {
                let applies = |doubt| {
                    let cond = question.applies.as_ref();
                    cond.map_or(Truth::Yes, |cond| Weigher { sheet: self, doubt }.holds(cond, *subject, true))
                };
                let applies = (applies(Doubt::CountsAsMet), applies(Doubt::CountsAsUnmet));
                if let Some(into) = self.column_mut(*subject).applies.get_mut(usize::from(at.0)) {
                    *into = applies;
                }
            }
        }
    }

    fn column_mut(&mut self, subject: Subject) -> &mut Column {
        match subject {
            Subject::Bird => &mut self.bird,
            Subject::Wound(number) => self.wounds.get_mut(number).unwrap_or(&mut self.unfound),
            Subject::Unfound => &mut self.unfound,
        }
    }

    fn column(&self, subject: Subject, at: QuestionAt) -> &Column {
        match subject {
            _ if !self.protocol.ask(at).wound => &self.bird,
            Subject::Wound(number) => self.wounds.get(number).unwrap_or(&self.unfound),
            Subject::Bird | Subject::Unfound => &self.unfound,
        }
    }

    /// What was answered, for this subject or (where the question is about the bird) for the bird.
    pub fn cell(&self, subject: Subject, at: QuestionAt) -> Cell {
        self.column(subject, at).cells.get(usize::from(at.0)).copied().unwrap_or(Cell::NotAsked)
    }

    /// Whether the question applies to this subject; what could not be told does not rule it out.
    pub fn applies(&self, subject: Subject, at: QuestionAt) -> Truth {
        self.applies_under(Doubt::CountsAsMet, subject, at)
    }

    /// Whether the question applies, with doubt counted one way or the other.
    pub fn applies_under(&self, doubt: Doubt, subject: Subject, at: QuestionAt) -> Truth {
        let applies = self.column(subject, at).applies.get(usize::from(at.0)).copied();
        let (met, unmet) = applies.unwrap_or((Truth::Yes, Truth::Yes));
        match doubt {
            Doubt::CountsAsMet => met,
            Doubt::CountsAsUnmet => unmet,
        }
    }

    /// How many wounds have been found.
    pub fn wounds(&self) -> usize {
        self.wounds.len()
    }

    /// Whether no further wound will be found.
    pub fn looked_over(&self) -> bool {
        self.looked_over
    }

    /// Whether the question still waits for an answer and may apply.
    pub fn is_open(&self, asked: Asked) -> bool {
        self.waits_for(Subject::from(asked.about), asked.question)
    }

    fn waits_for(&self, subject: Subject, at: QuestionAt) -> bool {
        self.cell(subject, at) == Cell::NotAsked && self.applies(subject, at) != Truth::No
    }

    /// Whether a condition holds of a subject beyond doubt: what could not be told does not count.
    pub fn surely(&self, cond: &Cond, subject: Subject) -> bool {
        Weigher { sheet: self, doubt: Doubt::CountsAsUnmet }.holds(cond, subject, true) == Truth::Yes
    }

    /// Whether a condition holds of a subject, what could not be told counted as met.
    pub fn in_doubt_too(&self, cond: &Cond, subject: Subject) -> bool {
        Weigher { sheet: self, doubt: Doubt::CountsAsMet }.holds(cond, subject, true) == Truth::Yes
    }

    /// The bird's kind, once known.
    pub fn kind(&self) -> Option<Kind> {
        let at = self.protocol.question_at(KIND)?;
        match self.cell(Subject::Bird, at) {
            Cell::Given(choice) => Kind::ALL.get(usize::from(choice)).copied(),
            Cell::NotAsked | Cell::Amount(_) | Cell::CannotTell => None,
        }
    }

    /// The bird's weight.
    pub fn weight(&self) -> Reading<Grams> {
        let cell = self.protocol.giving(Measure::Weight, false).map(|at| self.cell(Subject::Bird, at));
        let kind = self.protocol.question_at(KIND).map(|at| self.cell(Subject::Bird, at));
        let weighed = match cell {
            Some(Cell::Amount(grams)) => Some(Grams(grams)),
            _ => None,
        };
        let open = cell == Some(Cell::NotAsked) || kind == Some(Cell::NotAsked);
        weight::reading(weighed, self.kind(), open)
    }

    /// What was said of when a subject was hurt: of the wound by itself, else of the bird.
    pub fn hurt(&self, subject: Subject) -> Option<Ago> {
        let at = self.protocol.giving(Measure::TimeSince, subject != Subject::Bird)?;
        let Cell::Given(choice) = self.cell(subject, at) else {
            return None;
        };
        let span = self.protocol.ask(at).choices.get(usize::from(choice))?.minutes()?;
        let said_at = self.column(subject, at).said_at.get(usize::from(at.0)).copied().flatten()?;
        Some(Ago { span, said_at })
    }

    /// Time since the subject was hurt.
    pub fn time_since(&self, subject: Subject) -> Reading<Minutes> {
        let open = self
            .protocol
            .giving(Measure::TimeSince, subject != Subject::Bird)
            .is_some_and(|at| self.waits_for(subject, at));
        elapsed::reading(self.hurt(subject), open, self.now)
    }

    /// The open area of one wound, or `None` while it is not known. A wound too small to ask about counts as none.
    fn area(&self, wound: usize) -> Option<Band<SquareMillimetres>> {
        let subject = Subject::Wound(wound);
        let at = self.protocol.giving(Measure::WoundArea, true)?;
        match (self.applies(subject, at), self.cell(subject, at)) {
            (Truth::No, _) => Some(Band::exactly(SquareMillimetres(0))),
            (Truth::Yes, Cell::Given(choice)) => self.protocol.ask(at).choices.get(usize::from(choice))?.area(),
            // Could not tell: anything from nothing to the largest answer, and no answer will narrow it.
            (Truth::Yes, Cell::CannotTell) => {
                let bands = self.protocol.ask(at).choices.iter().filter_map(crate::protocol::question::Choice::area);
                bands.reduce(Band::hull).map(|band| Band { low: SquareMillimetres(0), high: band.high })
            }
            // Not asked; or it may turn out to be no open wound at all.
            (Truth::Open, _) | (Truth::Yes, Cell::NotAsked | Cell::Amount(_)) => None,
        }
    }

    /// The share of skin open over all wounds.
    pub fn skin_open(&self) -> Reading<Permille> {
        skin::open_share((0..self.wounds.len()).map(|wound| self.area(wound)), self.looked_over, self.weight())
    }
}
