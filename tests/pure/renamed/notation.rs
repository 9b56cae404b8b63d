//! Every name of a protocol written otherwise, in the text of its files: only what stands where a name stands, never prose.

use crate::common::PROTOCOL;

/// What a file holds: in a protocol, in a scripted bird and in the list of hazards other places hold names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    Protocol,
    Bird,
    Hazards,
}

/// A name written otherwise: it can be told from every word, and no part of it is as it was. Its place among others in the order
/// of letters stays, since what is equally grave is told in the order of its rules' names.
pub fn otherwise(name: &str) -> String {
    ["zq"].into_iter().map(str::to_owned).chain(name.chars().map(|c| format!("x{c}"))).collect()
}

/// A text with every name written otherwise written as before.
pub fn as_before(text: &str) -> String {
    let is_part = |c: char| c.is_ascii_alphanumeric() || c == '_';
    let (mut told, mut rest) = (String::with_capacity(text.len()), text);
    while let Some(start) = rest.find(is_part) {
        told.push_str(&rest[..start]);
        let word = &rest[start..];
        let end = word.find(|c| !is_part(c)).unwrap_or(word.len());
        match word[..end].strip_prefix("zq") {
            Some(name) => told.extend(name.chars().skip(1).step_by(2)),
            None => told.push_str(&word[..end]),
        }
        rest = &word[end..];
    }
    told + rest
}

/// Where a string stands: the labels around it, outermost first (names of fields, and of what is written before a bracket), and
/// how many strings stand before it in its own brackets.
struct Spot<'a> {
    labels: &'a [&'a str],
    at: usize,
    /// The string before it in the same brackets.
    before: Option<&'a str>,
}

impl Spot<'_> {
    fn nearest(&self) -> &str {
        self.labels.last().copied().unwrap_or_default()
    }

    fn is_in(&self, label: &str) -> bool {
        self.labels.contains(&label)
    }
}

/// Whether the string at this place is a name of the protocol.
fn is_name(sort: Sort, spot: &Spot, text: &str) -> bool {
    match sort {
        Sort::Protocol => of_protocol(spot),
        Sort::Bird => of_bird(spot, text),
        Sort::Hazards => of_hazards(spot),
    }
}

fn of_protocol(spot: &Spot) -> bool {
    match spot.nearest() {
        "id" | "source" | "says" | "step" | "list" | "acts" | "never" | "watch" | "told_by" | "keep" | "drop"
        | "then" | "again" | "beside" | "instruct" | "asks_after" | "adds_to" | "before" | "replaces" | "done_like"
        | "in_place_of" | "act" | "needs" | "supply" | "law_of" | "of" | "with" | "said_first" | "said_of_wounds"
        | "hold_source" => true,
        // What comes in the place of an instruction; elsewhere something is due `by` an hour.
        "by" => spot.is_in("instead"),
        // The first of each pair; then comes why.
        "stays" => spot.at == 0,
        // What families are ruled on; elsewhere a law is `on` a matter.
        "on" => spot.is_in("families"),
        // A region's; of an action it is prose.
        "place" => spot.is_in("regions") || spot.is_in("roles"),
        // Prose among the roles.
        "not_seen" => false,
        // Whose name is a name, but for what a sum is called.
        _ => spot.is_in("roles"),
    }
}

/// Whether a condition stands at this place.
fn is_condition(sort: Sort, spot: &Spot) -> bool {
    sort == Sort::Protocol
        && !spot.is_in("roles")
        && matches!(
            spot.nearest(),
            "when"
                | "unless"
                | "applies"
                | "moot"
                | "asked_if"
                | "shown_if"
                | "so"
                | "one"
                | "other"
                | "spare_when"
                | "spare_in_doubt"
                | "frail_when"
                | "bleeds_when"
                | "skin_only_when"
                | "stable_when"
        )
}

/// A condition with its names written otherwise, and how many there were: all that is none of the words conditions are made of, no
/// number, no unit and no measure.
fn condition(text: &str) -> (String, usize) {
    let is_part = |c: char| c.is_ascii_alphanumeric() || c == '_';
    let (mut told, mut count, mut rest) = (String::new(), 0, text);
    while let Some(start) = rest.find(is_part) {
        told.push_str(&rest[..start]);
        let word = &rest[start..];
        let end = word.find(|c| !is_part(c)).unwrap_or(word.len());
        let (word, after) = word.split_at(end);
        let is_answer = told.trim_end().ends_with(['=', '|']);
        let ours = ["and", "or", "not", "of", "some", "wound", "always", "g", "h", "min"].contains(&word) && !is_answer;
        let value = after.trim_start().strip_prefix(">=").or_else(|| after.trim_start().strip_prefix('<'));
        let is_measure = value.is_some_and(|value| value.trim_start().starts_with(|c: char| c.is_ascii_digit()));
        if ours || is_measure || word.chars().all(|c| c.is_ascii_digit()) {
            told.push_str(word);
        } else {
            count += 1;
            told.push_str(&otherwise(word));
        }
        rest = after;
    }
    (told + rest, count)
}

