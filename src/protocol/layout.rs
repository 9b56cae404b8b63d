//! How a protocol file is laid out: nothing wider than a screen, long texts broken between words, what belongs together on one
//! line. Only blanks and ends of lines are changed; what the file says is the same before and after.

use super::read::{joined_lines, quoted};
use pretty::RcDoc;

/// The widest a line may be, in columns.
pub const WIDEST: usize = 120;
/// How far what stands in brackets is moved in.
const STEP: isize = 4;
/// A text of no more letters than this is no sentence, and stands beside other fields.
const SHORT: usize = 40;
/// A text of no more letters than this is never broken: a line of a drawing is not a sentence.
const UNBROKEN: usize = 60;

/// How deep brackets may stand in each other.
const DEEPEST: usize = 64;

/// Why a file cannot be laid out: the line, from 1, and what stands there.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}: {what}")]
pub struct Unreadable {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong.
    pub what: &'static str,
}

/// The same file, laid out. Of a file that is no RON the brackets may not match, or a text may not end.
///
/// # Errors
/// The first place that cannot be read.
pub fn laid_out(text: &str) -> Result<String, Unreadable> {
    let mut reader = Reader { rest: text, whole: text, depth: 0 };
    let file = reader.body(None)?;
    let mut doc = RcDoc::nil();
    for node in &file.nodes {
        doc = doc.append(node.whole(0)).append(RcDoc::hardline());
    }
    doc = doc.append(comments(&file.tail));
    let mut out = String::new();
    // Writing into a string does not fail.
    let _ = doc.render_fmt(WIDEST, &mut out);
    let lines: Vec<&str> = out.lines().map(|line| line.trim_end_matches(' ')).collect();
    let laid = format!("{}\n", lines.join("\n").trim_end_matches('\n'));
    // A club's file is written over with this: whatever was said before is said after, each comment among it.
    let again = Reader { rest: &laid, whole: &laid, depth: 0 }.body(None)?;
    if said(&again) != said(&file) {
        return Err(Unreadable { line: 1, what: "it would say something else when laid out; it is left as it is" });
    }
    Ok(laid)
}

/// What stands before a value, each on a line of its own: a comment, or a line left free (empty).
type Lead<'a> = Vec<&'a str>;

/// A value, what stands before it and the name of its field.
struct Node<'a> {
    lead: Lead<'a>,
    key: Option<&'a str>,
    value: Value<'a>,
}

enum Value<'a> {
    /// A word, a number, a letter.
    Word(&'a str),
    /// A text with its quotation marks.
    Text(&'a str),
    /// What stands in brackets.
    Group { name: &'a str, open: &'static str, body: Body<'a>, close: &'static str },
}

#[derive(Default)]
struct Body<'a> {
    nodes: Vec<Node<'a>>,
    tail: Lead<'a>,
}

/// Reads values from what is left of a file.
struct Reader<'a> {
    rest: &'a str,
    whole: &'a str,
    /// How many brackets are open.
    depth: usize,
}

impl<'a> Reader<'a> {
    fn fault<T>(&self, what: &'static str) -> Result<T, Unreadable> {
        let before = self.whole.len() - self.rest.len();
        let line = self.whole.get(..before).map_or(1, |before| before.matches('\n').count() + 1);
        Err(Unreadable { line, what })
    }

