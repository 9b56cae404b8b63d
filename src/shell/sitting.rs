//! A sitting at the screen: read, update, carry out, draw.

use super::clocks::Ended;
use super::command::{path, shown};
use super::covers::CoverMaker;
use super::front::Front;
use super::input::{Arrived, Typed};
use super::lesson::Marks;
use super::moment::{Leap, ThreeClocks};
use super::signals::Ending;
use super::writer::{LedgerWriter, Report};
use super::{exit, handover};
use crate::ledger::{CaseId, Event as Kept, EventId};
use crate::phrase::ledger as kept;
use crate::session::Session;
use crate::session::practice::Practice;
use crate::spoken::{self, LineMeaning};
use crate::update::seen::{KeysFor, OnScreen};
use crate::update::{self, Effect, Input};
use crate::view::keys::{Key, Untaken};
use chrono::TimeDelta;
use std::collections::VecDeque;
use std::io;
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

/// How often the screen is looked after while nothing happens.
const BEAT: Duration = Duration::from_millis(250);
/// For how long after the start the writer may still be looking for the bird that was left.
const JUST_STARTED: Duration = Duration::from_secs(1);
/// How soon the word "saved" may follow the disk.
const SOON: Duration = Duration::from_millis(10);
/// How much is heard at most before a frame, a clock or the writer has its turn.
const AT_ONCE: usize = 64;

/// One run of the examination on the whole screen.
pub struct Sitting<'p> {
    /// What is shown, and what was said.
    pub session: Session<'p>,
    /// Puts it on disk.
    pub writer: LedgerWriter,
    /// What is not known to be on disk yet.
    pub unkept: VecDeque<Kept>,
    /// Where it is shown.
    pub front: Front,
    /// What comes from there.
    pub heard: Receiver<Arrived>,
    case: CaseId,
    seq: u64,
    left: bool,
    started: Instant,
    /// The moment of the last input.
    moment: ThreeClocks,
    /// Where cases are kept.
    folder: PathBuf,
    /// Where marks of practice are kept, in practice.
    marks: Option<Marks>,
    /// What has come onto the screen.
    seen: OnScreen,
    /// The frame that is being written.
    on_its_way: Option<OnItsWay>,
    /// Whether what is drawn is no longer so.
    stale: bool,
}

/// A frame that is being written.
struct OnItsWay {
    asks: KeysFor,
    /// It is another screen than the one that shows.
    is_other: bool,
}

impl<'p> Sitting<'p> {
    /// Begins; nothing is drawn yet.
    pub fn new(
        session: Session<'p>,
        writer: LedgerWriter,
        case: CaseId,
        folder: PathBuf,
        marks: Option<Marks>,
        front: Front,
        heard: Receiver<Arrived>,
    ) -> Self {
        let started = Instant::now();
        Self {
            moment: ThreeClocks::now(started),
            session,
            writer,
            unkept: VecDeque::new(),
            front,
            heard,
            case,
            seq: 0,
            left: false,
            started,
            folder,
            marks,
            seen: OnScreen::default(),
            on_its_way: None,
            stale: true,
        }
    }

    /// Goes on until the person leaves or something ends it.
    pub fn run(&mut self, ending: &Ending) -> io::Result<()> {
        let mut beat = self.started;
        while !self.left && ending.signal().is_none() {
            // Draw, unless the terminal still takes the last frame: that one waits then, and nothing else.
            if self.stale && self.on_its_way.is_none() {
                self.draw()?;
            }
            // Read.
            let expects_word = self.session.keeping.waiting > 0 || self.started.elapsed() < JUST_STARTED;
            self.hear(if expects_word { SOON } else { BEAT })?;
            // Hear from the writer, and from the clock.
            while let Ok(report) = self.writer.reports.try_recv() {
                let input = self.reported(report);
                self.take(input)?;
            }
            if beat.elapsed() >= Duration::from_secs(1) {
                beat = Instant::now();
                self.take(Input::Tick)?;
            }
        }
        Ok(())
    }

    fn draw(&mut self) -> io::Result<()> {
        let is_other = !self.seen.is_current(&self.session);
        let extent = self.front.show(&self.session, is_other)?;
        self.session.learn(extent);
        self.on_its_way = Some(OnItsWay { asks: KeysFor::of(&self.session), is_other });
        self.stale = false;
        Ok(())
    }

