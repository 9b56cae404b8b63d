//! What a whole sequence of the terminal says.

use crate::view::keys::Key;
use vte::{Params, Perform};

/// What the bytes of a terminal come to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meant {
    /// A letter.
    Letter(char),
    /// A control.
    Control(u8),
    /// A key that sends a sequence.
    Key(Key),
    /// A paste begins.
    PasteBegins,
    /// So many bytes follow that say where a mouse is, or which of the keys was pressed that we do not know.
    Follow(u8),
}

/// Takes down what is said.
#[derive(Debug, Default)]
pub struct Ear {
    /// In order; nothing that means nothing to us.
    pub said: Vec<Meant>,
}

impl Perform for Ear {
    fn print(&mut self, letter: char) {
        self.said.push(Meant::Letter(letter));
    }

    fn execute(&mut self, byte: u8) {
        self.said.push(Meant::Control(byte));
    }

    fn csi_dispatch(&mut self, params: &Params, intermediates: &[u8], ignore: bool, action: char) {
        if !ignore && intermediates.is_empty() {
            self.said.extend(meaning(params, action));
        }
    }
}

/// What a control sequence says: a key with or without a second number, which tells what was held down with it.
fn meaning(params: &Params, action: char) -> Option<Meant> {
    let mut numbers = params.iter();
    let first = match numbers.next() {
        None => 0,
        Some([number]) => *number,
        Some(_) => return None,
    };
    let plain = |number: &[u16]| number.len() == 1;
    if !(numbers.next().is_none_or(plain) && numbers.next().is_none()) {
        return None;
    }
    match (action, first) {
        ('~', 200) => Some(Meant::PasteBegins),
        ('~', number) => numbered(number).map(Meant::Key),
        ('Z', 0 | 1) => Some(Meant::Key(Key::BackTab)),
        // An old report of a mouse: button, column and row, each in one byte that might be any letter or figure.
        ('M', 0) if params.len() == 1 => Some(Meant::Follow(3)),
        // Function keys of a bare console: `[A` is the first of them.
        ('[', 0) => Some(Meant::Follow(1)),
        (letter, 0 | 1) => lettered(letter).map(Meant::Key),
        _ => None,
    }
}

const fn numbered(number: u16) -> Option<Key> {
    match number {
        1 | 7 => Some(Key::Home),
        3 => Some(Key::Delete),
        4 | 8 => Some(Key::End),
        5 => Some(Key::PageUp),
        6 => Some(Key::PageDown),
        _ => None,
    }
}

/// The key a letter stands for, after `ESC [` and after `ESC O`.
pub const fn lettered(letter: char) -> Option<Key> {
    match letter {
        'A' => Some(Key::Up),
        'B' => Some(Key::Down),
        'C' => Some(Key::Right),
        'D' => Some(Key::Left),
        'F' => Some(Key::End),
        'H' => Some(Key::Home),
        _ => None,
    }
}
