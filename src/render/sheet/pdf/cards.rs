//! Cage cards as PDF: two beside each other, each in a frame, on as many A4 pages as they need.

use super::pen::{Letters, Line, Pen, Tags, face};
use super::{GAP, MARGIN, PAGE, PdfError, a4, begun, ended};
use crate::content::sheet::card::{Card, CardLabels, Cards};
use krilla::geom::{PathBuilder, Rect};
use krilla::paint::{Fill, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag};
use rustybuzz::Face;

/// The size of what is read, and the room between frame and letters. Points.
const SIZE: f32 = 10.0;
const INSIDE: f32 = 8.0;

/// The cards, to be cut apart.
///
/// # Errors
/// Where the font or the writer fails.
pub fn cards(cards: &Cards) -> Result<Vec<u8>, PdfError> {
    let (face, letters) = (face()?, Letters::new()?);
    let wide = (PAGE.0 - 2.0 * MARGIN - GAP) / 2.0;
    let set: Vec<Vec<Line>> = cards.cards.iter().map(|card| lines(card, cards, &face, wide)).collect();
    let (mut document, mut told) = (begun(cards.labels.cards.clone(), &cards.labels.language), Tags::default());
    let mut pairs = set.chunks(2).peekable();
    while pairs.peek().is_some() {
        let mut page = document.start_page_with(a4()?);
        let mut surface = page.surface();
        let mut top = MARGIN;
        while let Some(pair) = pairs.next_if(|pair| top <= MARGIN || top + height(pair) <= PAGE.1 - MARGIN) {
            let high = height(pair);
            for (lines, left) in pair.iter().zip([MARGIN, MARGIN + wide + GAP]) {
                frame(&mut surface, left, top, wide, high);
                let mut y = top + INSIDE;
                for line in lines {
                    y += line.height();
                    told.write(&letters, &mut surface, line, left + INSIDE, y);
                }
            }
            top += high + GAP;
        }
        surface.finish();
        page.finish();
    }
    document.set_tag_tree(told.tree(&cards.labels.language));
    ended(document)
}

/// How high the frames of two cards are that stand beside each other.
fn height(pair: &[Vec<Line>]) -> f32 {
    let of = |lines: &Vec<Line>| lines.iter().map(Line::height).sum::<f32>() + 2.0 * INSIDE + SIZE * 0.3;
    pair.iter().map(of).fold(0.0, f32::max)
}

fn lines(card: &Card, cards: &Cards, face: &Face, wide: f32) -> Vec<Line> {
    let CardLabels { do_now, never, next_look, caution_heading, .. } = &cards.labels;
    let mut pen = Pen { face, size: SIZE, width: wide - 2.0 * INSIDE, lines: Vec::new() };
    pen.title(&cards.brief(&card.title), SIZE * 1.4);
    for (label, told) in cards.first(card) {
        pen.set(&format!("{}: {}", label.to_uppercase(), told.to_uppercase()), SIZE * 1.1, 0.0, SIZE * 0.3);
    }
    for (heading, said) in [(do_now, &card.act), (never, &card.never)] {
        if !said.is_empty() {
            pen.heading(&heading.to_uppercase());
            for line in said {
                pen.item(line);
            }
        }
    }
    pen.heading(&next_look.to_uppercase());
    pen.set(&card.look, SIZE, 0.0, 0.0);
    pen.set(&format!("{caution_heading}. {}", cards.caution), SIZE * 0.7, 0.0, SIZE * 0.6);
    pen.lines
}

fn frame(surface: &mut Surface, left: f32, top: f32, wide: f32, high: f32) {
    let Some(rect) = Rect::from_xywh(left, top, wide, high) else { return };
    let mut path = PathBuilder::new();
    path.push_rect(rect);
    let Some(path) = path.finish() else { return };
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Other)));
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke::default()));
    surface.draw_path(&path);
    surface.set_stroke(None);
    surface.set_fill(Some(Fill::default()));
    surface.end_tagged();
}
