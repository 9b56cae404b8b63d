//! The numbered lines with their keys, and the line that is being typed.

use super::Lines;
use crate::exam::Place;
use crate::phrase::question as phrase;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::Session;
use crate::session::context::Context;
use crate::session::line::TypedLine;
use crate::view::keys::Action;
use crate::view::line::ChosenBy;
use crate::view::meaning::Meaning;
use crate::view::question::cannot_tell;
use crate::view::{named, rows};
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

/// The rows to choose from, with their keys.
pub fn numbered(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    rows_with_keys(session, theme, width, Room::Ample, lines);
}

/// The same where there is so much room.
pub fn rows_with_keys(session: &Session, theme: Theme, width: usize, room: Room, lines: &mut Lines) {
    let page = rows::page(session);
    let widest = page.iter().filter_map(|row| row.number()).map(str::len).max().unwrap_or(1);
    let mut figure = 0;
    for (at, row) in page.iter().enumerate() {
        let focused = session.cursor == Some(at);
        if focused || (session.cursor.is_none() && at == 0) {
            lines.cursor_here();
        }
        let style = if focused {
            theme.focus()
        } else if row.marked {
            theme.question()
        } else if row.faint {
            theme.aside()
        } else {
            theme.plain()
        };
        let mark = match (focused, row.marked) {
            (true, _) => '>',
            (false, true) => '*',
            (false, false) => ' ',
        };
        let key = match &row.by {
            ChosenBy::Place => {
                figure += 1;
                figure.to_string()
            }
            ChosenBy::Number(number) => number.clone(),
            ChosenBy::Always => pressed(session, Action::AsAlways),
        };
        lines.add(wrapped(&session.reader().say(&row.label), width, &format!("{mark}{key:<widest$}  "), style));
    }
    let all_told = matches!(page.last().map(|row| &row.meaning), Some(Meaning::LeaveList));
    let looks = session.context() == Context::Look;
    if session.context() == Context::Wounds || (looks && session.exam.place == Place::Wounds) {
        lines.add(wrapped(&session.say(phrase::cannot_look()), width, " 0  ", theme.plain()));
    }
    let pages = rows::pages(session);
    let more = (pages > 1).then(|| session.say(phrase::more(session.page + 1, pages)));
    let in_look = looks && matches!(session.exam.place, Place::Ask(_) | Place::List(_));
    let asks = in_look || matches!(session.context(), Context::Ask | Context::Body | Context::List);
    let cannot_tell = (asks && !all_told).then(|| cannot_tell(session));
    let next = pressed(session, Action::More);
    let cannot_tell = cannot_tell.map(|(mark, label)| (mark, session.say(label)));
    let line = |label: &str, first: &str| wrapped(label, width, first, theme.plain());
    match (cannot_tell, more) {
        // Where there is no room both keys share a line: neither may fall off the screen.
        (Some((mark, label)), Some(more)) if room == Room::Tight => {
            lines.add(line(&format!("{label} · {next} {more}"), &format!("{mark}0  ")));
        }
        (cannot_tell, more) => {
            if let Some((mark, label)) = cannot_tell {
                lines.add(line(&label, &format!("{mark}0  ")));
            }
            if let Some(more) = more {
                lines.add(line(&more, &format!(" {next} ")));
            }
        }
    }
}

/// The key that does this now, as it is read.
pub fn pressed(session: &Session, action: Action) -> String {
    named::key(session, action).map(|key| session.say(key)).unwrap_or_default()
}

/// The line that is being typed.
pub fn typing_line(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    // Of a long line that part shows in which the next letter goes.
    let typing = format!("{}  ", session.say(phrase::typing()));
    let room = width.saturating_sub(typing.width() + 1);
    let before = session.line.as_ref().map_or(0, TypedLine::before);
    let typed: Vec<char> = session.typed().unwrap_or_default().chars().collect();
    let (before, after) = typed.split_at(before.min(typed.len()));
    let before: String = before.iter().skip(before.len().saturating_sub(room)).collect();
    let after: String = after.iter().take(room.saturating_sub(before.width())).collect();
    lines.cursor_here();
    lines.add([Line::from(vec![
        Span::styled(typing, theme.heading()),
        Span::styled(format!("{before}_{after}"), theme.question()),
    ])]);
}
