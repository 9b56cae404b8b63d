//! What follows by itself from what was said: a question that comes next, a clock that ends, a bird that is put down.

use super::opening::overlay;
use crate::exam::{self, Hands, Place, Progress};
use crate::finding::log::{Entry, standing};
use crate::judge::{Held, Reason, Standing};
use crate::phrase::{Phrase, notice};
use crate::protocol::question::Asked;
use crate::protocol::scale::Authority;
use crate::session::{Face, Overlay, Session, clocks};
use crate::view::rows;

/// A card that comes on screen brings its own clock: one that runs for the same step ends.
pub(super) fn clock_on_the_card(session: &Session) -> Option<Entry> {
    let on_the_card = &session.protocol.action(clocks::timed(session)?).id;
    (*on_the_card == session.timer()?.action).then_some(Entry::ClockEnded)
}

/// Signs of a notifiable disease interrupt once, as soon as they are found.
pub(super) fn authority_call(session: &Session) -> Option<Entry> {
    let began = exam::began(session.protocol, session.protocol.roles.authority);
    let called = standing(&session.log).iter().any(|stamped| stamped.entry == began);
    let call = session.verdict.authority.low == Authority::CallNow && !called;
    call.then_some(began)
}

/// Where a humane end hangs on one more answer, that question comes next; but never before the danger signs are done with,
/// nor in place of what was turned to.
pub(super) fn grave_question(session: &Session) -> Option<Entry> {
    let here = match &session.exam.place {
        Place::Ask(asked) => Some(*asked),
        Place::Wounds | Place::Done => None,
        Place::List(list) if *list != session.protocol.roles.danger_signs => None,
        Place::List(_) | Place::Instruction(..) => return None,
    };
    // A sign that could not be told hangs a humane end on nothing: only what was seen is asked about before the rest.
    let seen = |held: &&Held| {
        let of = |reason: &&Reason| reason.rule == held.rule && reason.standing == Standing::ExceptionOpen;
        session.verdict.reasons.iter().any(|reason| of(&reason))
    };
    let asks = session.verdict.held.iter().filter(seen).flat_map(|held| &held.ask);
    let next = asks.copied().find(|asked| !session.exam.was_skipped(*asked))?;
    (here != Some(next) && !session.exam.turned).then(|| Entry::Turned(session.exam.spot(next)))
}

/// How she is taken in the hand.
pub(super) fn taken_up(session: &Session) -> Phrase {
    if session.exam.fits_a_fist() { notice::take_in_fist() } else { notice::take_in_hand() }
}

/// Whether something a hand is needed for is still to come, where a novice goes from step to step: she stays in the hand meanwhile.
fn comes_to_hands(session: &Session) -> bool {
    let steps = session.protocol.steps.iter().zip(session.exam.progress());
    session.practice.is_some()
        && steps
            .filter(|(step, _)| step.hands_on)
            .any(|(_, progress)| matches!(progress, Progress::Ahead | Progress::Here))
}

/// The clock of the hand starts with the first look that needs it, and stops with the last.
pub(super) fn handling(session: &Session) -> Option<Entry> {
    if matches!(session.exam.place, Place::Instruction(..)) {
        return None;
    }
    // The danger signs, or a question turned to, are looked at with the bird still in the hand.
    let passing = session.exam.turned || matches!(session.exam.place, Place::List(_));
    // A bird that may not bear it is only looked at; if she is held all the same, `p` starts her rest.
    match (session.exam.wants_hands() && !session.exam.spares_her(), session.hands()) {
        (true, Hands::NotYet | Hands::Down(_)) => Some(Entry::PickedUp),
        (false, Hands::Held(_)) if !passing && !comes_to_hands(session) => Some(Entry::PutDown),
        _ => None,
    }
}

/// A look that has nothing left to ask is over.
pub(super) fn look_done(session: &Session) -> Option<Entry> {
    (session.exam.place == Place::Done && session.days.looking()).then_some(Entry::LookDone)
}

/// Asks it as soon as no instruction fills the screen: what has to be done this minute is never covered.
pub(super) fn ask_about_parting(session: &mut Session) {
    let busy = matches!(session.exam.place, Place::Instruction(..)) && session.face == Face::Exam;
    if session.flock.parted.is_some() && !busy && !session.overlays.contains(&Overlay::Parted) {
        overlay(session, Overlay::Parted);
    }
}

/// Shows the first page of a list on which something was neither said nor passed over.
pub(super) fn turn_to_open_page(session: &mut Session) {
    let Place::List(list) = session.exam.place else { return };
    let lines = |asked: &Asked| session.protocol.ask(asked.question).choices.len().saturating_sub(1);
    let is_done = |asked: &Asked| session.exam.said_now(*asked).is_some() || session.exam.was_skipped(*asked);
    let signs = session.exam.signs(list);
    if session.overlays.is_empty() && !signs.iter().all(is_done) {
        session.page = signs.iter().take_while(|asked| is_done(asked)).map(lines).sum::<usize>() / rows::PAGE;
    }
}
