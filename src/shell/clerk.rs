//! The clerk keeps events in the ledger on a thread of its own, so that a slow or failing disk never holds back a screen.

use crate::finding::Id;
use crate::ledger::{Case, CaseId, Event, Ledger, LedgerError, Mark};
use chrono::{DateTime, Utc};
use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// How long to wait before a disk that refused is tried again.
const AGAIN: Duration = Duration::from_secs(2);

/// What is handed to the clerk.
#[derive(Debug)]
enum Task {
    /// Keep an event.
    Keep(Event),
    /// Keep the country.
    Country(Id),
    /// Keep what is in the house.
    Cupboard(String),
}

/// What the clerk reports.
#[derive(Debug)]
pub enum Report {
    /// The country that was set, found when the ledger was opened.
    Country(Id),
    /// What was in the house, found when the ledger was opened.
    Cupboard(String),
    /// The disk takes again what it refused.
    Recovered,
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
        let thread = thread::spawn(move || {
            Desk { parted: None, country: None, cupboard: None, folder, ledger: None, mark, inbox, outbox }.work()
        });
        Self { tasks, reports, thread }
    }

    /// Hands over an event.
    pub fn keep(&self, event: Event) {
        // The clerk works until we hang up; if its thread has died, its last report stands on screen.
        let _ = self.tasks.send(Task::Keep(event));
    }

    /// Hands over the country.
    pub fn set_country(&self, id: Id) {
        let _ = self.tasks.send(Task::Country(id));
    }

    /// Hands over what is in the house.
    pub fn set_cupboard(&self, written: String) {
        let _ = self.tasks.send(Task::Cupboard(written));
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
    /// The country that waits to be kept; only the last one counts.
    country: Option<Id>,
    /// What is in the house, while it waits to be kept.
    cupboard: Option<String>,
    folder: PathBuf,
    ledger: Option<Ledger>,
    mark: Mark,
    inbox: Receiver<Task>,
    outbox: Sender<Report>,
}

impl Desk {
    /// Works until nobody hands over any more; returns how many events (and settings, if they wait) are left over.
    fn work(mut self) -> usize {
        self.look_for_what_was_left();
        let mut waiting: VecDeque<Event> = VecDeque::new();
        loop {
            // What was said of the bird first, the settings after it.
            let refused = self.keep_all(&mut waiting) || self.keep_settings();
            let left = waiting.len() + usize::from(self.country.is_some()) + usize::from(self.cupboard.is_some());
            let next = if left == 0 {
                self.inbox.recv().map_err(|_| RecvTimeoutError::Disconnected)
            } else {
                self.inbox.recv_timeout(AGAIN)
            };
            match next {
                Ok(task) => self.take(task, &mut waiting),
                // Hung up, and nothing more can be done: either all is kept or the disk still refuses.
                Err(RecvTimeoutError::Disconnected) if left == 0 || refused => return left,
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => {}
            }
            while let Ok(task) = self.inbox.try_recv() {
                self.take(task, &mut waiting);
            }
        }
    }

    fn take(&mut self, task: Task, waiting: &mut VecDeque<Event>) {
        match task {
            Task::Keep(event) => waiting.push_back(event),
            Task::Country(id) => self.country = Some(id),
            Task::Cupboard(written) => self.cupboard = Some(written),
        }
    }

    fn look_for_what_was_left(&mut self) {
        let found = self.ledger().and_then(|(ledger, _)| Ok((ledger.country()?, ledger.cupboard()?, ledger.latest()?)));
        let reports = match found {
            Ok((country, cupboard, latest)) => {
                let settings = country.map(Report::Country).into_iter().chain(cupboard.map(Report::Cupboard));
                settings.chain(latest.map(Report::Left)).collect()
            }
            Err(error) => vec![Report::NotKept(error.to_string())],
        };
        for report in reports {
            self.tell(report);
        }
    }

    /// Nobody listens any more only when the program is ending.
    fn tell(&self, report: Report) {
        let _ = self.outbox.send(report);
    }

    /// Keeps what waits, in order; stops at the first refusal and says so.
    fn keep_all(&mut self, waiting: &mut VecDeque<Event>) -> bool {
        while let Some(event) = waiting.front() {
            if let Err(error) = self.keep(event) {
                self.refused(&error);
                return true;
            }
            self.tell(Report::Kept(Utc::now()));
            waiting.pop_front();
        }
        false
    }

    /// Keeps the settings that wait, if any do; says so if the disk refuses.
    fn keep_settings(&mut self) -> bool {
        let (country, cupboard) = (self.country.clone(), self.cupboard.clone());
        if country.is_none() && cupboard.is_none() {
            return false;
        }
        let kept = self.ledger().and_then(|(ledger, _)| {
            country.iter().try_for_each(|id| ledger.set_country(id))?;
            cupboard.iter().try_for_each(|written| ledger.set_cupboard(written))
        });
        match kept {
            Ok(()) => {
                (self.country, self.cupboard) = (None, None);
                self.tell(Report::Recovered);
                false
            }
            Err(error) => {
                self.refused(&error);
                true
            }
        }
    }

    /// A connection that failed once is not trusted again.
    fn refused(&mut self, error: &LedgerError) {
        self.ledger = None;
        self.tell(Report::NotKept(error.to_string()));
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
