//! The sums by themselves: named values in, an answer out, with its formula and where it comes from.

mod answer;
mod body;
mod bottle;
mod care;
pub mod means;
mod mixing;
mod wound;

pub use answer::{Answer, AnswerLine, AnswerValue, millilitres, percent, percent_strength, span};

use crate::finding::figure::{self, Figure, FigureOf, Lines};
use crate::measure::solution::SolutionError;
use crate::protocol::Protocol;
use crate::protocol::sum::SumOf;
use crate::protocol::texts::Country;
use crate::typed::{self, Household, TypedError};
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

/// When and where a sum is done, and by which table of strengths.
#[derive(Clone, Copy, Debug)]
pub struct Moment<'p> {
    /// The protocol whose table of strengths holds.
    pub protocol: &'p Protocol,
    /// The moment.
    pub now: DateTime<Utc>,
    /// The bird's own zone.
    pub zone: Zone,
    /// Whose spoons, cups and pints are meant.
    pub household: Household,
}

impl<'p> Moment<'p> {
    /// A moment in a zone, in a country.
    pub fn of(protocol: &'p Protocol, now: DateTime<Utc>, zone: Zone, country: &Country) -> Self {
        Self { protocol, now, zone, household: country.household }
    }
}

/// A value a sum takes.
#[derive(Clone, Copy)]
pub struct Takes {
    /// Its name.
    pub name: &'static str,
    /// What it is, in few words.
    pub what: &'static str,
    /// Whether the sum cannot be done without it.
    pub needed: bool,
    /// Whether a text can be read as it, whatever the other values are.
    pub check: fn(&str) -> Result<(), TypedError>,
}

/// A sum that can be asked for.
pub struct Sum {
    /// Which it is.
    pub of: SumOf,
    /// What it tells.
    pub about: &'static str,
    /// The values it takes, in the order they are asked for.
    pub takes: &'static [Takes],
    /// One way to ask for it.
    pub example: &'static [(&'static str, &'static str)],
    run: fn(&Values, &Moment) -> Result<Answer, ReckonError>,
}

type Check = fn(&str) -> Result<(), TypedError>;

const fn need(name: &'static str, what: &'static str, check: Check) -> Takes {
    Takes { name, what, needed: true, check }
}

const fn may(name: &'static str, what: &'static str, check: Check) -> Takes {
    Takes { name, what, needed: false, check }
}

const WEIGHT: Check = |text| typed::weight::parse(text).map(drop);
const YES_NO: Check = |text| typed::word(text, &[("yes", ()), ("no", ())]);
const COUNT: Check = |text| typed::count(text).map(drop);
const VOLUME: Check = |text| typed::volume(text, Household::Unknown).map(drop);
const STRENGTH: Check = |text| typed::strength(text).map(drop);
const LINES: Check = |text| Lines::read(text).map(drop);
const CLOCK: Check = wound::is_clock;

const KIND: Takes = may("kind", "hen, cock, bantam, chick, duck, goose, turkey, quail, guinea_fowl", body::is_kind);

