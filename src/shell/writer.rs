//! The writer keeps events in the ledger on a thread of its own, so that a slow or failing disk never holds back a screen.

use super::clocks::{self, Ended};
use super::covers::{self, CoverMaker};
use super::here::here;
use super::opened::Held;
use crate::content::kept::fault;
use crate::days::due::Waits;
use crate::ledger::{Case, CaseId, Cause, Cover, Covered, Event, Filter, Kept, Ledger, LedgerError, Mark, Setting};
use crate::phrase::{Text, ledger as phrase};
use crate::protocol::Protocol;
use crate::session::change::Change;
use crate::words::Words;
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// How long to wait before a disk that refused is tried again.
const AGAIN: Duration = Duration::from_secs(2);

/// How often the birds that wait are looked for again while nothing happens.
const AFRESH: Duration = Duration::from_mins(1);

/// How many cases a list holds.
const MOST: usize = 100;

/// What is handed to the writer.
#[derive(Debug)]
enum Task {
    /// Keep an event, and the cover it leaves the case with.
    Keep(Event, Box<Cover>),
    /// Keep a change of a setting.
    Change(Change),
    /// List cases.
    List(Filter),
    /// Load a case, to go on with it.
    Open(CaseId),
    /// End the clock of a bird that does not lie open.
    EndClock(Ended),
}

/// What the writer reports.
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
    NotKept(Text),
    /// Another window went on with the bird, in the first case; from here on this one is kept in the second.
    Parted(CaseId, CaseId),
    /// The cases that were asked for, and how many there are.
    Listed(Vec<Covered>, usize),
    /// The case that was asked for.
    Opened(Case),
    /// The birds that wait for a look.
    Waiting(Waits),
    /// What was asked for could not be had.
    Refused(Text),
}

/// The writer's desk, seen from outside.
#[derive(Debug)]
pub struct LedgerWriter {
    tasks: Sender<Task>,
    /// What the writer reports.
    pub reports: Receiver<Report>,
    thread: JoinHandle<LeftOver>,
}

/// What could not be kept.
#[derive(Debug, Default)]
pub struct LeftOver {
    /// How many answers and settings are on no disk.
    pub count: usize,
    /// The events of the cases they belong to, whole as far as they are held here.
    pub events: Vec<Event>,
    /// What the disk said.
    pub why: Option<Text>,
}

impl LedgerWriter {
    /// Puts a writer to work on the ledger in a folder. Even opening it happens there: a disk that hangs holds back nothing.
    pub fn start(folder: PathBuf, protocol: Arc<Protocol>, words: &'static Words) -> Self {
        let (tasks, inbox) = mpsc::channel();
        let (outbox, reports) = mpsc::channel();
        let thread = thread::spawn(move || {
            let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
            WriterThread {
                parted: None,
                changes: Vec::new(),
                held: Held::default(),
                gone: false,
                why: None,
                told_at: Instant::now(),
                covers_doubted: true,
                folder,
                ledger: None,
                mark,
                protocol,
                words,
                zone: here(),
                inbox,
                outbox,
            }
            .work()
        });
        Self { tasks, reports, thread }
    }

