//! Conditions: names to positions, answers to sets.

use super::Checker;
use crate::protocol::cond::{AnswerSet, Cond, Measure, Threshold};
use crate::protocol::fault::{Fault, nearest};
use crate::protocol::item::Items;
use crate::protocol::limits::MOST_PARTS;
use crate::protocol::raw::{self, Amount, Form};
use crate::protocol::read::Placed;
use crate::typed::weight::{LEAST, MOST};
use crate::unit::{Grams, Minutes, Permille, TenthsPerMinute};

/// The item a condition belongs to, for telling where a fault is.
pub(super) struct Belongs<'a, T> {
    pub placed: &'a Placed<T>,
    pub item: &'a str,
    pub field: &'a str,
}

/// What a measure is read from first of all.
const fn fed_by(measure: Measure) -> Measure {
    match measure {
        Measure::SkinOpen => Measure::WoundArea,
        Measure::BloodOfWeight => Measure::BloodLost,
        Measure::Weight
        | Measure::TimeSince
        | Measure::WoundArea
        | Measure::BloodLost
        | Measure::BreathRate
        | Measure::Dryness
        | Measure::Refill => measure,
    }
}

/// Why no bird ever passes a value, or every bird does.
fn out_of_range(threshold: Threshold) -> Option<&'static str> {
    let within = |value: u32, most: u32, why| (value == 0 || value > most).then_some(why);
    match threshold {
        Threshold::Weight(Grams(grams)) => {
            let weighed = LEAST.0 + 1..=MOST.0;
            (!weighed.contains(&grams)).then_some("a bird that can be weighed has from 6 to 30000 grams")
        }
        Threshold::TimeSince(Minutes(minutes)) => within(minutes, YEAR, "time since an injury is told up to a year"),
        Threshold::SkinOpen(Permille(share))
        | Threshold::BloodLost(Permille(share))
        | Threshold::BloodOfWeight(Permille(share))
        | Threshold::Dryness(Permille(share)) => {
            within(share, 1000, "a share lies above 0 and is at most 100 in 100 of the whole")
        }
        Threshold::BreathRate(TenthsPerMinute(rate)) => within(rate, 20_000, "breaths are counted up to 2000 a minute"),
    }
}

/// A year in minutes.
const YEAR: u32 = 365 * 24 * 60;

impl Checker {
    /// Checks a condition; `None` where any name in it is unknown (each is reported), or where it is too large.
    pub(super) fn cond<T>(&mut self, of: &Belongs<T>, raw: &raw::Cond, items: &Items) -> Option<Cond> {
        let cond = self.part(of, raw, items)?;
        let mut parts = 0;
        cond.walk(&mut |_| parts += 1);
        if parts > MOST_PARTS {
            let what =
                format!("the condition has {parts} parts, with what its names stand for; it may have {MOST_PARTS}");
            self.complain(of, of.field, what);
            return None;
        }
        Some(cond)
    }

