//! A card of the course: one act a line, its ban below it, and what is done ticked off.

use super::Lines;
use crate::phrase::{Text, course as phrase};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::Session;
use crate::view::calls;
use crate::view::card::{self, CardLine, CardView, LineStanding};

/// The lines a notice takes below a card.
const NOTICE: usize = 2;

/// The card that shows, as lines.
pub fn lines(session: &Session, theme: Theme, (width, height): (usize, usize)) -> Lines {
    let airy = set(session, theme, width, true);
    // Air between acts where the screen has room for it: a shaking eye finds its line again.
    let noticed = if session.notice.is_some() { NOTICE } else { 0 };
    let height = height.saturating_sub(noticed);
    if airy.lines.len() <= height { airy } else { set(session, theme, width, false) }
}

fn set(session: &Session, theme: Theme, width: usize, airy: bool) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    let Some(card) = card::shown(session) else { return lines };
    let CardView { heading, opens, first, lines: acts, nevers, caution, place: (at, of) } = card;
    let place = session.say(phrase::place(Text::typed(&heading), at, of));
    lines.add(wrapped(&place, width, "", theme.urgent()));
    if let Some(opens) = opens {
        lines.add(wrapped(&opens, width, "", theme.aside()));
    }
    if let Some(first) = first {
        lines.add(wrapped(&first, width, "", theme.question()));
    }
    for act in &acts {
        if airy {
            lines.gap();
        }
        act_lines(theme, width, act, &mut lines);
    }
    if airy && !nevers.is_empty() {
        lines.gap();
    }
    for never in &nevers {
        lines.add(wrapped(never, width, " x ", theme.never()));
    }
    if airy {
        lines.gap();
    }
    lines.add(wrapped(&caution, width, " ! ", theme.aside()));
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
