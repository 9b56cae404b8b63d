//! The clock of a step of the plan: how it is started, and ended.

use super::{Effect, record};
use crate::exam::Place;
use crate::finding::log::Entry;
use crate::protocol::rule::ActionAt;
use crate::screen::keys::Context;
use crate::screen::model::Model;
use crate::screen::pane;

/// Starts the clock of the step the cursor stands on, or of the first that has one; pressed again, ends it. Away from the
/// plan it only ends it.
pub(super) fn clock(model: &mut Model) -> Vec<Effect> {
    let running = model.timer();
    let step = if model.context() == Context::Plan { pane::document::timed(model) } else { None };
    let at_cursor = model.cursor.is_some();
    let entry = match (running, step) {
        (None, None) if end_left(model) => return Vec::new(),
        (None, None) => {
            let runs =
                matches!(model.exam.place, Place::Instruction(..)) && pane::instruction::time_left(model).is_some();
            let what = if runs { "Its clock runs already." } else { "Nothing here goes by the clock." };
            model.notice = Some(what.into());
            return Vec::new();
        }
        (None, Some((action, seconds))) => started(model, action, seconds),
        // The cursor on another step turns the clock to that one.
        (Some(timer), Some((action, seconds))) if at_cursor && model.protocol.action(action).id != timer.action => {
            started(model, action, seconds)
        }
        (Some(_), _) => Entry::ClockEnded,
    };
    let (cursor, scroll) = (model.cursor, model.scroll);
    let told = match &entry {
        Entry::Timed { .. } => "The clock runs, above. It rings when the time is up; a ends it.",
        _ => "The clock is ended.",
    };
    let effects = record(model, vec![entry]);
    (model.cursor, model.scroll) = (cursor, scroll);
    model.notice = Some(told.into());
    effects
}

/// Ends the clock of a bird that was left, once its time is up; tells whether there was one.
fn end_left(model: &mut Model) -> bool {
    let now = model.now;
    let Some(at) = model.flock.clocks.iter().position(|clock| clock.ends_at <= now) else { return false };
    let clock = model.flock.clocks.remove(at);
    model.notice = Some(format!("The {} clock of {} is ended.", clock.what, clock.bird));
    true
}

/// That the clock of an action starts.
pub(super) fn started(model: &Model, action: ActionAt, seconds: u16) -> Entry {
    Entry::Timed { action: model.protocol.action(action).id.clone(), seconds }
}
