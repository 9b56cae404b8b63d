//! The numbered lines with their keys, and the line that is being typed.

use super::Lines;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::View;
use crate::view::choices::ChoicesView;
use crate::view::question::TypingView;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// How much room there is: what gives way first is what stands beside the question, then how to look, then the empty lines.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Room {
    /// For all of it.
    Ample,
    /// For all but the caution and the meaning of words.
    Fair,
    /// For the question and its lines.
    Short,
    /// For these without a gap.
    Tight,
}

/// The lines to choose from, with their keys.
pub fn numbered(view: &View, choices: &ChoicesView, theme: Theme, width: usize, lines: &mut Lines) {
    choices_in(view, choices, theme, (width, Room::Ample), lines);
}

/// The same where there is so much room.
pub fn choices_in(view: &View, choices: &ChoicesView, theme: Theme, (width, room): (usize, Room), lines: &mut Lines) {
    let widest = choices.lines.iter().filter(|line| line.numbered).map(|line| line.key.len()).max().unwrap_or(1);
    for (at, choice) in choices.lines.iter().enumerate() {
        let focused = view.focus == Some(at);
        if focused || (view.focus.is_none() && at == 0) {
            lines.cursor_here();
        }
        let style = if focused {
            theme.focus()
        } else if choice.marked {
            theme.question()
        } else if choice.faint {
            theme.aside()
        } else {
            theme.plain()
        };
        let mark = match (focused, choice.marked) {
            (true, _) => '>',
            (false, true) => '*',
            (false, false) => ' ',
        };
        let key = &choice.key;
        lines.add(wrapped(&choice.label, width, &format!("{mark}{key:<widest$}  "), style));
    }
    if let Some(cannot_look) = &choices.cannot_look {
        lines.add(wrapped(cannot_look, width, " 0  ", theme.plain()));
    }
    let line = |label: &str, first: &str| wrapped(label, width, first, theme.plain());
    let cannot_tell = choices.cannot_tell.as_ref().map(|(marked, label)| (if *marked { '*' } else { ' ' }, label));
    match (cannot_tell, &choices.more) {
        // Where there is no room both keys share a line: neither may fall off the screen.
        (Some((mark, label)), Some((next, more))) if room == Room::Tight => {
            lines.add(line(&format!("{label} · {next} {more}"), &format!("{mark}0  ")));
        }
        (cannot_tell, more) => {
            if let Some((mark, label)) = cannot_tell {
                lines.add(line(label, &format!("{mark}0  ")));
            }
            if let Some((next, more)) = more {
                lines.add(line(more, &format!(" {next} ")));
            }
        }
    }
}

/// The line that is being typed.
pub fn typing_line(typing: &TypingView, theme: Theme, width: usize, lines: &mut Lines) {
    // Of a long line that part shows in which the next letter goes.
    let label = format!("{}  ", typing.label);
    let room = width.saturating_sub(label.width() + 1);
    let before = typing.before.chars().skip(typing.before.chars().count().saturating_sub(room));
    let before: String = before.collect();
    let after: String = typing.after.chars().take(room.saturating_sub(before.width())).collect();
    lines.cursor_here();
    lines.add([Line::from(vec![
        Span::styled(label, theme.heading()),
        Span::styled(format!("{before}_{after}"), theme.question()),
    ])]);
}
