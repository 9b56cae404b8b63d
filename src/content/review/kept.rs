//! The forms that were taken in: each one line of JSON, several side by side. Told beside an item only while version and content
//! are those they were filled in for.

use super::form::{Filled, Form};
use crate::finding::doubt::unseen;
use crate::phrase::{Phrase, Text, review as phrase};

/// At most this many forms are kept.
pub const MOST: usize = 100;

/// Forms, in the order they were taken in.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Kept(Vec<Form>);

/// What became of a form that was to be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// It is kept from now on.
    New,
    /// It was kept before, word by word.
    Before,
    /// There are [`MOST`] already.
    Full,
    /// It could not be written down.
    Unwritable,
}

impl Kept {
    /// Reads what was kept; a line nobody can read is passed over.
    pub fn recall(kept: &str) -> Self {
        Self(kept.lines().filter_map(|line| serde_json::from_str(line).ok()).collect())
    }

    /// One form by itself.
    pub fn of_one(form: &Form) -> Self {
        Self(vec![form.clone()])
    }

    /// What is kept with one form more, whatever else stands there: a line this program cannot read stays.
    pub fn add(kept: &str, form: &Form) -> (String, Taken) {
        let Self(forms) = Self::recall(kept);
        if forms.contains(form) {
            return (kept.to_owned(), Taken::Before);
        }
        if forms.len() >= MOST {
            return (kept.to_owned(), Taken::Full);
        }
        match serde_json::to_string(form) {
            Ok(line) => (format!("{kept}{line}\n"), Taken::New),
            Err(_) => (kept.to_owned(), Taken::Unwritable),
        }
    }

    /// The forms.
    pub fn forms(&self) -> &[Form] {
        &self.0
    }

    /// Whether any form says something of an item, of whatever version.
    pub fn names(&self, id: &str) -> bool {
        self.0.iter().flat_map(|form| &form.items).any(|filled| filled.id == id)
    }

    /// What forms say of an item as it stands: a line each.
    pub fn of(&self, version: &str, id: &str, content: &str) -> Vec<Text> {
        let holds = |filled: &&Filled| filled.id == id && filled.content == content;
        let of = self.0.iter().filter(|form| form.protocol == version);
        of.filter_map(|form| Some(said(form, form.items.iter().find(holds)?).into())).collect()
    }

    /// What forms for a version say is missing.
    pub fn missing(&self, version: &str) -> Vec<Text> {
        let of = self.0.iter().filter(|form| form.protocol == version && !form.missing.is_empty());
        of.map(|form| phrase::form_misses(signed(form), shown(&form.missing)).into()).collect()
    }
}

/// What a form says of an item, in a line.
fn said(form: &Form, filled: &Filled) -> Phrase {
    let verdict = filled.verdict.map_or_else(phrase::nothing_marked, super::form::Verdict::word);
    if filled.remark.is_empty() {
        phrase::form_says(verdict, signed(form))
    } else {
        phrase::form_says_more(verdict, signed(form), shown(&filled.remark))
    }
}

/// Who filled a form in, when, and for what.
pub fn signed(form: &Form) -> Phrase {
    phrase::signed(shown(&form.role), shown(&form.date), shown(&form.protocol))
}

/// A text of a form without what would not show: what was kept could have been written by another hand since.
fn shown(text: &str) -> Text {
    Text::typed(text.chars().filter(|letter| !unseen(*letter)).collect::<String>())
}
