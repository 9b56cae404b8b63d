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

/// The setting that tells the country.
const COUNTRY: &str = "country";

/// What is handed to the clerk.
#[derive(Debug)]
enum Task {
    /// Keep an event.
    Keep(Event),
    /// Keep the country.
    Country(String),
}

/// What the clerk reports.
#[derive(Debug)]
pub enum Report {
    /// The country that was set, found when the ledger was opened.
    Country(String),
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
    tasks: Sender<Task>,
    /// What the clerk reports.
    pub reports: Receiver<Report>,
    thread: JoinHandle<usize>,
}

impl Clerk {
    /// Puts a clerk to work on the ledger in a folder. Even opening it happens there: a disk that hangs holds back nothing.
    pub fn hire(folder: PathBuf, mark: Mark) -> Self {
        let (tasks, inbox) = mpsc::channel();
        let (outbox, reports) = mpsc::channel();
        let thread = thread::spawn(move || Desk { parted: None, folder, ledger: None, mark, inbox, outbox }.work());
        Self { tasks, reports, thread }
    }

    /// Hands over an event.
    pub fn keep(&self, event: Event) {
        // The clerk works until we hang up; if its thread has died, its last report stands on screen.
        let _ = self.tasks.send(Task::Keep(event));
    }

    /// Hands over the country.
    pub fn set_country(&self, id: String) {
        let _ = self.tasks.send(Task::Country(id));
    }

    /// Lets the clerk finish, for at most this long, and returns how many events could not be kept.
    pub fn dismiss(self, patience: Duration, waiting: usize) -> usize {
        drop(self.tasks);
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
    inbox: Receiver<Task>,
    outbox: Sender<Report>,
}

impl Desk {
    /// Works until nobody hands over any more; returns how many events are left over.
    fn work(mut self) -> usize {
        self.look_for_what_was_left();
        let mut waiting: VecDeque<Task> = VecDeque::new();
        loop {
            let refused = self.keep_all(&mut waiting);
            let next = if waiting.is_empty() {
                self.inbox.recv().map_err(|_| RecvTimeoutError::Disconnected)
            } else {
                self.inbox.recv_timeout(AGAIN)
            };
            match next {
                Ok(task) => waiting.push_back(task),
                // Hung up, and nothing more can be done: either all is kept or the disk still refuses.
                Err(RecvTimeoutError::Disconnected) if waiting.is_empty() || refused => return events(&waiting),
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => {}
            }
            waiting.extend(self.inbox.try_iter());
        }
    }

    fn look_for_what_was_left(&mut self) {
        let country = self.ledger().and_then(|(ledger, _)| ledger.setting(COUNTRY));
        if let Ok(Some(country)) = country {
            let _ = self.outbox.send(Report::Country(country));
        }
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
    fn keep_all(&mut self, waiting: &mut VecDeque<Task>) -> bool {
        while let Some(task) = waiting.front() {
            let done = match task {
                Task::Keep(event) => self.keep(event).map(|()| Some(Report::Kept(Utc::now()))),
                Task::Country(id) => self.ledger().and_then(|(ledger, _)| ledger.set(COUNTRY, id)).map(|()| None),
            };
            let report = match done {
                Ok(report) => report,
                Err(error) => {
                    // A connection that failed once is not trusted again.
                    self.ledger = None;
                    let _ = self.outbox.send(Report::NotKept(error.to_string()));
                    return true;
                }
            };
            if let Some(report) = report {
                let _ = self.outbox.send(report);
            }
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

/// How many events are among the tasks.
fn events(tasks: &VecDeque<Task>) -> usize {
    tasks.iter().filter(|task| matches!(task, Task::Keep(_))).count()
}
