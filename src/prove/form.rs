//! The form of an examination as clauses: each place holds one of the answers that may still be given there, and each
//! condition is a value worked out from them as the judge works it out.

use super::clauses::{Bit, Clauses};
use super::domain::domain_at;
use super::gauge::{Dial, Gauge, Marks, value};
use super::links::Beside;
use crate::bird::Kind;
use crate::protocol::Protocol;
use crate::protocol::cond::{AnswerSet, Cond, QuestionAt, Threshold};
use crate::protocol::question::Question;
use crate::protocol::rule::{Exclusion, RuleAt};
use crate::sheet::{Cell, Sheet, Subject, Truth};
use crate::unit::Grams;
use rustc_hash::FxHashMap;
use std::collections::BTreeMap;
use std::rc::Rc;

/// How doubt counts in a condition: as met or as unmet.
pub type Counts = bool;

/// The column of the bird; those after it are wounds, first the ones found, then such as may yet be found.
pub const BIRD: usize = 0;

/// One place: what it may hold, each with its value.
pub(super) type Options = Rc<[(Cell, Bit)]>;

/// A bird of whom some things are known and the rest is open.
#[derive(Clone)]
pub struct Form<'s, 'p> {
    pub(super) sheet: &'s Sheet<'p>,
    protocol: &'p Protocol,
    /// Whether each column is there: the bird and found wounds are.
    present: Vec<Bit>,
    /// By column, then by question.
    options: Vec<Vec<Options>>,
    applies: Vec<Vec<(Bit, Bit)>>,
    pub(super) gauges: BTreeMap<Dial, Gauge>,
    /// Whether a rule stands, where that has been worked out: the same rule counts for many rungs.
    stands: FxHashMap<(RuleAt, usize, Counts), Bit>,
    marks: Marks,
}

impl<'s, 'p> Form<'s, 'p> {
    /// The form of a sheet, with room for `more` wounds nobody has found yet where the look-over is not finished.
    pub fn new(protocol: &'p Protocol, sheet: &'s Sheet<'p>, clauses: &mut Clauses, more: usize) -> Self {
        Self::with(protocol, sheet, clauses, more, Marks::of(protocol))
    }

    /// The same, with figures told apart at marks that need not be the protocol's own.
    pub fn with(
        protocol: &'p Protocol,
        sheet: &'s Sheet<'p>,
        clauses: &mut Clauses,
        more: usize,
        marks: Marks,
    ) -> Self {
        let found = sheet.wounds();
        let more = if sheet.looked_over() { 0 } else { more };
        let mut present = vec![Bit::Known(true); 1 + found];
        for _ in 0..more {
            let next = clauses.open();
            if let Some(before) = present.last() {
                clauses.require(&[next.not(), *before]);
            }
            present.push(next);
        }
        let mut form = Self::ruled(protocol, sheet, present, marks);
        form.fill_in(clauses, None);
        form
    }

    /// The form of the same bird for a second protocol. What both ask alike is the very same value, so that what does not
    /// differ costs nothing; see [`Beside`] for what only one of them asks.
    pub fn beside(protocol: &'p Protocol, sheet: &'s Sheet<'p>, clauses: &mut Clauses, beside: &Beside) -> Self {
        let mut form = Self::ruled(protocol, sheet, beside.first.present.clone(), beside.first.marks.clone());
        form.fill_in(clauses, Some(beside));
        form
    }

    fn ruled(protocol: &'p Protocol, sheet: &'s Sheet<'p>, present: Vec<Bit>, marks: Marks) -> Self {
        let (columns, questions) = (present.len(), protocol.questions.len());
        Self {
            sheet,
            protocol,
            present,
            options: vec![vec![Options::default(); questions]; columns],
            applies: vec![vec![(Bit::Known(true), Bit::Known(true)); questions]; columns],
            gauges: BTreeMap::new(),
            stands: FxHashMap::default(),
            marks,
        }
    }

