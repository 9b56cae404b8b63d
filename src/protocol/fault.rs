//! What is wrong with a protocol or a findings file: where, what was expected, and the nearest known name.

use std::fmt;

/// One problem in one file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// The file, as the person knows it.
    pub file: String,
    /// The line, from 1; 0 where the file as a whole is meant.
    pub line: usize,
    /// The item and field: `rule open_break, field need`.
    pub item: String,
    /// What is wrong and what was expected.
    pub what: String,
    /// The nearest known name, for a name that is not known.
    pub nearest: Option<String>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if self.line > 0 {
            write!(f, ":{}", self.line)?;
        }
        f.write_str(": ")?;
        if !self.item.is_empty() {
            write!(f, "{}: ", self.item)?;
        }
        f.write_str(&self.what)?;
        match &self.nearest {
            Some(name) => write!(f, "; did you mean `{name}`?"),
            None => Ok(()),
        }
    }
}

/// Every problem of a protocol, sorted by file and line. Never empty.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))]
pub struct Faults(pub Vec<Fault>);

/// The known name nearest to a mistyped one, if any is near enough to be meant.
pub fn nearest<'a>(typed: &str, known: impl IntoIterator<Item = &'a str>) -> Option<String> {
    known
        .into_iter()
        .map(|name| (strsim::jaro_winkler(typed, name), name))
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|(one, _), (other, _)| one.total_cmp(other))
        .map(|(_, name)| name.to_owned())
}
