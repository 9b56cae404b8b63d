//! Keys that texts name: named only where pressing them does at that moment what the text says.

use super::keys::{self, Action};
use crate::exam::Place;
use crate::phrase::Text;
use crate::session::context::Context;
use crate::session::{Overlay, Session};
use crate::view::clock::{self, Press};

/// The key that does this now, if one does.
pub fn key(session: &Session, action: Action) -> Option<Text> {
    // Beside the drawing these keys are the same; whether it shows hangs on what the lines above say.
    let bound = keys::of(session.context()).find(|binding| binding.action == action)?;
    // Among the birds it leads from her case to all of them, and from nowhere else.
    let of_case = session.context() != Context::Birds || session.overlays.last() == Some(&Overlay::Case);
    let leads = action != Action::Birds || of_case;
    (leads && !is_closed_to(session, action)).then(|| bound.label())
}

/// The same as it is read; nothing where none does.
pub fn pressed(session: &Session, action: Action) -> String {
    key(session, action).map(|key| session.say(key)).unwrap_or_default()
}

/// The key that goes back from where one is: over a question, or from the verdict at the end.
pub fn back(session: &Session) -> Option<Text> {
    let at_the_end = session.context() == Context::Verdict && session.exam.place == Place::Done;
    key(session, Action::Back).or_else(|| key(session, Action::Close).filter(|_| at_the_end))
}

/// Whether the case is over, and this asks something or starts a clock: of such a case nothing is asked, and no clock runs.
/// That of another bird is ended all the same.
pub fn is_closed_to(session: &Session, action: Action) -> bool {
    let asks = match action {
        Action::Telling | Action::Map | Action::Hands | Action::Skip | Action::Why => true,
        Action::Clock => !matches!(clock::press(session), Press::EndLeft(_)),
        _ => false,
    };
    asks && session.days.over().is_some() && session.overlays.is_empty()
}

/// A text without the sentences that name the key for skipping, where it does not skip.
pub fn without_skip(session: &Session, text: &str) -> String {
    if key(session, Action::Skip).is_some() {
        return text.to_owned();
    }
    let kept = text.split_inclusive('.').filter(|sentence| !sentence.contains("(n)"));
    kept.collect::<String>().trim().to_owned()
}
