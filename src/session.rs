//! One sitting with a bird: the log of her examination and all that follows from it, where the eye is, and what the disk said.

pub mod change;
pub mod clocks;
pub mod context;
pub mod course;
pub mod draft;
pub mod flock;
mod focus;
pub mod line;
mod overlay;
pub mod practice;
mod settings;
pub mod writing;

pub use flock::{Flock, Keeping};
pub use overlay::{Face, Overlay, Page};

use crate::care::contacts::Contacts;
use crate::care::cupboard::Cupboard;
use crate::care::label::{self, Before, Given, Held, Ruled};
use crate::care::{Plan, plan};
use crate::content::course::CourseCard;
use crate::content::document::{Judged, caution_text};
use crate::content::mistyped;
use crate::content::sheet::{Sheet, SheetCase, sheet};
use crate::days::Days;
use crate::days::due::{Due, Running, due};
use crate::exam::{Exam, Hands, Place, Timer, hands, timer};
use crate::finding::figure::Figure;
use crate::finding::log::{Entry, Stamped};
use crate::finding::{Answer, Findings, Statement};
use crate::ledger::{Case, CaseId};
use crate::phrase::Text;
use crate::protocol::Protocol;
use crate::protocol::question::Question;
use crate::protocol::supply::SupplyAt;
use crate::protocol::texts::Country;
use crate::prove::{Exact, Explained, Telling, Whole, ask_next, explain, judge};
use crate::reckon::{self, Moment, ReckonError, SUMS, Sum};
use crate::typed::weight;
use crate::words::{Reader, Voice, Words};
use crate::zone::Zone;
use change::Change;
use chrono::{DateTime, Utc};
use draft::Draft;
use line::{TypedLine, TypingOf};
use practice::Practice;
use writing::Writing;

/// A sitting: everything a screen is made of.
#[derive(Clone, Debug)]
pub struct Session<'p> {
    /// The protocol.
    pub protocol: &'p Protocol,
    /// The case that lies open, once the shell has named it.
    pub case: Option<CaseId>,
    /// What the person did. The ground truth.
    pub log: Vec<Stamped>,
    /// Worked out from the log.
    pub exam: Exam<'p>,
    /// Worked out from the log.
    pub verdict: Whole,
    /// Why at least this and what would change it: worked out when somebody looks.
    pub explained: Option<Explained>,
    /// The open question that would settle most.
    pub telling: Option<Telling>,
    /// Worked out from the verdict and the cupboard.
    pub plan: Plan,
    /// The plan as cards; laid out with it.
    pub cards: Vec<CourseCard>,
    /// The log as days: sittings, a vet's words, how it ended.
    pub days: Days,
    /// What is due of this bird; worked out where somebody looks, and with the clock.
    pub due: Due,
    /// The other birds.
    pub flock: Flock,
    /// Practice, while it is on: nothing of it goes to the ledger.
    pub practice: Option<Practice>,
    /// What is in the house.
    pub cupboard: Cupboard,
    /// Whom to call.
    pub contacts: Contacts,
    /// What the person changed of the settings in this sitting: it counts before whatever is read of them later.
    pub told_here: Vec<Change>,
    /// Whether the sheet that shows tells who keeps her: asked for anew on each sheet.
    pub tells_keeper: bool,
    /// The label that was read last.
    pub label: String,
    /// What fills the screen.
    pub face: Face,
    /// Whether it was said in this sitting that enough is known to act on.
    pub enough_told: bool,
    /// The card that was turned to; none while the one that lies open shows.
    pub turned_card: Option<usize>,
    /// What lies on top, the last one uppermost.
    pub overlays: Vec<Overlay>,
    /// The row the cursor stands on, once it has been moved.
    pub cursor: Option<usize>,
    /// The page of a list longer than nine.
    pub page: usize,
    /// The first line shown of a document.
    pub scroll: usize,
    /// The line that is being typed.
    pub line: Option<TypedLine>,
    /// What is being entered with keys of its own.
    pub draft: Option<Draft>,
    /// The values of the sum that is open, in the order it takes them.
    pub values: Vec<String>,
    /// The supply that was put in last, or whose strength or date was told.
    pub told_of: Option<SupplyAt>,
    /// A sentence about the last key, until the next.
    pub notice: Option<Text>,
    /// What was judged last, where nothing that is being entered was counted in.
    judged_of: Option<Findings>,
    /// Whether it was said what leaving now would cost: the same key again leaves.
    pub leaving: bool,
    /// What was about to be said against what somebody told shows on her: it is asked once before it is taken.
    pub asked_again: Option<Vec<Entry>>,
    /// How keeping goes.
    pub keeping: Keeping,
    /// The case that was left and that the start screen offers to go on with.
    pub left: Option<Case>,
    /// The country whose law holds, or the one that stands for none.
    pub country: &'p Country,
    /// The moment.
    pub now: DateTime<Utc>,
    /// The moment of the start.
    pub since: DateTime<Utc>,
    /// The moment of the last tick: what falls due between two ticks rings once.
    pub ticked: DateTime<Utc>,
    /// The zone whose clock times are shown.
    pub zone: Zone,
    /// The catalogue all of it is said by.
    pub words: &'static Words,
    /// Whether it is said to somebody who hears it.
    pub voice: Voice,
    /// What the last screen came to: how far it can be moved on.
    pub extent: Extent,
}

