//! A booklet as PDF: on each A4 page what is read on the left and what is asked of it on the right, a head that keeps the rung in
//! view, and the page's number at its foot. No leaf is broken that fits a page.

use super::pen::{Letters, Line, Pen, Tags, face};
use super::{GAP, MARGIN, PAGE, PdfError, a4, begun, ended, height};
use crate::content::booklet::{Ask, BOX, Begins, Booklet, Chapter, Leaf};
use crate::content::document::{Item, Section, Tone};
use krilla::geom::{PathBuilder, Rect};
use krilla::paint::{Fill, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag};
use rustybuzz::Face;

/// The sizes a leaf is tried in that has a page of its own, the most readable first. Points.
const SIZES: [f32; 4] = [9.5, 9.0, 8.5, 8.0];
const SMALLEST: f32 = 7.5;
/// The size of leaves below each other, and of what stands round a page.
const SIZE: f32 = 8.5;
const SMALL: f32 = 7.0;
/// How much larger the rung is written than what stands below it.
const RUNG: f32 = 1.5;
/// How wide the column is in which an answer is given, and the room between its frame and letters.
const ASK: f32 = 150.0;
const INSIDE: f32 = 6.0;
/// The least room to write, and the room for one line of it.
const ROOM: f32 = 40.0;
const BLANK: f32 = 26.0;
/// What head and foot take of a page.
const HEAD: f32 = 18.0;
const FOOT: f32 = 22.0;

/// The whole booklet.
///
/// # Errors
/// Where the font or the writer fails.
pub fn booklet(booklet: &Booklet) -> Result<Vec<u8>, PdfError> {
    let (face, letters) = (face()?, Letters::new()?);
    let pages = pages(booklet, &face);
    let (mut document, mut told) = (begun(booklet.title.clone(), &booklet.labels.language), Tags::default());
    for (number, page) in (1..).zip(&pages) {
        let mut sheet = document.start_page_with(a4()?);
        let mut surface = sheet.surface();
        let number: usize = number;
        let at = booklet.labels.numbered(&number.to_string(), &pages.len().to_string());
        let foot = format!("{at}. {} {}.", booklet.caution, booklet.made);
        around(&mut surface, &letters, &face, &page.head, &foot);
        for block in &page.blocks {
            write(&mut surface, &mut told, &letters, block);
        }
        surface.finish();
        sheet.finish();
    }
    document.set_tag_tree(told.tree(&booklet.labels.language));
    ended(document)
}

/// A page: what stands at its head, and its blocks.
struct PdfPage {
    head: String,
    blocks: Vec<Block>,
}

/// Lines with their top, and what is asked beside them.
struct Block {
    top: f32,
    lines: Vec<Line>,
    ask: Option<Signature>,
}

/// What is asked: the lines above the room to write, how high the frame is, and where lines to write on stand below its top.
struct Signature {
    lines: Vec<Line>,
    high: f32,
    rules: Vec<f32>,
}

impl Block {
    fn high(&self) -> f32 {
        let asked = self.ask.as_ref().map_or(0.0, |ask| ask.high);
        height(&self.lines).max(asked)
    }
}

const fn top() -> f32 {
    MARGIN + HEAD
}

const fn bottom() -> f32 {
    PAGE.1 - MARGIN - FOOT
}

const fn wide() -> f32 {
    PAGE.0 - 2.0 * MARGIN - GAP - ASK
}

/// Lays all of it out.
fn pages(booklet: &Booklet, face: &Face) -> Vec<PdfPage> {
    let mut layout = Layout { pages: Vec::new(), y: bottom() };
    for (at, chapter) in booklet.chapters.iter().enumerate() {
        let mut pen = Pen { face, size: SIZE, width: PAGE.0 - 2.0 * MARGIN, lines: Vec::new() };
        if at == 0 {
            pen.title(&booklet.title, SIZE * 1.8);
            pen.set(&booklet.made, SIZE, 0.0, 0.0);
            pen.set(&format!("{}. {}", booklet.labels.caution_heading, booklet.caution), SIZE * 1.1, 0.0, SIZE * 0.4);
        }
        pen.heading(&chapter.heading);
        for line in &chapter.intro {
            pen.set(line, SIZE, 0.0, 0.0);
        }
        layout.chapter(chapter, Block { top: 0.0, lines: pen.lines, ask: None }, face);
    }
    layout.pages
}

struct Layout {
    pages: Vec<PdfPage>,
    /// Where the next block begins.
    y: f32,
}

impl Layout {
    /// A chapter's heading with its first leaf, then the others.
    fn chapter(&mut self, chapter: &Chapter, heading: Block, face: &Face) {
        let mut heading = Some(heading);
        for leaf in &chapter.leaves {
            let alone = chapter.begins == Begins::EachOnAPage;
            let above = heading.as_ref().map_or(0.0, Block::high);
            let size = if alone { fitting(leaf, face, bottom() - top() - above) } else { SIZE };
            let block = block(leaf, face, size);
            let begins = alone || (heading.is_some() && chapter.begins == Begins::OnAPage);
            if begins || self.y + above + block.high() > bottom() {
                let head = if alone { format!("{}  {}", leaf.mark, leaf.rung) } else { chapter.heading.clone() };
                self.pages.push(PdfPage { head, blocks: Vec::new() });
                self.y = top();
            }
            for block in heading.take().into_iter().chain([block]) {
                self.put(block);
            }
        }
    }

