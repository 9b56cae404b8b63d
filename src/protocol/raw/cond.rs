//! A condition as a protocol file writes it: one line of text such as `posture >= collapsed and not fitting`.

mod brackets;
mod grammar;
mod old;

use ron::value::RawValue;
use serde::de::{Deserialize, Deserializer, Error};
use std::fmt;

/// A value a measure is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amount {
    /// Written `g`.
    Grams(u32),
    /// Written `h`.
    Hours(u32),
    /// A share in a thousand, written `%` with one decimal at most.
    Permille(u32),
    /// Written `/min`.
    PerMinute(u32),
}

/// A condition, unchecked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Cond {
    /// `always`: every bird.
    #[default]
    Always,
    /// `fitting`: a sign that is seen, or the name of a condition that stands elsewhere.
    Named(String),
    /// `happened = mammal | raptor`: one of these answers.
    Is(String, Vec<String>),
    /// `posture >= collapsed`: this answer or a worse one.
    AtLeast(String, String),
    /// `a and b`.
    All(Vec<Cond>),
    /// `a or b`.
    Any(Vec<Cond>),
    /// `not a`.
    Not(Box<Cond>),
    /// `2 of (a, b, c)`: at least so many of these.
    Count(usize, Vec<Cond>),
    /// `some wound (a)`: at least one wound of which this holds.
    SomeWound(Box<Cond>),
    /// `weight >= 500 g`.
    Reaches(String, Amount),
    /// `weight < 500 g`.
    Under(String, Amount),
}

impl<'de> Deserialize<'de> for Cond {
    /// Reads the text; of the old spelling, with an enum for every word, it says how it is written now.
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let raw = Box::<RawValue>::deserialize(deserializer)?;
        let written = raw.get_ron().trim();
        if let Ok(text) = crate::protocol::notation().from_str::<String>(written) {
            return grammar::read(&text).map_err(D::Error::custom);
        }
        match crate::protocol::notation().from_str::<old::Cond>(written) {
            Ok(old) => {
                Err(D::Error::custom(format!("this is the old spelling of a condition; write \"{}\"", Self::from(old))))
            }
            Err(_) => Err(D::Error::custom(
                "expected a condition in quotation marks, such as \"posture >= collapsed and not fitting\"",
            )),
        }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Grams(grams) => write!(f, "{grams} g"),
            Self::Hours(hours) => write!(f, "{hours} h"),
            Self::Permille(share) if share % 10 == 0 => write!(f, "{} %", share / 10),
            Self::Permille(share) => write!(f, "{}.{} %", share / 10, share % 10),
            Self::PerMinute(rate) => write!(f, "{rate} /min"),
        }
    }
}

impl fmt::Display for Cond {
    /// Writes it as a file would; read again, it is the same.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Always => f.write_str("always"),
            Self::Named(name) => f.write_str(name),
            Self::Is(question, answers) => write!(f, "{question} = {}", answers.join(" | ")),
            Self::AtLeast(question, answer) => write!(f, "{question} >= {answer}"),
            Self::All(parts) => joined(f, parts, " and "),
            Self::Any(parts) => joined(f, parts, " or "),
            Self::Not(part) => {
                f.write_str("not ")?;
                part.within(f)
            }
            Self::Count(least, parts) => {
                write!(f, "{least} of (")?;
                for (at, part) in parts.iter().enumerate() {
                    f.write_str(if at > 0 { ", " } else { "" })?;
                    fmt::Display::fmt(part, f)?;
                }
                f.write_str(")")
            }
            Self::SomeWound(part) => write!(f, "some wound ({part})"),
            Self::Reaches(measure, amount) => write!(f, "{measure} >= {amount}"),
            Self::Under(measure, amount) => write!(f, "{measure} < {amount}"),
        }
    }
}

impl Cond {
    /// Writes it as a part of another: what is joined stands in brackets.
    fn within(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::All(parts) | Self::Any(parts) if parts.len() > 1 => write!(f, "({self})"),
            other => fmt::Display::fmt(other, f),
        }
    }
}

fn joined(f: &mut fmt::Formatter<'_>, parts: &[Cond], word: &str) -> fmt::Result {
    for (at, part) in parts.iter().enumerate() {
        f.write_str(if at > 0 { word } else { "" })?;
        part.within(f)?;
    }
    Ok(())
}