    /// Hands over an event.
    pub fn keep(&self, event: Event, cover: Cover) {
        // The writer works until we hang up; if its thread has died, its last report stands on screen.
        let _ = self.tasks.send(Task::Keep(event, Box::new(cover)));
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

    /// Hands over that the clock of another bird was ended.
    pub fn end_clock(&self, ended: Ended) {
        let _ = self.tasks.send(Task::EndClock(ended));
    }

    /// Lets the writer finish, for at most this long, and returns what could not be kept; nothing where it does not answer.
    pub fn stop(self, patience: Duration) -> Option<LeftOver> {
        drop(self.tasks);
        let deadline = Instant::now() + patience;
        while !self.thread.is_finished() && Instant::now() < deadline {
            thread::sleep(Duration::from_millis(5));
        }
        if self.thread.is_finished() { self.thread.join().ok() } else { None }
    }
}

struct WriterThread {
    /// The case that events are handed over for, and the one they go to since another window went on with it.
    parted: Option<(CaseId, CaseId)>,
    /// The changes of settings that wait to be kept.
    changes: Vec<Change>,
    /// What this window holds of the cases it opened or wrote into.
    held: Held,
    /// Whether the ledger was lost under it: once it is open again, what is held is written again.
    gone: bool,
    /// What the disk said last.
    why: Option<Text>,
    /// When the birds that wait were told of last.
    told_at: Instant,
    /// Whether some covers may still be another protocol's.
    covers_doubted: bool,
    folder: PathBuf,
    ledger: Option<Ledger>,
    mark: Mark,
    protocol: Arc<Protocol>,
    words: &'static Words,
    /// The zone whose nights count.
    zone: Zone,
    inbox: Receiver<Task>,
    outbox: Sender<Report>,
}

impl WriterThread {
    /// Works until nobody hands over any more; returns what is left over.
    fn work(mut self) -> LeftOver {
        self.look_for_what_was_left();
        let mut waiting: VecDeque<(Event, Cover)> = VecDeque::new();
        loop {
            // What was said of the bird first, the settings after it.
            let refused = self.keep_all(&mut waiting) || self.keep_settings();
            let left = waiting.len() + self.changes.len();
            let next = if left == 0 && self.covers_doubted {
                // Between tasks, so that nothing waits for it.
                self.covers_doubted =
                    self.look_up(|ledger, maker| covers::renew_some(ledger, maker, Utc::now())).unwrap_or(false);
                self.inbox.recv_timeout(Duration::ZERO)
            } else {
                self.inbox.recv_timeout(AGAIN)
            };
            match next {
                Ok(task) => self.take(task, &mut waiting),
                // Hung up, and nothing more can be done: either all is kept or the disk still refuses.
                Err(RecvTimeoutError::Disconnected) if left == 0 || refused => {
                    self.look_after();
                    return self.left_over(waiting);
                }
                Err(RecvTimeoutError::Timeout) if left == 0 => self.look_after(),
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => {}
            }
            while let Ok(task) = self.inbox.try_recv() {
                self.take(task, &mut waiting);
            }
        }
    }

    /// While nothing is handed over: whether what was kept is still where it was kept, and who waits by now.
    fn look_after(&mut self) {
        match self.ledger.as_mut().map(Ledger::still_there) {
            Some(Err(error)) if self.held.wrote() => self.refused(&error),
            // Nothing was said here that could be lost; that the ledger is gone is told all the same.
            Some(Err(error)) => {
                (self.gone, self.ledger) = (true, None);
                self.tell(Report::Refused(fault(&error).into()));
            }
            Some(Ok(())) | None => {}
        }
        if self.gone && self.held.wrote() {
            match self.ledger().map(|_| ()) {
                Ok(()) => self.tell(Report::Recovered),
                Err(error) => self.refused(&error),
            }
        }
        if self.told_at.elapsed() >= AFRESH {
            self.tell_who_waits();
        }
    }

    /// What is on no disk. Of a case that lacks an answer all is handed back that is held: so it can be taken in anywhere.
    fn left_over(self, waiting: VecDeque<(Event, Cover)>) -> LeftOver {
        let mut count = waiting.len() + self.changes.len();
        let mut events: Vec<Event> = Vec::new();
        if self.gone {
            events.extend(self.held.written().iter().flat_map(|case| self.held.of(case)));
            count += events.len();
        }
        for (event, _) in waiting {
            let event = self.of_own(event);
            if !events.iter().any(|before| before.case == event.case) {
                events.extend(self.held.of(&event.case));
            }
            if !events.iter().any(|before| before.id == event.id) {
                events.push(event);
            }
        }
        LeftOver { count, events, why: self.why }
    }