    /// Takes what comes from the terminal: waits for the first, and goes on with what lies there.
    fn hear(&mut self, wait: Duration) -> io::Result<()> {
        let mut next = match self.heard.recv_timeout(wait) {
            Ok(heard) => Some(heard),
            Err(RecvTimeoutError::Timeout) => None,
            Err(RecvTimeoutError::Disconnected) => return Err(io::ErrorKind::BrokenPipe.into()),
        };
        let mut count = 0;
        while let Some(heard) = next {
            self.answer(heard)?;
            count += 1;
            // As soon as the keys stand for something else, that is drawn first.
            let is_other = self.on_its_way.is_none() && !self.seen.is_current(&self.session);
            next = if self.left || is_other || count == AT_ONCE { None } else { self.heard.try_recv().ok() };
        }
        Ok(())
    }

    fn answer(&mut self, heard: Arrived) -> io::Result<()> {
        match heard {
            Arrived::Typed(Typed::Key(key)) => {
                let input = self.pressed(key);
                self.take(input)
            }
            Arrived::Typed(Typed::Paste(text)) => self.take(Input::Paste(text)),
            Arrived::Line(line) => self.line(&line),
            Arrived::End => self.end(),
            // What is drawn next asks for the size.
            Arrived::Resized => {
                self.stale = true;
                Ok(())
            }
            Arrived::Typed(Typed::Redraw) => {
                self.stale = true;
                self.front.forget()
            }
            Arrived::Continued => {
                self.stale = true;
                self.front.take_again()
            }
            Arrived::Written => {
                if let Some(frame) = self.on_its_way.take() {
                    self.seen.shows(frame.asks);
                    self.front.has_come();
                }
                Ok(())
            }
            Arrived::Failed(error) => Err(error),
        }
    }

    /// What came, a key only where it counts for what is on screen. Before the screen that is being written has come, only those
    /// count that count all the same.
    fn pressed(&mut self, key: Key) -> Input {
        let is_early = self.on_its_way.as_ref().is_some_and(|frame| frame.is_other);
        let taken = if is_early || !self.seen.is_current(&self.session) {
            OnScreen::takes_early(&self.session, key).then_some(()).ok_or(Untaken::TooSoon)
        } else {
            self.seen.takes(&self.session, key, self.started.elapsed())
        };
        taken.map_or_else(Input::Untaken, |()| Input::Key(key))
    }

    /// Takes a line.
    fn line(&mut self, line: &str) -> io::Result<()> {
        self.front.owes();
        self.stale = true;
        let is_early =
            self.on_its_way.as_ref().is_some_and(|frame| frame.is_other) || !self.seen.is_current(&self.session);
        if is_early && self.front.may_be_early() {
            return self.take(Input::Untaken(Untaken::TooSoon));
        }
        match (spoken::heard(&self.session, line), &mut self.front) {
            (LineMeaning::Keyed(typed), _) => typed.into_iter().try_for_each(|typed| match typed {
                spoken::Keyed::Key(key) => self.take(Input::Key(key)),
                spoken::Keyed::Text(text) => self.take(Input::Paste(text)),
            }),
            (LineMeaning::Nothing(why), _) => self.take(Input::Refused(why.into())),
            (LineMeaning::Again, Front::Lines(lines)) => {
                lines.again(&self.session);
                Ok(())
            }
            (LineMeaning::Clock, Front::Lines(lines)) => {
                lines.clocks(&self.session);
                Ok(())
            }
            (LineMeaning::Again | LineMeaning::Clock, Front::Screen(..)) => Ok(()),
        }
    }

    /// Leaves: nobody can answer any more what leaving would cost.
    fn end(&mut self) -> io::Result<()> {
        for _ in 0..2 {
            if !self.left {
                self.take(Input::Key(spoken::heard::LEAVES))?;
            }
        }
        self.left = true;
        Ok(())
    }

    fn reported(&mut self, report: Report) -> Input {
        match report {
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
        }
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
        self.stale = true;
        let before = std::mem::replace(&mut self.moment, ThreeClocks::now(self.started));
        // In practice time can be skipped; the jump is not one of the machine's.
        let skipped = self.session.practice.as_ref().map_or_else(TimeDelta::zero, Practice::skipped);
        self.session.now = self.moment.wall + skipped;
        let leapt = match self.moment.leap(&before) {
            Leap::None => None,
            Leap::Slept => Some(Input::Jumped),
            Leap::Set(by) => Some(Input::ClockSet(by)),
        };
        if let Some(leapt) = leapt {
            update::update(&mut self.session, leapt);
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
            Effect::Title(title) => {
                self.front.title(self.session.say(title));
                Ok(())
            }
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
            Effect::Bell => {
                self.front.bell();
                Ok(())
            }
            #[cfg(unix)]
            Effect::Suspend => self.front.step_aside(),
            #[cfg(not(unix))]
            Effect::Suspend => Ok(()),
            Effect::Leave => {
                self.left = true;
                Ok(())
            }
        }
    }
}
