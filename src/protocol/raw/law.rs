//! What a protocol file may say of a country's law.

use crate::protocol::source::Strength;
use crate::protocol::texts::{LawOn, Limit};
use serde::Deserialize;

/// A country and what its law says; the first, `unset`, holds the strictest of all that ship.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Country {
    pub id: String,
    pub name: String,
    /// What the caution adds while this country is set.
    pub caution: String,
    pub laws: Vec<Law>,
    /// What was looked for and not found: there the strictest of all that ship holds.
    #[serde(default)]
    pub not_found: Vec<NotFound>,
}

/// What was looked for in a country's law and not found. It has no figure, no article and no source: none was seen.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NotFound {
    pub on: LawOn,
    /// What is not known, such as `how many days eggs and meat are not eaten`.
    pub what: String,
    /// Where it was looked for.
    pub looked: String,
}

/// What a law limits. A limit is never advice.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(clippy::struct_field_names, reason = "a law has a name, and that is its law")]
pub struct Law {
    pub on: LawOn,
    pub say: String,
    /// Its name and article.
    pub law: String,
    /// Its date, as far as we know it.
    pub dated: String,
    #[serde(default)]
    pub limits: Vec<Limit>,
    #[serde(default)]
    pub source: Option<String>,
    #[serde(default)]
    pub strength: Option<Strength>,
}
