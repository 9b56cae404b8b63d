//! A document as lines for speech: one thought a line, no marks, no pictures, units and times of day in words.

use crate::content::document::{Item, Section, Tone};
use crate::phrase::{Phrase, Text, speech};
use crate::words::{Reader, upper_first};

/// The lines of some sections, in the order they are read out. The reader has to be one who hears.
pub fn lines(sections: &[Section], reader: Reader) -> Vec<String> {
    let say = |phrase: Phrase| reader.phrase(&phrase);
    let mut out = Vec::new();
    for Section { heading, tone, items } in sections {
        let heading = upper_first(&heading.to_lowercase());
        out.push(match tone {
            // How many there are is told where none may be missed.
            Tone::Act | Tone::Never => say(speech::heading(Text::typed(heading), items.len())),
            Tone::Plain | Tone::Grave | Tone::Caution => say(speech::title(Text::typed(heading))),
        });
        for (number, item) in (1u32..).zip(items) {
            // A picture says nothing that words do not; rules and clocks are told by the screen that holds them.
            let Item { lead, more, picture: _, asked, why: _, timed: _ } = item;
            let lead = match tone {
                Tone::Act => say(speech::act(number, Text::typed(lead))),
                Tone::Never | Tone::Plain | Tone::Grave | Tone::Caution => lead.clone(),
            };
            let told = std::iter::once(&lead).chain(more).chain(asked);
            out.extend(told.flat_map(|told| thoughts(&aloud(told, &say))));
        }
    }
    out
}

/// A text as a voice reads it, a sentence at a time. The reader has to be one who hears.
pub fn thoughts_aloud(text: &str, reader: Reader) -> Vec<String> {
    thoughts(&aloud(text, &|phrase: Phrase| reader.phrase(&phrase)))
}

/// A text a sentence at a time.
fn thoughts(text: &str) -> Vec<String> {
    let mut out = Vec::new();
    let mut rest = text.trim();
    while let Some(at) = sentence_end(rest) {
        let (before, after) = rest.split_at(at);
        out.push(before.trim().to_owned());
        rest = after.trim_start();
    }
    if !rest.is_empty() {
        out.push(rest.to_owned());
    }
    out
}

/// Where the first sentence of several ends: behind a full stop, a question or a semicolon that a blank follows.
fn sentence_end(text: &str) -> Option<usize> {
    let ends = text.match_indices(['.', '?', '!', ';']).map(|(at, sign)| at + sign.len());
    let mut ends = ends.filter(|at| text.get(*at..).is_some_and(|rest| rest.starts_with(' ')));
    ends.find(|at| !text.get(*at..).is_some_and(|rest| rest.trim().is_empty()))
}

/// A text without signs that no voice reads: a unit after a figure, a range, a time of day, a telephone number.
fn aloud(text: &str, say: &dyn Fn(Phrase) -> String) -> String {
    let mut out: Vec<String> = Vec::new();
    let tokens: Vec<&str> = text.split_whitespace().collect();
    for (at, token) in tokens.iter().enumerate() {
        // A bar that is drawn stands beside its word.
        if token.bytes().all(|letter| letter == b'#') {
            continue;
        }
        let before = at.checked_sub(1).and_then(|at| tokens.get(at)).copied().unwrap_or_default();
        let after = tokens.get(at + 1).copied().unwrap_or_default();
        let (open, bare, close) = within(token);
        let word = word(bare, is_figure(before), is_figure(after), say);
        out.push(word.map_or_else(|| (*token).to_owned(), |word| format!("{open}{word}{close}")));
    }
    out.join(" ")
}

/// What stands before a token, the token, and what closes it.
fn within(token: &str) -> (&str, &str, &str) {
    let sign = |letter: char| matches!(letter, '(' | ')' | ',' | ';' | ':' | '.' | '?' | '!' | '"' | '\'');
    let bare = token.trim_matches(sign);
    let at = token.find(bare).unwrap_or_default();
    let open = token.get(..at).unwrap_or_default();
    let close = token.get(at + bare.len()..).unwrap_or_default();
    (open, bare, close)
}

fn is_figure(token: &str) -> bool {
    let (_, bare, _) = within(token);
    bare.starts_with(|first: char| first.is_ascii_digit())
}

/// A token as a voice reads it, where it is a sign.
fn word(token: &str, after_figure: bool, before_figure: bool, say: &dyn Fn(Phrase) -> String) -> Option<String> {
    if let Some((hour, minute)) = token.split_once(':')
        && let (Ok(hour), Ok(minute)) = (hour.parse::<u32>(), minute.parse::<u32>())
        && (hour < 24 && minute < 60)
    {
        return Some(say(crate::words::spoken_clock(hour, minute)));
    }
    if let Some(figure) = token.strip_suffix('%').filter(|figure| is_figure(figure)) {
        return Some(format!("{figure} {}", say(speech::percent())));
    }
    if let Some((low, high)) = token.split_once(['-', '\u{2013}'])
        && let (Ok(low), Ok(high)) = (low.parse::<f64>(), high.parse::<f64>())
        && low < high
    {
        return Some(format!("{low} {} {high}", say(speech::to())));
    }
    if is_number_to_dial(token) {
        return Some(token.chars().filter(char::is_ascii_digit).map(String::from).collect::<Vec<_>>().join(" "));
    }
    let sign = match token {
        "=" => Some(speech::is()),
        "/" => Some(speech::over()),
        "+" => Some(speech::plus()),
        _ => None,
    };
    if let Some(sign) = sign {
        return Some(say(sign));
    }
    let unit = match token {
        "g" => speech::grams(),
        "kg" => speech::kilograms(),
        "mL" | "ml" => speech::millilitres(),
        "l" | "L" => speech::litres(),
        "mm" => speech::millimetres(),
        "cm" => speech::centimetres(),
        "cm2" => speech::square_centimetres(),
        "%" => speech::percent(),
        "°C" => speech::degrees(),
        "min" => speech::minutes(),
        "h" => speech::hours(),
        "x" if before_figure => speech::by(),
        _ => return None,
    };
    after_figure.then(|| say(unit))
}

/// At least so many digits are dialled, not counted.
const DIALLED: usize = 6;

fn is_number_to_dial(token: &str) -> bool {
    let digits = token.chars().filter(char::is_ascii_digit).count();
    digits >= DIALLED && token.chars().all(|letter| letter.is_ascii_digit() || matches!(letter, '-' | '+' | '/'))
}