    /// Takes so many bytes off what is left.
    fn take(&mut self, bytes: usize) -> &'a str {
        let (taken, rest) = self.rest.split_at_checked(bytes).unwrap_or((self.rest, ""));
        self.rest = rest;
        taken
    }

    fn starts(&mut self, sign: &str) -> bool {
        let starts = self.rest.starts_with(sign);
        if starts {
            self.take(sign.len());
        }
        starts
    }

    /// Blanks, comments and lines left free.
    fn lead(&mut self) -> Result<Lead<'a>, Unreadable> {
        let mut lead = Vec::new();
        loop {
            let blank = self.rest.len() - self.rest.trim_start().len();
            if self.take(blank).matches('\n').count() > 1 && lead.last() != Some(&"") {
                lead.push("");
            }
            if self.rest.starts_with("//") {
                let end = self.rest.find('\n').unwrap_or(self.rest.len());
                lead.push(self.take(end).trim_end());
            } else if self.rest.starts_with("/*") {
                let Some(end) = self.rest.find("*/") else { return self.fault("a comment that does not end") };
                lead.push(self.take(end + 2));
            } else {
                return Ok(lead);
            }
        }
    }

    /// Values parted by commas, up to the bracket that closes them; without one, up to the end of the file.
    fn body(&mut self, close: Option<&'static str>) -> Result<Body<'a>, Unreadable> {
        let mut body = Body::default();
        loop {
            let mut lead = self.lead()?;
            // A line left free parts what stands below it from something above.
            if body.nodes.is_empty() && lead.first() == Some(&"") {
                lead.remove(0);
            }
            if close.is_some_and(|close| self.starts(close)) || (close.is_none() && self.rest.is_empty()) {
                if lead.last() == Some(&"") {
                    lead.pop();
                }
                body.tail = lead;
                return Ok(body);
            }
            if self.rest.is_empty() {
                return self.fault("a bracket that is not closed");
            }
            let mut node = self.node(lead)?;
            // A comment beside a value goes above it; outside all brackets there is no comma it could stand before.
            if close.is_some() {
                self.comments(&mut node.lead)?;
            }
            let parted = self.starts(",") || close.is_none_or(|close| self.rest.starts_with(close));
            if !parted {
                return self.fault("expected a comma or a closing bracket");
            }
            let beside = self.rest.trim_start_matches([' ', '\t']);
            if beside.starts_with("//") {
                self.rest = beside;
                let end = beside.find('\n').unwrap_or(beside.len());
                node.lead.push(self.take(end).trim_end());
            }
            body.nodes.push(node);
        }
    }

    fn node(&mut self, lead: Lead<'a>) -> Result<Node<'a>, Unreadable> {
        let mut lead = lead;
        let word = self.word();
        // A comment within a value goes above it.
        self.comments(&mut lead)?;
        if !word.is_empty() && self.starts(":") {
            self.comments(&mut lead)?;
            let value = self.value("", &mut lead)?;
            return Ok(Node { lead, key: Some(word), value });
        }
        let value = self.value(word, &mut lead)?;
        Ok(Node { lead, key: None, value })
    }

    /// Adds the comments that come next to those above.
    fn comments(&mut self, lead: &mut Lead<'a>) -> Result<(), Unreadable> {
        lead.extend(self.lead()?.into_iter().filter(|line| !line.is_empty()));
        Ok(())
    }

    fn word(&mut self) -> &'a str {
        let ends = |c: char| !(c.is_alphanumeric() || matches!(c, '_' | '.' | '+' | '-' | '#'));
        self.take(self.rest.find(ends).unwrap_or(self.rest.len()))
    }

    /// A value of which a word has been read, if it begins with one.
    fn value(&mut self, word: &'a str, lead: &mut Lead<'a>) -> Result<Value<'a>, Unreadable> {
        let name = if word.is_empty() { self.word() } else { word };
        if !name.is_empty() {
            self.comments(lead)?;
        }
        for (open, close) in [("(", ")"), ("[", "]"), ("{", "}")] {
            if self.starts(open) {
                self.depth += 1;
                if self.depth > DEEPEST {
                    return self.fault("brackets deeper in each other than any item of a protocol has them");
                }
                let body = self.body(Some(close))?;
                self.depth -= 1;
                return Ok(Value::Group { name, open, body, close });
            }
        }
        if !name.is_empty() && self.rest.starts_with(['"', '\'']) {
            return self.fault("a text with a letter before it; write it plain, with `\\` before what is special");
        }
        if !name.is_empty() {
            return Ok(Value::Word(name));
        }
        match self.rest.chars().next() {
            Some('"') => Ok(Value::Text(self.quoted('"')?)),
            Some('\'') => Ok(Value::Word(self.quoted('\'')?)),
            _ => self.fault("here no value begins; expected a word, a text in quotation marks or a bracket"),
        }
    }

    /// What stands between two of these marks, the marks with it.
    fn quoted(&mut self, mark: char) -> Result<&'a str, Unreadable> {
        match quoted(self.rest, mark) {
            Some(bytes) => Ok(self.take(bytes)),
            None => self.fault("a text that does not end"),
        }
    }
}

impl<'a> Node<'a> {
    /// The node as its file has it: what stands before it, its name, its value. The brackets of a file and of its lists are opened
    /// over several lines, whatever stands in them.
    fn whole(&self, depth: usize) -> RcDoc<'a> {
        let key = self.key.map_or_else(RcDoc::nil, |key| RcDoc::text(key).append(": "));
        comments(&self.lead).append(key).append(self.value.doc(depth))
    }

    /// Whether it is one of several in a list, with words of its own.
    fn is_item(&self) -> bool {
        match &self.value {
            Value::Group { body, .. } if self.key.is_none() => {
                let spoken = |node: &Node| matches!(node.value, Value::Text(text) if text.contains(' '));
                body.nodes.iter().any(spoken)
            }
            Value::Group { .. } | Value::Word(_) | Value::Text(_) => false,
        }
    }
}

/// Comments and free lines, each ending its line; a long comment goes on in the next.
fn comments<'a>(lead: &[&'a str]) -> RcDoc<'a> {
    let next = || RcDoc::hardline().append("// ").flat_alt(RcDoc::space()).group();
    let comment = |line: &'a str| match line.strip_prefix("// ") {
        Some(said) => RcDoc::text("// ").append(RcDoc::intersperse(words(said).into_iter().map(RcDoc::text), next())),
        None => RcDoc::text(line),
    };
    RcDoc::concat(lead.iter().map(|line| comment(line).append(RcDoc::hardline())))
}

