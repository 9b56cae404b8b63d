//! A label as it is printed: its parts and its lines, and what of them is one name.

use crate::protocol::Protocol;
use crate::protocol::known::LONGEST;
use crate::protocol::spelling::words;

/// Each piece of a label, to be read by itself: parted by commas, brackets and lines, what is one name left whole.
pub fn pieces(protocol: &Protocol, printed: &str) -> Vec<String> {
    let mut joined: Vec<String> = Vec::new();
    for segment in segments(printed) {
        match joined.last_mut() {
            Some(before) if is_one_name(protocol, before, segment) => *before = format!("{before} {segment}"),
            Some(_) | None => joined.push(segment.to_owned()),
        }
    }
    joined.iter().flat_map(|segment| lines(protocol, segment)).collect()
}

/// Whether a mark such as `vet:` begins a word where it stands.
pub fn begins_word(printed: &str, at: usize) -> bool {
    let before = printed.get(..at).and_then(|before| before.chars().next_back());
    before.is_none_or(|c| !c.is_alphanumeric())
}

/// What stands between the ingredients and what is told behind them.
pub fn is_between(c: char) -> bool {
    c.is_whitespace() || matches!(c, ',' | ';' | super::LINE_END)
}

/// Whether two parts are together one name and nothing else: "honey (medical grade)".
fn is_one_name(protocol: &Protocol, before: &str, after: &str) -> bool {
    let both: Vec<String> = words(before).into_iter().chain(words(after)).collect();
    both.len() <= LONGEST && !words(after).is_empty() && protocol.named(&both).is_some()
}

/// The parts of a label: parted by commas and the like, but not within a number.
fn segments(printed: &str) -> impl Iterator<Item = &str> {
    let parts = move |(at, c): (usize, char)| {
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let (before, after) = printed.split_at(at);
        let within = digit(before.chars().next_back()) && digit(after.chars().nth(1));
        match c {
            ',' | '.' => !within,
            ';' | ':' | '(' | ')' | '[' | ']' | '+' | '&' | '*' | '•' | '·' => true,
            _ => false,
        }
    };
    let mut from = 0;
    let mut cuts: Vec<(usize, usize)> = Vec::new();
    for (at, c) in printed.char_indices() {
        if parts((at, c)) {
            cuts.push((from, at));
            from = at + c.len_utf8();
        }
    }
    cuts.push((from, printed.len()));
    cuts.into_iter().filter_map(|(from, to)| printed.get(from..to)).map(str::trim).filter(|part| !part.is_empty())
}

/// Where a line of the label ends, as it is typed.
pub const LINE_END: char = '|';

/// The lines of one part. A line may end between two ingredients or within one: where the last words of a line and the first
/// of the next are one name, they are read as that.
fn lines(protocol: &Protocol, segment: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for line in segment.split(['\n', LINE_END]).map(str::trim).filter(|line| !line.is_empty()) {
        let before = lines.pop();
        let split = before.as_ref().and_then(|before| goes_on(protocol, before, line));
        match (before, split) {
            (Some(before), Some(at)) => {
                let (head, tail) = before.split_at(at);
                lines.extend(Some(head.trim().to_owned()).filter(|head| !head.is_empty()));
                lines.push(format!("{} {line}", tail.trim()));
            }
            (before, _) => lines.extend(before.into_iter().chain([line.to_owned()])),
        }
    }
    lines
}

/// Where in a line a name begins that goes on in the next; the longest such name, if there is one. A name that makes milder what
/// already is one takes the whole of the next line: "honey" and then "medical grade" and nothing else.
fn goes_on(protocol: &Protocol, line: &str, next: &str) -> Option<usize> {
    let starts = line.char_indices().filter(|(at, c)| {
        !c.is_whitespace()
            && line.get(..*at).and_then(|before| before.chars().next_back()).is_none_or(char::is_whitespace)
    });
    let next = words(next);
    starts.map(|(at, _)| at).find(|at| {
        let ours = line.get(*at..).map(words).unwrap_or_default();
        let alone = protocol.named(&ours).map(|substance| substance.ruling);
        (1..LONGEST).any(|taken| {
            let name: Vec<String> = ours.iter().chain(next.iter().take(taken)).cloned().collect();
            let named = protocol.named(&name).filter(|_| name.len() == ours.len() + taken);
            named.is_some_and(|named| taken == next.len() || alone.is_none_or(|alone| named.ruling >= alone))
        })
    })
}
