//! What is asked, how to look without harm, and the numbered lines to answer with.

use super::{Lines, birds, body, entering, named, sums};
use crate::content::days::day;
use crate::content::document::upper_first;
use crate::content::old::wound_name;
use crate::exam::Place;
use crate::finding::figure::FigureOf;
use crate::finding::{About, Answer};
use crate::protocol::question::SignList;
use crate::protocol::supply::Supply;
use crate::prove::{Bearing, bearing};
use crate::screen::keys::Context;
use crate::screen::model::{Model, Overlay, Page};
use crate::screen::practice::{self, Shown};
use crate::screen::rows;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use ratatui::text::{Line, Span};

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
    let look = named::without_skip(model, &look);
    lines.add(wrapped(&ask, width, "", theme.question()));
    if model.practice.is_some() {
        lines.add(shown(model).iter().flat_map(|told| wrapped(told, width, "", theme.heading())));
    }
    if with_look && !look.is_empty() {
        lines.add(wrapped(&look, width, "", theme.aside()));
    }
    let lists = matches!(model.overlays.last(), Some(Overlay::Lessons | Overlay::Map(_)));
    if with_all && !lists {
        for words in terms(model, &ask, &look) {
            lines.add(wrapped(&words, width, "", theme.aside()));
        }
    }
    if room != Room::Tight {
        lines.gap();
    }
    if let Some(before) = last_time(model) {
        lines.add(wrapped(&before, width, "", theme.aside()));
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
        lines.add(wrapped(words, width, "    ", theme.aside()));
    }
    if let Some(notice) = &model.notice {
        lines.gap();
        lines.add(wrapped(notice, width, "", theme.never()));
    }
    if model.log.is_empty() && model.overlays.is_empty() && with_all {
        lines.gap();
        lines.add(wrapped(&model.caution(), width, "", theme.aside()));
    }
    lines
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
        lines.add(wrapped(&resume_line(model), width, " g  ", theme.heading()));
    }
    let due = birds::waiting(model);
    for (at, bird) in due.iter().take(WAITING).enumerate() {
        lines.add(wrapped(bird, width, if at == 0 { " f  " } else { "    " }, theme.urgent()));
    }
    let more = due.len().saturating_sub(WAITING) + model.flock.waiting.more_overdue;
    if more > 0 {
        let words = if more == 1 { "and 1 more bird waits".to_owned() } else { format!("and {more} more birds wait") };
        lines.add(wrapped(&words, width, "    ", theme.urgent()));
    }
}

/// At most this many birds that are due a look are named at the start.
const WAITING: usize = 3;

/// What was answered last time, at a later look, where that answer does not stand among the lines.
fn last_time(model: &Model) -> Option<String> {
    let Place::Ask(asked) = model.exam.place else { return None };
    let said = model.exam.last_time(asked).filter(|_| model.overlays.is_empty())?;
    let question = model.protocol.ask(asked.question);
    if matches!(&said.statement.answer, Answer::Choice(id) if question.choice_at(id.as_str()).is_some()) {
        return None;
    }
    let words = question.words(&said.statement.answer);
    Some(format!("Last time, {}: {words}", day(model.zone, said.at)))
}

