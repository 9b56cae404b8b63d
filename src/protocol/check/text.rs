//! Texts that go on screen: never empty, and made only of glyphs every terminal shows one column wide.

use super::Desk;
use crate::protocol::read::Placed;
use unicode_width::UnicodeWidthChar;

/// Signs beyond ASCII that our texts may use; all are one column wide and need no special font.
const SIGNS: &str = "½¼¾°×±–’‘“”…µ²³é≥≤%";

impl Desk {
    /// Checks one text of an item.
    pub(super) fn words<T>(&mut self, placed: &Placed<T>, item: &str, field: &str, text: &str) {
        let what = if text.trim().is_empty() {
            format!("field `{field}` is empty")
        } else if let Some(bad) = text.chars().find(|c| !is_plain(*c)) {
            format!("field `{field}` holds `{}`, which not every terminal shows", bad.escape_unicode())
        } else {
            return;
        };
        self.faults.push(placed.fault(item.to_owned(), text, what));
    }
}

fn is_plain(c: char) -> bool {
    (c.is_ascii() && !c.is_ascii_control()) || (SIGNS.contains(c) && c.width() == Some(1))
}
