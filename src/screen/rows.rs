//! The numbered lines a person chooses from, and what choosing one means: the same rows are drawn and acted on.

mod birds;
mod practice;

use super::draft::Draft;
use super::model::{Face, Model, Overlay};
use super::update::{Doing, Practising};
use crate::care::cupboard::Standing;
use crate::exam::{Place, Progress};
use crate::finding::figure::FigureOf;
use crate::finding::{About, Answer, Id};
use crate::protocol::question::{Asked, ListAt, Step};
use crate::protocol::supply::{Supply, SupplyAt};
use crate::protocol::table::At;
use crate::protocol::texts::Country;
use crate::prove::{Bearing, bearing};
use crate::reckon::{SUMS, Takes};
use crate::typed::write_strength;

/// How many rows one page holds: as many as there are digits.
pub const PAGE: usize = 9;

pub use birds::TOOLS;

/// One line to choose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it says.
    pub label: String,
    /// Whether it is what stands now.
    pub marked: bool,
    /// Whether it can no longer change how soon; words say so too.
    pub faint: bool,
    /// The number it is chosen by wherever it stands, where it has one of its own; else its place on the page is its number.
    pub key: Option<String>,
    /// What choosing it means.
    pub meaning: Meaning,
}

/// What choosing a row means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Answers a question.
    Answer(Asked, Answer),
    /// Says that a sign of a list is seen, or is not after all.
    Sign(Asked),
    /// Says that none of the rest of a list is there.
    NoneOfTheRest(ListAt),
    /// Goes back from a list that is all answered.
    LeaveList,
    /// Starts typing a weight or a wound's lines.
    Type,
    /// Starts entering a figure with keys of its own.
    Enter(FigureOf),
    /// Takes a row of what is being added up.
    Pick(usize),
    /// Opens a sum.
    Sum(usize),
    /// Types a value of the open sum.
    Value(usize),
    /// Shows the open sum's answer in full.
    InFull,
    /// Finds one more wound.
    FoundWound,
    /// Ends the look-over.
    LookedOver,
    /// Leaves the look-over open.
    LeaveWounds,
    /// Opens the questions of a step.
    Step(At<Step>),
    /// Turns to a question.
    GoTo(Asked),
    /// Sets the country.
    Country(Id),
    /// Puts a supply in the house, or takes it out.
    Supply(SupplyAt),
    /// Shows what to have in the house, and why.
    Kit,
    /// Shows whom to call.
    Contacts,
    /// Checks a product's label.
    Label,
    /// Turns to "any more wounds?".
    GoToWounds,
    /// Answers the rest of a list as it was answered last time.
    AsLastTime(ListAt),
    /// Does something with a bird's case, or the list of all.
    Case(Doing),
    /// Does something in practice.
    Practice(Practising),
}

/// Every row of what shows now; none where nothing is chosen from.
pub fn rows(model: &Model) -> Vec<Row> {
    match model.overlays.last() {
        Some(Overlay::Map(None)) => steps(model),
        Some(Overlay::Lessons) => practice::lessons(model),
        Some(Overlay::Deeds) => practice::deeds(model),
        Some(Overlay::Judging) => practice::judging(model),
        Some(Overlay::HandOver) => practice::hand_over(model),
        Some(Overlay::Map(Some(step))) => questions(model, *step),
        Some(Overlay::Countries) => countries(model),
        Some(Overlay::Sums(None)) => sums(),
        Some(Overlay::Sums(Some(_))) => values(model),
        Some(Overlay::House) => house(model),
        Some(Overlay::Case) => birds::case(model),
        Some(Overlay::Particulars) => birds::particulars(model),
        Some(Overlay::Contacts) => birds::contacts(model),
        Some(Overlay::Flock) => birds::flock(model),
        Some(Overlay::Outcomes) => birds::outcomes(),
        Some(Overlay::Death) => birds::death(),
        Some(Overlay::Parted) => birds::parted(model),
        Some(Overlay::Help | Overlay::Why(_) | Overlay::Page(_)) => Vec::new(),
        // A document lies over the question: its rows are not there to be chosen.
        None if model.shown() != Face::Exam => Vec::new(),
        None => match &model.exam.place {
            Place::Ask(asked) => match &model.draft {
                Some(Draft::Spill(spill)) => spill
                    .rows()
                    .into_iter()
                    .enumerate()
                    .map(|(at, label)| row(label, false, Meaning::Pick(at)))
                    .collect(),
                Some(Draft::Taps(_) | Draft::Vein(_)) => Vec::new(),
                None => answers(model, *asked),
            },
            Place::List(list) => signs(model, *list),
            Place::Wounds => wounds(model),
            Place::Instruction(..) | Place::Done => Vec::new(),
        },
    }
}

/// The rows of the page that shows, in order.
pub fn page(model: &Model) -> Vec<Row> {
    rows(model).into_iter().skip(model.page * PAGE).take(PAGE).collect()
}

