//! Where we are, head to tail.

use crate::exam::Progress;
use crate::phrase::{Text, header as phrase};
use crate::screen::model::Model;
use crate::screen::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Draws the steps in one line; where they do not all fit, only the one we are at and how many there are.
pub fn draw(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let progress = model.exam.progress();
    let mut spans = Vec::new();
    for (step, progress) in model.protocol.steps.iter().zip(&progress) {
        let (text, style) = match progress {
            Progress::Here => (format!("[{}]", step.name), theme.question()),
            Progress::Ahead => (format!(" {} ", step.name), theme.aside()),
            Progress::Done => (format!("+{} ", step.name), theme.plain()),
            Progress::LeftOpen => (format!("?{} ", step.name), theme.plain()),
        };
        spans.push(Span::styled(text, style));
    }
    let line = Line::from(spans);
    let line = if line.width() > usize::from(area.width) { short(model, theme) } else { line };
    buffer.set_line(area.x, area.y, &line, area.width);
}

/// "head, step 4 of 12".
fn short(model: &Model, theme: Theme) -> Line<'static> {
    let count = model.protocol.steps.len();
    let told = model
        .exam
        .step()
        .map(|at| (at, model.protocol.steps.of(at)))
        .map_or_else(|| phrase::steps(count), |(at, step)| phrase::step(Text::quoted(&step.name), at.nth() + 1, count));
    Line::from(Span::styled(model.say(told), theme.aside()))
}
