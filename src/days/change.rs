//! What has changed since the sitting before: each question answered in both, and which way it went.

use super::{Days, known};
use crate::finding::log::{self, Stamped};
use crate::finding::{About, Answer, Said};
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, Question};
use chrono::{DateTime, Utc};

/// Which way an answer went.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// Worse, or no longer to be told.
    Worse,
    /// Otherwise; whether for better or worse the answers do not say.
    Otherwise,
    /// Better.
    Better,
}

/// One question whose answer is another than last time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The question.
    pub asked: Asked,
    /// Its last answer before this sitting; none where it was not asked then.
    pub before: Option<Said>,
    /// Its answer now.
    pub now: Answer,
    /// Which way it went.
    pub way: Way,
}

/// What has changed at the last sitting against all before it, and when the one before ended; nothing at a first sitting.
pub fn changes(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<(DateTime<Utc>, Vec<Change>)> {
    let [.., earlier, last] = days.sittings.as_slice() else { return None };
    let before = known(log, earlier);
    let now = known(log, last);
    let since = |said: &&Said| said.at >= last.began;
    let mut changes: Vec<Change> = Vec::new();
    for said in now.said().iter().filter(since) {
        let statement = &said.statement;
        let Some(question) = protocol.question_at(statement.question.as_str()) else { continue };
        let asked = Asked { about: statement.about, question };
        let (now, before) = (
            now.answer(statement.about, statement.question.as_str()),
            before.answer(statement.about, statement.question.as_str()),
        );
        let (Some(now), false) = (now, changes.iter().any(|change| change.asked == asked)) else { continue };
        if let Some(way) = way(protocol.ask(question), before, &now.statement.answer) {
            changes.push(Change { asked, before: before.cloned(), now: now.statement.answer.clone(), way });
        }
    }
    changes.sort_by_key(|change| (change.way, change.asked.about != About::Bird, change.asked));
    Some((earlier.ended, changes))
}

/// Which way an answer went; nothing where it is the same, or is fine and was not asked before.
fn way(question: &Question, before: Option<&Said>, now: &Answer) -> Option<Way> {
    let place = |answer: &Answer| match answer {
        Answer::Choice(id) => question.choice_at(id.as_str()),
        // As bad as the worst.
        Answer::CannotTell => Some(u8::MAX),
        Answer::Figure(_) | Answer::Amount(_) => None,
    };
    let before = before.map(|said| &said.statement.answer);
    if before == Some(now) {
        return None;
    }
    Some(match (before.map(place), place(now)) {
        (None, Some(0)) => return None,
        (None, Some(_)) if question.ordered => Way::Worse,
        (Some(Some(was)), Some(is)) if question.ordered && is > was => Way::Worse,
        (Some(Some(was)), Some(is)) if question.ordered && is < was => Way::Better,
        _ => Way::Otherwise,
    })
}

/// The same for a log that is being written: worked out from what stands in it.
pub fn of(protocol: &Protocol, log: &[Stamped]) -> Option<(DateTime<Utc>, Vec<Change>)> {
    changes(protocol, log, &Days::of(log)).filter(|_| !log::standing(log).is_empty())
}
