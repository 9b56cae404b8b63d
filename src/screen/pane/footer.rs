//! The keys that work now.

use crate::screen::theme::Theme;
use crate::session::Extent;
use crate::view::hints::Hint;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// Draws as many hints as fit; those that must always show are never the ones left out.
pub fn draw(hints: &[Hint], theme: Theme, extent: Extent, area: Rect, buffer: &mut Buffer) {
    for (line, y) in lines(hints, extent, usize::from(area.width), usize::from(area.height)).into_iter().zip(area.y..) {
        buffer.set_line(area.x, y, &Line::from(Span::styled(line, theme.plain())), area.width);
    }
}

/// The hints, set in at most `height` lines.
fn lines(hints: &[Hint], extent: Extent, width: usize, height: usize) -> Vec<String> {
    let moves_on = extent.lines > extent.height;
    let mut shown: Vec<&Hint> = hints.iter().filter(|hint| !hint.moves_on || moves_on).collect();
    loop {
        let set = set(&shown, width);
        match shown.iter().rposition(|hint| hint.may_lack) {
            Some(at) if set.len() > height => {
                shown.remove(at);
            }
            _ => return set.into_iter().take(height).collect(),
        }
    }
}

fn set(shown: &[&Hint], width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for hint in shown {
        let hint = format!("{} {}", hint.key, hint.says);
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