impl<'a> Value<'a> {
    /// Whether a sentence stands in it: such a field begins on a line of its own.
    fn has_sentence(&self) -> bool {
        match self {
            Self::Word(_) => false,
            Self::Text(text) => text.chars().count() > SHORT && text.contains(' '),
            Self::Group { body, .. } => body.nodes.iter().any(|node| node.value.has_sentence() || node.is_item()),
        }
    }

    fn doc(&self, depth: usize) -> RcDoc<'a> {
        match self {
            Self::Word(word) => RcDoc::text(*word),
            Self::Text(text) => broken(text),
            Self::Group { name, open, body, close } => {
                let inner = match (depth, body.nodes.as_slice()) {
                    // A file of one list: its two brackets open together.
                    (0, [only]) if only.lead.is_empty() && body.tail.is_empty() => only.whole(1),
                    (0 | 1, _) => body.one_a_line(depth),
                    _ => body.filled(depth),
                };
                RcDoc::text(*name).append(*open).append(inner).append(*close)
            }
        }
    }
}

impl<'a> Body<'a> {
    /// Every value on a line of its own.
    fn one_a_line(&self, depth: usize) -> RcDoc<'a> {
        let nodes = self.nodes.iter().map(|node| RcDoc::hardline().append(node.whole(depth + 1)).append(","));
        let tail = if self.tail.is_empty() { RcDoc::nil() } else { RcDoc::hardline().append(comments(&self.tail)) };
        RcDoc::concat(nodes).append(tail).nest(STEP).append(RcDoc::hardline())
    }

    /// As many values on a line as go there; a sentence begins one.
    fn filled(&self, depth: usize) -> RcDoc<'a> {
        let mut doc = RcDoc::nil();
        // The lines of a drawing stand under each other.
        let is_drawn = self
            .nodes
            .iter()
            .any(|node| matches!(node.value, Value::Text(text) if text.contains("   ") && !text.contains('\n')));
        for (at, node) in self.nodes.iter().enumerate() {
            let gap = match (at, node.lead.is_empty()) {
                (_, false) => RcDoc::hardline(),
                (0, true) if is_drawn => RcDoc::line_(),
                (0, true) => RcDoc::nil(),
                (_, true) if node.value.has_sentence() || node.is_item() || is_drawn => RcDoc::line(),
                (_, true) => RcDoc::line().group(),
            };
            let comma = if at + 1 < self.nodes.len() { "," } else { "" };
            doc = doc.append(gap).append(node.whole(depth + 1)).append(comma);
        }
        if !self.tail.is_empty() {
            doc = doc.append(RcDoc::hardline()).append(comments(&self.tail));
        }
        doc.nest(STEP).group()
    }
}

/// A text, broken between words where it is long: the end of a line and the blanks after it count as one blank.
fn broken(text: &str) -> RcDoc<'_> {
    if text.chars().count() <= UNBROKEN && !text.contains('\n') {
        return RcDoc::text(text);
    }
    let parts = words(text).into_iter().map(RcDoc::text);
    RcDoc::intersperse(parts, RcDoc::line().group()).nest(STEP)
}

/// The words of a text: what stands between single blanks, an end of line with the blanks round it counting as one. A blank of
/// another sort parts no words.
fn words(text: &str) -> Vec<&str> {
    let mut words = Vec::new();
    for line in joined_lines(text) {
        let mut from = 0;
        for (at, _) in line.match_indices(' ') {
            let alone = !line.get(..at).is_some_and(|before| before.ends_with(char::is_whitespace))
                && !line.get(at + 1..).is_some_and(|after| after.starts_with(char::is_whitespace));
            if alone {
                words.extend(line.get(from..at));
                from = at + 1;
            }
        }
        words.extend(line.get(from..));
    }
    words
}

/// All a file says: its words and texts in order, and the words of its comments in the order of letters, since a comment may move.
fn said(body: &Body) -> (Vec<String>, Vec<String>) {
    let (mut told, mut comments) = (Vec::new(), Vec::new());
    gather(body, &mut told, &mut comments);
    comments.sort_unstable();
    (told, comments)
}

fn gather(body: &Body, told: &mut Vec<String>, comments: &mut Vec<String>) {
    let mut comment = |lead: &Lead| {
        let words = lead.iter().flat_map(|line| line.split_whitespace()).filter(|word| *word != "//");
        comments.extend(words.map(str::to_owned));
    };
    body.nodes.iter().for_each(|node| comment(&node.lead));
    comment(&body.tail);
    for node in &body.nodes {
        told.extend(node.key.map(|key| format!("{key}:")));
        match &node.value {
            Value::Word(word) => told.push((*word).to_owned()),
            Value::Text(text) => told.push(words(text).join(" ")),
            Value::Group { name, open, body, close } => {
                told.push(format!("{name}{open}"));
                gather(body, told, comments);
                told.push((*close).to_owned());
            }
        }
    }
}
