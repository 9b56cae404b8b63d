//! The keys that work now, as a person is told of them; drawn from the key table.

use super::clock::{self, Press};
use super::keys::{self, Action, Binding, Show};
use super::{clock_line, rows};
use crate::exam::Place;
use crate::phrase::{Text, keys as phrase};
use crate::session::context::Context;
use crate::session::{Overlay, Page, Session};

/// A key that works now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// What it does.
    pub action: Action,
    /// The key, as it is read.
    pub key: String,
    /// What it does, in a word or three.
    pub says: String,
    /// Whether it may be left out where there is no room.
    pub may_lack: bool,
    /// Whether it does something only where more stands than shows.
    pub moves_on: bool,
}

/// Those that are told of, in the order of the table.
pub fn of(session: &Session) -> Vec<Hint> {
    let hint = |binding: &Binding| {
        let says = match binding.action {
            Action::Clock => clock_line::hint(session),
            // What goes by a clock that still runs is not done by the key.
            Action::GoOn if clock::runs_on_screen(session) => phrase::hint_go_on(),
            _ => (binding.hint)(),
        };
        Hint {
            action: binding.action,
            key: session.say(binding.label()),
            says: session.say(Text::from(says)),
            may_lack: binding.show == Show::Footer,
            moves_on: binding.action == Action::More && rows::pages(session) <= 1,
        }
    };
    let told = keys::of(session.context()).filter(|binding| binding.show != Show::Help && works(session, binding));
    told.map(hint).collect()
}

/// Whether a key does anything just now.
fn works(session: &Session, binding: &Binding) -> bool {
    match binding.action {
        Action::Plan | Action::Why | Action::Map if session.days.over().is_some() => false,
        Action::Resume => session.offers_to_resume(),
        Action::Clock => !matches!(clock::press(session), Press::Nothing | Press::Runs),
        Action::AskOn => matches!(session.exam.place, Place::Instruction(at, _) if at == session.protocol.roles.go),
        Action::Beside => session.exam.asks_beside().is_some(),
        Action::More => rows::pages(session) > 1 || rows::rows(session).is_empty(),
        Action::HandOver => {
            session.context() != Context::Page || session.overlays.last() == Some(&Overlay::Page(Page::Handover))
        }
        Action::Back => !session.log.is_empty(),
        Action::Hands => session.exam.wants_hands(),
        Action::Birds => session.context() != Context::Birds || session.overlays.last() == Some(&Overlay::Case),
        _ => true,
    }
}
