//! The rows of a bird's case, of the list of all birds, and of the ways a case ends.

use crate::content::particulars;
use crate::content::terms::whom as whom_called;
use crate::days;
use crate::days::due::Fate;
use crate::exam::Place;
use crate::finding::log::Outcome;
use crate::finding::particular::Particular;
use crate::ledger::{Covered, State};
use crate::phrase::{Phrase, Text, birds as phrase, terms};
use crate::protocol::whom::Whom;
use crate::session::Session;
use crate::session::writing::Writing;
use crate::view::line::{ChosenBy, Row, row};
use crate::view::meaning::Meaning;
use crate::view::meaning::{DeathSeen, Doing};

/// What can be done with this bird's case. Each line has its own key, whatever can be done with it now: what cannot stands there
/// all the same, faint, and says why.
pub(super) fn case(session: &Session) -> Vec<Row> {
    let over = session.days.over().is_some();
    let away = session.days.archived || session.days.end.is_some();
    let named = match session.days.name.as_str() {
        "" => phrase::give_name(),
        name => phrase::her_name(Text::typed(name)),
    };
    let ended = match &session.days.end {
        Some(end) => phrase::ended_so(days::outcome(end.outcome)),
        None => phrase::ended(),
    };
    let begun = session.days.looking() || is_unfinished(session);
    let again = match (over, begun) {
        (true, _) => not_now(phrase::no_new_look()),
        (false, true) => row(phrase::new_look(), false, doing(Doing::Look)),
        (false, false) => not_now(phrase::nothing_open()),
    };
    vec![
        if over { not_now(phrase::not_seen_to()) } else { see_to_her(session) },
        row(phrase::her_days(), false, doing(Doing::Days)),
        row(phrase::write_vet_said(), false, doing(Doing::Write(Writing::VetSaid))),
        row(named, false, doing(Doing::Write(Writing::Name))),
        row(ended, session.days.end.is_some(), doing(Doing::End)),
        row(phrase::hand_over(), false, doing(Doing::HandOver)),
        row(phrase::vet_asks(), !session.days.noted.is_empty(), doing(Doing::Particulars)),
        row(if away { phrase::open_again() } else { phrase::put_away() }, false, doing(Doing::PutAway)),
        again,
    ]
}

/// Whether the first examination was left open.
fn is_unfinished(session: &Session) -> bool {
    !session.exam.is_look() && session.exam.place != Place::Done
}

/// What comes next with her: what was left open is gone on with, else she is looked at.
fn see_to_her(session: &Session) -> Row {
    let due = session.due.with(Fate::DueNow).next().is_some();
    match (session.days.looking(), is_unfinished(session), due) {
        (true, ..) => row(phrase::go_on_looking(), false, doing(Doing::GoOn)),
        (false, true, _) => row(phrase::go_on_examining(), session.due.examine.is_some(), doing(Doing::GoOn)),
        (false, false, true) => row(phrase::look_is_due(), true, doing(Doing::Look)),
        (false, false, false) => row(phrase::look_again(), false, doing(Doing::Look)),
    }
}

/// A line that takes no key now, and says why.
fn not_now(label: Phrase) -> Row {
    Row { faint: true, ..row(label, false, doing(Doing::NotNow)) }
}

/// What a vet will ask that no look at her answers, with what was written down.
pub(super) fn particulars(session: &Session) -> Vec<Row> {
    let of = |what: Particular| {
        let noted = session.days.noted.iter().filter(|noted| noted.what == what);
        let said: Vec<Text> = noted.map(|noted| Text::typed(&noted.said)).collect();
        let is_written = !said.is_empty();
        let told = if is_written { Text::Clauses(said) } else { phrase::not_written().into() };
        row(terms::named(particulars::name(what), told), is_written, doing(Doing::Write(Writing::Noted(what))))
    };
    Particular::ALL.into_iter().map(of).collect()
}

