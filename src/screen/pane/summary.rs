//! The running summary: need, humane end, do now, never, why, and how much could still change.

use super::Lines;
use crate::screen::theme::{Theme, need_mark};
use crate::screen::wrap::wrapped;
use crate::view::summary::{Headed, ShortView, SummaryView};
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// The summary beside the question.
pub fn column(summary: &SummaryView, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    let need = summary.need;
    lines.add(wrapped(&summary.heading, width, "", theme.heading()));
    lines.add(wrapped(&summary.need_words, width, &format!("{} ", need_mark(need)), theme.need(need)));
    lines.add(summary.alarms.iter().flat_map(|alarm| wrapped(alarm, width, "! ", theme.urgent())));
    let told = summary.could_change.iter().chain(&summary.telling);
    lines.add(told.flat_map(|told| wrapped(told, width, "", theme.aside())));
    headed(&summary.now, theme, width, &mut lines, |number, step| {
        wrapped(step, width, &format!("{number} "), theme.question())
    });
    lines.add(summary.more.iter().flat_map(|more| wrapped(more, width, "  ", theme.aside())));
    headed(&summary.figures, theme, width, &mut lines, |_, (name, figure)| {
        wrapped(figure, width, &format!("{name} "), theme.plain())
    });
    headed(&summary.nevers, theme, width, &mut lines, |_, never| wrapped(never, width, "x ", theme.never()));
    headed(&summary.why, theme, width, &mut lines, |_, why| wrapped(why, width, "", theme.plain()));
    lines
}

fn headed<T>(
    told: &Headed<T>,
    theme: Theme,
    width: usize,
    lines: &mut Lines,
    line: impl Fn(usize, &T) -> Vec<Line<'static>>,
) {
    if told.lines.is_empty() {
        return;
    }
    lines.gap();
    lines.add(wrapped(&told.heading, width, "", theme.heading()));
    lines.add((1..).zip(&told.lines).flat_map(|(number, told)| line(number, told)));
}

/// The summary as a band of lines above the question, most important first.
pub fn band(summary: &SummaryView, theme: Theme, width: usize, height: usize) -> Vec<Line<'static>> {
    let ShortView { act, never, then, authority, .. } = &summary.short;
    let mut lines = wrapped(&band_line(summary, width), width, "", theme.need(summary.need));
    let line = |told: &[String], style| fitting(told, width).map(|told| Line::from(Span::styled(told, style)));
    lines.extend(line(act, theme.question()));
    // What comes last gives way first. Where the authority is only to be asked, the call to the vet is not pushed out by it.
    let authority = authority.iter().flat_map(|told| wrapped(told, width, "! ", theme.urgent()));
    let then = line(then, theme.question());
    let never = line(never, theme.never());
    // How soon a vet is needed says already that one is phoned: what the hands must not do stands before it.
    if summary.short.authority_now {
        lines.extend(authority.chain(never).chain(then));
    } else {
        lines.extend(never.into_iter().chain(then).chain(authority));
    }
    lines.truncate(height);
    lines
}

/// The first of some lines that is not cut at this width; nothing where each would be: half an instruction can harm.
fn fitting(told: &[String], width: usize) -> Option<String> {
    told.iter().find(|told| told.width() <= width).cloned()
}

/// The need and, where there is room, how much could still change it.
fn band_line(summary: &SummaryView, width: usize) -> String {
    let marked = |told: &str| format!("{} {told}", need_mark(summary.need));
    let mut need = marked(&summary.need_words);
    if let Some(short) = summary.short.need.as_ref().filter(|_| need.chars().count() > width) {
        need = marked(short);
    }
    match &summary.could_change {
        Some(could) if need.chars().count() + could.chars().count() + 3 <= width => format!("{need} · {could}"),
        _ => need,
    }
}
