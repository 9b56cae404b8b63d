//! Screens as plain data: what stands on one, in the order it is read, whoever draws or speaks it.
//!
//! ```text
//!  Session ──► View ──► screen: lines in areas, styles by meaning
//!                  └──► spoken: one thought a line
//! ```
//!
//! Whoever shows a [`View`] has to show every [`Scene`]: one that nobody speaks does not compile.

pub mod birds;
pub mod body;
pub mod calls;
pub mod card;
pub mod choices;
pub mod clock;
pub mod clock_line;
pub mod document;
pub mod entering;
pub mod graph;
pub mod header;
pub mod help;
pub mod hints;
pub mod instruction;
pub mod keys;
pub mod line;
pub mod meaning;
pub mod named;
pub mod practice_bird;
pub mod question;
pub mod read;
pub mod rows;
pub mod running;
pub mod summary;
pub mod sums;
pub mod track;
pub mod why;

use crate::exam::Place;
use crate::phrase::page as phrase;
use crate::session::context::Context;
use crate::session::{Face, Overlay, Session};
use crate::words::Reader;
use card::CardView;
use entering::EnteringView;
use header::HeaderView;
use help::HelpView;
use hints::Hint;
use instruction::InstructionView;
use keys::Action;
use question::QuestionView;
use read::DocumentView;
use running::ClockView;
use summary::SummaryView;
use sums::SumsView;
use track::TrackView;
use why::WhyView;

/// A screen: all that stands on it, said and in the order it is read.
#[derive(Clone, Debug)]
pub struct View<'p> {
    /// Which bird, what goes by the clock, and what has to be said above everything.
    pub header: HeaderView,
    /// The word that tells practice, while it is on.
    pub practice: Option<String>,
    /// Where we are, head to tail; nothing where that is not asked.
    pub track: Option<TrackView>,
    /// How she stands so far; nothing where a document is read, nothing is known yet, or her case is over.
    pub summary: Option<SummaryView>,
    /// What fills the rest.
    pub scene: Scene,
    /// What the last key came to.
    pub notice: Option<String>,
    /// Where keys go.
    pub context: Context,
    /// The keys that work now.
    pub hints: Vec<Hint>,
    /// What is said where more stands below than shows.
    pub more_below: String,
    /// The line the cursor stands on, once it has been moved.
    pub focus: Option<usize>,
    /// Whether something is typed: the eye is at that line.
    pub typing: bool,
    /// The first line shown of what is read.
    pub scroll: usize,
    /// What to do first for the bird: all there is room for on a screen too small for anything else.
    pub first_act: Option<String>,
    /// The clocks that run.
    pub clocks: Vec<ClockView>,
    /// By whom it is said: how large a screen is, is known only where it is drawn.
    pub reader: Reader<'p>,
}

/// What fills a screen.
#[derive(Clone, Debug)]
pub enum Scene {
    /// Something is asked, and answered with a numbered line or by typing.
    Question(Box<QuestionView>),
    /// The sums, or one of them.
    Sums(SumsView),
    /// Blood, breaths or a vein, entered with keys of their own.
    Entering(EnteringView),
    /// What to do now, while nothing else counts.
    Instruction(InstructionView),
    /// A card of the course.
    Card(Option<CardView>),
    /// Verdict, plan or a page.
    Document(DocumentView),
    /// Why.
    Why(WhyView),
    /// How to look, and the keys.
    Help(HelpView),
}

impl<'p> View<'p> {
    /// What shows now.
    pub fn of(session: &Session<'p>) -> Self {
        let scene = scene(session);
        let is_over = session.days.over().is_some();
        let begins = session.log.is_empty();
        let reads = scene.is_read();
        let lessons = session.overlays.last() == Some(&Overlay::Lessons);
        let sums_up = !reads && !begins && session.practice.is_none() && !is_over;
        let first = session.plan.steps.first();
        let more_below = if reads {
            phrase::next_below()
        } else {
            named::key(session, Action::Down).map_or_else(phrase::more_lines, phrase::more_lines_key)
        };
        Self {
            header: HeaderView::of(session),
            practice: session.practice.is_some().then(|| session.say(phrase::practice())),
            track: (!reads && !lessons && !is_over).then(|| TrackView::of(session)),
            summary: sums_up.then(|| SummaryView::of(session)),
            notice: session.notice.as_ref().map(|notice| session.reader().say(notice)),
            context: session.context(),
            hints: hints::of(session),
            more_below: session.say(more_below),
            focus: session.cursor,
            typing: session.line.is_some(),
            scroll: session.scroll,
            first_act: first.map(|step| session.say(step.say(session.protocol, &session.verdict, &session.plan))),
            clocks: running::of(session),
            reader: session.reader(),
            scene,
        }
    }
}

impl Scene {
    /// Whether it is read, rather than answered.
    pub const fn is_read(&self) -> bool {
        matches!(self, Self::Card(_) | Self::Document(_) | Self::Why(_) | Self::Help(_))
    }
}

fn scene(session: &Session) -> Scene {
    let read = match session.overlays.last() {
        // A label is typed first, then read.
        Some(top) => top.lies().read && session.line.is_none(),
        None => session.shown() != Face::Exam,
    };
    if read {
        return match session.overlays.last() {
            Some(Overlay::Why(line)) => Scene::Why(WhyView::of(session, *line)),
            Some(Overlay::Help) => Scene::Help(HelpView::of(session)),
            None if session.shown() == Face::Course => Scene::Card(card::shown(session)),
            _ => Scene::Document(DocumentView::of(session)),
        };
    }
    if session.overlays.is_empty() && matches!(session.exam.place, Place::Instruction(..)) {
        return Scene::Instruction(InstructionView::of(session));
    }
    if let Some(Overlay::Sums(at)) = session.overlays.last() {
        return Scene::Sums(SumsView::of(session, *at));
    }
    match session.draft.as_ref().filter(|_| session.overlays.is_empty()) {
        Some(draft) => Scene::Entering(EnteringView::of(session, draft)),
        None => Scene::Question(Box::new(QuestionView::of(session))),
    }
}
