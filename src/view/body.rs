//! The places a wound can have as they lie on her: which one the cursor stands on, and which lies beside it.

use super::keys::Toward;
use super::meaning::Meaning;
use super::rows;
use crate::content::chart::{self, Piece, Zone};
use crate::exam::Place;
use crate::finding::Answer;
use crate::phrase::drawing;
use crate::protocol::body::{Region, Spot};
use crate::session::{Face, Session};

/// The bird drawn, with the places a wound can have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PictureView {
    /// Her views, line by line.
    pub views: Vec<Vec<Vec<DrawnPiece>>>,
    /// What the cursor stands on.
    pub told: String,
}

/// A piece of a line, and what it shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawnPiece {
    /// Its letters.
    pub text: String,
    /// What lies there.
    pub shows: DrawnPlace,
}

/// What a piece of the drawing shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawnPlace {
    /// Only what she looks like.
    Her,
    /// A place a wound can have.
    Place,
    /// Such a place where a wound is dangerous.
    Danger,
    /// The place the cursor stands on.
    LookedAt,
}

impl PictureView {
    /// The drawing, where it is asked where a wound is.
    pub fn of(session: &Session) -> Option<Self> {
        let Place::Ask(asked) = session.exam.place else { return None };
        let asks = asked.question == session.protocol.roles.place;
        let bare = session.overlays.is_empty() && session.line.is_none() && session.shown() == Face::Exam;
        if !(asks && bare) || session.protocol.views.is_empty() {
            return None;
        }
        let zones = chart::zones(session.protocol, &session.exam.findings);
        let at = looked_at(session);
        let view = |view| {
            let lines = chart::drawn(session.protocol, view, &zones, at).into_iter();
            lines.map(|line| line.into_iter().map(|piece| drawn(piece, &zones, at)).collect()).collect()
        };
        let told = match at.and_then(|at| Some((session.protocol.regions.get(at)?, zones.get(at)?))) {
            Some((region, zone)) => session.say(chart::told(region, zone)),
            None => session.say(drawing::arrows()),
        };
        Some(Self { views: (0..session.protocol.views.len()).map(view).collect(), told })
    }
}

fn drawn(piece: Piece, zones: &[Zone], looked_at: Option<usize>) -> DrawnPiece {
    let shows = match piece.region.and_then(|at| zones.get(at)) {
        Some(_) if piece.region == looked_at => DrawnPlace::LookedAt,
        Some(zone) if zone.danger => DrawnPlace::Danger,
        Some(_) => DrawnPlace::Place,
        None => DrawnPlace::Her,
    };
    DrawnPiece { text: piece.text, shows }
}

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
