//! The rows of practice: the lessons, what can be done to the bird, and the scales of a verdict of one's own.

use crate::content::lessons::grade;
use crate::content::{answers, terms};
use crate::finding::About;
use crate::phrase::{Phrase, Text, lesson as phrase};
use crate::practice::{Script, due};
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::session::practice::Practice;
use crate::session::{Session, clocks};
use crate::view::line::{Row, row};
use crate::view::meaning::Meaning;
use crate::view::meaning::Practising;
use std::collections::BTreeMap;
use std::sync::Arc;

fn practising(what: Practising) -> Meaning {
    Meaning::Practice(what)
}

/// Who practises, the ways to practise, and the lessons: those due first, then those not tried yet.
pub(super) fn lessons(session: &Session) -> Vec<Row> {
    let Some(practice) = &session.practice else { return Vec::new() };
    let who = match practice.novice.as_str() {
        "" => phrase::who(),
        name => phrase::who_is(Text::typed(name)),
    };
    let aloud = if practice.aloud { phrase::aloud_on() } else { phrase::aloud_off() };
    let mut rows = vec![
        row(who, false, practising(Practising::Who)),
        row(aloud, practice.aloud, practising(Practising::Aloud)),
        row(phrase::drawn(), false, practising(Practising::Drawn)),
        row(phrase::pair(), false, practising(Practising::Pair)),
    ];
    if !practice.marks.is_empty() {
        rows.push(row(phrase::group(), false, practising(Practising::Group)));
    }
    let ranks = ranks(session, practice);
    let mut order: Vec<(usize, &Arc<Script>)> = practice.lessons.iter().enumerate().collect();
    order.sort_by_key(|(_, script)| ranks.get(script.name.as_str()).copied().unwrap_or(Rank::New));
    rows.extend(order.into_iter().filter_map(|(at, script)| {
        let lesson = script.lesson()?;
        let rank = match ranks.get(script.name.as_str()) {
            Some(Rank::Due) => Some(phrase::due_again()),
            Some(Rank::Later) => Some(phrase::done()),
            Some(Rank::New) | None => None,
        };
        let asked = session.protocol.kind_question();
        let kind = script.findings.answer(About::Bird, asked.id.as_str());
        let kind = kind.map_or_else(Text::default, |said| answers::of(asked, &said.statement.answer));
        let level = Text::from(grade(lesson.level));
        let level = Text::list([level].into_iter().chain(rank.map(Text::from)));
        let label = phrase::lesson(Text::quoted(&lesson.name), kind, level);
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

fn ranks<'m>(session: &'m Session, practice: &'m Practice) -> BTreeMap<String, Rank> {
    let due = due(&practice.marks, &practice.novice);
    // As of the start: no line moves under the hand because time goes by.
    due.into_iter().map(|due| (due.bird, if due.at <= session.since { Rank::Due } else { Rank::Later })).collect()
}

/// What can be done to her; the last row goes on.
pub(super) fn deeds(session: &Session) -> Vec<Row> {
    let Some(trial) = session.practice.as_ref().and_then(Practice::on) else { return Vec::new() };
    let done = |at: ActionAt| {
        let id = &session.protocol.action(at).id;
        trial.deeds.iter().any(|deed| deed.action == *id)
    };
    let asked = clocks::showing(session).map_or(&[][..], |instruction| instruction.acts.as_slice());
    let offered = trial.offered(session.protocol, asked);
    let say = |at: ActionAt| Text::quoted(&session.protocol.action(at).say);
    let rows = offered.into_iter().map(|at| row(say(at), done(at), practising(Practising::Do(at))));
    rows.chain([row(phrase::nothing_more(), false, practising(Practising::GoOn))]).collect()
}

/// The rungs of the scale that is asked for next.
pub(super) fn judging(session: &Session) -> Vec<Row> {
    let Some(trial) = session.practice.as_ref().and_then(|practice| practice.trial.as_ref()) else { return Vec::new() };
    let rung = |words: Phrase, what| row(Text::opening(words), false, practising(what));
    match (trial.given.need, trial.given.humane) {
        (None, _) => Need::ALL.into_iter().map(|need| rung(terms::need(need, false), Practising::Need(need))).collect(),
        (Some(_), None) => {
            Humane::ALL.into_iter().map(|end| rung(terms::humane(end), Practising::Humane(end))).collect()
        }
        (Some(_), Some(_)) => {
            Authority::ALL.into_iter().map(|call| rung(terms::authority(call), Practising::Authority(call))).collect()
        }
    }
}

/// Ends one of the two examinations of a pair.
pub(super) fn hand_over(session: &Session) -> Vec<Row> {
    let first =
        session.practice.as_ref().and_then(|practice| practice.pair.as_ref()).is_some_and(|p| p.first.is_none());
    let label = if first { phrase::now_the_mentor() } else { phrase::compare() };
    vec![row(label, false, practising(Practising::HandOver))]
}

/// The row below the steps that gives a verdict.
pub(super) fn enough() -> Row {
    row(phrase::enough(), false, practising(Practising::Judge))
}
