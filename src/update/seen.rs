//! What has been seen when a key comes: none counts for a screen that was not there yet when it was pressed, and a key pressed
//! twice in one movement counts once.
//!
//! What is typed into a field is exempt, and so is leaving.

use crate::exam::Place;
use crate::finding::log::Entry;
use crate::session::context::Context;
use crate::session::line::{TypedLine, TypingOf};
use crate::session::{Face, Overlay, Session};
use crate::view::keys::{Action, Key, Untaken, resolve};
use std::time::Duration;

/// Within this time the same key again is the same movement of a hand. Our own figure: a key held down or struck twice repeats
/// sooner, and nobody has looked at another screen by then.
pub const SAME_MOVEMENT: Duration = Duration::from_millis(400);

/// What the keys stand for just now. As long as it stays, what shows has the same answers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeysFor {
    context: Context,
    place: Place,
    wounds: usize,
    overlays: Vec<Overlay>,
    face: Face,
    card: Option<usize>,
    page: usize,
    entered: Option<TypingOf>,
    asked_again: Option<Vec<Entry>>,
}

impl KeysFor {
    /// What they stand for on a screen.
    pub fn of(session: &Session) -> Self {
        Self {
            context: session.context(),
            place: session.exam.place.clone(),
            wounds: session.exam.findings.wounds(),
            overlays: session.overlays.clone(),
            face: session.face,
            card: session.turned_card,
            page: session.page,
            entered: session.line.as_ref().map(TypedLine::of),
            asked_again: session.asked_again.clone(),
        }
    }
}

/// What is on screen, and which key came last.
#[derive(Clone, Debug, Default)]
pub struct OnScreen {
    drawn: Option<KeysFor>,
    last: Option<Last>,
}

/// The last key, when it came, and what it stood for when its movement began.
#[derive(Clone, Debug)]
struct Last {
    key: Key,
    at: Duration,
    of: KeysFor,
}

impl OnScreen {
    /// Takes note of what has just come onto the screen; true where it is another screen than before.
    pub fn shows(&mut self, asks: KeysFor) -> bool {
        let other = self.drawn.as_ref() != Some(&asks);
        self.drawn = Some(asks);
        other
    }

    /// Whether what is on screen is what the keys stand for.
    pub fn is_current(&self, session: &Session) -> bool {
        self.drawn.as_ref() == Some(&KeysFor::of(session))
    }

    /// Whether a key counts for what is on screen; `at` is the time since the start by a steady clock.
    ///
    /// # Errors
    /// Why it does not.
    pub fn takes(&mut self, session: &Session, key: Key, at: Duration) -> Result<(), Untaken> {
        let (context, now) = (session.context(), KeysFor::of(session));
        let action = resolve(context, key).map(|(action, _)| action);
        let same_movement = |last: &Last| last.key == key && at.saturating_sub(last.at) < SAME_MOVEMENT;
        // Held down it stays one movement, for what it stood for at first.
        let of = self.last.take().filter(same_movement).map_or_else(|| now.clone(), |last| last.of);
        let again = of != now;
        self.last = Some(Last { key, at, of });
        if leaves(context, key) {
            return Ok(());
        }
        if session.extent.too_small {
            return Err(Untaken::NotShown);
        }
        if is_typed(context) {
            return Ok(());
        }
        if self.drawn.as_ref() != Some(&now) || (again && action.is_some_and(answers)) {
            return Err(Untaken::TooSoon);
        }
        Ok(())
    }

    /// Whether a key that was pressed before what is on screen was drawn counts all the same.
    pub fn takes_early(session: &Session, key: Key) -> bool {
        is_typed(session.context()) || leaves(session.context(), key)
    }
}

/// Whether it is the key that gets out whatever shows.
fn leaves(context: Context, key: Key) -> bool {
    let out = |(action, _): (Action, usize)| matches!(action, Action::Leave | Action::Suspend);
    matches!(key, Key::Control(_)) && resolve(context, key).is_some_and(out)
}

/// Whether keys are letters or taps here.
const fn is_typed(context: Context) -> bool {
    matches!(context, Context::Typing | Context::Tapping | Context::Adding)
}

/// Whether it says something of her, or that something was done.
const fn answers(action: Action) -> bool {
    matches!(
        action,
        Action::Answer
            | Action::AsAlways
            | Action::CannotTell
            | Action::Choose
            | Action::GoOn
            | Action::Skip
            | Action::Tick
            | Action::NextCard
    )
}
