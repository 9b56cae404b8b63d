//! Texts that go on screen: never empty, and made only of glyphs every terminal shows one column wide.

use super::Checker;
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
