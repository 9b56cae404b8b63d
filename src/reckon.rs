//! The sums by themselves: named values in, an answer out, with its formula and where it comes from.

mod answer;
mod body;
mod bottle;
mod care;
pub mod kinds;
pub mod means;
pub mod mistyped;
mod mixing;
mod wound;

pub use answer::{Answer, AnswerLine};

use crate::finding::figure::{self, Figure, FigureOf, Lines};
use crate::measure::solution::SolutionError;
use crate::phrase::{Phrase, Text, sum as told, sum_takes as says};
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
    pub what: fn() -> Phrase,
    /// Whether the sum cannot be done without it.
    pub needed: bool,
    /// Whether a text can be read as it, whatever the other values are.
    pub check: fn(&str) -> Result<(), Wrong>,
}

/// A sum that can be asked for.
pub struct Sum {
    /// Which it is.
    pub of: SumOf,
    /// What it tells.
    pub about: fn() -> Phrase,
    /// The values it takes, in the order they are asked for.
    pub takes: &'static [Takes],
    /// One way to ask for it.
    pub example: &'static [(&'static str, &'static str)],
    run: fn(&Values, &Moment) -> Result<Answer, ReckonError>,
}

type Check = fn(&str) -> Result<(), Wrong>;

const fn need(name: &'static str, what: fn() -> Phrase, check: Check) -> Takes {
    Takes { name, what, needed: true, check }
}

const fn may(name: &'static str, what: fn() -> Phrase, check: Check) -> Takes {
    Takes { name, what, needed: false, check }
}

/// Whether a text can be read, whatever it is read as.
fn checked<T, E: Into<Wrong>>(read: Result<T, E>) -> Result<(), Wrong> {
    read.map(drop).map_err(Into::into)
}

const WEIGHT: Check = |text| checked(typed::weight::parse(text));
const YES_NO: Check = |text| checked(typed::word(text, &[("yes", ()), ("no", ())]));
const COUNT: Check = |text| checked(typed::count(text));
const VOLUME: Check = |text| checked(typed::volume(text, Household::Unknown));
const STRENGTH: Check = |text| checked(typed::strength(text));
const LINES: Check = |text| checked(Lines::read(text));
const CLOCK: Check = wound::is_clock;

const KIND: Takes = may("kind", says::kind, body::is_kind);

