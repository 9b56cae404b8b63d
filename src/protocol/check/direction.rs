//! The parts of a condition, each with the place it was written at, and in which direction each may move a scale.

use super::Checker;
use super::cond::Belongs;
use crate::finding::Id;
use crate::protocol::cond::{AnswerSet, Cond, Measure, Threshold};
use crate::protocol::item::Items;
use crate::protocol::question::Question;
use crate::protocol::raw;
use crate::protocol::read::Placed;

/// A condition as it was written, and as it was checked.
#[derive(Clone, Copy)]
pub(super) struct Written<'a> {
    pub raw: &'a raw::Cond,
    pub cond: &'a Cond,
    pub items: &'a Items,
}

/// A part of a condition that has no parts itself.
pub(super) struct Part<'a> {
    pub cond: &'a Cond,
    /// Whether it has to come to hold as answers get worse; where not, to cease to.
    raises: bool,
    /// Whether it stands within `some wound`.
    of_some_wound: bool,
    /// The name it came in by, where it does not stand in the item itself.
    through: Option<Through<'a>>,
}

/// A condition of another place that an item names.
#[derive(Clone, Copy)]
struct Through<'a> {
    /// The name that stands in the item.
    name: &'a str,
    /// The condition in which the part itself is written: that one, or one it goes by.
    wrote: &'a Placed<raw::Named>,
}

impl Part<'_> {
    /// The question it reads, if it reads one.
    pub(super) fn question<'q>(&self, questions: &'q [Question]) -> Option<&'q Question> {
        let Cond::Answer(at, _) = self.cond else { return None };
        questions.get(at.nth())
    }

    /// The question about a wound that it reads outside `some wound`.
    pub(super) fn wound_question(&self, questions: &[Question]) -> Option<Id> {
        let question = self.question(questions).filter(|question| question.wound && !self.of_some_wound);
        question.map(|question| question.id.clone())
    }

    /// What it reads besides answers of the subject itself, as it is written.
    pub(super) fn beyond_answers(&self) -> Option<&'static str> {
        match self.cond {
            Cond::AtLeast(threshold) | Cond::Under(threshold) => Some(written(*threshold)),
            _ => self.of_some_wound.then_some("some wound"),
        }
    }
}

impl Checker {
    /// The parts of a condition, in the order they were written in.
    pub(super) fn parts<'a>(&self, written: Written<'a>, raises: bool) -> Vec<Part<'a>> {
        let Written { raw, cond, items } = written;
        let (mut leaves, mut origins) = (Vec::new(), Vec::new());
        leaves_of(cond, raises, false, &mut leaves);
        self.origins(raw, items, None, &mut origins);
        // Both go through the same parts in the same order.
        let through = origins.into_iter().chain(std::iter::repeat(None));
        let part = |((cond, raises, of_some_wound), through)| Part { cond, raises, of_some_wound, through };
        leaves.into_iter().zip(through).map(part).collect()
    }

    /// For each part without parts, the name it came in by.
    fn origins<'a>(
        &self,
        raw: &'a raw::Cond,
        items: &'a Items,
        through: Option<Through<'a>>,
        into: &mut Vec<Option<Through<'a>>>,
    ) {
        match raw {
            raw::Cond::All(parts) | raw::Cond::Any(parts) | raw::Cond::Count(_, parts) => {
                for part in parts {
                    self.origins(part, items, through, into);
                }
            }
            raw::Cond::Not(part) | raw::Cond::SomeWound(part) => self.origins(part, items, through, into),
            raw::Cond::Named(name) => {
                let named = self.names.conditions.get(name).and_then(|at| items.conditions.get(at.nth()));
                match named {
                    Some(wrote) => {
                        let name = through.map_or(name.as_str(), |through| through.name);
                        self.origins(&wrote.item.when, items, Some(Through { name, wrote }), into);
                    }
                    None => into.push(through),
                }
            }
            raw::Cond::Always
            | raw::Cond::Is(..)
            | raw::Cond::AtLeast(..)
            | raw::Cond::Reaches(..)
            | raw::Cond::Under(..) => into.push(through),
        }
    }

    /// A fault in one part; where that came in by a name, at the name, and with the place the part is written at.
    pub(super) fn complain_of<T>(&mut self, of: &Belongs<T>, part: &Part, near: &str, what: String) {
        let Some(Through { name, wrote }) = part.through else { return self.complain(of, near, what) };
        let (within, file, line) = (&wrote.item.id, &wrote.file, wrote.line_of(near));
        let by = if within == name {
            format!("condition `{name}`, which stands in {file}, line {line}")
        } else {
            format!("condition `{name}`, by way of `{within}`, which stands in {file}, line {line}")
        };
        self.complain(of, name, format!("{what}; `{near}` comes in by {by}"));
    }

    /// Reports every literal by which a worse answer could turn the condition off.
    ///
    /// Where `raises`, the condition may only come to hold, never cease to, as ordered answers get worse; where not,
    /// the other way round. This is what keeps "worse never looks better" true by the shape of the rules alone.
    pub(super) fn direction<T>(&mut self, of: &Belongs<T>, written: Written, raises: bool, questions: &[Question]) {
        for part in self.parts(written, raises) {
            match part.cond {
                Cond::Answer(at, set) => {
                    let Some(question) = questions.get(at.nth()) else { continue };
                    if question.ordered && !goes_one_way(*set, question.choices.len(), part.raises) {
                        let what = switches(&part, question);
                        self.complain_of(of, &part, question.id.as_str(), what);
                    }
                }
                Cond::AtLeast(threshold) => self.measure_direction(of, &part, *threshold, part.raises),
                Cond::Under(threshold) => self.measure_direction(of, &part, *threshold, !part.raises),
                Cond::Always | Cond::All(_) | Cond::Any(_) | Cond::Not(_) | Cond::Count(..) | Cond::SomeWound(_) => {}
            }
        }
    }

    fn measure_direction<T>(&mut self, of: &Belongs<T>, part: &Part, threshold: Threshold, upward: bool) {
        // Weight and time have no good and bad end; more of the others is always worse.
        let worse = match threshold {
            Threshold::Weight(_) | Threshold::TimeSince(_) => None,
            Threshold::SkinOpen(_) => Some("more open skin"),
            Threshold::BloodLost(_) | Threshold::BloodOfWeight(_) => Some("more blood lost"),
            Threshold::BreathRate(_) => Some("faster breathing"),
            Threshold::Dryness(_) => Some("a drier bird"),
        };
        if let (false, Some(worse)) = (upward, worse) {
            let what = format!("{worse} would switch this condition off, so worse could look better");
            self.complain_of(of, part, written(threshold), what);
        }
    }
}

