//! Choosing: what each line, "as always", "cannot tell" and "not looked" say of her, and where they lead.

use super::traffic::Effect;
use super::{birds, enter, house, open_sum, overlay, pick, practice, record};
use crate::exam::{self, Place};
use crate::finding::Answer;
use crate::finding::doubt::MOST_WOUNDS;
use crate::finding::log::{Entry, Spot};
use crate::phrase::{Text, notice};
use crate::protocol::question::{Asked, ListAt};
use crate::screen::model::{Face, Model, Overlay, Page};
use crate::screen::rows::{self, ChosenBy, Meaning};

pub(super) fn choose(model: &mut Model, at: usize) -> Vec<Effect> {
    let Some(row) = rows::page(model).into_iter().nth(at) else { return Vec::new() };
    match row.meaning {
        Meaning::Answer(asked, answer) => {
            // What was asked after an instruction, answered before its time was up.
            let early = model.exam.turned && exam::put_aside(model.protocol, &model.log).is_some();
            let entries = exam::answer(model.protocol, &model.exam, asked, answer, model.now);
            let calls_up = entries.iter().any(|entry| matches!(entry, Entry::Began(_)));
            let Some(entries) = asked_again(model, entries) else { return Vec::new() };
            let effects = record(model, entries);
            if early && !calls_up && model.notice.is_none() {
                model.notice = Some(notice::time_not_up().into());
            }
            effects
        }
        Meaning::Sign(asked, sign) => {
            let entries = exam::choose_sign(model.protocol, &model.exam, asked, &sign, model.now);
            if entries.is_empty() {
                model.notice = Some(notice::taken_already().into());
                return Vec::new();
            }
            record(model, entries)
        }
        Meaning::NextPage(list) => {
            let entry = exam::none_of_these(model.protocol, &model.exam, &signs_of_page(model, list));
            of_page(model, list, entry)
        }
        Meaning::NoneOfTheRest(list) => {
            let entry = exam::none_of_the_rest(model.protocol, &model.exam, list);
            let leave = model.exam.turned.then_some(Entry::Went(None));
            record_told(model, entry.into_iter().chain(leave).collect())
        }
        Meaning::LeaveList => record(model, vec![Entry::Went(None)]),
        Meaning::Type => {
            model.typed = Some(String::new());
            Vec::new()
        }
        Meaning::Enter(of) => enter(model, of),
        Meaning::Pick(at) => pick(model, at),
        Meaning::Sum(at) => open_sum(model, at),
        Meaning::Value(at) => {
            model.field = at;
            model.typed = Some(String::new());
            Vec::new()
        }
        Meaning::InFull => model.overlays.last().copied().map_or_else(Vec::new, |top| match top {
            Overlay::Sums(Some(at)) => overlay(model, Overlay::Page(Page::Answer(at))),
            _ => Vec::new(),
        }),
        Meaning::FoundWound => found_wound(model),
        Meaning::LeaveWounds => skip(model),
        Meaning::LookedOver => record_told(model, vec![Entry::LookedOver]),
        Meaning::Step(step) => {
            if model.practice.is_some() && practice::turn_to_step(model, step) {
                return Vec::new();
            }
            model.overlays.pop();
            overlay(model, Overlay::Map(Some(step)))
        }
        Meaning::GoTo(asked) => {
            let spot = model.exam.spot(asked);
            turn_to(model, Some(spot))
        }
        Meaning::Country(id) => {
            let change = model.choose_country(model.protocol.country(id.as_str()));
            model.overlays.pop();
            model.overlays.push(Overlay::Page(Page::Law));
            model.look_afresh();
            vec![Effect::Change(change)]
        }
        Meaning::Supply(at) => house::turn(model, at),
        Meaning::Case(doing) => birds::act(model, doing),
        Meaning::Practice(what) => practice::act(model, what),
        Meaning::AsLastTime(list) => {
            let entry = exam::as_last_time(model.protocol, &model.exam, list);
            record(model, entry.into_iter().collect())
        }
        Meaning::Contacts => overlay(model, Overlay::Contacts),
        Meaning::Kit => overlay(model, Overlay::Page(Page::Kit)),
        Meaning::Label => house::label(model),
        Meaning::GoToWounds => {
            let spot = model.exam.wounds_spot();
            turn_to(model, spot)
        }
    }
}

/// Records what a choice says of her, unless it is to be asked once more first.
fn record_told(model: &mut Model, entries: Vec<Entry>) -> Vec<Effect> {
    asked_again(model, entries).map_or_else(Vec::new, |entries| record(model, entries))
}

