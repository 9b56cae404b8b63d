//! The clerk keeps events in the ledger on a thread of its own, so that a slow or failing disk never holds back a screen.

use crate::ledger::{Case, CaseId, Event, Ledger, LedgerError, Mark};
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
    /// Another window went on with the bird; from here on this one is kept as a case of its own.
    Parted,
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
        let thread = thread::spawn(move || Desk { parted: None, folder, ledger: None, mark, inbox, outbox }.work());
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
    /// The case that events are handed over for, and the one they go to since another window went on with it.
    parted: Option<(CaseId, CaseId)>,
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
            let report = match self.keep(event) {
                Ok(()) => Report::Kept(Utc::now()),
                Err(error) => {
                    // A connection that failed once is not trusted again.
                    self.ledger = None;
                    let _ = self.outbox.send(Report::NotKept(error.to_string()));
                    return true;
                }
            };
            let _ = self.outbox.send(report);
            waiting.pop_front();
        }
        false
    }

    fn keep(&mut self, event: &Event) -> Result<(), LedgerError> {
        let mut event = event.clone();
        if let Some((from, to)) = &self.parted
            && *from == event.case
        {
            event.case = to.clone();
        }
        let (ledger, mark) = self.ledger()?;
        match ledger.append(&event, mark) {
            Err(LedgerError::Clash) => {
                let own = ledger.fork(&event.case, event.seq)?;
                let kept = ledger.append(&Event { case: own.clone(), ..event.clone() }, mark);
                self.parted = Some((event.case, own));
                let _ = self.outbox.send(Report::Parted);
                kept
            }
            other => other,
        }
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
