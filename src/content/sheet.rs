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
use super::hazards::HazardTold;
use crate::judge::Level;
use crate::phrase::{Phrase, Text, UnitOf, heading, phone, sheet as phrase};
use crate::protocol::scale::{Authority, Humane, Need};
use chrono::{DateTime, Utc};

/// A cell or line as it is printed holds at most so many letters; the JSON holds all.
pub(crate) const MOST_LETTERS: usize = 400;

/// The whole sheet: of texts nobody has said yet, or of what was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet<T = String> {
    /// The bird, in a few words.
    pub bird: T,
    /// When the sheet was made, and by what.
    pub made: T,
    /// What to say on the phone.
    pub script: T,
    /// What to say to the next shift.
    pub shift: T,
    /// The parts, in the order of handing over.
    pub parts: Vec<Part<T>>,
    /// What could go wrong with her: told to a program alone, a page has no room for it.
    pub hazards: Vec<HazardTold<T>>,
    /// When the sheet was made: to a program by itself.
    pub made_at: DateTime<Utc>,
    /// The rungs she stands on, for a program; none of a bird whose case is over.
    pub rungs: Option<RungsTold>,
    /// What stands on everything that leaves the program.
    pub caution: T,
    /// What stands over it, whatever is in it.
    pub labels: SheetLabels<T>,
}

/// Where a bird stands on each scale, at least and at most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RungsTold {
    /// How soon she needs a vet.
    pub need: Level<Need>,
    /// Whether a humane end has come into question.
    pub humane: Level<Humane>,
    /// Whether to call the animal-health authority.
    pub authority: Level<Authority>,
}

impl RungsTold {
    /// Those of a case, unless it is over.
    fn of(told: SheetCase) -> Option<Self> {
        let verdict = told.verdict;
        let rungs = Self { need: verdict.need, humane: verdict.humane, authority: verdict.authority };
        told.days.over().is_none().then_some(rungs)
    }
}

/// What stands over a sheet and the texts that are on every one of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetLabels<T = String> {
    /// The language it is said in, by its standard tag; nothing as long as nobody has said it.
    pub language: T,
    /// Its title, with the bird in few enough letters for the page.
    pub title: T,
    /// The same in capitals.
    pub heading: T,
    /// Over what is read out on the phone.
    pub phone: T,
    /// Over what is read out to the next shift.
    pub shift: T,
    /// Before the caution, within a page and as a heading.
    pub caution: T,
    /// See [`SheetLabels::caution`].
    pub caution_heading: T,
    /// What ends a text that is cut.
    pub cut: T,
}

impl SheetLabels<Text> {
    /// Those of a bird whose name is short enough for the page.
    fn of(bird: &Text) -> Self {
        Self {
            language: Text::default(),
            title: phrase::title(bird.clone()).into(),
            heading: phrase::heading(bird.clone()).into(),
            phone: phone::heading().into(),
            shift: phone::heading_shift().into(),
            caution: phrase::caution().into(),
            caution_heading: heading::caution().into(),
            cut: phrase::cut_here().into(),
        }
    }
}

/// Which part of the sheet it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartId {
    /// How her case ended.
    Ended,
    /// Who she is, and when it happened.
    AgeAndTime,
    /// What happened.
    Mechanism,
    /// Her wounds.
    Injuries,
    /// What is not as it should be.
    Signs,
    /// How she has gone over the days.
    Course,
    /// What was done and given.
    Treatment,
    /// How soon, and who can see her.
    Situation,
    /// What else is known of her.
    Background,
    /// Why.
    Assessment,
    /// What to do.
    Recommendation,
    /// What nobody asked, could tell, or wrote down.
    NotKnown,
}

