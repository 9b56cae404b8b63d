//! The sums by themselves: named values in, an answer out, with its formula and where it comes from.

mod answer;
mod sums;
mod typed;

pub use answer::{Answer, Cited, Line};

use crate::measure::solution::SolutionError;
use crate::measure::weight::WeightError;
use std::collections::BTreeMap;

/// A sum that can be asked for.
pub struct Sum {
    /// Its name.
    pub name: &'static str,
    /// What it tells.
    pub about: &'static str,
    /// The values it takes; those in brackets may be left out.
    pub takes: &'static str,
    /// One way to ask for it.
    pub example: &'static str,
    run: fn(&Values) -> Result<Answer, ReckonError>,
}

/// Every sum, in the order they are told.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "weight",
        about: "a weight in both systems",
        takes: "weight=",
        example: "weight='4 lb 6 oz'",
        run: sums::weight,
    },
    Sum {
        name: "blood",
        about: "the share of her blood that is gone",
        takes: "kind= [weight=] [frail=yes] and any of drops= pads= wet= dry= pool= amount=",
        example: "kind=hen weight='2 kg' pads='2 thin10 full' pool='10 cm smooth'",
        run: sums::blood,
    },
    Sum {
        name: "breaths",
        about: "breaths a minute from a count",
        takes: "count= seconds= [kind=]",
        example: "count=15 seconds=30 kind=hen",
        run: sums::breaths,
    },
    Sum {
        name: "skin",
        about: "the share of her skin a wound takes",
        takes: "weight= length= width=",
        example: "weight='2 kg' length='8 cm' width='5 cm'",
        run: sums::skin,
    },
    Sum {
        name: "solution",
        about: "a stock made up to a strength",
        takes: "stock= target= make= [name=]",
        example: "stock=10% target=0.5% make=500ml",
        run: sums::solution,
    },
    Sum {
        name: "recipe",
        about: "the true strength of a printed salt recipe",
        takes: "salt= water=",
        example: "salt='1 tsp' water='500 ml'",
        run: sums::recipe,
    },
    Sum {
        name: "fluids",
        about: "what a dry bird lacks, by both published plans (for a vet or a trained hand)",
        takes: "weight= dry=",
        example: "weight='2 kg' dry=8%",
        run: sums::fluids,
    },
    Sum {
        name: "warmth",
        about: "how warm the air should be",
        takes: "state=ill|chilled|head|hot|chick [week=]",
        example: "state=chick week=2",
        run: sums::warmth,
    },
    Sum {
        name: "trend",
        about: "what she has lost over some days",
        takes: "weights=",
        example: "weights='0=2100g 1=2050g 2=2040g'",
        run: sums::trend,
    },
    Sum {
        name: "healing",
        about: "how far a wound has closed between two looks",
        takes: "length= width= later_length= later_width= [days=]",
        example: "length='6 cm' width='4 cm' later_length='5 cm' later_width='3 cm' days=7",
        run: sums::healing,
    },
];

/// Why a sum could not be done; each says what is accepted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReckonError {
    /// There is no such sum.
    #[error("there is no sum `{0}`; there are {1}")]
    NoSuchSum(String, String),
    /// A value is missing.
    #[error("`{0}=` is missing; for example {1}")]
    Missing(String, String),
    /// A value that this sum does not take, or one given twice.
    #[error("`{0}` is not a value this sum takes once; it takes {1}")]
    Unknown(String, String),
    /// A value cannot be read.
    #[error("{name}: `{text}` {what}; for example {name}={example}")]
    Value {
        /// The value's name.
        name: String,
        /// What was typed.
        text: String,
        /// What is wrong with it.
        what: String,
        /// What would be taken.
        example: String,
    },
    /// A weight cannot be read.
    #[error(transparent)]
    Weight(#[from] WeightError),
    /// A solution cannot be made.
    #[error(transparent)]
    Solution(#[from] SolutionError),
    /// What must not be thinned for a wound.
    #[error("`{0}` is refused: {1}; use plain salt water, 9 g in a litre")]
    Refused(String, &'static str),
}

impl ReckonError {
    /// A value that cannot be taken: what is wrong with it, and one that could.
    fn value(name: &str, text: &str, what: impl Into<String>, example: &str) -> Self {
        Self::Value { name: name.into(), text: text.into(), what: what.into(), example: example.into() }
    }
}

/// The values of one sum, by name.
#[derive(Clone, Debug, Default)]
pub struct Values {
    given: BTreeMap<String, String>,
    example: String,
}

impl Values {
    fn get(&self, name: &str) -> Option<&str> {
        self.given.get(name).map(String::as_str)
    }

    fn need(&self, name: &str) -> Result<&str, ReckonError> {
        self.get(name).ok_or_else(|| ReckonError::Missing(name.into(), self.example.clone()))
    }
}

/// Does the sum of this name.
///
/// # Errors
/// Where the sum, a value's name or a value is not known; each says what is accepted, with an example.
pub fn reckon(name: &str, pairs: &[(String, String)]) -> Result<Answer, ReckonError> {
    let names = || SUMS.iter().map(|sum| sum.name).collect::<Vec<_>>().join(", ");
    let sum = SUMS.iter().find(|sum| sum.name == name).ok_or_else(|| ReckonError::NoSuchSum(name.into(), names()))?;
    let mut values = Values { given: BTreeMap::new(), example: sum.example.into() };
    for (name, value) in pairs {
        let takes = sum.takes.split_whitespace().filter_map(|word| word.trim_start_matches('[').split_once('='));
        let known = takes.map(|(taken, _)| taken).any(|taken| taken == name);
        if !known || values.given.insert(name.clone(), value.clone()).is_some() {
            return Err(ReckonError::Unknown(name.clone(), sum.takes.into()));
        }
    }
    (sum.run)(&values)
}
