//! What could not be read: faults in words, and the names that may stand in it.

use super::fault::{Fault, nearest};
use super::read::File;
use std::collections::BTreeSet;

/// Names a fault may have hidden: nothing is said of a name among them, so that one cause brings one fault.
#[derive(Clone, Debug, Default)]
pub struct Lost {
    /// Names of items that could not be read, or that stand twice.
    pub names: BTreeSet<String>,
    /// Whether any item at all is missing.
    pub some: bool,
    /// Whether names are missing that nobody can tell: those of a file, or of an item without a name.
    pub unnamed: bool,
}

impl Lost {
    /// Whether this name may be one of those.
    pub fn may_hold(&self, name: &str) -> bool {
        self.unnamed || self.names.contains(name)
    }

    /// Takes in what an item that could not be read holds.
    pub fn item(&mut self, text: &str, loses: Loses) {
        self.some = true;
        match loses {
            Loses::Nothing => {}
            Loses::Everything => self.unnamed = true,
            Loses::Name(key) => match name_in(text, key) {
                Some(name) => drop(self.names.insert(name)),
                None => self.unnamed = true,
            },
        }
    }

    /// Takes in that a whole file, or an unknown number of items, is missing.
    pub const fn everything(&mut self) {
        (self.some, self.unnamed) = (true, true);
    }
}

/// What is no longer known where an item cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Loses {
    /// The name in this field.
    Name(&'static str),
    /// Nothing: nobody asks for it by a name.
    Nothing,
    /// Names nobody can tell.
    Everything,
}

/// What was found while reading: every fault, and the names it may hide.
#[derive(Debug, Default)]
pub struct Misread {
    /// Every fault.
    pub faults: Vec<Fault>,
    /// What it may hide.
    pub lost: Lost,
}

/// The name an item gives itself in this field, though the item cannot be read.
pub fn name_in(text: &str, key: &str) -> Option<String> {
    let starts = |at: usize| !text.get(..at).is_some_and(|before| before.ends_with(is_part));
    let keys = text.match_indices(key).filter(|(at, _)| starts(*at));
    let named = |(at, _): (usize, &str)| {
        let rest = text.get(at + key.len()..)?.trim_start().strip_prefix(':')?.trim_start().strip_prefix('"')?;
        Some(rest.split_once('"')?.0.to_owned())
    };
    keys.into_iter().find_map(named)
}

const fn is_part(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || letter == '_'
}

/// Fields as they were spelled before version 0.7 of the protocol, and how what they said is written now.
const OLD: [(&str, &str); 2] = [
    ("finding", "`source: \"..\"`, and `strength: ..` only where it is known otherwise than the source says of itself"),
    ("advice", "`says: \"..\"` with the source that itself recommends it, and nothing where that is our inference"),
];

/// What stands in a field that has to be there, where that is not plain from its name.
const WANTED: [(&str, &str); 2] = [
    (
        "until",
        "what ends the ban: `Test(when: .., say: ..)`, `Vet(or: ..)` with one of the other two, or `Lives(because: ..)`",
    ),
    ("broken", "how soon it kills or maims if it is done all the same: Minutes, Hours, Days or Slight"),
];

/// What is wrong with an item, in words, and the nearest name; of an old spelling, the new one too.
pub fn told(error: &ron::Error, text: &str) -> (String, Option<String>) {
    match error {
        ron::Error::NoSuchStructField { expected, found, .. } => {
            if let Some((name, now)) = OLD.iter().find(|(name, _)| name == found) {
                return (format!("`{name}` is the old spelling; write {now}"), None);
            }
            let what = format!("no field is called `{found}` here; there are {}", expected.join(", "));
            (what, nearest(found, expected.iter().copied()))
        }
        ron::Error::NoSuchEnumVariant { expected, found, .. } => {
            // What leaves the program is spelled in small letters, and read back so: here one spelling is enough.
            let begins_large = |name: &&str| name.starts_with(|letter: char| letter.is_ascii_uppercase());
            let known: Vec<&str> = expected.iter().copied().filter(begins_large).collect();
            let of = field_of(text, found).map_or_else(String::new, |field| format!("field `{field}`: "));
            (format!("{of}`{found}` is not known; there are {}", known.join(", ")), nearest(found, known))
        }
        ron::Error::MissingStructField { field, .. } => {
            let wanted = WANTED.iter().find(|(name, _)| name == field);
            let wanted = wanted.map_or("one in every such item", |(_, wanted)| wanted);
            (format!("no `{field}`; expected {wanted}"), None)
        }
        error => (error.to_string(), None),
    }
}

/// The field a value stands in: the last one named before it.
fn field_of<'t>(text: &'t str, value: &str) -> Option<&'t str> {
    let alone = |at: &usize| {
        let (before, after) = (text.get(..*at), text.get(at + value.len()..));
        before.is_some_and(|before| before.ends_with([' ', ':', '(', '[', ',', '\n']))
            && !after.is_some_and(|after| after.starts_with(is_part))
    };
    let before = text.match_indices(value).map(|(at, _)| at).filter(alone).find_map(|at| text.get(..at))?;
    let named = before.rsplit_once(':')?.0.trim_end();
    let start = named.rfind(|letter: char| !is_part(letter)).map_or(0, |at| at + 1);
    named.get(start..).filter(|field| !field.is_empty())
}

/// The most letters that are told of the place where a file could not be read.
const SHOWN: usize = 30;

/// A file that is none of ours, or in which a bracket, comma or quotation mark is missing.
pub fn no_file(file: &File, error: &ron::error::SpannedError) -> Fault {
    let at = &error.span.end;
    let line = file.text.lines().nth(at.line.saturating_sub(1)).unwrap_or_default();
    let here: String = line.chars().skip(at.col.saturating_sub(1)).take(SHOWN).collect();
    let stood =
        if here.trim().is_empty() { "at the end of the line".to_owned() } else { format!("at `{}`", here.trim()) };
    let (expected, nearest) = match &error.code {
        ron::Error::ExpectedComma => ("expected a comma or a closing bracket before it".to_owned(), None),
        ron::Error::Eof => ("the file ends here; expected a closing bracket or quotation mark".to_owned(), None),
        ron::Error::TrailingCharacters => {
            ("expected the end of the file: a bracket is closed too early".to_owned(), None)
        }
        code => told(code, &file.text),
    };
    let what =
        format!("this cannot be read, column {}, {stood}: {expected}; until it can, no unknown name is told", at.col);
    Fault { file: file.name.clone(), line: at.line, item: String::new(), what, nearest }
}
