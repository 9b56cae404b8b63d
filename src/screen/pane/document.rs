//! Verdict, plan and pages: documents that scroll, line by line the same as what is exported.

use super::{Lines, graph};
use crate::content::document::Tone;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::View;
use crate::view::read::{DocumentView, ItemView};
use ratatui::style::Style;
use ratatui::text::Line;

/// The widest a document is set; longer lines tire the eye.
pub const WIDEST: usize = 78;

/// From more rows than these on, what is told in short leaves room for more that the eye takes in at once.
const FOLDED_ROWS: usize = 20;

/// The document as lines.
pub fn lines(view: &View, document: &DocumentView, theme: Theme, (width, height): (usize, usize)) -> Lines {
    let width = width.min(WIDEST);
    let mut lines = Lines::default();
    let mut at = 0;
    let (folded, last) = (document.folds_after.filter(|_| height <= FOLDED_ROWS), document.sections.len());
    for (number, section) in (1..).zip(&document.sections) {
        lines.gap();
        lines.add(wrapped(&section.heading, width, "", heading(theme, section.tone)));
        if let Some(drawn) = &section.graph {
            lines.add(graph::lines(drawn, width));
        }
        for (number, item) in (1..).zip(&section.items) {
            if view.focus == Some(at) || (view.focus.is_none() && at == 0) {
                lines.cursor_here();
            }
            let before = lines.lines.len();
            item_lines(theme, width, section.tone, (number, item, view.focus == Some(at)), &mut lines);
            if let Some(need) = document.need.filter(|_| at == 0 && view.focus != Some(0)) {
                // The need is the one line that must be seen first.
                lines.lines.iter_mut().skip(before).for_each(|line| line.style = theme.need(need));
            }
            at += 1;
        }
        if folded == Some(number) && number < last {
            // What else is told begins on the next page.
            let missing = height.saturating_sub(lines.lines.len());
            lines.add(std::iter::repeat_n(Line::default(), missing));
        }
    }
    lines
}

fn heading(theme: Theme, tone: Tone) -> Style {
    match tone {
        Tone::Plain | Tone::Caution => theme.heading(),
        Tone::Act | Tone::Grave => theme.urgent(),
        Tone::Never => theme.never(),
    }
}

/// An item as it stands in the document: with its number, and whether the cursor is on it.
fn item_lines(theme: Theme, width: usize, tone: Tone, told: (usize, &ItemView, bool), lines: &mut Lines) {
    let (number, item, focused) = told;
    let mark = match tone {
        Tone::Act => format!("{number:2}"),
        Tone::Never => " x".into(),
        Tone::Plain | Tone::Grave => " -".into(),
        Tone::Caution => " !".into(),
    };
    let pointer = if focused { '>' } else { ' ' };
    let style = match (focused, tone) {
        (true, _) => theme.focus(),
        (false, Tone::Act) => theme.question(),
        (false, _) => theme.plain(),
    };
    lines.add(wrapped(&item.lead, width, &format!("{pointer}{mark} "), style));
    for more in item.more.iter().chain(&item.timed) {
        lines.add(wrapped(more, width, "    ", theme.aside()));
    }
    // A picture that would be cut is left out: the words say the same.
    if item.picture.iter().all(|line| Line::from(line.as_str()).width() + 6 <= width) {
        lines.add(item.picture.iter().map(|line| Line::styled(format!("      {line}"), theme.plain())));
    }
}
