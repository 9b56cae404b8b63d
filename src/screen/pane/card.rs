//! A card of the course: one act a line, its ban below it, and what is done ticked off.

use super::Lines;
use crate::screen::model::Model;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::card::{CardLine, CardView, Standing};
use crate::phrase::{Text, course as phrase};

/// The card that shows, as lines.
pub fn lines(model: &Model, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    let Some(card) = model.card() else { return lines };
    let CardView { heading, opens, first, lines: acts, nevers, caution, place: (at, of) } = card;
    let place = model.say(phrase::place(Text::typed(&heading), at, of));
    lines.add(wrapped(&place, width, "", theme.urgent()));
    if let Some(opens) = opens {
        lines.add(wrapped(&opens, width, "", theme.aside()));
    }
    if let Some(first) = first {
        lines.add(wrapped(&first, width, "", theme.question()));
    }
    // Air between acts where the screen has room for it: a shaking eye finds its line again.
    let airy = usize::from(model.size.1) > acts.len() * 3 + nevers.len() * 2 + 8;
    for act in &acts {
        if airy {
            lines.gap();
        }
        act_lines(theme, width, act, &mut lines);
    }
    if !nevers.is_empty() {
        lines.gap();
    }
    for never in &nevers {
        lines.add(wrapped(never, width, " x ", theme.never()));
    }
    lines.gap();
    lines.add(wrapped(&caution, width, " ! ", theme.aside()));
    lines
}

fn act_lines(theme: Theme, width: usize, act: &CardLine, lines: &mut Lines) {
    let CardLine { digit, say, at, standing, nevers } = act;
    let (mark, style) = match standing {
        Standing::Done => ('√', theme.aside()),
        Standing::Here => ('>', theme.focus()),
        Standing::Open => (' ', theme.question()),
    };
    let say = at.as_ref().map_or_else(|| say.clone(), |at| format!("{at} {say}"));
    lines.add(wrapped(&say, width, &format!("{mark}{digit} "), style));
    for never in nevers {
        lines.add(wrapped(never, width, "   x ", theme.never()));
    }
}
