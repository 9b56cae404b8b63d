//! The bird drawn in letters with her wounds marked where they are, and the places under which no liquid may reach.

use super::document::{self, Item, Section, Tone, section, upper_first};
use crate::finding::{About, Answer, Findings};
use crate::protocol::body::{Region, Spot, View};
use crate::protocol::told::Country;
use crate::protocol::{PLACE, Protocol};
use crate::sheet::{Sheet, Subject};
use chrono::DateTime;

/// A region of this bird's body.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Zone {
    /// The wounds in it, by number from 1.
    pub wounds: Vec<usize>,
    /// Whether no liquid may go in here: something lies under it, and not every wound here is known to be skin only.
    pub danger: bool,
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
        let within: Vec<usize> = (0..findings.wounds()).filter(|wound| is_in(findings, *wound, region)).collect();
        let skin_only = |wound: &usize| sheet.surely(&protocol.skin_only_when, Subject::Wound(*wound));
        let known = !within.is_empty() && within.iter().all(skin_only);
        Zone { wounds: within.iter().map(|wound| wound + 1).collect(), danger: region.danger.is_some() && !known }
    };
    protocol.regions.iter().map(zone).collect()
}

fn is_in(findings: &Findings, wound: usize, region: &Region) -> bool {
    let said = findings.answer(About::Wound(wound), PLACE).map(|said| &said.statement.answer);
    said == Some(&Answer::Choice(region.place.clone()))
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
        ([one], _) => one.to_string(),
        ([one, other], _) => format!("{one}+{other}"),
        ([one, ..], _) => format!("{one}++"),
    }
}

/// One view, line by line, with every region's mark in its place. The region looked at is drawn between `>` and `<`.
pub fn drawn(protocol: &Protocol, view: usize, zones: &[Zone], looked_at: Option<usize>) -> Vec<Vec<Piece>> {
    let Some(View { lines, .. }) = protocol.views.get(view) else { return Vec::new() };
    let line = |(row, line): (usize, &String)| {
        let here = |spot: &&Spot| spot.view == view && spot.row == row;
        let of = |(at, region): (usize, &Region)| {
            region.spots.iter().filter(here).map(move |spot| (spot.column, at)).collect::<Vec<_>>()
        };
        let mut marks: Vec<(usize, usize)> = protocol.regions.iter().enumerate().flat_map(of).collect();
        marks.sort_unstable();
        with_marks(line, &marks, |at| match zones.get(at) {
            Some(zone) if looked_at == Some(at) => format!(">{}<", bare_mark(zone)),
            Some(zone) => mark(zone),
            None => String::new(),
        })
    };
    lines.iter().enumerate().map(line).collect()
}

/// A line with marks set in it, each centred on its column; what they cover is not drawn.
fn with_marks(line: &str, marks: &[(usize, usize)], mark: impl Fn(usize) -> String) -> Vec<Piece> {
    let letters: Vec<char> = line.chars().collect();
    let (mut pieces, mut from) = (Vec::new(), 0);
    let drawn = |from: usize, to: usize| letters.iter().skip(from).take(to.saturating_sub(from)).collect::<String>();
    for (column, at) in marks {
        let text = mark(*at);
        let width = text.chars().count();
        let start = column.saturating_sub(width / 2).max(from);
        pieces.push(Piece { text: drawn(from, start), region: None });
        pieces.push(Piece { text, region: Some(*at) });
        from = start + width;
    }
    pieces.push(Piece { text: drawn(from, letters.len()), region: None });
    pieces
}

/// What a region is, what lies under it, and which wounds are there, in one sentence or two.
pub fn told(region: &Region, zone: &Zone) -> String {
    let wounds = match zone.wounds.as_slice() {
        [] => String::new(),
        [one] => format!(" Wound {one}."),
        several => format!(" Wounds {}.", several.iter().map(usize::to_string).collect::<Vec<_>>().join(", ")),
    };
    let under = match (&region.danger, zone.danger) {
        (None, _) => String::new(),
        (Some(under), true) => format!(" Under it: {under}. Nothing goes in."),
        (Some(under), false) => format!(" Skin only, over {under}."),
    };
    format!("{}.{wounds}{under}", upper_first(&region.name))
}

/// The page: both views, then every region that has a wound or a danger.
pub fn sections(protocol: &Protocol, country: &Country, findings: &Findings) -> Vec<Section> {
    let zones = zones(protocol, findings);
    let view = |(at, view): (usize, &View)| {
        let line = |pieces: &Vec<Piece>| pieces.iter().map(|piece| piece.text.as_str()).collect::<String>();
        let picture = drawn(protocol, at, &zones, None).iter().map(line).collect();
        Item { lead: upper_first(&view.name), picture, ..Item::default() }
    };
    let with = |wanted: fn(&Zone) -> bool| {
        let of = protocol.regions.iter().zip(&zones).filter(|(_, zone)| wanted(zone));
        of.map(|(region, zone)| Item::plain(told(region, zone))).collect::<Vec<_>>()
    };
    let placed: usize = zones.iter().map(|zone| zone.wounds.len()).sum();
    let unplaced = findings.wounds().saturating_sub(placed);
    let mut wounds = with(|zone| !zone.wounds.is_empty());
    if unplaced > 0 {
        let what = if unplaced == 1 { "One wound is".to_owned() } else { format!("{unplaced} wounds are") };
        wounds.push(Item::plain(format!("{what} not in the picture: where is not told.")));
    }
    if wounds.is_empty() {
        wounds.push(Item::plain("None found so far."));
    }
    let marks = [Item::plain("(1) wound, ! danger, !1! both")];
    let sections = [
        section(
            "ON HER BODY",
            Tone::Plain,
            marks.into_iter().chain(protocol.views.iter().enumerate().map(view)).collect(),
        ),
        section("HER WOUNDS", Tone::Plain, wounds),
        section(
            "NO LIQUID GOES IN HERE, UNTIL A WOUND IS KNOWN TO BE SKIN ONLY",
            Tone::Never,
            with(|zone| zone.danger && zone.wounds.is_empty()),
        ),
        document::caution(protocol, country),
    ];
    sections.into_iter().flatten().collect()
}
