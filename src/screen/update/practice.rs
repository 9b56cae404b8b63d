//! A practice go: the novice chooses steps, deeds and a verdict before the program shows its own.

use super::birds::Writing;
use super::{Effect, end_instruction, overlay, record};
use crate::content::lessons;
use crate::exam::Place;
use crate::finding::log::{self, Entry, Stamped};
use crate::phrase::{Text, lesson as phrase};
use crate::practice::{Deed, Given, Mark, Script, Trial, Wanted, compare, debrief, draw};
use crate::protocol::question::Step;
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::table::At;
use crate::screen::model::{Face, Model, Overlay, Page};
use crate::screen::practice::{Pairing, Practice};
use chrono::TimeDelta;
use std::sync::Arc;

/// How much time one key skips. Minutes.
const SKIP: i64 = 5;

/// What a row of practice stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Practising {
    /// Writes who practises.
    Who,
    /// Turns reading aloud on or off.
    Aloud,
    /// Shows the group's goes.
    Group,
    /// Begins a lesson.
    Lesson(usize),
    /// Begins with a bird drawn by chance.
    Drawn,
    /// Begins an examination of a real bird by two people.
    Pair,
    /// Does something to the bird.
    Do(ActionAt),
    /// Goes on without doing anything more.
    GoOn,
    /// Gives a verdict.
    Judge,
    /// Gives one scale of it.
    Need(Need),
    /// Gives one scale of it.
    Humane(Humane),
    /// Gives one scale of it.
    Authority(Authority),
    /// Ends one of the two examinations of a pair.
    HandOver,
}

/// Does what a row of practice stands for.
pub(super) fn act(model: &mut Model, what: Practising) -> Vec<Effect> {
    match what {
        Practising::Who => super::birds::write(model, Writing::Novice),
        Practising::Aloud => {
            if let Some(practice) = &mut model.practice {
                practice.aloud = !practice.aloud;
            }
            Vec::new()
        }
        Practising::Group => overlay(model, Overlay::Page(Page::Group)),
        Practising::Lesson(at) => {
            let script = model.practice.as_ref().and_then(|practice| practice.lessons.get(at)).cloned();
            script.map_or_else(Vec::new, |script| begin(model, script))
        }
        Practising::Drawn => drawn(model),
        Practising::Pair => pair(model),
        Practising::Do(action) => deed(model, action),
        Practising::GoOn => go_on(model),
        Practising::Judge => judge(model),
        Practising::Need(need) => give(model, |given| given.need = Some(need)),
        Practising::Humane(humane) => give(model, |given| given.humane = Some(humane)),
        Practising::Authority(authority) => give(model, |given| given.authority = Some(authority)),
        Practising::HandOver => hand_over(model),
    }
}

/// Begins a go: her story, and the choice of what to look at first.
pub fn begin(model: &mut Model, script: Arc<Script>) -> Vec<Effect> {
    afresh(model);
    let now = model.now;
    if let Some(practice) = &mut model.practice {
        practice.trial = Some(Trial::begin(script, practice.novice.clone(), now));
        (practice.step, practice.debrief, practice.pair) = (None, None, None);
    }
    model.overlays = vec![Overlay::Map(None)];
    Vec::new()
}

fn afresh(model: &mut Model) {
    // What was skipped in the last go is no longer ahead.
    model.now -= model.practice.as_ref().map_or_else(TimeDelta::zero, Practice::skipped);
    model.log.clear();
    model.give_up_entering();
    model.face = Face::Exam;
    model.overlays.clear();
    model.work_out();
    model.look_afresh();
}

/// A bird nobody has seen yet: the moment is the number she is drawn with.
fn drawn(model: &mut Model) -> Vec<Effect> {
    let seed = u64::try_from(model.now.timestamp_millis()).unwrap_or_default();
    match draw(model.protocol, seed, Wanted::default()) {
        Ok(drawn) => {
            let told = lessons::told(model.protocol, &drawn, &|text| model.reader().say(text));
            begin(model, Arc::new(drawn.said(told)))
        }
        Err(error) => {
            model.notice = Some(lessons::undrawn(&error).into());
            Vec::new()
        }
    }
}

/// Two people look at a real bird, each without knowing what the other says.
fn pair(model: &mut Model) -> Vec<Effect> {
    afresh(model);
    if let Some(practice) = &mut model.practice {
        (practice.trial, practice.debrief, practice.pair) = (None, None, Some(Pairing::default()));
    }
    model.notice = Some(phrase::novice_first().into());
    Vec::new()
}

/// Opens what can be done to her.
pub(super) fn open_deeds(model: &mut Model) -> Vec<Effect> {
    if model.practice.as_ref().is_some_and(|practice| practice.on().is_some()) {
        return overlay(model, Overlay::Deeds);
    }
    model.notice = Some(phrase::real_bird().into());
    Vec::new()
}

/// Does something to her, and tells what is seen of it.
fn deed(model: &mut Model, action: ActionAt) -> Vec<Effect> {
    let act = model.protocol.action(action);
    let before = turned(model);
    let now = model.now;
    if let Some(trial) = model.practice.as_mut().and_then(|practice| practice.trial.as_mut()) {
        trial.deeds.push(Deed { at: now, action: act.id.clone() });
    }
    let seen = newly(model, before);
    let done = phrase::deed_done(Text::going_on(Text::quoted(&act.say))).into();
    model.look_afresh();
    model.notice = Some(Text::row([done].into_iter().chain(seen)));
    Vec::new()
}

/// How many changes have come.
fn turned(model: &Model) -> usize {
    crate::screen::practice::course(model).map_or(0, |(_, course)| course.turned.len())
}

