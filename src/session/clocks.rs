//! What goes by the clock: the instruction that fills the screen, the hand that holds her, the clocks of birds that were left.

use super::Session;
use crate::care::PlanStep;
use crate::days::due::Running;
use crate::exam::Hands;
use crate::finding::log::Entry;
use crate::protocol::rule::{ActionAt, Instruction};
use chrono::{DateTime, TimeDelta, Utc};

/// The instruction that runs, if one does: it fills the screen, unless a question lies over it.
pub fn showing<'p>(session: &Session<'p>) -> Option<&'p Instruction> {
    let (running, _) = session.exam.running?;
    Some(session.protocol.instruction(running))
}

/// The first step of the instruction that is done by the clock, where one is.
pub fn timed(session: &Session) -> Option<ActionAt> {
    let by_the_clock =
        |act: &&ActionAt| session.protocol.ways.iter().any(|way| way.act == **act && way.timer_s.is_some());
    showing(session)?.acts.iter().find(by_the_clock).copied()
}

/// When its timer runs out.
pub fn ends_at(session: &Session) -> Option<DateTime<Utc>> {
    let (_, since) = session.exam.running?;
    Some(since + TimeDelta::seconds(i64::from(showing(session)?.timer_s?)))
}

/// The time left on its timer; below zero once it has run out. Where the clock was set back, no more than the whole of it.
pub fn time_left(session: &Session) -> Option<TimeDelta> {
    let whole = TimeDelta::seconds(i64::from(showing(session)?.timer_s?));
    ends_at(session).map(|end| (end - session.now).min(whole))
}

/// What is pressed by an instruction whose minutes are not over yet, left or not, as long as she still needs it.
pub fn pressing(session: &Session) -> Option<ActionAt> {
    let protocol = session.protocol;
    session.log.iter().rev().find_map(|stamped| {
        let Entry::Began(id) = &stamped.entry else { return None };
        let begun = protocol.instruction(protocol.instructions.at(id.as_str())?);
        let lasts = TimeDelta::seconds(i64::from(begun.timer_s?));
        let press = begun.acts.iter().copied().find(|act| protocol.action(*act).presses)?;
        let wanted = session.plan.steps.iter().filter_map(PlanStep::act).any(|target| target.action == press);
        (stamped.at + lasts > session.now && wanted).then_some(press)
    })
}

/// What a hand goes on pressing: also once the minutes are over, until somebody has said what came of it.
pub fn by_hand(session: &Session) -> Option<ActionAt> {
    let timed = || {
        let timer = session.timer()?;
        let mut planned = session.plan.steps.iter().filter_map(PlanStep::act).map(|target| target.action);
        planned.find(|act| {
            let action = session.protocol.action(*act);
            action.presses && action.id == timer.action
        })
    };
    pressing(session).or_else(timed)
}

/// Whether the top line has room to tell of a clock whose time is up.
pub fn tells_of_clocks(session: &Session) -> bool {
    session.keeping.refusal.is_none() && !held_too_long(session)
}

/// The clock of another bird whose time is up, the first of them, by its place among the clocks.
pub fn up_elsewhere<'m>(session: &'m Session) -> Option<(usize, &'m Running)> {
    let up = session.flock.clocks.iter().enumerate().filter(|(_, clock)| clock.ends_at <= session.now);
    up.min_by_key(|(_, clock)| clock.ends_at)
}

/// Whether she has been held for longer than she may be.
pub fn held_too_long(session: &Session) -> bool {
    too_long_from(session).is_some_and(|from| from <= session.now)
}

/// From when on the bird has been held for longer than she may be.
pub fn too_long_from(session: &Session) -> Option<DateTime<Utc>> {
    match session.hands() {
        Hands::Held(since) => Some(since + TimeDelta::seconds(i64::from(session.protocol.hold_s))),
        Hands::NotYet | Hands::Down(_) => None,
    }
}
