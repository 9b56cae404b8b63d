//! What comes from the terminal: keys, pastes and sizes, heard by a thread of its own, so that nothing that is typed, or half
//! typed, holds back a frame, a clock or a signal.
//!
//! ```text
//!  bytes ──► parse ──► Typed ─┐
//!  SIGWINCH, SIGCONT ─────────┼──► one bounded line ──► the loop
//!  a frame is on the screen ──┘
//! ```
//!
//! All of it waits in one line, in the order in which it came: what stands in it before [`Arrived::Written`] came before that frame
//! was on the screen.

#[cfg(not(unix))]
mod console;
pub mod lines;
#[cfg(unix)]
mod listen;
#[cfg(unix)]
pub mod parse;
#[cfg(unix)]
mod sequence;

use crate::view::keys::Key;
#[cfg(not(unix))]
use console::{Guard, start};
#[cfg(unix)]
use listen::{Guard, start};
use std::io;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};

/// What was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Typed {
    /// A key.
    Key(Key),
    /// A text that was not typed key by key; a long one comes in pieces.
    Paste(String),
    /// Control with l: draw everything again.
    Redraw,
}

/// What comes from the terminal.
#[derive(Debug)]
pub enum Arrived {
    /// Something was typed.
    Typed(Typed),
    /// A whole line, where lines are typed.
    Line(String),
    /// No line comes any more.
    End,
    /// The screen has another size.
    Resized,
    /// We were stopped, and go on: whoever had the terminal meanwhile may have left it otherwise.
    Continued,
    /// The frame that was handed over last is on the screen.
    Written,
    /// The terminal can be read, or written to, no more.
    Failed(io::Error),
}

/// How much may wait to be taken. What is typed beyond that waits in the terminal.
const WAITING: usize = 256;

/// The line in which it waits.
pub fn line() -> (SyncSender<Arrived>, Receiver<Arrived>) {
    sync_channel(WAITING)
}

/// A terminal that is being heard. Dropping it ends that: what is typed then is for whoever comes after us.
#[derive(Debug)]
pub struct Inputs {
    _guard: Guard,
}

impl Inputs {
    /// Starts to hear.
    pub fn start(to: SyncSender<Arrived>) -> io::Result<Self> {
        Ok(Self { _guard: start(to)? })
    }
}
