//! The evidence behind the protocol: every fact we found, and what became of it: covered by what, or left out and why.

use super::fault::{Fault, Faults};
use super::notation;
use super::source::Strength;
use serde::Deserialize;

/// One fact in our own words.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fact {
    /// Its number in our collection.
    pub id: String,
    /// What was found.
    pub fact: String,
    /// The sources it comes from, by their keys in the protocol.
    pub from: Vec<String>,
    /// How it came to us.
    pub strength: Strength,
    /// Whose figure it is, where it is not poultry's.
    #[serde(default)]
    pub borrowed: Option<String>,
    /// What became of it.
    pub fate: Fate,
}

/// What became of a fact.
#[derive(Clone, Debug, Deserialize)]
pub enum Fate {
    /// These items of the protocol carry it, by their keys.
    Covered(Vec<String>),
    /// It was left out on purpose, for this reason.
    Declined(String),
}

/// The facts a file holds.
///
/// # Errors
/// Where the text is not a list of facts: one fault with its line.
pub fn read(file: &str, text: &str) -> Result<Vec<Fact>, Faults> {
    notation().from_str(text).map_err(|error| {
        let (line, what) = (error.span.start.line, error.code.to_string());
        Faults(vec![Fault { file: file.to_owned(), line, item: String::new(), what, nearest: None }])
    })
}