fn of_bird(spot: &Spot, text: &str) -> bool {
    let in_pairs = |label: &str| spot.is_in(label) && spot.labels.len() == 1;
    if in_pairs("answers") || in_pairs("wounds") {
        // A question; and after it an answer, unless it is a figure or a weight.
        return spot.at.is_multiple_of(2) || spot.before.is_some_and(|question| is_answer(question, text));
    }
    match spot.nearest() {
        "rules" | "never" | "allowed" | "acts" | "tempts" | "unless" | "Did" | "question" | "becomes" => true,
        "source" => spot.is_in("teaches"),
        "shows" | "shows_wounds" => spot.labels.len() == 2 && spot.at.is_multiple_of(2),
        _ => false,
    }
}

/// Whether this is one of the answers the protocol names; the builds of a bird are the program's own.
fn is_answer(question: &str, answer: &str) -> bool {
    let known = PROTOCOL.question(question).filter(|known| !known.is_weight());
    known.is_some_and(|known| known.choice_at(answer).is_some())
}

fn of_hazards(spot: &Spot) -> bool {
    let controls = spot.is_in("controls") || spot.is_in("comes_back");
    let nearest = spot.nearest();
    (controls && nearest != "NotRefused") || (nearest == "source" && !spot.is_in("code"))
}

/// A file's text with every name in it written otherwise, and how many were.
pub fn renamed(sort: Sort, text: &str) -> (String, usize) {
    let mut scribe = Scribe { sort, rest: text, told: String::with_capacity(text.len() * 2), ..Scribe::default() };
    while scribe.next() {}
    (scribe.told, scribe.count)
}

/// A bracket that is open: what is written before it, and the strings in it so far.
#[derive(Default)]
struct Open<'t> {
    labels: [Option<&'t str>; 2],
    strings: Vec<&'t str>,
}

struct Scribe<'t> {
    sort: Sort,
    rest: &'t str,
    told: String,
    count: usize,
    open: Vec<Open<'t>>,
    /// The field whose value is being read, and the word read last.
    field: Option<&'t str>,
    word: Option<&'t str>,
}

impl Default for Scribe<'_> {
    fn default() -> Self {
        Self {
            sort: Sort::Protocol,
            rest: "",
            told: String::new(),
            count: 0,
            open: Vec::new(),
            field: None,
            word: None,
        }
    }
}

impl<'t> Scribe<'t> {
    /// Takes the next piece over; whether there was one.
    fn next(&mut self) -> bool {
        let Some(first) = self.rest.chars().next() else { return false };
        if self.rest.starts_with("//") {
            let end = self.rest.find('\n').unwrap_or(self.rest.len());
            self.take(end);
        } else if first == '"' {
            self.string();
        } else if first == '\'' {
            // A letter of a drawing.
            let end = self.rest[1..].find('\'').map_or(self.rest.len(), |at| at + 2);
            self.take(end);
        } else if first.is_alphanumeric() || first == '_' {
            let end = self.rest.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(self.rest.len());
            let word = self.take(end);
            // What is wrapped stands in its field all the same.
            if word != "Some" {
                self.word = Some(word);
            }
        } else {
            self.mark(first);
        }
        true
    }

    fn mark(&mut self, mark: char) {
        self.take(mark.len_utf8());
        match mark {
            '(' | '[' | '{' => {
                self.open.push(Open { labels: [self.field.take(), self.word.take()], strings: Vec::new() });
            }
            ')' | ']' | '}' => {
                self.open.pop();
                (self.field, self.word) = (None, None);
            }
            ':' => self.field = self.word.take(),
            ',' => (self.field, self.word) = (None, None),
            _ => {}
        }
    }

    fn string(&mut self) {
        let mut escaped = false;
        let end = self.rest[1..].find(|c| {
            let ends = c == '"' && !escaped;
            escaped = c == '\\' && !escaped;
            ends
        });
        let end = end.unwrap_or_else(|| panic!("a string without an end: {:.80}", self.rest));
        let text = &self.rest[1..=end];
        let labels: Vec<&str> = self.open.iter().flat_map(|open| open.labels).chain([self.field]).flatten().collect();
        let strings = self.open.last().map_or(&[][..], |open| open.strings.as_slice());
        let spot = Spot { labels: &labels, at: strings.len(), before: strings.last().copied() };
        if is_condition(self.sort, &spot) {
            let (told, count) = condition(text);
            self.count += count;
            self.told.extend(["\"", &told, "\""]);
            self.rest = &self.rest[end + 2..];
        } else if is_name(self.sort, &spot, text) {
            self.count += 1;
            self.told.extend(["\"", &otherwise(text), "\""]);
            self.rest = &self.rest[end + 2..];
        } else {
            self.take(end + 2);
        }
        if let Some(open) = self.open.last_mut() {
            open.strings.push(text);
        }
        (self.field, self.word) = (None, None);
    }

    fn take(&mut self, end: usize) -> &'t str {
        let (taken, rest) = self.rest.split_at(end);
        self.told.push_str(taken);
        self.rest = rest;
        taken
    }
}