/// What a screen came to when it was drawn, for whoever moves on in it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Extent {
    /// How many lines there are of what is read.
    pub lines: usize,
    /// How many of them are seen at once.
    pub height: usize,
    /// The first of them that is seen.
    pub scroll: usize,
    /// Whether nothing of it could be shown, for want of room.
    pub too_small: bool,
}

/// How long a verdict stands before the clock alone makes it worth judging again. Seconds.
pub const JUDGED_AGAIN_S: i64 = 60;

impl<'p> Session<'p> {
    /// A sitting at the start of a new examination.
    pub fn new(protocol: &'p Protocol, left: Option<Case>, now: DateTime<Utc>, zone: Zone) -> Self {
        let exam = Exam::from_log(protocol, &[]);
        let verdict = judge(protocol, &exam.findings, now);
        let cupboard = Cupboard::default();
        let plan = plan(protocol, &verdict, &cupboard, zone);
        let mut session = Self {
            protocol,
            case: None,
            log: Vec::new(),
            exam,
            telling: None,
            explained: None,
            verdict,
            plan,
            cards: Vec::new(),
            days: Days::default(),
            due: Due::default(),
            flock: Flock::default(),
            practice: None,
            cupboard,
            contacts: Contacts::default(),
            told_here: Vec::new(),
            tells_keeper: false,
            label: String::new(),
            face: Face::Exam,
            enough_told: false,
            turned_card: None,
            overlays: Vec::new(),
            cursor: None,
            page: 0,
            scroll: 0,
            line: None,
            told_of: None,
            draft: None,
            values: Vec::new(),
            notice: None,
            judged_of: None,
            leaving: false,
            asked_again: None,
            keeping: Keeping::default(),
            left,
            country: protocol.no_country(),
            now,
            since: now,
            ticked: now,
            zone,
            words: Words::english(),
            voice: Voice::Written,
            extent: Extent::default(),
        };
        session.lay_cards();
        session
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
        self.days = Days::of(&self.log);
        self.judge();
    }

    /// Works out what is due of this bird.
    pub fn work_out_due(&mut self) {
        self.due = due(self.protocol, &self.log, &self.days, &self.cupboard, self.zone, self.now);
    }

    /// Judges again, what is being entered counted as if it had been said: so its figure moves the summary at once.
    pub fn judge(&mut self) {
        self.verdict = match self.entered() {
            Some(statement) => {
                let mut findings = self.exam.findings.clone();
                let standing = judge(self.protocol, &findings, self.now);
                findings.say(statement, self.now);
                let preview = judge(self.protocol, &findings, self.now);
                // What is only half entered makes nothing milder that was answered before.
                if is_graver(&standing, &preview) { standing } else { preview }
            }
            None if self.is_judged() => self.verdict.clone(),
            None => judge(self.protocol, &self.exam.findings, self.now),
        };
        self.judged_of = self.entered().is_none().then(|| self.exam.findings.clone());
        self.plan = plan(self.protocol, &self.verdict, &self.cupboard, self.zone);
        self.lay_cards();
        self.telling =
            ask_next(self.protocol, &self.exam.findings, &self.verdict, self.exam.step(), |telling| match telling {
                Telling::Question(asked) => self.exam.may_be_asked(asked),
                Telling::Wounds => self.exam.may_look_for_wounds(),
            });
        self.explained = None;
    }

