//! The sums by themselves: named values in, an answer out, with its formula and where it comes from.

mod answer;
mod body;
mod care;
mod mixing;
pub mod rests;
mod wound;

pub use answer::{Answer, Line, Told, millilitres, percent, span};

use rests::Cited;

use crate::measure::solution::SolutionError;
use crate::typed::TypedError;
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

/// When and where a sum is done: only sums of time look at it.
#[derive(Clone, Copy, Debug)]
pub struct Moment {
    /// The moment.
    pub now: DateTime<Utc>,
    /// The bird's own zone.
    pub zone: Zone,
}

/// A value a sum takes.
#[derive(Clone, Copy, Debug)]
pub struct Takes {
    /// Its name.
    pub name: &'static str,
    /// What it is, in few words.
    pub what: &'static str,
    /// Whether the sum cannot be done without it.
    pub needed: bool,
}

/// A sum that can be asked for.
pub struct Sum {
    /// Its name.
    pub name: &'static str,
    /// What it tells.
    pub about: &'static str,
    /// The values it takes, in the order they are asked for.
    pub takes: &'static [Takes],
    /// One way to ask for it.
    pub example: &'static [(&'static str, &'static str)],
    /// What it rests on.
    pub rests: &'static [Cited],
    run: fn(&Values, &Moment) -> Result<Answer, ReckonError>,
}

const fn need(name: &'static str, what: &'static str) -> Takes {
    Takes { name, what, needed: true }
}

const fn may(name: &'static str, what: &'static str) -> Takes {
    Takes { name, what, needed: false }
}

const KIND: Takes = may("kind", "hen, cock, bantam, chick, duck, goose, turkey, quail, guinea_fowl");

/// Every sum, in the order they are told.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "blood",
        about: "the share of her blood that is gone",
        takes: &[
            need("seen", "drops, pads, pools, weighings, spoons; one after the other with ;"),
            KIND,
            may("weight", "her weight"),
            may("build", "her build, where she was not weighed"),
            may("frail", "ill, old or fat: yes or no"),
            may("since", "how long it took"),
            may("cells", "for a vet: packed cells before, in 100"),
        ],
        example: &[("kind", "hen"), ("weight", "2 kg"), ("seen", "2 thin10 full; pool 10 cm smooth")],
        rests: rests::BLOOD,
        run: body::blood,
    },
    Sum {
        name: "breaths",
        about: "breaths a minute from a count",
        takes: &[
            need("count", "breaths counted; several counts apart with ;"),
            need("seconds", "in how many seconds"),
            KIND,
            may("held", "in the hand meanwhile: yes or no"),
            may("weight", "her weight, for a check of sense"),
            may("air", "the air, in degrees Celsius"),
        ],
        example: &[("count", "15"), ("seconds", "30"), ("kind", "hen")],
        rests: rests::BREATHS,
        run: body::breaths,
    },
    Sum {
        name: "weight",
        about: "a weight in both systems, or what a kind or build weighs",
        takes: &[may("weight", "as it was weighed"), KIND, may("build", "her build")],
        example: &[("weight", "4 lb 6 oz")],
        rests: rests::WEIGHT,
        run: body::weight,
    },
    Sum {
        name: "skin",
        about: "the share of her skin that her wounds take",
        takes: &[need("weight", "her weight"), need("wounds", "length x width of each, apart with ;")],
        example: &[("weight", "2 kg"), ("wounds", "8 x 5 cm")],
        rests: rests::SKIN,
        run: wound::skin,
    },
    Sum {
        name: "recipe",
        about: "the true strength of a printed recipe",
        takes: &[need("recipe", "as it is printed")],
        example: &[("recipe", "1 tbsp salt in 600 ml")],
        rests: rests::RECIPE,
        run: mixing::recipe,
    },
    Sum {
        name: "solution",
        about: "a stock made up to a strength, or thinned one in so many",
        takes: &[
            need("stock", "strength of what is in the bottle"),
            may("target", "strength wanted"),
            may("make", "how much of it"),
            may("one_in", "or: one part in so many"),
            may("name", "what the bottle says"),
        ],
        example: &[("stock", "10%"), ("target", "0.5%"), ("make", "500ml")],
        rests: rests::SOLUTION,
        run: mixing::solution,
    },
    Sum {
        name: "saline",
        about: "salt water for a wound, by weight",
        takes: &[need("make", "how much of it")],
        example: &[("make", "500 ml")],
        rests: rests::SALINE,
        run: mixing::saline,
    },
    Sum {
        name: "salts",
        about: "rehydration salts, by weight",
        takes: &[need("make", "how much of it")],
        example: &[("make", "1 l")],
        rests: rests::SALTS,
        run: mixing::salts,
    },
    Sum {
        name: "fluids",
        about: "what a dry bird lacks, by both published plans (for a vet or a trained hand)",
        takes: &[
            need("state", "awake, or: cold, limp, fit, breath, head, crop, neck, side"),
            need("weight", "her weight"),
            need("dry", "share of weight she lacks in water"),
            may("hand", "plain or trained"),
        ],
        example: &[("state", "awake"), ("weight", "2 kg"), ("dry", "8%")],
        rests: rests::FLUIDS,
        run: care::fluids,
    },
    Sum {
        name: "warmth",
        about: "how warm the air should be",
        takes: &[need("state", "ill, chilled, head, hot or chick"), may("week", "a chick's week of life")],
        example: &[("state", "chick"), ("week", "2")],
        rests: rests::WARMTH,
        run: care::warmth,
    },
    Sum {
        name: "trend",
        about: "what she has lost over some days",
        takes: &[need("weights", "day=weight, one after the other")],
        example: &[("weights", "0=2100g 1=2050g 2=2040g")],
        rests: rests::TREND,
        run: body::trend,
    },
    Sum {
        name: "healing",
        about: "how far a wound has closed between two looks",
        takes: &[
            need("before", "length x width at the first look"),
            need("after", "length x width at the second"),
            may("days", "days between them"),
            may("since", "days since she was hurt"),
        ],
        example: &[("before", "6 x 4 cm"), ("after", "5 x 3 cm"), ("days", "7")],
        rests: rests::HEALING,
        run: wound::healing,
    },
    Sum {
        name: "time",
        about: "the hours since she was hurt, and the clock times that hang on them",
        takes: &[
            need("from", "the earliest it may have been"),
            may("to", "the latest"),
            may("now", "reckoned for this time"),
            may("zone", "the bird's own zone"),
        ],
        example: &[
            ("from", "2026-10-24 20:00"),
            ("to", "2026-10-25 07:00"),
            ("now", "2026-10-25 08:00"),
            ("zone", "Europe/Dublin"),
        ],
        rests: rests::TIME,
        run: wound::time,
    },
];

