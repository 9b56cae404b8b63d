//! Where we are, head to tail.

use crate::exam::Progress;
use crate::screen::theme::Theme;
use crate::view::track::TrackView;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Draws the steps in one line; where they do not all fit, only the one we are at and how many there are.
pub fn draw(track: &TrackView, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let spans = track.steps.iter().map(|(name, progress)| match progress {
        Progress::Here => Span::styled(format!("[{name}]"), theme.question()),
        Progress::Ahead => Span::styled(format!(" {name} "), theme.aside()),
        Progress::Done => Span::styled(format!("+{name} "), theme.plain()),
        Progress::LeftOpen => Span::styled(format!("?{name} "), theme.plain()),
    });
    let line = Line::from(spans.collect::<Vec<_>>());
    let short = || Line::from(Span::styled(track.short.clone(), theme.aside()));
    let line = if line.width() > usize::from(area.width) { short() } else { line };
    buffer.set_line(area.x, area.y, &line, area.width);
}