/// What is asked and how to look, for the place or the overlay that shows.
pub fn words(model: &Model) -> (String, String) {
    match model.overlays.last() {
        Some(Overlay::Map(None)) if model.practice.is_some() => return story(model),
        Some(Overlay::Lessons | Overlay::Deeds | Overlay::Judging | Overlay::HandOver) => return in_practice(model),
        Some(Overlay::Map(None)) => {
            return ("The steps".into(), "Choose one to see and change its answers.".into());
        }
        Some(Overlay::Map(Some(step))) => {
            let name = &model.protocol.steps.of(*step).name;
            return (format!("Step: {name}"), "Choose an answer to change it.".into());
        }
        Some(Overlay::Countries) => {
            return ("Whose law holds?".into(), "Not set? Then the strictest rule of all these holds.".into());
        }
        Some(Overlay::House) => {
            let supply = model.told_of.filter(|_| model.typed.is_some()).map(|at| model.protocol.supply(at));
            return match supply {
                Some(supply) => (format!("{}?", upper_first(&supply.name)), told_of(supply)),
                None => ("What is in the house?".into(), "A number puts it in, or takes it out.".into()),
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
        Some(Overlay::Page(Page::Label)) => {
            let look = "As printed, parted by commas. A word nobody knows means: ask a vet or pharmacist.";
            return ("What is in the product?".into(), look.into());
        }
        Some(Overlay::Help | Overlay::Why(_) | Overlay::Sums(_) | Overlay::Page(_)) | None => {}
    }
    match &model.exam.place {
        Place::Ask(asked) => {
            let question = model.protocol.ask(asked.question);
            let kind = model.exam.kind();
            let ask = match asked.about {
                About::Bird => question.ask_of(kind).to_owned(),
                About::Wound(number) => {
                    let wound = wound_name(model.protocol, &model.exam.findings, number);
                    format!("{wound}: {}", question.ask_of(kind))
                }
            };
            (ask, question.look_at(kind).to_owned())
        }
        Place::List(list) => {
            let SignList { ask, look, .. } = model.protocol.sign_list(*list);
            (ask.clone(), look.clone())
        }
        Place::Wounds => {
            let ask = if model.exam.findings.wounds() == 0 {
                "Is there a wound anywhere?"
            } else {
                "Is there another wound?"
            };
            let look = if model.exam.spares_her() {
                "Only what shows by itself. Touch nothing."
            } else {
                "Part the feathers from neck to tail, under sound wings, the thighs. Bites hide there."
            };
            (ask.into(), look.into())
        }
        Place::Instruction(..) | Place::Done => Default::default(),
    }
}

/// What one is told on coming to her, above the steps to choose from.
fn story(model: &Model) -> (String, String) {
    let trial = model.practice.as_ref().and_then(|practice| practice.trial.as_ref());
    let told = trial.map(|trial| trial.script.opens().to_owned()).unwrap_or_default();
    let ask = if model.log.is_empty() { "What do you look at first?" } else { "What do you look at next?" };
    (ask.into(), told)
}

/// What stands over the lists of practice.
fn in_practice(model: &Model) -> (String, String) {
    if let Some(writing) = model.writing {
        return birds::asked(writing);
    }
    let given = model.practice.as_ref().and_then(|practice| practice.trial.as_ref()).map(|trial| trial.given);
    let (ask, look) = match (model.overlays.last(), given) {
        (Some(Overlay::Deeds), _) => ("What do you do?", "Choose all you would do now, in order. Some of these harm."),
        (Some(Overlay::HandOver), _) => ("Is this look over?", "What is left open counts as not answered."),
        (Some(Overlay::Judging), Some(given)) => match (given.need, given.humane) {
            (None, _) => ("Your verdict: how soon does she need a vet?", "Your own, before the program shows its own."),
            (Some(_), None) => ("Has a humane end come into question?", "By what you saw, and by who can be reached."),
            (Some(_), Some(_)) => ("Does an animal-health authority have to hear of it?", "Think of the others, too."),
        },
        _ => (
            "Practice: which bird?",
            "None of these can be hurt, and nothing here touches your own birds. The first lines set up; n shows more.",
        ),
    };
    (ask.into(), look.into())
}

/// What the practice bird shows here, as it is told; where a mentor reads aloud, with the sentence to say.
fn shown(model: &Model) -> Vec<String> {
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
    let tell = if aloud { "TELL: " } else { "" };
    let line = |Shown { how, what }: &Shown| format!("{tell}{how}: {what}");
    let say = aloud.then(|| {
        let answers: Vec<String> = rows::rows(model).into_iter().map(|row| row.label).collect();
        format!("SAY: {} {}?", words(model).0, answers.join(", or "))
    });
    say.into_iter().chain(told.iter().map(line)).collect()
}

/// What is asked of a supply that is put in the house.
fn told_of(supply: &Supply) -> String {
    let what = match (supply.thin_to.is_some(), supply.dated) {
        (true, true) => "How strong, and until when? For example `10 % until 2027-03`.",
        (true, false) => "How strong? For example `10 %`.",
        (false, _) => "Until when does it count? For example `2027-03`. Enter alone if it bears no date.",
    };
    what.to_owned()
}

/// The words in question and answers that a keeper may not know, each with what it means.
pub fn terms(model: &Model, ask: &str, look: &str) -> Vec<String> {
    let rows = rows::rows(model);
    let texts = [ask, look].into_iter().chain(rows.iter().map(|row| row.label.as_str()));
    model.protocol.terms_in(texts).into_iter().map(|term| format!("{}: {}", term.term, term.means)).collect()
}

fn resume_line(model: &Model) -> String {
    let last = model.left.as_ref().and_then(|left| left.log.last());
    let at = last.map_or_else(String::new, |stamped| model.zone.local(stamped.at).format(" %a %H:%M").to_string());
    format!("go on with the bird you left{at}")
}

/// The rows to choose from, with their keys.
pub fn numbered(model: &Model, theme: Theme, width: usize, lines: &mut Lines) {
    rows_with_keys(model, theme, width, Room::Ample, lines);
}

fn rows_with_keys(model: &Model, theme: Theme, width: usize, room: Room, lines: &mut Lines) {
    let page = rows::page(model);
    let widest = page.iter().filter_map(|row| row.key.as_ref()).map(String::len).max().unwrap_or(1);
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
        let key = row.key.clone().unwrap_or_else(|| (at + 1).to_string());
        lines.add(wrapped(&row.label, width, &format!("{mark}{key:<widest$}  "), style));
    }
    let all_told = matches!(page.last().map(|row| &row.meaning), Some(rows::Meaning::LeaveList));
    let looks = model.context() == Context::Look;
    if model.context() == Context::Wounds || (looks && model.exam.place == Place::Wounds) {
        lines.add(wrapped("cannot look now: leave it open", width, " 0  ", theme.plain()));
    }
    let more = (rows::pages(model) > 1).then(|| format!("more (page {} of {})", model.page + 1, rows::pages(model)));
    let in_look = looks && matches!(model.exam.place, Place::Ask(_) | Place::List(_));
    let asks = in_look || matches!(model.context(), Context::Ask | Context::Body | Context::List);
    let cannot_tell = (asks && !all_told).then(|| cannot_tell(model));
    let line = |label: &str, first: &str| wrapped(label, width, first, theme.plain());
    match (cannot_tell, more) {
        // Where there is no room both keys share a line: neither may fall off the screen.
        (Some((mark, label)), Some(more)) if room == Room::Tight => {
            lines.add(line(&format!("{label} · n {more}"), &format!("{mark}0  ")));
        }
        (cannot_tell, more) => {
            if let Some((mark, label)) = cannot_tell {
                lines.add(line(label, &format!("{mark}0  ")));
            }
            if let Some(more) = more {
                lines.add(line(&more, " n  "));
            }
        }
    }
}

/// The mark before "cannot tell", and what it says here.
fn cannot_tell(model: &Model) -> (char, &'static str) {
    let Place::Ask(asked) = &model.exam.place else { return (' ', "cannot tell") };
    let label =
        if model.protocol.ask(asked.question).is_weight() { "cannot tell: go by her kind" } else { "cannot tell" };
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
    let example = question.figure().map_or("950 g, 1.9 kg, 4 lb 6 oz", FigureOf::example);
    let read = match model.read(question, &typed) {
        Ok(answer) => format!("read as {}; enter takes it", question.words(&answer)),
        Err(_) => format!("for example {example}"),
    };
    lines.add(wrapped(&read, width, "", theme.aside()));
}

/// That the question asked can no longer change the outcome, where that is so; it may then be skipped in one key.
fn no_longer_weighs(model: &Model) -> Option<&'static str> {
    let Place::Ask(asked) = model.exam.place else { return None };
    let hidden = !model.overlays.is_empty() || model.practice.is_some() || model.typed.is_some();
    if hidden || model.exam.standing(asked).is_some() {
        return None;
    }
    if model.protocol.ask(asked.question).adds_to.is_some() {
        return Some("s skips: this is only told to the vet");
    }
    match bearing(model.protocol, &model.exam.findings, &model.verdict, asked) {
        Bearing::Outcome => None,
        Bearing::Care => Some("s skips: this changes what to do, no longer how soon"),
        Bearing::Nothing => Some("s skips: this can change nothing any more"),
    }
}

/// The line that is being typed.
pub fn typing_line(model: &Model, theme: Theme, width: usize, lines: &mut Lines) {
    // Of a long line its end shows: that is where the next letter goes.
    let room = width.saturating_sub("TYPING  _".len());
    let typed = model.typed.clone().unwrap_or_default();
    let typed: String = typed.chars().skip(typed.chars().count().saturating_sub(room)).collect();
    lines.cursor_here();
    lines.add([Line::from(vec![
        Span::styled("TYPING  ", theme.heading()),
        Span::styled(format!("{typed}_"), theme.question()),
    ])]);
}
