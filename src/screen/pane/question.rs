//! What is asked, how to look without harm, and the numbered lines to answer with.

use super::rows::{Room, choices_in, typing_line};
use super::{Lines, body};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::view::View;
use crate::view::question::{Answering, QuestionView, WaitsView};

/// The question as lines. Where they do not fit, the caution and the meaning of words give way first, then how to look: all
/// of it stands in help as well.
pub fn lines(view: &View, asked: &QuestionView, theme: Theme, (width, height): (usize, usize)) -> Lines {
    [Room::Ample, Room::Fair, Room::Short]
        .into_iter()
        .map(|room| build(view, asked, theme, (width, height), room))
        .find(|built| built.lines.len() <= height)
        .unwrap_or_else(|| build(view, asked, theme, (width, height), Room::Tight))
}

fn build(view: &View, asked: &QuestionView, theme: Theme, (width, height): (usize, usize), room: Room) -> Lines {
    let with_look = matches!(room, Room::Ample | Room::Fair);
    let with_all = room == Room::Ample;
    let mut lines = Lines::default();
    let add = |lines: &mut Lines, told: &str, style| lines.add(wrapped(told, width, "", style));
    if let Some(spared) = &asked.spared {
        lines.add(wrapped(spared, width, "! ", theme.urgent()));
    }
    // Where there is room for nothing more, what is asked once more stands in place of what was read before it.
    let told_first = view.notice.as_ref().filter(|_| room == Room::Tight && asked.asked_again);
    match told_first {
        Some(notice) => add(&mut lines, notice, theme.never()),
        None => add(&mut lines, &asked.ask, theme.question()),
    }
    for shown in &asked.shown {
        add(&mut lines, shown, theme.heading());
    }
    if with_look && !asked.look.is_empty() {
        add(&mut lines, &asked.look, theme.aside());
    }
    for words in asked.terms.iter().filter(|_| with_all) {
        add(&mut lines, words, theme.aside());
    }
    if room != Room::Tight {
        lines.gap();
    }
    if let Some(before) = &asked.last_time {
        add(&mut lines, before, theme.aside());
        lines.gap();
    }
    match &asked.answered {
        Answering::Typing(typing) => {
            typing_line(typing, theme, width, &mut lines);
            lines.add(typing.read.iter().flat_map(|read| wrapped(read, width, "", theme.aside())));
        }
        Answering::OnHer(choices, picture) if body::has_room((width, height)) => {
            let from = lines.lines.len();
            choices_in(view, choices, theme, (body::LIST, room), &mut lines);
            body::beside(picture, theme, (width, height), &mut lines.lines, from);
        }
        Answering::Choosing(choices) | Answering::OnHer(choices, _) => {
            choices_in(view, choices, theme, (width, room), &mut lines);
        }
    }
    if let Some(waits) = &asked.waits {
        before_the_first_answer(waits, theme, width, room, &mut lines);
    }
    if let Some(words) = &asked.no_longer_weighs {
        lines.add(wrapped(words, width, "    ", theme.aside()));
    }
    if let Some(said) = asked.echo.as_ref().filter(|_| room != Room::Tight) {
        lines.gap();
        add(&mut lines, said, theme.aside());
    }
    if let Some(notice) = view.notice.as_ref().filter(|_| told_first.is_none()) {
        if room != Room::Tight {
            lines.gap();
        }
        add(&mut lines, notice, theme.never());
    }
    if let Some(caution) = asked.caution.as_ref().filter(|_| with_all) {
        lines.gap();
        add(&mut lines, caution, theme.aside());
    }
    lines
}

/// Below the five signs, before any of them is answered: the birds that are due a look, and the one that was left.
fn before_the_first_answer(waits: &WaitsView, theme: Theme, width: usize, room: Room, lines: &mut Lines) {
    if room != Room::Tight {
        lines.gap();
    }
    if let Some((key, left)) = &waits.left {
        lines.add(wrapped(left, width, &format!(" {key}  "), theme.heading()));
    }
    if let Some((key, due)) = &waits.due {
        for (at, bird) in due.iter().enumerate() {
            let first = if at == 0 { format!(" {key}  ") } else { "    ".to_owned() };
            lines.add(wrapped(bird, width, &first, theme.urgent()));
        }
    }
    if let Some(more) = &waits.more {
        lines.add(wrapped(more, width, "    ", theme.urgent()));
    }
}
