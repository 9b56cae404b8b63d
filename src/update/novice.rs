//! What a novice is asked next: what was chosen goes on, and where nothing of it is left, the choice comes again.

use crate::exam::Place;
use crate::finding::log::{Entry, Stamped};
use crate::protocol::question::Step;
use crate::protocol::table::At;
use crate::session::{Overlay, Session};

/// After something was said: what comes next is the novice's choice, or the question that is turned to.
pub(super) fn after(session: &mut Session, before: Option<At<Step>>) -> Option<Entry> {
    let practice = session.practice.as_ref()?;
    let paired = practice.pair.is_some();
    let on = practice.on().is_some() || paired;
    if !on || !session.overlays.is_empty() {
        return None;
    }
    let comes = match &session.exam.place {
        Place::Done if paired => Overlay::HandOver,
        _ if paired => return None,
        Place::Instruction(at, _) if *at == session.protocol.roles.rest => return None,
        Place::Instruction(..) => Overlay::Deeds,
        Place::Done => Overlay::Map(None),
        Place::Ask(_) | Place::List(_) | Place::Wounds => return stay_in_step(session, before),
    };
    session.overlays.push(comes);
    None
}

/// Asks on in the step that was chosen; where nothing of it is left, which one comes next is chosen.
fn stay_in_step(session: &mut Session, before: Option<At<Step>>) -> Option<Entry> {
    let step = session.practice.as_ref().and_then(|practice| practice.step).or(before);
    let step = step.filter(|_| !session.exam.turned)?;
    if session.exam.step() == Some(step) {
        return None;
    }
    if let Some(entry) = session.exam.first_waiting(step) {
        return Some(entry);
    }
    if let Some(practice) = &mut session.practice {
        practice.step = None;
    }
    session.overlays.push(Overlay::Map(None));
    None
}

/// What an entry that takes something back means for the step that was chosen.
pub(super) fn follow_back(session: &mut Session) {
    let step = session.exam.step();
    if let Some(practice) = &mut session.practice {
        practice.step = step;
    }
}

/// Whether the last thing said was taken back.
pub(super) fn took_back(session: &Session) -> bool {
    matches!(session.log.last(), Some(Stamped { entry: Entry::TookBack, .. }))
}
