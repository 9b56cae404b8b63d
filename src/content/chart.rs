//! The bird drawn in letters with her wounds marked where they are, and the places under which no liquid may reach.

use super::document::{self, Item, Section, Tone, section};
use crate::finding::{About, Answer, Findings};
use crate::phrase::{Text, chart as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::body::{BodyView, Region, Side, Spot};
use crate::protocol::texts::Country;
use crate::sheet::{Sheet, Subject, Truth};
use chrono::DateTime;

/// A region of this bird's body.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Zone {
    /// The wounds in it.
    pub wounds: Vec<Mark>,
    /// Whether no liquid may go in here: something lies under it, and not every wound here is known to be skin only.
    pub danger: bool,
}

/// A wound in the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mark {
    /// Its number, from 1.
    pub number: usize,
    /// The side of her it is on.
    pub lies: Lies,
}

/// On which side of her a wound is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// On this one.
    On(Side),
    /// On one of them: nobody told which.
    Either,
    /// Its place has no two sides.
    Middle,
}

/// A stretch of one drawn line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// What is drawn.
    pub text: String,
    /// The region it marks, by its position in [`Protocol::regions`].
    pub region: Option<usize>,
}

/// Every region of this bird, in the order of [`Protocol::regions`].
///
/// A place under which something lies is a danger until every wound in it is known to be skin only; "cannot tell" keeps it one.
pub fn zones(protocol: &Protocol, findings: &Findings) -> Vec<Zone> {
    // Whether a wound is skin only knows no clock, so any moment will do.
    let sheet = Sheet::lay(protocol, findings, DateTime::UNIX_EPOCH);
    let zone = |region: &Region| {
        let within: Vec<usize> =
            (0..findings.wounds()).filter(|wound| is_in(protocol, findings, *wound, region)).collect();
        let skin_only = |wound: &usize| sheet.surely(&protocol.skin_only_when, Subject::Wound(*wound));
        let known = !within.is_empty() && within.iter().all(skin_only);
        let marks =
            within.iter().map(|wound| Mark { number: wound + 1, lies: lies(protocol, &sheet, findings, *wound) });
        Zone { wounds: marks.collect(), danger: region.danger.is_some() && !known }
    };
    protocol.regions.iter().map(zone).collect()
}

fn is_in(protocol: &Protocol, findings: &Findings, wound: usize, region: &Region) -> bool {
    let said =
        findings.answer(About::Wound(wound), protocol.place_question().id.as_str()).map(|said| &said.statement.answer);
    said == Some(&Answer::Choice(region.place.clone()))
}

/// On which side a wound is: known where it was told, and its place has two.
fn lies(protocol: &Protocol, sheet: &Sheet, findings: &Findings, wound: usize) -> Lies {
    let has_two = |at| sheet.applies(Subject::Wound(wound), at) == Truth::Yes;
    let asked = &protocol.roles.side;
    if !has_two(asked.question) {
        return Lies::Middle;
    }
    let said =
        findings.answer(About::Wound(wound), protocol.side_question().id.as_str()).map(|said| &said.statement.answer);
    said.and_then(|answer| asked.of(answer)).map_or(Lies::Either, Lies::On)
}

impl Zone {
    /// What of it shows on one side: a wound known to be on the other is not drawn there.
    fn seen_on(&self, side: Option<Side>) -> Self {
        let here = |mark: &&Mark| match (side, mark.lies) {
            (Some(seen), Lies::On(side)) => seen == side,
            (None, _) | (_, Lies::Either | Lies::Middle) => true,
        };
        Self { wounds: self.wounds.iter().filter(here).copied().collect(), danger: self.danger }
    }
}

/// What is drawn where a region lies: a wound by its number, a danger by `!`, both as `!1!`; nothing of either as a dot.
pub fn mark(zone: &Zone) -> String {
    let bare = bare_mark(zone);
    match (zone.wounds.len(), zone.danger) {
        (1, false) => format!("({bare})"),
        (1, true) => format!("!{bare}!"),
        _ => bare,
    }
}

