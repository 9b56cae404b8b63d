//! A card of the course: one act a line, its ban below it, and what is done ticked off.

use super::Lines;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::card::{CardLine, CardView, LineStanding};
use crate::view::{View, calls};

/// The lines a notice takes below a card.
const NOTICE: usize = 2;

/// The card that shows, as lines.
pub fn lines(view: &View, card: &CardView, theme: Theme, (width, height): (usize, usize)) -> Lines {
    let width = width.min(super::document::WIDEST);
    let airy = set(card, theme, width, true);
    // Air between acts where the screen has room for it: a shaking eye finds its line again.
    let noticed = if view.notice.is_some() { NOTICE } else { 0 };
    let height = height.saturating_sub(noticed);
    if airy.lines.len() <= height { airy } else { set(card, theme, width, false) }
}

fn set(card: &CardView, theme: Theme, width: usize, airy: bool) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    lines.add(wrapped(&card.title, width, "", theme.urgent()));
    if let Some(opens) = &card.opens {
        lines.add(wrapped(opens, width, "", theme.aside()));
    }
    if let Some(first) = &card.first {
        lines.add(wrapped(first, width, "", theme.question()));
    }
    for act in &card.lines {
        if airy {
            lines.gap();
        }
        act_lines(theme, width, act, &mut lines);
    }
    if airy && !card.nevers.is_empty() {
        lines.gap();
    }
    for never in &card.nevers {
        lines.add(wrapped(never, width, " x ", theme.never()));
    }
    if airy {
        lines.gap();
    }
    lines.add(wrapped(&card.caution, width, " ! ", theme.aside()));
    lines
}

/// From so many columns on the time of a tick stands before its line.
const WIDE: usize = 56;

fn act_lines(theme: Theme, width: usize, act: &CardLine, lines: &mut Lines) {
    let CardLine { digit, say, call, at, standing, nevers } = act;
    let (mark, style) = match standing {
        LineStanding::Done => ('√', theme.aside()),
        LineStanding::Here => ('>', theme.focus()),
        LineStanding::Open => (' ', theme.question()),
    };
    // On a phone the tick alone has to do.
    let at = at.as_ref().filter(|_| width >= WIDE);
    let say = at.map_or_else(|| say.clone(), |at| format!("{at} {say}"));
    lines.add(wrapped(&say, width, &format!("{mark}{digit} "), style));
    if let Some(call) = call {
        lines.add(wrapped(&calls::whole(call), width, "   ", theme.question()));
    }
    for never in nevers {
        lines.add(wrapped(never, width, "   x ", theme.never()));
    }
}
