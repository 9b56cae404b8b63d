//! One input, one change of the session, and what the shell has to do about it. Pure: the time comes in with the session.

mod back;
mod birds;
mod card;
mod cards;
mod choosing;
mod enough;
mod entering;
mod follow;
mod house;
mod moving;
mod novice;
mod opening;
mod practice;
mod record;
pub mod seen;
mod timing;
mod traffic;
mod wall;

pub use practice::begin;
pub use traffic::{Effect, Input};

use crate::exam::{self, Hands, Place};
use crate::finding::log::Entry;
use crate::phrase::{Phrase, Text, birds as of_birds, notice};
use crate::session::clocks;
use crate::session::context::Context;
use crate::session::draft::Draft;
use crate::session::{Face, JUDGED_AGAIN_S, Keeping, Overlay, Page, Session};
use crate::view::keys::{self, Action, Key, Untaken, resolve};
use crate::view::{clock, named};
use back::{back, close, emergency, resume};
use card::{ask_beside, end_instruction};
use choosing::{as_always, cannot_tell, choose, choose_figure, skip};
use chrono::{DateTime, Utc};
use entering::{accept, keep_draft, tap};
use moving::{move_across, move_by, to_edge, turn, turn_to_telling};
use opening::{open, overlay};
use record::record;

/// Takes one input. `session.now` must have been set to the moment of the input.
pub fn update(session: &mut Session, input: Input) -> Vec<Effect> {
    let effects = take(session, input);
    session.explain();
    effects
}

fn take(session: &mut Session, input: Input) -> Vec<Effect> {
    match input {
        Input::Key(key) => press(session, key),
        Input::Untaken(why) => {
            session.notice = Some(told(why).into());
            Vec::new()
        }
        Input::Paste(text) => entering::pasted(session, &text),
        Input::Tick => tick(session),
        Input::Jumped => entering::jumped(session),
        Input::ClockSet(by) => wall::clock_set(session, by),
        Input::Kept(at) => {
            let waiting = session.keeping.waiting.saturating_sub(1);
            session.keeping = Keeping { waiting, last: Some(at), refusal: None };
            Vec::new()
        }
        Input::Set(setting, written) => {
            session.load(setting, &written);
            Vec::new()
        }
        Input::Changed(change) => {
            session.told_here.retain(|told| *told != change);
            Vec::new()
        }
        Input::Recovered => {
            session.keeping.refusal = None;
            Vec::new()
        }
        Input::Left(case) => {
            session.left = Some(case);
            Vec::new()
        }
        Input::Parted(theirs) => birds::parted(session, theirs),
        Input::Listed(cases, all) => birds::listed(session, cases, all),
        Input::Opened(case) => birds::opened(session, case),
        Input::Waiting(waiting) => timing::heard(session, waiting),
        Input::Refused(why) => {
            session.notice = Some(why);
            Vec::new()
        }
        Input::NotKept(why) => {
            session.keeping.refusal = Some(why);
            Vec::new()
        }
    }
}

/// That a key was not taken, and why.
const fn told(why: Untaken) -> Phrase {
    match why {
        Untaken::TooSoon => notice::too_soon(),
        Untaken::NotShown => notice::not_shown(),
    }
}

