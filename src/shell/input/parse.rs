//! From the bytes of a terminal, and the silences between them, to what was typed. It knows no clock and reads nothing: whoever
//! does tells it both.
//!
//! A silence decides what bytes alone leave open: whether an `ESC` was the key or begins a sequence, whether a sequence, a letter or
//! a paste still goes on. Nothing that belongs to a sequence ever counts as a key by itself; control with c always counts, at once.

use super::Typed;
use super::sequence::{Ear, Meant, lettered};
use crate::view::keys::Key;
use std::mem;
use std::time::Duration;

/// After a silence this long, an `ESC` was the key. Our own figure: a sequence comes in one piece, but for slow lines.
pub const ESCAPE: Duration = Duration::from_millis(40);
/// After a silence this long, a sequence or a letter is not gone on with. Our own figure.
pub const HALF: Duration = Duration::from_millis(100);
/// After a silence this long, a paste without an end has ended. Our own figure.
pub const PASTE: Duration = Duration::from_millis(300);
/// For this long after an `ESC` that counted as the key, the rest of a sequence may still be on its way on a slow line.
const LATE: Duration = Duration::from_secs(1);
/// So soon the rest of a text follows that no hand types.
const FLOW: Duration = Duration::from_millis(10);
/// As many bytes at once no hand types.
const NO_HAND: usize = 4;
/// How many bytes of a text are handed over at once.
pub const PIECE: usize = 16 * 1_024;

const ESC: u8 = 0x1b;
/// Control with c.
const INTERRUPT: u8 = 0x03;
const PASTE_ENDS: &[u8] = b"\x1b[201~";

/// What the last bytes are a part of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Within {
    /// Nothing.
    #[default]
    Nothing,
    /// A letter of several bytes.
    Letter,
    /// `ESC`: the key, a letter pressed with alt, or the beginning of a sequence.
    Escape,
    /// `ESC [` and numbers.
    Numbers,
    /// `ESC` and a sign, before the letter that ends it.
    Sign,
    /// `ESC O`, before the letter that ends it.
    Single,
    /// A text of the terminal's own, until it says that it ends.
    Told,
    /// So many bytes that are no keys.
    Follow(u8),
    /// A paste.
    Paste,
}

impl Within {
    /// After how long a silence nothing follows any more.
    const fn patience(self) -> Option<Duration> {
        match self {
            Self::Nothing => None,
            Self::Escape => Some(ESCAPE),
            Self::Paste => Some(PASTE),
            Self::Letter | Self::Numbers | Self::Sign | Self::Single | Self::Told | Self::Follow(_) => Some(HALF),
        }
    }
}

/// The parser.
#[derive(Default)]
pub struct Parser {
    machine: vte::Parser,
    ear: Ear,
    within: Within,
    /// An `ESC` has just counted as the key.
    late: bool,
    /// A byte after a late `ESC` that may begin the rest of its sequence, or have been typed.
    doubtful: Option<u8>,
    /// The letter that is being read was pressed with alt.
    alt: bool,
    paste: Vec<u8>,
    /// Letters and ends of lines that came without a pause, and how many bytes they took.
    run: Vec<Key>,
    run_bytes: usize,
    typed: Vec<Typed>,
}

impl std::fmt::Debug for Parser {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Parser").field("within", &self.within).field("typed", &self.typed).finish_non_exhaustive()
    }
}

