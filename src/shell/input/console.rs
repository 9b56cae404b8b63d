//! The thread that hears where the terminal sends no bytes but events: crossterm's reader, behind the same door.

use super::{Arrived, Typed};
use crate::view::keys::Key;
use crossterm::event::{self, Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use std::panic::catch_unwind;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::SyncSender;
use std::time::Duration;
use std::{io, thread};

/// How soon it is noticed that nobody hears any more.
const BEAT: Duration = Duration::from_millis(100);

/// Dropping it ends the thread.
#[derive(Debug)]
pub struct Guard {
    over: Arc<AtomicBool>,
}

/// Starts the thread.
pub fn start(to: SyncSender<Arrived>) -> io::Result<Guard> {
    let over = Arc::new(AtomicBool::new(false));
    let ended = Arc::clone(&over);
    thread::Builder::new().name("input".into()).spawn(move || hear(&to, &ended))?;
    Ok(Guard { over })
}

impl Drop for Guard {
    fn drop(&mut self) {
        self.over.store(true, Ordering::Relaxed);
    }
}

fn hear(to: &SyncSender<Arrived>, over: &AtomicBool) {
    while !over.load(Ordering::Relaxed) {
        // What is typed must not deafen us: where the reader breaks down over an event, that one is lost.
        let heard = match catch_unwind(next) {
            Ok(Ok(event)) => event.as_ref().and_then(translate),
            Ok(Err(error)) => Some(Arrived::Failed(error)),
            Err(_) => None,
        };
        if heard.is_some_and(|heard| to.send(heard).is_err()) {
            return;
        }
    }
}

fn next() -> io::Result<Option<Event>> {
    if event::poll(BEAT)? { event::read().map(Some) } else { Ok(None) }
}

fn translate(event: &Event) -> Option<Arrived> {
    match event {
        Event::Key(key) => key_of(*key).map(Arrived::Typed),
        Event::Paste(text) => Some(Arrived::Typed(Typed::Paste(text.clone()))),
        Event::Resize(..) => Some(Arrived::Resized),
        Event::FocusGained | Event::FocusLost | Event::Mouse(_) => None,
    }
}

/// The key that was pressed, if it is one we know. Releases and repeats of the same press are no presses.
fn key_of(event: KeyEvent) -> Option<Typed> {
    if event.kind != KeyEventKind::Press {
        return None;
    }
    let (control, alt) = (KeyModifiers::CONTROL, KeyModifiers::ALT);
    let key = match event.code {
        KeyCode::Char('l' | 'L') if event.modifiers.contains(control) => return Some(Typed::Redraw),
        KeyCode::Char(c) if event.modifiers.contains(control) => Key::Control(c.to_ascii_lowercase()),
        KeyCode::Char(_) if event.modifiers.contains(alt) => return None,
        KeyCode::Char(c) => Key::Char(c),
        KeyCode::Enter => Key::Enter,
        KeyCode::Backspace => Key::Backspace,
        KeyCode::Esc => Key::Escape,
        KeyCode::Up => Key::Up,
        KeyCode::Down => Key::Down,
        KeyCode::Left => Key::Left,
        KeyCode::Right => Key::Right,
        KeyCode::PageUp => Key::PageUp,
        KeyCode::PageDown => Key::PageDown,
        KeyCode::Home => Key::Home,
        KeyCode::End => Key::End,
        KeyCode::Delete => Key::Delete,
        KeyCode::Tab => Key::Tab,
        KeyCode::BackTab => Key::BackTab,
        _ => return None,
    };
    Some(Typed::Key(key))
}