/// The verdict's deadlines move with the clock; what falls due rings once.
fn tick(session: &mut Session) -> Vec<Effect> {
    let before = std::mem::replace(&mut session.ticked, session.now);
    // Before the plan moves with the clock: a test whose time has come is then put to the next look.
    let card = cards::fall_due(session, before);
    if (session.now - session.verdict.judged_at).num_seconds().abs() >= JUDGED_AGAIN_S {
        session.work_out();
        session.work_out_due();
    }
    let held = matches!(session.hands(), Hands::Held(_));
    let counted = match &mut session.draft {
        Some(Draft::Taps(taps)) => taps.settle(session.now, held),
        Some(Draft::Spill(_) | Draft::Vein(_)) | None => false,
    };
    if counted {
        session.judge();
    }
    let clock = session.timer().map(|timer| timer.ends_at);
    let looks = birds::looks_due(session);
    let still_here = enough::said_again(session);
    let due = [clocks::ends_at(session), clocks::too_long_from(session), clock, still_here];
    let crossed = |due: &DateTime<Utc>| before < *due && *due <= session.now;
    let still_here = still_here.as_ref().is_some_and(crossed);
    let look = looks.iter().find(|(at, _)| crossed(at)).map(|(_, bird)| of_birds::title_look(Text::typed(bird)));
    let left = session.flock.clocks.iter().find(|clock| crossed(&clock.ends_at));
    // What is done by the clock this minute goes before a look.
    let title = left.map(timing::rings).or(card).or(look);
    let rings = due.into_iter().flatten().any(|due| crossed(&due)) || title.is_some();
    if still_here {
        session.notice = Some(enough::still_here());
    }
    let effects = title.map(|title| Effect::Title(title.into())).into_iter();
    let effects: Vec<Effect> = effects.chain((rings || counted).then_some(Effect::Bell)).collect();
    effects.into_iter().chain(card::go_in_time(session)).collect()
}

fn press(session: &mut Session, key: Key) -> Vec<Effect> {
    let before = session.entered();
    let effects = act(session, key);
    // What is being entered moves the verdict as it is typed, and stops to when it is given up.
    if before != session.entered() {
        session.judge();
    }
    effects
}

fn act(session: &mut Session, key: Key) -> Vec<Effect> {
    let context = session.context();
    let Some((action, which)) = resolve(context, key) else {
        match (context, key) {
            (Context::Typing, Key::Char(c)) => entering::typed(session, c),
            (Context::Typing, _) => {}
            // What is asked once more still stands.
            _ if session.asked_again.is_some() || session.leaving => {}
            _ => session.notice = Some(means_nothing(context, key)),
        }
        return Vec::new();
    };
    let said_before = session.notice.take();
    let asked = std::mem::take(&mut session.leaving);
    if action != Action::Answer {
        session.flock.typed.clear();
    }
    if named::is_closed_to(session, action) {
        session.notice = Some(of_birds::is_closed().into());
        return Vec::new();
    }
    match action {
        Action::Answer if session.context() == Context::Instruction => {
            session.notice = Some(notice::steps_in_order().into());
            Vec::new()
        }
        Action::Answer if session.overlays.last() == Some(&Overlay::Flock) => choosing::by_number(session, which),
        Action::Answer if session.context() == Context::Course => cards::tick(session, which),
        Action::Answer => choose_figure(session, which),
        Action::AsAlways => as_always(session),
        Action::Choose => {
            if let Some(row) = session.cursor {
                return choose(session, row);
            }
            session.notice = Some(notice::number_first().into());
            Vec::new()
        }
        Action::CannotTell => cannot_tell(session),
        Action::GoOn if at_go(session) => card::gone(session),
        Action::GoOn | Action::AskOn => end_instruction(session),
        Action::Beside => ask_beside(session),
        Action::Accept => {
            session.notice = said_before;
            accept(session)
        }
        Action::Resume => resume(session),
        Action::More => turn(session, 1),
        Action::Back => back(session),
        Action::Close => close(session),
        Action::Edit(edit) => {
            if let Some(line) = &mut session.line {
                line.edit(edit);
            }
            Vec::new()
        }
        Action::Emergency => emergency(session),
        Action::Hands => let_her_rest(session),
        Action::Plan => cards::show(session),
        Action::Tick => cards::tick_next(session),
        Action::NextCard => cards::turn(session, 1),
        Action::CardBefore => cards::turn(session, -1),
        Action::Verdict => open(session, Face::Verdict),
        Action::Why => why(session),
        Action::Skip => skip(session),
        Action::Map => overlay(session, Overlay::Map(None)),
        Action::Tap => tap(session),
        Action::Over => {
            if let Some(Draft::Taps(taps)) = &mut session.draft {
                taps.run_over(which);
            }
            Vec::new()
        }
        Action::Telling => turn_to_telling(session),
        Action::Sums => overlay(session, Overlay::Sums(None)),
        Action::House => overlay(session, Overlay::House),
        Action::Names => birds::tell_keeper(session),
        Action::Contacts => overlay(session, Overlay::Contacts),
        Action::HandOver => hand_over(session),
        Action::Do => practice::open_deeds(session),
        Action::Judge => practice::judge(session),
        Action::Later => practice::later(session),
        Action::Birds => birds::birds(session),
        Action::Date => house::date(session),
        Action::Clock => timing::clock(session),
        Action::OnHer => overlay(session, Overlay::Page(Page::Body)),
        Action::Across(toward) => move_across(session, toward),
        Action::Law => overlay(session, Overlay::Countries),
        Action::Basis => overlay(session, Overlay::Page(Page::Basis)),
        Action::Help => overlay(session, Overlay::Help),
        Action::Up => move_by(session, -1),
        Action::Down => move_by(session, 1),
        Action::PageUp => turn(session, -1),
        Action::First => to_edge(session, false),
        Action::Last => to_edge(session, true),
        // Whoever shows it does so.
        Action::Redraw => Vec::new(),
        Action::Suspend => vec![Effect::Suspend],
        Action::Leave => leave(session, asked),
    }
}

