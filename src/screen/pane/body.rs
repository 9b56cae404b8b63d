//! The bird drawn beside the places a wound can have: arrow keys move over her, and the same places stand as a list.

use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::body::{DrawnPiece, DrawnPlace, PictureView};
use ratatui::text::{Line, Span};

/// The columns of the list beside the drawing.
pub const LIST: usize = 27;
/// From these columns and rows on there is room for a drawing beside the list.
const ROOM: (usize, usize) = (56, 13);

/// Whether there is room for it.
pub const fn has_room((width, height): (usize, usize)) -> bool {
    width >= ROOM.0 && height >= ROOM.1
}

/// Sets the drawing to the right of the lines from this one on, and what the cursor stands on below.
pub fn beside(
    picture: &PictureView,
    theme: Theme,
    (width, height): (usize, usize),
    lines: &mut Vec<Line<'static>>,
    from: usize,
) {
    let room = height.saturating_sub(from + 2);
    let mut drawn: Vec<&[DrawnPiece]> = Vec::new();
    for view in &picture.views {
        if drawn.is_empty() || drawn.len() + 1 + view.len() <= room {
            drawn.extend(if drawn.is_empty() { None } else { Some::<&[DrawnPiece]>(&[]) });
            drawn.extend(view.iter().map(Vec::as_slice));
        }
    }
    while lines.len() < from + drawn.len() {
        lines.push(Line::default());
    }
    for (line, pieces) in lines.iter_mut().skip(from).zip(&drawn) {
        let gap = (LIST + 1).saturating_sub(line.width());
        line.spans.push(Span::raw(" ".repeat(gap)));
        line.spans.extend(pieces.iter().map(|piece| span(piece, theme)));
    }
    lines.extend(wrapped(&picture.told, width, "", theme.aside()));
}

fn span(piece: &DrawnPiece, theme: Theme) -> Span<'static> {
    let style = match piece.shows {
        DrawnPlace::LookedAt => theme.focus(),
        DrawnPlace::Danger => theme.never(),
        DrawnPlace::Place => theme.question(),
        DrawnPlace::Her => theme.plain(),
    };
    Span::styled(piece.text.clone(), style)
}
