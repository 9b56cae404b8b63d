//! The sheet as PDF: one A4 page in two columns, the font inside it, nothing loaded from elsewhere.

use super::{Row, Sheet, brief};
use krilla::Document;
use krilla::geom::Point;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::text::{Font, TextDirection};
use textwrap::core::Fragment;
use textwrap::wrap_algorithms::wrap_first_fit;
use ttf_parser::Face;

/// Letters that are read: `DejaVu` Sans Condensed, free, with most of the world's alphabets.
const SANS: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSansCondensed.ttf");
/// Letters of one width, for the drawing.
const MONO: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSansMono.ttf");

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

/// A line that is set: how large, how far indented, in which letters.
struct Line {
    text: String,
    size: f32,
    indent: f32,
    mono: bool,
    /// Space above it.
    above: f32,
}

/// The whole sheet on one page.
///
/// # Errors
/// Where the font or the writer fails.
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, PdfError> {
    let face = Face::parse(SANS, 0).map_err(|_| PdfError::Font)?;
    let (sans, mono) = (font(SANS)?, font(MONO)?);
    let width = (PAGE.0 - 2.0 * MARGIN - GAP) / 2.0;
    let room = PAGE.1 - 2.0 * MARGIN;
    let set = |size: f32| lines(sheet, &face, size, width);
    let fits = |size: &f32| columns(&set(*size), room).is_some();
    let size = SIZES.into_iter().find(|size| fits(size)).unwrap_or(SMALLEST);
    let lines = set(size);
    // What cannot be fitted even so is cut at the foot, before the caution, which never is.
    let split = columns(&lines, room).unwrap_or(lines.len() / 2);
    let mut document = Document::new();
    let title = format!("Handover: {}", brief(&sheet.bird));
    document.set_metadata(Metadata::new().title(title).language("en".into()));
    let settings = PageSettings::from_wh(PAGE.0, PAGE.1).ok_or(PdfError::Font)?;
    let mut page = document.start_page_with(settings);
    let mut surface = page.surface();
    for (column, lines) in [lines.get(..split), lines.get(split..)].into_iter().flatten().enumerate() {
        let left = MARGIN + if column == 0 { 0.0 } else { width + GAP };
        let mut y = MARGIN;
        for (at, line) in lines.iter().enumerate() {
            y += if at == 0 { 0.0 } else { line.above } + line.size * LEADING;
            if y > PAGE.1 - MARGIN {
                break;
            }
            let font = if line.mono { mono.clone() } else { sans.clone() };
            let at = Point::from_xy(left + line.indent, y);
            surface.draw_text(at, font, line.size, &line.text, false, TextDirection::Auto);
        }
    }
    surface.finish();
    page.finish();
    document.finish().map_err(|error| PdfError::Writer(format!("{error:?}")))
}

/// A line's height against its size.
const LEADING: f32 = 1.22;

fn font(bytes: &'static [u8]) -> Result<Font, PdfError> {
    Font::new(bytes.into(), 0).ok_or(PdfError::Font)
}

/// How many lines go into the first column, so that both fit; none where they do not.
fn columns(lines: &[Line], room: f32) -> Option<usize> {
    let height = |lines: &[Line]| lines.iter().map(|line| line.above + line.size * LEADING).sum::<f32>();
    let split = (0..=lines.len()).rev().find(|at| lines.get(..*at).is_some_and(|first| height(first) <= room))?;
    (height(lines.get(split..)?) <= room).then_some(split)
}

/// Everything on the sheet as lines of one size.
fn lines(sheet: &Sheet, face: &Face, size: f32, width: f32) -> Vec<Line> {
    let mut pen = Pen { face, size, width, lines: Vec::new() };
    pen.set(&format!("Handover: {}", brief(&sheet.bird)), size * 1.5, 0.0, 0.0);
    pen.set(&sheet.made, size * 0.9, 0.0, 0.0);
    pen.set(&format!("CAUTION. {}", sheet.caution), size, 0.0, size * 0.3);
    pen.heading("ON THE PHONE, READ THIS OUT");
    pen.set(&sheet.script, size, 0.0, 0.0);
    for part in &sheet.parts {
        pen.heading(part.heading);
        for Row { name, told } in &part.rows {
            let line = if name.is_empty() { brief(told) } else { format!("{name}: {}", brief(told)) };
            pen.item(&line);
        }
        if let Some(table) = &part.table {
            for row in &table.rows {
                let cells = table.head.iter().skip(1).zip(row.iter().skip(1));
                let cells = cells.map(|(head, cell)| format!("{}: {}", head.to_lowercase(), brief(cell)));
                let name = row.first().map(String::as_str).unwrap_or_default();
                pen.item(&format!("{name}: {}", cells.collect::<Vec<_>>().join("; ")));
            }
        }
        if let Some(drawing) = &part.drawing {
            for line in &drawing.lines {
                let (text, size) = (line.clone(), size * 0.85);
                pen.lines.push(Line { text, size, indent: size, mono: true, above: 0.0 });
            }
        }
    }
    pen.lines
}

struct Pen<'f> {
    face: &'f Face<'f>,
    size: f32,
    width: f32,
    lines: Vec<Line>,
}

impl Pen<'_> {
    fn heading(&mut self, text: &str) {
        self.set(text, self.size, 0.0, self.size * 0.6);
    }

    fn item(&mut self, text: &str) {
        let indent = self.size;
        let from = self.lines.len();
        self.set(text, self.size, indent, 0.0);
        if let Some(first) = self.lines.get_mut(from) {
            first.text.insert_str(0, "- ");
            first.indent = 0.0;
        }
    }

    /// Sets a text in lines no wider than the column.
    fn set(&mut self, text: &str, size: f32, indent: f32, above: f32) {
        let words = self.words(text, size);
        let width = f64::from(self.width - indent);
        for (at, words) in wrap_first_fit(&words, &[width]).iter().enumerate() {
            let text = words.iter().map(|word| word.text.as_str()).collect::<Vec<_>>().join(" ");
            self.lines.push(Line { text, size, indent, mono: false, above: if at == 0 { above } else { 0.0 } });
        }
    }

    /// The words of a text with their widths; one wider than the column is broken.
    fn words(&self, text: &str, size: f32) -> Vec<Word> {
        let space = self.advance(' ', size);
        let most = f64::from(self.width) * 0.9;
        let mut words = Vec::new();
        for word in text.split_whitespace() {
            let (mut piece, mut width) = (String::new(), 0.0);
            for letter in word.chars() {
                let advance = self.advance(letter, size);
                if width + advance > most {
                    words.push(Word { text: std::mem::take(&mut piece), width, space });
                    width = 0.0;
                }
                piece.push(letter);
                width += advance;
            }
            words.push(Word { text: piece, width, space });
        }
        words
    }

    /// How far a letter moves on; that of an m where the font has none.
    fn advance(&self, letter: char, size: f32) -> f64 {
        let glyph = |letter| self.face.glyph_index(letter).and_then(|glyph| self.face.glyph_hor_advance(glyph));
        let units = glyph(letter).or_else(|| glyph('m')).unwrap_or(self.face.units_per_em());
        f64::from(units) / f64::from(self.face.units_per_em()) * f64::from(size)
    }
}

#[derive(Debug)]
struct Word {
    text: String,
    width: f64,
    space: f64,
}

impl Fragment for Word {
    fn width(&self) -> f64 {
        self.width
    }

    fn whitespace_width(&self) -> f64 {
        self.space
    }

    fn penalty_width(&self) -> f64 {
        0.0
    }
}
