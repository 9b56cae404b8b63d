//! The clock key: what it does at this moment, and the lines that say so.

use super::document;
use crate::phrase::Text;
use crate::protocol::rule::ActionAt;
use crate::session::Session;
use crate::session::clocks::{tells_of_clocks, time_left, timed, up_elsewhere};
use crate::session::context::Context;
use chrono::TimeDelta;

/// What the clock key does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Press {
    /// Ends the clock that runs for this bird.
    End,
    /// Ends the clock of a bird that was left, by its place among them.
    EndLeft(usize),
    /// Starts the clock of a step, so many seconds.
    Start(ActionAt, u16),
    /// Nothing: the clock of the instruction runs already.
    Runs,
    /// Nothing: nothing here goes by the clock.
    Nothing,
}

/// What the clock key does now.
pub fn press(session: &Session) -> Press {
    let step = match session.context() {
        Context::Plan => document::timed(session),
        Context::Course => session.timed_here(),
        _ => None,
    };
    press_at(session, session.cursor.is_some(), step)
}

/// What it does with the cursor on a step, or without one on the first that goes by the clock.
pub(super) fn press_at(session: &Session, at_cursor: bool, step: Option<(ActionAt, u16)>) -> Press {
    let timer = session.timer();
    let is_up = timer.as_ref().is_some_and(|timer| timer.left(session.now) <= TimeDelta::zero());
    let left = up_elsewhere(session).map(|(at, _)| at);
    // What the top line says of this key comes before everything.
    match left {
        _ if is_up => return Press::End,
        Some(left) if tells_of_clocks(session) => return Press::EndLeft(left),
        _ => {}
    }
    let own = |action: ActionAt| timer.as_ref().is_some_and(|timer| timer.action == session.protocol.action(action).id);
    match (&timer, step, left) {
        (Some(_), Some((action, seconds)), _) if at_cursor && !own(action) => Press::Start(action, seconds),
        (Some(_), ..) => Press::End,
        (None, Some((action, _)), _) if timed(session) == Some(action) => Press::Runs,
        (None, Some((action, seconds)), _) => Press::Start(action, seconds),
        (None, None, Some(left)) => Press::EndLeft(left),
        (None, None, None) if time_left(session).is_some() => Press::Runs,
        (None, None, None) => Press::Nothing,
    }
}

/// Whether the instruction on screen goes by a clock whose time is not over.
pub fn runs_on_screen(session: &Session) -> bool {
    time_left(session).is_some_and(|left| left > TimeDelta::zero())
}

/// Minutes and seconds of a clock; nothing is left of a time that is up.
pub fn minutes(seconds: i64) -> Text {
    Text::Left(u64::try_from(seconds).unwrap_or(0))
}
