//! What is told of the vet who gave a medicine: who, when, and for which bird. Without all three a bottle is a leftover.

use super::printed::{begins_word, is_between};
use chrono::NaiveDate;

/// What is told of the vet who gave it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Given {
    /// Who gave it.
    pub vet: Option<String>,
    /// When.
    pub on: Option<NaiveDate>,
    /// For which bird.
    pub bird: Option<String>,
}

/// What must be told of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// Which vet gave it.
    Vet,
    /// The day it was given.
    Day,
    /// For which bird.
    Bird,
}

/// How it is written behind the ingredients, as an example.
pub const EXAMPLE: &str = "vet: Grey, 2026-05-01, Rue";

impl Given {
    /// Whether who, when and which bird are all told.
    pub fn is_whole(&self) -> bool {
        self.missing().is_empty()
    }

    /// Whether anything is told.
    pub fn is_told(&self) -> bool {
        self.missing().len() < 3
    }

    /// What is not told.
    pub fn missing(&self) -> Vec<Missing> {
        let told = [
            (self.vet.is_some(), Missing::Vet),
            (self.on.is_some(), Missing::Day),
            (self.bird.is_some(), Missing::Bird),
        ];
        told.into_iter().filter(|(told, _)| !told).map(|(_, what)| what).collect()
    }

    /// The ingredients and what is told behind them: `enrofloxacin 10 %, vet: Grey, 2026-05-01, Rue`. A day to come is none.
    pub fn behind(printed: &str, today: NaiveDate) -> (&str, Self) {
        let lower = printed.to_ascii_lowercase();
        let found = lower.match_indices("vet:").map(|(at, _)| at).find(|at| begins_word(printed, *at));
        let split = found.and_then(|at| Some((printed.get(..at)?, printed.get(at + "vet:".len()..)?)));
        let Some((ingredients, told)) = split else { return (printed, Self::default()) };
        let mut given = Self::default();
        for part in told.split([',', ';', super::LINE_END, '\n']).map(str::trim).filter(|part| !part.is_empty()) {
            if part.starts_with(|c: char| c.is_ascii_digit()) {
                given.on = given.on.or_else(|| day(part, today));
            } else if given.vet.is_none() {
                given.vet = Some(part.to_owned());
            } else if given.bird.is_none() {
                given.bird = Some(part.to_owned());
            }
        }
        (ingredients.trim_end_matches(is_between), given)
    }
}

/// A day that has come, as it is written: `2026-05-01`.
pub fn day(text: &str, today: NaiveDate) -> Option<NaiveDate> {
    NaiveDate::parse_from_str(text.trim(), "%Y-%m-%d").ok().filter(|day| *day <= today)
}