impl Parser {
    /// Takes bytes as they came.
    pub fn bytes(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.byte(*byte);
        }
    }

    /// How long nothing may follow the last byte until that says something: then [`Self::silence`] wants to be told.
    pub fn patience(&self) -> Option<Duration> {
        if !self.run.is_empty() {
            return Some(self.flow());
        }
        self.within.patience().or_else(|| self.late.then_some(LATE))
    }

    /// Nothing has come for this long since the last byte.
    pub fn silence(&mut self, lasted: Duration) {
        if lasted >= self.flow() {
            self.end_run();
        }
        self.late &= lasted < LATE;
        if self.within.patience().is_none_or(|patience| lasted < patience) {
            return;
        }
        match self.within {
            Within::Nothing => {}
            Within::Escape => {
                self.give_up();
                self.say(Typed::Key(Key::Escape));
                self.late = lasted < LATE;
            }
            Within::Paste => {
                let end = self.paste.len() - begun(&self.paste, PASTE_ENDS);
                self.paste.truncate(end);
                self.end_paste();
            }
            Within::Letter | Within::Numbers | Within::Sign | Within::Single | Within::Told | Within::Follow(_) => {
                let doubtful = self.doubtful;
                self.give_up();
                if let Some(byte) = doubtful {
                    self.say(Typed::Key(Key::Char(char::from(byte))));
                }
            }
        }
    }

    /// What was typed so far and not taken yet. What might still be a part of something longer stays.
    pub fn take(&mut self) -> Vec<Typed> {
        mem::take(&mut self.typed)
    }

    /// How soon the next byte of the same run has to follow. Of few bytes: with them, or it is another.
    const fn flow(&self) -> Duration {
        if self.run_bytes < NO_HAND { Duration::ZERO } else { FLOW }
    }

    fn byte(&mut self, byte: u8) {
        let late = mem::take(&mut self.late);
        self.doubtful = None;
        match (self.within, byte) {
            (Within::Paste, _) => self.pasted(byte),
            (_, INTERRUPT) => {
                self.give_up();
                self.say(Typed::Key(Key::Control('c')));
            }
            (Within::Nothing, b'[' | b'O') if late => {
                self.escape();
                self.second(byte);
                self.doubtful = Some(byte);
            }
            (Within::Escape, _) => self.second(byte),
            (_, ESC) => self.escape(),
            (Within::Nothing | Within::Letter, _) => self.plain(byte),
            (Within::Numbers, _) => self.number(byte),
            // A letter, or what begins a sequence in one byte, ends what came before it.
            (Within::Sign | Within::Single, 0x80..) => {
                self.give_up();
                self.plain(byte);
            }
            (Within::Sign, _) => {
                if !matches!(byte, 0x20..=0x2f) {
                    self.give_up();
                }
            }
            (Within::Single, _) => self.single(byte),
            (Within::Told, _) => {
                if matches!(byte, 0x07 | 0x18 | 0x1a) {
                    self.give_up();
                }
            }
            (Within::Follow(left), _) => {
                self.within = if left > 1 { Within::Follow(left - 1) } else { Within::Nothing };
            }
        }
    }

    /// What has begun means nothing.
    fn give_up(&mut self) {
        self.machine = vte::Parser::new();
        self.ear.said.clear();
        self.within = Within::Nothing;
        self.doubtful = None;
        self.alt = false;
    }

    fn escape(&mut self) {
        self.give_up();
        self.machine.advance(&mut self.ear, &[ESC]);
        self.within = Within::Escape;
    }

    /// The byte after `ESC`.
    fn second(&mut self, byte: u8) {
        match byte {
            ESC => {}
            b'[' => {
                self.machine.advance(&mut self.ear, &[byte]);
                self.within = Within::Numbers;
            }
            b'O' => {
                self.give_up();
                self.within = Within::Single;
            }
            b'P' | b'X' | b']' | b'^' | b'_' => {
                self.give_up();
                self.within = Within::Told;
            }
            0x20..=0x2f => self.within = Within::Sign,
            // With alt: a letter we bind nothing to, or a control.
            0x00..=0x7f => self.give_up(),
            0x80..=0xff => {
                self.give_up();
                self.alt = true;
                self.plain(byte);
            }
        }
    }

    /// A byte that is, or is a part of, a letter or a control.
    fn plain(&mut self, byte: u8) {
        self.machine.advance(&mut self.ear, &[byte]);
        let said = mem::take(&mut self.ear.said);
        self.within = if said.is_empty() && byte >= 0x80 { Within::Letter } else { Within::Nothing };
        for said in said {
            match said {
                Meant::Letter(letter) => self.letter(letter),
                Meant::Control(control) => self.control(control),
                // No such thing comes of a byte that belongs to no sequence.
                Meant::Key(_) | Meant::PasteBegins | Meant::Follow(_) => {}
            }
        }
    }

    fn letter(&mut self, letter: char) {
        let alt = mem::take(&mut self.alt);
        match letter {
            '\u{7f}' => self.say(Typed::Key(Key::Backspace)),
            // What stands for bytes that are no letter was not typed.
            char::REPLACEMENT_CHARACTER => {}
            _ if alt => {}
            letter if letter.is_control() => self.control(u8::try_from(u32::from(letter)).unwrap_or_default()),
            letter => self.go_on(Key::Char(letter), letter.len_utf8()),
        }
    }

    fn control(&mut self, control: u8) {
        self.alt = false;
        match control {
            b'\r' => self.go_on(Key::Enter, 1),
            b'\n' => self.go_on(Key::Control('j'), 1),
            b'\t' => self.go_on(Key::Tab, 1),
            0x08 => self.say(Typed::Key(Key::Backspace)),
            0x0c => self.say(Typed::Redraw),
            0x01..=0x1a => self.say(Typed::Key(Key::Control(char::from(control - 1 + b'a')))),
            // The same in one byte: what these begin is no key either.
            0x9b => {
                self.escape();
                self.second(b'[');
            }
            0x8f => {
                self.escape();
                self.second(b'O');
            }
            0x90 | 0x98 | 0x9d..=0x9f => {
                self.escape();
                self.second(b']');
            }
            0x00 | 0x1b..=0xff => {}
        }
    }

    /// A byte after `ESC [`.
    fn number(&mut self, byte: u8) {
        self.machine.advance(&mut self.ear, &[byte]);
        let said = mem::take(&mut self.ear.said);
        if !matches!(byte, 0x18 | 0x1a | 0x40..=0x7e) {
            return;
        }
        self.give_up();
        for said in said {
            match said {
                Meant::Key(key) => self.say(Typed::Key(key)),
                Meant::PasteBegins => {
                    self.end_run();
                    self.within = Within::Paste;
                }
                Meant::Follow(count) => self.within = Within::Follow(count),
                // Inside a sequence nothing is typed.
                Meant::Letter(_) | Meant::Control(_) => {}
            }
        }
    }

    /// A byte after `ESC O`.
    fn single(&mut self, byte: u8) {
        if matches!(byte, b'0'..=b'9' | b';') {
            return;
        }
        self.give_up();
        if let Some(key) = lettered(char::from(byte)) {
            self.say(Typed::Key(key));
        }
    }

    fn pasted(&mut self, byte: u8) {
        self.paste.push(byte);
        if self.paste.ends_with(PASTE_ENDS) {
            let end = self.paste.len() - PASTE_ENDS.len();
            self.paste.truncate(end);
            self.end_paste();
        } else if self.paste.len() >= PIECE {
            // Neither its end nor a letter is cut in two.
            let mut end = self.paste.len() - begun(&self.paste, PASTE_ENDS);
            let text = self.paste.get(..end).unwrap_or_default();
            if let Some(cut) = str::from_utf8(text).err().filter(|error| error.error_len().is_none()) {
                end = cut.valid_up_to();
            }
            let rest = self.paste.split_off(end);
            self.hand_over_paste();
            self.paste = rest;
        }
    }

    fn end_paste(&mut self) {
        self.hand_over_paste();
        self.give_up();
    }

    fn hand_over_paste(&mut self) {
        let bytes = mem::take(&mut self.paste);
        if !bytes.is_empty() {
            self.say(Typed::Paste(String::from_utf8_lossy(&bytes).into_owned()));
        }
    }

    /// A key of which many at once are a text.
    fn go_on(&mut self, key: Key, bytes: usize) {
        self.run.push(key);
        self.run_bytes += bytes;
        if self.run_bytes >= PIECE {
            self.end_run();
        }
    }

    fn say(&mut self, typed: Typed) {
        self.end_run();
        self.typed.push(typed);
    }

    /// Letters and an end of a line, more at once than a hand types, are a text that was pasted where pastes are not marked.
    fn end_run(&mut self) {
        let bytes = mem::take(&mut self.run_bytes);
        let run = mem::take(&mut self.run);
        let letters = run.iter().filter(|key| matches!(key, Key::Char(_))).count();
        let ends_a_line = run.iter().any(|key| matches!(key, Key::Enter | Key::Control(_)));
        if bytes >= NO_HAND && letters > 1 && ends_a_line {
            self.typed.push(Typed::Paste(run.into_iter().map(written).collect()));
        } else {
            self.typed.extend(run.into_iter().map(Typed::Key));
        }
    }
}

/// A key of a run as a text has it.
const fn written(key: Key) -> char {
    match key {
        Key::Char(letter) => letter,
        Key::Tab => '\t',
        Key::Enter => '\r',
        _ => '\n',
    }
}

/// How many bytes at the end may be the beginning of something.
fn begun(bytes: &[u8], of: &[u8]) -> usize {
    (1..of.len()).rev().find(|count| of.get(..*count).is_some_and(|part| bytes.ends_with(part))).unwrap_or(0)
}
