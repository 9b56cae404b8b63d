//! What is seen of the practice bird where one looks.

use crate::content::lessons;
use crate::phrase::{Phrase, Text, lesson as phrase};
use crate::practice::{Course, Shows, Trial};
use crate::protocol::question::{Asked, ListAt};
use crate::session::Session;

/// What is seen of the practice bird at a place, and how it comes to one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// "You are told", "You see", "You find".
    pub how: Phrase,
    /// What.
    pub what: Text,
}

/// The practice bird as she stands.
pub fn course<'m>(session: &'m Session) -> Option<(&'m Trial, Course<'m>)> {
    let trial = session.practice.as_ref()?.on()?;
    Some((trial, trial.course(&session.log, session.now)))
}

/// What is seen where one question points.
pub fn shown(session: &Session, asked: Asked) -> Option<Shown> {
    let (trial, course) = course(session)?;
    let what = trial.shows(session.protocol, &course, asked);
    let what = what.map_or_else(|| phrase::not_told().into(), |shows| said(session, asked, &shows));
    Some(Shown { how: how(session, asked), what })
}

/// What is seen there.
fn said(session: &Session, asked: Asked, shows: &Shows) -> Text {
    lessons::shows(session.protocol.ask(asked.question), shows)
}

/// What is seen of all the signs of a list.
pub fn shown_of_list(session: &Session, list: ListAt) -> Option<Vec<Shown>> {
    let (trial, course) = course(session)?;
    let is_there = |asked: &Asked| {
        let question = session.protocol.ask(asked.question);
        let said = course.truth.answer(asked.about, question.id.as_str()).map(|said| &said.statement.answer);
        let finest = question.first_answer();
        said.is_some() && said != finest.as_ref()
    };
    let signs: Vec<Asked> = session.exam.signs(list).into_iter().filter(is_there).collect();
    if signs.is_empty() {
        return Some(vec![Shown { how: phrase::you_see(), what: phrase::nothing_of_the_kind().into() }]);
    }
    let told = |asked: &Asked| {
        let what = trial.shows(session.protocol, &course, *asked)?;
        Some(Shown { how: how(session, *asked), what: said(session, *asked, &what) })
    };
    Some(signs.iter().filter_map(told).collect())
}

/// What is seen by who looks for wounds.
pub fn shown_of_wounds(session: &Session) -> Option<Shown> {
    let (_, course) = course(session)?;
    let (found, there) = (session.exam.findings.wounds(), course.truth.wounds());
    let what = match (found < there, found) {
        (true, 0) => phrase::something(),
        (true, _) => phrase::another(),
        (false, 0) => phrase::skin_whole(),
        (false, _) => phrase::no_other(),
    };
    Some(Shown { how: phrase::you_find(), what: what.into() })
}

fn how(session: &Session, asked: Asked) -> Phrase {
    let at = session.protocol.ask(asked.question).step;
    match session.protocol.steps.of(at) {
        step if step.hands_on => phrase::you_find(),
        _ if session.protocol.roles.told_steps.contains(&at) => phrase::you_are_told(),
        _ => phrase::you_see(),
    }
}
