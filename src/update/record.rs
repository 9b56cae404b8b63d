//! What was said or done goes into the log, with all that follows from it by itself.

use super::traffic::Effect;
use super::{enough, follow, novice};
use crate::exam;
use crate::finding::log::{Entry, Stamped};
use crate::phrase::notice;
use crate::protocol::question::Step;
use crate::protocol::table::At;
use crate::session::{Face, Session, clocks};

/// Records entries, adds what follows from them by itself, and asks the shell to keep it all.
pub(super) fn record(session: &mut Session, entries: Vec<Entry>) -> Vec<Effect> {
    let step_before = session.exam.step();
    let mut kept: Vec<Stamped> = entries.into_iter().map(|entry| record_whole(session, entry)).collect();
    let scripted = session.practice.as_ref().is_some_and(|practice| practice.on().is_some());
    if let Some(entry) = follow::authority_call(session).filter(|_| !scripted) {
        kept.push(session.record(entry));
    }
    if let Some(entry) = follow::grave_question(session).filter(|_| !scripted) {
        kept.push(session.record(entry));
    }
    if let Some(entry) = enough::go(session) {
        // It fills the screen, whatever showed: a card that was ticked off to the end as well.
        session.face = Face::Exam;
        kept.push(session.record(entry));
    }
    if let Some(entry) = follow::look_done(session) {
        kept.push(session.record(entry));
    }
    if let Some(entry) = follow::clock_on_the_card(session) {
        kept.push(session.record(entry));
    }
    session.work_out_due();
    let handled = follow::handling(session);
    if let Some(entry) = handled.clone() {
        kept.push(session.record(entry));
    }
    session.look_afresh();
    follow::turn_to_open_page(session);
    session.notice = match handled {
        Some(Entry::PickedUp) => Some(follow::taken_up(session).into()),
        // Who presses goes on pressing, in the hand or not.
        Some(Entry::PutDown) if clocks::pressing(session).is_none() => Some(notice::set_her_down().into()),
        _ => None,
    };
    if session.practice.is_some() {
        // Nothing of practice goes to the ledger.
        let notice = session.notice.take();
        if novice::took_back(session) {
            novice::follow_back(session);
        } else {
            go_on(session, step_before);
        }
        session.notice = session.notice.take().or(notice);
        return Vec::new();
    }
    enough::show_card(session);
    follow::ask_about_parting(session);
    session.keeping.waiting += kept.len();
    kept.into_iter().map(Effect::Keep).collect()
}

/// Records an entry; an answer together with what can then not be told either.
fn record_whole(session: &mut Session, entry: Entry) -> Stamped {
    let Entry::Said(said) = entry else { return session.record(entry) };
    let stamped = Stamped { at: session.now, entry: Entry::Said(said.clone()) };
    let log: Vec<Stamped> = session.log.iter().cloned().chain([stamped]).collect();
    // What was answered by the person stands last: it is what an instruction is called up by.
    session.record(Entry::Said(exam::untold(session.protocol, &log).into_iter().chain(said).collect()))
}

/// Goes on where the novice chose to: with the next question of that step, or with the choice.
pub(super) fn go_on(session: &mut Session, before: Option<At<Step>>) {
    if let Some(entry) = novice::after(session, before) {
        record(session, vec![entry]);
    }
}
