//! Where each pane goes, by the size of the screen.
//!
//! ```text
//!  wide: header / steps / rule / question | summary / rule / keys
//!  less: header / steps / summary in two lines / rule / question / rule / keys
//!  phone: header / summary in two lines / rule / question / rule / keys
//! ```

use super::pane::header;
use crate::view::View;
use crate::view::summary::SummaryView;
use ratatui::layout::{Constraint, Layout, Margin, Rect};

/// From these columns and rows on, the summary stands beside the question.
const WIDE: (u16, u16) = (84, 22);
/// The summary's columns when it does.
const SUMMARY: u16 = 36;
/// Below these columns the screen is a phone's: no steps, no margin.
const PHONE: u16 = 56;

/// The areas of one frame. An area that is not used has no height.
#[derive(Clone, Copy, Debug)]
pub struct Areas {
    pub header: Rect,
    pub steps: Rect,
    pub band: Rect,
    pub rule: Rect,
    /// The question, the instruction or the document.
    pub body: Rect,
    /// The line between question and summary, and the summary; both empty where there is none beside it.
    pub between: Rect,
    pub summary: Rect,
    pub rule_below: Rect,
    pub keys: Rect,
}

impl Areas {
    /// The areas for what shows now.
    pub fn of(view: &View, area: Rect) -> Self {
        let phone = area.width < PHONE;
        let beside = view.summary.is_some() && area.width >= WIDE.0 && area.height >= WIDE.1;
        let band = view.summary.as_ref().filter(|_| !beside).map_or(0, |summary| band(summary, phone));
        let [header, steps, band, rule, body, rule_below, keys] = area.layout(&Layout::vertical([
            Constraint::Length(header::height(view, area.width)),
            Constraint::Length(u16::from(!phone && view.track.is_some())),
            Constraint::Length(band),
            Constraint::Length(1),
            Constraint::Fill(1),
            Constraint::Length(1),
            Constraint::Length(if area.width < 100 { 2 } else { 1 }),
        ]));
        let body = if phone { body } else { body.inner(Margin { horizontal: 1, vertical: 0 }) };
        let (between, summary) = if beside { (2, SUMMARY) } else { (0, 0) };
        let [body, between, summary] = body.layout(&Layout::horizontal([
            Constraint::Fill(1),
            Constraint::Length(between),
            Constraint::Length(summary),
        ]));
        Self { header, steps, band, rule, body, between, summary, rule_below, keys }
    }
}

/// How many lines the summary takes above a question.
fn band(SummaryView { short, .. }: &SummaryView, phone: bool) -> u16 {
    // While an instruction fills the screen, what to do stands there already.
    if short.instructs {
        return 1;
    }
    let lines = u16::try_from(short.lines).unwrap_or(u16::MAX);
    // On a phone a long question needs the room more; what gives way stands in verdict and plan.
    if phone && lines > 3 { if short.few { 4 } else { 3 } } else { lines }
}
