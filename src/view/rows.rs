//! The numbered lines a person chooses from, and what choosing one means: the same rows are drawn and acted on.

mod birds;
mod practice;

use super::line::{ChosenBy, Row, as_always, row};
use super::meaning::Meaning;
use crate::care::cupboard::Standing;
use crate::content::{answers, document};
use crate::exam::{Place, Progress};
use crate::finding::figure::FigureOf;
use crate::finding::{About, Answer};
use crate::phrase::{Phrase, Text, rows as phrase, terms};
use crate::protocol::question::{Asked, Choice, ListAt, Step};
use crate::protocol::supply::{Supply, SupplyAt};
use crate::protocol::table::At;
use crate::protocol::texts::Country;
use crate::prove::{Bearing, bearing};
use crate::reckon::{SUMS, Sum, Takes};
use crate::session::draft::Draft;
use crate::session::{Face, Overlay, Session};
use crate::typed::write_strength;

/// How many rows one page holds: as many as there are digits.
pub const PAGE: usize = 9;

pub use birds::TOOLS;

/// Every row of what shows now; none where nothing is chosen from.
pub fn rows(session: &Session) -> Vec<Row> {
    match session.overlays.last() {
        Some(Overlay::Map(None)) => steps(session),
        Some(Overlay::Lessons) => practice::lessons(session),
        Some(Overlay::Deeds) => practice::deeds(session),
        Some(Overlay::Judging) => practice::judging(session),
        Some(Overlay::HandOver) => practice::hand_over(session),
        Some(Overlay::Map(Some(step))) => questions(session, *step),
        Some(Overlay::Countries) => countries(session),
        Some(Overlay::Sums(None)) => sums(),
        Some(Overlay::Sums(Some(_))) => values(session),
        Some(Overlay::House) => house(session),
        Some(Overlay::Case) => birds::case(session),
        Some(Overlay::Particulars) => birds::particulars(session),
        Some(Overlay::Contacts) => birds::contacts(session),
        Some(Overlay::Flock) => birds::flock(session),
        Some(Overlay::Outcomes) => birds::outcomes(),
        Some(Overlay::Death) => birds::death(),
        Some(Overlay::Parted) => birds::parted(session),
        Some(Overlay::Help | Overlay::Why(_) | Overlay::Page(_)) => Vec::new(),
        // A document lies over the question: its rows are not there to be chosen.
        None if session.shown() != Face::Exam => Vec::new(),
        None => match &session.exam.place {
            Place::Ask(asked) => match &session.draft {
                Some(Draft::Spill(spill)) => spill
                    .rows()
                    .into_iter()
                    .enumerate()
                    .map(|(at, label)| row(label, false, Meaning::Pick(at)))
                    .collect(),
                Some(Draft::Taps(_) | Draft::Vein(_)) => Vec::new(),
                None => asked_rows(session, *asked),
            },
            Place::List(list) => signs(session, *list),
            Place::Wounds => wounds(session),
            Place::Instruction(..) | Place::Done => Vec::new(),
        },
    }
}

/// The rows of the page that shows, in order. What is as always stands below them on each page: what was not shown yet is not
/// answered with it.
pub fn page(session: &Session) -> Vec<Row> {
    let (always, others): (Vec<Row>, Vec<Row>) = rows(session).into_iter().partition(|row| row.by == ChosenBy::Always);
    let more_to_come = (session.page + 1) * PAGE < others.len();
    let always = always.into_iter().map(|row| match (&session.exam.place, more_to_come) {
        (Place::List(list), true) => as_always(phrase::as_always_next(), Meaning::NextPage(*list)),
        _ => row,
    });
    others.into_iter().skip(session.page * PAGE).take(PAGE).chain(always).collect()
}

/// How many pages there are.
pub fn pages(session: &Session) -> usize {
    rows(session).iter().filter(|row| row.by != ChosenBy::Always).count().div_ceil(PAGE).max(1)
}

/// The row of the page that shows with this figure, counted from 0.
pub fn at_figure(page: &[Row], figure: usize) -> Option<usize> {
    page.iter().enumerate().filter(|(_, row)| row.by == ChosenBy::Place).nth(figure).map(|(at, _)| at)
}

