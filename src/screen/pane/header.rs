//! The top line: which bird, how long she has been in the hand, whether all is kept.

use crate::screen::theme::Theme;
use crate::screen::wrap::{cut, wrapped};
use crate::session::Session;
use crate::session::clocks::held_too_long;
use crate::view::header::{ROOM_FOR_BOTH, bird, clock, hand, kept, look, of_another, warning, with_her};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// A warning takes at most so many lines: what could not be kept says what to do about it.
const MOST: usize = 3;

/// Draws the header in one line; those below, where there are any, warn.
pub fn draw(session: &Session, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width);
    let bird = session.say(bird(session, width));
    let right = right(session, width.saturating_sub(bird.chars().count() + 2));
    let left = cut(&bird, width.saturating_sub(right.chars().count() + 2));
    buffer.set_line(area.x, area.y, &Line::from(Span::styled(left, theme.question())), area.width);
    let style = if held_too_long(session) { theme.urgent() } else { theme.aside() };
    let x = area.right().saturating_sub(u16::try_from(right.chars().count()).unwrap_or(0));
    buffer.set_line(x.max(area.x), area.y, &Line::from(Span::styled(cut(&right, width), style)), area.width);
    let warning = warning(session).map(|warning| session.say(warning));
    let warnings = warning.map_or_else(Vec::new, |warning| wrapped(&warning, width, "", theme.urgent()));
    for (line, y) in warnings.iter().take(MOST).zip(area.y + 1..area.bottom()) {
        buffer.set_line(area.x, y, line, area.width);
    }
}

/// How many lines the header takes: one, and those of the warning.
pub fn height(session: &Session, width: u16) -> u16 {
    let plain = Theme { colour: false };
    let warning = warning(session).map(|warning| session.say(warning));
    let lines = warning.map_or(0, |warning| wrapped(&warning, usize::from(width), "", plain.urgent()).len());
    1 + u16::try_from(lines.min(MOST)).unwrap_or(0)
}

/// The clocks and whether all is kept. Where there is no room for all of it, "saved" gives way first: what is not is told in
/// any case.
fn right(session: &Session, room: usize) -> String {
    // On a phone there is room for one clock only, and that of the hand is the one that hurts.
    let with_her = with_her(session).filter(|_| room >= ROOM_FOR_BOTH / 2 || hand(session).is_none());
    let clocks = [with_her, clock(session), hand(session), of_another(session), look(session)].into_iter().flatten();
    let clocks: Vec<String> = clocks.map(|told| session.say(told)).collect();
    let joined = |parts: &[String]| parts.join(" · ");
    let kept = kept(session).map(|told| session.say(told));
    let all = joined(&clocks.iter().cloned().chain(kept).collect::<Vec<_>>());
    let gives_way = session.keeping.refusal.is_none() && all.chars().count() > room && !clocks.is_empty();
    if gives_way { joined(&clocks) } else { all }
}