/// Whom to call, as far as it is written down.
pub(super) fn contacts(session: &Session) -> Vec<Row> {
    let of = |whom: Whom| {
        let said = session.contacts.of(whom);
        let told = said.map_or_else(|| phrase::not_written().into(), Text::typed);
        row(terms::named(whom_called(whom), told), said.is_some(), doing(Doing::Write(Writing::Contact(whom))))
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
pub(super) fn flock(session: &Session) -> Vec<Row> {
    let filter = &session.flock.filter;
    let letters = match filter.text.as_str() {
        "" => phrase::find(),
        text => phrase::find_by(Text::typed(text)),
    };
    let closed = if filter.closed { phrase::closed_shown() } else { phrase::closed_too() };
    let tools: [Row; TOOLS] = [
        row(phrase::new_bird(), false, doing(Doing::NewBird)),
        row(letters, !filter.text.is_empty(), doing(Doing::Write(Writing::Letters))),
        row(closed, filter.closed, doing(Doing::ShowClosed)),
    ];
    let cases = session.flock.cases.iter();
    tools
        .into_iter()
        .chain(cases.map(|case| {
            // A bird who bears no number is chosen by the cursor, or found by letters of her name.
            let key = number(case.tag).unwrap_or_else(|| "-".to_owned());
            Row { by: ChosenBy::Number(key), ..row(line(session, case), false, doing(Doing::Open(case.id.clone()))) }
        }))
        .collect()
}

fn doing(what: Doing) -> Meaning {
    Meaning::Case(what)
}

/// A case in one line.
fn line(session: &Session, case: &Covered) -> Phrase {
    let cover = &case.cover;
    let bird = match (cover.name.as_str(), cover.kind.as_str()) {
        ("", "") => phrase::not_told(Text::day(case.begun)).into(),
        ("", kind) => Text::list([Text::typed(kind), Text::day(case.begun)]),
        (name, "") => Text::typed(name),
        (name, kind) => Text::list([Text::typed(name), Text::typed(kind)]),
    };
    let waits = session.flock.waiting.birds.iter().find(|waiting| waiting.case == case.id);
    let last = waits.and_then(|waiting| waiting.last);
    let due = cover.due.map(|due| match last {
        _ if due > session.now => phrase::look(Text::day(due)),
        None => phrase::look_now(Text::day(due)),
        Some(last) => phrase::look_now_last(Text::day(due), Text::day(last)),
    });
    let due = due.map(Text::from);
    let need = Text::typed(&cover.need);
    // How it ended is the first thing told; what it ended is told once.
    match (cover.archived, cover.state) {
        (_, State::Closed(outcome)) if outcome.is_over() => terms::named(bird, days::outcome(outcome)),
        (_, State::Closed(outcome)) => phrase::closed_then(bird, days::outcome(outcome), need),
        (true, State::Open) => {
            terms::named(bird, Text::clauses([phrase::is_away().into()].into_iter().chain(due).chain([need])))
        }
        (false, State::Open) => terms::named(bird, Text::clauses(due.into_iter().chain([need]))),
    }
}

/// The ways a case can end.
pub(super) fn outcomes() -> Vec<Row> {
    let of = |outcome: Outcome| row(Text::opening(days::outcome(outcome)), false, doing(Doing::Close(outcome)));
    Outcome::ALL.into_iter().map(of).collect()
}

/// The signs of death, asked before a case is closed so.
///
/// Common practice, our own rule, no source: no breath, no blink when the edge of the eye is touched, limp, and the same at a
/// second look; stiffness is sure; a cold or soaked bird is warmed before anybody says so.
pub(super) fn death() -> Vec<Row> {
    let signs = [
        (phrase::stiff(), DeathSeen::Stiff),
        (phrase::seen_twice(), DeathSeen::Twice),
        (phrase::seen_once(), DeathSeen::Once),
        (phrase::cold(), DeathSeen::Cold),
        (phrase::doubt(), DeathSeen::Doubt),
    ];
    signs.into_iter().map(|(label, seen)| row(label, false, doing(Doing::Death(seen)))).collect()
}

/// Two windows went on with one bird.
pub(super) fn parted(session: &Session) -> Vec<Row> {
    let theirs = session.flock.parted.iter();
    let own = row(phrase::with_ours(), false, doing(Doing::Keep));
    let other = theirs.map(|id| row(phrase::with_theirs(), false, doing(Doing::Open(id.clone()))));
    std::iter::once(own).chain(other).collect()
}
