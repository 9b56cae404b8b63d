//! The terminal as we borrow it and give it back: raw, on its other screen, with pastes marked as such.

use super::gathered::Gathered;
use super::output::Output;
use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::terminal::{
    self, BeginSynchronizedUpdate, EndSynchronizedUpdate, EnterAlternateScreen, LeaveAlternateScreen,
};
use crossterm::{Command, cursor, queue, style};
use ratatui::{Frame, Terminal};
use std::io::{self, Write};
use std::sync::Once;
use std::time::Duration;
use std::{panic, thread};

/// How long a terminal that takes nothing may hold up leaving.
pub const PATIENCE: Duration = Duration::from_secs(2);

/// XTWINOPS: the terminal keeps its title, and gives it back; one that has none ignores both.
const KEEP_TITLE: &str = "\x1b[22;2t";
const GIVE_TITLE_BACK: &str = "\x1b[23;2t";

/// The borrowed terminal. Dropping it gives the terminal back.
#[derive(Debug)]
pub struct Borrowed {
    terminal: Terminal<Gathered>,
    output: Output,
    given_back: bool,
    /// We stepped aside ourselves, and have taken the terminal again already.
    stepped_aside: bool,
}

impl Borrowed {
    /// Takes the terminal over; `broke` is told where the program breaks down before it is given back.
    pub fn take(output: Output, broke: String) -> io::Result<Self> {
        // Under NO_COLOR crossterm 0.29 sends a full reset in place of a colour and so wipes out bold and reverse;
        // our theme leaves colours out by itself.
        style::force_color_output(true);
        give_back_on_panic(output.clone(), broke);
        let terminal = Terminal::new(Gathered::default())?;
        terminal::enable_raw_mode()?;
        let borrowed = Self { terminal, output, given_back: false, stepped_aside: false };
        borrowed.output.add(&bytes(style::Print(KEEP_TITLE)));
        borrowed.enter();
        Ok(borrowed)
    }

    /// Hands one frame over to be written, whole: a terminal that can waits until it is complete. Nothing waits here.
    pub fn draw(&mut self, draw: impl FnOnce(&mut Frame)) -> io::Result<()> {
        self.terminal.draw(draw)?;
        let mut frame = bytes(BeginSynchronizedUpdate);
        frame.extend(self.terminal.backend_mut().take());
        frame.extend(bytes(EndSynchronizedUpdate));
        self.output.frame(frame);
        Ok(())
    }

    /// The next frame draws everything again.
    pub fn forget(&mut self) -> io::Result<()> {
        self.terminal.clear()
    }

    /// Rings the bell.
    pub fn bell(&self) {
        self.output.add(b"\x07");
    }

    /// Puts a few words on the window's title, where the terminal has one. The title that was there comes back with the terminal.
    pub fn title(&self, words: &str) {
        self.output.add(&bytes(terminal::SetTitle(words)));
    }

    /// Gives the terminal back, stops this process until the shell goes on with it, and takes the terminal again.
    #[cfg(unix)]
    pub fn step_aside(&mut self) -> io::Result<()> {
        give_back(&self.output, PATIENCE);
        // SIGTSTP is thrown away where no shell waits for us; SIGSTOP never is.
        signal_hook::low_level::raise(signal_hook::consts::SIGSTOP)?;
        terminal::enable_raw_mode()?;
        self.output.add(&bytes(style::Print(KEEP_TITLE)));
        self.enter();
        self.stepped_aside = true;
        self.forget()
    }

    /// Takes the terminal again after a stop that was not ours: whoever had it meanwhile may have set it otherwise.
    pub fn take_again(&mut self) -> io::Result<()> {
        if std::mem::take(&mut self.stepped_aside) {
            return Ok(());
        }
        terminal::disable_raw_mode()?;
        terminal::enable_raw_mode()?;
        self.enter();
        self.forget()
    }

    /// Gives the terminal back. Whether it took all that was written.
    pub fn leave(mut self, patience: Duration) -> bool {
        self.given_back = true;
        give_back(&self.output, patience)
    }

    fn enter(&self) {
        self.output.add(&bytes(EnterAlternateScreen));
        // Old Windows consoles cannot mark pastes, and do not need to.
        self.output.add(&bytes(EnableBracketedPaste));
    }
}

impl Drop for Borrowed {
    fn drop(&mut self) {
        if !self.given_back {
            give_back(&self.output, PATIENCE);
        }
    }
}

/// What a command sends.
fn bytes(command: impl Command) -> Vec<u8> {
    let mut bytes = Vec::new();
    // Memory takes all of it; a console that has no such command goes without.
    let _ = queue!(bytes, command);
    bytes
}

/// Gives the terminal back as it was, after whatever is still to be written. Whether it took all of that.
pub fn give_back(output: &Output, patience: Duration) -> bool {
    let mut last = bytes(DisableBracketedPaste);
    last.extend(bytes(style::Print(GIVE_TITLE_BACK)));
    last.extend(bytes(LeaveAlternateScreen));
    last.extend(bytes(cursor::Show));
    let written = output.finish(&last, patience);
    // Nothing can be done, and nobody told, if the terminal has gone.
    let _ = terminal::disable_raw_mode();
    written
}

fn give_back_on_panic(output: Output, broke: String) {
    static ONCE: Once = Once::new();
    // Meant beforehand: whatever broke, nothing has to be worked out any more.
    ONCE.call_once(move || {
        let screen = thread::current().id();
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |info| {
            // A fault in another thread must not tear down the screen this one draws on.
            if thread::current().id() == screen {
                give_back(&output, PATIENCE);
                before(info);
                let _ = writeln!(io::stderr(), "{broke}");
            }
        }));
    });
}
