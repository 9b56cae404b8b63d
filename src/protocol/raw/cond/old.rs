//! How conditions were spelled before version 0.7 of the protocol: known only to say how they are written now.

use super::Amount;
use crate::protocol::cond::Measure;
use serde::Deserialize;

#[derive(Deserialize)]
pub(super) enum Value {
    Grams(u32),
    Hours(u32),
    Percent(u32),
    Permille(u32),
    PerMinute(u32),
}

#[derive(Deserialize)]
pub(super) enum Cond {
    Always,
    Is(String, String),
    OneOf(String, Vec<String>),
    AtLeast(String, String),
    All(Vec<Cond>),
    Any(Vec<Cond>),
    Not(Box<Cond>),
    Count(usize, Vec<Cond>),
    SomeWound(Box<Cond>),
    MeasureAtLeast(Measure, Value),
    MeasureUnder(Measure, Value),
}

impl From<Value> for Amount {
    fn from(old: Value) -> Self {
        match old {
            Value::Grams(grams) => Self::Grams(grams),
            Value::Hours(hours) => Self::Hours(hours),
            Value::Percent(share) => Self::Permille(share.saturating_mul(10)),
            Value::Permille(share) => Self::Permille(share),
            Value::PerMinute(rate) => Self::PerMinute(rate),
        }
    }
}

impl From<Cond> for super::Cond {
    fn from(old: Cond) -> Self {
        let all = |parts: Vec<Cond>| parts.into_iter().map(Self::from).collect();
        match old {
            Cond::Always => Self::Always,
            Cond::Is(question, answer) => Self::Is(question, vec![answer]),
            Cond::OneOf(question, answers) => Self::Is(question, answers),
            Cond::AtLeast(question, answer) => Self::AtLeast(question, answer),
            Cond::All(parts) => Self::All(all(parts)),
            Cond::Any(parts) => Self::Any(all(parts)),
            Cond::Not(part) => Self::Not(Box::new(Self::from(*part))),
            Cond::Count(least, parts) => Self::Count(least, all(parts)),
            Cond::SomeWound(part) => Self::SomeWound(Box::new(Self::from(*part))),
            Cond::MeasureAtLeast(measure, value) => Self::Reaches(measure.id().to_owned(), value.into()),
            Cond::MeasureUnder(measure, value) => Self::Under(measure.id().to_owned(), value.into()),
        }
    }
}
