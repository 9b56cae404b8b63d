//! What a screen too small to work on says.

use crate::phrase::page as phrase;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::View;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// The fewest columns and rows the program works on.
pub const LEAST: (u16, u16) = (36, 14);

/// Whether the screen is too small.
pub fn is_too_small(area: Rect) -> bool {
    area.width < LEAST.0 || area.height < LEAST.1
}

/// Says so, and first of all what to do for the bird.
pub fn draw(view: &View, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let (columns, rows) = LEAST;
    let text = view.reader.say(&phrase::too_small(area.width, area.height, columns, rows).into());
    let width = usize::from(area.width);
    let lines = view.first_act.iter().chain([&text]).flat_map(|text| wrapped(text, width, "", theme.plain()));
    for (line, y) in lines.zip(area.y..area.bottom()) {
        buffer.set_line(area.x, y, &line, area.width);
    }
}
