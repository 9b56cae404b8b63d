//! Panes for numbers: blood added up piece by piece, breaths tapped, a vein timed; each with what it comes to so far.

use super::rows::{numbered, typing_line};
use super::{Lines, picture};
use crate::finding::figure::Fullness;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::View;
use crate::view::entering::{BloodView, BreathsView, EnteringView, PickView, VeinView};
use ratatui::text::{Line, Span};

/// The pane, where something is being entered with keys of its own.
pub fn lines(view: &View, entered: &EnteringView, theme: Theme, (width, height): (usize, usize)) -> Lines {
    let mut lines = Lines::default();
    match entered {
        EnteringView::Blood(blood) => adding(view, blood, theme, (width, height), &mut lines),
        EnteringView::Breaths(breaths) => tapping(breaths, theme, (width, height), &mut lines),
        EnteringView::Vein(vein) => timing(vein, theme, width, &mut lines),
    }
    if let Some(notice) = &view.notice {
        let told = wrapped(notice, width, "", theme.never());
        match entered {
            EnteringView::Blood(_) => {
                lines.gap();
                lines.add(told);
            }
            // Nobody looks down the page while counting.
            EnteringView::Breaths(_) | EnteringView::Vein(_) => {
                lines.cursor = lines.cursor.map(|at| at + told.len());
                lines.lines.splice(0..0, told);
            }
        }
    }
    lines
}

fn adding(view: &View, blood: &BloodView, theme: Theme, (width, height): (usize, usize), lines: &mut Lines) {
    lines.add(wrapped(&blood.ask, width, "", theme.question()));
    let rows = match &blood.pick {
        PickView::Choosing(choices) | PickView::Width(choices, _) => choices.lines.len(),
        PickView::Full(full) => full.len(),
        PickView::Typing(..) => 0,
    };
    // What was seen, what it comes to, and the rows must show; how to look and the picture take the room that is left.
    let left = height.saturating_sub(rows + 4 + blood.seen.len());
    // A pool is told by its picture before it is by words.
    let pictured = matches!(blood.pick, PickView::Width(..)) && left < 10;
    if let Some(look) = blood.look.as_ref().filter(|_| left > 2 && !pictured) {
        lines.add(wrapped(look, width, "", theme.aside()));
    }
    match &blood.pick {
        PickView::Full(full) => {
            lines.gap();
            if left > 7 && width >= 54 {
                lines.add(picture::pads(theme));
            }
            full_rows(view, full, theme, width, lines);
        }
        PickView::Width(choices, pool) => {
            let room = height.saturating_sub(lines.lines.len() + rows + 3);
            lines.add(picture::pool(pool, theme, (width, room)));
            numbered(view, choices, theme, width, lines);
        }
        PickView::Typing(typing, example) => {
            lines.gap();
            typing_line(typing, theme, width, lines);
            lines.add(wrapped(example, width, "", theme.aside()));
        }
        PickView::Choosing(choices) => {
            lines.gap();
            numbered(view, choices, theme, width, lines);
        }
    }
    lines.gap();
    sum_so_far(blood, theme, width, lines);
}

/// How full: each row with its swatch, so that it can be told where there is no room for the picture.
fn full_rows(view: &View, full: &[(Fullness, String)], theme: Theme, width: usize, lines: &mut Lines) {
    for (at, (full, says)) in full.iter().enumerate() {
        let focused = view.focus == Some(at);
        if focused || (view.focus.is_none() && at == 0) {
            lines.cursor_here();
        }
        let mark = if focused { '>' } else { ' ' };
        let style = if focused { theme.focus() } else { theme.plain() };
        lines.add(wrapped(says, width, &format!("{mark}{}  {} ", at + 1, picture::swatch(*full)), style));
    }
}

fn sum_so_far(blood: &BloodView, theme: Theme, width: usize, lines: &mut Lines) {
    lines.add(blood.before.iter().flat_map(|before| wrapped(before, width, "  ", theme.aside())));
    lines.add(blood.seen.iter().flat_map(|seen| wrapped(seen, width, "+ ", theme.plain())));
    if let Some((with_this, sum)) = &blood.sum {
        let first = with_this.as_ref().map_or_else(|| "= ".to_owned(), |with| format!("{with} = "));
        lines.add(wrapped(sum, width, &first, theme.urgent()));
    }
}

fn tapping(breaths: &BreathsView, theme: Theme, (width, height): (usize, usize), lines: &mut Lines) {
    lines.add(wrapped(&breaths.ask, width, "", theme.question()));
    if height > 14 {
        lines.add(wrapped(&breaths.look, width, "", theme.aside()));
    }
    lines.gap();
    lines.cursor_here();
    if let Some(counted) = &breaths.counted {
        lines.add(picture::digits(counted, theme.question(), width, 4));
    }
    lines.add(wrapped(&breaths.heading, width, "", theme.heading()));
    lines.add(breaths.over.iter().flat_map(|over| wrapped(over, width, "", theme.aside())));
    lines.add(breaths.no_breath.iter().flat_map(|none| wrapped(none, width, "! ", theme.urgent())));
    lines.add(breaths.counts.iter().flat_map(|count| wrapped(count, width, "", theme.plain())));
    lines.add(breaths.sum.iter().flat_map(|sum| wrapped(sum, width, "= ", theme.question())));
    lines.add(breaths.held.iter().flat_map(|held| wrapped(held, width, "! ", theme.urgent())));
    lines.add(breaths.once_more.iter().flat_map(|once| wrapped(once, width, "", theme.aside())));
}

fn timing(vein: &VeinView, theme: Theme, width: usize, lines: &mut Lines) {
    lines.add(wrapped(&vein.ask, width, "", theme.question()));
    lines.add(wrapped(&vein.look, width, "", theme.aside()));
    lines.gap();
    lines.cursor_here();
    if let Some(seconds) = &vein.seconds {
        lines.add(picture::digits(seconds, theme.question(), width, 4));
    }
    lines.add(vein.meaning.iter().map(|meaning| Line::from(Span::styled(meaning.clone(), theme.question()))));
    lines.add(wrapped(&vein.heading, width, "", theme.heading()));
}
