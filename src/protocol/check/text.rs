//! Texts that go on screen: never empty, made only of glyphs every terminal shows one column wide, and no longer than one reads
//! who is frightened.

use super::Checker;
use crate::protocol::limits::{
    MOST_ANSWERED, MOST_ASKED, MOST_CALLED, MOST_INSTRUCTED, MOST_REASONED, MOST_SAID, WIDEST_SAID,
};
use crate::protocol::read::Placed;
use unicode_width::UnicodeWidthChar;

/// Signs beyond ASCII that our texts may use; all are one column wide and need no special font.
const SIGNS: &str = "½¼¾°×±–’‘“”…µ²³é≥≤%";

impl Checker {
    /// Checks one text of an item.
    pub(super) fn words<T>(&mut self, placed: &Placed<T>, item: &str, field: &str, text: &str) {
        let what = if text.trim().is_empty() {
            format!("field `{field}` is empty")
        } else if let Some(bad) = text.chars().find(|c| !is_plain(*c)) {
            format!("field `{field}` holds `{}`, which not every terminal shows", bad.escape_unicode())
        } else if claims_review(text) {
            let what = "says that a vet has reviewed or approved something; the program says of itself that none has";
            format!("field `{field}` {what}: take that out")
        } else {
            return;
        };
        self.faults.push(placed.fault(item.to_owned(), text, what));
    }

    /// What a question asks with.
    pub(super) fn asks_with<T>(&mut self, placed: &Placed<T>, item: &str, field: &str, text: &str) {
        self.words(placed, item, field, text);
        let count = counted(text);
        if count > MOST_ASKED {
            let what = format!("field `{field}` has {count} words; a question asks with at most {MOST_ASKED}");
            self.faults.push(placed.fault(item.to_owned(), text, what));
        }
    }

    /// What an answer says.
    pub(super) fn answers_with<T>(&mut self, placed: &Placed<T>, item: &str, text: &str) {
        self.words(placed, item, "say", text);
        let count = counted(text);
        if count > MOST_ANSWERED {
            let what = format!("the answer \"{text}\" has {count} words; an answer has at most {MOST_ANSWERED}");
            self.faults.push(placed.fault(item.to_owned(), text, what));
        }
    }

    /// What tells to do, to look at or to leave something.
    pub(super) fn instructs<T>(&mut self, placed: &Placed<T>, item: &str, field: &str, text: &str) {
        self.words(placed, item, field, text);
        for sentence in sentences(text).filter(|sentence| counted(sentence) > MOST_INSTRUCTED) {
            let what = format!(
                "field `{field}`: the sentence \"{sentence}\" has {} words; one that instructs has at most {MOST_INSTRUCTED}: make it two",
                counted(sentence)
            );
            self.faults.push(placed.fault(item.to_owned(), text, what));
        }
    }

    /// What a question is called in summaries.
    pub(super) fn calls<T>(&mut self, placed: &Placed<T>, item: &str, text: &str) {
        self.words(placed, item, "topic", text);
        let count = counted(text);
        if count > MOST_CALLED {
            let what = format!("field `topic` has {count} words; a summary calls a question by at most {MOST_CALLED}");
            self.faults.push(placed.fault(item.to_owned(), text, what));
        }
    }

    /// Why a rule moves a scale.
    pub(super) fn reasons_with<T>(&mut self, placed: &Placed<T>, item: &str, text: &str) {
        self.words(placed, item, "reason", text);
        for sentence in sentences(text).filter(|sentence| counted(sentence) > MOST_REASONED) {
            let what = format!(
                "field `reason`: the sentence \"{sentence}\" has {} words; one that tells why has at most {MOST_REASONED}: make it two",
                counted(sentence)
            );
            self.faults.push(placed.fault(item.to_owned(), text, what));
        }
    }

    /// A line of "do now" is not cut on a phone.
    pub(super) fn fits_a_phone<T>(&mut self, placed: &Placed<T>, item: &str, field: &str, say: &str) {
        let count = say.split_whitespace().count();
        if count > MOST_SAID {
            let what = format!("field `{field}` has {count} words; a line of \"do now\" has at most {MOST_SAID}");
            self.faults.push(placed.fault(item.to_owned(), say, what));
        }
        if say.chars().count() > WIDEST_SAID {
            let what = format!("field `{field}` is longer than {WIDEST_SAID} characters; it would be cut on a phone");
            self.faults.push(placed.fault(item.to_owned(), say, what));
        }
    }
}

/// A text cut into sentences; a colon ends one too, for what follows it is read by itself.
fn sentences(text: &str) -> impl Iterator<Item = &str> {
    text.split(['.', '?', '!', ':', ';']).map(str::trim)
}

/// How many words a text has: a dash between blanks is none.
fn counted(text: &str) -> usize {
    text.split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric)).count()
}

/// Whether a text says in so many words that a vet stands behind it. Put otherwise it is not found out.
fn claims_review(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["reviewed", "approved", "endorsed", "certified", "authorised", "authorized"].iter().any(|claim| {
        ["a vet", "vets", "our vet", "veterinar", "a licensed vet", "the vet"]
            .iter()
            .any(|whom| lower.contains(&format!("{claim} by {whom}")))
    })
}

fn is_plain(c: char) -> bool {
    (c.is_ascii() && !c.is_ascii_control()) || (SIGNS.contains(c) && c.width() == Some(1))
}