/// The entries as they are taken; none where that is asked once more first, for somebody said that something shows on her and it
/// is passed over where it would stand, or could no longer be found. At a later look it may have healed, and is taken back without a word.
fn asked_again(model: &mut Model, entries: Vec<Entry>) -> Option<Vec<Entry>> {
    let signs = model.exam.contradicted(&model.log, &entries, model.now);
    let again = model.asked_again.take().is_some_and(|before| before == entries);
    let first = signs.first().copied().or_else(|| model.exam.passed_over(&entries));
    let Some(first) = first.filter(|_| !again && !model.exam.is_look()) else {
        return Some(exam::taken_back(model.protocol, &signs, entries));
    };
    let told = model.protocol.ask(first).choices.last().map(|yes| Text::quoted(&yes.say))?;
    model.asked_again = Some(entries);
    model.notice = Some(notice::told_before(told).into());
    None
}

/// Chooses the line of this figure, counted from 0.
pub(super) fn choose_figure(model: &mut Model, figure: usize) -> Vec<Effect> {
    if let Some(at) = rows::at_figure(&rows::page(model), figure) {
        return choose(model, at);
    }
    model.notice = Some(notice::no_line(figure + 1).into());
    Vec::new()
}

/// Says that one looked, and that it is as always.
pub(super) fn as_always(model: &mut Model) -> Vec<Effect> {
    if let Some(at) = rows::page(model).iter().position(|row| row.by == ChosenBy::Always) {
        return choose(model, at);
    }
    model.notice = Some(notice::no_always().into());
    Vec::new()
}

pub(super) fn turn_to(model: &mut Model, spot: Option<Spot>) -> Vec<Effect> {
    model.overlays.clear();
    model.face = Face::Exam;
    record(model, vec![Entry::Went(spot)])
}

/// The signs on the page of a list that shows; on its last one, of all of it.
fn signs_of_page(model: &Model, list: ListAt) -> Vec<Asked> {
    if model.page + 1 >= rows::pages(model) {
        return model.exam.signs(list);
    }
    let signs = rows::page(model).into_iter().filter_map(|row| match row.meaning {
        Meaning::Sign(asked, _) => Some(asked),
        _ => None,
    });
    signs.collect()
}

/// Shows the first page of a list on which something was neither said nor passed over.
pub(super) fn turn_to_open_page(model: &mut Model) {
    let Place::List(list) = model.exam.place else { return };
    let lines = |asked: &Asked| model.protocol.ask(asked.question).choices.len().saturating_sub(1);
    let is_done = |asked: &Asked| model.exam.said_now(*asked).is_some() || model.exam.was_skipped(*asked);
    let signs = model.exam.signs(list);
    if model.overlays.is_empty() && !signs.iter().all(is_done) {
        model.page = signs.iter().take_while(|asked| is_done(asked)).map(lines).sum::<usize>() / rows::PAGE;
    }
}

/// Records what a page of a list comes to, and shows the next one: what was not shown yet is not answered with it.
fn of_page(model: &mut Model, list: ListAt, entry: Option<Entry>) -> Vec<Effect> {
    let next = (model.page + 1 < rows::pages(model)).then_some(model.page + 1);
    let effects = record(model, entry.into_iter().collect());
    if let Some(next) = next.filter(|_| model.exam.place == Place::List(list)) {
        model.page = next;
    }
    effects
}

pub(super) fn cannot_tell(model: &mut Model) -> Vec<Effect> {
    match model.exam.place.clone() {
        Place::Ask(asked) => {
            let entries = exam::answer(model.protocol, &model.exam, asked, Answer::CannotTell, model.now);
            record(model, entries)
        }
        Place::List(list) => {
            let entry = exam::cannot_tell_these(model.protocol, &model.exam, &signs_of_page(model, list));
            of_page(model, list, entry)
        }
        // Who cannot look for wounds leaves them open.
        Place::Wounds => skip(model),
        Place::Instruction(..) | Place::Done => Vec::new(),
    }
}

pub(super) fn found_wound(model: &mut Model) -> Vec<Effect> {
    if model.exam.findings.wounds() >= MOST_WOUNDS {
        model.notice = Some(notice::most_wounds().into());
        return Vec::new();
    }
    record(model, vec![Entry::FoundWound])
}

pub(super) fn skip(model: &mut Model) -> Vec<Effect> {
    let spots: Vec<Spot> = match model.exam.place.clone() {
        Place::Ask(asked) => vec![model.exam.spot(asked)],
        Place::List(list) => {
            let unsaid = |asked: &Asked| model.exam.said_now(*asked).is_none();
            let open = signs_of_page(model, list).into_iter().filter(unsaid);
            let spots: Vec<Spot> = open.map(|asked| model.exam.spot(asked)).collect();
            let skipped = if spots.is_empty() { Entry::Went(None) } else { Entry::Skipped(spots) };
            return of_page(model, list, Some(skipped));
        }
        Place::Wounds => model.exam.wounds_spot().into_iter().collect(),
        Place::Instruction(..) | Place::Done => Vec::new(),
    };
    record(model, vec![if spots.is_empty() { Entry::Went(None) } else { Entry::Skipped(spots) }])
}
