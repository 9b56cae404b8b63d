//! One file a pane: what stands on it is in the view; a pane sets it in lines, with styles by meaning.

pub mod body;
pub mod card;
pub mod document;
pub mod entering;
pub mod footer;
pub mod graph;
pub mod header;
pub mod help;
pub mod instruction;
pub mod picture;
pub mod question;
pub mod rows;
pub mod small;
pub mod summary;
pub mod sums;
pub mod track;
pub mod why;

use ratatui::layout::Position;
use ratatui::text::Line;

/// Lines to draw, and where among them the cursor belongs.
#[derive(Clone, Debug, Default)]
pub struct Lines {
    /// The lines.
    pub lines: Vec<Line<'static>>,
    /// The line the cursor stands on.
    pub cursor: Option<usize>,
}

impl Lines {
    /// Adds lines.
    pub fn add(&mut self, lines: impl IntoIterator<Item = Line<'static>>) {
        self.lines.extend(lines);
    }

    /// Adds an empty line, unless one stands there already.
    pub fn gap(&mut self) {
        if self.lines.last().is_some_and(|line| line.width() > 0) {
            self.lines.push(Line::default());
        }
    }

    /// Marks the next line as the cursor's.
    pub fn cursor_here(&mut self) {
        self.cursor = Some(self.lines.len());
    }
}

/// Draws lines from `scroll` on, and returns where on the screen the cursor belongs.
///
/// A last line that does not fit gives way to a mark saying that there is more.
pub fn paint(
    lines: &Lines,
    scroll: usize,
    area: ratatui::layout::Rect,
    more: &Line<'static>,
    buffer: &mut ratatui::buffer::Buffer,
) -> Option<Position> {
    let height = usize::from(area.height);
    let below = lines.lines.len().saturating_sub(scroll) > height;
    let shown = if below { height.saturating_sub(1) } else { height };
    for (line, y) in lines.lines.iter().skip(scroll).take(shown).zip(area.y..) {
        buffer.set_line(area.x, y, line, area.width);
    }
    if below && height > 0 {
        buffer.set_line(area.x, area.bottom() - 1, more, area.width);
    }
    let row = lines.cursor?.checked_sub(scroll).filter(|row| *row < height)?;
    Some(Position { x: area.x, y: area.y + u16::try_from(row).ok()? })
}
