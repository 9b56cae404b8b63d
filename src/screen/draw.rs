//! Draws every pane into its area, and puts the terminal's own cursor where the eye should be.

use super::areas::Areas;
use super::pane::{
    self, Lines, card, document, entering, footer, header, help, instruction, question, small, summary, sums, track,
    why,
};
use super::theme::Theme;
use super::wrap::wrapped;
use crate::session::Extent;
use crate::view::summary::SummaryView;
use crate::view::{Scene, View};
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
pub fn draw(view: &View, theme: Theme, frame: &mut Frame) -> Extent {
    let area = frame.area();
    let Painted { cursor, extent } = render(view, theme, area, frame.buffer_mut());
    if let Some(cursor) = cursor {
        frame.set_cursor_position(cursor);
    }
    extent
}

/// Draws into a buffer.
pub fn render(view: &View, theme: Theme, area: Rect, buffer: &mut Buffer) -> Painted {
    if area.is_empty() {
        return Painted { cursor: None, extent: Extent { too_small: true, ..Extent::default() } };
    }
    if small::is_too_small(area) {
        small::draw(view, theme, area, buffer);
        let extent = Extent { too_small: true, ..Extent::default() };
        return Painted { cursor: Some(Position { x: area.x, y: area.y }), extent };
    }
    let areas = Areas::of(view, area);
    header::draw(&view.header, theme, areas.header, buffer);
    if let Some(track) = view.track.as_ref().filter(|_| !areas.steps.is_empty()) {
        track::draw(track, theme, areas.steps, buffer);
    }
    across(view, theme, areas.rule, buffer);
    across(view, theme, areas.rule_below, buffer);
    if let Some(summed) = &view.summary {
        let (width, height) = (usize::from(areas.band.width), usize::from(areas.band.height));
        for (line, y) in summary::band(summed, theme, width, height).iter().zip(areas.band.y..) {
            buffer.set_line(areas.band.x, y, line, areas.band.width);
        }
        if !areas.summary.is_empty() {
            beside(summed, theme, &areas, buffer);
        }
    }
    let drawn =
        if view.scene.is_read() { read(view, theme, areas.body, buffer) } else { ask(view, theme, areas.body, buffer) };
    footer::draw(&view.hints, theme, drawn.extent, areas.keys, buffer);
    drawn
}

/// The summary beside the question.
fn beside(summed: &SummaryView, theme: Theme, areas: &Areas, buffer: &mut Buffer) {
    for y in areas.between.y..areas.between.bottom() {
        buffer.set_line(areas.between.x, y, &Line::from(Span::styled("│", theme.frame())), 1);
    }
    let column = summary::column(summed, theme, usize::from(areas.summary.width));
    let more = Line::from(Span::styled(summed.more_below.clone(), theme.aside()));
    pane::paint(&column, 0, areas.summary, &more, buffer);
}

/// A rule; in practice a double one that says so.
fn across(view: &View, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width);
    let rule = match &view.practice {
        Some(practice) => format!("{:═^width$}", format!(" {practice} ")),
        None => "─".repeat(width),
    };
    buffer.set_line(area.x, area.y, &Line::from(Span::styled(rule, theme.frame())), area.width);
}

/// What the scene comes to in so many columns and rows.
fn lines(view: &View, theme: Theme, size: (usize, usize)) -> Lines {
    match &view.scene {
        Scene::Question(asked) => question::lines(view, asked, theme, size),
        Scene::Sums(sums) => sums::lines(view, sums, theme, size),
        Scene::Entering(entered) => entering::lines(view, entered, theme, size),
        Scene::Instruction(told) => instruction::lines(view, told, theme, size),
        Scene::Card(card) => card.as_ref().map_or_else(Lines::default, |told| card::lines(view, told, theme, size)),
        Scene::Document(told) => document::lines(view, told, theme, size),
        Scene::Why(told) => why::lines(told, theme, size.0),
        Scene::Help(told) => help::lines(told, theme, size.0),
    }
}

/// The question or the instruction; scrolled, if it must be, so that the cursor's line shows.
fn ask(view: &View, theme: Theme, area: Rect, buffer: &mut Buffer) -> Painted {
    // One column of air on the right, so that words do not run into the summary.
    let (width, height) = (usize::from(area.width.saturating_sub(1)), usize::from(area.height));
    let instructs = matches!(view.scene, Scene::Instruction(_));
    let lines = lines(view, theme, (width, height));
    let over = lines.lines.len().saturating_sub(height);
    let chosen = lines.cursor.filter(|_| view.focus.is_some() || view.typing);
    let scroll = match chosen {
        _ if instructs => view.scroll,
        Some(line) => (line + 2).saturating_sub(height.saturating_sub(1)),
        None => 0,
    };
    let more = Line::from(Span::styled(view.more_below.clone(), theme.aside()));
    let scroll = scroll.min(over);
    let cursor = pane::paint(&lines, scroll, area, &more, buffer);
    Painted { cursor, extent: extent(&lines, height, if instructs { scroll } else { view.scroll }) }
}

fn extent(lines: &Lines, height: usize, scroll: usize) -> Extent {
    Extent { lines: lines.lines.len(), height: height.max(1), scroll, too_small: false }
}

fn read(view: &View, theme: Theme, area: Rect, buffer: &mut Buffer) -> Painted {
    let (width, whole) = (usize::from(area.width), usize::from(area.height));
    let lines = lines(view, theme, (width, whole));
    // What the last key came to stands under the page, and takes its rows from it.
    let told = view.notice.as_ref().map_or_else(Vec::new, |told| wrapped(told, width, "", theme.never()));
    let under = u16::try_from(told.len()).unwrap_or(u16::MAX).min(area.height.saturating_sub(1));
    let (area, foot) = (Rect { height: area.height - under, ..area }, area.bottom() - under);
    for (line, y) in told.iter().zip(foot..foot + under) {
        buffer.set_line(area.x, y, line, area.width);
    }
    let most = lines.lines.len().saturating_sub(usize::from(area.height));
    let more = Line::from(Span::styled(view.more_below.clone(), theme.heading()));
    let scroll = in_view(view, &lines, whole).min(most);
    let cursor = pane::paint(&lines, scroll, area, &more, buffer);
    let cursor = cursor.or(Some(Position { x: area.x, y: area.y }));
    Painted { cursor, extent: extent(&lines, whole, scroll) }
}

/// The first line that is seen, so that what the cursor stands on is.
fn in_view(view: &View, lines: &Lines, height: usize) -> usize {
    let Some(line) = lines.cursor.filter(|_| view.focus.is_some()) else { return view.scroll };
    if line < view.scroll {
        line
    } else if line + 3 > view.scroll + height {
        (line + 3).saturating_sub(height)
    } else {
        view.scroll
    }
}
