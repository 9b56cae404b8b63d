//! The places a wound can have as they lie on her: which one the cursor stands on, and which lies beside it.

use super::keys::Toward;
use super::meaning::Meaning;
use super::rows;
use crate::finding::Answer;
use crate::protocol::body::{Region, Spot};
use crate::session::Session;

/// How much farther a step to the side counts than a step ahead.
const ASIDE: usize = 2;
/// A cell is about twice as high as wide.
const TALL: usize = 2;

/// The region the cursor stands on.
pub fn looked_at(session: &Session) -> Option<usize> {
    let row = rows::page(session).into_iter().nth(session.cursor?)?;
    region_of(session, &row.meaning)
}

fn region_of(session: &Session, meaning: &Meaning) -> Option<usize> {
    let Meaning::Answer(_, Answer::Choice(place)) = meaning else { return None };
    session.protocol.regions.iter().position(|region| region.place == *place)
}

/// Where the cursor goes: the nearest region that way, as page and row; nothing where none lies there.
pub fn step(session: &Session, toward: Toward) -> Option<(usize, usize)> {
    let rows = rows::rows(session);
    let regions = &session.protocol.regions;
    let row_of = |at: usize| rows.iter().position(|row| region_of(session, &row.meaning) == Some(at));
    let to = match looked_at(session) {
        None => return Some((session.page, 0)),
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
        Toward::Left => (aside, down, to.column < from.column),
        Toward::Right => (aside, down, to.column > from.column),
    };
    // What lies more to the side than ahead is reached by another key.
    (is_there && beside <= ahead * ASIDE).then_some(ahead + ASIDE * beside)
}
