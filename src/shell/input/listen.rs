//! The thread that hears: bytes of the terminal, a change of its size, and that we go on after a stop.

use super::Arrived;
use super::parse::Parser;
use rustix::event::{PollFd, PollFlags, Timespec, poll};
use rustix::io::Errno;
use signal_hook::consts::{SIGCONT, SIGWINCH};
use signal_hook::low_level::pipe;
use std::io::{self, Read, Stdin};
use std::os::unix::net::UnixStream;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{SendError, SyncSender};
use std::thread;
use std::time::{Duration, Instant};

/// How much is read at once.
const AT_ONCE: usize = 4_096;
/// How long to leave a terminal alone that says it has something and has nothing.
const NOTHING: Duration = Duration::from_millis(100);

/// The thread is told when this end is gone.
pub type Guard = UnixStream;

/// Nobody takes anything any more.
struct Over;

impl From<SendError<Arrived>> for Over {
    fn from(_: SendError<Arrived>) -> Self {
        Self
    }
}

struct Ears {
    stdin: Stdin,
    resized: UnixStream,
    continued: UnixStream,
    held: UnixStream,
    to: SyncSender<Arrived>,
}

/// Starts the thread.
pub fn start(to: SyncSender<Arrived>) -> io::Result<Guard> {
    let (guard, held) = UnixStream::pair()?;
    let ears = Ears { stdin: io::stdin(), resized: signalled(SIGWINCH)?, continued: signalled(SIGCONT)?, held, to };
    thread::Builder::new().name("input".into()).spawn(move || drop(ears.hear()))?;
    Ok(guard)
}

/// A stream that has a byte to read whenever a signal came.
fn signalled(signal: i32) -> io::Result<UnixStream> {
    let (ours, theirs) = UnixStream::pair()?;
    ours.set_nonblocking(true)?;
    theirs.set_nonblocking(true)?;
    pipe::register(signal, theirs)?;
    Ok(ours)
}

impl Ears {
    fn hear(mut self) -> Result<(), Over> {
        let mut parser = Parser::default();
        let mut last = Instant::now();
        loop {
            let wait = parser.patience().map(|patience| patience.saturating_sub(last.elapsed()));
            let [typed, resized, continued, held] = match self.wait(wait) {
                Ok(Some(ready)) => ready,
                Ok(None) => {
                    // Only now: whatever came in time has been read, however late we are.
                    parser.silence(last.elapsed());
                    self.tell(&mut parser)?;
                    continue;
                }
                Err(error) => return Ok(self.to.send(Arrived::Failed(error))?),
            };
            if resized.contains(PollFlags::IN) {
                drain(&mut self.resized);
                self.to.send(Arrived::Resized)?;
            }
            if continued.contains(PollFlags::IN) {
                drain(&mut self.continued);
                self.to.send(Arrived::Continued)?;
            }
            if !held.is_empty() {
                return Ok(());
            }
            if typed.intersects(PollFlags::HUP | PollFlags::ERR | PollFlags::NVAL) {
                // The terminal is gone. Whoever listens for signals has seen it, too, and ends us.
                return Ok(());
            }
            if typed.contains(PollFlags::IN) {
                self.read(&mut parser)?;
                last = Instant::now();
            }
        }
    }

    /// Waits until there is something to hear, and from whom: the terminal, a new size, a stop that is over, our own end. Nothing,
    /// where the time is up first.
    fn wait(&self, most: Option<Duration>) -> io::Result<Option<[PollFlags; 4]>> {
        let most = most.and_then(|most| Timespec::try_from(most).ok());
        let mut watched = [
            PollFd::new(&self.stdin, PollFlags::IN),
            PollFd::new(&self.resized, PollFlags::IN),
            PollFd::new(&self.continued, PollFlags::IN),
            PollFd::new(&self.held, PollFlags::IN),
        ];
        match poll(&mut watched, most.as_ref()) {
            Ok(0) => Ok(None),
            // After a signal that concerns another thread nothing is ready, and the time is not up.
            Ok(_) | Err(Errno::INTR) => Ok(Some(watched.map(|fd| fd.revents()))),
            Err(error) => Err(error.into()),
        }
    }

    fn read(&self, parser: &mut Parser) -> Result<(), Over> {
        let mut bytes = [0; AT_ONCE];
        match rustix::io::read(&self.stdin, &mut bytes) {
            Ok(0) => thread::sleep(NOTHING),
            Ok(count) => {
                let bytes = bytes.get(..count).unwrap_or_default();
                // What is typed must not deafen us, whatever it is.
                if catch_unwind(AssertUnwindSafe(|| parser.bytes(bytes))).is_err() {
                    *parser = Parser::default();
                }
                self.tell(parser)?;
            }
            Err(Errno::INTR | Errno::AGAIN) => {}
            Err(error) => self.to.send(Arrived::Failed(error.into()))?,
        }
        Ok(())
    }

    fn tell(&self, parser: &mut Parser) -> Result<(), Over> {
        for typed in parser.take() {
            self.to.send(Arrived::Typed(typed))?;
        }
        Ok(())
    }
}

/// However often a signal came, it is told once.
fn drain(stream: &mut UnixStream) {
    let mut bytes = [0; 64];
    while matches!(stream.read(&mut bytes), Ok(1..)) {}
}