    /// An event of a case that another window went on with belongs to a case of our own.
    fn of_own(&self, event: Event) -> Event {
        match &self.parted {
            Some((from, to)) if *from == event.case => Event { case: to.clone(), ..event },
            _ => event,
        }
    }

    fn take(&mut self, task: Task, waiting: &mut VecDeque<(Event, Cover)>) {
        match task {
            Task::Keep(event, cover) => waiting.push_back((event, *cover)),
            Task::Change(change) => self.changes.push(change),
            Task::List(filter) => self.list(&filter),
            Task::Open(id) => self.open(&id, waiting),
            Task::EndClock(ended) => self.end_clock(&ended, waiting),
        }
    }

    fn look_for_what_was_left(&mut self) {
        let found = self.look_up(|ledger, _| {
            let shown = [Setting::Practice, Setting::Country, Setting::Cupboard, Setting::Contacts];
            let kept = |setting| Ok(ledger.setting(setting)?.map(|written| (setting, written)));
            let settings = shown.into_iter().filter_map(|setting| kept(setting).transpose());
            Ok((settings.collect::<Result<Vec<_>, LedgerError>>()?, ledger.latest()))
        });
        match found {
            Ok((settings, latest)) => {
                for (setting, written) in settings {
                    self.held.set(setting, &written);
                    self.tell(Report::Set(setting, written));
                }
                match latest {
                    Ok(latest) => latest.into_iter().for_each(|case| {
                        let case = self.hold(case);
                        self.tell(Report::Left(case));
                    }),
                    // What was said before cannot be shown; what is said now can be kept.
                    Err(error) => self.tell(Report::Refused(fault(&error).into())),
                }
            }
            Err(error) => self.tell(Report::NotKept(fault(&error).into())),
        }
        self.tell_who_waits();
        // A backup that fails is no reason to refuse what is told now; it is tried again at the next start.
        let _ = self.ledger().and_then(|(ledger, _)| ledger.back_up_daily(Utc::now()));
    }

    /// Tells which birds wait for a look; where that cannot be told, what was told before stands.
    fn tell_who_waits(&mut self) {
        self.told_at = Instant::now();
        let found = self.look_up(|ledger, maker| {
            covers::renew_some(ledger, maker, Utc::now())?;
            covers::waiting(ledger, maker, Utc::now())
        });
        if let Ok(waiting) = found {
            self.tell(Report::Waiting(waiting));
        }
    }

    /// Holds a case that was read.
    fn hold(&mut self, events: Vec<Kept>) -> Case {
        let id = events.first().map(|first| first.event.case.clone()).unwrap_or_default();
        let log = events.iter().map(|kept| kept.event.stamped.clone()).collect();
        self.held.read(&id, events);
        Case { id, log }
    }

    /// Looks something up; where the ledger cannot be written it is read.
    fn look_up<T>(
        &mut self,
        up: impl FnOnce(&mut Ledger, CoverMaker) -> Result<T, LedgerError>,
    ) -> Result<T, LedgerError> {
        let (protocol, words) = (Arc::clone(&self.protocol), self.words);
        let maker = CoverMaker { protocol: &protocol, words, zone: self.zone };
        let opened = self.ledger().map(|_| ());
        match (opened, &mut self.ledger) {
            (Ok(()), Some(ledger)) => up(ledger, maker),
            (Err(LedgerError::Open { .. } | LedgerError::ReadOnly | LedgerError::Full), _) => {
                up(&mut Ledger::read(&self.folder)?, maker)
            }
            (Err(error), _) => Err(error),
            (Ok(()), None) => Err(LedgerError::Disk(Cause::NotOpen)),
        }
    }

    fn list(&mut self, filter: &Filter) {
        let found = self.look_up(|ledger, maker| {
            covers::renew_some(ledger, maker, Utc::now())?;
            let waiting = covers::waiting(ledger, maker, Utc::now())?;
            Ok((ledger.cases(filter, 0, MOST)?, ledger.count(filter)?, waiting))
        });
        match found {
            Ok((cases, all, waiting)) => {
                self.tell(Report::Listed(cases, all));
                self.tell(Report::Waiting(waiting));
            }
            Err(error) => self.tell(Report::Refused(fault(&error).into())),
        }
    }

