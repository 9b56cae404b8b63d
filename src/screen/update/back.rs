//! Going back: to the bird that was left, to the last answer, to what lies below; and to the danger signs at any moment.

use super::card::{left, still_to_go};
use super::entering::{close_draft, keep_draft};
use super::{Effect, end_instruction, record, timing};
use crate::exam::{self, Hands, Place};
use crate::finding::log::{Entry, Spot, Stamped};
use crate::phrase::{birds, notice};
use crate::screen::draft::{Draft, Pick};
use crate::screen::model::{Face, Model, Overlay, Page};

/// Goes on with the bird that was left.
pub(super) fn resume(model: &mut Model) -> Vec<Effect> {
    if !model.offers_to_resume() {
        return Vec::new();
    }
    let Some(left) = model.left.take() else {
        return Vec::new();
    };
    let go_on = Effect::GoOnWith(left.id.clone(), left.log.len());
    (model.case, model.log) = (Some(left.id), left.log);
    timing::own_again(model);
    model.work_out();
    model.work_out_due();
    model.look_afresh();
    // Nobody knows whether she was held meanwhile; the clock of the hand starts anew.
    let put_down = matches!(model.hands(), Hands::Held(_)).then_some(Entry::PutDown);
    let mut effects = vec![go_on];
    if let Some(entry) = put_down {
        effects.extend(record(model, vec![entry]));
    }
    effects
}

/// Goes back to an instruction that was put aside before its time, while nothing was said since; else takes back the last
/// answer.
pub(super) fn back(model: &mut Model) -> Vec<Effect> {
    match model.exam.place {
        // These the program called up itself: there is no answer to take back.
        Place::Instruction(at, _) if model.protocol.roles.is_called_by_itself(at) => end_instruction(model),
        _ if model.log.is_empty() => {
            model.notice = Some(notice::beginning().into());
            Vec::new()
        }
        // What was true at an earlier look is not taken back at a later one.
        _ if matches!(model.log.last(), Some(Stamped { entry: Entry::LookBegan(_), .. })) => {
            model.notice = Some(notice::look_beginning().into());
            Vec::new()
        }
        _ => match exam::put_aside(model.protocol, &model.log) {
            // The clock runs anew, on the card: a minute too many of pressing harms nobody.
            Some(at) => record(model, vec![exam::began(model.protocol, at)]),
            None => record(model, vec![Entry::TookBack]),
        },
    }
}

/// Leaves what lies on top, the typing, or a document.
pub(super) fn close(model: &mut Model) -> Vec<Effect> {
    if model.typed.take().is_some() {
        model.writing = None;
        if model.overlays.last() == Some(&Overlay::Page(Page::Label)) {
            model.overlays.pop();
        }
        if let (Some(Draft::Spill(spill)), None) = (&mut model.draft, model.overlays.last()) {
            spill.back();
            model.typed = matches!(spill.pick, Pick::Typed(_)).then(String::new);
        }
        return Vec::new();
    }
    if model.overlays.is_empty() && model.face == Face::Exam && model.draft.is_some() {
        return close_draft(model);
    }
    if model.overlays == [Overlay::Lessons] {
        model.notice = Some(notice::practice_beginning().into());
        return Vec::new();
    }
    let closed = model.overlays.pop();
    match closed {
        Some(Overlay::Map(Some(_))) => model.overlays.push(Overlay::Map(None)),
        Some(Overlay::Sums(Some(_))) => model.overlays.push(Overlay::Sums(None)),
        _ => {}
    }
    if closed.is_some() {
        model.look_afresh();
        // Where nothing waits below, what was closed comes again.
        super::practice::after(model, None);
        return Vec::new();
    }
    if model.face == Face::Exam && model.exam.place == Place::Done {
        if let Some(at) = exam::put_aside(model.protocol, &model.log) {
            return record(model, vec![exam::began(model.protocol, at)]);
        }
        // At the end the verdict is where we are: back shows the last question, and takes nothing away.
        let last = model.exam.findings.said().last().map(|said| &said.statement);
        let spot = last.map(|last| Spot { about: last.about, question: last.question.clone() });
        return record(model, vec![Entry::Went(spot)]);
    }
    model.face = Face::Exam;
    model.look_afresh();
    Vec::new()
}

/// Opens the danger signs, whatever shows.
pub(super) fn emergency(model: &mut Model) -> Vec<Effect> {
    if model.practice.as_ref().is_some_and(|practice| practice.on().is_none() && practice.pair.is_none()) {
        model.notice = Some(notice::no_bird().into());
        return Vec::new();
    }
    let left = left(model);
    let ended = model.exam.running.map(|(at, _)| exam::ended(model.protocol, at));
    model.overlays.clear();
    model.face = Face::Exam;
    let mut effects = keep_draft(model);
    // Whoever asks for the danger signs has a living bird before them, whatever was written down.
    let reopened = super::birds::closed_as(model);
    let open = reopened.as_ref().map(|_| Entry::Reopened);
    let danger_signs = model.protocol.sign_list(model.protocol.roles.danger_signs).id.clone();
    effects.extend(record(model, open.into_iter().chain(ended).chain([Entry::Opened(danger_signs)]).collect()));
    // No clock runs for what was put aside: what was left of it is said.
    if left > 0 && model.notice.is_none() && model.practice.is_none() {
        model.notice = Some(still_to_go(model, left, false));
    }
    if let Some(how) = reopened {
        model.notice = Some(birds::was_closed(how).into());
    }
    effects
}
