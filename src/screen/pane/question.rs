//! What is asked, how to look without harm, and the numbered lines to answer with.

use super::{Lines, birds, body, entering, named, sums};
use crate::content::answers;
use crate::content::document::{topic, wound_name};
use crate::exam::Place;
use crate::finding::log::{self, Entry};
use crate::finding::{About, Answer, Statement};
use crate::phrase::{Phrase, Text, lesson, question as phrase, terms as words_of};
use crate::protocol::question::{Asked, SignList};
use crate::protocol::supply::Supply;
use crate::prove::{Bearing, bearing};
use crate::screen::keys::{Action, Context};
use crate::screen::model::{Model, Overlay, Page};
use crate::screen::practice::{self, Shown};
use crate::screen::rows::{self, ChosenBy};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::typed::weight;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// The question as lines. Where they do not fit, the caution and the meaning of words give way first, then how to look: all
/// of it stands in help as well.
pub fn lines(model: &Model, theme: Theme, width: usize, height: usize) -> Lines {
    if let Some(lines) =
        sums::lines(model, theme, width, height).or_else(|| entering::lines(model, theme, width, height))
    {
        return lines;
    }
    [Room::Ample, Room::Fair, Room::Short]
        .into_iter()
        .map(|room| build(model, theme, width, room))
        .find(|built| built.lines.len() <= height)
        .unwrap_or_else(|| build(model, theme, width, Room::Tight))
}

/// How much room there is: what gives way first is what stands beside the question, then how to look, then the empty lines.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Room {
    Ample,
    Fair,
    Short,
    Tight,
}

fn build(model: &Model, theme: Theme, width: usize, room: Room) -> Lines {
    let with_look = matches!(room, Room::Ample | Room::Fair);
    let with_all = room == Room::Ample;
    let mut lines = Lines::default();
    if model.overlays.is_empty() && model.exam.wants_hands() && model.exam.spares_her() {
        lines.add(wrapped(&named::without_skip(model, &model.protocol.spare_say), width, "! ", theme.urgent()));
    }
    let (ask, look) = words(model);
    let (ask, look) = (model.say(ask), named::without_skip(model, &model.say(look)));
    // Where there is room for nothing more, what is asked once more stands in place of what was read before it.
    let told_first = model.notice.as_ref().filter(|_| room == Room::Tight && model.asked_again.is_some());
    match told_first {
        Some(notice) => lines.add(wrapped(&model.reader().say(notice), width, "", theme.never())),
        None => lines.add(wrapped(&ask, width, "", theme.question())),
    }
    if model.practice.is_some() {
        let shown = shown(model).into_iter().map(|told| model.say(told));
        lines.add(shown.flat_map(|told| wrapped(&told, width, "", theme.heading())));
    }
    if with_look && !look.is_empty() {
        lines.add(wrapped(&look, width, "", theme.aside()));
    }
    let lists = matches!(model.overlays.last(), Some(Overlay::Lessons | Overlay::Map(_)));
    if with_all && !lists {
        for words in terms(model, &ask, &look) {
            lines.add(wrapped(&model.say(words), width, "", theme.aside()));
        }
    }
    if room != Room::Tight {
        lines.gap();
    }
    if let Some(before) = last_time(model) {
        lines.add(wrapped(&model.say(before), width, "", theme.aside()));
        lines.gap();
    }
    if model.typed.is_some() {
        typing(model, theme, width, &mut lines);
    } else if body::shows(model) {
        let from = lines.lines.len();
        rows_with_keys(model, theme, body::LIST, room, &mut lines);
        body::beside(model, theme, width, &mut lines.lines, from);
    } else {
        rows_with_keys(model, theme, width, room, &mut lines);
    }
    before_the_first_answer(model, theme, width, room, &mut lines);
    if let Some(words) = no_longer_weighs(model) {
        lines.add(wrapped(&model.say(words), width, "    ", theme.aside()));
    }
    if let Some(said) = echo(model).filter(|_| room != Room::Tight && model.notice.is_none()) {
        lines.gap();
        lines.add(wrapped(&model.say(said), width, "", theme.aside()));
    }
    if let Some(notice) = model.notice.as_ref().filter(|_| told_first.is_none()) {
        if room != Room::Tight {
            lines.gap();
        }
        lines.add(wrapped(&model.reader().say(notice), width, "", theme.never()));
    }
    if model.log.is_empty() && model.overlays.is_empty() && with_all {
        lines.gap();
        lines.add(wrapped(&model.say(model.caution()), width, "", theme.aside()));
    }
    lines
}