    fn open(&mut self, id: &CaseId, waiting: &mut VecDeque<(Event, Cover)>) {
        // What was said of any bird comes first, so that the case is whole; from here on its own name stands for it again.
        if self.keep_all(waiting) {
            return self.tell(Report::Refused(phrase::not_on_disk().into()));
        }
        self.parted = None;
        match self.look_up(|ledger, _| ledger.events(id)) {
            Ok(events) => {
                let case = self.hold(events);
                self.tell(Report::Opened(case));
                self.tell_who_waits();
            }
            Err(error) => self.tell(Report::Refused(fault(&error).into())),
        }
    }

    /// Ends the clock of another bird, once all that was said of her is on disk.
    fn end_clock(&mut self, ended: &Ended, waiting: &mut VecDeque<(Event, Cover)>) {
        if self.keep_all(waiting) {
            return;
        }
        let (protocol, words) = (Arc::clone(&self.protocol), self.words);
        let maker = CoverMaker { protocol: &protocol, words, zone: self.zone };
        match self.ledger().and_then(|(ledger, mark)| clocks::end(ledger, maker, mark, ended)) {
            Ok(events) => events.into_iter().for_each(|events| self.held.read(&ended.case, events)),
            Err(error) => self.tell(Report::Refused(fault(&error).into())),
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
                    self.held.set(setting, &kept);
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
        self.gone |= matches!(error, LedgerError::Gone { .. });
        self.ledger = None;
        self.why = Some(fault(error).into());
        self.tell(Report::NotKept(fault(error).into()));
    }

    fn keep(&mut self, event: &Event, cover: &Cover) -> Result<(), LedgerError> {
        match self.keep_once(event, cover) {
            // What is held is written again first, then this.
            Err(LedgerError::Gone { .. }) => {
                (self.gone, self.ledger) = (true, None);
                self.keep_once(event, cover)
            }
            other => other,
        }
    }

    fn keep_once(&mut self, event: &Event, cover: &Cover) -> Result<(), LedgerError> {
        // First of all: while it is opened again, a case may part.
        self.ledger()?;
        let mut event = self.of_own(event.clone());
        let (ledger, mark) = self.ledger()?;
        match ledger.append(&event, mark, cover) {
            Err(LedgerError::Clash) => {
                let own = ledger.fork(&event.case, event.seq)?;
                let theirs = std::mem::replace(&mut event.case, own.clone());
                let kept = ledger.append(&event, mark, cover);
                let _ = self.outbox.send(Report::Parted(theirs.clone(), own.clone()));
                self.parted = Some((theirs, own));
                kept?;
            }
            other => other?,
        }
        if !self.held.kept(&event, &self.mark) {
            let (ledger, _) = self.ledger()?;
            let events = ledger.events(&event.case)?;
            self.held.read(&event.case, events);
        }
        Ok(())
    }

    fn ledger(&mut self) -> Result<(&mut Ledger, &Mark), LedgerError> {
        if self.ledger.is_none() {
            let mut ledger = Ledger::open(&self.folder)?;
            if self.gone {
                let maker = CoverMaker { protocol: &self.protocol, words: self.words, zone: self.zone };
                let parted = self.held.write_again(&mut ledger, maker, Utc::now())?;
                for (theirs, own) in parted {
                    let _ = self.outbox.send(Report::Parted(theirs.clone(), own.clone()));
                    self.parted = Some((theirs, own));
                }
                self.gone = false;
                if self.held.wrote() {
                    let _ = self.outbox.send(Report::Refused(phrase::written_again().into()));
                }
            }
            self.ledger = Some(ledger);
        }
        match &mut self.ledger {
            Some(ledger) => Ok((ledger, &self.mark)),
            None => Err(LedgerError::Disk(Cause::NotOpen)),
        }
    }
}