impl PartId {
    /// Its key in JSON, and in the links of a page.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Ended => "ended",
            Self::AgeAndTime => "age_and_time",
            Self::Mechanism => "mechanism",
            Self::Injuries => "injuries",
            Self::Signs => "signs",
            Self::Course => "course",
            Self::Treatment => "treatment",
            Self::Situation => "situation",
            Self::Background => "background",
            Self::Assessment => "assessment",
            Self::Recommendation => "recommendation",
            Self::NotKnown => "not_known",
        }
    }

    /// Its heading.
    const fn heading(self) -> Phrase {
        match self {
            Self::Ended => phrase::heading_ended(),
            Self::AgeAndTime => phrase::heading_age_and_time(),
            Self::Mechanism => phrase::heading_mechanism(),
            Self::Injuries => phrase::heading_injuries(),
            Self::Signs => phrase::heading_signs(),
            Self::Course => phrase::heading_course(),
            Self::Treatment => phrase::heading_treatment(),
            Self::Situation => phrase::heading_situation(),
            Self::Background => phrase::heading_background(),
            Self::Assessment => phrase::heading_assessment(),
            Self::Recommendation => phrase::heading_recommendation(),
            Self::NotKnown => phrase::heading_not_known(),
        }
    }
}

/// One part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part<T = String> {
    /// Which it is.
    pub id: PartId,
    /// Its heading.
    pub heading: T,
    /// Its lines, each with a name where it has one.
    pub rows: Vec<Row<T>>,
    /// Values over time.
    pub table: Option<Table<T>>,
    /// The bird drawn.
    pub drawing: Option<Drawing<T>>,
    /// Measurements drawn over time; the rows tell the same.
    pub plots: Vec<Plot<T>>,
}

/// A line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row<T = String> {
    /// What it tells; empty where the line stands for itself.
    pub name: T,
    /// What is told.
    pub told: T,
}

/// A table with its head.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table<T = String> {
    /// What it is about.
    pub caption: T,
    /// The heads of its columns.
    pub head: Vec<T>,
    /// Its rows; the first cell of each is the row's head.
    pub rows: Vec<Vec<T>>,
}

/// The bird in letters, and the same in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing<T = String> {
    /// Its lines.
    pub lines: Vec<String>,
    /// What it shows, for who cannot see it.
    pub words: T,
}

/// Measurements over time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plot<T = String> {
    /// What it shows, for who cannot see it.
    pub words: T,
    /// In what it is measured.
    pub unit: UnitOf,
    /// When the first was taken.
    pub from: T,
    /// When the last was taken.
    pub to: T,
    /// Both moments themselves, for a program.
    pub ends: Option<(DateTime<Utc>, DateTime<Utc>)>,
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
        "" => Item::plain(sheet.brief(&row.told)),
        name => Item::plain(format!("{name}: {}", sheet.brief(&row.told))),
    };
    let part = |part: &Part| {
        let cells = |table: &Table, row: &Vec<String>| {
            let heads = table.head.iter().skip(1).map(|head| head.to_lowercase());
            let told = heads.zip(row.iter().skip(1)).map(|(head, cell)| format!("{head}: {}", sheet.brief(cell)));
            let name = row.first().map(String::as_str).unwrap_or_default();
            Item::plain(format!("{name}: {}", told.collect::<Vec<_>>().join("; ")))
        };
        let table = part.table.iter().flat_map(|table| table.rows.iter().map(move |row| cells(table, row)));
        let drawing = part.drawing.iter();
        let drawing =
            drawing.map(|drawing| Item { picture: drawing.lines.clone(), ..Item::plain(drawing.words.clone()) });
        section(&part.heading, Tone::Plain, part.rows.iter().map(item).chain(table).chain(drawing).collect())
    };
    let SheetLabels { heading, phone, shift, caution_heading, .. } = &sheet.labels;
    let one = |heading: &String, tone: Tone, told: &String| section(heading, tone, vec![Item::plain(told)]);
    let first = [
        one(heading, Tone::Plain, &sheet.made),
        one(phone, Tone::Plain, &sheet.script),
        one(shift, Tone::Plain, &sheet.shift),
    ];
    let caution = one(caution_heading, Tone::Caution, &sheet.caution);
    first.into_iter().chain(sheet.parts.iter().map(part)).chain([caution]).flatten().collect()
}

impl Sheet {
    /// A text short enough for the page.
    pub(crate) fn brief(&self, text: &str) -> String {
        brief(text, &self.labels.cut)
    }
}

/// A text short enough for the page, with what is said where it is cut.
pub(crate) fn brief(text: &str, cut: &str) -> String {
    let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if text.chars().count() <= MOST_LETTERS {
        return text;
    }
    let kept: String = text.chars().take(MOST_LETTERS).collect();
    format!("{kept}... {cut}")
}
