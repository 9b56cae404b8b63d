//! What is said of a step's clock beside it, and of the clock key among the keys.

use super::clock::{Press, minutes, press, press_at};
use super::keys::Action;
use super::named;
use crate::phrase::{Phrase, Text, clock as phrase, keys};
use crate::protocol::rule::ActionAt;
use crate::session::Session;
use crate::session::clocks::{time_left, timed};
use crate::session::context::Context;
use chrono::TimeDelta;

/// What the clock key says of itself in the footer.
pub fn hint(session: &Session) -> Phrase {
    match press(session) {
        Press::End | Press::EndLeft(_) => keys::hint_end_clock(),
        Press::Start(..) | Press::Runs | Press::Nothing => keys::hint_clock(),
    }
}

/// What is said beside a step that goes by the clock: the time left where its clock runs, and what the key does to it.
pub fn beside(session: &Session, now: Press, here: bool, (action, seconds): (ActionAt, u16)) -> Text {
    let key = named::key(session, Action::Clock).filter(|_| session.context() == Context::Plan);
    let id = &session.protocol.action(action).id;
    if let Some(timer) = session.timer().filter(|timer| timer.action == *id) {
        let ends = key.filter(|_| now == Press::End).map(phrase::key_ends);
        return Text::row([told(timer.left(session.now))].into_iter().chain(ends));
    }
    if let (Some(left), true) = (time_left(session), timed(session) == Some(action)) {
        return Text::row([told(left), phrase::beside_runs()]);
    }
    let moved = press_at(session, true, Some((action, seconds))) == Press::Start(action, seconds);
    let starts = if here && now == Press::Start(action, seconds) {
        key.map(phrase::key_starts)
    } else {
        key.filter(|_| moved).map(phrase::key_moves)
    };
    Text::row([phrase::beside(seconds / 60)].into_iter().chain(starts))
}

/// The time left on a clock that runs.
fn told(left: TimeDelta) -> Phrase {
    if left > TimeDelta::zero() { phrase::beside_to_go(minutes(left.num_seconds())) } else { phrase::beside_up() }
}
