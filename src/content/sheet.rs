//! The handover sheet: what a vet, another volunteer or the next shift must know, in the order the trade hands over. One model;
//! text, Markdown, HTML, PDF and JSON are written from it.
//!
//! First age and time, mechanism, injuries, signs, treatment (AT-MIST, as ambulance services hand over); then situation,
//! background, assessment, recommendation (SBAR, as one asks a colleague). British Columbia uses the first for handing over and
//! the second for asking; a keeper who phones does both.

pub mod card;
mod course;
pub mod curve;
mod writer;

pub use writer::{SheetCase, sheet};

use super::document::{Item, Section, Tone, section};
use crate::protocol::hazard::Hazard;

/// A cell or line as it is printed holds at most so many letters; the JSON holds all.
pub(crate) const MOST_LETTERS: usize = 400;

/// The heading over what is read out on the phone, and to the next shift.
pub(crate) const PHONE: &str = "ON THE PHONE, READ THIS OUT";
pub(crate) const SHIFT: &str = "TO THE NEXT SHIFT, READ THIS OUT";

/// The whole sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// The bird, in a few words.
    pub bird: String,
    /// When the sheet was made, and by what.
    pub made: String,
    /// What to say on the phone.
    pub script: String,
    /// What to say to the next shift.
    pub shift: String,
    /// The parts, in the order of handing over.
    pub parts: Vec<Part>,
    /// What could go wrong with her: told to a program alone, a page has no room for it.
    pub hazards: Vec<&'static Hazard>,
    /// What stands on everything that leaves the program.
    pub caution: String,
}

/// One part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its key in JSON.
    pub id: &'static str,
    /// Its heading.
    pub heading: &'static str,
    /// Its lines, each with a name where it has one.
    pub rows: Vec<Row>,
    /// Values over time.
    pub table: Option<Table>,
    /// The bird drawn.
    pub drawing: Option<Drawing>,
    /// Measurements drawn over time; the rows tell the same.
    pub plots: Vec<Plot>,
}

/// A line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it tells; empty where the line stands for itself.
    pub name: String,
    /// What is told.
    pub told: String,
}

/// A table with its head.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// What it is about.
    pub caption: String,
    /// The heads of its columns.
    pub head: Vec<String>,
    /// Its rows; the first cell of each is the row's head.
    pub rows: Vec<Vec<String>>,
}

/// The bird in letters, and the same in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing {
    /// Its lines.
    pub lines: Vec<String>,
    /// What it shows, for who cannot see it.
    pub words: String,
}

/// Measurements over time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plot {
    /// What it shows, for who cannot see it.
    pub words: String,
    /// In what it is measured.
    pub unit: &'static str,
    /// When the first was taken.
    pub from: String,
    /// When the last was taken.
    pub to: String,
    /// Each measurement, in the order of the clock.
    pub points: Vec<Point>,
    /// A line that means something, where there is one.
    pub floor: Option<u32>,
}

/// A measurement, and between what the truth lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Point {
    /// Minutes since the first.
    pub minute: u32,
    /// The least it can be.
    pub low: u32,
    /// As it was read.
    pub value: u32,
    /// The most it can be.
    pub high: u32,
}

/// The sheet as headed lists, to be read on the screen.
pub fn sections(sheet: &Sheet) -> Vec<Section> {
    let item = |row: &Row| match row.name.as_str() {
        "" => Item::plain(brief(&row.told)),
        name => Item::plain(format!("{name}: {}", brief(&row.told))),
    };
    let part = |part: &Part| {
        let cells = |table: &Table, row: &Vec<String>| {
            let heads = table.head.iter().skip(1).map(|head| head.to_lowercase());
            let told = heads.zip(row.iter().skip(1)).map(|(head, cell)| format!("{head}: {}", brief(cell)));
            let name = row.first().map(String::as_str).unwrap_or_default();
            Item::plain(format!("{name}: {}", told.collect::<Vec<_>>().join("; ")))
        };
        let table = part.table.iter().flat_map(|table| table.rows.iter().map(move |row| cells(table, row)));
        let drawing = part.drawing.iter();
        let drawing =
            drawing.map(|drawing| Item { picture: drawing.lines.clone(), ..Item::plain(drawing.words.clone()) });
        section(part.heading, Tone::Plain, part.rows.iter().map(item).chain(table).chain(drawing).collect())
    };
    let script = section(PHONE, Tone::Plain, vec![Item::plain(sheet.script.clone())]);
    let shift = section(SHIFT, Tone::Plain, vec![Item::plain(sheet.shift.clone())]);
    let title =
        section(&format!("HANDOVER: {}", brief(&sheet.bird)), Tone::Plain, vec![Item::plain(sheet.made.clone())]);
    let caution = section("CAUTION", Tone::Caution, vec![Item::plain(sheet.caution.clone())]);
    [title, script, shift].into_iter().chain(sheet.parts.iter().map(part)).chain([caution]).flatten().collect()
}

/// A text short enough for the page.
pub(crate) fn brief(text: &str) -> String {
    let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if text.chars().count() <= MOST_LETTERS {
        return text;
    }
    let kept: String = text.chars().take(MOST_LETTERS).collect();
    format!("{kept}... (cut here; the JSON holds all of it)")
}
