//! The examination on the whole screen: read, update, carry out, draw.

use super::clocks::Ended;
use super::command::{known_country, path, shown};
use super::covers::CoverMaker;
use super::exit::Refusal;
use super::handover::unset;
use super::here::here;
use super::lesson::{Lessons, Marks};
use super::options::{Opened, Options};
use super::signals::Ending;
use super::terminal::Borrowed;
use super::writer::{LedgerWriter, LeftOver, Report};
use super::{exit, flock, handover, press, set_aside};
use crate::ledger::{CaseId, Event as Kept, EventId};
use crate::phrase::{command as phrase, ledger as kept};
use crate::screen::{self, Theme};
use crate::session::Overlay;
use crate::session::Session;
use crate::session::practice::Practice;
use crate::update::seen::OnScreen;
use crate::update::{self, Effect, Input};
use crate::view::keys::{Key, Untaken};
use crate::words::{Words, say};
use anyhow::Result;
use chrono::{DateTime, TimeDelta, Utc};
use crossterm::event::{self, Event};
use etcetera::BaseStrategy;
use std::collections::VecDeque;
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// How often the screen is looked after while nothing happens.
const BEAT: Duration = Duration::from_millis(250);
/// For how long after the start the writer may still be looking for the bird that was left.
const JUST_STARTED: Duration = Duration::from_secs(1);
/// How soon the word "saved" may follow the disk.
const SOON: Duration = Duration::from_millis(10);
/// How long a slow disk may hold up leaving.
const PATIENCE: Duration = Duration::from_secs(2);

/// Runs the examination until the person leaves or a signal ends it.
pub fn examine(options: &Options, break_down: bool, practice: Option<Lessons>) -> Result<ExitCode> {
    if !io::stdin().is_terminal() || !io::stdout().is_terminal() {
        return Err(Refusal::Usage(phrase::needs_terminal().into()).into());
    }
    let Opened { protocol, words } = options.open()?;
    let protocol = Arc::new(protocol);
    let folder = options.folder()?;
    let practice = practice.map(|lessons| lessons.open(&protocol, words, &folder)).transpose()?;
    let kept = practice.as_ref().and_then(|_| flock::kept_country(&folder));
    // Practice keeps to a ledger of its own, and writes nothing into it.
    let folder = if practice.is_some() { folder.join(flock::FOLDER) } else { folder };
    let ending = Ending::listen().map_err(unset(phrase::no_signals))?;
    let writer = LedgerWriter::start(folder.clone(), Arc::clone(&protocol), words);
    let now = Utc::now();
    let mut session = Session::new(&protocol, None, now, here());
    session.speak(words);
    if let Some(id) = &options.country {
        session.choose_country(known_country(&protocol, id)?);
    } else if let Some(id) = kept {
        session.choose_country(protocol.country(&id));
    }
    let mut marks = None;
    if let Some((practice, first, file)) = practice {
        (session.practice, marks) = (Some(practice), Some(file));
        match first {
            Some(script) => drop(update::begin(&mut session, script)),
            None => session.overlays = vec![Overlay::Lessons],
        }
    }
    let terminal = Borrowed::take(session.say(phrase::broke())).map_err(unset(phrase::no_screen))?;
    let case = CaseId::new();
    session.case = Some(case.clone());
    let theme = Theme { colour: std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty()) };
    if break_down {
        fall();
    }
    let mut sitting = Sitting {
        session,
        writer,
        case,
        seq: 0,
        left: false,
        moment: (now, Instant::now()),
        unkept: VecDeque::new(),
        folder: folder.clone(),
        marks,
        terminal,
    };
    let ended = sitting.run(theme, &ending);
    let Sitting { session, writer, terminal, mut unkept, .. } = sitting;
    drop(terminal);
    let left = writer.stop(PATIENCE).unwrap_or_else(|| LeftOver {
        count: session.keeping.waiting,
        events: unkept.make_contiguous().to_vec(),
        why: None,
    });
    let lost = left.count;
    let caution = session.say(session.caution());
    let rescued =
        if lost > 0 { set_aside::rescue(&protocol, &folder, &left.events, &caution, Utc::now()) } else { None };
    farewell(words, &session, &left, rescued.as_deref());
    // Only now: whatever became of the screen, what was said is put by first.
    ended.map_err(unset(phrase::screen_failed))?;
    Ok(match ending.signal() {
        Some(signal) => ExitCode::from(u8::try_from(128 + signal).unwrap_or(1)),
        None if lost > 0 => ExitCode::from(74),
        None => ExitCode::SUCCESS,
    })
}

