//! The rows of a bird's case, of the list of all birds, and of the ways a case ends.

use super::{Meaning, Row, row};
use crate::days::due::Fate;
use crate::exam::Place;
use crate::finding::log::Outcome;
use crate::finding::particular::Particular;
use crate::handover::days::day;
use crate::handover::document::upper_first;
use crate::ledger::{Covered, State};
use crate::protocol::whom::Whom;
use crate::screen::model::Model;
use crate::screen::update::{Doing, Writing};

/// What can be done with this bird's case.
pub(super) fn case(model: &Model) -> Vec<Row> {
    let due = model.due.with(Fate::DueNow).next().is_some();
    let look = match (model.days.looking(), due) {
        (true, _) => "go on with the look",
        (false, true) => "look at her now: it is due",
        (false, false) => "look at her again now",
    };
    let name = match model.days.name.as_str() {
        "" => "give her a name".to_owned(),
        name => format!("her name: {name}"),
    };
    let away = model.days.archived || model.days.end.is_some();
    // An examination that was left open is gone on with; looking again is offered beside it.
    let unfinished = (!model.exam.is_look() && model.exam.place != Place::Done)
        .then(|| row("go on with the examination", false, doing(Doing::GoOn)));
    let look =
        if model.days.looking() { row(look, false, doing(Doing::GoOn)) } else { row(look, due, doing(Doing::Look)) };
    let end = row("how it ended", model.days.end.is_some(), doing(Doing::End));
    let put_away = row(if away { "open the case again" } else { "put her case away" }, false, doing(Doing::PutAway));
    let days = row("her days: looks, weights, wounds", false, doing(Doing::Days));
    let said = row("write down what a vet said", false, doing(Doing::Write(Writing::VetSaid)));
    let named = row(name, false, doing(Doing::Write(Writing::Name)));
    let all = row("all birds", false, doing(Doing::All));
    let over = row("hand her over: the sheet", false, doing(Doing::HandOver));
    let asked = row("what a vet will ask", !model.days.noted.is_empty(), doing(Doing::Particulars));
    let rows =
        [look, days, said, named, end, over, asked, put_away, all, row("a new bird", false, doing(Doing::NewBird))];
    unfinished.into_iter().chain(rows).collect()
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

/// The list of all birds; those due first.
pub(super) fn flock(model: &Model) -> Vec<Row> {
    let filter = &model.flock.filter;
    let letters = match filter.text.as_str() {
        "" => "find by letters".to_owned(),
        text => format!("find by letters: {text}"),
    };
    let closed = if filter.closed { "closed ones too: shown" } else { "closed ones too" };
    let tools = [
        row("a new bird", false, doing(Doing::NewBird)),
        row(letters, !filter.text.is_empty(), doing(Doing::Write(Writing::Letters))),
        row(closed, filter.closed, doing(Doing::ShowClosed)),
    ];
    let cases = model.flock.cases.iter();
    tools
        .into_iter()
        .chain(cases.map(|case| row(line(model, case), false, doing(Doing::Open(case.id.clone())))))
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
    let waits = model.flock.waiting.iter().find(|waiting| waiting.case == case.id);
    let missed = match waits.map_or(0, |waiting| waiting.missed) {
        0 => String::new(),
        missed => format!(", {missed} missed"),
    };
    let due = match cover.due {
        Some(due) if due <= model.now => format!("LOOK NOW, due {}{missed}; ", day(model.zone, due)),
        Some(due) => format!("look {}; ", day(model.zone, due)),
        None => String::new(),
    };
    let state = match (cover.archived, cover.state) {
        (true, _) => "; put away".to_owned(),
        (false, State::Open) => String::new(),
        (false, ended @ State::Closed(_)) => format!("; {}", ended.words()),
    };
    format!("{bird}: {due}{}{state}", cover.need)
}

/// The ways a case can end.
pub(super) fn outcomes() -> Vec<Row> {
    let of = |outcome: Outcome| row(upper_first(outcome.words()), false, doing(Doing::Write(Writing::Proved(outcome))));
    Outcome::ALL.into_iter().map(of).collect()
}

/// Two windows went on with one bird.
pub(super) fn parted(model: &Model) -> Vec<Row> {
    let theirs = model.flock.parted.iter();
    let own = row("with what was said here, as a bird of its own", false, doing(Doing::Keep));
    let other = theirs.map(|id| row("with what the other window kept", false, doing(Doing::Open(id.clone()))));
    std::iter::once(own).chain(other).collect()
}
