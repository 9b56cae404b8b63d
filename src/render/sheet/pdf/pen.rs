//! Text set in lines of a width, in letters whose advances are known.

use super::PdfError;
use crate::content::sheet::Drawing;
use crate::shipped::letters;
use krilla::geom::Point;
use krilla::surface::Surface;
use krilla::tagging::{ContentTag, SpanTag, Tag, TagGroup, TagTree};
use krilla::text::{Font, TextDirection};
use rustybuzz::{Direction, Face, UnicodeBuffer};
use std::num::NonZeroU16;
use textwrap::core::Fragment;
use textwrap::wrap_algorithms::wrap_first_fit;
use unicode_bidi::{BidiInfo, Level};

/// Letters of one width, for the drawing; of those alone that it may be drawn with (assets/fonts/drawing.sh).
const MONO: &[u8] = include_bytes!("../../../../assets/fonts/DejaVuSansMono-drawing.ttf");

/// A line's height against its size.
const LEADING: f32 = 1.22;

/// A line that is set: how large, how far indented, in which letters.
pub struct Line {
    pub text: String,
    pub size: f32,
    pub indent: f32,
    /// Space above it.
    pub above: f32,
    pub role: Role,
}

/// What a line is, for whoever has the page read out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Role {
    /// The title of all.
    Title,
    /// A heading: it does not stand last in a column.
    Heading,
    /// A heading below a heading, at so many levels.
    Deeper(u16),
    /// The first line of a text.
    Begins,
    /// A further line of what stands before it.
    Follows,
    /// The first line of a drawing in letters, with what it shows in words.
    Drawn(String),
    /// A further line of it.
    DrawnOn,
}

impl Line {
    /// What it takes of the height.
    pub fn height(&self) -> f32 {
        self.above + self.size * LEADING
    }
}

/// The letters of a document.
pub struct Letters {
    sans: (Font, Face<'static>),
    mono: (Font, Face<'static>),
}

impl Letters {
    /// The letters that ship.
    pub fn new() -> Result<Self, PdfError> {
        Ok(Self { sans: (font(letters())?, face_of(letters())?), mono: (font(MONO)?, face_of(MONO)?) })
    }

    /// Writes a line with its foot at a height. Letters that run from right to left do so within it.
    pub fn write(&self, surface: &mut Surface, line: &Line, left: f32, y: f32) {
        let (font, face) = match line.role {
            Role::Drawn(_) | Role::DrawnOn => &self.mono,
            Role::Title | Role::Heading | Role::Deeper(_) | Role::Begins | Role::Follows => &self.sans,
        };
        let bidi = BidiInfo::new(&line.text, Some(Level::ltr()));
        let mut x = left + line.indent;
        for paragraph in &bidi.paragraphs {
            let (levels, runs) = bidi.visual_runs(paragraph, paragraph.range.clone());
            for run in runs {
                let rightward = levels.get(run.start).is_none_or(Level::is_ltr);
                let Some(text) = line.text.get(run) else { continue };
                let (direction, way) = if rightward {
                    (TextDirection::LeftToRight, Direction::LeftToRight)
                } else {
                    (TextDirection::RightToLeft, Direction::RightToLeft)
                };
                surface.draw_text(Point::from_xy(x, y), font.clone(), line.size, text, false, direction);
                x += shaped(face, text, way, line.size);
            }
        }
    }
}

/// The pages as they are read out: titles, headings, texts and drawings in order.
#[derive(Default)]
pub struct Tags(Vec<TagGroup>);

impl Tags {
    /// Writes a line, and puts it where it is read.
    pub fn write(&mut self, letters: &Letters, surface: &mut Surface, line: &Line, left: f32, y: f32) {
        let heading = |level| NonZeroU16::new(level).map(|level| TagGroup::new(Tag::Hn(level, None)));
        let begins = match &line.role {
            Role::Title => heading(1),
            Role::Heading => heading(2),
            Role::Deeper(level) => heading(*level),
            Role::Begins => Some(TagGroup::new(Tag::P)),
            Role::Drawn(words) => Some(TagGroup::new(Tag::Figure(Some(words.clone())))),
            Role::Follows | Role::DrawnOn => None,
        };
        self.0.extend(begins);
        let at = surface.start_tagged(ContentTag::Span(SpanTag::empty()));
        letters.write(surface, line, left, y);
        surface.end_tagged();
        match self.0.last_mut() {
            Some(group) => group.push(at),
            None => self.0.push(TagGroup::with_children(Tag::P, vec![at.into()])),
        }
    }

    /// The order of reading, for the document, and the language it is read in.
    pub fn tree(self, language: &str) -> TagTree {
        let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
        self.0.into_iter().for_each(|group| tree.push(group));
        tree
    }
}

/// How wide a text is as it is set, with letters that join. Points.
fn shaped(face: &Face, text: &str, way: Direction, size: f32) -> f32 {
    let mut letters = UnicodeBuffer::new();
    letters.push_str(text);
    letters.guess_segment_properties();
    letters.set_direction(way);
    let set = rustybuzz::shape(face, &[], letters);
    let units: i32 = set.glyph_positions().iter().map(|position| position.x_advance).sum();
    #[expect(clippy::cast_precision_loss, reason = "the units of a line are far below 2^24")]
    let units = units as f32;
    #[expect(clippy::cast_precision_loss, reason = "an em is a few thousand units")]
    let em = face.units_per_em() as f32;
    units / em * size
}

/// How wide the letters are.
pub fn face() -> Result<Face<'static>, PdfError> {
    face_of(letters())
}

fn face_of(bytes: &'static [u8]) -> Result<Face<'static>, PdfError> {
    Face::from_slice(bytes, 0).ok_or(PdfError::Font)
}

fn font(bytes: &'static [u8]) -> Result<Font, PdfError> {
    Font::new(bytes.into(), 0).ok_or(PdfError::Font)
}

/// Sets text.
pub struct Pen<'f> {
    pub face: &'f Face<'f>,
    /// The size of what is read. Points.
    pub size: f32,
    /// How wide the lines may be. Points.
    pub width: f32,
    /// What has been set.
    pub lines: Vec<Line>,
}

impl Pen<'_> {
    /// The title of all.
    pub fn title(&mut self, text: &str, size: f32) {
        let from = self.lines.len();
        self.set(text, size, 0.0, 0.0);
        if let Some(first) = self.lines.get_mut(from) {
            first.role = Role::Title;
        }
    }

