//! What is asked, how to look without harm, and the numbered lines to answer with.

use super::rows::{Room, rows_with_keys, typing_line};
use super::{Lines, body, entering, sums};
use crate::content::answers;
use crate::exam::Place;
use crate::phrase::{Text, question as phrase};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::{Overlay, Session};
use crate::typed::weight;
use crate::view::question::{echo, last_time, no_longer_weighs, resume_line, shown, terms, words};
use crate::view::{birds, named};

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
    if session.line.is_some() {
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

fn typing(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    typing_line(session, theme, width, lines);
    if session.writing().is_some() {
        return;
    }
    let (Place::Ask(asked), None) = (&session.exam.place, session.overlays.last()) else { return };
    let asked = *asked;
    let question = session.protocol.ask(asked.question);
    let typed = session.typed().unwrap_or_default();
    let weights = || Text::list(weight::EXAMPLES.map(Text::typed));
    let example = question.figure().map_or_else(weights, |of| Text::typed(of.example()));
    let read = match session.read(question, typed) {
        Ok(answer) => phrase::read_as(answers::of(question, &answer)),
        Err(_) => phrase::for_example(example),
    };
    lines.add(wrapped(&session.say(read), width, "", theme.aside()));
}
