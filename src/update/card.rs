//! An instruction that fills the screen: how it is put aside, and what one key asks while it runs.

use super::record::record;
use super::traffic::Effect;
use super::{enough, timing};
use crate::exam::{self, Place};
use crate::finding::Id;
use crate::finding::log::Entry;
use crate::phrase::{Text, clock, notice};
use crate::protocol::rule::{ActionAt, InstructionAt};
use crate::session::clocks;
use crate::session::{Face, Session};
use crate::view::clock as of_clock;
use crate::view::named;
use chrono::{DateTime, Utc};

/// Ends the instruction and asks what has come of it.
pub(super) fn end_instruction(session: &mut Session) -> Vec<Effect> {
    let Place::Instruction(at, since) = session.exam.place else { return Vec::new() };
    let asks = exam::asks_after(session.protocol, &session.log, at);
    let left = left(session);
    let undone = undone(session, at, since);
    let done = undone.is_none();
    // What is done by the clock goes on with the check beside it, and its clock with it.
    let timed = clocks::timed(session).filter(|_| left > 0 && done);
    let goes_on = timed.and_then(|action| Some(timing::started(session, action, u16::try_from(left).ok()?)));
    let runs_on = goes_on.is_some();
    // What has come of it is asked when its time is up.
    let asks = asks.filter(|_| !runs_on);
    let entries = goes_on.into_iter().chain([exam::ended(session.protocol, at)]).chain(asks.map(Entry::Turned));
    let effects = record(session, entries.collect());
    if session.notice.is_none() {
        session.notice = match (undone, left > 0) {
            (Some(act), _) => Some(clock::not_done(Text::quoted(&session.protocol.action(act).say)).into()),
            (None, true) => Some(still_to_go(session, left, runs_on)),
            (None, false) => None,
        };
    }
    effects
}

/// The seconds left on the clock of the instruction that runs.
pub(super) fn left(session: &Session) -> i64 {
    clocks::time_left(session).map_or(0, |left| left.num_seconds())
}

/// What an instruction put aside before its time leaves to do.
pub(super) fn still_to_go(session: &Session, left: i64, runs_on: bool) -> Text {
    let put_aside = exam::put_aside(session.protocol, &session.log).is_some();
    let back = named::back(session).filter(|_| put_aside);
    let left = clock::still_to_go(of_clock::minutes(left));
    let runs_on = runs_on.then(clock::runs_on);
    Text::row([left].into_iter().chain(runs_on).chain(back.map(clock::goes_back)))
}

/// What the instruction tells to do and nobody does. Who examines a bird does it; with a bird on paper it is done where it was
/// chosen: no clock runs for a hand that does not press.
fn undone(session: &Session, at: InstructionAt, since: DateTime<Utc>) -> Option<ActionAt> {
    let trial = session.practice.as_ref()?.on()?;
    let instruction = session.protocol.instruction(at);
    let acts = match clocks::timed(session) {
        Some(timed) => vec![timed],
        None => instruction.acts.clone(),
    };
    let chosen = |id: &Id| trial.deeds.iter().any(|deed| deed.action == *id && deed.at >= since);
    let is_done = acts.iter().any(|act| chosen(&session.protocol.action(*act).id));
    acts.first().copied().filter(|_| !is_done)
}

/// Asks what one key asks while the instruction runs; its clock runs on.
pub(super) fn ask_beside(session: &mut Session) -> Vec<Effect> {
    let Some(asked) = session.exam.asks_beside() else {
        session.notice = Some(notice::nothing_asked().into());
        return Vec::new();
    };
    let spot = session.exam.spot(asked);
    record(session, vec![Entry::Went(Some(spot))])
}

/// That it is time to go, once the time of what she was given has gone by.
pub(super) fn go_in_time(session: &mut Session) -> Vec<Effect> {
    let bare = session.overlays.is_empty() && matches!(session.face, Face::Exam | Face::Course);
    let Some(entry) = enough::go(session).filter(|_| bare) else { return Vec::new() };
    session.face = Face::Exam;
    let mut effects = record(session, vec![entry]);
    effects.push(Effect::Bell);
    effects
}

/// One goes: the card of the way shows.
pub(super) fn gone(session: &mut Session) -> Vec<Effect> {
    let effects = end_instruction(session);
    (session.face, session.turned_card) = (Face::Course, None);
    effects
}