    /// A drawing in letters.
    pub fn draw(&mut self, drawing: &Drawing) {
        for (at, line) in drawing.lines.iter().enumerate() {
            let role = if at == 0 { Role::Drawn(drawing.words.clone()) } else { Role::DrawnOn };
            self.lines.push(Line { text: line.clone(), size: self.size * 0.85, indent: self.size, above: 0.0, role });
        }
    }

    /// A heading, with room above it.
    pub fn heading(&mut self, text: &str) {
        let from = self.lines.len();
        self.set(text, self.size, 0.0, self.size * 0.6);
        if let Some(first) = self.lines.get_mut(from) {
            first.role = Role::Heading;
        }
    }

    /// A heading of some size below another.
    pub fn deeper(&mut self, text: &str, level: u16, size: f32) {
        let from = self.lines.len();
        self.set(text, size, 0.0, self.size * 0.4);
        if let Some(first) = self.lines.get_mut(from) {
            first.role = Role::Deeper(level);
        }
    }

    /// A line of a list.
    pub fn item(&mut self, text: &str) {
        self.marked("- ", self.size, text);
    }

    /// A line of a list with a mark before it, and so far indented.
    pub fn marked(&mut self, mark: &str, indent: f32, text: &str) {
        let from = self.lines.len();
        self.set(text, self.size, indent, 0.0);
        if let Some(first) = self.lines.get_mut(from) {
            first.text.insert_str(0, mark);
            first.indent = 0.0;
        }
    }

    /// Sets a text in lines no wider than the column.
    pub fn set(&mut self, text: &str, size: f32, indent: f32, above: f32) {
        let words = self.words(text, size);
        let width = f64::from(self.width - indent);
        for (at, words) in wrap_first_fit(&words, &[width]).iter().enumerate() {
            let text = words.iter().map(|word| word.text.as_str()).collect::<Vec<_>>().join(" ");
            let above = if at == 0 { above } else { 0.0 };
            let role = if at == 0 { Role::Begins } else { Role::Follows };
            self.lines.push(Line { text, size, indent, above, role });
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
        let units = glyph(letter).or_else(|| glyph('m')).unwrap_or(0);
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