/// How many pages there are.
pub fn pages(model: &Model) -> usize {
    rows(model).len().div_ceil(PAGE).max(1)
}

fn row(label: impl Into<String>, marked: bool, meaning: Meaning) -> Row {
    Row { label: label.into(), marked, faint: false, key: None, meaning }
}

fn answers(model: &Model, asked: Asked) -> Vec<Row> {
    let question = model.protocol.ask(asked.question);
    let standing = model.exam.said_now(asked);
    let before = model.exam.last_time(asked);
    let last = before.map(|said| &said.statement.answer);
    let in_general =
        question.asks_after.and_then(|of| model.exam.findings.answer(About::Bird, model.protocol.ask(of).id.as_str()));
    let in_general = in_general.map(|said| &said.statement.answer);
    let kind = model.exam.kind();
    let measured = match (standing, last) {
        (Some(answer @ (Answer::Amount(_) | Answer::Figure(_))), _) => {
            Some(format!(" (now {})", question.words(answer)))
        }
        (_, Some(answer @ (Answer::Amount(_) | Answer::Figure(_)))) => {
            Some(format!(" (last time {})", question.words(answer)))
        }
        _ => None,
    };
    let measure = |label: &str, meaning| {
        let stands = matches!(standing, Some(Answer::Amount(_) | Answer::Figure(_)));
        row(format!("{label}{}", measured.clone().unwrap_or_default()), stands, meaning)
    };
    let choice = |choice: &crate::protocol::question::Choice| {
        let answer = Answer::Choice(choice.id.clone());
        let told_of_her = in_general == Some(&answer);
        let label = match before.filter(|said| said.statement.answer == answer) {
            Some(said) => format!("{} (last time, {})", choice.say, model.zone.clock(said.at)),
            None if told_of_her => format!("{} (as told of her)", choice.say),
            None => choice.say.clone(),
        };
        row(label, standing == Some(&answer), Meaning::Answer(asked, answer))
    };
    let offered = (0u8..).zip(&question.choices).filter(|(at, _)| question.is_offered(*at, kind));
    let choices = offered.map(|(_, offered)| choice(offered));
    if question.is_weight() {
        // A weighing is better than any look at her build.
        return std::iter::once(measure("type her weight", Meaning::Type)).chain(choices).collect();
    }
    // A bird on paper cannot be counted or measured.
    let figure = question.figure().filter(|_| !in_trial(model)).map(|of| match of {
        FigureOf::Wound => measure("measured: type length x width", Meaning::Type),
        FigureOf::Blood => measure("add it up: drops, swabs, pools", Meaning::Enter(of)),
        FigureOf::Breaths => measure("count them: tap a key", Meaning::Enter(of)),
        FigureOf::Refill => measure("time it: tap a key", Meaning::Enter(of)),
    });
    choices.chain(figure).collect()
}

/// Every sum.
fn sums() -> Vec<Row> {
    SUMS.iter()
        .enumerate()
        .map(|(at, sum)| {
            row(format!("{}: {}", sum.name(), crate::words::english((sum.about)())), false, Meaning::Sum(at))
        })
        .collect()
}

/// The values of the open sum, and its answer in full once there is one.
fn values(model: &Model) -> Vec<Row> {
    let Some(sum) = model.sum() else { return Vec::new() };
    let of = |(at, takes): (usize, &Takes)| {
        if let Some(value) = model.values.get(at).filter(|value| !value.is_empty()) {
            row(format!("{}: {value}", takes.name), true, Meaning::Value(at))
        } else {
            let may = if takes.needed { "" } else { "may be left out: " };
            row(format!("{}: ({may}{})", takes.name, crate::words::english((takes.what)())), false, Meaning::Value(at))
        }
    };
    let values = sum.takes.iter().enumerate().map(of);
    let full = matches!(model.answer(), Some(Ok(_))).then(|| row("formula, sources, cautions", false, Meaning::InFull));
    values.chain(full).collect()
}

fn signs(model: &Model, list: ListAt) -> Vec<Row> {
    let mut rows = Vec::new();
    let (mut all_answered, mut seen_before) = (true, false);
    for asked in model.exam.signs(list) {
        let sign = model.protocol.ask(asked.question);
        let standing = model.exam.said_now(asked);
        all_answered &= standing.is_some();
        let worst = sign.choices.last().map(|last| Answer::Choice(last.id.clone()));
        let found = worst.is_some() && standing == worst.as_ref();
        let before = model.exam.last_time(asked).is_some_and(|said| worst.as_ref() == Some(&said.statement.answer));
        seen_before |= before;
        let label = sign.choices.last().map_or_else(|| sign.topic.clone(), |last| last.say.clone());
        let label = if before { format!("{label} (last time)") } else { label };
        rows.push(row(label, found, Meaning::Sign(asked)));
    }
    let any = rows.iter().any(|row| row.marked);
    rows.push(match (all_answered, any) {
        (true, _) => row("no change: go on", false, Meaning::LeaveList),
        (false, true) => row("nothing else of these", false, Meaning::NoneOfTheRest(list)),
        (false, false) if seen_before => row("none of these now", false, Meaning::NoneOfTheRest(list)),
        (false, false) => row("none of these", false, Meaning::NoneOfTheRest(list)),
    });
    // What was there last time is not gone because nobody looked: both can be said in one key. It stands last, so that the key
    // for "none" is the same at every look.
    if seen_before && !all_answered {
        rows.push(row("all as last time", false, Meaning::AsLastTime(list)));
    }
    rows
}

