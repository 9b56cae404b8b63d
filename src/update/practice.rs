//! A practice go: the novice chooses steps, deeds and a verdict before the program shows its own.

use super::card::end_instruction;
use super::opening::overlay;
use super::record::{self, record};
use super::traffic::Effect;
use crate::content::lessons;
use crate::exam::Place;
use crate::finding::log::{self, Stamped};
use crate::phrase::{Text, lesson as phrase};
use crate::practice::{Deed, Given, Mark, Script, Trial, Wanted, compare, debrief, draw};
use crate::protocol::question::Step;
use crate::protocol::rule::ActionAt;
use crate::protocol::table::At;
use crate::session::practice::{Pairing, Practice};
use crate::session::writing::Writing;
use crate::session::{Face, Overlay, Page, Session};
use crate::view::meaning::Practising;
use chrono::TimeDelta;
use std::sync::Arc;

/// How much time one key skips. Minutes.
const SKIP: i64 = 5;

/// Does what a row of practice stands for.
pub(super) fn act(session: &mut Session, what: Practising) -> Vec<Effect> {
    match what {
        Practising::Who => super::birds::write(session, Writing::Novice),
        Practising::Aloud => {
            if let Some(practice) = &mut session.practice {
                practice.aloud = !practice.aloud;
            }
            Vec::new()
        }
        Practising::Group => overlay(session, Overlay::Page(Page::Group)),
        Practising::Lesson(at) => {
            let script = session.practice.as_ref().and_then(|practice| practice.lessons.get(at)).cloned();
            script.map_or_else(Vec::new, |script| begin(session, script))
        }
        Practising::Drawn => drawn(session),
        Practising::Pair => pair(session),
        Practising::Do(action) => deed(session, action),
        Practising::GoOn => go_on(session),
        Practising::Judge => judge(session),
        Practising::Need(need) => give(session, |given| given.need = Some(need)),
        Practising::Humane(humane) => give(session, |given| given.humane = Some(humane)),
        Practising::Authority(authority) => give(session, |given| given.authority = Some(authority)),
        Practising::HandOver => hand_over(session),
    }
}

/// Begins a go: her story, and the choice of what to look at first.
pub fn begin(session: &mut Session, script: Arc<Script>) -> Vec<Effect> {
    afresh(session);
    let now = session.now;
    if let Some(practice) = &mut session.practice {
        practice.trial = Some(Trial::begin(script, practice.novice.clone(), now));
        (practice.step, practice.debrief, practice.pair) = (None, None, None);
    }
    session.overlays = vec![Overlay::Map(None)];
    Vec::new()
}

fn afresh(session: &mut Session) {
    // What was skipped in the last go is no longer ahead.
    session.now -= session.practice.as_ref().map_or_else(TimeDelta::zero, Practice::skipped);
    session.log.clear();
    session.give_up_entering();
    session.face = Face::Exam;
    session.overlays.clear();
    session.work_out();
    session.look_afresh();
}

/// A bird nobody has seen yet: the moment is the number she is drawn with.
fn drawn(session: &mut Session) -> Vec<Effect> {
    let seed = u64::try_from(session.now.timestamp_millis()).unwrap_or_default();
    match draw(session.protocol, seed, Wanted::default()) {
        Ok(drawn) => {
            let told = lessons::told(session.protocol, &drawn, &|text| session.reader().say(text));
            begin(session, Arc::new(drawn.said(told)))
        }
        Err(error) => {
            session.notice = Some(lessons::undrawn(&error).into());
            Vec::new()
        }
    }
}

/// Two people look at a real bird, each without knowing what the other says.
fn pair(session: &mut Session) -> Vec<Effect> {
    afresh(session);
    if let Some(practice) = &mut session.practice {
        (practice.trial, practice.debrief, practice.pair) = (None, None, Some(Pairing::default()));
    }
    session.notice = Some(phrase::novice_first().into());
    Vec::new()
}

/// Opens what can be done to her.
pub(super) fn open_deeds(session: &mut Session) -> Vec<Effect> {
    if session.practice.as_ref().is_some_and(|practice| practice.on().is_some()) {
        return overlay(session, Overlay::Deeds);
    }
    session.notice = Some(phrase::real_bird().into());
    Vec::new()
}

