//! Where each pane goes, by the size of the screen.
//!
//! ```text
//!  wide: header / steps / rule / question | summary / rule / keys
//!  less: header / steps / summary in two lines / rule / question / rule / keys
//!  phone: header / summary in two lines / rule / question / keys
//! ```

use super::model::{Face, Model};
use super::pane::{self, document, footer, header, instruction, question, small, summary, track};
use super::theme::Theme;
use crate::exam::Place;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Margin, Position, Rect};
use ratatui::text::{Line, Span};

/// From these columns and rows on, the summary stands beside the question.
const WIDE: (u16, u16) = (84, 22);
/// The summary's columns when it does.
const SUMMARY: u16 = 36;

/// Draws the whole screen and puts the terminal's own cursor where the eye should be.
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
    let reading = !matches!(model.shown(), Face::Exam) || is_overlay_document(model);
    let wide = area.width >= WIDE.0 && area.height >= WIDE.1;
    let narrow = area.width < 56;
    let warns = u16::from(header::warning(model).is_some());
    let beginning = model.log.is_empty();
    let band = match (reading || wide || beginning, matches!(model.exam.place, Place::Instruction(..))) {
        (true, _) => 0,
        // While an instruction fills the screen, what to do stands there already.
        (false, true) => 1,
        (false, false) => 2,
    };
    let steps = u16::from(!narrow && !reading);
    let keys = if area.width < 100 { 2 } else { 1 };
    let [top, steps_area, band_area, rule, body, rule_below, bottom] = area.layout(&Layout::vertical([
        Constraint::Length(1 + warns),
        Constraint::Length(steps),
        Constraint::Length(band),
        Constraint::Length(1),
        Constraint::Fill(1),
        Constraint::Length(1),
        Constraint::Length(keys),
    ]));
    header::draw(model, theme, top, buffer);
    if steps > 0 {
        track::draw(model, theme, steps_area, buffer);
    }
    for (line, y) in
        summary::band(model, theme, usize::from(band_area.width), usize::from(band)).iter().zip(band_area.y..)
    {
        buffer.set_line(band_area.x, y, line, band_area.width);
    }
    across(theme, rule, buffer);
    across(theme, rule_below, buffer);
    footer::draw(model, theme, bottom, buffer);
    let body = if narrow { body } else { body.inner(Margin { horizontal: 1, vertical: 0 }) };
    if reading {
        return read(model, theme, body, buffer);
    }
    if !wide || beginning {
        return ask(model, theme, body, buffer);
    }
    let [left, line, right] =
        body.layout(&Layout::horizontal([Constraint::Fill(1), Constraint::Length(2), Constraint::Length(SUMMARY)]));
    for y in line.y..line.bottom() {
        buffer.set_line(line.x, y, &Line::from(Span::styled("│", theme.frame())), 1);
    }
    let beside = summary::column(model, theme, usize::from(right.width));
    pane::paint(&beside, 0, right, &Line::from(Span::styled("more: v verdict, d plan", theme.aside())), buffer);
    ask(model, theme, left, buffer)
}

fn is_overlay_document(model: &Model) -> bool {
    use super::model::Overlay;
    match model.overlays.last() {
        Some(Overlay::Help | Overlay::Why(_)) => true,
        Some(Overlay::Map(_)) | None => false,
    }
}

fn across(theme: Theme, area: Rect, buffer: &mut Buffer) {
    let rule = "─".repeat(usize::from(area.width));
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
    let scroll = lines
        .cursor
        .filter(|_| model.cursor.is_some() || model.typed.is_some())
        .map_or(0, |line| (line + 2).saturating_sub(height.saturating_sub(1)).min(over));
    let more = Line::from(Span::styled("down: more lines below", theme.aside()));
    pane::paint(&lines, scroll, area, &more, buffer)
}

fn read(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let lines = document::build(model, theme, usize::from(area.width));
    let most = lines.lines.len().saturating_sub(usize::from(area.height));
    let more = Line::from(Span::styled("n: more below", theme.heading()));
    let cursor = pane::paint(&lines, model.scroll.min(most), area, &more, buffer);
    cursor.or(Some(Position { x: area.x, y: area.y }))
}