/// What is seen of the changes that came since.
fn newly(model: &Model, before: usize) -> Vec<Text> {
    crate::screen::practice::course(model).map_or_else(Vec::new, |(_, course)| {
        course.turned.iter().skip(before).map(|(_, turn)| Text::quoted(&turn.shows)).collect()
    })
}

/// Goes on from what can be done.
fn go_on(model: &mut Model) -> Vec<Effect> {
    model.overlays.retain(|overlay| *overlay != Overlay::Deeds);
    model.look_afresh();
    if matches!(model.exam.place, Place::Instruction(..)) {
        return end_instruction(model);
    }
    after(model, None);
    Vec::new()
}

/// Skips some time.
pub(super) fn later(model: &mut Model) -> Vec<Effect> {
    let before = turned(model);
    let skip = TimeDelta::minutes(SKIP);
    let Some(trial) = model.practice.as_mut().and_then(|practice| practice.trial.as_mut()) else { return Vec::new() };
    trial.skipped += skip;
    model.now += skip;
    model.ticked = model.now;
    let seen = newly(model, before);
    let seen = if seen.is_empty() { vec![phrase::nothing_new().into()] } else { seen };
    model.notice = Some(Text::row([phrase::later().into()].into_iter().chain(seen)));
    Vec::new()
}

/// Asks for the verdict, scale by scale; in a pair, ends this one's examination.
pub(super) fn judge(model: &mut Model) -> Vec<Effect> {
    let paired = model.practice.as_ref().is_some_and(|practice| practice.pair.is_some());
    overlay(model, if paired { Overlay::HandOver } else { Overlay::Judging })
}

fn give(model: &mut Model, take: impl Fn(&mut Given)) -> Vec<Effect> {
    let now = model.now;
    let Some(practice) = &mut model.practice else { return Vec::new() };
    let Some(trial) = &mut practice.trial else { return Vec::new() };
    take(&mut trial.given);
    if trial.given.need.is_none() || trial.given.humane.is_none() || trial.given.authority.is_none() {
        model.look_afresh();
        return Vec::new();
    }
    trial.ended = Some(now);
    let told = debrief(model.protocol, trial, &model.log, now);
    let mark = Mark::of(model.protocol, trial, &told);
    practice.marks.push(mark.clone());
    practice.debrief = Some(told);
    model.overlays = vec![Overlay::Lessons, Overlay::Page(Page::Debrief)];
    model.look_afresh();
    vec![Effect::KeepMark(Box::new(mark))]
}

/// The novice's examination is over, or the mentor's.
fn hand_over(model: &mut Model) -> Vec<Effect> {
    let log = model.log.clone();
    let now = model.now;
    let protocol = model.protocol;
    let Some(pairing) = model.practice.as_mut().and_then(|practice| practice.pair.as_mut()) else { return Vec::new() };
    let findings = |log: &[Stamped]| log::findings(&log::standing(log));
    if let Some(first) = &pairing.first {
        pairing.pair = Some(compare(protocol, &findings(first), &findings(&log), now));
        model.overlays = vec![Overlay::Lessons, Overlay::Page(Page::Agreement)];
        model.look_afresh();
        return Vec::new();
    }
    pairing.first = Some(log);
    afresh(model);
    model.notice = Some(phrase::mentor_now().into());
    Vec::new()
}

/// After something was said: what comes next is the novice's choice.
pub(super) fn after(model: &mut Model, before: Option<At<Step>>) {
    let Some(practice) = &model.practice else { return };
    let paired = practice.pair.is_some();
    let on = practice.on().is_some() || paired;
    if !on || !model.overlays.is_empty() {
        return;
    }
    if paired {
        if model.exam.place == Place::Done {
            model.overlays.push(Overlay::HandOver);
        }
        return;
    }
    match &model.exam.place {
        Place::Instruction(at, _) if *at == model.protocol.roles.rest => {}
        Place::Instruction(..) => model.overlays.push(Overlay::Deeds),
        Place::Done => model.overlays.push(Overlay::Map(None)),
        Place::Ask(_) | Place::List(_) | Place::Wounds => stay_in_step(model, before),
    }
}

/// Asks on in the step that was chosen; where nothing of it is left, which one comes next is chosen.
fn stay_in_step(model: &mut Model, before: Option<At<Step>>) {
    let step = model.practice.as_ref().and_then(|practice| practice.step).or(before);
    let (Some(step), false) = (step, model.exam.turned) else { return };
    if model.exam.step() == Some(step) {
        return;
    }
    if let Some(entry) = model.exam.first_waiting(step) {
        record(model, vec![entry]);
        return;
    }
    if let Some(practice) = &mut model.practice {
        practice.step = None;
    }
    model.overlays.push(Overlay::Map(None));
}

/// Turns to a step the novice chose; false where nothing of it waits.
pub(super) fn turn_to_step(model: &mut Model, step: At<Step>) -> bool {
    let Some(entry) = model.exam.first_waiting(step) else { return false };
    if let Some(practice) = &mut model.practice {
        practice.step = Some(step);
    }
    model.overlays.clear();
    record(model, vec![entry]);
    true
}

/// What an entry that takes something back means for the step that was chosen.
pub(super) fn follow_back(model: &mut Model) {
    let step = model.exam.step();
    if let Some(practice) = &mut model.practice {
        practice.step = step;
    }
}

/// Whether the last thing said was taken back.
pub(super) fn took_back(model: &Model) -> bool {
    matches!(model.log.last(), Some(Stamped { entry: Entry::TookBack, .. }))
}
