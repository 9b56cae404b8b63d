//! Birds whose measures are what they are: what the solver proposes is laid out, measured, and corrected where it is not so.

use super::clauses::{Bit, Clauses, OutOfBudget};
use super::form::{BIRD, Counts, Form};
use super::gauge::Dial;
use crate::finding::About;
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::{Asked, Question};
use crate::sheet::{Cell, Sheet, Subject};
use crate::unit::Band;

impl<'p> Form<'_, 'p> {
    /// The bird the solver found last, filled in on the sheet.
    pub fn bird(&self, clauses: &Clauses) -> Sheet<'p> {
        let mut sheet = self.sheet.clone();
        for column in self.wounds().skip(self.sheet.wounds()) {
            if clauses.value(self.present(column)) {
                sheet.suppose_wound();
            }
        }
        for ((column, at), options) in self.places() {
            let about = column.checked_sub(1).map_or(About::Bird, About::Wound);
            let chosen = options.iter().find(|(_, bit)| clauses.value(*bit));
            if let (true, Some((cell, _))) = (clauses.value(self.present(column)), chosen) {
                sheet.suppose(Asked { about, question: at }, *cell);
            }
        }
        sheet.suppose_looked_over();
        sheet.suppose_applies();
        sheet
    }

    /// Whether the clauses can be met with all of these true by a bird whose measures are what they are.
    ///
    /// The solver is free to choose what a gauge shows. Where it chose wrongly for the bird it found, it is told what that
    /// bird's answers come to, and asked again; there are only so many answers a measure is read from.
    ///
    /// # Errors
    /// Where the work allowed does not suffice.
    pub fn can_be(
        forms: &[&Self],
        clauses: &mut Clauses,
        assumed: &[Bit],
    ) -> Result<Option<Vec<Sheet<'p>>>, OutOfBudget> {
        loop {
            if !clauses.can_be(assumed)? {
                return Ok(None);
            }
            let birds: Vec<Sheet<'p>> = forms.iter().map(|form| form.bird(clauses)).collect();
            let mut corrections = Vec::new();
            for (form, bird) in forms.iter().zip(&birds) {
                corrections.extend(form.misread(clauses, bird));
            }
            if corrections.is_empty() {
                return Ok(Some(birds));
            }
            clauses.spend()?;
            for clause in corrections {
                clauses.require(&clause);
            }
        }
    }

    /// For every end of a gauge that is not what the bird's answers come to, the clause that says so.
    fn misread(&self, clauses: &mut Clauses, bird: &Sheet<'p>) -> Vec<Vec<Bit>> {
        let mut found = Vec::new();
        for (dial, gauge) in self.open_gauges() {
            let subject = match dial {
                Dial::TimeSince(column) if column != BIRD && !clauses.value(self.present(column)) => continue,
                Dial::TimeSince(column) => column.checked_sub(1).map_or(Subject::Bird, Subject::Wound),
                _ => Subject::Bird,
            };
            let Band { low: least, high: most } = dial.read(bird, subject).band;
            for (mark, low, high) in &gauge.marks {
                for (end, bit, reaches) in [(BandEnd::Low, *low, least >= *mark), (BandEnd::High, *high, most >= *mark)]
                {
                    if clauses.value(bit) != reaches {
                        let mut clause = self.unless_read_so(clauses, dial, end, reaches);
                        clause.push(bit.when(reaches));
                        found.push(clause);
                    }
                }
            }
        }
        found
    }

    /// What would have to be otherwise for an end of a dial to be read otherwise than in what the solver found last.
    ///
    /// Where the end reaches a mark, it does so with every answer that stands for more; where it does not, with every answer
    /// that stands for less.
    fn unless_read_so(&self, clauses: &mut Clauses, dial: Dial, end: BandEnd, reaches: bool) -> Vec<Bit> {
        let (of_bird, of_wounds) = dial.fed_by(self.protocol());
        let columns = match dial {
            Dial::TimeSince(BIRD) => 0..0,
            Dial::TimeSince(column) => column..column + 1,
            _ if of_wounds.is_empty() => 0..0,
            _ => self.wounds(),
        };
        let mut otherwise = Vec::new();
        for at in of_bird {
            self.place_read_so(clauses, (BIRD, at), end, reaches, &mut otherwise);
        }
        for column in columns {
            let present = self.present(column);
            if !clauses.value(present) {
                // A wound that is not there can only add.
                if !reaches {
                    otherwise.push(present);
                }
                continue;
            }
            otherwise.push(present.not());
            for at in &of_wounds {
                self.place_read_so(clauses, (column, *at), end, reaches, &mut otherwise);
            }
        }
        otherwise
    }

    fn place_read_so(
        &self,
        clauses: &mut Clauses,
        (column, at): (usize, QuestionAt),
        end: BandEnd,
        reaches: bool,
        otherwise: &mut Vec<Bit>,
    ) {
        let question = self.protocol().ask(at);
        // Doubt whether it applies leaves the high end what was told, and takes the low end to nothing.
        let applies = self.applies(column, at, end.counts());
        let grows = question.ordered && question.gives.is_some();
        if !clauses.value(applies) {
            if !(grows && reaches) {
                otherwise.push(applies);
            }
            return;
        }
        otherwise.push(applies.not());
        let options = self.options(column, at);
        let Some((chosen, _)) = options.iter().find(|(_, bit)| clauses.value(*bit)) else { return };
        let like = |cell: &Cell| match (end.of(question, chosen), end.of(question, cell)) {
            (Some(chosen), Some(other)) if grows => {
                if reaches {
                    other >= chosen
                } else {
                    other <= chosen
                }
            }
            _ => cell == chosen,
        };
        let like: Vec<Bit> = options.iter().filter(|(cell, _)| like(cell)).map(|(_, bit)| *bit).collect();
        otherwise.push(clauses.any(&like).not());
    }
}

/// An end of a band.
#[derive(Clone, Copy)]
enum BandEnd {
    Low,
    High,
}

impl BandEnd {
    /// How doubt counts for this end.
    const fn counts(self) -> Counts {
        match self {
            Self::Low => false,
            Self::High => true,
        }
    }

    /// What an answer stands for, by this end, in the base unit of its question's measure.
    fn of(self, question: &Question, cell: &Cell) -> Option<u64> {
        let band = match cell {
            Cell::Given(choice) => question.choices.get(usize::from(*choice))?.worth?,
            Cell::Worked(band, ..) => *band,
            Cell::CannotTell => Band {
                low: 0,
                high: question.choices.iter().filter_map(|choice| choice.worth).map(|band| band.high).max()?,
            },
            Cell::Amount(_) | Cell::NotAsked => return None,
        };
        Some(match self {
            Self::Low => band.low,
            Self::High => band.high,
        })
    }
}