/// What was said last, so that a slip of the hand is seen; one key takes it back.
fn echo(model: &Model) -> Option<Phrase> {
    if !model.overlays.is_empty() || model.typed.is_some() || model.practice.is_some() {
        return None;
    }
    let back = named::key(model, Action::Back)?;
    let standing = log::standing(&model.log);
    let said = standing.iter().rev().find(|stamped| stamped.entry.kind().is_decision())?;
    let Entry::Said(statements) = &said.entry else { return None };
    let told = |said: &Statement| {
        let at = model.protocol.question_at(said.question.as_str())?;
        let question = model.protocol.ask(at);
        let topic = topic(model.protocol, Asked { about: said.about, question: at });
        Some(Text::from(words_of::named(topic, answers::of(question, &said.answer))))
    };
    let what = match statements.as_slice() {
        [said] => told(said)?,
        [.., Statement { answer: Answer::CannotTell, .. }] => words_of::cannot_tell().into(),
        [.., last] if model.protocol.question_at(last.question.as_str()).is_some() => phrase::the_rest().into(),
        _ => return None,
    };
    Some(phrase::said(what, back))
}

/// Below the five signs, before any of them is answered: the birds that are due a look, and the one that was left.
fn before_the_first_answer(model: &Model, theme: Theme, width: usize, room: Room, lines: &mut Lines) {
    if !model.log.is_empty() || !model.overlays.is_empty() || model.practice.is_some() {
        return;
    }
    if room != Room::Tight {
        lines.gap();
    }
    if model.offers_to_resume() {
        lines.add(wrapped(&model.say(resume_line(model)), width, " g  ", theme.heading()));
    }
    let due = birds::waiting(model);
    for (at, bird) in due.iter().take(WAITING).enumerate() {
        lines.add(wrapped(&model.reader().say(bird), width, if at == 0 { " f  " } else { "    " }, theme.urgent()));
    }
    let more = due.len().saturating_sub(WAITING) + model.flock.waiting.more_overdue;
    if more > 0 {
        lines.add(wrapped(&model.say(phrase::more_birds(more)), width, "    ", theme.urgent()));
    }
}

/// At most this many birds that are due a look are named at the start.
const WAITING: usize = 3;

/// What was answered last time, at a later look, where that answer does not stand among the lines.
fn last_time(model: &Model) -> Option<Phrase> {
    let Place::Ask(asked) = model.exam.place else { return None };
    let said = model.exam.last_time(asked).filter(|_| model.overlays.is_empty())?;
    let question = model.protocol.ask(asked.question);
    if matches!(&said.statement.answer, Answer::Choice(id) if question.choice_at(id.as_str()).is_some()) {
        return None;
    }
    Some(phrase::last_time(Text::day(said.at), answers::of(question, &said.statement.answer)))
}

