//! The sums by themselves: a list of them, or one with its values and what it comes to.

use super::{Lines, question};
use crate::content::document::upper_first;
use crate::phrase::terms::named;
use crate::screen::model::{Model, Overlay};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::words::english;

/// The pane, where a sum lies on top.
pub fn lines(model: &Model, theme: Theme, width: usize, height: usize) -> Option<Lines> {
    let Some(Overlay::Sums(at)) = model.overlays.last() else { return None };
    let mut lines = Lines::default();
    let Some(sum) = model.sum().filter(|_| at.is_some()) else {
        lines.add(wrapped("Which sum?", width, "", theme.question()));
        lines.gap();
        question::numbered(model, theme, width, &mut lines);
        return Some(lines);
    };
    lines.add(wrapped(&upper_first(&english((sum.about)())), width, "", theme.question()));
    if model.typed.is_some() {
        let takes = sum.takes.get(model.field);
        lines.add(wrapped(&takes.map_or_else(String::new, |takes| english((takes.what)())), width, "", theme.aside()));
        question::typing_line(model, theme, width, &mut lines);
        let example = takes.and_then(|takes| sum.example.iter().find(|(name, _)| *name == takes.name));
        if let Some((_, example)) = example {
            lines.add(wrapped(&format!("for example {example}"), width, "", theme.aside()));
        }
    } else {
        question::numbered(model, theme, width, &mut lines);
    }
    lines.gap();
    answer(model, theme, width, &mut lines);
    if let Some(notice) = &model.notice {
        lines.gap();
        lines.add(wrapped(notice, width, "", theme.never()));
    }
    // Where it does not fit it stands in the answer in full.
    let caution = wrapped(&model.caution(), width, "", theme.aside());
    if lines.lines.len() + caution.len() < height {
        lines.gap();
        lines.add(caution);
    }
    Some(lines)
}

fn answer(model: &Model, theme: Theme, width: usize, lines: &mut Lines) {
    match model.answer() {
        Some(Ok(answer)) => {
            for (at, line) in answer.lines.iter().enumerate() {
                let style = if at == 0 { theme.urgent() } else { theme.plain() };
                lines.add(wrapped(
                    &model.reader().say(&named(line.what.clone(), line.told.value.clone()).into()),
                    width,
                    "= ",
                    style,
                ));
            }
            for note in answer.notes.iter().take(2) {
                lines.add(wrapped(&model.reader().say(note), width, "! ", theme.aside()));
            }
        }
        // What is missing stands in its own row already; while something is typed it may not be complete yet.
        Some(Err(error)) if model.notice.is_none() && !error.is_missing() && model.typed.is_none() => {
            lines.add(wrapped(&model.reader().say(&error.told()), width, "", theme.never()));
        }
        Some(Err(_)) | None => {}
    }
}
