//! The top line: which bird, how long she has been in the hand, whether all is kept.

use crate::screen::theme::Theme;
use crate::screen::wrap::{cut, wrapped};
use crate::view::View;
use crate::view::header::HeaderView;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// A warning takes at most so many lines: what could not be kept says what to do about it.
const MOST: usize = 3;

/// From these columns on, the program's name stands beside the bird.
const ROOM_FOR_BOTH: usize = 56;

/// Draws the header in one line; those below, where there are any, warn.
pub fn draw(header: &HeaderView, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width);
    let bird = if width < ROOM_FOR_BOTH { &header.bird } else { &header.in_full };
    let right = right(header, width.saturating_sub(bird.chars().count() + 2));
    let left = cut(bird, width.saturating_sub(right.chars().count() + 2));
    buffer.set_line(area.x, area.y, &Line::from(Span::styled(left, theme.question())), area.width);
    let style = if header.held_too_long { theme.urgent() } else { theme.aside() };
    let x = area.right().saturating_sub(u16::try_from(right.chars().count()).unwrap_or(0));
    buffer.set_line(x.max(area.x), area.y, &Line::from(Span::styled(cut(&right, width), style)), area.width);
    for (line, y) in warnings(header, theme, width).iter().zip(area.y + 1..area.bottom()) {
        buffer.set_line(area.x, y, line, area.width);
    }
}

/// How many lines the header takes: one, and those of the warning.
pub fn height(view: &View, width: u16) -> u16 {
    let lines = warnings(&view.header, Theme { colour: false }, usize::from(width)).len();
    1 + u16::try_from(lines).unwrap_or(0)
}

fn warnings(header: &HeaderView, theme: Theme, width: usize) -> Vec<Line<'static>> {
    let warning = header.warning.iter().flat_map(|warning| wrapped(warning, width, "", theme.urgent()));
    warning.take(MOST).collect()
}

/// The clocks and whether all is kept. Where there is no room for all of it, "saved" gives way first: what is not is told in
/// any case.
fn right(header: &HeaderView, room: usize) -> String {
    // On a phone there is room for one clock only, and that of the hand is the one that hurts.
    let with_her = header.with_her.as_ref().filter(|_| room >= ROOM_FOR_BOTH / 2 || header.hand.is_none());
    let clocks =
        [with_her, header.clock.as_ref(), header.hand.as_ref(), header.of_another.as_ref(), header.look.as_ref()];
    let clocks: Vec<&str> = clocks.into_iter().flatten().map(String::as_str).collect();
    let all = clocks.iter().copied().chain(header.kept.as_deref()).collect::<Vec<_>>().join(" · ");
    let gives_way = !header.is_refused && all.chars().count() > room && !clocks.is_empty();
    if gives_way { clocks.join(" · ") } else { all }
}