/// Every sum, in the order they are told.
pub const SUMS: &[Sum] = &[
    Sum {
        of: SumOf::Blood,
        about: says::blood,
        takes: &[
            need("seen", says::blood_seen, |text| checked(Figure::read(FigureOf::Blood, text))),
            KIND,
            may("weight", says::her_weight, WEIGHT),
            may("build", says::build_not_weighed, body::is_build),
            may("frail", says::frail, YES_NO),
            may("since", says::how_long, |text| checked(typed::minutes(text))),
            may("cells", says::cells, COUNT),
        ],
        example: &[("kind", "hen"), ("weight", "2 kg"), ("seen", "2 thin10 full; pool 10 cm smooth")],
        run: body::blood,
    },
    Sum {
        of: SumOf::Breaths,
        about: says::breaths,
        takes: &[
            need("count", says::count, |text| checked(body::counts(text))),
            need("seconds", says::seconds, |text| checked(figure::seconds(text))),
            KIND,
            may("held", says::held, YES_NO),
            may("weight", says::weight_check, WEIGHT),
            may("air", says::air, |text| checked(body::air(text))),
        ],
        example: &[("count", "15"), ("seconds", "30"), ("kind", "hen")],
        run: body::breaths,
    },
    Sum {
        of: SumOf::Weight,
        about: says::weight,
        takes: &[may("weight", says::weighed, WEIGHT), KIND, may("build", says::build, body::is_build)],
        example: &[("weight", "4 lb 6 oz")],
        run: body::weight,
    },
    Sum {
        of: SumOf::Skin,
        about: says::skin,
        takes: &[
            need("weight", says::her_weight, WEIGHT),
            need("wounds", says::wounds, |text| checked(wound::wounds(text))),
        ],
        example: &[("weight", "2 kg"), ("wounds", "8 x 5 cm")],
        run: wound::skin,
    },
    Sum {
        of: SumOf::Recipe,
        about: says::recipe,
        takes: &[need("recipe", says::printed, |text| checked(mixing::printed(text, Household::Unknown)))],
        example: &[("recipe", "1 tbsp salt in 600 ml")],
        run: mixing::recipe,
    },
    Sum {
        of: SumOf::Solution,
        about: says::solution,
        takes: &[
            need("stock", says::stock, STRENGTH),
            may("target", says::target, STRENGTH),
            may("make", says::make, VOLUME),
            may("one_in", says::one_in, |text| checked(mixing::parts(text))),
            may("name", says::name, |_| Ok(())),
        ],
        example: &[("stock", "10%"), ("target", "0.5%"), ("make", "500ml")],
        run: mixing::solution,
    },
    Sum {
        of: SumOf::Saline,
        about: says::saline,
        takes: &[need("make", says::make, VOLUME)],
        example: &[("make", "500 ml")],
        run: mixing::saline,
    },
    Sum {
        of: SumOf::Salts,
        about: says::salts,
        takes: &[need("make", says::make, VOLUME)],
        example: &[("make", "1 l")],
        run: mixing::salts,
    },
    Sum {
        of: SumOf::Fluids,
        about: says::fluids,
        takes: &[
            need("state", says::fluids_state, |text| checked(care::state(text))),
            need("weight", says::her_weight, WEIGHT),
            need("dry", says::dry, |text| checked(typed::dryness(text))),
            KIND,
            may("hand", says::hand, |text| checked(typed::word(text, &[("trained", ()), ("plain", ())]))),
        ],
        example: &[("state", "awake"), ("weight", "2 kg"), ("dry", "8%")],
        run: care::fluids,
    },
    Sum {
        of: SumOf::Warmth,
        about: says::warmth,
        takes: &[need("state", says::warmth_state, care::is_state), may("week", says::week, COUNT)],
        example: &[("state", "chick"), ("week", "2")],
        run: care::warmth,
    },
    Sum {
        of: SumOf::Trend,
        about: says::trend,
        takes: &[need("weights", says::weights, |text| checked(body::weighings(text)))],
        example: &[("weights", "0=2100g 1=2050g 2=2040g")],
        run: body::trend,
    },
    Sum {
        of: SumOf::Healing,
        about: says::healing,
        takes: &[
            need("before", says::before, LINES),
            need("after", says::after, LINES),
            may("days", says::days, COUNT),
            may("since", says::since, COUNT),
        ],
        example: &[("before", "6 x 4 cm"), ("after", "5 x 3 cm"), ("days", "7")],
        run: wound::healing,
    },
    Sum {
        of: SumOf::Time,
        about: says::time,
        takes: &[
            need("from", says::from, CLOCK),
            may("to", says::to, CLOCK),
            may("now", says::now, CLOCK),
            may("zone", says::zone, wound::is_zone),
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

/// Why a text cannot be taken as a value, and one that could.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// What was typed.
    pub text: String,
    /// What is wrong with it.
    pub what: Text,
    /// What would be taken.
    pub example: Text,
}

impl Wrong {
    /// A text that cannot be taken.
    fn new(text: &str, what: impl Into<Text>, example: impl Into<Text>) -> Self {
        Self { text: text.to_owned(), what: what.into(), example: example.into() }
    }

    /// It in words.
    pub fn told(&self) -> Text {
        mistyped::wrong(&self.text, self.what.clone(), self.example.clone())
    }
}

impl From<TypedError> for Wrong {
    fn from(TypedError { text, what, example }: TypedError) -> Self {
        Self { text, what: mistyped::what(&what).into(), example: mistyped::example(example) }
    }
}

/// Why a sum could not be done; each says what is accepted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReckonError {
    /// There is no sum of this name; there are these.
    NoSuchSum(String, String),
    /// A value is missing; how the sum is asked for.
    Missing(String, String),
    /// A value that this sum does not take, or one given twice; what it takes.
    Unknown(String, String),
    /// A value cannot be read.
    Value {
        /// The value's name.
        name: String,
        /// What is wrong with it.
        wrong: Box<Wrong>,
    },
    /// Values that read well do not fit each other; what would.
    DoNotFit(Phrase, Text),
    /// A solution cannot be made.
    Solution(SolutionError),
    /// What must not be thinned for a wound, and why.
    Refused(String, Text),
}

impl From<SolutionError> for ReckonError {
    fn from(error: SolutionError) -> Self {
        Self::Solution(error)
    }
}

impl ReckonError {
    /// Whether it is only that a value is still missing.
    pub const fn is_missing(&self) -> bool {
        matches!(self, Self::Missing(..))
    }

    /// It in words.
    pub fn told(&self) -> Text {
        let phrase = match self {
            Self::NoSuchSum(name, names) => told::no_such(Text::typed(name), Text::typed(names)),
            Self::Missing(name, example) => told::missing(Text::typed(name), Text::typed(example)),
            Self::Unknown(name, taking) => told::unknown(Text::typed(name), Text::typed(taking)),
            Self::Value { name, wrong } => {
                let Wrong { text, what, example } = wrong.as_ref();
                told::value(Text::typed(name), Text::typed(text), what.clone(), example.clone())
            }
            Self::DoNotFit(what, example) => told::do_not_fit(what.clone(), example.clone()),
            Self::Solution(SolutionError::TooWeak) => told::stock_too_weak(),
            Self::Solution(SolutionError::Nothing) => told::nothing_to_mix(),
            Self::Refused(name, why) => told::refused(Text::typed(name), why.clone()),
        };
        phrase.into()
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
    fn read<T, E: Into<Wrong>>(&self, name: &str, read: impl Fn(&str) -> Result<T, E>) -> Result<T, ReckonError> {
        self.may(name, read)?.ok_or_else(|| self.missing(name))
    }

    /// A value that may be there, read.
    fn may<T, E: Into<Wrong>>(
        &self,
        name: &str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Result<Option<T>, ReckonError> {
        let value = |error: E| ReckonError::Value { name: name.into(), wrong: Box::new(error.into()) };
        self.get(name).map(|text| read(text).map_err(value)).transpose()
    }

    fn missing(&self, name: &str) -> ReckonError {
        ReckonError::Missing(name.into(), self.example.clone())
    }

    /// A value that reads well and still cannot be taken.
    fn wrong(&self, name: &str, what: impl Into<Text>, example: impl Into<Text>) -> ReckonError {
        let wrong = Wrong::new(self.get(name).unwrap_or_default(), what, example);
        ReckonError::Value { name: name.into(), wrong: Box::new(wrong) }
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