/// That a key does nothing here, and which one shows those that do.
fn means_nothing(context: Context, key: Key) -> Text {
    let help = keys::of(context).find(|binding| binding.action == Action::Help).map(keys::Binding::label);
    let told = notice::no_such_key(key.show());
    Text::row([told].into_iter().chain(help.map(notice::keys_are_told)))
}

/// Whether it is said that it is time to go.
fn at_go(session: &Session) -> bool {
    matches!(session.exam.place, Place::Instruction(at, _) if at == session.protocol.roles.go)
}

fn let_her_rest(session: &mut Session) -> Vec<Effect> {
    let began = exam::began(session.protocol, session.protocol.roles.rest);
    match session.hands() {
        Hands::Held(_) => record(session, vec![Entry::PutDown, began]),
        Hands::NotYet | Hands::Down(_) => record(session, vec![began]),
    }
}

/// Shows the handover sheet; where it shows, writes it.
fn hand_over(session: &mut Session) -> Vec<Effect> {
    match session.overlays.last() {
        Some(Overlay::Page(Page::Handover)) => vec![Effect::WriteSheet(Box::new(session.sheet()))],
        Some(_) => Vec::new(),
        None => birds::sheet(session),
    }
}

/// Why the line under the cursor stands; without one, why the verdict is what it is.
fn why(session: &mut Session) -> Vec<Effect> {
    if let Some(Overlay::Sums(at)) = session.overlays.last().copied() {
        return if let (Some(at), Some(Ok(_))) = (at, session.answer()) {
            overlay(session, Overlay::Page(Page::Answer(at)))
        } else {
            session.notice = Some(notice::no_answer_yet().into());
            Vec::new()
        };
    }
    let line = matches!(session.shown(), Face::Verdict | Face::Plan).then_some(session.cursor).flatten();
    overlay(session, Overlay::Why(line))
}

/// Leaves; where something is half typed or a clock runs that is to ring, once that was said.
fn leave(session: &mut Session, asked: bool) -> Vec<Effect> {
    if let Some(cost) = cost_of_leaving(session).filter(|_| !asked) {
        session.leaving = true;
        session.notice = Some(cost.into());
        return Vec::new();
    }
    let mut effects = keep_draft(session);
    effects.push(Effect::Leave);
    effects
}

/// What would be lost by leaving now.
fn cost_of_leaving(session: &Session) -> Option<Phrase> {
    if session.typed().is_some_and(|typed| !typed.trim().is_empty()) {
        return Some(notice::leaves_typing());
    }
    // No clock runs for a bird on paper.
    if session.practice.is_some() {
        return None;
    }
    let step = session.timer().map(|timer| timer.left(session.now));
    let left = [step, clocks::time_left(session)].into_iter().flatten().find(|left| left.num_seconds() > 0)?;
    Some(notice::leaves_clock(clock::minutes(left.num_seconds())))
}