/// What is asked and how to look, for the place or the overlay that shows.
pub fn words(model: &Model) -> (Text, Text) {
    match model.overlays.last() {
        Some(Overlay::Map(None)) if model.practice.is_some() => return story(model),
        Some(Overlay::Lessons | Overlay::Deeds | Overlay::Judging | Overlay::HandOver) => return in_practice(model),
        Some(Overlay::Map(None)) => {
            return (phrase::steps().into(), phrase::steps_look().into());
        }
        Some(Overlay::Map(Some(step))) => {
            let name = &model.protocol.steps.of(*step).name;
            return (phrase::step(Text::quoted(name)).into(), phrase::step_look().into());
        }
        Some(Overlay::Countries) => return (phrase::law().into(), phrase::law_look().into()),
        Some(Overlay::House) => {
            let supply = model.told_of.filter(|_| model.typed.is_some()).map(|at| model.protocol.supply(at));
            return match supply {
                Some(supply) => (phrase::of(Text::opening(Text::quoted(&supply.name))).into(), told_of(supply).into()),
                None => (phrase::house().into(), phrase::house_look().into()),
            };
        }
        Some(
            Overlay::Flock
            | Overlay::Case
            | Overlay::Outcomes
            | Overlay::Death
            | Overlay::Parted
            | Overlay::Particulars
            | Overlay::Contacts,
        ) => return birds::words(model),
        Some(Overlay::Page(Page::Label)) => return (phrase::label().into(), phrase::label_look().into()),
        Some(Overlay::Help | Overlay::Why(_) | Overlay::Sums(_) | Overlay::Page(_)) | None => {}
    }
    match &model.exam.place {
        Place::Ask(asked) => {
            let question = model.protocol.ask(asked.question);
            let kind = model.exam.kind();
            let asks = Text::quoted(question.ask_of(kind));
            let ask = match asked.about {
                About::Bird => asks,
                About::Wound(number) => {
                    words_of::named(wound_name(model.protocol, &model.exam.findings, number), asks).into()
                }
            };
            (ask, Text::quoted(question.look_at(kind)))
        }
        Place::List(list) => {
            let SignList { ask, look, .. } = model.protocol.sign_list(*list);
            (Text::quoted(ask), Text::quoted(look))
        }
        Place::Wounds => {
            let none = model.exam.findings.wounds() == 0;
            let ask = if none { phrase::wound() } else { phrase::another_wound() };
            let look = if model.exam.spares_her() { phrase::wound_spared() } else { phrase::wound_look() };
            (ask.into(), look.into())
        }
        Place::Instruction(..) | Place::Done => Default::default(),
    }
}

/// What one is told on coming to her, above the steps to choose from.
fn story(model: &Model) -> (Text, Text) {
    let trial = model.practice.as_ref().and_then(|practice| practice.trial.as_ref());
    let told = trial.map_or_else(Text::default, |trial| Text::quoted(trial.script.opens()));
    let ask = if model.log.is_empty() { lesson::first() } else { lesson::next() };
    (ask.into(), told)
}

/// What stands over the lists of practice.
fn in_practice(model: &Model) -> (Text, Text) {
    if let Some(writing) = model.writing {
        return birds::asked(writing);
    }
    let given = model.practice.as_ref().and_then(|practice| practice.trial.as_ref()).map(|trial| trial.given);
    let (ask, look) = match (model.overlays.last(), given) {
        (Some(Overlay::Deeds), _) => (lesson::deeds(), lesson::deeds_look()),
        (Some(Overlay::HandOver), _) => (lesson::look_over(), lesson::look_over_look()),
        (Some(Overlay::Judging), Some(given)) => match (given.need, given.humane) {
            (None, _) => (lesson::need(), lesson::need_look()),
            (Some(_), None) => (lesson::humane(), lesson::humane_look()),
            (Some(_), Some(_)) => (lesson::authority(), lesson::authority_look()),
        },
        _ => (lesson::which(), lesson::which_look()),
    };
    (ask.into(), look.into())
}

