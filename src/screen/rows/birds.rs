//! The rows of a bird's case, of the list of all birds, and of the ways a case ends.

use super::{Meaning, Row, row};
use crate::content::days::day;
use crate::content::document::upper_first;
use crate::days::due::Fate;
use crate::exam::Place;
use crate::finding::log::Outcome;
use crate::finding::particular::Particular;
use crate::ledger::{Covered, State};
use crate::protocol::whom::Whom;
use crate::screen::model::Model;
use crate::screen::update::{DeathSeen, Doing, Writing};

/// What can be done with this bird's case. Each line has its own key, whatever can be done with it now: what cannot stands there
/// all the same, faint, and says why.
pub(super) fn case(model: &Model) -> Vec<Row> {
    let over = model.days.over().is_some();
    let away = model.days.archived || model.days.end.is_some();
    let named = match model.days.name.as_str() {
        "" => "give her a name".to_owned(),
        name => format!("her name: {name}"),
    };
    let ended = match &model.days.end {
        Some(end) => format!("how it ended: {}", end.outcome.words()),
        None => "how it ended".to_owned(),
    };
    let begun = model.days.looking() || is_unfinished(model);
    let again = match (over, begun) {
        (true, _) => not_now("begin a new look: not now, her case is closed"),
        (false, true) => row("begin a new look instead", false, doing(Doing::Look)),
        (false, false) => not_now("begin a new look: 1 does, nothing was left open"),
    };
    vec![
        if over { not_now("see to her: not now, her case is closed") } else { see_to_her(model) },
        row("her days: looks, weights, wounds", false, doing(Doing::Days)),
        row("write down what a vet said", false, doing(Doing::Write(Writing::VetSaid))),
        row(named, false, doing(Doing::Write(Writing::Name))),
        row(ended, model.days.end.is_some(), doing(Doing::End)),
        row("hand her over: the sheet", false, doing(Doing::HandOver)),
        row("what a vet will ask", !model.days.noted.is_empty(), doing(Doing::Particulars)),
        row(if away { "open the case again" } else { "put her case away" }, false, doing(Doing::PutAway)),
        again,
    ]
}

/// Whether the first examination was left open.
fn is_unfinished(model: &Model) -> bool {
    !model.exam.is_look() && model.exam.place != Place::Done
}

/// What comes next with her: what was left open is gone on with, else she is looked at.
fn see_to_her(model: &Model) -> Row {
    let due = model.due.with(Fate::DueNow).next().is_some();
    match (model.days.looking(), is_unfinished(model), due) {
        (true, ..) => row("go on with the look", false, doing(Doing::GoOn)),
        (false, true, _) => row("go on with the examination", model.due.examine.is_some(), doing(Doing::GoOn)),
        (false, false, true) => row("look at her now: it is due", true, doing(Doing::Look)),
        (false, false, false) => row("look at her again now", false, doing(Doing::Look)),
    }
}

/// A line that takes no key now, and says why.
fn not_now(label: &str) -> Row {
    Row { faint: true, ..row(label, false, doing(Doing::NotNow)) }
}

/// What a vet will ask that no look at her answers, with what was written down.
pub(super) fn particulars(model: &Model) -> Vec<Row> {
    let of = |what: Particular| {
        let said: Vec<&str> =
            model.days.noted.iter().filter(|noted| noted.what == what).map(|noted| noted.said.as_str()).collect();
        let told = if said.is_empty() { "not written down".to_owned() } else { said.join("; ") };
        row(format!("{}: {told}", what.words()), !said.is_empty(), doing(Doing::Write(Writing::Noted(what))))
    };
    Particular::ALL.into_iter().map(of).collect()
}

/// Whom to call, as far as it is written down.
pub(super) fn contacts(model: &Model) -> Vec<Row> {
    let of = |whom: Whom| {
        let said = model.contacts.of(whom);
        let label = format!("{}: {}", whom.words(), said.unwrap_or("not written down"));
        row(label, said.is_some(), doing(Doing::Write(Writing::Contact(whom))))
    };
    Whom::ALL.into_iter().map(of).collect()
}

/// How many lines stand before the birds in the list: they keep their numbers.
pub const TOOLS: usize = 3;