    fn part<T>(&mut self, of: &Belongs<T>, raw: &raw::Cond, items: &Items) -> Option<Cond> {
        match raw {
            raw::Cond::Always => Some(Cond::Always),
            raw::Cond::Named(name) => self.named(of, name, items),
            raw::Cond::Is(question, answers) => self.literal(of, question, answers, items, |at, wanted| at == wanted),
            raw::Cond::AtLeast(question, answer) => {
                if let Some(placed) = self.question_item(question, items)
                    && !placed.item.form.is_ordered()
                    && !self.lost.names.contains(question)
                {
                    let what = format!("`>=` needs an ordered question, and `{question}` has no order; write `=`");
                    self.complain(of, question, what);
                }
                self.literal(of, question, std::slice::from_ref(answer), items, |at, wanted| at >= wanted)
            }
            raw::Cond::All(parts) => {
                let level = |part| if let Cond::All(inner) = part { inner } else { vec![part] };
                self.conds(of, parts, items).map(|parts| Cond::All(parts.into_iter().flat_map(level).collect()))
            }
            // A name among others stands for its parts: one level fewer to judge.
            raw::Cond::Any(parts) => {
                let level = |part| if let Cond::Any(inner) = part { inner } else { vec![part] };
                self.conds(of, parts, items).map(|parts| Cond::Any(parts.into_iter().flat_map(level).collect()))
            }
            raw::Cond::Not(part) => self.part(of, part, items).map(|part| Cond::Not(Box::new(part))),
            raw::Cond::Count(least, parts) => {
                if *least == 0 || *least > parts.len() {
                    self.complain(of, " of ", format!("{least} of {} conditions can never be counted so", parts.len()));
                }
                self.conds(of, parts, items).map(|parts| Cond::Count(*least, parts))
            }
            raw::Cond::SomeWound(part) => self.part(of, part, items).map(|part| Cond::SomeWound(Box::new(part))),
            raw::Cond::Reaches(measure, amount) => self.threshold(of, measure, *amount, items).map(Cond::AtLeast),
            raw::Cond::Under(measure, amount) => self.threshold(of, measure, *amount, items).map(Cond::Under),
        }
    }

    /// The conditions that bear a name, in the order of the files: each may use those before it.
    pub(super) fn named_conditions(&mut self, items: &Items) {
        for placed in &items.conditions {
            let raw::Named { id, when } = &placed.item;
            if self.names.questions.contains_key(id) {
                let what = format!("`{id}` is a question too; a condition needs a name of its own");
                self.faults.push(placed.fault(format!("condition `{id}`"), id, what));
            }
            let item = format!("condition `{id}`");
            let cond = self.cond(&Belongs { placed, item: &item, field: "when" }, when, items);
            self.conditions.push(cond);
        }
    }

    /// A condition by its name; or a question that is asked for one sign, where that is seen.
    fn named<T>(&mut self, of: &Belongs<T>, name: &str, items: &Items) -> Option<Cond> {
        if let Some(at) = self.names.conditions.get(name) {
            // One that is told further down is not known yet.
            let Some(known) = self.conditions.get(at.nth()) else {
                let what = format!("condition `{name}` stands further down; one may use only those before it");
                self.complain(of, name, what);
                return None;
            };
            return known.clone();
        }
        // Of a question that stands twice nobody knows which is meant.
        if self.lost.names.contains(name) {
            return None;
        }
        let Some(placed) = self.question_item(name, items) else {
            let known = self.names.questions.keys().chain(self.names.conditions.keys());
            let near = nearest(name, known.map(String::as_str));
            self.unknown(of.placed, of.item, of.field, "question or condition", name, near);
            return None;
        };
        let called = self.yes_no();
        let choices = placed.item.form.ids(&called);
        let [_, seen] = choices.as_slice() else {
            let what =
                format!("`{name}` has more answers than no and yes; expected one of them, such as `{name} = ..`");
            self.complain(of, name, what);
            return None;
        };
        self.literal(of, name, &[(*seen).to_owned()], items, |at, wanted| at == wanted)
    }

    fn conds<T>(&mut self, of: &Belongs<T>, parts: &[raw::Cond], items: &Items) -> Option<Vec<Cond>> {
        let found: Vec<_> = parts.iter().map(|part| self.part(of, part, items)).collect();
        found.into_iter().collect()
    }

