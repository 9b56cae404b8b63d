//! Cards of the course: ticking lines off, and turning from card to card.

use super::traffic::Effect;
use super::{open, record};
use crate::content::course::CourseCard;
use crate::finding::log::{Entry, ticked};
use crate::phrase::course as phrase;
use crate::screen::model::{Face, Model};
use crate::view::card;

/// Opens the card that lies open; from a card all of the plan.
pub(super) fn show(model: &mut Model) -> Vec<Effect> {
    model.turned_card = None;
    let face = if model.shown() == Face::Course { Face::Plan } else { Face::Course };
    open(model, face)
}

/// Ticks the next open line of the card off; where all is done, turns to the card on which something is not.
pub(super) fn tick_next(model: &mut Model) -> Vec<Effect> {
    let cards = model.cards();
    let at = model.card_at(&cards);
    let done = ticked(&model.log);
    let open = cards.get(at).and_then(|card| card::first_open(card, model.protocol, &done));
    if let Some(line) = open {
        return tick(model, line);
    }
    model.turned_card = None;
    model.notice = Some(phrase::all_done().into()).filter(|_| model.card_at(&cards) == at);
    Vec::new()
}

/// Ticks a line off, or takes its tick away. Once the last of a card is ticked, the next card comes.
pub(super) fn tick(model: &mut Model, line: usize) -> Vec<Effect> {
    let cards = model.cards();
    let at = model.card_at(&cards);
    let Some(act) = cards.get(at).and_then(|card| card.acts.get(line)) else {
        model.notice = Some(phrase::no_line().into());
        return Vec::new();
    };
    let what = act.does.name(model.protocol);
    let done = !ticked(&model.log).contains_key(&what);
    // The card stays under the eye as long as something on it is open.
    let effects = record(model, vec![Entry::Ticked { what, done }]);
    let now = ticked(&model.log);
    let left = cards.get(at).and_then(|card| card::first_open(card, model.protocol, &now));
    model.turned_card = left.map(|_| at);
    if left.is_none() {
        let next = model.card_at(&cards);
        let heading = cards.get(next).filter(|_| next != at).map(CourseCard::heading);
        model.notice = Some(heading.map_or_else(phrase::all_done, phrase::next).into());
    }
    effects
}

/// Turns so many cards on; from the last to the first.
pub(super) fn turn(model: &mut Model, by: isize) -> Vec<Effect> {
    let cards = model.cards();
    let at = model.card_at(&cards);
    let count = cards.len().max(1);
    let to = if by >= 0 { (at + 1) % count } else { (at + count - 1) % count };
    model.look_afresh();
    model.turned_card = Some(to);
    Vec::new()
}