/// Every sum, in the order they are told.
pub const SUMS: &[Sum] = &[
    Sum {
        of: SumOf::Blood,
        about: "the share of her blood that is gone",
        takes: &[
            need("seen", "drops, pads, pools, weighings, spoons; one after the other with ;", |text| {
                Figure::read(FigureOf::Blood, text).map(drop)
            }),
            KIND,
            may("weight", "her weight", WEIGHT),
            may("build", "her build, where she was not weighed", body::is_build),
            may("frail", "ill, old or fat: yes or no", YES_NO),
            may("since", "how long it took", |text| typed::minutes(text).map(drop)),
            may("cells", "for a vet: packed cells before, in 100", COUNT),
        ],
        example: &[("kind", "hen"), ("weight", "2 kg"), ("seen", "2 thin10 full; pool 10 cm smooth")],
        run: body::blood,
    },
    Sum {
        of: SumOf::Breaths,
        about: "breaths a minute from a count",
        takes: &[
            need("count", "breaths counted; several counts apart with ;", |text| body::counts(text).map(drop)),
            need("seconds", "in how many seconds", |text| figure::seconds(text).map(drop)),
            KIND,
            may("held", "in the hand meanwhile: yes or no", YES_NO),
            may("weight", "her weight, for a check of sense", WEIGHT),
            may("air", "the air, in degrees Celsius", |text| body::air(text).map(drop)),
        ],
        example: &[("count", "15"), ("seconds", "30"), ("kind", "hen")],
        run: body::breaths,
    },
    Sum {
        of: SumOf::Weight,
        about: "a weight in both systems, or what a kind or build weighs",
        takes: &[may("weight", "as it was weighed", WEIGHT), KIND, may("build", "her build", body::is_build)],
        example: &[("weight", "4 lb 6 oz")],
        run: body::weight,
    },
    Sum {
        of: SumOf::Skin,
        about: "the share of her skin that her wounds take",
        takes: &[
            need("weight", "her weight", WEIGHT),
            need("wounds", "length x width of each, apart with ;", |text| wound::wounds(text).map(drop)),
        ],
        example: &[("weight", "2 kg"), ("wounds", "8 x 5 cm")],
        run: wound::skin,
    },
    Sum {
        of: SumOf::Recipe,
        about: "the true strength of a printed recipe",
        takes: &[need("recipe", "as it is printed", |text| mixing::printed(text, Household::Unknown).map(drop))],
        example: &[("recipe", "1 tbsp salt in 600 ml")],
        run: mixing::recipe,
    },
    Sum {
        of: SumOf::Solution,
        about: "a stock made up to a strength, or thinned one in so many",
        takes: &[
            need("stock", "strength of what is in the bottle", STRENGTH),
            may("target", "strength wanted", STRENGTH),
            may("make", "how much of it", VOLUME),
            may("one_in", "or: one part in so many", |text| mixing::parts(text).map(drop)),
            may("name", "what the bottle says", |_| Ok(())),
        ],
        example: &[("stock", "10%"), ("target", "0.5%"), ("make", "500ml")],
        run: mixing::solution,
    },
    Sum {
        of: SumOf::Saline,
        about: "salt water for a wound, by weight",
        takes: &[need("make", "how much of it", VOLUME)],
        example: &[("make", "500 ml")],
        run: mixing::saline,
    },
    Sum {
        of: SumOf::Salts,
        about: "rehydration salts, by weight",
        takes: &[need("make", "how much of it", VOLUME)],
        example: &[("make", "1 l")],
        run: mixing::salts,
    },
    Sum {
        of: SumOf::Fluids,
        about: "what a dry bird lacks, by both published plans (for a vet or a trained hand)",
        takes: &[
            need("state", "awake, or: cold, limp, fit, breath, head, crop, neck, side", |text| {
                care::state(text).map(drop)
            }),
            need("weight", "her weight", WEIGHT),
            need("dry", "share of weight she lacks in water", |text| typed::dryness(text).map(drop)),
            KIND,
            may("hand", "plain or trained", |text| typed::word(text, &[("trained", ()), ("plain", ())])),
        ],
        example: &[("state", "awake"), ("weight", "2 kg"), ("dry", "8%")],
        run: care::fluids,
    },
    Sum {
        of: SumOf::Warmth,
        about: "how warm the air should be",
        takes: &[
            need("state", "ill, chilled, head, hot or chick", care::is_state),
            may("week", "a chick's week of life", COUNT),
        ],
        example: &[("state", "chick"), ("week", "2")],
        run: care::warmth,
    },
    Sum {
        of: SumOf::Trend,
        about: "what she has lost over some days",
        takes: &[need("weights", "day=weight, one after the other", |text| body::weighings(text).map(drop))],
        example: &[("weights", "0=2100g 1=2050g 2=2040g")],
        run: body::trend,
    },
    Sum {
        of: SumOf::Healing,
        about: "how far a wound has closed between two looks",
        takes: &[
            need("before", "length x width at the first look", LINES),
            need("after", "length x width at the second", LINES),
            may("days", "days between them", COUNT),
            may("since", "days since she was hurt", COUNT),
        ],
        example: &[("before", "6 x 4 cm"), ("after", "5 x 3 cm"), ("days", "7")],
        run: wound::healing,
    },
    Sum {
        of: SumOf::Time,
        about: "the hours since she was hurt, and the clock times that hang on them",
        takes: &[
            need("from", "the earliest it may have been", CLOCK),
            may("to", "the latest", CLOCK),
            may("now", "reckoned for this time", CLOCK),
            may("zone", "the bird's own zone", wound::is_zone),
        ],
        example: &[
            ("from", "2026-10-24 20:00"),
            ("to", "2026-10-25 07:00"),
            ("now", "2026-10-25 08:00"),
            ("zone", "Europe/Dublin"),
        ],
        run: wound::time,
    },
];

impl Sum {
    /// Its name, as it is typed.
    pub const fn name(&self) -> &'static str {
        self.of.id()
    }

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
    #[error("`{0}` is refused: {1}; use plain salt water (the sum `saline`)")]
    Refused(String, String),
}

impl ReckonError {
    /// Whether it is only that a value is still missing.
    pub const fn is_missing(&self) -> bool {
        matches!(self, Self::Missing(..))
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
    let names = || SUMS.iter().map(Sum::name).collect::<Vec<_>>().join(", ");
    let sum = SUMS.iter().find(|sum| sum.name() == name).ok_or_else(|| ReckonError::NoSuchSum(name.into(), names()))?;
    let mut values = Values { given: BTreeMap::new(), example: sum.example() };
    for (name, value) in pairs {
        let known = sum.takes.iter().any(|takes| takes.name == name);
        if !known || values.given.insert(name.clone(), value.clone()).is_some() {
            return Err(ReckonError::Unknown(name.clone(), sum.taking()));
        }
    }
    let rests_on = moment.protocol.rests_of(sum.of).to_vec();
    Ok(Answer { rests_on, ..(sum.run)(&values, moment)? })
}