    fn question_item<'a>(&self, name: &str, items: &'a Items) -> Option<&'a Placed<raw::Question>> {
        self.names.questions.get(name).and_then(|at| items.questions.get(at.nth()))
    }

    /// A literal: the answers `takes` accepts, given the position of one that is named.
    fn literal<T>(
        &mut self,
        of: &Belongs<T>,
        question: &str,
        answers: &[String],
        items: &Items,
        takes: impl Fn(usize, usize) -> bool,
    ) -> Option<Cond> {
        if self.lost.names.contains(question) {
            return None;
        }
        let Some(placed) = self.question_item(question, items) else {
            let near = nearest(question, self.names.questions.keys().map(String::as_str));
            self.unknown(of.placed, of.item, of.field, "question", question, near);
            return None;
        };
        if matches!(placed.item.form, Form::Weight) {
            let what = format!("`{question}` is a typed weight; hold it against a value, such as `weight < 500 g`");
            self.complain(of, question, what);
            return None;
        }
        let called = self.yes_no();
        let choices = placed.item.form.ids(&called);
        let mut set = 0u32;
        for answer in answers {
            let Some(wanted) = choices.iter().position(|choice| choice == answer) else {
                // Without the roles nobody knows what the answers to a question asked for one sign are called.
                self.roles.as_ref()?;
                let what = format!("question `{question}` has no answer `{answer}`; it has {}", choices.join(", "));
                let fault = of.placed.fault(format!("{}, field {}", of.item, of.field), answer, what);
                let nearest = nearest(answer, choices.iter().copied());
                self.faults.push(Fault { nearest, ..fault });
                return None;
            };
            set |= (0..choices.len().min(32)).filter(|at| takes(*at, wanted)).fold(0, |set, at| set | 1 << at);
        }
        Some(Cond::Answer(*self.names.questions.get(question)?, AnswerSet(set)))
    }

    fn threshold<T>(&mut self, of: &Belongs<T>, name: &str, amount: Amount, items: &Items) -> Option<Threshold> {
        let known = || Measure::ALL.map(Measure::id).into_iter();
        let Some(measure) = Measure::ALL.into_iter().find(|measure| measure.id() == name) else {
            let all = known().collect::<Vec<_>>().join(", ");
            let what = format!("`{name}` is no measure, and only a measure is held against a number; there are {all}");
            let fault = of.placed.fault(format!("{}, field {}", of.item, of.field), name, what);
            self.faults.push(Fault { nearest: nearest(name, known()), ..fault });
            return None;
        };
        let share = |amount| match amount {
            Amount::Permille(permille) => Some(Permille(permille)),
            Amount::Grams(_) | Amount::Hours(_) | Amount::PerMinute(_) => None,
        };
        let threshold = match (measure, amount) {
            (Measure::Weight, Amount::Grams(grams)) => Some(Threshold::Weight(Grams(grams))),
            (Measure::TimeSince, Amount::Hours(hours)) => Some(Threshold::TimeSince(Minutes(hours.saturating_mul(60)))),
            (Measure::BreathRate, Amount::PerMinute(rate)) => {
                Some(Threshold::BreathRate(TenthsPerMinute(rate.saturating_mul(10))))
            }
            (Measure::SkinOpen, amount) => share(amount).map(Threshold::SkinOpen),
            (Measure::BloodLost, amount) => share(amount).map(Threshold::BloodLost),
            (Measure::BloodOfWeight, amount) => share(amount).map(Threshold::BloodOfWeight),
            (Measure::Dryness, amount) => share(amount).map(Threshold::Dryness),
            _ => None,
        };
        if threshold.is_none() {
            let what = format!(
                "{} cannot be held against {amount}; write weight with g, time_since with h, breath_rate with /min, and skin_open, blood_lost, blood_of_weight and dryness with %",
                measure.id()
            );
            self.complain(of, measure.id(), what);
        }
        if let Some(beyond) = threshold.and_then(out_of_range) {
            let what = format!("{} never comes to {amount}; {beyond}", measure.id());
            self.complain(of, measure.id(), what);
        }
        let feeds = fed_by(measure);
        if !self.lost.some && !items.questions.iter().any(|placed| placed.item.gives == Some(feeds)) {
            let what = format!("no question gives {feeds:?}, so nothing is ever known of {}", measure.id());
            self.complain(of, measure.id(), what);
        }
        threshold
    }

    pub(super) fn complain<T>(&mut self, of: &Belongs<T>, near: &str, what: String) {
        self.faults.push(of.placed.fault(format!("{}, field {}", of.item, of.field), near, what));
    }
}
