//! Text broken into lines before it is drawn, so that scrolling and "more below" are exact.

use ratatui::style::Style;
use ratatui::text::{Line, Span};

/// Wraps a text to a width, the first line after `first`, the others after as many blanks.
pub fn wrapped(text: &str, width: usize, first: &str, style: Style) -> Vec<Line<'static>> {
    let indent = " ".repeat(unicode_width::UnicodeWidthStr::width(first));
    let options = textwrap::Options::new(width.max(4)).initial_indent(first).subsequent_indent(&indent);
    textwrap::wrap(text, options).into_iter().map(|line| Line::from(Span::styled(line.into_owned(), style))).collect()
}

/// Cuts a text to a width, with a mark where something was cut.
pub fn cut(text: &str, width: usize) -> String {
    if unicode_width::UnicodeWidthStr::width(text) <= width {
        return text.to_owned();
    }
    let mut out = String::new();
    for c in text.chars() {
        let next = unicode_width::UnicodeWidthStr::width(out.as_str())
            + unicode_width::UnicodeWidthChar::width(c).unwrap_or(0);
        if next + 1 > width {
            break;
        }
        out.push(c);
    }
    if width > 0 {
        out.push('~');
    }
    out
}
