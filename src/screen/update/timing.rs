//! The clock of a step of the plan: how it is started, and ended.

use super::{Effect, record};
use crate::finding::log::Entry;
use crate::protocol::rule::ActionAt;
use crate::screen::model::Model;
use crate::screen::pane::clock::{self, Press};

/// Starts the clock of the step the cursor stands on, or of the first that has one; pressed again, ends it. Away from the
/// plan it only ends it. A clock whose time is up is ended before anything else.
pub(super) fn clock(model: &mut Model) -> Vec<Effect> {
    let (entry, told) = match clock::press(model) {
        Press::EndLeft(at) => {
            let ended = model.flock.clocks.remove(at);
            model.notice = Some(format!("The {} clock of {} is ended.", ended.what, ended.bird));
            return Vec::new();
        }
        Press::Runs => {
            model.notice = Some("Its clock runs already.".into());
            return Vec::new();
        }
        Press::Nothing => {
            model.notice = Some("Nothing here goes by the clock.".into());
            return Vec::new();
        }
        Press::Start(action, seconds) => {
            (started(model, action, seconds), "The clock runs, above. It rings when the time is up; a ends it.")
        }
        Press::End => (Entry::ClockEnded, "The clock is ended."),
    };
    let (cursor, scroll) = (model.cursor, model.scroll);
    let effects = record(model, vec![entry]);
    (model.cursor, model.scroll) = (cursor, scroll);
    model.notice = Some(told.into());
    effects
}

/// That the clock of an action starts.
pub(super) fn started(model: &Model, action: ActionAt, seconds: u16) -> Entry {
    Entry::Timed { action: model.protocol.action(action).id.clone(), seconds }
}
