//! Pictures drawn with characters: how full a pad is, a pool beside a coin and a hand, and big digits.

use crate::finding::figure::Fullness;
use crate::screen::theme::Theme;
use crate::view::entering::{COIN, HAND, PoolView};
use font8x8::legacy::BASIC_LEGACY;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::symbols::Marker;
use ratatui::text::{Line, Span};
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Circle, Line as Stroke, Rectangle};

/// A pad in one line, as wide as four letters: words stand beside it, so no colour is needed.
pub const fn swatch(full: Fullness) -> &'static str {
    match full {
        Fullness::Spotted => "[.  :]",
        Fullness::Half => "[▒▒  ]",
        Fullness::Full => "[▓▓▓▓]",
        Fullness::Dripping => "[████]",
    }
}

/// The four pads side by side, each under its key.
pub fn pads(theme: Theme) -> Vec<Line<'static>> {
    let rows = [
        ["┌────────┐", "┌────────┐", "┌────────┐", "┌────────┐"],
        ["│  ·    .│", "│▒▒▒▒    │", "│▓▓▓▓▓▓▓▓│", "│████████│"],
        ["│ .   ·  │", "│▒▒▒▒▒   │", "│▓▓▓▓▓▓▓▓│", "│████████│"],
        ["└────────┘", "└────────┘", "└────────┘", "└─┬────┬─┘"],
        ["    1     ", "    2     ", "    3     ", "  ' 4  '  "],
    ];
    rows.into_iter().map(|row| Line::from(Span::styled(format!(" {}", row.join("   ")), theme.plain()))).collect()
}

/// Between the things drawn, in centimetres.
const GAP: f64 = 2.0;

/// A pool to scale beside a coin and a hand, in so many columns and rows, with a line of words under it.
pub fn pool(pool: &PoolView, theme: Theme, (columns, rows): (usize, usize)) -> Vec<Line<'static>> {
    let (columns, rows) = (u16::try_from(columns).unwrap_or(80), u16::try_from(rows.saturating_sub(1)).unwrap_or(8));
    if columns < 24 || rows < 4 {
        return Vec::new();
    }
    let (pool, told) = (pool.width_cm, &pool.told);
    // A cell is about twice as high as wide, so a centimetre takes two columns for every row.
    let needed = (COIN + HAND.1 + 2.0 + pool + 3.0 * GAP, HAND.0.max(pool) + 0.5);
    let a_row = (needed.1 / f64::from(rows)).max(needed.0 * 2.0 / f64::from(columns));
    let (wide, high) = (a_row * f64::from(columns) / 2.0, a_row * f64::from(rows));
    let canvas =
        Canvas::default().marker(Marker::Braille).x_bounds([0.0, wide]).y_bounds([0.0, high]).paint(|context| {
            context.draw(&Circle { x: GAP / 2.0 + COIN / 2.0, y: COIN / 2.0, radius: COIN / 2.0, color: theme.ink() });
            hand(context, GAP * 1.5 + COIN, theme.ink());
            let x = GAP * 2.5 + COIN + HAND.1 + 2.0 + pool / 2.0;
            context.draw(&Circle { x, y: pool / 2.0 + 0.1, radius: pool / 2.0, color: theme.blood() });
        });
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    canvas.render(area, &mut buffer);
    let mut lines = lines_of(&buffer);
    lines.push(Line::from(Span::styled(told.clone(), theme.aside())));
    lines
}

/// A hand seen from above: palm, four fingers, a thumb.
fn hand(context: &mut ratatui::widgets::canvas::Context, x: f64, color: ratatui::style::Color) {
    let palm = HAND.0 * 0.55;
    context.draw(&Rectangle { x, y: 0.0, width: HAND.1, height: palm, color });
    for (finger, length) in [(0.0, 0.75), (1.0, 0.95), (2.0, 1.0), (3.0, 0.85)] {
        let width = HAND.1 / 4.0;
        context.draw(&Rectangle {
            x: x + finger * width + 0.2,
            y: palm,
            width: width - 0.4,
            height: (HAND.0 - palm) * length,
            color,
        });
    }
    let thumb = |x1, y1, x2, y2| Stroke { x1, y1, x2, y2, color };
    context.draw(&thumb(x + HAND.1, palm * 0.3, x + HAND.1 + 1.9, palm * 0.9));
    context.draw(&thumb(x + HAND.1 + 1.9, palm * 0.9, x + HAND.1, palm * 0.75));
}

/// The sixteen ways to fill a cell's four corners: the upper left counts one, the upper right two, the lower ones four and eight.
const CORNERS: [char; 16] = [' ', '▘', '▝', '▀', '▖', '▌', '▞', '▛', '▗', '▚', '▐', '▜', '▄', '▙', '▟', '█'];

/// Big digits, in the size that fits: four rows high, and as wide or half as wide as their shapes of eight dots.
pub fn digits(text: &str, style: Style, columns: usize, rows: usize) -> Vec<Line<'static>> {
    let shapes: Vec<[u8; 8]> =
        text.chars().map(|letter| BASIC_LEGACY.get(letter as usize).copied().unwrap_or_default()).collect();
    let dots_a_cell = if rows >= 4 && columns >= shapes.len() * 8 { 1 } else { 2 };
    let row = |upper: usize| {
        let cells = shapes.iter().flat_map(|shape| {
            (0..8).step_by(dots_a_cell).map(move |left| {
                let dot = |x: usize, y: usize| usize::from(shape.get(y).is_some_and(|row| row >> x & 1 == 1));
                let right = left + dots_a_cell - 1;
                let filled =
                    dot(left, upper) + 2 * dot(right, upper) + 4 * dot(left, upper + 1) + 8 * dot(right, upper + 1);
                CORNERS.get(filled).copied().unwrap_or(' ')
            })
        });
        Line::styled(cells.take(columns).collect::<String>(), style)
    };
    (0..8).step_by(2).map(row).collect()
}

/// What was drawn, line by line, with its colours.
fn lines_of(buffer: &Buffer) -> Vec<Line<'static>> {
    let area = buffer.area;
    (area.top()..area.bottom())
        .map(|y| {
            let cells = (area.left()..area.right()).filter_map(|x| buffer.cell((x, y)));
            Line::from(
                cells.map(|cell| Span::styled(cell.symbol().to_owned(), Style::new().fg(cell.fg))).collect::<Vec<_>>(),
            )
        })
        .collect()
}
