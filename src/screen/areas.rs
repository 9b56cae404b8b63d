//! Where each pane goes, by the size of the screen.
//!
//! ```text
//!  wide: header / steps / rule / question | summary / rule / keys
//!  less: header / steps / summary in two lines / rule / question / rule / keys
//!  phone: header / summary in two lines / rule / question / rule / keys
//! ```

use super::pane::header;
use crate::exam::Place;
use crate::session::{Face, Overlay, Session};
use crate::view::{rows, summary};
use ratatui::layout::{Constraint, Layout, Margin, Rect};

/// From these columns and rows on, the summary stands beside the question.
const WIDE: (u16, u16) = (84, 22);
/// The summary's columns when it does.
const SUMMARY: u16 = 36;
/// Below these columns the screen is a phone's: no steps, no margin.
const PHONE: u16 = 56;

/// A question of so few rows leaves room for one line more on a phone.
const FEW: usize = 5;

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

/// Whether a document is read, rather than a question asked.
pub fn is_reading(session: &Session) -> bool {
    // A label is typed first, then read.
    session
        .overlays
        .last()
        .map_or_else(|| session.shown() != Face::Exam, |top| top.lies().read && session.line.is_none())
}

impl Areas {
    /// The areas for what shows now.
    pub fn of(session: &Session, area: Rect) -> Self {
        let reading = is_reading(session);
        let beginning = session.log.is_empty();
        let phone = area.width < PHONE;
        let practising = session.practice.is_some();
        // Of a case that is over nothing is summed up: no vet's clock runs beside her end.
        let over = session.days.over().is_some();
        let choosing_a_lesson = session.overlays.last() == Some(&Overlay::Lessons);
        let beside = !reading && !beginning && !practising && !over && area.width >= WIDE.0 && area.height >= WIDE.1;
        let band = match (
            reading || beside || beginning || practising || over,
            matches!(session.exam.place, Place::Instruction(..)),
        ) {
            (true, _) => 0,
            // While an instruction fills the screen, what to do stands there already.
            (false, true) => 1,
            // Need and first aid, what must not be done, the call that follows, and what has to be said beside them.
            (false, false) => {
                let alarms = u16::try_from(summary::alarms(session).count()).unwrap_or(0);
                let lines = 3 + u16::from(summary::phone_after(session).is_some()) + alarms;
                // On a phone a long question needs the room more; what gives way stands in verdict and plan.
                let short = || matches!(session.exam.place, Place::Ask(_)) && rows::rows(session).len() <= FEW;
                if phone && lines > 3 { if short() { 4 } else { 3 } } else { lines }
            }
        };
        let [header, steps, band, rule, body, rule_below, keys] = area.layout(&Layout::vertical([
            Constraint::Length(header::height(session, area.width)),
            Constraint::Length(u16::from(!phone && !reading && !choosing_a_lesson && !over)),
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
