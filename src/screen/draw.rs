//! Draws every pane into its area, and puts the terminal's own cursor where the eye should be.

use super::areas::{Areas, is_reading};
use super::keys::{Action, Toward};
use super::model::Model;
use super::pane::{self, document, footer, header, instruction, named, question, small, summary, track};
use super::theme::Theme;
use super::wrap::wrapped;
use crate::exam::Place;
use crate::phrase::{Phrase, Text, keys, page as phrase};
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Draws the whole screen.
pub fn draw(model: &Model, theme: Theme, frame: &mut Frame) {
    let area = frame.area();
    if let Some(cursor) = render(model, theme, area, frame.buffer_mut()) {
        frame.set_cursor_position(cursor);
    }
}

/// Draws into a buffer and returns where the cursor belongs.
pub fn render(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    if area.is_empty() {
        return None;
    }
    if small::is_too_small(area) {
        small::draw(model, theme, area, buffer);
        return Some(Position { x: area.x, y: area.y });
    }
    let areas = Areas::of(model, area);
    header::draw(model, theme, areas.header, buffer);
    if !areas.steps.is_empty() {
        track::draw(model, theme, areas.steps, buffer);
    }
    let (width, height) = (usize::from(areas.band.width), usize::from(areas.band.height));
    for (line, y) in summary::band(model, theme, width, height).iter().zip(areas.band.y..) {
        buffer.set_line(areas.band.x, y, line, areas.band.width);
    }
    across(model, theme, areas.rule, buffer);
    across(model, theme, areas.rule_below, buffer);
    footer::draw(model, theme, areas.keys, buffer);
    if !areas.summary.is_empty() {
        for y in areas.between.y..areas.between.bottom() {
            buffer.set_line(areas.between.x, y, &Line::from(Span::styled("│", theme.frame())), 1);
        }
        let beside = summary::column(model, theme, usize::from(areas.summary.width));
        let named = |action, what: Phrase| named::key(model, action).map(|key| Text::row([key, what.into()]));
        let keys = [named(Action::Verdict, keys::hint_verdict()), named(Action::Plan, keys::hint_plan())];
        let keys: Vec<Text> = keys.into_iter().flatten().collect();
        let more = if keys.is_empty() { phrase::more_below() } else { phrase::more_keys(Text::list(keys)) };
        let more = Line::from(Span::styled(model.say(more), theme.aside()));
        pane::paint(&beside, 0, areas.summary, &more, buffer);
    }
    if is_reading(model) { read(model, theme, areas.body, buffer) } else { ask(model, theme, areas.body, buffer) }
}

/// A rule; in practice a double one that says so.
fn across(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width);
    let rule = if model.practice.is_some() {
        format!("{:═^width$}", format!(" {} ", model.say(phrase::practice())))
    } else {
        "─".repeat(width)
    };
    buffer.set_line(area.x, area.y, &Line::from(Span::styled(rule, theme.frame())), area.width);
}

/// The question or the instruction; scrolled, if it must be, so that the cursor's line shows.
fn ask(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    // One column of air on the right, so that words do not run into the summary.
    let (width, height) = (usize::from(area.width.saturating_sub(1)), usize::from(area.height));
    let instructs = matches!(model.exam.place, Place::Instruction(..)) && model.overlays.is_empty();
    let lines = if instructs {
        instruction::lines(model, theme, width, height)
    } else {
        question::lines(model, theme, width, height)
    };
    let over = lines.lines.len().saturating_sub(height);
    let chosen = lines.cursor.filter(|_| model.cursor.is_some() || model.typed.is_some());
    let scroll = match chosen {
        _ if instructs => model.scroll,
        Some(line) => (line + 2).saturating_sub(height.saturating_sub(1)),
        None => 0,
    };
    let down = [Action::Down, Action::Across(Toward::Down)].into_iter().find_map(|action| named::key(model, action));
    let more = down.map_or_else(phrase::more_lines, phrase::more_lines_key);
    let more = Line::from(Span::styled(model.say(more), theme.aside()));
    pane::paint(&lines, scroll.min(over), area, &more, buffer)
}

fn read(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let width = usize::from(area.width);
    let lines = document::build(model, theme, width);
    // What the last key came to stands under the page, and takes its rows from it.
    let told = model.notice.as_ref().map(|notice| model.reader().say(notice));
    let told = told.map_or_else(Vec::new, |told| wrapped(&told, width, "", theme.never()));
    let under = u16::try_from(told.len()).unwrap_or(u16::MAX).min(area.height.saturating_sub(1));
    let (area, foot) = (Rect { height: area.height - under, ..area }, area.bottom() - under);
    for (line, y) in told.iter().zip(foot..foot + under) {
        buffer.set_line(area.x, y, line, area.width);
    }
    let most = lines.lines.len().saturating_sub(usize::from(area.height));
    let more = Line::from(Span::styled(model.say(phrase::next_below()), theme.heading()));
    let cursor = pane::paint(&lines, model.scroll.min(most), area, &more, buffer);
    cursor.or(Some(Position { x: area.x, y: area.y }))
}
