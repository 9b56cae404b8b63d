//! Moving on: the cursor, the page of rows, the lines of a document, and to the question that settles most.

use super::record::record;
use super::traffic::Effect;
use crate::exam::Place;
use crate::finding::log::Entry;
use crate::phrase::notice;
use crate::prove::Telling;
use crate::session::context::Context;
use crate::session::{Extent, Face, Session};
use crate::view::keys::Toward;
use crate::view::{body, document, rows};

/// So many pages of rows on or back, or pages of a document.
pub(super) fn turn(session: &mut Session, by: isize) -> Vec<Effect> {
    let pages = rows::pages(session);
    if pages > 1 {
        session.page = (session.page + pages).saturating_add_signed(by) % pages;
        session.cursor = None;
        return Vec::new();
    }
    scroll_by(session, by * page_height(session))
}

/// To the first line or the last, of the rows or of a document.
pub(super) fn to_edge(session: &mut Session, last: bool) -> Vec<Effect> {
    if rows::rows(session).is_empty() {
        return scroll_by(session, if last { isize::MAX } else { isize::MIN });
    }
    session.page = if last { rows::pages(session) - 1 } else { 0 };
    let rows = rows::page(session).len();
    session.cursor = Some(if last { rows.saturating_sub(1) } else { 0 });
    Vec::new()
}

/// Moves the cursor, or the lines where there is none.
pub(super) fn move_by(session: &mut Session, by: isize) -> Vec<Effect> {
    if session.context() == Context::Instruction {
        return scroll_by(session, by);
    }
    let rows = rows::page(session).len();
    let items = if rows == 0 { document::items(session) } else { 0 };
    let count = rows.max(items);
    if count == 0 {
        return scroll_by(session, by);
    }
    session.cursor = Some(match session.cursor {
        None => 0,
        Some(row) => row.saturating_add_signed(by).min(count - 1),
    });
    Vec::new()
}

/// Moves the cursor over the drawing.
pub(super) fn move_across(session: &mut Session, toward: Toward) -> Vec<Effect> {
    if let Some((page, row)) = body::step(session, toward) {
        session.page = page;
        session.cursor = Some(row);
    }
    Vec::new()
}

/// Moves the lines of a document.
fn scroll_by(session: &mut Session, by: isize) -> Vec<Effect> {
    let Extent { lines, height, .. } = session.extent;
    session.scroll = session.scroll.saturating_add_signed(by).min(lines.saturating_sub(height));
    session.cursor = None;
    Vec::new()
}

/// How many lines a page moves by.
fn page_height(session: &Session) -> isize {
    isize::try_from(session.extent.height.saturating_sub(1).max(1)).unwrap_or(1)
}

/// Turns to the question that would settle most; never before the danger signs are done with.
pub(super) fn turn_to_telling(session: &mut Session) -> Vec<Effect> {
    if matches!(&session.exam.place, Place::List(list) if *list == session.protocol.roles.danger_signs) {
        session.notice = Some(notice::signs_first().into());
        return Vec::new();
    }
    let entry = match session.telling {
        None => {
            session.notice = Some(notice::nothing_settles().into());
            return Vec::new();
        }
        Some(telling) if session.stands_at(telling) && session.face == Face::Exam => {
            session.notice = Some(notice::this_settles().into());
            return Vec::new();
        }
        Some(Telling::Wounds) => Entry::Went(session.exam.wounds_spot()),
        Some(Telling::Question(asked)) => match session.protocol.ask(asked.question).list {
            Some(list) => Entry::Opened(session.protocol.sign_list(list).id.clone()),
            None => Entry::Went(Some(session.exam.spot(asked))),
        },
    };
    session.face = Face::Exam;
    record(session, vec![entry])
}
