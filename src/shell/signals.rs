//! Signals and a vanished terminal: whatever ends us, the terminal is given back and the exit code says why.

use super::output::Output;
use super::terminal;
use std::sync::Arc;
use std::sync::atomic::{AtomicI32, Ordering};
use std::time::Duration;
use std::{io, thread};

/// How long the loop has to end by itself: longer than it may wait for a slow disk.
const PATIENCE: Duration = Duration::from_secs(4);
/// How long the terminal may take after that.
const A_MOMENT: Duration = Duration::from_millis(200);

/// What asks us to end.
#[derive(Clone, Debug)]
pub struct Ending {
    /// The signal; 0 while none does.
    signal: Arc<AtomicI32>,
    /// By what way a borrowed terminal is given back; none where none is borrowed.
    borrowed: Option<Output>,
}

impl Ending {
    /// The signal, once one has come.
    pub fn signal(&self) -> Option<i32> {
        match self.signal.load(Ordering::Relaxed) {
            0 => None,
            signal => Some(signal),
        }
    }

    /// Starts to listen; a terminal that is borrowed is given back by way of this output.
    #[cfg(unix)]
    pub fn listen(borrowed: Option<Output>) -> io::Result<Self> {
        use signal_hook::consts::{SIGHUP, SIGINT, SIGQUIT, SIGTERM};
        let ending = Self { signal: Arc::default(), borrowed };
        let mut signals = signal_hook::iterator::Signals::new([SIGHUP, SIGINT, SIGTERM, SIGQUIT])?;
        let heard = ending.clone();
        thread::spawn(move || {
            if let Some(signal) = signals.forever().next() {
                heard.end(signal);
            }
        });
        // Lines that come from elsewhere just end.
        if ending.borrowed.is_some() {
            let watching = ending.clone();
            thread::spawn(move || {
                if terminal_is_gone() {
                    watching.end(SIGHUP);
                }
            });
        }
        Ok(ending)
    }

    /// Without signals there is nothing to listen to.
    #[cfg(not(unix))]
    pub fn listen(borrowed: Option<Output>) -> io::Result<Self> {
        Ok(Self { signal: Arc::default(), borrowed })
    }

    /// Asks the loop to end, and ends the process itself if the loop cannot.
    fn end(&self, signal: i32) {
        self.signal.store(signal, Ordering::Relaxed);
        thread::sleep(PATIENCE);
        if let Some(output) = &self.borrowed {
            terminal::give_back(output, A_MOMENT);
        }
        std::process::exit(128 + signal);
    }
}

/// Waits until the terminal hangs up, whatever else is being waited for.
#[cfg(unix)]
fn terminal_is_gone() -> bool {
    use rustix::event::{PollFd, PollFlags, poll};
    let stdin = io::stdin();
    loop {
        // Hang-up and error are reported even where no event is asked for.
        let mut watched = [PollFd::new(&stdin, PollFlags::empty())];
        match poll(&mut watched, None) {
            Ok(_) => {
                let gone = PollFlags::HUP | PollFlags::ERR;
                if watched.iter().any(|fd| fd.revents().intersects(gone)) {
                    return true;
                }
            }
            Err(rustix::io::Errno::INTR) => {}
            Err(_) => return false,
        }
    }
}
