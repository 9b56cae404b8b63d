//! The bird drawn beside the places a wound can have: arrow keys move over her, and the same places stand as a list.

use crate::content::chart::{self, Piece, Zone};
use crate::exam::Place;
use crate::phrase::drawing;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::{Face, Session};
use crate::view::body::looked_at;
use ratatui::text::{Line, Span};

/// The columns of the list beside the drawing.
pub const LIST: usize = 27;
/// From these columns and rows on there is room for a drawing beside the list.
const ROOM: (usize, usize) = (56, 13);
/// Whether the drawing shows: where a wound is, is asked, and there is room.
pub fn shows(session: &Session, (width, height): (usize, usize)) -> bool {
    let Place::Ask(asked) = session.exam.place else { return false };
    let asks = asked.question == session.protocol.roles.place;
    let bare = session.overlays.is_empty() && session.line.is_none() && session.shown() == Face::Exam;
    asks && bare && !session.protocol.views.is_empty() && width >= ROOM.0 && height >= ROOM.1
}

/// Sets the drawing to the right of the lines from this one on, and what the cursor stands on below.
pub fn beside(
    session: &Session,
    theme: Theme,
    (width, height): (usize, usize),
    lines: &mut Vec<Line<'static>>,
    from: usize,
) {
    let zones = chart::zones(session.protocol, &session.exam.findings);
    let at = looked_at(session);
    let room = height.saturating_sub(from + 2);
    let mut drawn: Vec<Vec<Piece>> = Vec::new();
    for view in 0..session.protocol.views.len() {
        let lines = chart::drawn(session.protocol, view, &zones, at);
        if drawn.is_empty() || drawn.len() + 1 + lines.len() <= room {
            drawn.extend(if drawn.is_empty() { Vec::new() } else { vec![Vec::new()] });
            drawn.extend(lines);
        }
    }
    while lines.len() < from + drawn.len() {
        lines.push(Line::default());
    }
    for (line, pieces) in lines.iter_mut().skip(from).zip(&drawn) {
        let gap = (LIST + 1).saturating_sub(line.width());
        line.spans.push(Span::raw(" ".repeat(gap)));
        line.spans.extend(pieces.iter().map(|piece| span(piece, &zones, at, theme)));
    }
    let words = match at.and_then(|at| Some((session.protocol.regions.get(at)?, zones.get(at)?))) {
        Some((region, zone)) => session.say(chart::told(region, zone)),
        None => session.say(drawing::arrows()),
    };
    lines.extend(wrapped(&words, width, "", theme.aside()));
}

fn span(piece: &Piece, zones: &[Zone], looked_at: Option<usize>, theme: Theme) -> Span<'static> {
    let zone = piece.region.and_then(|at| zones.get(at));
    let style = match zone {
        Some(_) if piece.region == looked_at => theme.focus(),
        Some(zone) if zone.danger => theme.never(),
        Some(_) => theme.question(),
        None => theme.plain(),
    };
    Span::styled(piece.text.clone(), style)
}
