//! The clocks that run, each with whose it is: for whoever tells the time left in words.

use super::header::{on_the_card, step};
use crate::days::due;
use crate::phrase::Text;
use crate::session::Session;
use crate::session::clocks::time_left;
use chrono::{DateTime, TimeDelta, Utc};

/// A clock that runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClockView {
    /// Whose it is.
    pub bird: String,
    /// What goes by it.
    pub what: String,
    /// When its time is up.
    pub ends_at: DateTime<Utc>,
    /// The time left; 0 once it is up. Seconds.
    pub left_s: u64,
}

/// The clocks of the bird that lies open, and of those that were left.
pub fn of(session: &Session) -> Vec<ClockView> {
    // In practice what to do at once, and for how long, is the novice's to know.
    let instructed = time_left(session).filter(|_| session.practice.is_none());
    let instructed = instructed.map(|left| (on_the_card(session), left));
    let timed = session.timer().and_then(|timer| {
        let what = Text::quoted(&step(session, &timer)?.verb);
        Some((what, timer.left(session.now)))
    });
    let her = || session.say(Text::opening(due::bird(session.protocol, &session.log, &session.days)));
    let own = [timed, instructed].into_iter().flatten();
    let own = own.map(|(what, left)| clock(session, her(), session.say(what), session.now + left));
    let others = session.flock.clocks.iter().map(|other| {
        let (bird, what) = (Text::opening(other.bird.clone()), other.what.clone());
        clock(session, session.say(bird), session.say(what), other.ends_at)
    });
    own.chain(others).collect()
}

fn clock(session: &Session, bird: String, what: String, ends_at: DateTime<Utc>) -> ClockView {
    let left = (ends_at - session.now).max(TimeDelta::zero());
    ClockView { bird, what, ends_at, left_s: left.num_seconds().unsigned_abs() }
}
