//! From the text of protocol files to raw items, each with the place it stands at, so that every fault can point.

use super::fault::Fault;
use super::item::{Items, Outer};
use super::limits::{MOST_BYTES, MOST_IN_ONE, MOST_ITEMS};
use super::misread::{Loses, Misread, name_in, no_file, told};
use ron::value::RawValue;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// One file of a protocol.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct File {
    /// Its name, as the person knows it.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// An item and where it stands.
#[derive(Clone, Debug)]
pub struct Placed<T> {
    /// The item.
    pub item: T,
    /// The file's name.
    pub file: String,
    /// The line its text begins on, from 1.
    line: usize,
    /// Its text, for finding the line of a name in it.
    text: String,
}

impl<T> Placed<T> {
    /// The line on which `name` stands within the item; the item's first line if it does not stand there.
    pub fn line_of(&self, name: &str) -> usize {
        let is_part = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
        let alone = |(at, _): &(usize, &str)| {
            let (before, after) = (self.text.get(..*at), self.text.get(at + name.len()..));
            !before.is_some_and(|before| before.ends_with(is_part))
                && !after.is_some_and(|after| after.starts_with(is_part))
        };
        let quoted = self.text.find(&format!("\"{name}\""));
        let at = quoted.or_else(|| Some(self.text.match_indices(name).find(alone)?.0)).or_else(|| self.text.find(name));
        let at = at.unwrap_or(0);
        self.line + self.text.get(..at).map_or(0, |before| before.matches('\n').count())
    }

    /// A fault at `name` within this item.
    pub fn fault(&self, item: String, name: &str, what: String) -> Fault {
        Fault { file: self.file.clone(), line: self.line_of(name), item, what, nearest: None }
    }
}

/// The notation our files are written in: plain RON with `Some(..)` left out.
pub fn notation() -> ron::Options {
    ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
}

/// Reads every file, going on after each faulty item so that all faults are found at once.
pub fn read(files: &[File]) -> (Items, Misread) {
    let (mut items, mut misread) = (Items::default(), Misread::default());
    let bytes: usize = files.iter().map(|file| file.text.len()).sum();
    if bytes > MOST_BYTES {
        let largest = files.iter().max_by_key(|file| file.text.len()).map_or("", |file| &file.name);
        let what = format!(
            "the files hold {bytes} bytes together, most of them here; a protocol holds at most {MOST_BYTES}: take out what no rule needs"
        );
        misread.faults.push(Fault { file: largest.into(), line: 0, item: String::new(), what, nearest: None });
        misread.lost.everything();
        return (items, misread);
    }
    for file in files {
        match notation().from_str::<Outer>(&file.text) {
            Ok(outer) => items.take(file, &outer, &mut misread),
            Err(error) => {
                misread.faults.push(no_file(file, &error));
                misread.lost.everything();
            }
        }
    }
    (items, misread)
}

/// Reads items one by one, each with its place; what cannot be read is told with its line, and what it loses is kept.
pub fn place<T: DeserializeOwned>(
    file: &File,
    found: &[&RawValue],
    into: &mut Vec<Placed<T>>,
    loses: Loses,
    misread: &mut Misread,
) {
    // Counted on from item to item: counted anew for each, a long file would take the square of its length.
    let (mut counted, mut lines) = (0, 1);
    for raw in found {
        let text = raw.get_ron();
        // `text` is a slice of the file's text, so their addresses tell how far in it begins.
        let offset = (text.as_ptr() as usize).saturating_sub(file.text.as_ptr() as usize);
        let lead = text.len() - text.trim_start().len();
        let between = file.text.get(counted..offset + lead);
        lines += between.map_or(0, |between| between.matches('\n').count());
        counted = if between.is_some() { offset + lead } else { counted };
        let line = lines;
        let text = text.trim_start();
        let key = if let Loses::Name(key) = loses { key } else { "id" };
        let item = || name_in(text, key).map_or_else(String::new, |name| format!("`{name}`"));
        let mut too_large = |what: String, loses: Loses| {
            misread.faults.push(Fault { file: file.name.clone(), line, item: item(), what, nearest: None });
            misread.lost.item(text, loses);
        };
        if into.len() == MOST_ITEMS {
            let what =
                format!("this is one more than the {MOST_ITEMS} of its sort a protocol holds at most: join some");
            too_large(what, Loses::Everything);
            break;
        }
        if text.len() > MOST_IN_ONE {
            let what =
                format!("this item holds {} bytes; one holds at most {MOST_IN_ONE}: make it several", text.len());
            too_large(what, loses);
            continue;
        }
        match notation().from_str::<T>(&in_lines(text)) {
            Ok(item) => into.push(Placed { item, file: file.name.clone(), line, text: text.to_owned() }),
            Err(error) => {
                let (what, nearest) = told(&error.code, text);
                let line = line + error.span.start.line - 1;
                misread.faults.push(Fault { file: file.name.clone(), line, item: item(), what, nearest });
                misread.lost.item(text, loses);
            }
        }
    }
}

/// The same text with every quoted text on one line: the end of a line and the blanks round it count as one blank there. The ends
/// of lines move behind the text, so that whatever follows still stands on the line it is told to stand on.
fn in_lines(text: &str) -> Cow<'_, str> {
    if !text.contains('\n') {
        return Cow::Borrowed(text);
    }
    let (mut joined, mut rest) = (String::with_capacity(text.len()), text);
    while let Some(at) = rest.find(['"', '\'', '/']) {
        let (before, from) = rest.split_at(at);
        joined.push_str(before);
        let length = match from.as_bytes() {
            [b'"', ..] => quoted(from, '"').unwrap_or(from.len()),
            [b'\'', ..] => quoted(from, '\'').unwrap_or(from.len()),
            [b'/', b'/', ..] => from.find('\n').unwrap_or(from.len()),
            [b'/', b'*', ..] => from.find("*/").map_or(from.len(), |at| at + 2),
            _ => 1,
        };
        let (piece, after) = from.split_at_checked(length).unwrap_or((from, ""));
        if piece.starts_with('"') {
            let lines: Vec<&str> = joined_lines(piece).collect();
            joined.push_str(&lines.join(" "));
            joined.extend(std::iter::repeat_n('\n', piece.matches('\n').count()));
        } else {
            joined.push_str(piece);
        }
        rest = after;
    }
    joined.push_str(rest);
    Cow::Owned(joined)
}

/// The lines of a text that are one sentence: without the blanks round the end of a line, and without the lines left free.
pub fn joined_lines(text: &str) -> impl Iterator<Item = &str> {
    let blank = [' ', '\t', '\r'];
    let last = text.matches('\n').count();
    let trimmed = text.split('\n').enumerate().map(move |(at, line)| {
        let line = if at == 0 { line } else { line.trim_start_matches(blank) };
        if at == last { line } else { line.trim_end_matches(blank) }
    });
    trimmed.filter(move |line| last == 0 || !line.is_empty())
}

/// How many bytes what stands between two of these marks takes, the marks with it; nothing where it does not end.
pub fn quoted(text: &str, mark: char) -> Option<usize> {
    let mut escaped = false;
    for (at, letter) in text.char_indices().skip(1) {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            _ if letter == mark => return Some(at + letter.len_utf8()),
            _ => {}
        }
    }
    None
}
