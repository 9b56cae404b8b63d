//! The sums by themselves: a list of them, or one with its values and what it comes to.

use super::Lines;
use super::rows::{numbered, typing_line};
use crate::phrase::{Text, question as phrase, terms};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::line::{TypedLine, TypingOf};
use crate::session::{Overlay, Session};

/// The pane, where a sum lies on top.
pub fn lines(session: &Session, theme: Theme, width: usize, height: usize) -> Option<Lines> {
    let Some(Overlay::Sums(at)) = session.overlays.last() else { return None };
    let mut lines = Lines::default();
    let Some(sum) = session.sum().filter(|_| at.is_some()) else {
        lines.add(wrapped(&session.say(phrase::sum()), width, "", theme.question()));
        lines.gap();
        numbered(session, theme, width, &mut lines);
        return Some(lines);
    };
    lines.add(wrapped(&session.say(Text::opening((sum.about)())), width, "", theme.question()));
    if let Some(TypingOf::Value(at)) = session.line.as_ref().map(TypedLine::of) {
        let takes = sum.takes.get(at);
        let what = takes.map_or_else(Text::default, |takes| (takes.what)().into());
        lines.add(wrapped(&session.say(what), width, "", theme.aside()));
        typing_line(session, theme, width, &mut lines);
        let example = takes.and_then(|takes| sum.example.iter().find(|(name, _)| *name == takes.name));
        if let Some((_, example)) = example {
            let told = phrase::for_example(Text::typed(*example));
            lines.add(wrapped(&session.say(told), width, "", theme.aside()));
        }
    } else {
        numbered(session, theme, width, &mut lines);
    }
    lines.gap();
    answer(session, theme, width, &mut lines);
    if let Some(notice) = &session.notice {
        lines.gap();
        lines.add(wrapped(&session.reader().say(notice), width, "", theme.never()));
    }
    // Where it does not fit it stands in the answer in full.
    let caution = wrapped(&session.say(session.caution()), width, "", theme.aside());
    if lines.lines.len() + caution.len() < height {
        lines.gap();
        lines.add(caution);
    }
    Some(lines)
}

fn answer(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    match session.answer() {
        Some(Ok(answer)) => {
            for (at, line) in answer.lines.iter().enumerate() {
                let style = if at == 0 { theme.urgent() } else { theme.plain() };
                let told = terms::named(line.what.clone(), line.told.clone());
                lines.add(wrapped(&session.say(told), width, "= ", style));
            }
            for note in answer.notes.iter().take(2) {
                lines.add(wrapped(&session.say(note.clone()), width, "! ", theme.aside()));
            }
        }
        // What is missing stands in its own row already; while something is typed it may not be complete yet.
        Some(Err(error)) if session.notice.is_none() && !error.is_missing() && session.line.is_none() => {
            lines.add(wrapped(&session.say(error.told()), width, "", theme.never()));
        }
        Some(Err(_)) | None => {}
    }
}
