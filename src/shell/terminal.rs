//! The terminal as we borrow it and give it back: raw, on its other screen, with pastes marked as such.

use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::terminal::{
    self, BeginSynchronizedUpdate, EndSynchronizedUpdate, EnterAlternateScreen, LeaveAlternateScreen,
};
use crossterm::{cursor, execute, style};
use ratatui::backend::CrosstermBackend;
use ratatui::{Frame, Terminal};
use std::io::{self, Stdout, Write};
use std::sync::Once;
use std::{panic, thread};

/// XTWINOPS: the terminal keeps its title, and gives it back; one that has none ignores both.
const KEEP_TITLE: &str = "\x1b[22;2t";
const GIVE_TITLE_BACK: &str = "\x1b[23;2t";

/// The borrowed terminal. Dropping it gives the terminal back.
#[derive(Debug)]
pub struct Borrowed {
    terminal: Terminal<CrosstermBackend<Stdout>>,
}

impl Borrowed {
    /// Takes the terminal over; `broke` is told where the program breaks down before it is given back.
    pub fn take(broke: String) -> io::Result<Self> {
        // Under NO_COLOR crossterm 0.29 sends a full reset in place of a colour and so wipes out bold and reverse;
        // our theme leaves colours out by itself.
        style::force_color_output(true);
        give_back_on_panic(broke);
        enter()?;
        Ok(Self { terminal: Terminal::new(CrosstermBackend::new(io::stdout()))? })
    }

    /// Draws one frame, whole: a terminal that can waits until it is complete.
    pub fn draw(&mut self, draw: impl FnOnce(&mut Frame)) -> io::Result<()> {
        execute!(io::stdout(), BeginSynchronizedUpdate)?;
        let drawn = self.terminal.draw(draw).map(|_| ());
        execute!(io::stdout(), EndSynchronizedUpdate)?;
        drawn
    }

    /// Rings the bell.
    pub fn bell() -> io::Result<()> {
        let mut out = io::stdout();
        out.write_all(b"\x07")?;
        out.flush()
    }

    /// Puts a few words on the window's title, where the terminal has one. The title that was there comes back with the terminal.
    pub fn title(words: &str) -> io::Result<()> {
        execute!(io::stdout(), terminal::SetTitle(words))
    }

    /// Gives the terminal back, stops this process until the shell goes on with it, and takes the terminal again.
    #[cfg(unix)]
    pub fn step_aside(&mut self) -> io::Result<()> {
        give_back()?;
        // SIGTSTP is thrown away where no shell waits for us; SIGSTOP never is.
        signal_hook::low_level::raise(signal_hook::consts::SIGSTOP)?;
        enter()?;
        self.terminal.clear()
    }
}

impl Drop for Borrowed {
    fn drop(&mut self) {
        // Nothing can be done, and nobody told, if the terminal has gone.
        let _ = give_back();
    }
}

fn enter() -> io::Result<()> {
    terminal::enable_raw_mode()?;
    execute!(io::stdout(), EnterAlternateScreen, style::Print(KEEP_TITLE))?;
    // Old Windows consoles cannot mark pastes, and do not need to.
    let _ = execute!(io::stdout(), EnableBracketedPaste);
    Ok(())
}

/// Gives the terminal back as it was.
pub fn give_back() -> io::Result<()> {
    let _ = execute!(io::stdout(), DisableBracketedPaste);
    execute!(io::stdout(), style::Print(GIVE_TITLE_BACK), LeaveAlternateScreen, cursor::Show)?;
    terminal::disable_raw_mode()
}

fn give_back_on_panic(broke: String) {
    static ONCE: Once = Once::new();
    // Said beforehand: whatever broke, nothing has to be worked out any more.
    ONCE.call_once(move || {
        let screen = thread::current().id();
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |info| {
            // A fault in another thread must not tear down the screen this one draws on.
            if thread::current().id() == screen {
                let _ = give_back();
                before(info);
                let _ = writeln!(io::stderr(), "{broke}");
            }
        }));
    });
}
