//! The clock key: what it does at this moment, and the lines that say so.

use super::{document, header, instruction, named};
use crate::phrase::{Phrase, Text, clock as phrase, keys};
use crate::protocol::rule::ActionAt;
use crate::screen::keys::{Action, Context};
use crate::screen::model::Model;
use chrono::TimeDelta;

/// What the clock key does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Press {
    /// Ends the clock that runs for this bird.
    End,
    /// Ends the clock of a bird that was left, by its place among them.
    EndLeft(usize),
    /// Starts the clock of a step, so many seconds.
    Start(ActionAt, u16),
    /// Nothing: the clock of the instruction runs already.
    Runs,
    /// Nothing: nothing here goes by the clock.
    Nothing,
}

/// What the clock key does now.
pub fn press(model: &Model) -> Press {
    let step = match model.context_undrawn() {
        Context::Plan => document::timed(model),
        Context::Course => model.timed_here(),
        _ => None,
    };
    press_at(model, model.cursor.is_some(), step)
}

/// What it does with the cursor on a step, or without one on the first that goes by the clock.
fn press_at(model: &Model, at_cursor: bool, step: Option<(ActionAt, u16)>) -> Press {
    let timer = model.timer();
    let is_up = timer.as_ref().is_some_and(|timer| timer.left(model.now) <= TimeDelta::zero());
    let left = header::up_elsewhere(model).map(|(at, _)| at);
    // What the top line says of this key comes before everything.
    match left {
        _ if is_up => return Press::End,
        Some(left) if header::tells_of_clocks(model) => return Press::EndLeft(left),
        _ => {}
    }
    let own = |action: ActionAt| timer.as_ref().is_some_and(|timer| timer.action == model.protocol.action(action).id);
    match (&timer, step, left) {
        (Some(_), Some((action, seconds)), _) if at_cursor && !own(action) => Press::Start(action, seconds),
        (Some(_), ..) => Press::End,
        (None, Some((action, _)), _) if instruction::timed(model) == Some(action) => Press::Runs,
        (None, Some((action, seconds)), _) => Press::Start(action, seconds),
        (None, None, Some(left)) => Press::EndLeft(left),
        (None, None, None) if instruction::time_left(model).is_some() => Press::Runs,
        (None, None, None) => Press::Nothing,
    }
}

/// Whether the instruction on screen goes by a clock whose time is not over.
pub fn runs_on_screen(model: &Model) -> bool {
    instruction::time_left(model).is_some_and(|left| left > TimeDelta::zero())
}

/// What the clock key says of itself in the footer.
pub fn hint(model: &Model) -> Phrase {
    match press(model) {
        Press::End | Press::EndLeft(_) => keys::hint_end_clock(),
        Press::Start(..) | Press::Runs | Press::Nothing => keys::hint_clock(),
    }
}

/// What is said beside a step that goes by the clock: the time left where its clock runs, and what the key does to it.
pub fn beside(model: &Model, now: Press, here: bool, (action, seconds): (ActionAt, u16)) -> Text {
    let key = named::key(model, Action::Clock).filter(|_| model.context_undrawn() == Context::Plan);
    let id = &model.protocol.action(action).id;
    if let Some(timer) = model.timer().filter(|timer| timer.action == *id) {
        let ends = key.filter(|_| now == Press::End).map(phrase::key_ends);
        return Text::row([told(timer.left(model.now))].into_iter().chain(ends));
    }
    if let (Some(left), true) = (instruction::time_left(model), instruction::timed(model) == Some(action)) {
        return Text::row([told(left), phrase::beside_runs()]);
    }
    let moved = press_at(model, true, Some((action, seconds))) == Press::Start(action, seconds);
    let starts = if here && now == Press::Start(action, seconds) {
        key.map(phrase::key_starts)
    } else {
        key.filter(|_| moved).map(phrase::key_moves)
    };
    Text::row([phrase::beside(seconds / 60)].into_iter().chain(starts))
}

/// The time left on a clock that runs.
fn told(left: TimeDelta) -> Phrase {
    if left > TimeDelta::zero() { phrase::beside_to_go(minutes(left.num_seconds())) } else { phrase::beside_up() }
}

/// Minutes and seconds, from seconds: `9:05`.
pub fn minutes(seconds: i64) -> Text {
    Text::typed(format!("{}:{:02}", seconds / 60, seconds % 60))
}
