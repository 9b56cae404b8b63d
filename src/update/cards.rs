//! Cards of the course: ticking lines off, and turning from card to card.

use super::opening::open;
use super::record::record;
use super::timing;
use super::traffic::Effect;
use crate::content::course::{CardAct, CourseCard, Does};
use crate::days::due;
use crate::finding::log::{Entry, ticked};
use crate::phrase::{Phrase, Text, clock as told, course as phrase};
use crate::protocol::scale::Need;
use crate::session::course::first_open;
use crate::session::{Face, Session};
use crate::view::clock;
use chrono::{DateTime, Utc};

/// Opens the card that lies open; from a card all of the plan.
pub(super) fn show(session: &mut Session) -> Vec<Effect> {
    session.turned_card = None;
    let face = if session.shown() == Face::Course { Face::Plan } else { Face::Course };
    open(session, face)
}

/// Ticks the next open line of the card off; where all is done, turns to the card on which something is not.
pub(super) fn tick_next(session: &mut Session) -> Vec<Effect> {
    let at = session.card_at(&session.cards);
    let done = ticked(&session.log);
    let open = session.cards.get(at).and_then(|card| first_open(card, session.protocol, &done));
    if let Some(line) = open {
        return tick(session, line);
    }
    // What is never done has no line to tick: read, it gives way to what comes next.
    session.turned_card = bare_after(session, at);
    session.notice = Some(all_done(session).into()).filter(|_| session.card_at(&session.cards) == at);
    Vec::new()
}

/// Ticks a line off, or takes its tick away. Once the last of a card is ticked, the next card comes.
pub(super) fn tick(session: &mut Session, line: usize) -> Vec<Effect> {
    let at = session.card_at(&session.cards);
    let Some(act) = session.cards.get(at).and_then(|card| card.acts.get(line)) else {
        session.notice = Some(phrase::no_line().into());
        return Vec::new();
    };
    let what = act.does.name(session.protocol);
    let done = !ticked(&session.log).contains_key(&what);
    let left = clock_left(session, &act.does).filter(|_| done);
    if let Some(left) = left.filter(|left| *left > 0) {
        session.notice = Some(told::still_to_go(clock::minutes(left)).into());
        return Vec::new();
    }
    // The card stays under the eye as long as something on it is open.
    let ticked_off = Entry::Ticked { what, done };
    if let Some(asks) = left.and_then(|_| timing::over(session)) {
        session.face = Face::Exam;
        return record(session, [ticked_off].into_iter().chain(asks).collect());
    }
    let effects = record(session, vec![ticked_off]);
    // It may have been the last that could not wait: then it is time to go.
    if session.face != Face::Course {
        return effects;
    }
    let now = ticked(&session.log);
    let left = session.cards.get(at).and_then(|card| first_open(card, session.protocol, &now));
    session.turned_card = left.map(|_| at).or_else(|| bare_after(session, at));
    if left.is_none() {
        let next = session.card_at(&session.cards);
        let heading = session.cards.get(next).filter(|_| next != at).map(CourseCard::heading);
        session.notice = Some(heading.map_or_else(|| all_done(session), phrase::next).into());
    }
    effects
}

/// The seconds left on the clock an act goes by, while one stands, below zero once it is up: by feeling nobody knows when it is done.
fn clock_left(session: &Session, does: &Does) -> Option<i64> {
    let Does::Act(target) = does else { return None };
    let timer = session.timer().filter(|timer| timer.action == session.protocol.action(target.action).id)?;
    Some(timer.left(session.now).num_seconds())
}

/// That all is done; where a vet is to see her at once, that it is time to go.
fn all_done(session: &Session) -> Phrase {
    let goes = session.plan.seen && session.verdict.need.low == Need::Now;
    if goes { phrase::all_done_go() } else { phrase::all_done() }
}

/// What of the cards falls due between two moments: the test of a ban, or a card the clock opens, of this bird or of one who waits.
/// A notice tells it with her name, and what is given back stands on the window's title.
pub(super) fn fall_due(session: &mut Session, before: DateTime<Utc>) -> Option<Phrase> {
    let now = session.now;
    let crossed = |at: &DateTime<Utc>| before < *at && *at <= now;
    let waiting = session.flock.waiting.birds.iter();
    let others = waiting.flat_map(|waiting| waiting.tests.iter().map(|test| (&waiting.bird, test)));
    let others = others.filter(|(_, test)| crossed(&test.at)).map(|(bird, test)| (bird.clone(), test.told()));
    let due: Vec<(Text, Text)> = own_due(session, crossed).into_iter().chain(others).take(TOLD_AT_ONCE).collect();
    let (bird, told) = due.first()?.clone();
    let notices = due.into_iter().map(|(bird, told)| phrase::due(Text::opening(bird), told));
    session.notice = Some(Text::row(notices));
    Some(phrase::title_due(Text::opening(bird), told))
}

/// At most so many that fall due in one moment are told of by name.
const TOLD_AT_ONCE: usize = 3;

/// The same of the bird that lies open; what was ticked off is not due.
fn own_due(session: &Session, crossed: impl Fn(&DateTime<Utc>) -> bool) -> Vec<(Text, Text)> {
    if session.practice.is_some() || session.log.is_empty() || session.days.over().is_some() {
        return Vec::new();
    }
    let done = ticked(&session.log);
    let is_due = |act: &&CardAct| {
        matches!(act.does, Does::Test(_))
            && act.at.as_ref().is_some_and(&crossed)
            && !done.contains_key(&act.does.name(session.protocol))
    };
    let tests = session.cards.iter().flat_map(|card| &card.acts).filter(is_due).map(|act| act.say.clone());
    let opened = session.cards.iter().find(|card| card.opens_at.as_ref().is_some_and(&crossed));
    let opened = opened.and_then(|card| {
        let at = Text::clock_after(card.opens_at?, Some(session.now));
        Some(phrase::opened(at, card.heading()).into())
    });
    let bird = due::bird(session.protocol, &session.log, &session.days);
    tests.chain(opened).map(|told| (bird.clone(), told)).collect()
}

/// The next card, where nothing but bans stands on it: nobody would come by it otherwise.
fn bare_after(session: &Session, at: usize) -> Option<usize> {
    session.cards.get(at + 1).filter(|card| card.acts.is_empty()).map(|_| at + 1)
}

/// Turns so many cards on; from the last to the first.
pub(super) fn turn(session: &mut Session, by: isize) -> Vec<Effect> {
    let at = session.card_at(&session.cards);
    let count = session.cards.len().max(1);
    let to = if by >= 0 { (at + 1) % count } else { (at + count - 1) % count };
    session.look_afresh();
    session.turned_card = Some(to);
    Vec::new()
}
