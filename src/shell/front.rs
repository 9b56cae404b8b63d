//! Where a sitting shows: on the whole screen, or line by line.

use super::output::Output;
use super::terminal::Borrowed;
use crate::screen::{self, Theme};
use crate::session::{Extent, Session};
use crate::spoken::{self, Teller};
use crate::view::View;
use std::io;
use std::sync::mpsc::Sender;
use std::time::Duration;

/// Where it shows.
#[derive(Debug)]
pub enum Front {
    /// On the whole screen.
    Screen(Borrowed, Theme),
    /// Line by line.
    Lines(LineByLine),
}

/// Lines that are only ever added to.
#[derive(Debug)]
pub struct LineByLine {
    output: Output,
    teller: Teller,
    /// Said with the next screen: a bell, what another bird's clock rings.
    first: Vec<String>,
    /// Where lines come from a file or a program, the next one is read once the answer to the last is told.
    permits: Option<Sender<()>>,
    owed: bool,
}

impl LineByLine {
    /// Begins; nothing is said yet.
    pub fn new(output: Output, permits: Option<Sender<()>>, begins: String) -> Self {
        Self { output, teller: Teller::default(), first: vec![begins], permits, owed: true }
    }

    /// Says what is new.
    fn tell(&mut self, view: &View, is_other: bool) -> Extent {
        let (lines, extent) = self.teller.tell(view, is_other);
        let lines = std::mem::take(&mut self.first).into_iter().chain(lines);
        self.output.frame(lines.map(|line| line + "\n").collect::<String>().into_bytes());
        extent
    }

    /// Says all of the screen once more.
    pub fn again(&mut self, session: &Session) {
        self.first = self.teller.again(session.reader());
    }

    /// Says the time left.
    pub fn clocks(&mut self, session: &Session) {
        self.first = spoken::clocks(&View::of(session));
    }
}

impl Front {
    /// Shows how things stand; what showing it came to. `is_other` where keys stand for something else than before.
    pub fn show(&mut self, session: &Session, is_other: bool) -> io::Result<Extent> {
        let view = View::of(session);
        match self {
            Self::Screen(terminal, theme) => {
                let mut extent = session.extent;
                terminal.draw(|frame| extent = screen::draw(&view, *theme, frame))?;
                Ok(extent)
            }
            Self::Lines(lines) => Ok(lines.tell(&view, is_other)),
        }
    }

    /// What was shown has come.
    pub fn has_come(&mut self) {
        let Self::Lines(LineByLine { permits: Some(permits), owed, .. }) = self else { return };
        if std::mem::take(owed) {
            // Whoever read the lines has gone only where they have ended.
            let _ = permits.send(());
        }
    }

    /// A line was taken: the next one may come once the answer has.
    pub const fn owes(&mut self) {
        if let Self::Lines(lines) = self {
            lines.owed = true;
        }
    }

    /// Whether what comes next may have been typed before what shows was there. What a file or a program writes cannot.
    pub const fn may_be_early(&self) -> bool {
        !matches!(self, Self::Lines(LineByLine { permits: Some(_), .. }))
    }

    /// The next time all of it is drawn again; nothing of what was said is.
    pub fn forget(&mut self) -> io::Result<()> {
        match self {
            Self::Screen(terminal, _) => terminal.forget(),
            Self::Lines(_) => Ok(()),
        }
    }

    /// Takes the terminal again after a stop that was not ours.
    pub fn take_again(&mut self) -> io::Result<()> {
        match self {
            Self::Screen(terminal, _) => terminal.take_again(),
            Self::Lines(_) => Ok(()),
        }
    }

    /// Rings.
    pub fn bell(&mut self) {
        match self {
            Self::Screen(terminal, _) => terminal.bell(),
            Self::Lines(lines) => lines.output.add(b"\x07"),
        }
    }

    /// Puts a few words where they are seen whatever shows.
    pub fn title(&mut self, words: String) {
        match self {
            Self::Screen(terminal, _) => terminal.title(&words),
            Self::Lines(lines) => lines.first.push(words),
        }
    }

    /// Steps aside for the shell. Where lines are said, the terminal's own keys do so.
    #[cfg(unix)]
    pub fn step_aside(&mut self) -> io::Result<()> {
        match self {
            Self::Screen(terminal, _) => terminal.step_aside(),
            Self::Lines(_) => Ok(()),
        }
    }

    /// Ends. Whether all that was shown has come.
    pub fn leave(self, patience: Duration) -> bool {
        match self {
            Self::Screen(terminal, _) => terminal.leave(patience),
            Self::Lines(lines) => lines.output.finish(&[], patience),
        }
    }
}
