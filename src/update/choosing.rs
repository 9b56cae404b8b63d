//! Choosing: what each line, "as always", "cannot tell" and "not looked" say of her, and where they lead.

use super::entering::{enter, open_sum, pick};
use super::opening::overlay;
use super::record::record;
use super::traffic::Effect;
use super::{birds, house, practice};
use crate::exam::{self, Place};
use crate::finding::Answer;
use crate::finding::doubt::MOST_WOUNDS;
use crate::finding::log::{Entry, Spot};
use crate::phrase::{Text, birds as of_birds, notice};
use crate::protocol::question::{Asked, ListAt};
use crate::session::line::TypingOf;
use crate::session::{Face, Overlay, Page, Session};
use crate::view::keys::Action;
use crate::view::line::{ChosenBy, Row};
use crate::view::meaning::{Doing, Meaning};
use crate::view::named;
use crate::view::rows::{self, PAGE};

pub(super) fn choose(session: &mut Session, at: usize) -> Vec<Effect> {
    let Some(row) = rows::page(session).into_iter().nth(at) else { return Vec::new() };
    match row.meaning {
        Meaning::Answer(asked, answer) => {
            // What was asked after an instruction, answered before its time was up.
            let early = session.exam.turned && exam::put_aside(session.protocol, &session.log).is_some();
            let entries = exam::answer(session.protocol, &session.exam, asked, answer, session.now);
            let calls_up = entries.iter().any(|entry| matches!(entry, Entry::Began(_)));
            let Some(entries) = asked_again(session, entries) else { return Vec::new() };
            let effects = record(session, entries);
            if early && !calls_up && session.notice.is_none() {
                session.notice = Some(notice::time_not_up().into());
            }
            effects
        }
        Meaning::Sign(asked, sign) if exam::graver_stands(session.protocol, &session.exam, asked, &sign) => {
            // Both can be seen of her at once, and the one counts that is worse.
            let back = named::key(session, Action::Back).map(notice::takes_back);
            session.notice = Some(Text::row([notice::graver_stands()].into_iter().chain(back)));
            Vec::new()
        }
        Meaning::Sign(asked, sign) => {
            let entries = exam::choose_sign(session.protocol, &session.exam, asked, &sign, session.now);
            if entries.is_empty() {
                session.notice = Some(notice::taken_already().into());
                return Vec::new();
            }
            record(session, entries)
        }
        Meaning::NextPage(list) => {
            let entry = exam::none_of_these(session.protocol, &session.exam, &signs_of_page(session, list));
            of_page(session, list, entry)
        }
        Meaning::NoneOfTheRest(list) => {
            let entry = exam::none_of_the_rest(session.protocol, &session.exam, list);
            let leave = session.exam.turned.then_some(Entry::Went(None));
            record_told(session, entry.into_iter().chain(leave).collect())
        }
        Meaning::LeaveList => record(session, vec![Entry::Went(None)]),
        Meaning::Type => {
            session.begin_line(TypingOf::Answer);
            Vec::new()
        }
        Meaning::Enter(of) => enter(session, of),
        Meaning::Pick(at) => pick(session, at),
        Meaning::Sum(at) => open_sum(session, at),
        Meaning::Value(at) => {
            session.begin_line(TypingOf::Value(at));
            Vec::new()
        }
        Meaning::InFull => session.overlays.last().copied().map_or_else(Vec::new, |top| match top {
            Overlay::Sums(Some(at)) => overlay(session, Overlay::Page(Page::Answer(at))),
            _ => Vec::new(),
        }),
        Meaning::FoundWound => found_wound(session),
        Meaning::LeaveWounds => skip(session),
        Meaning::LookedOver => record_told(session, vec![Entry::LookedOver]),
        Meaning::Step(step) => {
            if session.practice.is_some() && practice::turn_to_step(session, step) {
                return Vec::new();
            }
            session.overlays.pop();
            overlay(session, Overlay::Map(Some(step)))
        }
        Meaning::GoTo(asked) => {
            let spot = session.exam.spot(asked);
            turn_to(session, Some(spot))
        }
        Meaning::Country(id) => {
            let change = session.choose_country(session.protocol.country(id.as_str()));
            session.overlays.pop();
            session.overlays.push(Overlay::Page(Page::Law));
            session.look_afresh();
            vec![Effect::Change(change)]
        }
        Meaning::Supply(at) => house::turn(session, at),
        Meaning::Case(doing) => birds::act(session, doing),
        Meaning::Practice(what) => practice::act(session, what),
        Meaning::AsLastTime(list) => {
            let entry = exam::as_last_time(session.protocol, &session.exam, list);
            record(session, entry.into_iter().collect())
        }
        Meaning::Contacts => overlay(session, Overlay::Contacts),
        Meaning::Kit => overlay(session, Overlay::Page(Page::Kit)),
        Meaning::Label => house::label(session),
        Meaning::GoToWounds => {
            let spot = session.exam.wounds_spot();
            turn_to(session, spot)
        }
    }
}

/// Records what a choice says of her, unless it is to be asked once more first.
fn record_told(session: &mut Session, entries: Vec<Entry>) -> Vec<Effect> {
    asked_again(session, entries).map_or_else(Vec::new, |entries| record(session, entries))
}