/// Does something to her, and tells what is seen of it.
fn deed(session: &mut Session, action: ActionAt) -> Vec<Effect> {
    let act = session.protocol.action(action);
    let before = turned(session);
    let now = session.now;
    if let Some(trial) = session.practice.as_mut().and_then(|practice| practice.trial.as_mut()) {
        trial.deeds.push(Deed { at: now, action: act.id.clone() });
    }
    let seen = newly(session, before);
    let done = phrase::deed_done(Text::going_on(Text::quoted(&act.say))).into();
    session.look_afresh();
    session.notice = Some(Text::row([done].into_iter().chain(seen)));
    Vec::new()
}

/// How many changes have come.
fn turned(session: &Session) -> usize {
    crate::view::practice_bird::course(session).map_or(0, |(_, course)| course.turned.len())
}

/// What is seen of the changes that came since.
fn newly(session: &Session, before: usize) -> Vec<Text> {
    crate::view::practice_bird::course(session).map_or_else(Vec::new, |(_, course)| {
        course.turned.iter().skip(before).map(|(_, turn)| Text::quoted(&turn.shows)).collect()
    })
}

/// Goes on from what can be done.
fn go_on(session: &mut Session) -> Vec<Effect> {
    session.overlays.retain(|overlay| *overlay != Overlay::Deeds);
    session.look_afresh();
    if matches!(session.exam.place, Place::Instruction(..)) {
        return end_instruction(session);
    }
    record::go_on(session, None);
    Vec::new()
}

/// Skips some time.
pub(super) fn later(session: &mut Session) -> Vec<Effect> {
    let before = turned(session);
    let skip = TimeDelta::minutes(SKIP);
    let Some(trial) = session.practice.as_mut().and_then(|practice| practice.trial.as_mut()) else { return Vec::new() };
    trial.skipped += skip;
    session.now += skip;
    session.ticked = session.now;
    let seen = newly(session, before);
    let seen = if seen.is_empty() { vec![phrase::nothing_new().into()] } else { seen };
    session.notice = Some(Text::row([phrase::later().into()].into_iter().chain(seen)));
    Vec::new()
}

/// Asks for the verdict, scale by scale; in a pair, ends this one's examination.
pub(super) fn judge(session: &mut Session) -> Vec<Effect> {
    let paired = session.practice.as_ref().is_some_and(|practice| practice.pair.is_some());
    overlay(session, if paired { Overlay::HandOver } else { Overlay::Judging })
}

fn give(session: &mut Session, take: impl Fn(&mut Given)) -> Vec<Effect> {
    let now = session.now;
    let Some(practice) = &mut session.practice else { return Vec::new() };
    let Some(trial) = &mut practice.trial else { return Vec::new() };
    take(&mut trial.given);
    if trial.given.need.is_none() || trial.given.humane.is_none() || trial.given.authority.is_none() {
        session.look_afresh();
        return Vec::new();
    }
    trial.ended = Some(now);
    let told = debrief(session.protocol, trial, &session.log, now);
    let mark = Mark::of(session.protocol, trial, &told);
    practice.marks.push(mark.clone());
    practice.debrief = Some(told);
    session.overlays = vec![Overlay::Lessons, Overlay::Page(Page::Debrief)];
    session.look_afresh();
    vec![Effect::KeepMark(Box::new(mark))]
}

/// The novice's examination is over, or the mentor's.
fn hand_over(session: &mut Session) -> Vec<Effect> {
    let log = session.log.clone();
    let now = session.now;
    let protocol = session.protocol;
    let Some(pairing) = session.practice.as_mut().and_then(|practice| practice.pair.as_mut()) else {
        return Vec::new();
    };
    let findings = |log: &[Stamped]| log::findings(&log::standing(log));
    if let Some(first) = &pairing.first {
        pairing.pair = Some(compare(protocol, &findings(first), &findings(&log), now));
        session.overlays = vec![Overlay::Lessons, Overlay::Page(Page::Agreement)];
        session.look_afresh();
        return Vec::new();
    }
    pairing.first = Some(log);
    afresh(session);
    session.notice = Some(phrase::mentor_now().into());
    Vec::new()
}

/// Turns to a step the novice chose; false where nothing of it waits.
pub(super) fn turn_to_step(session: &mut Session, step: At<Step>) -> bool {
    let Some(entry) = session.exam.first_waiting(step) else { return false };
    if let Some(practice) = &mut session.practice {
        practice.step = Some(step);
    }
    session.overlays.clear();
    record(session, vec![entry]);
    true
}
