//! A document as it is read: its sections with what is drawn under them, and what is said of each line's clock.

use super::document::sections;
use super::graph::GraphView;
use super::{clock, clock_line};
use crate::content::document::{Item, Tone};
use crate::content::in_short;
use crate::judge::Level;
use crate::protocol::scale::Need;
use crate::session::{Face, Overlay, Page, Session};

/// A document to read: headed lists of lines.
#[derive(Clone, Debug)]
pub struct DocumentView {
    /// Its sections.
    pub sections: Vec<SectionView>,
    /// How soon a vet is needed, where the first line says that: it must be seen first.
    pub need: Option<Level<Need>>,
    /// After how many sections its first page ends where room is short: with what is told in short.
    pub folds_after: Option<usize>,
}

/// A headed list of a document.
#[derive(Clone, Debug)]
pub struct SectionView {
    /// Its heading.
    pub heading: String,
    /// What it is for.
    pub tone: Tone,
    /// What is drawn under it; its lines tell the same figures.
    pub graph: Option<GraphView>,
    /// Its lines.
    pub items: Vec<ItemView>,
}

/// A line of a document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ItemView {
    /// The line itself.
    pub lead: String,
    /// More, in smaller type as it were.
    pub more: Vec<String>,
    /// What is said of its clock.
    pub timed: Option<String>,
    /// A picture in letters; words say the same.
    pub picture: Vec<String>,
}

impl DocumentView {
    /// The one that shows.
    pub fn of(session: &Session) -> Self {
        let sections = sections(session);
        let press = clock::press(session);
        let first = sections.iter().flat_map(|section| &section.items).position(|item| item.timed.is_some());
        let of_days = session.overlays.last() == Some(&Overlay::Page(Page::Days));
        let is_verdict = session.overlays.is_empty() && session.shown() == Face::Verdict;
        let short = session.say(in_short::heading());
        let folds_after = sections.iter().position(|section| is_verdict && section.heading == short).map(|at| at + 1);
        let mut at = 0;
        let mut item = |item: Item| {
            let here = session.cursor.or(first) == Some(at);
            at += 1;
            let timed = item.timed.map(|timed| session.say(clock_line::beside(session, press, here, timed)));
            ItemView { lead: item.lead, more: item.more, timed, picture: item.picture }
        };
        let sections = sections.into_iter().map(|section| SectionView {
            graph: if of_days { GraphView::under(session, &section.heading) } else { None },
            heading: section.heading,
            tone: section.tone,
            items: section.items.into_iter().map(&mut item).collect(),
        });
        let sections = sections.collect();
        let need = (is_verdict && session.days.end.is_none()).then_some(session.verdict.need);
        Self { sections, need, folds_after }
    }
}
