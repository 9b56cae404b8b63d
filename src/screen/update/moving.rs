//! Moving on: the cursor, the page of rows, the lines of a document, and to the question that settles most.

use super::{Effect, record};
use crate::exam::Place;
use crate::finding::log::Entry;
use crate::phrase::notice;
use crate::prove::Telling;
use crate::screen::keys::{Context, Toward};
use crate::screen::model::{Face, Model};
use crate::screen::{pane, rows};

/// The next page of rows, or the next lines of a document.
pub(super) fn more(model: &mut Model) -> Vec<Effect> {
    let pages = rows::pages(model);
    if pages > 1 {
        model.page = (model.page + 1) % pages;
        model.cursor = None;
        return Vec::new();
    }
    scroll_by(model, page_height(model))
}

/// Moves the cursor, or the lines where there is none.
pub(super) fn move_by(model: &mut Model, by: isize) -> Vec<Effect> {
    if model.context() == Context::Instruction {
        return scroll_by(model, by);
    }
    let rows = rows::page(model).len();
    let items = if rows == 0 { pane::document::items(model) } else { 0 };
    let count = rows.max(items);
    if count == 0 {
        return scroll_by(model, by);
    }
    model.cursor = Some(match model.cursor {
        None => 0,
        Some(row) => row.saturating_add_signed(by).min(count - 1),
    });
    if items > 0 {
        model.scroll = pane::document::scroll_to_cursor(model);
    }
    Vec::new()
}

/// Moves the cursor over the drawing.
pub(super) fn move_across(model: &mut Model, toward: Toward) -> Vec<Effect> {
    if let Some((page, row)) = pane::body::step(model, toward) {
        model.page = page;
        model.cursor = Some(row);
    }
    Vec::new()
}

/// Moves the lines of a document.
pub(super) fn scroll_by(model: &mut Model, by: isize) -> Vec<Effect> {
    let (lines, height) = pane::extent(model);
    model.scroll = model.scroll.saturating_add_signed(by).min(lines.saturating_sub(height));
    model.cursor = None;
    Vec::new()
}

/// How many lines a page moves by.
pub(super) fn page_height(model: &Model) -> isize {
    isize::try_from(pane::extent(model).1.saturating_sub(1).max(1)).unwrap_or(1)
}

/// Turns to the question that would settle most; never before the danger signs are done with.
pub(super) fn turn_to_telling(model: &mut Model) -> Vec<Effect> {
    if matches!(&model.exam.place, Place::List(list) if *list == model.protocol.roles.danger_signs) {
        model.notice = Some(notice::signs_first().into());
        return Vec::new();
    }
    let entry = match model.telling {
        None => {
            model.notice = Some(notice::nothing_settles().into());
            return Vec::new();
        }
        Some(telling) if model.stands_at(telling) && model.face == Face::Exam => {
            model.notice = Some(notice::this_settles().into());
            return Vec::new();
        }
        Some(Telling::Wounds) => Entry::Went(model.exam.wounds_spot()),
        Some(Telling::Question(asked)) => match model.protocol.ask(asked.question).list {
            Some(list) => Entry::Opened(model.protocol.sign_list(list).id.clone()),
            None => Entry::Went(Some(model.exam.spot(asked))),
        },
    };
    model.face = Face::Exam;
    record(model, vec![entry])
}