fn asked_rows(session: &Session, asked: Asked) -> Vec<Row> {
    let question = session.protocol.ask(asked.question);
    let standing = session.exam.said_now(asked);
    let before = session.exam.last_time(asked);
    let last = before.map(|said| &said.statement.answer);
    let in_general = question
        .asks_after
        .and_then(|of| session.exam.findings.answer(About::Bird, session.protocol.ask(of).id.as_str()));
    let in_general = in_general.map(|said| &said.statement.answer);
    let kind = session.exam.kind();
    let measure = |label: Phrase, meaning| match (standing, last) {
        (Some(answer @ (Answer::Amount(_) | Answer::Figure(_))), _) => {
            row(phrase::said_now(label, answers::of(question, answer)), true, meaning)
        }
        (_, Some(answer @ (Answer::Amount(_) | Answer::Figure(_)))) => {
            row(phrase::last_time_was(label, answers::of(question, answer)), false, meaning)
        }
        _ => row(label, false, meaning),
    };
    let choice = |choice: &Choice| {
        let answer = Answer::Choice(choice.id.clone());
        let told_of_her = in_general == Some(&answer);
        let says = answers::choice(question, choice);
        let label = match before.filter(|said| said.statement.answer == answer) {
            Some(said) => phrase::last_time_at(says, Text::clock(said.at)).into(),
            None if told_of_her => phrase::as_told(says).into(),
            None if session.exam.bears_out(asked, &answer) => phrase::said_so(says).into(),
            None => says,
        };
        row(label, standing == Some(&answer), Meaning::Answer(asked, answer))
    };
    let offered = (0u8..).zip(&question.choices).filter(|(at, _)| question.is_offered(*at, kind));
    let always = question.as_always();
    let choices = offered.map(|(_, offered)| choice(offered)).map(|told| match &told.meaning {
        Meaning::Answer(_, answer) if Some(answer) == always.as_ref() => {
            Row { label: phrase::as_always(told.label.clone()).into(), by: ChosenBy::Always, ..told }
        }
        _ => told,
    });
    let (always, choices): (Vec<Row>, Vec<Row>) = choices.partition(|row| row.by == ChosenBy::Always);
    if question.is_weight() {
        // A weighing is better than any look at her build.
        return std::iter::once(measure(phrase::type_weight(), Meaning::Type)).chain(choices).chain(always).collect();
    }
    // A bird on paper cannot be counted or measured.
    let figure = question.figure().filter(|_| !in_trial(session)).map(|of| match of {
        FigureOf::Wound => measure(phrase::type_lines(), Meaning::Type),
        FigureOf::Blood => measure(phrase::add_up(), Meaning::Enter(of)),
        FigureOf::Breaths => measure(phrase::count(), Meaning::Enter(of)),
        FigureOf::Refill => measure(phrase::time(), Meaning::Enter(of)),
    });
    choices.into_iter().chain(figure).chain(always).collect()
}

/// Every sum.
fn sums() -> Vec<Row> {
    let told = |sum: &Sum| terms::named(Text::typed(sum.name()), (sum.about)());
    SUMS.iter().enumerate().map(|(at, sum)| row(told(sum), false, Meaning::Sum(at))).collect()
}

/// The values of the open sum, and its answer in full once there is one.
fn values(session: &Session) -> Vec<Row> {
    let Some(sum) = session.sum() else { return Vec::new() };
    let of = |(at, takes): (usize, &Takes)| {
        let (name, what) = (Text::typed(takes.name), (takes.what)());
        if let Some(value) = session.values.get(at).filter(|value| !value.is_empty()) {
            row(terms::named(name, Text::typed(value)), true, Meaning::Value(at))
        } else {
            let told = if takes.needed { phrase::value(name, what) } else { phrase::value_may_lack(name, what) };
            row(told, false, Meaning::Value(at))
        }
    };
    let values = sum.takes.iter().enumerate().map(of);
    let full = matches!(session.answer(), Some(Ok(_))).then(|| row(phrase::in_full(), false, Meaning::InFull));
    values.chain(full).collect()
}

fn signs(session: &Session, list: ListAt) -> Vec<Row> {
    let mut rows = Vec::new();
    let (mut all_answered, mut seen_before) = (true, false);
    for asked in session.exam.signs(list) {
        let sign = session.protocol.ask(asked.question);
        let standing = session.exam.said_now(asked);
        all_answered &= standing.is_some();
        // The first answer of each is the one "as always" stands for.
        for choice in sign.choices.iter().skip(1) {
            let answer = Answer::Choice(choice.id.clone());
            let found = standing == Some(&answer);
            let before = session.exam.last_time(asked).is_some_and(|said| answer == said.statement.answer);
            seen_before |= before;
            let label = Text::quoted(&choice.say);
            let label = if before {
                phrase::last_time(label).into()
            } else if !found && session.exam.bears_out(asked, &answer) {
                phrase::said_so(label).into()
            } else {
                label
            };
            rows.push(row(label, found, Meaning::Sign(asked, answer)));
        }
    }
    let any = rows.iter().any(|row| row.marked);
    let none = |label: Phrase| as_always(phrase::as_always(label), Meaning::NoneOfTheRest(list));
    rows.push(match (all_answered, any) {
        (true, _) => as_always(phrase::no_change(), Meaning::LeaveList),
        (false, true) => none(phrase::nothing_else()),
        (false, false) if seen_before => none(phrase::none_now()),
        (false, false) => none(phrase::none()),
    });
    // What was there last time is not gone because nobody looked: both can be said in one key.
    if seen_before && !all_answered {
        rows.push(row(phrase::as_last_time(), false, Meaning::AsLastTime(list)));
    }
    rows
}

