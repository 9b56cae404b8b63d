//! The sums by themselves: a list of them, or one with its values and what it comes to.

use super::{Lines, question};
use crate::phrase::{Text, question as phrase, terms};
use crate::screen::model::{Model, Overlay};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;

/// The pane, where a sum lies on top.
pub fn lines(model: &Model, theme: Theme, width: usize, height: usize) -> Option<Lines> {
    let Some(Overlay::Sums(at)) = model.overlays.last() else { return None };
    let mut lines = Lines::default();
    let Some(sum) = model.sum().filter(|_| at.is_some()) else {
        lines.add(wrapped(&model.say(phrase::sum()), width, "", theme.question()));
        lines.gap();
        question::numbered(model, theme, width, &mut lines);
        return Some(lines);
    };
    lines.add(wrapped(&model.say(Text::opening((sum.about)())), width, "", theme.question()));
    if model.typed.is_some() {
        let takes = sum.takes.get(model.field);
        let what = takes.map_or_else(Text::default, |takes| (takes.what)().into());
        lines.add(wrapped(&model.say(what), width, "", theme.aside()));
        question::typing_line(model, theme, width, &mut lines);
        let example = takes.and_then(|takes| sum.example.iter().find(|(name, _)| *name == takes.name));
        if let Some((_, example)) = example {
            let told = phrase::for_example(Text::typed(*example));
            lines.add(wrapped(&model.say(told), width, "", theme.aside()));
        }
    } else {
        question::numbered(model, theme, width, &mut lines);
    }
    lines.gap();
    answer(model, theme, width, &mut lines);
    if let Some(notice) = &model.notice {
        lines.gap();
        lines.add(wrapped(&model.reader().say(notice), width, "", theme.never()));
    }
    // Where it does not fit it stands in the answer in full.
    let caution = wrapped(&model.say(model.caution()), width, "", theme.aside());
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
                let told = terms::named(line.what.clone(), line.told.clone());
                lines.add(wrapped(&model.say(told), width, "= ", style));
            }
            for note in answer.notes.iter().take(2) {
                lines.add(wrapped(&model.say(note.clone()), width, "! ", theme.aside()));
            }
        }
        // What is missing stands in its own row already; while something is typed it may not be complete yet.
        Some(Err(error)) if model.notice.is_none() && !error.is_missing() && model.typed.is_none() => {
            lines.add(wrapped(&model.say(error.told()), width, "", theme.never()));
        }
        Some(Err(_)) | None => {}
    }
}
