//! Going back: to the bird that was left, to the last answer, to what lies below; and to the danger signs at any moment.

use super::card::end_instruction;
use super::card::{left, still_to_go};
use super::entering::{close_draft, keep_draft};
use super::record::{go_on, record};
use super::timing;
use super::traffic::Effect;
use crate::exam::{self, Hands, Place};
use crate::finding::log::{Entry, Spot, Stamped};
use crate::phrase::{birds, notice};
use crate::session::draft::{Draft, Pick};
use crate::session::line::{TypedLine, TypingOf};
use crate::session::{Face, Overlay, Page, Session};

/// Goes on with the bird that was left.
pub(super) fn resume(session: &mut Session) -> Vec<Effect> {
    if !session.offers_to_resume() {
        return Vec::new();
    }
    let Some(left) = session.left.take() else {
        return Vec::new();
    };
    let go_on = Effect::GoOnWith(left.id.clone(), left.log.len());
    (session.case, session.log) = (Some(left.id), left.log);
    timing::own_again(session);
    session.work_out();
    session.work_out_due();
    session.look_afresh();
    // Nobody knows whether she was held meanwhile; the clock of the hand starts anew.
    let put_down = matches!(session.hands(), Hands::Held(_)).then_some(Entry::PutDown);
    let mut effects = vec![go_on];
    if let Some(entry) = put_down {
        effects.extend(record(session, vec![entry]));
    }
    effects
}

/// Goes back to an instruction that was put aside before its time, while nothing was said since; else takes back the last
/// answer.
pub(super) fn back(session: &mut Session) -> Vec<Effect> {
    match session.exam.place {
        // These the program called up itself: there is no answer to take back.
        Place::Instruction(at, _) if session.protocol.roles.is_called_by_itself(at) => end_instruction(session),
        _ if session.log.is_empty() => {
            session.notice = Some(notice::beginning().into());
            Vec::new()
        }
        // What was true at an earlier look is not taken back at a later one.
        _ if matches!(session.log.last(), Some(Stamped { entry: Entry::LookBegan(_), .. })) => {
            session.notice = Some(notice::look_beginning().into());
            Vec::new()
        }
        _ => match exam::put_aside(session.protocol, &session.log) {
            // The clock runs anew, on the card: a minute too many of pressing harms nobody.
            Some(at) => record(session, vec![exam::began(session.protocol, at)]),
            None => record(session, vec![Entry::TookBack]),
        },
    }
}

/// Leaves what lies on top, the typing, or a document.
pub(super) fn close(session: &mut Session) -> Vec<Effect> {
    if session.line.take().is_some() {
        if session.overlays.last() == Some(&Overlay::Page(Page::Label)) {
            session.overlays.pop();
        }
        if let (Some(Draft::Spill(spill)), None) = (&mut session.draft, session.overlays.last()) {
            spill.back();
            session.line = matches!(spill.pick, Pick::Typed(_)).then(|| TypedLine::new(TypingOf::Blood));
        }
        return Vec::new();
    }
    if session.overlays.is_empty() && session.face == Face::Exam && session.draft.is_some() {
        return close_draft(session);
    }
    if session.overlays == [Overlay::Lessons] {
        session.notice = Some(notice::practice_beginning().into());
        return Vec::new();
    }
    let closed = session.overlays.pop();
    match closed {
        Some(Overlay::Map(Some(_))) => session.overlays.push(Overlay::Map(None)),
        Some(Overlay::Sums(Some(_))) => session.overlays.push(Overlay::Sums(None)),
        _ => {}
    }
    if closed.is_some() {
        session.look_afresh();
        // Where nothing waits below, what was closed comes again.
        go_on(session, None);
        return Vec::new();
    }
    if session.face == Face::Exam && session.exam.place == Place::Done {
        if let Some(at) = exam::put_aside(session.protocol, &session.log) {
            return record(session, vec![exam::began(session.protocol, at)]);
        }
        // At the end the verdict is where we are: back shows the last question, and takes nothing away.
        let last = session.exam.findings.said().last().map(|said| &said.statement);
        let spot = last.map(|last| Spot { about: last.about, question: last.question.clone() });
        return record(session, vec![Entry::Went(spot)]);
    }
    session.face = Face::Exam;
    session.look_afresh();
    Vec::new()
}

/// Opens the danger signs, whatever shows.
pub(super) fn emergency(session: &mut Session) -> Vec<Effect> {
    if session.practice.as_ref().is_some_and(|practice| practice.on().is_none() && practice.pair.is_none()) {
        session.notice = Some(notice::no_bird().into());
        return Vec::new();
    }
    let left = left(session);
    let ended = session.exam.running.map(|(at, _)| exam::ended(session.protocol, at));
    session.overlays.clear();
    session.face = Face::Exam;
    let mut effects = keep_draft(session);
    // Whoever asks for the danger signs has a living bird before them, whatever was written down.
    let reopened = super::birds::closed_as(session);
    let open = reopened.as_ref().map(|_| Entry::Reopened);
    let danger_signs = session.protocol.sign_list(session.protocol.roles.danger_signs).id.clone();
    effects.extend(record(session, open.into_iter().chain(ended).chain([Entry::Opened(danger_signs)]).collect()));
    // No clock runs for what was put aside: what was left of it is said.
    if left > 0 && session.notice.is_none() && session.practice.is_none() {
        session.notice = Some(still_to_go(session, left, false));
    }
    if let Some(how) = reopened {
        session.notice = Some(birds::was_closed(how).into());
    }
    effects
}