/// What the practice bird shows here, as it is told; where a mentor reads aloud, with the sentence to say.
fn shown(model: &Model) -> Vec<Phrase> {
    if !model.overlays.is_empty() {
        return Vec::new();
    }
    let told = match &model.exam.place {
        Place::Ask(asked) => practice::shown(model, *asked).into_iter().collect(),
        Place::List(list) => practice::shown_of_list(model, *list).unwrap_or_default(),
        Place::Wounds => practice::shown_of_wounds(model).into_iter().collect(),
        Place::Instruction(..) | Place::Done => Vec::new(),
    };
    let aloud = model.practice.as_ref().is_some_and(|practice| practice.aloud);
    let line = |Shown { how, what }: Shown| {
        let told = words_of::named(how, what);
        if aloud { lesson::tell(told) } else { told }
    };
    let say = aloud.then(|| {
        let answers = rows::rows(model).into_iter().map(|row| row.label);
        let answers = answers.reduce(|before, next| lesson::or(before, next).into());
        lesson::say(words(model).0, answers.unwrap_or_default())
    });
    say.into_iter().chain(told.into_iter().map(line)).collect()
}

/// What is asked of a supply that is put in the house.
const fn told_of(supply: &Supply) -> Phrase {
    match (supply.thin_to.is_some(), supply.dated) {
        (true, true) => phrase::strength_and_date(),
        (true, false) => phrase::strength(),
        (false, _) => phrase::date(),
    }
}

/// The words in question and answers that a keeper may not know, each with what it means.
pub fn terms(model: &Model, ask: &str, look: &str) -> Vec<Phrase> {
    let rows: Vec<String> = rows::rows(model).into_iter().map(|row| model.say(row.label)).collect();
    let texts = [ask, look].into_iter().chain(rows.iter().map(String::as_str));
    let told = model.protocol.terms_in(texts).into_iter();
    told.map(|term| words_of::named(Text::quoted(&term.term), Text::quoted(&term.means))).collect()
}

fn resume_line(model: &Model) -> Phrase {
    let last = model.left.as_ref().and_then(|left| left.log.last());
    last.map_or_else(phrase::resume, |stamped| phrase::resume_since(Text::clock(stamped.at)))
}

/// The rows to choose from, with their keys.
pub fn numbered(model: &Model, theme: Theme, width: usize, lines: &mut Lines) {
    rows_with_keys(model, theme, width, Room::Ample, lines);
}

fn rows_with_keys(model: &Model, theme: Theme, width: usize, room: Room, lines: &mut Lines) {
    let page = rows::page(model);
    let widest = page.iter().filter_map(|row| row.number()).map(str::len).max().unwrap_or(1);
    let mut figure = 0;
    for (at, row) in page.iter().enumerate() {
        let focused = model.cursor == Some(at);
        if focused || (model.cursor.is_none() && at == 0) {
            lines.cursor_here();
        }
        let style = if focused {
            theme.focus()
        } else if row.marked {
            theme.question()
        } else if row.faint {
            theme.aside()
        } else {
            theme.plain()
        };
        let mark = match (focused, row.marked) {
            (true, _) => '>',
            (false, true) => '*',
            (false, false) => ' ',
        };
        let key = match &row.by {
            ChosenBy::Place => {
                figure += 1;
                figure.to_string()
            }
            ChosenBy::Number(number) => number.clone(),
            ChosenBy::Always => pressed(model, Action::AsAlways),
        };
        lines.add(wrapped(&model.reader().say(&row.label), width, &format!("{mark}{key:<widest$}  "), style));
    }
    let all_told = matches!(page.last().map(|row| &row.meaning), Some(rows::Meaning::LeaveList));
    let looks = model.context() == Context::Look;
    if model.context() == Context::Wounds || (looks && model.exam.place == Place::Wounds) {
        lines.add(wrapped(&model.say(phrase::cannot_look()), width, " 0  ", theme.plain()));
    }
    let pages = rows::pages(model);
    let more = (pages > 1).then(|| model.say(phrase::more(model.page + 1, pages)));
    let in_look = looks && matches!(model.exam.place, Place::Ask(_) | Place::List(_));
    let asks = in_look || matches!(model.context(), Context::Ask | Context::Body | Context::List);
    let cannot_tell = (asks && !all_told).then(|| cannot_tell(model));
    let next = pressed(model, Action::More);
    let cannot_tell = cannot_tell.map(|(mark, label)| (mark, model.say(label)));
    let line = |label: &str, first: &str| wrapped(label, width, first, theme.plain());
    match (cannot_tell, more) {
        // Where there is no room both keys share a line: neither may fall off the screen.
        (Some((mark, label)), Some(more)) if room == Room::Tight => {
            lines.add(line(&format!("{label} · {next} {more}"), &format!("{mark}0  ")));
        }
        (cannot_tell, more) => {
            if let Some((mark, label)) = cannot_tell {
                lines.add(line(&label, &format!("{mark}0  ")));
            }
            if let Some(more) = more {
                lines.add(line(&more, &format!(" {next} ")));
            }
        }
    }
}