/// Where cases are kept: as asked, or where this system keeps a user's data.
pub fn data_folder(data: Option<PathBuf>) -> Result<PathBuf> {
    if let Some(folder) = data {
        return Ok(folder);
    }
    let base = etcetera::choose_base_strategy().map_err(unset(phrase::no_home))?;
    Ok(base.data_dir().join("coopside"))
}

/// Breaks down, so that a test can see the terminal given back.
#[expect(clippy::panic, reason = "the one place that is meant to break")]
fn fall() -> ! {
    std::panic::panic_any("broken on purpose")
}

/// What stays readable after the screen is gone.
fn farewell(words: &Words, session: &Session, left: &LeftOver, rescued: Option<&Path>) {
    let lost = left.count;
    let told = if lost > 0 {
        let why = left.why.clone().or_else(|| session.keeping.refusal.clone());
        let why = why.unwrap_or_else(|| phrase::no_answer().into());
        match rescued {
            Some(file) => phrase::set_aside(lost, why, path(file)),
            None => phrase::lost(lost, why),
        }
    } else if session.practice.is_some() {
        phrase::practice_ended()
    } else if session.log.is_empty() {
        return;
    } else {
        phrase::kept()
    };
    // A closed standard error leaves nobody to tell.
    let _ = writeln!(io::stderr().lock(), "{}", say(words, session.zone, &told.into()));
}

struct Sitting<'p> {
    session: Session<'p>,
    writer: LedgerWriter,
    case: CaseId,
    seq: u64,
    left: bool,
    /// The moment of the last input, by the clock and by the steady clock.
    moment: (DateTime<Utc>, Instant),
    /// What is not known to be on disk yet.
    unkept: VecDeque<Kept>,
    /// Where cases are kept.
    folder: PathBuf,
    /// Where marks of practice are kept, in practice.
    marks: Option<Marks>,
    terminal: Borrowed,
}

