//! What the screen is a picture of: the log of one examination, where the eye is, and what the disk said.

use super::keys::Context;
use crate::care::{Plan, plan};
use crate::exam::{Exam, Hands, Place, hands};
use crate::finding::Id;
use crate::finding::log::{Entry, Stamped};
use crate::handover::document::{self, Reader};
use crate::judge::{Verdict, judge};
use crate::ledger::Case;
use crate::protocol::told::Country;
use crate::protocol::{Protocol, UNSET};
use chrono::{DateTime, FixedOffset, Utc};

/// Which document or question fills the screen below the overlays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The place the examination stands at.
    Exam,
    /// The verdict.
    Verdict,
    /// The plan.
    Plan,
}

/// What lies on top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Overlay {
    /// How to look, and the keys.
    Help,
    /// Why the verdict is what it is, or why this line of the document below stands.
    Why(Option<usize>),
    /// The steps, or the questions of one.
    Map(Option<usize>),
    /// The countries to choose from.
    Countries,
    /// What the law of the country says.
    Law,
    /// Every source, how well it is known, and what is borrowed.
    Basis,
}

/// How keeping goes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Keeping {
    /// How many events are not on disk yet.
    pub waiting: usize,
    /// When the last one reached the disk.
    pub last: Option<DateTime<Utc>>,
    /// What the disk said, while it refuses.
    pub refusal: Option<String>,
}

/// Everything the screen shows.
#[derive(Clone, Debug)]
pub struct Model<'p> {
    /// The protocol.
    pub protocol: &'p Protocol,
    /// What the person did. The ground truth.
    pub log: Vec<Stamped>,
    /// Worked out from the log.
    pub exam: Exam<'p>,
    /// Worked out from the log.
    pub verdict: Verdict,
    /// Worked out from the verdict.
    pub plan: Plan,
    /// What fills the screen.
    pub face: Face,
    /// What lies on top, the last one uppermost.
    pub overlays: Vec<Overlay>,
    /// The row the cursor stands on, once it has been moved.
    pub cursor: Option<usize>,
    /// The page of a list longer than nine.
    pub page: usize,
    /// The first line shown of a document.
    pub scroll: usize,
    /// What is being typed.
    pub typed: Option<String>,
    /// A sentence about the last key, until the next.
    pub notice: Option<String>,
    /// How keeping goes.
    pub keeping: Keeping,
    /// The case that was left and that the start screen offers to go on with.
    pub left: Option<Case>,
    /// The country whose law holds, or the one that stands for none.
    pub country: &'p Country,
    /// Whether the person chose it in this sitting: what was kept before no longer counts then.
    country_chosen: bool,
    /// The moment.
    pub now: DateTime<Utc>,
    /// The moment of the last tick: what falls due between two ticks rings once.
    pub ticked: DateTime<Utc>,
    /// The wall clock's distance from UTC.
    pub zone: FixedOffset,
    /// The size of the screen: columns, rows.
    pub size: (u16, u16),
}

impl<'p> Model<'p> {
    /// A model at the start of a new examination.
    pub fn new(protocol: &'p Protocol, left: Option<Case>, now: DateTime<Utc>, zone: FixedOffset) -> Self {
        let exam = Exam::from_log(protocol, &[]);
        let verdict = judge(protocol, &exam.findings, now);
        let plan = plan(protocol, &verdict);
        Self {
            protocol,
            log: Vec::new(),
            exam,
            verdict,
            plan,
            face: Face::Exam,
            overlays: Vec::new(),
            cursor: None,
            page: 0,
            scroll: 0,
            typed: None,
            notice: None,
            keeping: Keeping::default(),
            left,
            country: protocol.country(UNSET),
            country_chosen: false,
            now,
            ticked: now,
            zone,
            size: (80, 24),
        }
    }

    /// Adds to the log and works everything out again.
    pub fn record(&mut self, entry: Entry) -> Stamped {
        let stamped = Stamped { at: self.now, entry };
        self.log.push(stamped.clone());
        self.work_out();
        stamped
    }

    /// Works out exam, verdict and plan from the log.
    pub fn work_out(&mut self) {
        self.exam = Exam::from_log(self.protocol, &self.log);
        self.verdict = judge(self.protocol, &self.exam.findings, self.now);
        self.plan = plan(self.protocol, &self.verdict);
    }

    /// Takes the country the person chose.
    pub fn choose_country(&mut self, country: &'p Country) {
        self.country = country;
        self.country_chosen = true;
    }

    /// Takes the country that was kept, unless one has been chosen meanwhile.
    pub fn load_country(&mut self, id: &Id) {
        if self.country_chosen {
            return;
        }
        self.country = self.protocol.country(id.as_str());
        if self.country.id != *id {
            self.notice = Some(format!("The country `{id}` that was set is not known any more; set it again: l."));
        }
    }

    /// For whom documents are written.
    pub fn reader(&self) -> Reader<'p> {
        Reader { zone: self.zone, country: self.country }
    }

    /// The caution, with what it says of the law.
    pub fn caution(&self) -> String {
        document::caution_text(self.protocol, self.country)
    }

    /// Where the bird is.
    pub fn hands(&self) -> Hands {
        hands(&self.log)
    }

    /// The face that shows: a finished examination shows its verdict.
    pub fn shown(&self) -> Face {
        match (self.face, &self.exam.place) {
            (Face::Exam, Place::Done) => Face::Verdict,
            (face, _) => face,
        }
    }

    /// Where keys go.
    pub fn context(&self) -> Context {
        if self.typed.is_some() {
            return Context::Typing;
        }
        match self.overlays.last() {
            Some(Overlay::Help) => return Context::Help,
            Some(Overlay::Why(_)) => return Context::Why,
            Some(Overlay::Map(_)) => return Context::Map,
            Some(Overlay::Countries) => return Context::Countries,
            Some(Overlay::Law | Overlay::Basis) => return Context::Page,
            None => {}
        }
        match (self.shown(), &self.exam.place) {
            (Face::Verdict, _) | (Face::Exam, Place::Done) => Context::Verdict,
            (Face::Plan, _) => Context::Plan,
            (Face::Exam, Place::Instruction(..)) => Context::Instruction,
            (Face::Exam, Place::List(_)) => Context::List,
            (Face::Exam, Place::Ask(_)) => Context::Ask,
            (Face::Exam, Place::Wounds) => Context::Wounds,
        }
    }

    /// Whether the start screen may offer the bird that was left.
    pub fn offers_to_resume(&self) -> bool {
        self.log.is_empty() && self.left.is_some()
    }

    /// Puts the eye at the top of whatever shows now.
    pub fn look_afresh(&mut self) {
        self.cursor = None;
        self.page = 0;
        self.scroll = 0;
        self.notice = None;
    }
}