/// The number a bird is chosen by, as it is typed: none is the beginning of another, none begins as a line before the birds, and
/// none holds a nought, which is no key here. The first three open birds have one figure, the next two, the rest three.
fn number(tag: u32) -> Option<String> {
    let figures = |from: u32, at: u32| from + at / 9 * 10 + at % 9;
    let number = match tag {
        0 | 103.. => return None,
        1..4 => tag + 3,
        4..22 => figures(71, tag - 4),
        22..103 => figures(911, tag - 22),
    };
    Some(number.to_string())
}

/// The list of all birds; those due first.
pub(super) fn flock(model: &Model) -> Vec<Row> {
    let filter = &model.flock.filter;
    let letters = match filter.text.as_str() {
        "" => "find by letters".to_owned(),
        text => format!("find by letters: {text}"),
    };
    let closed = if filter.closed { "closed ones too: shown" } else { "closed ones too" };
    let tools: [Row; TOOLS] = [
        row("a new bird", false, doing(Doing::NewBird)),
        row(letters, !filter.text.is_empty(), doing(Doing::Write(Writing::Letters))),
        row(closed, filter.closed, doing(Doing::ShowClosed)),
    ];
    let cases = model.flock.cases.iter();
    tools
        .into_iter()
        .chain(cases.map(|case| {
            // A bird who bears no number is chosen by the cursor, or found by letters of her name.
            let key = number(case.tag).unwrap_or_else(|| "-".to_owned());
            Row { key: Some(key), ..row(line(model, case), false, doing(Doing::Open(case.id.clone()))) }
        }))
        .collect()
}

fn doing(what: Doing) -> Meaning {
    Meaning::Case(what)
}

/// A case in one line.
fn line(model: &Model, case: &Covered) -> String {
    let cover = &case.cover;
    let bird = match (cover.name.as_str(), cover.kind.as_str()) {
        ("", "") => format!("not told, {}", day(model.zone, case.begun)),
        ("", kind) => format!("{kind}, {}", day(model.zone, case.begun)),
        (name, "") => name.to_owned(),
        (name, kind) => format!("{name}, {kind}"),
    };
    let waits = model.flock.waiting.birds.iter().find(|waiting| waiting.case == case.id);
    let missed = match waits.map_or(0, |waiting| waiting.missed) {
        0 => String::new(),
        missed => format!(", {missed} missed"),
    };
    let due = match cover.due {
        Some(due) if due <= model.now => format!("LOOK NOW, due {}{missed}; ", day(model.zone, due)),
        Some(due) => format!("look {}; ", day(model.zone, due)),
        None => String::new(),
    };
    // How it ended is the first thing told; what it ended is told once.
    match (cover.archived, cover.state) {
        (_, State::Closed(outcome)) if outcome.is_over() => format!("{bird}: {}", outcome.words()),
        (_, ended @ State::Closed(_)) => format!("{bird}: {}; then: {}", ended.words(), cover.need),
        (true, State::Open) => format!("{bird}: put away; {due}{}", cover.need),
        (false, State::Open) => format!("{bird}: {due}{}", cover.need),
    }
}

/// The ways a case can end.
pub(super) fn outcomes() -> Vec<Row> {
    let of = |outcome: Outcome| row(upper_first(outcome.words()), false, doing(Doing::Close(outcome)));
    Outcome::ALL.into_iter().map(of).collect()
}

/// The signs of death, asked before a case is closed so.
///
/// Common practice, our own rule, no source: no breath, no blink when the edge of the eye is touched, limp, and the same at a
/// second look; stiffness is sure; a cold or soaked bird is warmed before anybody says so.
pub(super) fn death() -> Vec<Row> {
    let signs = [
        ("stiff all over: she is dead", DeathSeen::Stiff),
        ("no breath, no blink, limp: seen at two looks", DeathSeen::Twice),
        ("the same, but seen once only", DeathSeen::Once),
        ("she is cold or soaked, and not stiff", DeathSeen::Cold),
        ("one of these is not so, or I cannot tell", DeathSeen::Doubt),
    ];
    signs.into_iter().map(|(label, seen)| row(label, false, doing(Doing::Death(seen)))).collect()
}

/// Two windows went on with one bird.
pub(super) fn parted(model: &Model) -> Vec<Row> {
    let theirs = model.flock.parted.iter();
    let own = row("with what was said here, as a bird of its own", false, doing(Doing::Keep));
    let other = theirs.map(|id| row("with what the other window kept", false, doing(Doing::Open(id.clone()))));
    std::iter::once(own).chain(other).collect()
}
