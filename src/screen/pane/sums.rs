//! The sums by themselves: a list of them, or one with its values and what it comes to.

use super::Lines;
use super::rows::{numbered, typing_line};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::View;
use crate::view::sums::{SumView, SumsView, ValuesView};

/// The pane, where a sum lies on top.
pub fn lines(view: &View, sums: &SumsView, theme: Theme, (width, height): (usize, usize)) -> Lines {
    let mut lines = Lines::default();
    match sums {
        SumsView::List { ask, choices } => {
            lines.add(wrapped(ask, width, "", theme.question()));
            lines.gap();
            numbered(view, choices, theme, width, &mut lines);
        }
        SumsView::Sum(sum) => of_sum(view, sum, theme, (width, height), &mut lines),
    }
    lines
}

fn of_sum(view: &View, sum: &SumView, theme: Theme, (width, height): (usize, usize), lines: &mut Lines) {
    lines.add(wrapped(&sum.about, width, "", theme.question()));
    match &sum.values {
        ValuesView::Typing(what, typing, example) => {
            lines.add(wrapped(what, width, "", theme.aside()));
            typing_line(typing, theme, width, lines);
            lines.add(example.iter().flat_map(|example| wrapped(example, width, "", theme.aside())));
        }
        ValuesView::Choosing(choices) => numbered(view, choices, theme, width, lines),
    }
    lines.gap();
    for (at, line) in sum.answer.iter().enumerate() {
        let style = if at == 0 { theme.urgent() } else { theme.plain() };
        lines.add(wrapped(line, width, "= ", style));
    }
    lines.add(sum.notes.iter().flat_map(|note| wrapped(note, width, "! ", theme.aside())));
    lines.add(sum.fault.iter().flat_map(|fault| wrapped(fault, width, "", theme.never())));
    if let Some(notice) = &view.notice {
        lines.gap();
        lines.add(wrapped(notice, width, "", theme.never()));
    }
    // Where it does not fit it stands in the answer in full.
    let caution = wrapped(&sum.caution, width, "", theme.aside());
    if lines.lines.len() + caution.len() < height {
        lines.gap();
        lines.add(caution);
    }
}