    /// Whether the verdict is of these findings and of this minute: an instruction that comes or goes changes nothing in it.
    fn is_judged(&self) -> bool {
        self.judged_of.as_ref() == Some(&self.exam.findings)
            && (self.now - self.verdict.judged_at).num_seconds().abs() < JUDGED_AGAIN_S
    }

    /// Whether what would settle most stands on the screen already.
    pub fn stands_at(&self, telling: Telling) -> bool {
        match (&self.exam.place, telling) {
            (Place::Ask(here), Telling::Question(asked)) => *here == asked,
            (Place::List(list), Telling::Question(asked)) => self.exam.signs(*list).contains(&asked),
            (Place::Wounds, Telling::Wounds) => true,
            (Place::Ask(_) | Place::List(_) | Place::Wounds | Place::Instruction(..) | Place::Done, _) => false,
        }
    }

    /// Explains the verdict, once somebody looks at it.
    pub fn explain(&mut self) {
        if self.explained.is_none() && self.shown() == Face::Verdict {
            self.explained = Some(explain(self.protocol, &self.exam.findings, &self.verdict));
        }
    }

    /// What the documents tell of.
    pub fn judged(&self) -> Judged<'_> {
        Judged { findings: &self.exam.findings, verdict: &self.verdict, explained: self.explained.as_ref() }
    }

    /// What is being entered for the question that is asked, as far as it can be read.
    pub fn entered(&self) -> Option<Statement> {
        let Place::Ask(asked) = self.exam.place else { return None };
        let question = self.protocol.ask(asked.question);
        let answer = match (&self.draft, &self.line) {
            (Some(draft), _) => Answer::Figure(draft.preview()?),
            (None, Some(line)) if line.of() == TypingOf::Answer => self.read(question, line.text()).ok()?,
            (None, Some(_) | None) => return None,
        };
        Some(Statement { about: asked.about, question: question.id.clone(), answer })
    }

    /// What was typed as an answer to a question: a weight, or the figure it takes.
    ///
    /// # Errors
    /// Where it cannot be read: what is wrong with it.
    pub fn read(&self, question: &Question, typed: &str) -> Result<Answer, Text> {
        if let Some(of) = question.figure() {
            return Figure::read(of, typed).map(Answer::Figure).map_err(|error| mistyped::told(&error));
        }
        let grams = weight::parse(typed).map_err(|error| mistyped::told(&error))?;
        let wrong = |what| mistyped::wrong(typed.trim(), mistyped::unlikely(what), mistyped::weights());
        self.exam.kind().map_or(Ok(()), |kind| kind.could_weigh(grams)).map_err(wrong)?;
        Ok(Answer::Amount(grams.0))
    }

    /// The sum that is open.
    pub fn sum(&self) -> Option<&'static Sum> {
        match self.overlays.last() {
            Some(Overlay::Sums(Some(at)) | Overlay::Page(Page::Answer(at))) => SUMS.get(*at),
            _ => None,
        }
    }

    /// The open sum done with the values as they stand, what is being typed among them.
    pub fn answer(&self) -> Option<Result<reckon::Answer, ReckonError>> {
        let sum = self.sum()?;
        let of = |at: usize| self.line.as_ref().filter(|line| line.of() == TypingOf::Value(at)).map(TypedLine::text);
        let typed = |at: usize| of(at).filter(|typed| !typed.is_empty());
        let values = sum.takes.iter().enumerate().filter_map(|(at, takes)| {
            let value = typed(at).or_else(|| self.values.get(at).map(String::as_str))?;
            (!value.is_empty()).then(|| (takes.name.to_owned(), value.to_owned()))
        });
        let moment = Moment::of(self.protocol, self.now, self.zone, self.country);
        Some(reckon::reckon(sum.name(), &values.collect::<Vec<_>>(), &moment))
    }

    /// Gives up whatever is being typed, tapped or added up.
    pub fn give_up_entering(&mut self) {
        (self.line, self.draft) = (None, None);
    }

    /// What is ruled of the label, for this bird once anything is known of her.
    pub fn ruled(&self) -> Ruled<'p> {
        let of_her = Before { findings: &self.exam.findings, verdict: &self.verdict, plan: &self.plan };
        let before = (!self.log.is_empty()).then_some(of_her);
        let (printed, given) = Given::behind(&self.label, self.zone.local(self.now).date_naive());
        let (ingredients, on) = label::on_behind(self.protocol, printed);
        label::rule(self.protocol, ingredients, Held { country: self.country, given: &given, on, before })
    }

    /// The sheet she is handed over with, as things stand.
    pub fn sheet(&self) -> Sheet {
        let told = SheetCase {
            log: &self.log,
            days: &self.days,
            findings: &self.exam.findings,
            verdict: &self.verdict,
            plan: &self.plan,
            due: &due(self.protocol, &self.log, &self.days, &self.cupboard, self.zone, self.now),
            practice: self.practice.is_some() || self.flock.practice,
            keeper: self.tells_keeper.then_some(&self.contacts),
        };
        // It is read by others, and on paper.
        let reader = Reader { voice: Voice::Written, ..self.reader() };
        reader.sheet(&sheet(self.protocol, told, reader, self.now))
    }

    /// For whom documents are written.
    pub fn reader(&self) -> Reader<'p> {
        Reader { zone: self.zone, country: self.country, words: self.words, voice: self.voice }
    }

    /// A text as it is read.
    pub fn say(&self, text: impl Into<Text>) -> String {
        self.reader().say(&text.into())
    }

    /// The caution, with what it says of the law.
    pub fn caution(&self) -> Text {
        caution_text(self.country)
    }

    /// Keeps what layout learnt: how far one can move on, and from which line what is read is seen.
    pub const fn learn(&mut self, extent: Extent) {
        self.extent = extent;
        self.scroll = extent.scroll;
    }

    /// What is being typed, if anything is.
    pub fn typed(&self) -> Option<&str> {
        self.line.as_ref().map(TypedLine::text)
    }

    /// What is being written, where that is for the case.
    pub fn writing(&self) -> Option<Writing> {
        match self.line.as_ref()?.of() {
            TypingOf::Case(writing) => Some(writing),
            TypingOf::Answer | TypingOf::Blood | TypingOf::Supply(_) | TypingOf::Label | TypingOf::Value(_) => None,
        }
    }

    /// Begins to type.
    pub fn begin_line(&mut self, of: TypingOf) {
        self.line = Some(TypedLine::new(of));
    }

    /// Whether a clock runs for the bird that lies open.
    pub fn is_own(&self, clock: &Running) -> bool {
        self.log.first().is_some_and(|first| clock.is_of(self.case.as_ref(), first.at))
    }

    /// Where the bird is.
    pub fn hands(&self) -> Hands {
        hands(&self.log)
    }

    /// The step that is being timed.
    pub fn timer(&self) -> Option<Timer> {
        timer(&self.log)
    }

    /// The face that shows: a finished examination shows its verdict.
    pub fn shown(&self) -> Face {
        // In practice the program's own verdict is not shown before the novice's.
        if self.practice.is_some() {
            return Face::Exam;
        }
        // Of a case that is over nothing more is asked.
        let over = self.days.over().is_some();
        match (self.face, &self.exam.place) {
            (Face::Exam, Place::Done) => Face::Verdict,
            (Face::Exam, _) if over => Face::Verdict,
            (face, _) => face,
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
        self.flock.typed.clear();
    }
}

/// Whether one verdict stands higher on any scale than another.
fn is_graver(one: &Exact, other: &Exact) -> bool {
    one.need.low > other.need.low || one.humane.low > other.humane.low || one.authority.low > other.authority.low
}
