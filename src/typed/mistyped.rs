//! What is wrong with a typed quantity, before anybody says it.

use super::NoAmount;
use super::weight::EXAMPLES as WEIGHTS;

/// Why a typed quantity could not be taken, and one that could. A keeper is told it by `reckon::mistyped`, in the reader's words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedError {
    /// What was typed.
    pub text: String,
    /// What is wrong with it.
    pub what: Mistyped,
    /// What would be taken.
    pub example: Example,
}

/// What would be taken, as it is typed in every language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Example {
    /// This.
    One(&'static str),
    /// Any of the [weights](super::weight::EXAMPLES).
    Weights,
}

/// What is wrong with a typed quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mistyped {
    /// It is no amount.
    Amount(NoAmount),
    /// An amount of nothing.
    Nothing,
    /// A measure that holds less in one country than in another, where one amount is needed.
    DiffersByCountry {
        /// The least it holds, rounded down. Millilitres.
        least_ml: u64,
        /// The most it holds, rounded up. Millilitres.
        most_ml: u64,
    },
    /// A strength above 100 %.
    MoreThanAll,
    /// More water lost than any living bird lacks.
    TooDry,
    /// A time longer than ten years.
    OverTenYears,
    /// A time longer than a minute.
    OverAMinute,
    /// No whole number.
    NoWholeNumber,
    /// More than anybody counts.
    TooMany,
    /// None of these words.
    NotOneOf(Vec<&'static str>),
    /// A weight that no bird has.
    NoBirdsWeight,
    /// No weight at all.
    NoWeight,
    /// More than a kitchen scale bears.
    TooHeavy,
    /// A figure that says nothing.
    Empty,
    /// A cloth weighed wet and not dry.
    NoDryWeight,
    /// A cloth lighter wet than dry.
    LighterWet,
    /// A pool wider than any of one bird's.
    PoolTooWide,
    /// Nothing that blood is told by.
    NoBlood,
    /// No count of breaths.
    NoCount,
    /// A count over too short or too long a time.
    NotCountedOver,
    /// No breath counted at all.
    NoBreath,
    /// A wound without two lines.
    NotTwoLines,
    /// A wound's line longer than any.
    LineTooLong,
}

impl TypedError {
    /// A text that cannot be taken.
    pub fn new(text: &str, what: Mistyped, example: &'static str) -> Self {
        Self { text: text.into(), what, example: Example::One(example) }
    }

    /// The same with an example of the whole it is a part of.
    #[must_use]
    pub fn example_of(self, whole: &'static str) -> Self {
        Self { example: Example::One(whole), ..self }
    }

    /// In English, for whoever wrote the notes or the protocol it stands in.
    pub fn for_author(&self) -> String {
        let example = match self.example {
            Example::One(example) => example.to_owned(),
            Example::Weights => {
                let [metric, larger, imperial] = WEIGHTS;
                format!("{metric}, {larger} or {imperial}")
            }
        };
        let text = if self.text.is_empty() { "nothing typed:".to_owned() } else { format!("`{}`", self.text) };
        format!("{text} {}; for example {example}", self.what.for_author())
    }
}

impl Mistyped {
    /// In English, for an author; it goes after what was typed.
    fn for_author(&self) -> String {
        let plain = match self {
            Self::DiffersByCountry { least_ml, most_ml } => {
                return format!(
                    "is {least_ml} to {most_ml} mL, by the country it comes from: type it in ml, or with `us` or `imperial` before it"
                );
            }
            Self::NotOneOf(words) => return format!("is not one of {}", words.join(", ")),
            Self::Amount(NoAmount::NoNumber) => "is no number we can read",
            Self::Amount(NoAmount::NoUnit) => "has no unit",
            Self::Amount(NoAmount::StrangeUnit) => "has no unit we know",
            Self::Amount(NoAmount::TwoWays) => "can be read in two ways; leave the point or comma out",
            Self::Amount(NoAmount::NotOne) => "is more than one amount; write the larger unit first",
            Self::Nothing => "must be more than nothing",
            Self::MoreThanAll => "is more than 100 %",
            Self::TooDry => "is more than a living bird can lack (15 %)",
            Self::OverTenYears => "is longer than ten years",
            Self::OverAMinute => "is longer than a minute",
            Self::NoWholeNumber => "is no whole number",
            Self::TooMany => "is too many to have been counted",
            Self::NoBirdsWeight => "is outside 5 g to 30 kg; look at the unit again",
            Self::NoWeight => "is not a weight",
            Self::TooHeavy => "is more than 30 kg; look at the unit again",
            Self::Empty => "says nothing",
            Self::NoDryWeight => "lacks the dry weight",
            Self::LighterWet => "is lighter wet than dry",
            Self::PoolTooWide => "is wider than two metres",
            Self::NoBlood => "is neither drops, pads, a pool, a weighing nor spoons",
            Self::NoCount => "is no count of breaths",
            Self::NotCountedOver => "is outside 5 to 300 seconds",
            Self::NoBreath => "breaths seen: is she alive? Look again now",
            Self::NotTwoLines => "needs length and width, two lines across the wound",
            Self::LineTooLong => "is larger than half a metre",
        };
        plain.to_owned()
    }
}