/// What a worse answer would do, and what to write.
fn switches(part: &Part, question: &Question) -> String {
    let (turns, behind) = if part.raises { ("off", "") } else { ("on", " behind `not`") };
    let write = part.through.map_or_else(
        || format!("write `>=`{behind}"),
        |Through { name, .. }| format!("in place of `{name}` write here what counts, with `>=`{behind}"),
    );
    format!(
        "a worse answer to `{}` would switch {turns} this condition, so worse could look better; {write}",
        question.id
    )
}

/// A measure, as it is written.
const fn written(threshold: Threshold) -> &'static str {
    let measure = match threshold {
        Threshold::Weight(_) => Measure::Weight,
        Threshold::TimeSince(_) => Measure::TimeSince,
        Threshold::SkinOpen(_) => Measure::SkinOpen,
        Threshold::BloodLost(_) => Measure::BloodLost,
        Threshold::BloodOfWeight(_) => Measure::BloodOfWeight,
        Threshold::BreathRate(_) => Measure::BreathRate,
        Threshold::Dryness(_) => Measure::Dryness,
    };
    measure.id()
}

/// The parts without parts, each with the way it has to go and whether it stands within `some wound`.
fn leaves_of<'a>(cond: &'a Cond, raises: bool, of_some_wound: bool, into: &mut Vec<(&'a Cond, bool, bool)>) {
    match cond {
        Cond::All(parts) | Cond::Any(parts) | Cond::Count(_, parts) => {
            for part in parts {
                leaves_of(part, raises, of_some_wound, into);
            }
        }
        Cond::Not(part) => leaves_of(part, !raises, of_some_wound, into),
        Cond::SomeWound(part) => leaves_of(part, raises, true, into),
        Cond::Always | Cond::Answer(..) | Cond::AtLeast(_) | Cond::Under(_) => {
            into.push((cond, raises, of_some_wound));
        }
    }
}

/// Whether a set of answers holds the worst ones only (`upward`), or the finest only.
fn goes_one_way(set: AnswerSet, count: usize, upward: bool) -> bool {
    let held: Vec<bool> = (0..count.min(32)).filter_map(|at| u8::try_from(at).ok()).map(|at| set.holds(at)).collect();
    held.is_sorted_by(|before, after| if upward { before <= after } else { before >= after })
}