fn wounds(model: &Model) -> Vec<Row> {
    let found = model.exam.findings.wounds();
    if model.exam.spares_her() {
        // Who only looks has not looked her over: what shows is told, the rest stays open.
        let shows = if found == 0 { "yes, a wound shows" } else { "yes, another one shows" };
        return vec![
            row(shows, false, Meaning::FoundWound),
            row("none shows: leave it open", false, Meaning::LeaveWounds),
        ];
    }
    vec![
        row(if found == 0 { "yes, there is a wound" } else { "yes, another one" }, false, Meaning::FoundWound),
        row(
            if found == 0 { "no wound, all looked over" } else { "no more, all looked over" },
            false,
            Meaning::LookedOver,
        ),
    ]
}

fn countries(model: &Model) -> Vec<Row> {
    let of =
        |country: &Country| row(&country.name, country.id == model.country.id, Meaning::Country(country.id.clone()));
    model.protocol.countries.iter().map(of).collect()
}

/// Every supply, and whether it is there; the label check and the kit first.
fn house(model: &Model) -> Vec<Row> {
    let today = model.now.date_naive();
    let of = |(at, supply): (SupplyAt, &Supply)| {
        let there = match model.cupboard.standing(supply, today) {
            Standing::Missing => "not here".to_owned(),
            Standing::Ready => "here".to_owned(),
            Standing::Past => "past its date".to_owned(),
            Standing::StrengthUntold => "here, how strong?".to_owned(),
            Standing::TooWeak => "too weak".to_owned(),
            Standing::Refused(_) => "not this one".to_owned(),
        };
        let strength = model.cupboard.kept(supply).and_then(|kept| kept.strength);
        let strength = strength.map(|strength| format!(", {}", write_strength(strength))).unwrap_or_default();
        let marked = model.cupboard.kept(supply).is_some();
        row(format!("{}: {there}{strength}", supply.name), marked, Meaning::Supply(at))
    };
    let pages = [
        row("check a product's label", false, Meaning::Label),
        row("what to have in the house, and why", false, Meaning::Kit),
        row("whom to call: your numbers", model.contacts.all().next().is_some(), Meaning::Contacts),
    ];
    pages.into_iter().chain(model.protocol.supplies_enumerated().map(of)).collect()
}

fn steps(model: &Model) -> Vec<Row> {
    let progress = model.exam.progress();
    let steps = model.protocol.steps.placed().zip(progress);
    steps
        .map(|((at, step), progress)| {
            let state = match progress {
                Progress::Ahead => "still to come",
                Progress::Here => "here",
                Progress::Done => "done",
                Progress::LeftOpen => "left open",
            };
            row(format!("{}: {state}", step.name), progress == Progress::Here, Meaning::Step(at))
        })
        .chain(in_trial(model).then(practice::enough))
        .collect()
}

fn questions(model: &Model, step: At<Step>) -> Vec<Row> {
    let holds_wounds = model.protocol.questions.iter().any(|question| question.wound && question.step == step);
    let again = holds_wounds.then(|| row("look for wounds again", false, Meaning::GoToWounds));
    let told = |asked: &Asked| model.protocol.ask(asked.question).worked_out.is_none();
    let asked = model.exam.questions_of(step).filter(told).map(|asked| {
        let answer = model.exam.standing(asked);
        let bearing = || bearing(model.protocol, &model.exam.findings, &model.verdict, asked);
        let (said, faint) = match answer {
            Some(answer) => (model.protocol.ask(asked.question).words(answer), false),
            // In practice nothing is told beforehand of what weighs.
            None if model.practice.is_some() => ("not asked".into(), false),
            None => match bearing() {
                Bearing::Outcome => ("not asked".into(), false),
                Bearing::Care => ("not asked; changes what to do".into(), true),
                Bearing::Nothing => ("not asked; can change nothing".into(), true),
            },
        };
        let topic = crate::content::old::topic(model.protocol, asked);
        Row { faint, ..row(format!("{topic}: {said}"), answer.is_some(), Meaning::GoTo(asked)) }
    });
    again.into_iter().chain(asked).collect()
}

/// Whether a practice go is on.
fn in_trial(model: &Model) -> bool {
    model.practice.as_ref().is_some_and(|practice| practice.on().is_some())
}
