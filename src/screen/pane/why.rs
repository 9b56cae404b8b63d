//! Why: every reason with both labels.

use super::Lines;
use super::document::WIDEST;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::why::WhyView;

/// The reasons as lines.
pub fn lines(why: &WhyView, theme: Theme, width: usize) -> Lines {
    let width = width.min(WIDEST);
    let mut lines = Lines::default();
    lines.cursor_here();
    lines.add(wrapped(&why.title, width, "", theme.heading()));
    for told in &why.told {
        lines.add(wrapped(told, width, "- ", theme.plain()));
    }
    for reason in &why.reasons {
        lines.gap();
        lines.add(wrapped(&reason.headline, width, "- ", theme.question()));
        if let Some(leads_to) = &reason.leads_to {
            lines.add(wrapped(leads_to, width, "  ", theme.plain()));
        }
        for label in &reason.labels {
            lines.add(wrapped(label, width, "  ", theme.aside()));
        }
    }
    lines.gap();
    lines.add(wrapped(&why.caution, width, "! ", theme.aside()));
    lines
}
