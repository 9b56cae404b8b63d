//! Keys that texts name: named only where pressing them does at that moment what the text says.

use crate::exam::Place;
use crate::phrase::Text;
use crate::screen::keys::{self, Action, Context};
use crate::screen::model::{Model, Overlay};
use crate::screen::pane::clock::{self, Press};

/// The key that does this now, if one does.
pub fn key(model: &Model, action: Action) -> Option<Text> {
    // Beside the drawing these keys are the same; whether it shows hangs on what the lines above say.
    let bound = keys::of(model.context_undrawn()).find(|binding| binding.action == action)?;
    // Among the birds it leads from her case to all of them, and from nowhere else.
    let of_case = model.context_undrawn() != Context::Birds || model.overlays.last() == Some(&Overlay::Case);
    let leads = action != Action::Birds || of_case;
    (leads && !is_closed_to(model, action)).then(|| bound.label())
}

/// The key that goes back from where one is: over a question, or from the verdict at the end.
pub fn back(model: &Model) -> Option<Text> {
    let at_the_end = model.context_undrawn() == Context::Verdict && model.exam.place == Place::Done;
    key(model, Action::Back).or_else(|| key(model, Action::Close).filter(|_| at_the_end))
}

/// Whether the case is over, and this asks something or starts a clock: of such a case nothing is asked, and no clock runs.
/// That of another bird is ended all the same.
pub fn is_closed_to(model: &Model, action: Action) -> bool {
    let asks = match action {
        Action::Telling | Action::Map | Action::Hands | Action::Skip | Action::Why => true,
        Action::Clock => !matches!(clock::press(model), Press::EndLeft(_)),
        _ => false,
    };
    asks && model.days.over().is_some() && model.overlays.is_empty()
}

/// A text without the sentences that name the key for skipping, where it does not skip.
pub fn without_skip(model: &Model, text: &str) -> String {
    if key(model, Action::Skip).is_some() {
        return text.to_owned();
    }
    let kept = text.split_inclusive('.').filter(|sentence| !sentence.contains("(n)"));
    kept.collect::<String>().trim().to_owned()
}