impl Sitting<'_> {
    fn run(&mut self, theme: Theme, ending: &Ending) -> io::Result<()> {
        let start = Instant::now();
        let mut beat = start;
        let mut stale = true;
        let mut seen = OnScreen::default();
        while !self.left && ending.signal().is_none() {
            // Draw.
            if stale {
                let session = &self.session;
                let mut extent = session.extent;
                self.terminal.draw(|frame| extent = screen::draw(session, theme, frame))?;
                // What layout learns comes back here: it says how far one can move on.
                (self.session.extent, self.session.scroll) = (extent, extent.scroll);
                let session = &self.session;
                stale = false;
                if seen.drew(session) {
                    // What lies ready now was pressed before this screen was there.
                    stale = self.hear_out()?;
                }
            }
            // Read.
            let expects_word = self.session.keeping.waiting > 0 || start.elapsed() < JUST_STARTED;
            let wait = if expects_word { SOON } else { BEAT };
            if event::poll(wait)? {
                // As soon as the keys stand for something else, that is drawn first.
                while !self.left && event::poll(Duration::ZERO)? {
                    if let Some(input) = translate(&event::read()?) {
                        self.take(heard(&mut seen, &self.session, input, start.elapsed()))?;
                        stale = true;
                    }
                    if !seen.is_current(&self.session) {
                        break;
                    }
                }
            }
            // Hear from the writer, and from the clock.
            while let Ok(report) = self.writer.reports.try_recv() {
                let input = match report {
                    Report::Set(setting, written) => Input::Set(setting, written),
                    Report::Changed(change) => Input::Changed(change),
                    Report::Recovered => Input::Recovered,
                    Report::Left(case) => Input::Left(case),
                    Report::Kept(at) => {
                        self.unkept.pop_front();
                        Input::Kept(at)
                    }
                    Report::NotKept(why) => Input::NotKept(why),
                    Report::Parted(theirs, ours) => self.part(theirs, &ours),
                    Report::Listed(cases, all) => Input::Listed(cases, all),
                    Report::Opened(case) => Input::Opened(case),
                    Report::Waiting(waiting) => Input::Waiting(waiting),
                    Report::Refused(why) => Input::Refused(why),
                };
                self.take(input)?;
                stale = true;
            }
            if beat.elapsed() >= Duration::from_secs(1) {
                beat = Instant::now();
                self.take(Input::Tick)?;
                stale = true;
            }
        }
        Ok(())
    }

    /// Takes what came before the screen that has just been drawn: of keys only those that count all the same. Whether anything came.
    fn hear_out(&mut self) -> io::Result<bool> {
        let mut came = false;
        while !self.left && event::poll(Duration::ZERO)? {
            let Some(input) = translate(&event::read()?) else { continue };
            came = true;
            let early = |key: &Key| !OnScreen::takes_early(&self.session, *key);
            let input = match input {
                Input::Key(key) if early(&key) => Input::Untaken(Untaken::TooSoon),
                input => input,
            };
            self.take(input)?;
        }
        Ok(came)
    }

    /// From here on, what is said goes to a case of our own.
    fn part(&mut self, theirs: CaseId, ours: &CaseId) -> Input {
        if self.case == theirs {
            self.case = ours.clone();
            self.session.case = Some(ours.clone());
        }
        for event in self.unkept.iter_mut().filter(|event| event.case == theirs) {
            event.case = ours.clone();
        }
        Input::Parted(theirs)
    }

    fn take(&mut self, input: Input) -> io::Result<()> {
        let now = Utc::now();
        // In practice time can be skipped; the jump is not one of the machine's.
        self.session.now = now + self.session.practice.as_ref().map_or_else(TimeDelta::zero, Practice::skipped);
        let before = std::mem::replace(&mut self.moment, (now, Instant::now()));
        if jumped(before, self.moment) {
            update::update(&mut self.session, Input::Jumped);
        }
        for effect in update::update(&mut self.session, input) {
            self.carry_out(effect)?;
        }
        Ok(())
    }

    fn carry_out(&mut self, effect: Effect) -> io::Result<()> {
        match effect {
            Effect::Keep(stamped) => {
                let zone_min = self.session.zone.offset(stamped.at).local_minus_utc() / 60;
                let event = Kept { id: EventId::new(), case: self.case.clone(), seq: self.seq, stamped, zone_min };
                let maker =
                    CoverMaker { protocol: self.session.protocol, words: self.session.words, zone: self.session.zone };
                let cover = maker.cover(&self.session.log, &self.session.cupboard, self.session.now);
                self.unkept.push_back(event.clone());
                self.writer.keep(event, cover);
                self.seq += 1;
                Ok(())
            }
            Effect::GoOnWith(case, events) => {
                self.case = case;
                self.seq = events as u64;
                Ok(())
            }
            Effect::NewBird => {
                (self.case, self.seq) = (CaseId::new(), 0);
                self.session.case = Some(self.case.clone());
                Ok(())
            }
            Effect::List(filter) => {
                self.writer.list(filter);
                Ok(())
            }
            Effect::Open(id) => {
                self.writer.open(id);
                Ok(())
            }
            Effect::EndClock(case, ends_at) => {
                let at = self.session.now;
                let zone_min = self.session.zone.offset(at).local_minus_utc() / 60;
                self.writer.end_clock(Ended { case, ends_at, at, zone_min });
                Ok(())
            }
            Effect::Title(title) => Borrowed::title(&self.session.say(title)),
            Effect::WriteSheet(sheet) => {
                self.session.notice = Some(match handover::put_by(&self.folder, &sheet, self.session.now) {
                    Ok(to) => kept::sheet_written(path(&to)).into(),
                    Err(error) => exit::told(&error),
                });
                Ok(())
            }
            Effect::KeepMark(mark) => {
                if let Some(Err(error)) = self.marks.as_ref().map(|marks| marks.keep(&mark)) {
                    self.session.notice = Some(kept::go_unkept(shown(&error)).into());
                }
                Ok(())
            }
            Effect::Change(change) => {
                self.writer.change(change);
                Ok(())
            }
            Effect::Bell => Borrowed::bell(),
            #[cfg(unix)]
            Effect::Suspend => self.terminal.step_aside(),
            #[cfg(not(unix))]
            Effect::Suspend => Ok(()),
            Effect::Leave => {
                self.left = true;
                Ok(())
            }
        }
    }
}

/// What came, a key only where it counts for what is on screen.
fn heard(seen: &mut OnScreen, session: &Session, input: Input, at: Duration) -> Input {
    match input {
        Input::Key(key) => seen.takes(session, key, at).map_or_else(Input::Untaken, |()| Input::Key(key)),
        input => input,
    }
}

/// Whether the clock was set, or the machine slept, between two moments. The steady clock may stand still while a machine
/// sleeps, or run on: the one shows against the other, the other by itself, for we look every second.
fn jumped(before: (DateTime<Utc>, Instant), now: (DateTime<Utc>, Instant)) -> bool {
    let steady = now.1.duration_since(before.1);
    let wall = (now.0 - before.0).num_milliseconds();
    let apart = wall.saturating_sub(i64::try_from(steady.as_millis()).unwrap_or(i64::MAX)).abs();
    apart > 2_000 || steady > Duration::from_secs(5)
}

fn translate(event: &Event) -> Option<Input> {
    match event {
        Event::Key(key) => press::key(*key).map(Input::Key),
        Event::Paste(text) => Some(Input::Paste(text.clone())),
        Event::Resize(columns, rows) => Some(Input::Size(*columns, *rows)),
        Event::FocusGained | Event::FocusLost | Event::Mouse(_) => None,
    }
}