    /// Puts a block below the others; what is taller than the page goes on over leaf, for a cut one would look whole.
    fn put(&mut self, mut block: Block) {
        let room = bottom() - self.y;
        let mut high = 0.0;
        let fits = block.lines.iter().take_while(|line| {
            high += line.height();
            high <= room
        });
        let fits = fits.count().max(1);
        let rest = if fits < block.lines.len() { block.lines.split_off(fits) } else { Vec::new() };
        block.top = self.y;
        if let Some(ask) = &mut block.ask {
            ask.high = ask.high.min(room);
        }
        self.y += block.high() + SIZE;
        let Some(page) = self.pages.last_mut() else { return };
        let head = page.head.clone();
        page.blocks.push(block);
        if !rest.is_empty() {
            self.pages.push(PdfPage { head, blocks: Vec::new() });
            self.y = top();
            self.put(Block { top: 0.0, lines: rest, ask: None });
        }
    }
}

/// The most readable size in which a leaf takes no more room.
fn fitting(leaf: &Leaf, face: &Face, room: f32) -> f32 {
    let fits = |size: &f32| block(leaf, face, *size).high() <= room;
    SIZES.into_iter().find(fits).unwrap_or(SMALLEST)
}

fn block(leaf: &Leaf, face: &Face, size: f32) -> Block {
    let mut pen = Pen { face, size, width: wide(), lines: Vec::new() };
    pen.deeper(&leaf.title(), 3, size * 1.1);
    if !leaf.rung.is_empty() {
        // How grave it is is seen before it is read.
        pen.set(&leaf.rung, size * RUNG, 0.0, size * 0.3);
    }
    for section in &leaf.sections {
        list(&mut pen, section);
    }
    let ask = leaf.ask.as_ref().map(|ask| asked(leaf, ask, face, height(&pen.lines)));
    Block { top: 0.0, lines: pen.lines, ask }
}

fn list(pen: &mut Pen, Section { heading, tone, items }: &Section) {
    if !heading.is_empty() {
        pen.deeper(heading, 4, pen.size);
    }
    for (number, Item { lead, more, picture: _, asked: _, why: _, timed: _ }) in (1..).zip(items) {
        let (mark, indent) = match tone {
            Tone::Act => (format!("{number}. "), pen.size * 1.3),
            Tone::Never => ("x ".to_owned(), pen.size * 0.9),
            Tone::Plain | Tone::Grave | Tone::Caution => ("- ".to_owned(), pen.size * 0.7),
        };
        let all: Vec<&str> = std::iter::once(lead).chain(more).map(String::as_str).collect();
        pen.marked(&mark, indent, &all.join(" "));
    }
}

/// What is asked beside a leaf, as high as the leaf, or as it needs.
fn asked(leaf: &Leaf, ask: &Ask, face: &Face, beside: f32) -> Signature {
    let mut pen = Pen { face, size: SIZE, width: ASK - 2.0 * INSIDE, lines: Vec::new() };
    match ask {
        Ask::Choice(of, _) => {
            let boxes: Vec<String> = of.iter().map(|word| format!("{BOX} {word}")).collect();
            pen.set(&format!("{}   {}", leaf.mark, boxes.join("   ")), SIZE, 0.0, 0.0);
            let high = beside.max(height(&pen.lines) + ROOM + 2.0 * INSIDE);
            Signature { lines: pen.lines, high, rules: Vec::new() }
        }
        Ask::Blanks(of) => {
            let mut rules = Vec::new();
            for name in of {
                let above = if pen.lines.is_empty() { 0.0 } else { BLANK + INSIDE };
                pen.set(name, SIZE, 0.0, above);
                rules.push(height(&pen.lines) + BLANK - INSIDE);
            }
            let high = height(&pen.lines) + BLANK + 2.0 * INSIDE;
            Signature { lines: pen.lines, high, rules }
        }
    }
}

fn write(surface: &mut Surface, told: &mut Tags, letters: &Letters, Block { top, lines, ask }: &Block) {
    let mut y = *top;
    for line in lines {
        y += line.height();
        told.write(letters, surface, line, MARGIN, y);
    }
    let Some(Signature { lines, high, rules }) = ask else { return };
    let left = PAGE.0 - MARGIN - ASK;
    stroke(surface, &[(left, *top, ASK, *high)]);
    let mut y = top + INSIDE * 0.5;
    for line in lines {
        y += line.height();
        told.write(letters, surface, line, left + INSIDE, y);
    }
    let rules: Vec<_> = rules.iter().map(|y| (left + INSIDE, top + INSIDE + y, ASK - 2.0 * INSIDE, 0.1)).collect();
    stroke(surface, &rules);
}

/// Head and foot of a page: whoever has it read out hears them once.
fn around(surface: &mut Surface, letters: &Letters, face: &Face, head: &str, foot: &str) {
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Header)));
    for (text, y, size) in [(head, MARGIN, SIZE * 1.1), (foot, bottom() + SMALL, SMALL)] {
        let mut pen = Pen { face, size, width: PAGE.0 - 2.0 * MARGIN, lines: Vec::new() };
        pen.set(text, size, 0.0, 0.0);
        let mut y = y;
        for line in &pen.lines {
            y += line.height();
            letters.write(surface, line, MARGIN, y);
        }
    }
    surface.end_tagged();
}

/// Draws frames and lines, which nobody has to hear.
fn stroke(surface: &mut Surface, rects: &[(f32, f32, f32, f32)]) {
    let mut path = PathBuilder::new();
    for (left, top, wide, high) in rects {
        if let Some(rect) = Rect::from_xywh(*left, *top, *wide, *high) {
            path.push_rect(rect);
        }
    }
    let Some(path) = path.finish() else { return };
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Other)));
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke { width: 0.6, ..Stroke::default() }));
    surface.draw_path(&path);
    surface.set_stroke(None);
    surface.set_fill(Some(Fill::default()));
    surface.end_tagged();
}
