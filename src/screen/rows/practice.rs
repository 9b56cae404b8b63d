//! The rows of practice: the lessons, what can be done to the bird, and the scales of a verdict of one's own.

use super::{Meaning, Row, row};
use crate::content::document::upper_first;
use crate::finding::About;
use crate::practice::{Script, due};
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::screen::model::Model;
use crate::screen::practice::Practice;
use crate::screen::update::Practising;
use std::collections::BTreeMap;
use std::sync::Arc;

fn practising(what: Practising) -> Meaning {
    Meaning::Practice(what)
}

/// Who practises, the ways to practise, and the lessons: those due first, then those not tried yet.
pub(super) fn lessons(model: &Model) -> Vec<Row> {
    let Some(practice) = &model.practice else { return Vec::new() };
    let who = match practice.novice.as_str() {
        "" => "who practises?".to_owned(),
        name => format!("who practises: {name}"),
    };
    let aloud = if practice.aloud { "a mentor reads aloud: on" } else { "a mentor reads aloud: off" };
    let mut rows = vec![
        row(who, false, practising(Practising::Who)),
        row(aloud, practice.aloud, practising(Practising::Aloud)),
        row("a bird drawn by chance", false, practising(Practising::Drawn)),
        row("two of you, one real bird", false, practising(Practising::Pair)),
    ];
    if !practice.marks.is_empty() {
        rows.push(row("how it goes: the whole group", false, practising(Practising::Group)));
    }
    let ranks = ranks(model, practice);
    let mut order: Vec<(usize, &Arc<Script>)> = practice.lessons.iter().enumerate().collect();
    order.sort_by_key(|(_, script)| ranks.get(script.name.as_str()).copied().unwrap_or(Rank::New));
    rows.extend(order.into_iter().filter_map(|(at, script)| {
        let lesson = script.lesson()?;
        let rank = match ranks.get(script.name.as_str()) {
            Some(Rank::Due) => ", due again",
            Some(Rank::Later) => ", done",
            Some(Rank::New) | None => "",
        };
        let asked = model.protocol.kind_question();
        let kind = script.findings.answer(About::Bird, asked.id.as_str());
        let kind = kind.map(|said| asked.words(&said.statement.answer));
        let label = format!(
            "{}, {} ({}{rank})",
            lesson.name,
            kind.unwrap_or_default(),
            crate::words::english(crate::content::lessons::grade(lesson.level))
        );
        Some(row(label, false, practising(Practising::Lesson(at))))
    }));
    rows
}

/// In which order lessons stand.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    Due,
    New,
    Later,
}

fn ranks<'m>(model: &'m Model, practice: &'m Practice) -> BTreeMap<String, Rank> {
    let due = due(&practice.marks, &practice.novice);
    // As of the start: no line moves under the hand because time goes by.
    due.into_iter().map(|due| (due.bird, if due.at <= model.since { Rank::Due } else { Rank::Later })).collect()
}

/// What can be done to her; the last row goes on.
pub(super) fn deeds(model: &Model) -> Vec<Row> {
    let Some(trial) = model.practice.as_ref().and_then(Practice::on) else { return Vec::new() };
    let done = |at: ActionAt| {
        let id = &model.protocol.action(at).id;
        trial.deeds.iter().any(|deed| deed.action == *id)
    };
    let offered = trial.offered(model.protocol);
    let rows =
        offered.into_iter().map(|at| row(&model.protocol.action(at).say, done(at), practising(Practising::Do(at))));
    rows.chain([row("nothing more: go on looking", false, practising(Practising::GoOn))]).collect()
}

/// The rungs of the scale that is asked for next.
pub(super) fn judging(model: &Model) -> Vec<Row> {
    let Some(trial) = model.practice.as_ref().and_then(|practice| practice.trial.as_ref()) else { return Vec::new() };
    let rung = |words: &str, what| row(upper_first(words), false, practising(what));
    match (trial.given.need, trial.given.humane) {
        (None, _) => Need::ALL.into_iter().map(|need| rung(need.words(), Practising::Need(need))).collect(),
        (Some(_), None) => Humane::ALL.into_iter().map(|end| rung(end.words(), Practising::Humane(end))).collect(),
        (Some(_), Some(_)) => {
            Authority::ALL.into_iter().map(|call| rung(call.words(), Practising::Authority(call))).collect()
        }
    }
}

/// Ends one of the two examinations of a pair.
pub(super) fn hand_over(model: &Model) -> Vec<Row> {
    let first = model.practice.as_ref().and_then(|practice| practice.pair.as_ref()).is_some_and(|p| p.first.is_none());
    let label = if first { "done: now the mentor looks" } else { "done: compare" };
    vec![row(label, false, practising(Practising::HandOver))]
}

/// The row below the steps that gives a verdict.
pub(super) fn enough() -> Row {
    row("I have seen enough: my verdict", false, practising(Practising::Judge))
}
