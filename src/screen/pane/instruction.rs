//! An instruction: what to do, what never, and the time that is left.

use super::Lines;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::View;
use crate::view::instruction::InstructionView;

/// The instruction as lines. Where they do not fit, the longer words give way.
pub fn lines(view: &View, told: &InstructionView, theme: Theme, (width, height): (usize, usize)) -> Lines {
    let full = build(view, told, theme, width, true);
    if full.lines.len() <= height { full } else { build(view, told, theme, width, false) }
}

fn build(view: &View, told: &InstructionView, theme: Theme, width: usize, in_full: bool) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    lines.add(wrapped(&told.title, width, "", theme.urgent()));
    lines.add(told.timer.iter().flat_map(|timer| wrapped(timer, width, "", theme.heading())));
    lines.gap();
    for (number, (say, how)) in (1..).zip(&told.acts) {
        lines.add(wrapped(say, width, &format!("{number}  "), theme.question()));
        if in_full {
            lines.add(wrapped(how, width, "   ", theme.plain()));
        }
    }
    lines.add(told.numbers.iter().flat_map(|line| wrapped(line, width, "   ", theme.plain())));
    lines.gap();
    lines.add(told.nevers.iter().flat_map(|never| wrapped(never, width, "x  ", theme.never())));
    if let Some(after) = &told.after {
        lines.gap();
        lines.add(wrapped(after, width, "", theme.question()));
    }
    if let Some((full, short)) = &told.not_looked {
        lines.gap();
        lines.add(wrapped(if in_full { full } else { short }, width, "", theme.plain()));
    }
    if let Some(notice) = &view.notice {
        lines.gap();
        lines.add(wrapped(notice, width, "", theme.aside()));
    }
    lines
}
