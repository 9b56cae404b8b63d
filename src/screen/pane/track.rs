//! Where we are, head to tail.

use crate::exam::Progress;
use crate::phrase::{Text, header as phrase};
use crate::screen::theme::Theme;
use crate::session::Session;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Draws the steps in one line; where they do not all fit, only the one we are at and how many there are.
pub fn draw(session: &Session, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let progress = session.exam.progress();
    let mut spans = Vec::new();
    for (step, progress) in session.protocol.steps.iter().zip(&progress) {
        let (text, style) = match progress {
            Progress::Here => (format!("[{}]", step.name), theme.question()),
            Progress::Ahead => (format!(" {} ", step.name), theme.aside()),
            Progress::Done => (format!("+{} ", step.name), theme.plain()),
            Progress::LeftOpen => (format!("?{} ", step.name), theme.plain()),
        };
        spans.push(Span::styled(text, style));
    }
    let line = Line::from(spans);
    let line = if line.width() > usize::from(area.width) { short(session, theme) } else { line };
    buffer.set_line(area.x, area.y, &line, area.width);
}

/// "head, step 4 of 12".
fn short(session: &Session, theme: Theme) -> Line<'static> {
    let count = session.protocol.steps.len();
    let told = session
        .exam
        .step()
        .map(|at| (at, session.protocol.steps.of(at)))
        .map_or_else(|| phrase::steps(count), |(at, step)| phrase::step(Text::quoted(&step.name), at.nth() + 1, count));
    Line::from(Span::styled(session.say(told), theme.aside()))
}
