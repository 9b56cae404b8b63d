//! Enough to act on: what cannot wait stands on the screen; once it is done, "go now", and what was not looked at is told.

use super::card::end_instruction;
use super::record;
use super::traffic::Effect;
use crate::care::course::Stage;
use crate::content::course::{CardOf, CourseCard, Does};
use crate::content::enough::{carried_out, is_enough};
use crate::exam::{self, Place};
use crate::finding::log::{Entry, Stamped, standing, ticked};
use crate::phrase::{Text, enough as phrase};
use crate::screen::model::{Face, Model};
use chrono::{DateTime, TimeDelta, Utc};

/// After how long it is said again that she was not looked all over, where nobody has set off. Minutes; our own figure.
const STILL_HERE: i64 = 30;

/// That it is time to go comes on screen once, when nothing that cannot wait is left to do.
pub(super) fn go(model: &Model) -> Option<Entry> {
    let began = exam::began(model.protocol, model.protocol.roles.go);
    let told = standing(&model.log).iter().any(|stamped| stamped.entry == began);
    let busy = matches!(model.exam.place, Place::Instruction(..)) || model.typed.is_some() || model.draft.is_some();
    (!told && !busy && !goes_by_the_clock(model) && is_known(model) && !is_left(model)).then_some(began)
}

/// Whether an instruction that was put aside, such as letting her rest, or a step that is timed, has not had its time yet.
fn goes_by_the_clock(model: &Model) -> bool {
    let ends = |stamped: &&Stamped| {
        let Entry::Began(id) = &stamped.entry else { return None };
        let instruction = model.protocol.instruction(model.protocol.instructions.at(id.as_str())?);
        Some(stamped.at + TimeDelta::seconds(i64::from(instruction.timer_s?)))
    };
    let put_aside = model.timer().is_some_and(|timer| timer.ends_at > model.now);
    put_aside || standing(&model.log).iter().filter_map(ends).any(|end| end > model.now)
}

/// That it is time to go, once the time of what she was given has gone by.
pub(super) fn go_in_time(model: &mut Model) -> Vec<Effect> {
    let bare = model.overlays.is_empty() && matches!(model.face, Face::Exam | Face::Course);
    let Some(entry) = go(model).filter(|_| bare) else { return Vec::new() };
    model.face = Face::Exam;
    let mut effects = record(model, vec![entry]);
    effects.push(Effect::Bell);
    effects
}

/// Where enough is known and something that cannot wait is left to do, its card shows, once.
pub(super) fn show_card(model: &mut Model) {
    let asks = matches!(model.exam.place, Place::Ask(_) | Place::List(_) | Place::Wounds);
    let bare = model.overlays.is_empty() && model.face == Face::Exam && asks && !model.exam.turned;
    if bare && !model.enough_told && is_known(model) && is_left(model) {
        model.enough_told = true;
        (model.face, model.turned_card) = (Face::Course, None);
        model.notice = Some(phrase::act_first().into());
    }
}

/// Whether enough is known of a real bird who has not been looked all over.
fn is_known(model: &Model) -> bool {
    let Model { protocol, exam, verdict, plan, log, .. } = model;
    let over = exam.findings.looked_over() || model.days.over().is_some() || model.practice.is_some();
    !over && !exam.is_look() && is_enough(protocol, &exam.findings, verdict, plan, log)
}

/// Whether something on the cards of the minute that cannot wait is neither ticked off nor was carried out.
fn is_left(model: &Model) -> bool {
    let done = ticked(&model.log);
    let of_now = |card: &&CourseCard| card.of == CardOf::Stage(Stage::Now);
    let mut acts = model.cards.iter().filter(of_now).flat_map(|card| &card.acts);
    acts.any(|act| {
        let waits = match act.does {
            Does::Act(target) => {
                let done = carried_out(model.protocol, &model.log, target.action, |_| true);
                model.protocol.action(target.action).at_once && !done
            }
            Does::Phone(_) | Does::Test(_) | Does::Look(_) | Does::Told(_) => false,
        };
        waits && !done.contains_key(&act.does.name(model.protocol))
    })
}

/// When it is said again that she was not looked all over: some time after one was to go.
pub(super) fn said_again(model: &Model) -> Option<DateTime<Utc>> {
    let ended = exam::ended(model.protocol, model.protocol.roles.go);
    let left = standing(&model.log).into_iter().rfind(|stamped| stamped.entry == ended)?.at;
    (!model.exam.findings.looked_over()).then(|| left + TimeDelta::minutes(STILL_HERE))
}

/// What is said then.
pub(super) fn still_here() -> Text {
    phrase::still_here().into()
}

/// One goes: the card of the way shows.
pub(super) fn gone(model: &mut Model) -> Vec<Effect> {
    let effects = end_instruction(model);
    (model.face, model.turned_card) = (Face::Course, None);
    effects
}
