//! The clerk keeps events in the ledger on a thread of its own, so that a slow or failing disk never holds back a screen.

use super::covers;
use crate::days::due::Waiting;
use crate::ledger::{Case, CaseId, Cover, Covered, Event, Filter, Ledger, LedgerError, Mark, Setting};
use crate::protocol::Protocol;
use crate::screen::Change;
use chrono::{DateTime, Utc};
use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// How long to wait before a disk that refused is tried again.
const AGAIN: Duration = Duration::from_secs(2);

/// How many cases a list holds.
const MOST: usize = 100;

/// What is handed to the clerk.
#[derive(Debug)]
enum Task {
    /// Keep an event, and the cover it leaves the case with.
    Keep(Event, Cover),
    /// Keep a change of a setting.
    Change(Change),
    /// List cases.
    List(Filter),
    /// Load a case, to go on with it.
    Open(CaseId),
}

/// What the clerk reports.
#[derive(Debug)]
pub enum Report {
    /// A setting, found when the ledger was opened.
    Set(Setting, String),
    /// A change of a setting is on disk.
    Changed(Change),
    /// The disk takes again what it refused.
    Recovered,
    /// The case that was written last, found when the ledger was opened.
    Left(Case),
    /// One event is on disk.
    Kept(DateTime<Utc>),
    /// The disk refuses; the events wait.
    NotKept(String),
    /// Another window went on with the bird, in the first case; from here on this one is kept in the second.
    Parted(CaseId, CaseId),
    /// The cases that were asked for, and how many there are.
    Listed(Vec<Covered>, usize),
    /// The case that was asked for.
    Opened(Case),
    /// The birds that wait for a look.
    Waiting(Vec<Waiting>),
    /// What was asked for could not be had.
    Refused(String),
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
    pub fn hire(folder: PathBuf, protocol: Arc<Protocol>) -> Self {
        let (tasks, inbox) = mpsc::channel();
        let (outbox, reports) = mpsc::channel();
        let thread = thread::spawn(move || {
            let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
            Desk {
                parted: None,
                changes: Vec::new(),
                covers_doubted: true,
                folder,
                ledger: None,
                mark,
                protocol,
                inbox,
                outbox,
            }
            .work()
        });
        Self { tasks, reports, thread }
    }

    /// Hands over an event.
    pub fn keep(&self, event: Event, cover: Cover) {
        // The clerk works until we hang up; if its thread has died, its last report stands on screen.
        let _ = self.tasks.send(Task::Keep(event, cover));
    }

    /// Hands over a change of a setting.
    pub fn change(&self, change: Change) {
        let _ = self.tasks.send(Task::Change(change));
    }

    /// Asks for cases.
    pub fn list(&self, filter: Filter) {
        let _ = self.tasks.send(Task::List(filter));
    }

