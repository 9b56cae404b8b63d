//! A rule's condition in checked form: names have become positions, answers have become sets.

use super::question::Question;
use super::table::At;
use crate::unit::{Grams, Minutes, Permille, TenthsPerMinute};
use serde::{Deserialize, Serialize};

/// The position of a question in [`super::Protocol::questions`].
pub type QuestionAt = At<Question>;

/// A set of a question's answers, one bit an answer; a question has at most 32.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnswerSet(pub u32);

impl AnswerSet {
    /// Whether the answer at this position is in the set.
    #[inline]
    pub const fn holds(self, answer: u8) -> bool {
        self.0 >> answer & 1 == 1
    }
}

/// A measure held against a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Threshold {
    /// Body weight in grams.
    Weight(Grams),
    /// Minutes since the injury.
    TimeSince(Minutes),
    /// The share of skin open.
    SkinOpen(Permille),
    /// The share of her blood that is gone.
    BloodLost(Permille),
    /// The blood lost against her weight.
    BloodOfWeight(Permille),
    /// Breaths a minute.
    BreathRate(TenthsPerMinute),
    /// The share of her weight that she lacks in water.
    Dryness(Permille),
}

/// A condition over the findings.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Cond {
    /// Holds for every bird.
    Always,
    /// The question's answer is one of these.
    Answer(QuestionAt, AnswerSet),
    /// All of these hold.
    All(Vec<Cond>),
    /// At least one of these holds.
    Any(Vec<Cond>),
    /// This does not hold.
    Not(Box<Cond>),
    /// At least this many of these hold.
    Count(usize, Vec<Cond>),
    /// Some wound fulfils this.
    SomeWound(Box<Cond>),
    /// The measure reaches the value.
    AtLeast(Threshold),
    /// The measure stays under the value.
    Under(Threshold),
}

impl Cond {
    /// The answers a condition names that is a literal, or any of several.
    pub fn literals(&self) -> impl Iterator<Item = (QuestionAt, AnswerSet)> {
        let parts = match self {
            Self::Any(parts) => parts.as_slice(),
            other => std::slice::from_ref(other),
        };
        parts.iter().filter_map(|part| match part {
            Self::Answer(at, set) => Some((*at, *set)),
            _ => None,
        })
    }

    /// Whether it holds a measure against a value, or looks at wounds.
    pub fn reads_measures(&self) -> bool {
        let mut found = false;
        self.walk(&mut |part| found |= matches!(part, Self::AtLeast(_) | Self::Under(_) | Self::SomeWound(_)));
        found
    }

    /// Calls `visit` for every condition in this one, itself first.
    pub fn walk<'a>(&'a self, visit: &mut impl FnMut(&'a Cond)) {
        visit(self);
        match self {
            Self::All(parts) | Self::Any(parts) | Self::Count(_, parts) => {
                for part in parts {
                    part.walk(visit);
                }
            }
            Self::Not(part) | Self::SomeWound(part) => part.walk(visit),
            Self::Always | Self::Answer(..) | Self::AtLeast(_) | Self::Under(_) => {}
        }
    }

    /// Every question this condition reads, with those behind a measure left to the caller.
    pub fn questions(&self) -> Vec<QuestionAt> {
        let mut found = Vec::new();
        self.walk(&mut |cond| {
            if let Self::Answer(question, _) = cond {
                found.push(*question);
            }
        });
        found
    }
}

/// The measures a protocol can speak of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Measure {
    /// Body weight.
    Weight,
    /// Time since the injury: of the wound in a wound's rule, else of the bird.
    TimeSince,
    /// The area of one wound.
    WoundArea,
    /// The share of skin open over all wounds.
    SkinOpen,
    /// The share of her blood that is gone.
    BloodLost,
    /// The blood lost against her weight.
    BloodOfWeight,
    /// Breaths a minute.
    BreathRate,
    /// The share of her weight that she lacks in water.
    Dryness,
    /// How long the wing vein takes to fill again.
    Refill,
}

impl Measure {
    /// Every measure.
    pub const ALL: [Self; 9] = [
        Self::Weight,
        Self::TimeSince,
        Self::WoundArea,
        Self::SkinOpen,
        Self::BloodLost,
        Self::BloodOfWeight,
        Self::BreathRate,
        Self::Dryness,
        Self::Refill,
    ];

    /// The measure's name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Weight => "weight",
            Self::TimeSince => "time_since",
            Self::WoundArea => "wound_area",
            Self::SkinOpen => "skin_open",
            Self::BloodLost => "blood_lost",
            Self::BloodOfWeight => "blood_of_weight",
            Self::BreathRate => "breath_rate",
            Self::Dryness => "dryness",
            Self::Refill => "refill",
        }
    }
}
