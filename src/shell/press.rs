//! From the terminal's keys to ours, at the door: nothing further in knows the terminal's.

use crate::view::keys::Key;
use crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

/// The key that was pressed, if it is one we know. Releases and repeats of the same press are no presses.
pub fn key(event: KeyEvent) -> Option<Key> {
    if event.kind != KeyEventKind::Press {
        return None;
    }
    match event.code {
        KeyCode::Char(c) if event.modifiers.contains(KeyModifiers::CONTROL) => {
            Some(Key::Control(c.to_ascii_lowercase()))
        }
        KeyCode::Char(_) if event.modifiers.contains(KeyModifiers::ALT) => None,
        KeyCode::Char(c) => Some(Key::Char(c)),
        KeyCode::Enter => Some(Key::Enter),
        KeyCode::Backspace => Some(Key::Backspace),
        KeyCode::Esc => Some(Key::Escape),
        KeyCode::Up => Some(Key::Up),
        KeyCode::Down => Some(Key::Down),
        KeyCode::Left => Some(Key::Left),
        KeyCode::Right => Some(Key::Right),
        KeyCode::PageUp => Some(Key::PageUp),
        KeyCode::PageDown => Some(Key::PageDown),
        _ => None,
    }
}
