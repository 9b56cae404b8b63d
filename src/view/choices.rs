//! The numbered lines as they are read: each with its key, and what can be said in place of them.

use super::keys::Action;
use super::line::ChosenBy;
use super::meaning::Meaning;
use super::named::pressed;
use super::rows;
use crate::exam::Place;
use crate::finding::Answer;
use crate::phrase::{Phrase, question as phrase, terms};
use crate::session::Session;
use crate::session::context::Context;

/// The lines of the page that shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChoicesView {
    /// What can be chosen, in order.
    pub lines: Vec<ChoiceView>,
    /// What 0 says where one does not look for wounds.
    pub cannot_look: Option<String>,
    /// What 0 says where one cannot tell, and whether that stands.
    pub cannot_tell: Option<(bool, String)>,
    /// The key that shows more of them, and what it says.
    pub more: Option<(String, String)>,
}

/// A line to choose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChoiceView {
    /// Its key.
    pub key: String,
    /// Whether the key is a number of its own, wherever the line stands.
    pub numbered: bool,
    /// What it says.
    pub label: String,
    /// Whether it is what stands now.
    pub marked: bool,
    /// Whether it can no longer change how soon; words say so too.
    pub faint: bool,
}

impl ChoicesView {
    /// Those that show now.
    pub fn of(session: &Session) -> Self {
        let page = rows::page(session);
        let mut figure = 0;
        let mut key = |by: &ChosenBy| match by {
            ChosenBy::Place => {
                figure += 1;
                figure.to_string()
            }
            ChosenBy::Number(number) => number.clone(),
            ChosenBy::Always => pressed(session, Action::AsAlways),
        };
        let lines = page.iter().map(|row| ChoiceView {
            key: key(&row.by),
            numbered: row.number().is_some(),
            label: session.reader().say(&row.label),
            marked: row.marked,
            faint: row.faint,
        });
        let lines = lines.collect();
        let all_told = matches!(page.last().map(|row| &row.meaning), Some(Meaning::LeaveList));
        let looks = session.context() == Context::Look;
        let at_wounds = session.context() == Context::Wounds || (looks && session.exam.place == Place::Wounds);
        let in_look = looks && matches!(session.exam.place, Place::Ask(_) | Place::List(_));
        let asks = in_look || matches!(session.context(), Context::Ask | Context::Body | Context::List);
        let cannot_tell = (asks && !all_told).then(|| cannot_tell(session));
        let pages = rows::pages(session);
        let more = (pages > 1).then(|| {
            let all = rows::rows(session).len();
            let more = phrase::more(session.page + 1, pages);
            // Once one moves among them, which of all the lines one stands on.
            let at = session.cursor.map(|at| (session.page * rows::PAGE + at + 1).min(all));
            session.say(at.map_or(more.clone(), |at| phrase::more_at(more, at, all)))
        });
        Self {
            lines,
            cannot_look: at_wounds.then(|| session.say(phrase::cannot_look())),
            cannot_tell: cannot_tell.map(|(marked, label)| (marked, session.say(label))),
            more: more.map(|more| (pressed(session, Action::More), more)),
        }
    }
}

/// Whether "cannot tell" stands, and what it says here.
fn cannot_tell(session: &Session) -> (bool, Phrase) {
    let Place::Ask(asked) = &session.exam.place else { return (false, terms::cannot_tell()) };
    let by_kind = session.protocol.ask(asked.question).is_weight();
    let label = if by_kind { phrase::by_her_kind() } else { terms::cannot_tell() };
    (session.exam.said_now(*asked) == Some(&Answer::CannotTell), label)
}
