//! Cards of the course: ticking lines off, and turning from card to card.

use super::traffic::Effect;
use super::{open, record, timing};
use crate::content::course::{CardAct, CourseCard, Does};
use crate::days::due;
use crate::finding::log::{Entry, ticked};
use crate::phrase::{Phrase, Text, clock as told, course as phrase};
use crate::protocol::scale::Need;
use crate::screen::model::{Face, Model};
use crate::screen::pane::clock;
use crate::view::card;
use chrono::{DateTime, Utc};

/// Opens the card that lies open; from a card all of the plan.
pub(super) fn show(model: &mut Model) -> Vec<Effect> {
    model.turned_card = None;
    let face = if model.shown() == Face::Course { Face::Plan } else { Face::Course };
    open(model, face)
}

/// Ticks the next open line of the card off; where all is done, turns to the card on which something is not.
pub(super) fn tick_next(model: &mut Model) -> Vec<Effect> {
    let at = model.card_at(&model.cards);
    let done = ticked(&model.log);
    let open = model.cards.get(at).and_then(|card| card::first_open(card, model.protocol, &done));
    if let Some(line) = open {
        return tick(model, line);
    }
    // What is never done has no line to tick: read, it gives way to what comes next.
    model.turned_card = bare_after(model, at);
    model.notice = Some(all_done(model).into()).filter(|_| model.card_at(&model.cards) == at);
    Vec::new()
}

/// Ticks a line off, or takes its tick away. Once the last of a card is ticked, the next card comes.
pub(super) fn tick(model: &mut Model, line: usize) -> Vec<Effect> {
    let at = model.card_at(&model.cards);
    let Some(act) = model.cards.get(at).and_then(|card| card.acts.get(line)) else {
        model.notice = Some(phrase::no_line().into());
        return Vec::new();
    };
    let what = act.does.name(model.protocol);
    let done = !ticked(&model.log).contains_key(&what);
    let left = clock_left(model, &act.does).filter(|_| done);
    if let Some(left) = left.filter(|left| *left > 0) {
        model.notice = Some(told::still_to_go(clock::minutes(left)).into());
        return Vec::new();
    }
    // The card stays under the eye as long as something on it is open.
    let ticked_off = Entry::Ticked { what, done };
    if let Some(asks) = left.and_then(|_| timing::over(model)) {
        model.face = Face::Exam;
        return record(model, [ticked_off].into_iter().chain(asks).collect());
    }
    let effects = record(model, vec![ticked_off]);
    // It may have been the last that could not wait: then it is time to go.
    if model.face != Face::Course {
        return effects;
    }
    let now = ticked(&model.log);
    let left = model.cards.get(at).and_then(|card| card::first_open(card, model.protocol, &now));
    model.turned_card = left.map(|_| at).or_else(|| bare_after(model, at));
    if left.is_none() {
        let next = model.card_at(&model.cards);
        let heading = model.cards.get(next).filter(|_| next != at).map(CourseCard::heading);
        model.notice = Some(heading.map_or_else(|| all_done(model), phrase::next).into());
    }
    effects
}

/// The seconds left on the clock an act goes by, while one stands, below zero once it is up: by feeling nobody knows when it is done.
fn clock_left(model: &Model, does: &Does) -> Option<i64> {
    let Does::Act(target) = does else { return None };
    let timer = model.timer().filter(|timer| timer.action == model.protocol.action(target.action).id)?;
    Some(timer.left(model.now).num_seconds())
}

/// That all is done; where a vet is to see her at once, that it is time to go.
fn all_done(model: &Model) -> Phrase {
    let goes = model.plan.seen && model.verdict.need.low == Need::Now;
    if goes { phrase::all_done_go() } else { phrase::all_done() }
}

/// What of the cards falls due between two moments: the test of a ban, or a card the clock opens, of this bird or of one who waits.
/// A notice tells it with her name, and what is given back stands on the window's title.
pub(super) fn fall_due(model: &mut Model, before: DateTime<Utc>) -> Option<Phrase> {
    let now = model.now;
    let crossed = |at: &DateTime<Utc>| before < *at && *at <= now;
    let waiting = model.flock.waiting.birds.iter();
    let others = waiting.flat_map(|waiting| waiting.tests.iter().map(|test| (&waiting.bird, test)));
    let others = others.filter(|(_, test)| crossed(&test.at)).map(|(bird, test)| (bird.clone(), test.told()));
    let due: Vec<(Text, Text)> = own_due(model, crossed).into_iter().chain(others).take(TOLD_AT_ONCE).collect();
    let (bird, told) = due.first()?.clone();
    let notices = due.into_iter().map(|(bird, told)| phrase::due(Text::opening(bird), told));
    model.notice = Some(Text::row(notices));
    Some(phrase::title_due(Text::opening(bird), told))
}

/// At most so many that fall due in one moment are told of by name.
const TOLD_AT_ONCE: usize = 3;

/// The same of the bird that lies open; what was ticked off is not due.
fn own_due(model: &Model, crossed: impl Fn(&DateTime<Utc>) -> bool) -> Vec<(Text, Text)> {
    if model.practice.is_some() || model.log.is_empty() || model.days.over().is_some() {
        return Vec::new();
    }
    let done = ticked(&model.log);
    let is_due = |act: &&CardAct| {
        matches!(act.does, Does::Test(_))
            && act.at.as_ref().is_some_and(&crossed)
            && !done.contains_key(&act.does.name(model.protocol))
    };
    let tests = model.cards.iter().flat_map(|card| &card.acts).filter(is_due).map(|act| act.say.clone());
    let opened = model.cards.iter().find(|card| card.opens_at.as_ref().is_some_and(&crossed));
    let opened = opened.and_then(|card| {
        let at = Text::clock_after(card.opens_at?, Some(model.now));
        Some(phrase::opened(at, card.heading()).into())
    });
    let bird = due::bird(model.protocol, &model.log, &model.days);
    tests.chain(opened).map(|told| (bird.clone(), told)).collect()
}

/// The next card, where nothing but bans stands on it: nobody would come by it otherwise.
fn bare_after(model: &Model, at: usize) -> Option<usize> {
    model.cards.get(at + 1).filter(|card| card.acts.is_empty()).map(|_| at + 1)
}

/// Turns so many cards on; from the last to the first.
pub(super) fn turn(model: &mut Model, by: isize) -> Vec<Effect> {
    let at = model.card_at(&model.cards);
    let count = model.cards.len().max(1);
    let to = if by >= 0 { (at + 1) % count } else { (at + count - 1) % count };
    model.look_afresh();
    model.turned_card = Some(to);
    Vec::new()
}
