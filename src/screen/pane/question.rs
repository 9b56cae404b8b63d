//! What is asked, how to look without harm, and the numbered lines to answer with.

use super::{Lines, body, entering, sums};
use crate::content::answers;
use crate::exam::Place;
use crate::phrase::{Text, question as phrase};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::context::Context;
use crate::session::{Overlay, Session};
use crate::typed::weight;
use crate::view::keys::Action;
use crate::view::meaning::Meaning;
use crate::view::question::{cannot_tell, echo, last_time, no_longer_weighs, resume_line, shown, terms, words};
use crate::view::rows::ChosenBy;
use crate::view::{birds, named, rows};
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// The question as lines. Where they do not fit, the caution and the meaning of words give way first, then how to look: all
/// of it stands in help as well.
pub fn lines(session: &Session, theme: Theme, width: usize, height: usize) -> Lines {
    if let Some(lines) =
        sums::lines(session, theme, width, height).or_else(|| entering::lines(session, theme, width, height))
    {
        return lines;
    }
    [Room::Ample, Room::Fair, Room::Short]
        .into_iter()
        .map(|room| build(session, theme, (width, height), room))
        .find(|built| built.lines.len() <= height)
        .unwrap_or_else(|| build(session, theme, (width, height), Room::Tight))
}

/// How much room there is: what gives way first is what stands beside the question, then how to look, then the empty lines.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Room {
    Ample,
    Fair,
    Short,
    Tight,
}

fn build(session: &Session, theme: Theme, (width, height): (usize, usize), room: Room) -> Lines {
    let with_look = matches!(room, Room::Ample | Room::Fair);
    let with_all = room == Room::Ample;
    let mut lines = Lines::default();
    if session.overlays.is_empty() && session.exam.wants_hands() && session.exam.spares_her() {
        lines.add(wrapped(&named::without_skip(session, &session.protocol.spare_say), width, "! ", theme.urgent()));
    }
    let (ask, look) = words(session);
    let (ask, look) = (session.say(ask), named::without_skip(session, &session.say(look)));
    // Where there is room for nothing more, what is asked once more stands in place of what was read before it.
    let told_first = session.notice.as_ref().filter(|_| room == Room::Tight && session.asked_again.is_some());
    match told_first {
        Some(notice) => lines.add(wrapped(&session.reader().say(notice), width, "", theme.never())),
        None => lines.add(wrapped(&ask, width, "", theme.question())),
    }
    if session.practice.is_some() {
        let shown = shown(session).into_iter().map(|told| session.say(told));
        lines.add(shown.flat_map(|told| wrapped(&told, width, "", theme.heading())));
    }
    if with_look && !look.is_empty() {
        lines.add(wrapped(&look, width, "", theme.aside()));
    }
    let lists = matches!(session.overlays.last(), Some(Overlay::Lessons | Overlay::Map(_)));
    if with_all && !lists {
        for words in terms(session, &ask, &look) {
            lines.add(wrapped(&session.say(words), width, "", theme.aside()));
        }
    }
    if room != Room::Tight {
        lines.gap();
    }
    if let Some(before) = last_time(session) {
        lines.add(wrapped(&session.say(before), width, "", theme.aside()));
        lines.gap();
    }
    if session.typed.is_some() {
        typing(session, theme, width, &mut lines);
    } else if body::shows(session, (width, height)) {
        let from = lines.lines.len();
        rows_with_keys(session, theme, body::LIST, room, &mut lines);
        body::beside(session, theme, (width, height), &mut lines.lines, from);
    } else {
        rows_with_keys(session, theme, width, room, &mut lines);
    }
    before_the_first_answer(session, theme, width, room, &mut lines);
    if let Some(words) = no_longer_weighs(session) {
        lines.add(wrapped(&session.say(words), width, "    ", theme.aside()));
    }
    if let Some(said) = echo(session).filter(|_| room != Room::Tight && session.notice.is_none()) {
        lines.gap();
        lines.add(wrapped(&session.say(said), width, "", theme.aside()));
    }
    if let Some(notice) = session.notice.as_ref().filter(|_| told_first.is_none()) {
        if room != Room::Tight {
            lines.gap();
        }
        lines.add(wrapped(&session.reader().say(notice), width, "", theme.never()));
    }
    if session.log.is_empty() && session.overlays.is_empty() && with_all {
        lines.gap();
        lines.add(wrapped(&session.say(session.caution()), width, "", theme.aside()));
    }
    lines
}

/// Below the five signs, before any of them is answered: the birds that are due a look, and the one that was left.
fn before_the_first_answer(session: &Session, theme: Theme, width: usize, room: Room, lines: &mut Lines) {
    if !session.log.is_empty() || !session.overlays.is_empty() || session.practice.is_some() {
        return;
    }
    if room != Room::Tight {
        lines.gap();
    }
    if session.offers_to_resume() {
        lines.add(wrapped(&session.say(resume_line(session)), width, " g  ", theme.heading()));
    }
    let due = birds::waiting(session);
    for (at, bird) in due.iter().take(WAITING).enumerate() {
        lines.add(wrapped(&session.reader().say(bird), width, if at == 0 { " f  " } else { "    " }, theme.urgent()));
    }
    let more = due.len().saturating_sub(WAITING) + session.flock.waiting.more_overdue;
    if more > 0 {
        lines.add(wrapped(&session.say(phrase::more_birds(more)), width, "    ", theme.urgent()));
    }
}

/// At most this many birds that are due a look are named at the start.
const WAITING: usize = 3;

/// The rows to choose from, with their keys.
pub fn numbered(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    rows_with_keys(session, theme, width, Room::Ample, lines);
}

fn rows_with_keys(session: &Session, theme: Theme, width: usize, room: Room, lines: &mut Lines) {
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
fn pressed(session: &Session, action: Action) -> String {
    named::key(session, action).map(|key| session.say(key)).unwrap_or_default()
}

fn typing(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    typing_line(session, theme, width, lines);
    if session.writing.is_some() {
        return;
    }
    let (Place::Ask(asked), None) = (&session.exam.place, session.overlays.last()) else { return };
    let asked = *asked;
    let question = session.protocol.ask(asked.question);
    let typed = session.typed.clone().unwrap_or_default();
    let weights = || Text::list(weight::EXAMPLES.map(Text::typed));
    let example = question.figure().map_or_else(weights, |of| Text::typed(of.example()));
    let read = match session.read(question, &typed) {
        Ok(answer) => phrase::read_as(answers::of(question, &answer)),
        Err(_) => phrase::for_example(example),
    };
    lines.add(wrapped(&session.say(read), width, "", theme.aside()));
}

/// The line that is being typed.
pub fn typing_line(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    // Of a long line its end shows: that is where the next letter goes.
    let typing = format!("{}  ", session.say(phrase::typing()));
    let room = width.saturating_sub(typing.width() + 1);
    let typed = session.typed.clone().unwrap_or_default();
    let typed: String = typed.chars().skip(typed.chars().count().saturating_sub(room)).collect();
    lines.cursor_here();
    lines.add([Line::from(vec![
        Span::styled(typing, theme.heading()),
        Span::styled(format!("{typed}_"), theme.question()),
    ])]);
}