    /// Asks for a case.
    pub fn open(&self, id: CaseId) {
        let _ = self.tasks.send(Task::Open(id));
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
    /// The changes of settings that wait to be kept.
    changes: Vec<Change>,
    /// Whether some covers may still be another protocol's.
    covers_doubted: bool,
    folder: PathBuf,
    ledger: Option<Ledger>,
    mark: Mark,
    protocol: Arc<Protocol>,
    inbox: Receiver<Task>,
    outbox: Sender<Report>,
}

impl Desk {
    /// Works until nobody hands over any more; returns how many events (and settings, if they wait) are left over.
    fn work(mut self) -> usize {
        self.look_for_what_was_left();
        let mut waiting: VecDeque<(Event, Cover)> = VecDeque::new();
        loop {
            // What was said of the bird first, the settings after it.
            let refused = self.keep_all(&mut waiting) || self.keep_settings();
            let left = waiting.len() + self.changes.len();
            let next = if left == 0 && self.covers_doubted {
                // Between tasks, so that nothing waits for it.
                self.covers_doubted =
                    self.look_up(|ledger, protocol| covers::renew_some(ledger, protocol, Utc::now())).unwrap_or(false);
                self.inbox.recv_timeout(Duration::ZERO)
            } else if left == 0 {
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

    fn take(&mut self, task: Task, waiting: &mut VecDeque<(Event, Cover)>) {
        match task {
            Task::Keep(event, cover) => waiting.push_back((event, cover)),
            Task::Change(change) => self.changes.push(change),
            Task::List(filter) => self.list(&filter),
            Task::Open(id) => self.open(id, waiting),
        }
    }

    fn look_for_what_was_left(&mut self) {
        let found = self.look_up(|ledger, _| {
            let shown = [Setting::Practice, Setting::Country, Setting::Cupboard, Setting::Contacts];
            let kept = |setting| Ok(ledger.setting(setting)?.map(|written| Report::Set(setting, written)));
            let settings = shown.into_iter().filter_map(|setting| kept(setting).transpose());
            Ok((settings.collect::<Result<Vec<Report>, LedgerError>>()?, ledger.latest()?))
        });
        let reports = match found {
            Ok((settings, latest)) => settings.into_iter().chain(latest.map(Report::Left)).collect(),
            Err(error) => vec![Report::NotKept(error.to_string())],
        };
        for report in reports {
            self.tell(report);
        }
        if let Ok(waiting) = self.look_up(|ledger, protocol| {
            covers::renew_some(ledger, protocol, Utc::now())?;
            covers::waiting(ledger, protocol, Utc::now())
        }) {
            self.tell(Report::Waiting(waiting));
        }
        // A backup that fails is no reason to refuse what is told now; it is tried again at the next start.
        let _ = self.ledger().and_then(|(ledger, _)| ledger.back_up_daily(Utc::now()));
    }

    /// Looks something up; where the ledger cannot be written it is read.
    fn look_up<T>(
        &mut self,
        up: impl FnOnce(&mut Ledger, &Protocol) -> Result<T, LedgerError>,
    ) -> Result<T, LedgerError> {
        let protocol = Arc::clone(&self.protocol);
        let opened = self.ledger().map(|_| ());
        match (opened, &mut self.ledger) {
            (Ok(()), Some(ledger)) => up(ledger, &protocol),
            (Err(LedgerError::Open { .. } | LedgerError::ReadOnly | LedgerError::Full), _) => {
                up(&mut Ledger::read(&self.folder)?, &protocol)
            }
            (Err(error), _) => Err(error),
            (Ok(()), None) => Err(LedgerError::Disk("the ledger is not open".into())),
        }
    }

    fn list(&mut self, filter: &Filter) {
        let found = self.look_up(|ledger, protocol| {
            covers::renew_some(ledger, protocol, Utc::now())?;
            Ok((ledger.cases(filter, 0, MOST)?, ledger.count(filter)?, covers::waiting(ledger, protocol, Utc::now())?))
        });
        match found {
            Ok((cases, all, waiting)) => {
                self.tell(Report::Listed(cases, all));
                self.tell(Report::Waiting(waiting));
            }
            Err(error) => self.tell(Report::Refused(error.to_string())),
        }
    }

    fn open(&mut self, id: CaseId, waiting: &mut VecDeque<(Event, Cover)>) {
        // What was said of any bird comes first, so that the case is whole; from here on its own name stands for it again.
        if self.keep_all(waiting) {
            let what = "what was said is not on disk yet; another bird can be opened once it is";
            return self.tell(Report::Refused(what.into()));
        }
        self.parted = None;
        match self.look_up(|ledger, _| ledger.load(id)) {
            Ok(case) => self.tell(Report::Opened(case)),
            Err(error) => self.tell(Report::Refused(error.to_string())),
        }
    }

    /// Nobody listens any more only when the program is ending.
    fn tell(&self, report: Report) {
        let _ = self.outbox.send(report);
    }

    /// Keeps what waits, in order; stops at the first refusal and says so.
    fn keep_all(&mut self, waiting: &mut VecDeque<(Event, Cover)>) -> bool {
        while let Some((event, cover)) = waiting.front() {
            if let Err(error) = self.keep(event, cover) {
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
        if self.changes.is_empty() {
            return false;
        }
        // One by one: what is on disk is not written again over what another window made of it since.
        while let Some(change) = self.changes.first().cloned() {
            let amend = |ledger: &mut Ledger| ledger.amend(change.setting(), |kept| change.made_to(kept));
            match self.ledger().and_then(|(ledger, _)| amend(ledger)) {
                Ok(kept) => {
                    self.changes.remove(0);
                    let setting = change.setting();
                    self.tell(Report::Changed(change));
                    // What another window kept of the same setting is told here, too.
                    self.tell(Report::Set(setting, kept));
                }
                Err(error) => {
                    self.refused(&error);
                    return true;
                }
            }
        }
        self.tell(Report::Recovered);
        false
    }

    /// A connection that failed once is not trusted again.
    fn refused(&mut self, error: &LedgerError) {
        self.ledger = None;
        self.tell(Report::NotKept(error.to_string()));
    }

    fn keep(&mut self, event: &Event, cover: &Cover) -> Result<(), LedgerError> {
        let mut event = event.clone();
        if let Some((from, to)) = &self.parted
            && *from == event.case
        {
            event.case = to.clone();
        }
        let (ledger, mark) = self.ledger()?;
        match ledger.append(&event, mark, cover) {
            Err(LedgerError::Clash) => {
                let own = ledger.fork(&event.case, event.seq)?;
                let kept = ledger.append(&Event { case: own.clone(), ..event.clone() }, mark, cover);
                let _ = self.outbox.send(Report::Parted(event.case.clone(), own.clone()));
                self.parted = Some((event.case, own));
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