fn wounds(session: &Session) -> Vec<Row> {
    let none = session.exam.findings.wounds() == 0;
    if session.exam.spares_her() {
        // Who only looks has not looked her over: what shows is told, the rest stays open.
        let shows = if none { phrase::wound_shows() } else { phrase::another_shows() };
        return vec![row(shows, false, Meaning::FoundWound), as_always(phrase::none_shows(), Meaning::LeaveWounds)];
    }
    let (found, over) =
        if none { (phrase::wound(), phrase::no_wound()) } else { (phrase::another(), phrase::no_more()) };
    vec![row(found, false, Meaning::FoundWound), as_always(over, Meaning::LookedOver)]
}

fn countries(session: &Session) -> Vec<Row> {
    let of = |country: &Country| {
        let name = Text::quoted(&country.name);
        row(name, country.id == session.country.id, Meaning::Country(country.id.clone()))
    };
    session.protocol.countries.iter().map(of).collect()
}

/// Every supply, and whether it is there; the label check and the kit first.
fn house(session: &Session) -> Vec<Row> {
    let today = session.now.date_naive();
    let of = |(at, supply): (SupplyAt, &Supply)| {
        let there = match session.cupboard.standing(supply, today) {
            Standing::Missing => phrase::not_here(),
            Standing::Ready => phrase::here(),
            Standing::Past => phrase::past_its_date(),
            Standing::StrengthUntold => phrase::how_strong(),
            Standing::TooWeak => phrase::too_weak(),
            Standing::Refused(_) => phrase::not_this_one(),
        };
        let strength = session.cupboard.kept(supply).and_then(|kept| kept.strength);
        let strength = strength.map(|strength| Text::typed(write_strength(strength)));
        let told = Text::list([there.into()].into_iter().chain(strength));
        let marked = session.cupboard.kept(supply).is_some();
        row(terms::named(Text::quoted(&supply.name), told), marked, Meaning::Supply(at))
    };
    let pages = [
        row(phrase::check_label(), false, Meaning::Label),
        row(phrase::kit(), false, Meaning::Kit),
        row(phrase::contacts(), session.contacts.all().next().is_some(), Meaning::Contacts),
    ];
    pages.into_iter().chain(session.protocol.supplies_enumerated().map(of)).collect()
}

fn steps(session: &Session) -> Vec<Row> {
    let progress = session.exam.progress();
    let steps = session.protocol.steps.placed().zip(progress);
    steps
        .map(|((at, step), progress)| {
            let state = match progress {
                Progress::Ahead => phrase::step_ahead(),
                Progress::Here => phrase::step_here(),
                Progress::Done => phrase::step_done(),
                Progress::LeftOpen => phrase::step_open(),
            };
            let told = terms::named(Text::quoted(&step.name), state);
            row(told, progress == Progress::Here, Meaning::Step(at))
        })
        .chain(in_trial(session).then(practice::enough))
        .collect()
}

fn questions(session: &Session, step: At<Step>) -> Vec<Row> {
    let holds_wounds = session.protocol.questions.iter().any(|question| question.wound && question.step == step);
    let again = holds_wounds.then(|| row(phrase::wounds_again(), false, Meaning::GoToWounds));
    let told = |asked: &Asked| session.protocol.ask(asked.question).worked_out.is_none();
    let asked = session.exam.questions_of(step).filter(told).map(|asked| {
        let answer = session.exam.standing(asked);
        let bearing = || bearing(session.protocol, &session.exam.findings, &session.verdict, asked);
        let (said, faint) = match answer {
            Some(answer) => (answers::of(session.protocol.ask(asked.question), answer), false),
            // In practice nothing is told beforehand of what weighs.
            None if session.practice.is_some() => (phrase::not_asked().into(), false),
            None => match bearing() {
                Bearing::Outcome => (phrase::not_asked().into(), false),
                Bearing::Care => (phrase::changes_care().into(), true),
                Bearing::Nothing => (phrase::changes_nothing().into(), true),
            },
        };
        let told = terms::named(document::topic(session.protocol, asked), said);
        Row { faint, ..row(told, answer.is_some(), Meaning::GoTo(asked)) }
    });
    again.into_iter().chain(asked).collect()
}

/// Whether a practice go is on.
fn in_trial(session: &Session) -> bool {
    session.practice.as_ref().is_some_and(|practice| practice.on().is_some())
}