/// The entries as they are taken; none where that is asked once more first, for somebody said that something shows on her and it
/// is passed over where it would stand, or could no longer be found. At a later look it may have healed, and is taken back without a word.
fn asked_again(session: &mut Session, entries: Vec<Entry>) -> Option<Vec<Entry>> {
    let signs = session.exam.contradicted(&session.log, &entries, session.now);
    let again = session.asked_again.take().is_some_and(|before| before == entries);
    let first = signs.first().copied().or_else(|| session.exam.passed_over(&entries));
    let Some(first) = first.filter(|_| !again && !session.exam.is_look()) else {
        return Some(exam::taken_back(session.protocol, &signs, entries));
    };
    let told = session.protocol.ask(first).choices.last().map(|yes| Text::quoted(&yes.say))?;
    session.asked_again = Some(entries);
    session.notice = Some(notice::told_before(told).into());
    None
}

/// Chooses the line of this figure, counted from 0.
pub(super) fn choose_figure(session: &mut Session, figure: usize) -> Vec<Effect> {
    if let Some(at) = rows::at_figure(&rows::page(session), figure) {
        return choose(session, at);
    }
    session.notice = Some(notice::no_line(figure + 1).into());
    Vec::new()
}

/// Says that one looked, and that it is as always.
pub(super) fn as_always(session: &mut Session) -> Vec<Effect> {
    if let Some(at) = rows::page(session).iter().position(|row| row.by == ChosenBy::Always) {
        return choose(session, at);
    }
    session.notice = Some(notice::no_always().into());
    Vec::new()
}

pub(super) fn turn_to(session: &mut Session, spot: Option<Spot>) -> Vec<Effect> {
    session.overlays.clear();
    session.face = Face::Exam;
    record(session, vec![Entry::Went(spot)])
}

/// The signs on the page of a list that shows; on its last one, of all of it.
fn signs_of_page(session: &Session, list: ListAt) -> Vec<Asked> {
    if session.page + 1 >= rows::pages(session) {
        return session.exam.signs(list);
    }
    let signs = rows::page(session).into_iter().filter_map(|row| match row.meaning {
        Meaning::Sign(asked, _) => Some(asked),
        _ => None,
    });
    signs.collect()
}

/// Records what a page of a list comes to, and shows the next one: what was not shown yet is not answered with it.
fn of_page(session: &mut Session, list: ListAt, entry: Option<Entry>) -> Vec<Effect> {
    let next = (session.page + 1 < rows::pages(session)).then_some(session.page + 1);
    let effects = record(session, entry.into_iter().collect());
    if let Some(next) = next.filter(|_| session.exam.place == Place::List(list)) {
        session.page = next;
    }
    effects
}

pub(super) fn cannot_tell(session: &mut Session) -> Vec<Effect> {
    match session.exam.place.clone() {
        Place::Ask(asked) => {
            let entries = exam::answer(session.protocol, &session.exam, asked, Answer::CannotTell, session.now);
            record(session, entries)
        }
        Place::List(list) => {
            let entry = exam::cannot_tell_these(session.protocol, &session.exam, &signs_of_page(session, list));
            of_page(session, list, entry)
        }
        // Who cannot look for wounds leaves them open.
        Place::Wounds => skip(session),
        Place::Instruction(..) | Place::Done => Vec::new(),
    }
}

pub(super) fn found_wound(session: &mut Session) -> Vec<Effect> {
    if session.exam.findings.wounds() >= MOST_WOUNDS {
        session.notice = Some(notice::most_wounds().into());
        return Vec::new();
    }
    record(session, vec![Entry::FoundWound])
}

pub(super) fn skip(session: &mut Session) -> Vec<Effect> {
    let spots: Vec<Spot> = match session.exam.place.clone() {
        Place::Ask(asked) => vec![session.exam.spot(asked)],
        Place::List(list) => {
            let unsaid = |asked: &Asked| session.exam.said_now(*asked).is_none();
            let open = signs_of_page(session, list).into_iter().filter(unsaid);
            let spots: Vec<Spot> = open.map(|asked| session.exam.spot(asked)).collect();
            let skipped = if spots.is_empty() { Entry::Went(None) } else { Entry::Skipped(spots) };
            return of_page(session, list, Some(skipped));
        }
        Place::Wounds => session.exam.wounds_spot().into_iter().collect(),
        Place::Instruction(..) | Place::Done => Vec::new(),
    };
    record(session, vec![if spots.is_empty() { Entry::Went(None) } else { Entry::Skipped(spots) }])
}

/// A figure in the list of birds: the first lines have fixed numbers; else the bird who bears the number, wherever she stands.
/// A number of one figure opens her at once; one of several brings the cursor to her, and enter opens her.
pub(super) fn by_number(session: &mut Session, which: usize) -> Vec<Effect> {
    if session.flock.typed.is_empty() && which < rows::TOOLS {
        session.page = 0;
        return choose(session, which);
    }
    let typed = format!("{}{}", session.flock.typed, which + 1);
    let rows = rows::rows(session);
    let of = |row: &Row| row.number().is_some_and(|number| *number == *typed);
    if let Some((place, row)) = rows.iter().enumerate().find(|(_, row)| of(row)) {
        session.flock.typed.clear();
        let meaning = row.meaning.clone();
        return match meaning {
            Meaning::Case(Doing::Open(id)) if typed.len() == 1 => vec![Effect::Open(id)],
            _ => {
                (session.page, session.cursor) = (place / PAGE, Some(place % PAGE));
                session.notice = Some(of_birds::number_opens(Text::typed(typed)).into());
                Vec::new()
            }
        };
    }
    let begins = |row: &Row| row.number().is_some_and(|number| number.starts_with(&typed));
    if rows.iter().any(begins) {
        session.notice = Some(of_birds::number_goes_on(Text::typed(&typed)).into());
        session.flock.typed = typed;
    } else {
        session.notice = Some(of_birds::number_none(Text::typed(typed)).into());
        session.flock.typed.clear();
    }
    Vec::new()
}
