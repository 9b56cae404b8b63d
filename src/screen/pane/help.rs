//! Help: how to look at what is asked, and every key that works there.

use super::Lines;
use super::document::WIDEST;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::help::HelpView;

/// Help as lines.
pub fn lines(help: &HelpView, theme: Theme, width: usize) -> Lines {
    let width = width.min(WIDEST);
    let mut lines = Lines::default();
    lines.cursor_here();
    if let Some(asked) = &help.asked {
        lines.add(wrapped(&asked.ask, width, "", theme.question()));
        lines.add(wrapped(&asked.look, width, "", theme.plain()));
        lines.add(asked.signs.iter().flat_map(|sign| wrapped(sign, width, "- ", theme.plain())));
        lines.add(asked.terms.iter().flat_map(|term| wrapped(term, width, "", theme.aside())));
        lines.gap();
    }
    lines.add(wrapped(&help.heading, width, "", theme.heading()));
    for (keys, does) in &help.keys {
        lines.add(wrapped(does, width, &format!("{keys:<19} "), theme.plain()));
    }
    lines.gap();
    lines.add(wrapped(&help.marks_heading, width, "", theme.heading()));
    lines.add(help.marks.iter().flat_map(|mark| wrapped(mark, width, "", theme.plain())));
    lines.gap();
    lines.add(wrapped(&help.caution, width, "! ", theme.aside()));
    lines
}
