//! The sheet as PDF: one A4 page in two columns, the font inside it, nothing loaded from elsewhere.

mod booklet;
mod cards;
mod pen;

pub use booklet::booklet;
pub use cards::cards;

use crate::content::sheet::{Row, Sheet, SheetLabels};
use krilla::Document;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::tagging::{Artifact, ArtifactType, ContentTag};
use pen::{Letters, Line, Pen, Role, Tags, face};
use rustybuzz::Face;

/// A4 in points, the margin round it, and the gap between the columns.
const PAGE: (f32, f32) = (595.0, 842.0);
const MARGIN: f32 = 30.0;
const GAP: f32 = 16.0;
/// The sizes tried, the most readable first, and the one taken where none fits. Points.
const SIZES: [f32; 7] = [9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.5];
const SMALLEST: f32 = 6.0;

/// Why no PDF could be written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PdfError {
    /// The font that ships cannot be read.
    #[error("the font that ships with the program cannot be read")]
    Font,
    /// The writer refused.
    #[error("the page could not be written: {0}")]
    Writer(String),
}

/// The whole sheet on one page.
///
/// # Errors
/// Where the font or the writer fails.
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, PdfError> {
    let (face, letters) = (face()?, Letters::new()?);
    let width = (PAGE.0 - 2.0 * MARGIN - GAP) / 2.0;
    let set = |size: f32| lines(sheet, &face, size, width);
    let room = PAGE.1 - 2.0 * MARGIN;
    let fits = |size: &f32| columns(&set(*size), room).len() <= 2;
    let size = SIZES.into_iter().find(fits).unwrap_or(SMALLEST);
    let lines = set(size);
    let columns = columns(&lines, room);
    let title = lines.first();
    let mut document = begun(sheet.labels.title.clone(), &sheet.labels.language);
    let mut told = Tags::default();
    // One page; a story too long even for the smallest letters goes on over leaf, for a cut one would look whole.
    for (leaf, pair) in columns.chunks(2).enumerate() {
        let mut page = document.start_page_with(a4()?);
        let mut surface = page.surface();
        if let Some(title) = title.filter(|_| leaf > 0) {
            // Said again for whoever holds only this leaf; a reader that speaks has heard it.
            surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Header)));
            letters.write(&mut surface, title, MARGIN, MARGIN + title.height() - title.above);
            surface.end_tagged();
        }
        // A second column that began above the title would be read before it.
        let below = MARGIN + title.map_or(0.0, Line::height);
        let top = if leaf == 0 { MARGIN } else { below };
        for (lines, (left, top)) in pair.iter().zip([(MARGIN, top), (MARGIN + width + GAP, below)]) {
            let mut y = top;
            for (at, line) in lines.iter().enumerate() {
                y += line.height() - if at == 0 { line.above } else { 0.0 };
                told.write(&letters, &mut surface, line, left, y);
            }
        }
        surface.finish();
        page.finish();
    }
    document.set_tag_tree(told.tree(&sheet.labels.language));
    ended(document)
}

fn begun(title: String, language: &str) -> Document {
    let mut document = Document::new();
    document.set_metadata(Metadata::new().title(title).language(language.to_owned()));
    document
}

fn a4() -> Result<PageSettings, PdfError> {
    PageSettings::from_wh(PAGE.0, PAGE.1).ok_or_else(|| PdfError::Writer("the page has no size".into()))
}

fn ended(document: Document) -> Result<Vec<u8>, PdfError> {
    document.finish().map_err(|error| PdfError::Writer(format!("{error:?}")))
}

fn height(lines: &[Line]) -> f32 {
    lines.iter().map(Line::height).sum()
}

/// The lines column by column, each as long as there is room; no heading stands last in one. All but the first leave room for
/// the title.
fn columns(lines: &[Line], room: f32) -> Vec<&[Line]> {
    let title = lines.first().map_or(0.0, Line::height);
    let (mut columns, mut rest) = (Vec::new(), lines);
    while !rest.is_empty() {
        let room = if columns.is_empty() { room } else { room - title };
        let may = |at: &usize| {
            rest.get(..*at).is_some_and(|first| {
                height(first) <= room && first.last().is_none_or(|line| line.role != Role::Heading || *at == rest.len())
            })
        };
        // A line taller than the page stands alone, so that there is an end.
        let split = (1..=rest.len()).rev().find(may).unwrap_or(1);
        let (column, after) = rest.split_at(split);
        columns.push(column);
        rest = after;
    }
    columns
}

/// Everything on the sheet as lines of one size.
fn lines(sheet: &Sheet, face: &Face, size: f32, width: f32) -> Vec<Line> {
    let mut pen = Pen { face, size, width, lines: Vec::new() };
    let SheetLabels { title, phone, shift, caution_heading, .. } = &sheet.labels;
    pen.title(title, size * 1.5);
    pen.set(&sheet.made, size * 0.9, 0.0, 0.0);
    pen.set(&format!("{caution_heading}. {}", sheet.caution), size, 0.0, size * 0.3);
    for (heading, said) in [(phone, &sheet.script), (shift, &sheet.shift)] {
        pen.heading(heading);
        pen.set(said, size, 0.0, 0.0);
    }
    for part in &sheet.parts {
        pen.heading(&part.heading);
        for Row { name, told } in &part.rows {
            let told = sheet.brief(told);
            let line = if name.is_empty() { told } else { format!("{name}: {told}") };
            pen.item(&line);
        }
        if let Some(table) = &part.table {
            for row in &table.rows {
                let cells = table.head.iter().skip(1).zip(row.iter().skip(1));
                let cells = cells.map(|(head, cell)| format!("{}: {}", head.to_lowercase(), sheet.brief(cell)));
                let name = row.first().map(String::as_str).unwrap_or_default();
                pen.item(&format!("{name}: {}", cells.collect::<Vec<_>>().join("; ")));
            }
        }
        if let Some(drawing) = &part.drawing {
            pen.draw(drawing);
        }
    }
    pen.lines
}
