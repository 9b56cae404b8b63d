//! The bird drawn beside the places a wound can have: arrow keys move over her, and the same places stand as a list.

use crate::content::chart::{self, Piece, Zone};
use crate::exam::Place;
use crate::finding::Answer;
use crate::phrase::drawing;
use crate::protocol::body::{Region, Spot};
use crate::screen::areas::Areas;
use crate::screen::keys::Toward;
use crate::screen::model::{Face, Model};
use crate::screen::rows::{self, Meaning};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use ratatui::text::{Line, Span};

/// The columns of the list beside the drawing.
pub const LIST: usize = 27;
/// From these columns and rows on there is room for a drawing beside the list.
const ROOM: (u16, u16) = (57, 13);
/// How much farther a step to the side counts than a step ahead.
const ASIDE: usize = 2;
/// A cell is about twice as high as wide.
const TALL: usize = 2;

/// Whether the drawing shows: where a wound is, is asked, and there is room.
pub fn shows(model: &Model) -> bool {
    let Place::Ask(asked) = model.exam.place else { return false };
    let asks = asked.question == model.protocol.roles.place;
    let bare = model.overlays.is_empty() && model.typed.is_none() && model.shown() == Face::Exam;
    let body = Areas::told(model).body;
    asks && bare && !model.protocol.views.is_empty() && body.width >= ROOM.0 && body.height >= ROOM.1
}

/// The region the cursor stands on.
fn looked_at(model: &Model) -> Option<usize> {
    let row = rows::page(model).into_iter().nth(model.cursor?)?;
    region_of(model, &row.meaning)
}

fn region_of(model: &Model, meaning: &Meaning) -> Option<usize> {
    let Meaning::Answer(_, Answer::Choice(place)) = meaning else { return None };
    model.protocol.regions.iter().position(|region| region.place == *place)
}

/// Sets the drawing to the right of the lines from this one on, and what the cursor stands on below.
pub fn beside(model: &Model, theme: Theme, width: usize, lines: &mut Vec<Line<'static>>, from: usize) {
    let zones = chart::zones(model.protocol, &model.exam.findings);
    let at = looked_at(model);
    let room = usize::from(Areas::told(model).body.height).saturating_sub(from + 2);
    let mut drawn: Vec<Vec<Piece>> = Vec::new();
    for view in 0..model.protocol.views.len() {
        let lines = chart::drawn(model.protocol, view, &zones, at);
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
    let words = match at.and_then(|at| Some((model.protocol.regions.get(at)?, zones.get(at)?))) {
        Some((region, zone)) => model.say(chart::told(region, zone)),
        None => model.say(drawing::arrows()),
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

/// Where the cursor goes: the nearest region that way, as page and row; nothing where none lies there.
pub fn step(model: &Model, toward: Toward) -> Option<(usize, usize)> {
    let rows = rows::rows(model);
    let regions = &model.protocol.regions;
    let row_of = |at: usize| rows.iter().position(|row| region_of(model, &row.meaning) == Some(at));
    let to = match looked_at(model) {
        None => return Some((model.page, 0)),
        Some(from) => {
            let others = regions.iter().enumerate().filter(|(at, _)| *at != from && row_of(*at).is_some());
            let away = others.filter_map(|(at, other)| Some((distance(regions.get(from)?, other, toward)?, at)));
            away.min()?.1
        }
    };
    let row = row_of(to)?;
    Some((row / rows::PAGE, row % rows::PAGE))
}

/// How far it is from one region to another that way, by their nearest marks; nothing where it lies elsewhere.
pub fn distance(from: &Region, to: &Region, toward: Toward) -> Option<usize> {
    let pairs = from.spots.iter().flat_map(|from| to.spots.iter().map(move |to| (from, to)));
    pairs.filter(|(from, to)| from.view == to.view).filter_map(|(from, to)| between(*from, *to, toward)).min()
}

fn between(from: Spot, to: Spot, toward: Toward) -> Option<usize> {
    let (down, aside) = (TALL * from.row.abs_diff(to.row), from.column.abs_diff(to.column));
    let (ahead, beside, is_there) = match toward {
        Toward::Up => (down, aside, to.row < from.row),
        Toward::Down => (down, aside, to.row > from.row),
        Toward::Left => (aside, down, to.column < from.column),
        Toward::Right => (aside, down, to.column > from.column),
    };
    // What lies more to the side than ahead is reached by another key.
    (is_there && beside <= ahead * ASIDE).then_some(ahead + ASIDE * beside)
}
