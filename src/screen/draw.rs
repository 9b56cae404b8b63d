//! Draws every pane into its area, and puts the terminal's own cursor where the eye should be.

use super::areas::{Areas, is_reading};
use super::pane::{self, Lines, document, footer, header, instruction, question, small, summary, track};
use super::theme::Theme;
use super::wrap::wrapped;
use crate::exam::Place;
use crate::phrase::{Phrase, Text, keys, page as phrase};
use crate::session::{Extent, Session};
use crate::view::keys::Action;
use crate::view::named;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// What a screen came to.
#[derive(Clone, Copy, Debug, Default)]
pub struct Painted {
    /// Where the terminal's own cursor belongs.
    pub cursor: Option<Position>,
    /// How far what is read can be moved on.
    pub extent: Extent,
}

/// Draws the whole screen; what it came to is the sitting's to keep.
pub fn draw(session: &Session, theme: Theme, frame: &mut Frame) -> Extent {
    let area = frame.area();
    let Painted { cursor, extent } = render(session, theme, area, frame.buffer_mut());
    if let Some(cursor) = cursor {
        frame.set_cursor_position(cursor);
    }
    extent
}

/// Draws into a buffer.
pub fn render(session: &Session, theme: Theme, area: Rect, buffer: &mut Buffer) -> Painted {
    if area.is_empty() {
        return Painted { cursor: None, extent: Extent { too_small: true, ..Extent::default() } };
    }
    if small::is_too_small(area) {
        small::draw(session, theme, area, buffer);
        let extent = Extent { too_small: true, ..Extent::default() };
        return Painted { cursor: Some(Position { x: area.x, y: area.y }), extent };
    }
    let areas = Areas::of(session, area);
    header::draw(session, theme, areas.header, buffer);
    if !areas.steps.is_empty() {
        track::draw(session, theme, areas.steps, buffer);
    }
    let (width, height) = (usize::from(areas.band.width), usize::from(areas.band.height));
    for (line, y) in summary::band(session, theme, width, height).iter().zip(areas.band.y..) {
        buffer.set_line(areas.band.x, y, line, areas.band.width);
    }
    across(session, theme, areas.rule, buffer);
    across(session, theme, areas.rule_below, buffer);
    if !areas.summary.is_empty() {
        beside(session, theme, &areas, buffer);
    }
    let drawn = if is_reading(session) {
        read(session, theme, areas.body, buffer)
    } else {
        ask(session, theme, areas.body, buffer)
    };
    footer::draw(session, theme, drawn.extent, areas.keys, buffer);
    drawn
}

/// The summary beside the question.
fn beside(session: &Session, theme: Theme, areas: &Areas, buffer: &mut Buffer) {
    for y in areas.between.y..areas.between.bottom() {
        buffer.set_line(areas.between.x, y, &Line::from(Span::styled("│", theme.frame())), 1);
    }
    let column = summary::column(session, theme, usize::from(areas.summary.width));
    let named = |action, what: Phrase| named::key(session, action).map(|key| Text::row([key, what.into()]));
    let keys = [named(Action::Verdict, keys::hint_verdict()), named(Action::Plan, keys::hint_plan())];
    let keys: Vec<Text> = keys.into_iter().flatten().collect();
    let more = if keys.is_empty() { phrase::more_below() } else { phrase::more_keys(Text::list(keys)) };
    let more = Line::from(Span::styled(session.say(more), theme.aside()));
    pane::paint(&column, 0, areas.summary, &more, buffer);
}

/// A rule; in practice a double one that says so.
fn across(session: &Session, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width);
    let rule = if session.practice.is_some() {
        format!("{:═^width$}", format!(" {} ", session.say(phrase::practice())))
    } else {
        "─".repeat(width)
    };
    buffer.set_line(area.x, area.y, &Line::from(Span::styled(rule, theme.frame())), area.width);
}

/// The question or the instruction; scrolled, if it must be, so that the cursor's line shows.
fn ask(session: &Session, theme: Theme, area: Rect, buffer: &mut Buffer) -> Painted {
    // One column of air on the right, so that words do not run into the summary.
    let (width, height) = (usize::from(area.width.saturating_sub(1)), usize::from(area.height));
    let instructs = matches!(session.exam.place, Place::Instruction(..)) && session.overlays.is_empty();
    let lines = if instructs {
        instruction::lines(session, theme, width, height)
    } else {
        question::lines(session, theme, width, height)
    };
    let over = lines.lines.len().saturating_sub(height);
    let chosen = lines.cursor.filter(|_| session.cursor.is_some() || session.line.is_some());
    let scroll = match chosen {
        _ if instructs => session.scroll,
        Some(line) => (line + 2).saturating_sub(height.saturating_sub(1)),
        None => 0,
    };
    let more = named::key(session, Action::Down).map_or_else(phrase::more_lines, phrase::more_lines_key);
    let more = Line::from(Span::styled(session.say(more), theme.aside()));
    let scroll = scroll.min(over);
    let cursor = pane::paint(&lines, scroll, area, &more, buffer);
    Painted { cursor, extent: extent(&lines, height, if instructs { scroll } else { session.scroll }) }
}

fn extent(lines: &Lines, height: usize, scroll: usize) -> Extent {
    Extent { lines: lines.lines.len(), height: height.max(1), scroll, too_small: false }
}

fn read(session: &Session, theme: Theme, area: Rect, buffer: &mut Buffer) -> Painted {
    let (width, whole) = (usize::from(area.width), usize::from(area.height));
    let lines = document::build(session, theme, width, whole);
    // What the last key came to stands under the page, and takes its rows from it.
    let told = session.notice.as_ref().map(|notice| session.reader().say(notice));
    let told = told.map_or_else(Vec::new, |told| wrapped(&told, width, "", theme.never()));
    let under = u16::try_from(told.len()).unwrap_or(u16::MAX).min(area.height.saturating_sub(1));
    let (area, foot) = (Rect { height: area.height - under, ..area }, area.bottom() - under);
    for (line, y) in told.iter().zip(foot..foot + under) {
        buffer.set_line(area.x, y, line, area.width);
    }
    let most = lines.lines.len().saturating_sub(usize::from(area.height));
    let more = Line::from(Span::styled(session.say(phrase::next_below()), theme.heading()));
    let scroll = in_view(session, &lines, whole).min(most);
    let cursor = pane::paint(&lines, scroll, area, &more, buffer);
    let cursor = cursor.or(Some(Position { x: area.x, y: area.y }));
    Painted { cursor, extent: extent(&lines, whole, scroll) }
}

/// The first line that is seen, so that what the cursor stands on is.
fn in_view(session: &Session, lines: &Lines, height: usize) -> usize {
    let Some(line) = lines.cursor.filter(|_| session.cursor.is_some()) else { return session.scroll };
    if line < session.scroll {
        line
    } else if line + 3 > session.scroll + height {
        (line + 3).saturating_sub(height)
    } else {
        session.scroll
    }
}
