//! The sheet as one HTML file that stands by itself: nothing is loaded, nothing is run, everything typed is escaped.

use crate::content::booklet::{Ask, Begins, Booklet};
use crate::content::document::Tone;
use crate::content::sheet::card::Cards;
use crate::content::sheet::curve::{self, Curve};
use crate::content::sheet::{Drawing, MOST_LETTERS, Part, Plot, Sheet};
use crate::words::lower_first;
use askama::Template;

#[derive(Template)]
#[template(path = "sheet.html", config = "assets/templates/askama.toml")]
struct HtmlPage<'a> {
    sheet: &'a Sheet,
}

impl HtmlPage<'_> {
    /// How high a drawing is, in its own units.
    fn height(drawing: &Drawing) -> usize {
        drawing.lines.len() * LINE + LINE
    }

    /// How wide it is.
    fn width(drawing: &Drawing) -> usize {
        drawing.lines.iter().map(|line| line.chars().count()).max().unwrap_or(0) * LETTER + LETTER
    }

    /// Where a line stands.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "templates pass by reference")]
    fn below(at: &usize) -> usize {
        (at + 1) * LINE
    }

    /// Whether so much is told that it has to be set smaller to print on one page.
    fn is_dense(sheet: &Sheet) -> bool {
        let letters = |text: &String| text.chars().count().min(MOST_LETTERS);
        let part = |part: &Part| {
            let rows = part.rows.iter().map(|row| letters(&row.name) + letters(&row.told) + LINE_WORTH).sum::<usize>();
            let cells = part.table.iter().flat_map(|table| &table.rows).flatten();
            // A cell is narrow: its letters take twice the room.
            rows + cells.map(|cell| 2 * letters(cell)).sum::<usize>() + part.plots.len() * PLOT_WORTH
        };
        sheet.parts.iter().map(part).sum::<usize>() > DENSE
    }

    fn curve(plot: &Plot) -> Curve {
        Curve::of(plot)
    }

    const WIDE: u32 = curve::WIDE;
    const HIGH: u32 = curve::HIGH;
}

#[derive(Template)]
#[template(path = "cards.html", config = "assets/templates/askama.toml")]
struct CardsPage<'a> {
    cards: &'a Cards,
}

/// Cage cards, several on a page, to be cut apart.
///
/// # Errors
/// Where the template cannot be filled, which no content makes it fail at.
pub fn cards_html(cards: &Cards) -> Result<String, askama::Error> {
    CardsPage { cards }.render()
}

#[derive(Template)]
#[template(path = "booklet.html", config = "assets/templates/askama.toml")]
struct BookletPage<'a> {
    booklet: &'a Booklet,
}

impl BookletPage<'_> {
    /// What the template asks of a list: whether its order counts.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "templates pass by reference")]
    fn is_ordered(tone: &Tone) -> bool {
        *tone == Tone::Act
    }

    /// The page's number at its foot, as a style sheet counts it.
    fn counted(booklet: &Booklet) -> String {
        let counted = booklet.labels.numbered("\" counter(page) \"", "\" counter(pages) \"");
        format!("\"{}\"", lower_first(&counted)).trim_end_matches(" \"\"").to_owned()
    }

    /// A key that may name a part of a page.
    fn key(id: &str) -> String {
        id.replace(':', "-")
    }
}

/// A booklet; its boxes can be marked and its lines filled in where it is shown, and printed so. Nothing is sent.
///
/// # Errors
/// Where the template cannot be filled, which no content makes it fail at.
pub fn booklet_html(booklet: &Booklet) -> Result<String, askama::Error> {
    BookletPage { booklet }.render()
}

/// How many letters a line's end and a plot take the room of, and from how many on a page is set smaller.
const LINE_WORTH: usize = 20;
const PLOT_WORTH: usize = 500;
const DENSE: usize = 7_000;

/// A line's height and a letter's width in the drawing's units.
const LINE: usize = 14;
const LETTER: usize = 8;

/// The whole sheet.
///
/// # Errors
/// Where the template cannot be filled, which no content makes it fail at.
pub fn html(sheet: &Sheet) -> Result<String, askama::Error> {
    HtmlPage { sheet }.render()
}