/// The same without what stands round a single wound.
fn bare_mark(zone: &Zone) -> String {
    match (zone.wounds.as_slice(), zone.danger) {
        ([], false) => "•".to_owned(),
        ([], true) => "!".to_owned(),
        ([one], _) => one.number.to_string(),
        ([one, other], _) => format!("{}+{}", one.number, other.number),
        ([one, ..], _) => format!("{}++", one.number),
    }
}

/// One view, line by line, with every region's mark in its place. The region looked at is drawn between `>` and `<`.
pub fn drawn(protocol: &Protocol, view: usize, zones: &[Zone], looked_at: Option<usize>) -> Vec<Vec<Piece>> {
    drawn_for(protocol, view, zones, looked_at, |side| side)
}

/// The same, each spot standing for the side that `stands_for` makes of its own.
fn drawn_for(
    protocol: &Protocol,
    view: usize,
    zones: &[Zone],
    looked_at: Option<usize>,
    stands_for: fn(Side) -> Side,
) -> Vec<Vec<Piece>> {
    let Some(BodyView { lines, .. }) = protocol.views.get(view) else { return Vec::new() };
    let line = |(row, line): (usize, &String)| {
        let here = |spot: &&Spot| spot.view == view && spot.row == row;
        let of = |(at, region): (usize, &Region)| {
            region.spots.iter().filter(here).map(move |spot| (spot.column, at, spot.side)).collect::<Vec<_>>()
        };
        let mut spots: Vec<(usize, usize, Option<Side>)> = protocol.regions.iter().enumerate().flat_map(of).collect();
        spots.sort_unstable_by_key(|(column, ..)| *column);
        let marked = |(column, at, side): (usize, usize, Option<Side>)| {
            let zone = zones.get(at).map(|zone| zone.seen_on(side.map(stands_for)));
            let text = match zone {
                Some(zone) if looked_at == Some(at) => format!(">{}<", bare_mark(&zone)),
                Some(zone) => mark(&zone),
                None => String::new(),
            };
            (column, at, text)
        };
        with_marks(line, spots.into_iter().map(marked))
    };
    lines.iter().enumerate().map(line).collect()
}

/// A view to read, as lines and the name over them. Where every wound that has a side is on her right, her right is drawn.
pub fn read(protocol: &Protocol, view: usize, zones: &[Zone]) -> (String, Vec<String>) {
    let told = protocol.views.get(view);
    let name = told.map(|view| view.name.clone()).unwrap_or_default();
    let as_drawn = || drawn(protocol, view, zones, None);
    let (name, lines) = match (told.and_then(|view| view.turns.as_ref()), side_hurt(zones)) {
        (None, _) | (_, None) => (name, as_drawn()),
        (Some(turns), Some(Side::Left)) => (turns.left.clone(), as_drawn()),
        (Some(turns), Some(Side::Right)) => {
            (turns.right.clone(), turned(drawn_for(protocol, view, zones, None, Side::other)))
        }
    };
    let line = |pieces: &Vec<Piece>| pieces.iter().map(|piece| piece.text.as_str()).collect::<String>();
    (name, lines.iter().map(|pieces| line(pieces).trim_end().to_owned()).collect())
}

/// The side that every wound is on whose place has two; none where they are on both, where one is not known, or none has one.
fn side_hurt(zones: &[Zone]) -> Option<Side> {
    let mut sides = zones.iter().flat_map(|zone| &zone.wounds).filter_map(|mark| match mark.lies {
        Lies::Middle => None,
        Lies::Either => Some(None),
        Lies::On(side) => Some(Some(side)),
    });
    let first = sides.next()?;
    sides.all(|side| side == first).then_some(first).flatten()
}

/// A drawing turned round: what pointed left points right; a mark stays as it is read.
fn turned(lines: Vec<Vec<Piece>>) -> Vec<Vec<Piece>> {
    let wide = |line: &Vec<Piece>| line.iter().map(|piece| piece.text.chars().count()).sum::<usize>();
    let width = lines.iter().map(wide).max().unwrap_or(0);
    let turn = |line: Vec<Piece>| {
        let before = Piece { text: " ".repeat(width.saturating_sub(wide(&line))), region: None };
        let pieces = line.into_iter().rev().map(|piece| match piece.region {
            Some(_) => piece,
            None => Piece { text: piece.text.chars().rev().map(other_way).collect(), region: None },
        });
        std::iter::once(before).chain(pieces).collect()
    };
    lines.into_iter().map(turn).collect()
}

