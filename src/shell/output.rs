//! What goes to the terminal, written by a thread of its own and in order: a terminal that takes nothing holds up nothing else.

use super::input::Arrived;
use std::io;
use std::sync::mpsc::{Receiver, Sender, SyncSender, channel, sync_channel};
use std::thread;
use std::time::Duration;

/// The way to the thread that writes.
#[derive(Clone, Debug)]
pub struct Output {
    jobs: Sender<Job>,
}

struct Job {
    bytes: Vec<u8>,
    then: Then,
}

/// Who hears that it was written.
enum Then {
    /// The loop: it was a frame.
    Frame,
    /// Nobody.
    Nothing,
    /// Whoever waits for it.
    Answer(SyncSender<()>),
}

impl Output {
    /// Starts the thread; what is told of frames goes to `heard`.
    pub fn start(heard: SyncSender<Arrived>) -> io::Result<Self> {
        let (jobs, todo) = channel();
        thread::Builder::new().name("output".into()).spawn(move || write_all(&todo, &heard))?;
        Ok(Self { jobs })
    }

    /// Hands over a whole frame. Once it is written, [`Arrived::Written`] comes; until then, none should follow.
    pub fn frame(&self, bytes: Vec<u8>) {
        self.hand_over(bytes, Then::Frame);
    }

    /// Hands over something small.
    pub fn add(&self, bytes: &[u8]) {
        self.hand_over(bytes.to_vec(), Then::Nothing);
    }

    /// Hands over the last of something, and waits until all is written. Whether it was.
    pub fn finish(&self, bytes: &[u8], patience: Duration) -> bool {
        let (answer, written) = sync_channel(1);
        self.hand_over(bytes.to_vec(), Then::Answer(answer));
        written.recv_timeout(patience).is_ok()
    }

    fn hand_over(&self, bytes: Vec<u8>, then: Then) {
        // The thread has gone only where its terminal has.
        let _ = self.jobs.send(Job { bytes, then });
    }
}

fn write_all(todo: &Receiver<Job>, heard: &SyncSender<Arrived>) {
    for Job { bytes, then } in todo {
        // Where nobody draws any more nobody hears of it, either; what gives the terminal back still comes.
        match (put(&bytes), then) {
            (Ok(()), Then::Nothing) => {}
            (Ok(()), Then::Frame) => drop(heard.send(Arrived::Written)),
            (Ok(()), Then::Answer(answer)) => drop(answer.try_send(())),
            // Whoever waits for an answer learns it as this one goes.
            (Err(error), _) => drop(heard.send(Arrived::Failed(error))),
        }
    }
}

#[cfg(unix)]
fn put(mut bytes: &[u8]) -> io::Result<()> {
    use rustix::event::{PollFd, PollFlags, poll};
    use rustix::io::Errno;
    let stdout = io::stdout();
    while !bytes.is_empty() {
        match rustix::io::write(&stdout, bytes) {
            Ok(count) => bytes = bytes.get(count..).unwrap_or_default(),
            Err(Errno::INTR) => {}
            // Whoever shares the terminal with us may have told it not to wait.
            Err(Errno::AGAIN) => {
                let _ = poll(&mut [PollFd::new(&stdout, PollFlags::OUT)], None);
            }
            Err(error) => return Err(error.into()),
        }
    }
    Ok(())
}

#[cfg(not(unix))]
fn put(bytes: &[u8]) -> io::Result<()> {
    use std::io::Write;
    let mut out = io::stdout().lock();
    out.write_all(bytes)?;
    out.flush()
}