impl Sum {
    /// The values it takes on one line, those in brackets may be left out.
    pub fn taking(&self) -> String {
        let told = self
            .takes
            .iter()
            .map(|takes| if takes.needed { format!("{}=", takes.name) } else { format!("[{}=]", takes.name) });
        told.collect::<Vec<_>>().join(" ")
    }

    /// One way to ask for it, as it is typed in a shell.
    pub fn example(&self) -> String {
        let quoted = |value: &str| if value.contains([' ', ';']) { format!("'{value}'") } else { value.to_owned() };
        self.example.iter().map(|(name, value)| format!("{name}={}", quoted(value))).collect::<Vec<_>>().join(" ")
    }
}

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
    #[error("{name}: `{}` {}; for example {name}={}", error.text, error.what, error.example)]
    Value {
        /// The value's name.
        name: String,
        /// What is wrong with it.
        error: TypedError,
    },
    /// Values that read well do not fit each other.
    #[error("{0}; for example {1}")]
    DoNotFit(&'static str, String),
    /// A solution cannot be made.
    #[error(transparent)]
    Solution(#[from] SolutionError),
    /// What must not be thinned for a wound.
    #[error("`{0}` is refused: {1}; use plain salt water, 9 g in a litre")]
    Refused(String, &'static str),
}

impl ReckonError {
    /// Whether it is only that a value is still missing.
    pub const fn is_missing(&self) -> bool {
        matches!(self, Self::Missing(..))
    }

    /// Whether it is about the value of this name, rather than about another or one that is missing.
    pub fn is_about(&self, name: &str) -> bool {
        matches!(self, Self::Value { name: wrong, .. } if wrong == name)
            || matches!(self, Self::Refused(..) if name == "name")
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

    /// A value that must be there, read.
    fn read<T>(&self, name: &str, read: impl Fn(&str) -> Result<T, TypedError>) -> Result<T, ReckonError> {
        self.may(name, read)?.ok_or_else(|| self.missing(name))
    }

    /// A value that may be there, read.
    fn may<T>(&self, name: &str, read: impl Fn(&str) -> Result<T, TypedError>) -> Result<Option<T>, ReckonError> {
        let value = |error| ReckonError::Value { name: name.into(), error };
        self.get(name).map(|text| read(text).map_err(value)).transpose()
    }

    fn missing(&self, name: &str) -> ReckonError {
        ReckonError::Missing(name.into(), self.example.clone())
    }

    /// A value that reads well and still cannot be taken.
    fn wrong(&self, name: &str, what: String, example: &str) -> ReckonError {
        let error = TypedError::new(self.get(name).unwrap_or_default(), what, example);
        ReckonError::Value { name: name.into(), error }
    }
}

/// Does the sum of this name.
///
/// # Errors
/// Where the sum, a value's name or a value is not known; each says what is accepted, with an example.
pub fn reckon(name: &str, pairs: &[(String, String)], moment: &Moment) -> Result<Answer, ReckonError> {
    let names = || SUMS.iter().map(|sum| sum.name).collect::<Vec<_>>().join(", ");
    let sum = SUMS.iter().find(|sum| sum.name == name).ok_or_else(|| ReckonError::NoSuchSum(name.into(), names()))?;
    let mut values = Values { given: BTreeMap::new(), example: sum.example() };
    for (name, value) in pairs {
        let known = sum.takes.iter().any(|takes| takes.name == name);
        if !known || values.given.insert(name.clone(), value.clone()).is_some() {
            return Err(ReckonError::Unknown(name.clone(), sum.taking()));
        }
    }
    Ok(Answer { rests_on: sum.rests, ..(sum.run)(&values, moment)? })
}