/// The key that does this now, as it is read.
fn pressed(model: &Model, action: Action) -> String {
    named::key(model, action).map(|key| model.say(key)).unwrap_or_default()
}

/// The mark before "cannot tell", and what it says here.
fn cannot_tell(model: &Model) -> (char, Phrase) {
    let Place::Ask(asked) = &model.exam.place else { return (' ', words_of::cannot_tell()) };
    let by_kind = model.protocol.ask(asked.question).is_weight();
    let label = if by_kind { phrase::by_her_kind() } else { words_of::cannot_tell() };
    let marked = model.exam.said_now(*asked) == Some(&Answer::CannotTell);
    (if marked { '*' } else { ' ' }, label)
}

fn typing(model: &Model, theme: Theme, width: usize, lines: &mut Lines) {
    typing_line(model, theme, width, lines);
    if model.writing.is_some() {
        return;
    }
    let (Place::Ask(asked), None) = (&model.exam.place, model.overlays.last()) else { return };
    let asked = *asked;
    let question = model.protocol.ask(asked.question);
    let typed = model.typed.clone().unwrap_or_default();
    let weights = || Text::list(weight::EXAMPLES.map(Text::typed));
    let example = question.figure().map_or_else(weights, |of| Text::typed(of.example()));
    let read = match model.read(question, &typed) {
        Ok(answer) => phrase::read_as(answers::of(question, &answer)),
        Err(_) => phrase::for_example(example),
    };
    lines.add(wrapped(&model.say(read), width, "", theme.aside()));
}

/// That the question asked can no longer change the outcome, where that is so; it may then be skipped in one key.
fn no_longer_weighs(model: &Model) -> Option<Phrase> {
    let Place::Ask(asked) = model.exam.place else { return None };
    let hidden = !model.overlays.is_empty() || model.practice.is_some() || model.typed.is_some();
    if hidden || model.exam.standing(asked).is_some() {
        return None;
    }
    if model.protocol.ask(asked.question).adds_to.is_some() {
        return Some(phrase::skip_vet_only());
    }
    match bearing(model.protocol, &model.exam.findings, &model.verdict, asked) {
        Bearing::Outcome => None,
        Bearing::Care => Some(phrase::skip_care()),
        Bearing::Nothing => Some(phrase::skip_nothing()),
    }
}

/// The line that is being typed.
pub fn typing_line(model: &Model, theme: Theme, width: usize, lines: &mut Lines) {
    // Of a long line its end shows: that is where the next letter goes.
    let typing = format!("{}  ", model.say(phrase::typing()));
    let room = width.saturating_sub(typing.width() + 1);
    let typed = model.typed.clone().unwrap_or_default();
    let typed: String = typed.chars().skip(typed.chars().count().saturating_sub(room)).collect();
    lines.cursor_here();
    lines.add([Line::from(vec![
        Span::styled(typing, theme.heading()),
        Span::styled(format!("{typed}_"), theme.question()),
    ])]);
}
