//! What a typed line means: a key by its name or its letter, a text where one is typed, or a word of this mode.

use crate::phrase::{Phrase, Text, spoken as phrase};
use crate::session::Session;
use crate::session::context::Context;
use crate::session::draft::Draft;
use crate::view::keys::{self, Key};

/// What a line means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineMeaning {
    /// These, in order.
    Keyed(Vec<Keyed>),
    /// All of the screen once more.
    Again,
    /// The time left.
    Clock,
    /// Nothing: what to say of it.
    Nothing(Phrase),
}

/// What would have been typed on the screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Keyed {
    /// A key.
    Key(Key),
    /// A text.
    Text(String),
}

/// The keys that are told by a name.
const NAMED: [Key; 15] = [
    Key::Char(' '),
    Key::Enter,
    Key::Backspace,
    Key::Escape,
    Key::Up,
    Key::Down,
    Key::Left,
    Key::Right,
    Key::PageUp,
    Key::PageDown,
    Key::Home,
    Key::End,
    Key::Delete,
    Key::Tab,
    Key::BackTab,
];

/// What a line means here.
pub fn heard(session: &Session, line: &str) -> LineMeaning {
    let line = line.trim_end_matches(['\r', '\n']);
    let bare = line.trim();
    let is = |said: Text| session.say(said).eq_ignore_ascii_case(bare);
    let context = session.context();
    if context == Context::Typing {
        return if is(Key::Escape.show()) { key(Key::Escape) } else { text(line) };
    }
    if line.is_empty() {
        return key(if counts(session) { Key::Char(' ') } else { Key::Enter });
    }
    if is(phrase::again().into()) {
        return LineMeaning::Again;
    }
    if is(phrase::clock().into()) {
        return LineMeaning::Clock;
    }
    if let Some(named) = NAMED.into_iter().find(|named| is(named.show())) {
        return key(named);
    }
    let mut letters = bare.chars();
    match (letters.next(), letters.next()) {
        (None, _) => key(Key::Char(' ')),
        (Some(letter), None) => key(Key::Char(letter)),
        // A number of its own may have several figures.
        (Some(_), Some(_)) if context == Context::Birds && bare.chars().all(|letter| letter.is_ascii_digit()) => {
            LineMeaning::Keyed(bare.chars().map(|figure| Keyed::Key(Key::Char(figure))).collect())
        }
        _ => by_word(session, bare).map_or_else(|| not_understood(bare), key),
    }
}

/// Whether breaths are being counted, or a vein timed: then each line is a tap.
fn counts(session: &Session) -> bool {
    match &session.draft {
        Some(Draft::Taps(taps)) => taps.running.is_some(),
        Some(Draft::Vein(vein)) => vein.since.is_some(),
        Some(Draft::Spill(_)) | None => false,
    }
}

/// The key that does what a word says.
fn by_word(session: &Session, word: &str) -> Option<Key> {
    let told = |binding: &&keys::Binding| session.say(Text::from((binding.hint)())).eq_ignore_ascii_case(word);
    let mut told = keys::of(session.context()).filter(told);
    let binding = told.next()?;
    // Where a word stands for several things it stands for none.
    (told.next().is_none() && binding.keys.len() < FIGURES).then(|| binding.keys.first().copied()).flatten()
}

/// So many keys only the figures have, each of which means something else.
const FIGURES: usize = 9;

fn key(key: Key) -> LineMeaning {
    LineMeaning::Keyed(vec![Keyed::Key(key)])
}

/// What is typed stands in place of what stood there.
fn text(line: &str) -> LineMeaning {
    let keep = line.is_empty();
    let anew = [Keyed::Key(Key::Control('e')), Keyed::Key(Key::Control('u')), Keyed::Text(line.to_owned())];
    let anew = anew.into_iter().filter(|_| !keep);
    LineMeaning::Keyed(anew.chain([Keyed::Key(Key::Enter)]).collect())
}

fn not_understood(typed: &str) -> LineMeaning {
    let typed: String = typed.chars().take(LONGEST).collect();
    LineMeaning::Nothing(phrase::not_understood(Text::typed(typed)))
}

/// So much of what was not understood is said again, in letters.
const LONGEST: usize = 30;

/// What is said first of all.
pub fn begins() -> Phrase {
    phrase::begins(phrase::again(), phrase::clock())
}

/// The key that leaves, where nothing more can be heard.
pub const LEAVES: Key = Key::Control('c');
