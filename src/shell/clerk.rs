//! The clerk keeps events in the ledger on a thread of its own, so that a slow or failing disk never holds back a screen.

use crate::ledger::{Case, Event, Ledger, LedgerError, Mark};
use chrono::{DateTime, Utc};
use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// How long to wait before a disk that refused is tried again.
const AGAIN: Duration = Duration::from_secs(2);

/// What the clerk reports.
#[derive(Debug)]
pub enum Report {
    /// The case that was written last, found when the ledger was opened.
    Left(Case),
    /// One event is on disk.
    Kept(DateTime<Utc>),
    /// The disk refuses; the events wait.
    NotKept(String),
}

/// The clerk's desk, seen from outside.
#[derive(Debug)]
pub struct Clerk {
    events: Sender<Event>,
    /// What the clerk reports.
    pub reports: Receiver<Report>,
    thread: JoinHandle<usize>,
}

impl Clerk {
    /// Puts a clerk to work on the ledger in a folder. Even opening it happens there: a disk that hangs holds back nothing.
    pub fn hire(folder: PathBuf, mark: Mark) -> Self {
        let (events, inbox) = mpsc::channel();
        let (outbox, reports) = mpsc::channel();
        let thread = thread::spawn(move || Desk { folder, ledger: None, mark, inbox, outbox }.work());
        Self { events, reports, thread }
    }

    /// Hands over an event.
    pub fn keep(&self, event: Event) {
        // The clerk works until we hang up; if its thread has died, its last report stands on screen.
        let _ = self.events.send(event);
    }

    /// Lets the clerk finish, for at most this long, and returns how many events could not be kept.
    pub fn dismiss(self, patience: Duration, waiting: usize) -> usize {
        drop(self.events);
        let deadline = Instant::now() + patience;
        while !self.thread.is_finished() && Instant::now() < deadline {
            thread::sleep(Duration::from_millis(5));
        }
        if self.thread.is_finished() { self.thread.join().unwrap_or(waiting) } else { waiting }
    }
}

struct Desk {
    folder: PathBuf,
    ledger: Option<Ledger>,
    mark: Mark,
    inbox: Receiver<Event>,
    outbox: Sender<Report>,
}

impl Desk {
    /// Works until nobody hands over any more; returns how many events are left over.
    fn work(mut self) -> usize {
        self.look_for_what_was_left();
        let mut waiting: VecDeque<Event> = VecDeque::new();
        loop {
            let refused = self.keep_all(&mut waiting);
            let next = if waiting.is_empty() {
                self.inbox.recv().map_err(|_| RecvTimeoutError::Disconnected)
            } else {
                self.inbox.recv_timeout(AGAIN)
            };
            match next {
                Ok(event) => waiting.push_back(event),
                // Hung up, and nothing more can be done: either all is kept or the disk still refuses.
                Err(RecvTimeoutError::Disconnected) if waiting.is_empty() || refused => return waiting.len(),
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => {}
            }
            waiting.extend(self.inbox.try_iter());
        }
    }

    fn look_for_what_was_left(&mut self) {
        let latest = self.ledger().and_then(|(ledger, _)| ledger.latest());
        let report = match latest {
            Ok(None) => return,
            Ok(Some(case)) => Report::Left(case),
            Err(error) => Report::NotKept(error.to_string()),
        };
        // Nobody listens any more only when the program is ending.
        let _ = self.outbox.send(report);
    }

    /// Keeps what waits, in order; stops at the first refusal and says so.
    fn keep_all(&mut self, waiting: &mut VecDeque<Event>) -> bool {
        while let Some(event) = waiting.front() {
            let kept = self.ledger().and_then(|(ledger, mark)| ledger.append(event, mark));
            let report = match &kept {
                Ok(()) => Report::Kept(Utc::now()),
                Err(error) => Report::NotKept(error.to_string()),
            };
            let _ = self.outbox.send(report);
            if kept.is_err() {
                // A connection that failed once is not trusted again.
                self.ledger = None;
                return true;
            }
            waiting.pop_front();
        }
        false
    }

    fn ledger(&mut self) -> Result<(&mut Ledger, &Mark), LedgerError> {
        if self.ledger.is_none() {
            self.ledger = Some(Ledger::open(&self.folder)?);
        }
        match &mut self.ledger {
            Some(ledger) => Ok((ledger, &self.mark)),
            None => Err(LedgerError::Disk("the ledger is not open".into())),
        }
    }
}
