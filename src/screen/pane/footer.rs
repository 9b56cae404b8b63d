//! The keys that work now, drawn from the key table.

use crate::exam::Place;
use crate::phrase::{Text, keys as phrase};
use crate::screen::theme::Theme;
use crate::session::context::Context;
use crate::session::{Extent, Overlay, Page, Session};
use crate::view::clock::{self, Press};
use crate::view::clock_line;
use crate::view::keys::{self, Action, Binding, Show};
use crate::view::rows;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// Draws as many hints as fit; those that must always show are never the ones left out.
pub fn draw(session: &Session, theme: Theme, extent: Extent, area: Rect, buffer: &mut Buffer) {
    for (line, y) in lines(session, extent, usize::from(area.width), usize::from(area.height)).into_iter().zip(area.y..)
    {
        buffer.set_line(area.x, y, &Line::from(Span::styled(line, theme.plain())), area.width);
    }
}

/// The hints, set in at most `height` lines.
pub fn lines(session: &Session, extent: Extent, width: usize, height: usize) -> Vec<String> {
    let mut shown: Vec<&Binding> =
        keys::of(session.context()).filter(|b| b.show != Show::Help && is_live(session, extent, b)).collect();
    loop {
        let set = set(session, &shown, width);
        let last_optional = shown.iter().rposition(|binding| binding.show == Show::Footer);
        match last_optional {
            Some(at) if set.len() > height => {
                shown.remove(at);
            }
            _ => return set.into_iter().take(height).collect(),
        }
    }
}

fn set(session: &Session, shown: &[&Binding], width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for binding in shown {
        let hint = match binding.action {
            Action::Clock => clock_line::hint(session),
            // What goes by a clock that still runs is not done by the key.
            Action::GoOn if clock::runs_on_screen(session) => phrase::hint_go_on(),
            _ => (binding.hint)(),
        };
        let hint = session.say(Text::row([binding.label(), hint.into()]));
        let Some(line) = lines.last_mut() else { break };
        if line.is_empty() {
            line.push_str(&hint);
        } else if line.width() + 3 + hint.width() <= width {
            line.push_str(" · ");
            line.push_str(&hint);
        } else {
            lines.push(hint);
        }
    }
    lines
}

/// Whether a key does anything just now.
fn is_live(session: &Session, extent: Extent, binding: &Binding) -> bool {
    match binding.action {
        Action::Plan | Action::Why | Action::Map if session.days.over().is_some() => false,
        Action::Resume => session.offers_to_resume(),
        Action::Clock => !matches!(clock::press(session), Press::Nothing | Press::Runs),
        Action::AskOn => matches!(session.exam.place, Place::Instruction(at, _) if at == session.protocol.roles.go),
        Action::Beside => session.exam.asks_beside().is_some(),
        Action::More => rows::pages(session) > 1 || (rows::rows(session).is_empty() && extent.lines > extent.height),
        Action::HandOver => {
            session.context() != Context::Page || session.overlays.last() == Some(&Overlay::Page(Page::Handover))
        }
        Action::Back => !session.log.is_empty(),
        Action::Hands => session.exam.wants_hands(),
        Action::Birds => session.context() != Context::Birds || session.overlays.last() == Some(&Overlay::Case),
        _ => true,
    }
}