/// A letter of a drawing as it looks from the other side.
const fn other_way(letter: char) -> char {
    match letter {
        '/' => '\\',
        '\\' => '/',
        '(' => ')',
        ')' => '(',
        '<' => '>',
        '>' => '<',
        ',' => '.',
        '`' => '\'',
        '\'' => '`',
        as_it_is => as_it_is,
    }
}

/// A line with marks set in it, each centred on its column; what they cover is not drawn.
fn with_marks(line: &str, marks: impl Iterator<Item = (usize, usize, String)>) -> Vec<Piece> {
    let letters: Vec<char> = line.chars().collect();
    let (mut pieces, mut from) = (Vec::new(), 0);
    let drawn = |from: usize, to: usize| letters.iter().skip(from).take(to.saturating_sub(from)).collect::<String>();
    for (column, at, text) in marks {
        let width = text.chars().count();
        let start = column.saturating_sub(width / 2).max(from);
        pieces.push(Piece { text: drawn(from, start), region: None });
        pieces.push(Piece { text, region: Some(at) });
        from = start + width;
    }
    pieces.push(Piece { text: drawn(from, letters.len()), region: None });
    pieces
}

/// What a region is, what lies under it, and which wounds are there, in one sentence or two.
pub fn told(region: &Region, zone: &Zone) -> Text {
    let name = |mark: &Mark| {
        let number = Text::typed(mark.number.to_string());
        match mark.lies {
            Lies::Either | Lies::Middle => number,
            Lies::On(Side::Left) => phrase::on_left(number).into(),
            Lies::On(Side::Right) => phrase::on_right(number).into(),
        }
    };
    let wounds =
        (!zone.wounds.is_empty()).then(|| phrase::wounds(Text::list(zone.wounds.iter().map(name)), zone.wounds.len()));
    let under = region.danger.as_ref().map(|under| {
        let under = Text::quoted(under);
        if zone.danger { phrase::under(under) } else { phrase::skin_only(under) }
    });
    let name = words::ended(Text::opening(Text::quoted(&region.name)));
    Text::row([Some(name), wounds, under].into_iter().flatten())
}

/// The page: both views, then every region that has a wound or a danger.
pub fn sections(protocol: &Protocol, country: &Country, findings: &Findings) -> Vec<Section<Text>> {
    let zones = zones(protocol, findings);
    let view = |at: usize| {
        let (name, picture) = read(protocol, at, &zones);
        Item { lead: Text::opening(Text::quoted(name)), picture, ..Item::default() }
    };
    let with = |wanted: fn(&Zone) -> bool| {
        let of = protocol.regions.iter().zip(&zones).filter(|(_, zone)| wanted(zone));
        of.map(|(region, zone)| Item::plain(told(region, zone))).collect::<Vec<Item<Text>>>()
    };
    let placed: usize = zones.iter().map(|zone| zone.wounds.len()).sum();
    let unplaced = findings.wounds().saturating_sub(placed);
    let mut wounds = with(|zone| !zone.wounds.is_empty());
    if unplaced > 0 {
        wounds.push(Item::plain(phrase::unplaced(unplaced)));
    }
    if wounds.is_empty() {
        wounds.push(Item::plain(phrase::none()));
    }
    let marks = [Item::plain(phrase::marks())];
    let dry = with(|zone| zone.danger && zone.wounds.is_empty());
    let sections = [
        section(
            phrase::heading_body(),
            Tone::Plain,
            marks.into_iter().chain((0..protocol.views.len()).map(view)).collect(),
        ),
        section(phrase::heading_wounds(), Tone::Plain, wounds),
        section(phrase::heading_dry(), Tone::Never, dry),
        document::caution(country),
    ];
    sections.into_iter().flatten().collect()
}
