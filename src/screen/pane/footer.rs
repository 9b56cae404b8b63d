//! The keys that work now, drawn from the key table.

use crate::exam::Place;
use crate::phrase::{Text, keys as phrase};
use crate::screen::keys::{self, Action, Binding, Context, Show};
use crate::screen::model::{Model, Overlay, Page};
use crate::screen::pane::clock::{self, Press};
use crate::screen::theme::Theme;
use crate::screen::{pane, rows};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// Draws as many hints as fit; those that must always show are never the ones left out.
pub fn draw(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) {
    for (line, y) in lines(model, usize::from(area.width), usize::from(area.height)).into_iter().zip(area.y..) {
        buffer.set_line(area.x, y, &Line::from(Span::styled(line, theme.plain())), area.width);
    }
}

/// The hints, set in at most `height` lines.
pub fn lines(model: &Model, width: usize, height: usize) -> Vec<String> {
    let mut shown: Vec<&Binding> =
        keys::of(model.context()).filter(|b| b.show != Show::Help && is_live(model, b)).collect();
    loop {
        let set = set(model, &shown, width);
        let last_optional = shown.iter().rposition(|binding| binding.show == Show::Footer);
        match last_optional {
            Some(at) if set.len() > height => {
                shown.remove(at);
            }
            _ => return set.into_iter().take(height).collect(),
        }
    }
}

fn set(model: &Model, shown: &[&Binding], width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for binding in shown {
        let hint = match binding.action {
            Action::Clock => clock::hint(model),
            // What goes by a clock that still runs is not done by the key.
            Action::GoOn if clock::runs_on_screen(model) => phrase::hint_go_on(),
            _ => (binding.hint)(),
        };
        let hint = model.say(Text::row([binding.label(), hint.into()]));
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
fn is_live(model: &Model, binding: &Binding) -> bool {
    match binding.action {
        Action::Plan | Action::Why | Action::Map if model.days.over().is_some() => false,
        Action::Resume => model.offers_to_resume(),
        Action::Clock => !matches!(clock::press(model), Press::Nothing | Press::Runs),
        Action::AskOn => matches!(model.exam.place, Place::Instruction(at, _) if at == model.protocol.roles.go),
        Action::Beside => model.exam.asks_beside().is_some(),
        Action::More => {
            let (lines, height) = pane::extent(model);
            rows::pages(model) > 1 || (rows::rows(model).is_empty() && lines > height)
        }
        Action::HandOver => {
            model.context() != Context::Page || model.overlays.last() == Some(&Overlay::Page(Page::Handover))
        }
        Action::Back => !model.log.is_empty(),
        Action::Hands => model.exam.wants_hands(),
        Action::Birds => model.context() != Context::Birds || model.overlays.last() == Some(&Overlay::Case),
        _ => true,
    }
}
