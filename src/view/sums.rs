//! The sums by themselves: a list of them, or one with its values and what it comes to.

use super::choices::ChoicesView;
use super::question::TypingView;
use crate::phrase::{Text, question as phrase, terms};
use crate::reckon::Sum;
use crate::session::Session;
use crate::session::line::{TypedLine, TypingOf};

/// The sums, or one of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SumsView {
    /// All of them, to choose one.
    List {
        /// What is asked.
        ask: String,
        /// The sums.
        choices: ChoicesView,
    },
    /// One of them.
    Sum(SumView),
}

/// A sum with its values.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SumView {
    /// What it is about.
    pub about: String,
    /// How a value is told.
    pub values: ValuesView,
    /// What it comes to, the answer first.
    pub answer: Vec<String>,
    /// What has to be said beside it.
    pub notes: Vec<String>,
    /// What is wrong with the values.
    pub fault: Option<String>,
    /// The caution.
    pub caution: String,
}

/// How a value of a sum is told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ValuesView {
    /// One is chosen.
    Choosing(ChoicesView),
    /// One is typed: what it is, the line, and an example.
    Typing(String, TypingView, Option<String>),
}

impl SumsView {
    /// What lies on top.
    pub fn of(session: &Session, at: Option<usize>) -> Self {
        match session.sum().filter(|_| at.is_some()) {
            Some(sum) => Self::Sum(SumView::of(session, sum)),
            None => Self::List { ask: session.say(phrase::sum()), choices: ChoicesView::of(session) },
        }
    }
}

/// At most so many notes stand beside an answer; all of them stand in the answer in full.
const NOTES: usize = 2;

impl SumView {
    fn of(session: &Session, sum: &Sum) -> Self {
        let (mut answer, mut notes, mut fault) = (Vec::new(), Vec::new(), None);
        match session.answer() {
            Some(Ok(told)) => {
                let line = |line: &crate::reckon::AnswerLine| terms::named(line.what.clone(), line.told.clone());
                answer = told.lines.iter().map(|of| session.say(line(of))).collect();
                notes = told.notes.iter().take(NOTES).map(|note| session.say(note.clone())).collect();
            }
            // What is missing stands in its own row already; while something is typed it may not be complete yet.
            Some(Err(error)) if session.notice.is_none() && !error.is_missing() && session.line.is_none() => {
                fault = Some(session.say(error.told()));
            }
            Some(Err(_)) | None => {}
        }
        Self {
            about: session.say(Text::opening((sum.about)())),
            values: values(session, sum),
            answer,
            notes,
            fault,
            caution: session.say(session.caution()),
        }
    }
}

fn values(session: &Session, sum: &Sum) -> ValuesView {
    let Some(TypingOf::Value(at)) = session.line.as_ref().map(TypedLine::of) else {
        return ValuesView::Choosing(ChoicesView::of(session));
    };
    let takes = sum.takes.get(at);
    let what = takes.map_or_else(Text::default, |takes| (takes.what)().into());
    let example = takes.and_then(|takes| sum.example.iter().find(|(name, _)| *name == takes.name));
    let example = example.map(|(_, example)| session.say(phrase::for_example(Text::typed(*example))));
    ValuesView::Typing(session.say(what), TypingView::of(session), example)
}