    fn fill_in(&mut self, clauses: &mut Clauses, beside: Option<&Beside>) {
        let protocol = self.protocol;
        for (at, question) in protocol.enumerated() {
            for column in self.columns(question) {
                self.fill(clauses, column, at, beside);
            }
        }
        for (at, question) in protocol.enumerated() {
            self.columns(question).for_each(|column| self.keep_offered(clauses, column, at));
        }
        self.keep_possible(clauses, |_| true);
    }

    /// The protocol it is the form of.
    pub fn protocol(&self) -> &'p Protocol {
        self.protocol
    }

    /// The columns a question is asked in.
    pub fn columns(&self, question: &Question) -> std::ops::Range<usize> {
        if question.wound { 1..self.present.len() } else { BIRD..1 }
    }

    /// How many columns there are, that of the bird among them.
    pub fn columns_in_all(&self) -> usize {
        self.present.len()
    }

    /// The columns of wounds.
    pub fn wounds(&self) -> std::ops::Range<usize> {
        1..self.present.len()
    }

    /// Whether a column is there.
    pub fn present(&self, column: usize) -> Bit {
        self.present.get(column).copied().unwrap_or(Bit::Known(false))
    }

    /// What the sheet calls a column.
    fn subject(&self, column: usize) -> Subject {
        match column.checked_sub(1) {
            None => Subject::Bird,
            Some(wound) if wound < self.sheet.wounds() => Subject::Wound(wound),
            Some(_) => Subject::Unfound,
        }
    }

    /// Every place that may hold more than one thing, with its options.
    pub fn places(&self) -> impl Iterator<Item = ((usize, QuestionAt), &Options)> {
        let columns = self.options.iter().enumerate();
        let placed = columns.flat_map(|(column, options)| {
            self.protocol.enumerated().zip(options).map(move |((at, _), options)| ((column, at), options))
        });
        placed.filter(|(_, options)| options.len() > 1)
    }

    /// What a place may hold.
    pub fn options(&self, column: usize, at: QuestionAt) -> &[(Cell, Bit)] {
        let column = if self.protocol.ask(at).wound { column } else { BIRD };
        self.options.get(column).and_then(|column| column.get(at.nth())).map_or(&[], |options| options)
    }

    /// Whether a question applies, doubt counted one way or the other.
    pub fn applies(&self, column: usize, at: QuestionAt, counts: Counts) -> Bit {
        let column = if self.protocol.ask(at).wound { column } else { BIRD };
        let applies = self.applies.get(column).and_then(|column| column.get(at.nth())).copied();
        let (met, unmet) = applies.unwrap_or((Bit::Known(true), Bit::Known(true)));
        if counts { met } else { unmet }
    }

    fn fill(&mut self, clauses: &mut Clauses, column: usize, at: QuestionAt, beside: Option<&Beside>) {
        self.work_out_applies(clauses, column, at);
        let known = self.sheet.cell(self.subject(column), at);
        let options = if known == Cell::NotAsked {
            // Nobody will be asked what is known not to apply.
            if self.sheet.applies(self.subject(column), at) == Truth::No {
                Options::default()
            } else {
                let cells = domain_at(self.protocol, at, &self.marks);
                match beside {
                    None => open_options(clauses, cells),
                    Some(beside) => beside.options(clauses, self.protocol, cells, column, at),
                }
            }
        } else {
            Rc::new([(known, Bit::Known(true))])
        };
        self.put(column, at, options);
    }

    fn put(&mut self, column: usize, at: QuestionAt, options: Options) {
        if let Some(into) = self.options.get_mut(column).and_then(|column| column.get_mut(at.nth())) {
            *into = options;
        }
    }

    fn work_out_applies(&mut self, clauses: &mut Clauses, column: usize, at: QuestionAt) {
        let Some(cond) = &self.protocol.ask(at).applies else { return };
        let met = self.holds(clauses, cond, column, true);
        let unmet = self.holds(clauses, cond, column, false);
        if let Some(into) = self.applies.get_mut(column).and_then(|column| column.get_mut(at.nth())) {
            *into = (met, unmet);
        }
    }

    /// Rules out birds that cannot be: an answer or a weight of other kinds only, where her kind is not settled by what was said.
    fn keep_offered(&self, clauses: &mut Clauses, column: usize, at: QuestionAt) {
        let (question, asked) = (self.protocol.ask(at), &self.protocol.roles.kind);
        for (cell, bit) in self.options(column, at) {
            let of_any_kind = match cell {
                Cell::Given(choice) => {
                    question.choices.get(usize::from(*choice)).is_none_or(|choice| choice.kinds.is_empty())
                }
                Cell::Amount(_) => false,
                Cell::NotAsked | Cell::Worked(..) | Cell::CannotTell => true,
            };
            if of_any_kind {
                continue;
            }
            let fits = |kind: Option<Kind>| match cell {
                Cell::Given(choice) => question.is_offered(*choice, kind),
                Cell::Amount(grams) => Kind::taken_of(kind).holds(&Grams(*grams)),
                Cell::NotAsked | Cell::Worked(..) | Cell::CannotTell => true,
            };
            let is_one = |kind: &Cell| match kind {
                Cell::Given(at) => asked.of(*at).is_some_and(|kind| fits(Some(kind))),
                Cell::CannotTell => fits(None),
                Cell::NotAsked | Cell::Worked(..) | Cell::Amount(_) => false,
            };
            let kinds = self.options(BIRD, asked.question).iter().filter(|(kind, _)| is_one(kind)).map(|(_, bit)| *bit);
            let clause: Vec<Bit> = std::iter::once(bit.not()).chain(kinds).collect();
            if clause.iter().any(|bit| *bit != Bit::Known(false)) {
                clauses.require(&clause);
            }
        }
    }

    /// Rules out birds that cannot be: two answers that exclude each other, beyond what was said already.
    fn keep_possible(&mut self, clauses: &mut Clauses, concerns: impl Fn(&Cond) -> bool) {
        let concerned = |exclusion: &&Exclusion| concerns(&exclusion.one) || concerns(&exclusion.other);
        for exclusion in self.protocol.exclusions.iter().filter(concerned) {
            for column in 0..self.present.len() {
                let one = self.holds(clauses, &exclusion.one, column, false);
                let other = self.holds(clauses, &exclusion.other, column, false);
                if (one, other) != (Bit::Known(true), Bit::Known(true)) {
                    clauses.require(&[one.not(), other.not()]);
                }
            }
        }
    }

    /// The same bird with one place answered anew; everything that does not hang on it stays the very same value.
    pub fn twin(&self, clauses: &mut Clauses, column: usize, at: QuestionAt) -> Self {
        let mut twin = self.clone();
        twin.stands.clear();
        let options = open_options(clauses, domain_at(self.protocol, at, &self.marks));
        twin.put(column, at, options);
        if self.protocol.roles.kind.question == at {
            self.protocol.enumerated().for_each(|(other, _)| twin.keep_offered(clauses, BIRD, other));
        }
        twin.keep_offered(clauses, column, at);
        // What a question makes apply may move in turn; a question depends only on earlier ones, so one pass is enough.
        let mut moved = vec![at];
        for (at, question) in self.protocol.enumerated() {
            let hangs = |cond: &Cond| cond.questions().iter().any(|read| moved.contains(read));
            if question.applies.as_ref().is_some_and(hangs) {
                self.columns(question).for_each(|column| twin.work_out_applies(clauses, column, at));
                moved.push(at);
            }
        }
        twin.gauges.retain(|dial, _| {
            let (of_bird, of_wounds) = dial.fed_by(self.protocol);
            !of_bird.iter().chain(&of_wounds).any(|at| moved.contains(at))
        });
        twin.keep_possible(clauses, |cond| cond.questions().iter().any(|at| moved.contains(at)));
        twin
    }

    /// Whether a condition holds of a column, doubt counted as met or as unmet.
    ///
    /// It follows the judge's own weighing; inside `Not` and `Under` doubt counts the other way round.
    pub fn holds(&mut self, clauses: &mut Clauses, cond: &Cond, column: usize, counts: Counts) -> Bit {
        match cond {
            Cond::Always => Bit::Known(true),
            Cond::Answer(at, set) => self.answered(clauses, *at, *set, column, counts),
            Cond::All(parts) => {
                let parts = self.each(clauses, parts, column, counts, Bit::Known(false));
                clauses.all(&parts)
            }
            Cond::Any(parts) => {
                let parts = self.each(clauses, parts, column, counts, Bit::Known(true));
                clauses.any(&parts)
            }
            Cond::Not(part) => self.holds(clauses, part, column, !counts).not(),
            Cond::Count(least, parts) => {
                let parts: Vec<Bit> = parts.iter().map(|part| self.holds(clauses, part, column, counts)).collect();
                clauses.at_least(*least, &parts)
            }
            Cond::SomeWound(part) => {
                let wounds: Vec<Bit> = self
                    .wounds()
                    .map(|wound| {
                        let holds = self.holds(clauses, part, wound, counts);
                        clauses.all(&[self.present(wound), holds])
                    })
                    .collect();
                clauses.any(&wounds)
            }
            Cond::AtLeast(threshold) => self.reaches(clauses, *threshold, column, counts),
            Cond::Under(threshold) => self.reaches(clauses, *threshold, column, !counts).not(),
        }
    }

    /// Each part, up to one that decides.
    fn each(&mut self, clauses: &mut Clauses, parts: &[Cond], column: usize, counts: Counts, decides: Bit) -> Vec<Bit> {
        let mut found = Vec::with_capacity(parts.len());
        for part in parts {
            let bit = self.holds(clauses, part, column, counts);
            found.push(bit);
            if bit == decides {
                break;
            }
        }
        found
    }

    fn answered(
        &mut self,
        clauses: &mut Clauses,
        at: QuestionAt,
        set: AnswerSet,
        column: usize,
        counts: Counts,
    ) -> Bit {
        let fits = |cell: &Cell| match *cell {
            Cell::Given(choice) => set.holds(choice),
            Cell::Worked(_, first, last) if counts => (first..=last).any(|at| set.holds(at)),
            Cell::Worked(_, first, last) => (first..=last).all(|at| set.holds(at)),
            Cell::CannotTell => counts,
            Cell::Amount(_) | Cell::NotAsked => false,
        };
        let said: Vec<Bit> =
            self.options(column, at).iter().filter(|(cell, _)| fits(cell)).map(|(_, bit)| *bit).collect();
        let said = clauses.any(&said);
        let applies = self.applies(column, at, counts);
        clauses.all(&[said, applies])
    }

    fn reaches(&mut self, clauses: &mut Clauses, threshold: Threshold, column: usize, counts: Counts) -> Bit {
        let dial = match threshold {
            Threshold::Weight(_) => Dial::Weight,
            Threshold::TimeSince(_) => Dial::TimeSince(column),
            Threshold::SkinOpen(_) => Dial::SkinOpen,
            Threshold::BloodOfWeight(_) => Dial::BloodOfWeight,
            Threshold::BreathRate(_) => Dial::BreathRate,
            Threshold::Dryness(_) => Dial::Dryness,
            Threshold::BloodLost(_) => {
                let protocol = self.protocol;
                let frail = self.holds(clauses, &protocol.frail_when, BIRD, true);
                let of_frail = self.reach(clauses, Dial::BloodLost(true), value(threshold), counts);
                let of_sound = self.reach(clauses, Dial::BloodLost(false), value(threshold), counts);
                let of_frail = clauses.all(&[frail, of_frail]);
                let of_sound = clauses.all(&[frail.not(), of_sound]);
                return clauses.any(&[of_frail, of_sound]);
            }
        };
        self.reach(clauses, dial, value(threshold), counts)
    }

    fn reach(&mut self, clauses: &mut Clauses, dial: Dial, value: u64, counts: Counts) -> Bit {
        if !self.gauges.contains_key(&dial) {
            let gauge = self.gauge(clauses, dial);
            self.gauges.insert(dial, gauge);
        }
        let ends = self.gauges.get(&dial).and_then(|gauge| gauge.at(value));
        let (low, high) = ends.unwrap_or((Bit::Known(false), Bit::Known(true)));
        if counts { high } else { low }
    }

    pub(super) fn gauge(&self, clauses: &mut Clauses, dial: Dial) -> Gauge {
        let values =
            self.marks.thresholds.iter().filter(|mark| measures(**mark, dial)).map(|mark| value(*mark)).collect();
        let subject = match dial {
            Dial::TimeSince(column) => self.subject(column),
            _ => Subject::Bird,
        };
        let reading = dial.read(self.sheet, subject);
        Gauge::new(clauses, &values, reading)
    }

    /// Whether a rule is in force for some column, doubt counted as met or as unmet.
    pub fn in_force(&mut self, clauses: &mut Clauses, at: RuleAt, in_doubt: Counts) -> Bit {
        let columns = if self.protocol.rule(at).per_wound { self.wounds() } else { BIRD..BIRD + 1 };
        let bits: Vec<Bit> = columns.map(|column| self.stands(clauses, at, column, in_doubt)).collect();
        clauses.any(&bits)
    }

    /// Whether a rule's condition holds of a column and no exception holds it back, doubt counted as met or as unmet.
    pub fn stands(&mut self, clauses: &mut Clauses, at: RuleAt, column: usize, in_doubt: Counts) -> Bit {
        if let Some(known) = self.stands.get(&(at, column, in_doubt)) {
            return *known;
        }
        let rule = self.protocol.rule(at);
        let when = self.holds(clauses, &rule.when, column, in_doubt);
        let mut parts = vec![self.present(column), when];
        if when != Bit::Known(false) {
            for cond in &rule.unless {
                // Doubt about an exception counts against it, where doubt counts for the rule.
                let held = self.holds(clauses, cond, column, !in_doubt);
                parts.push(held.not());
            }
        }
        let stands = clauses.all(&parts);
        self.stands.insert((at, column, in_doubt), stands);
        stands
    }

    /// Gauges that are not all known.
    pub fn open_gauges(&self) -> impl Iterator<Item = (Dial, &Gauge)> {
        self.gauges.iter().filter(|(_, gauge)| !gauge.is_known()).map(|(dial, gauge)| (*dial, gauge))
    }
}

/// A place of its own for an open question: exactly one of its answers, and no other.
pub(super) fn open_options(clauses: &mut Clauses, cells: Vec<Cell>) -> Options {
    let options: Options = cells.into_iter().map(|cell| (cell, clauses.open())).collect();
    let bits: Vec<Bit> = options.iter().map(|(_, bit)| *bit).collect();
    clauses.require_one_of(&bits);
    options
}

/// Whether a threshold stands on this dial.
const fn measures(threshold: Threshold, dial: Dial) -> bool {
    matches!(
        (threshold, dial),
        (Threshold::Weight(_), Dial::Weight)
            | (Threshold::TimeSince(_), Dial::TimeSince(_))
            | (Threshold::SkinOpen(_), Dial::SkinOpen)
            | (Threshold::BloodLost(_), Dial::BloodLost(_))
            | (Threshold::BloodOfWeight(_), Dial::BloodOfWeight)
            | (Threshold::BreathRate(_), Dial::BreathRate)
            | (Threshold::Dryness(_), Dial::Dryness)
    )
}
