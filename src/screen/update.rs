//! One input, one change of the model, and what the shell has to do about it. Pure: the time comes in with the model.

mod back;
mod birds;
mod card;
mod cards;
mod choosing;
mod enough;
mod entering;
mod house;
mod moving;
mod practice;
mod timing;
mod traffic;

pub use birds::{Closing, DeathSeen, Doing, Writing, sure_word};
pub use practice::{Practising, begin};
pub use traffic::{Effect, Input};

use super::draft::Draft;
use super::keys::{Action, Context, Key, Untaken, resolve};
use super::model::{Face, JUDGED_AGAIN_S, Keeping, Model, Overlay, Page};
use super::pane::{self, instruction, named};
use crate::exam::{self, Hands, Place};
use crate::finding::log::{Entry, Stamped, standing};
use crate::judge::{Held, Reason, Standing};
use crate::phrase::{Phrase, Text, birds as of_birds, lesson, notice};
use crate::protocol::scale::Authority;
use back::{back, close, emergency, resume};
use card::{ask_beside, end_instruction};
use choosing::{as_always, cannot_tell, choose, choose_figure, skip};
use chrono::{DateTime, Utc};
use entering::{accept, enter, keep_draft, open_sum, pick, tap};
use moving::{more, move_across, move_by, page_height, scroll_by, turn_to_telling};

/// Takes one input. `model.now` must have been set to the moment of the input.
pub fn update(model: &mut Model, input: Input) -> Vec<Effect> {
    let effects = take(model, input);
    model.explain();
    effects
}

fn take(model: &mut Model, input: Input) -> Vec<Effect> {
    match input {
        Input::Key(key) => press(model, key),
        Input::Untaken(why) => {
            model.notice = Some(told(why).into());
            Vec::new()
        }
        Input::Paste(text) => entering::pasted(model, &text),
        Input::Size(columns, rows) => {
            model.size = (columns, rows);
            Vec::new()
        }
        Input::Tick => tick(model),
        Input::Jumped => entering::jumped(model),
        Input::Kept(at) => {
            let waiting = model.keeping.waiting.saturating_sub(1);
            model.keeping = Keeping { waiting, last: Some(at), refusal: None };
            Vec::new()
        }
        Input::Set(setting, written) => {
            model.load(setting, &written);
            Vec::new()
        }
        Input::Changed(change) => {
            model.told_here.retain(|told| *told != change);
            Vec::new()
        }
        Input::Recovered => {
            model.keeping.refusal = None;
            Vec::new()
        }
        Input::Left(case) => {
            model.left = Some(case);
            Vec::new()
        }
        Input::Parted(theirs) => birds::parted(model, theirs),
        Input::Listed(cases, all) => birds::listed(model, cases, all),
        Input::Opened(case) => birds::opened(model, case),
        Input::Waiting(waiting) => timing::heard(model, waiting),
        Input::Refused(why) => {
            model.notice = Some(why);
            Vec::new()
        }
        Input::NotKept(why) => {
            model.keeping.refusal = Some(why);
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
fn tick(model: &mut Model) -> Vec<Effect> {
    let before = std::mem::replace(&mut model.ticked, model.now);
    // Before the plan moves with the clock: a test whose time has come is then put to the next look.
    let card = cards::fall_due(model, before);
    if (model.now - model.verdict.judged_at).num_seconds().abs() >= JUDGED_AGAIN_S {
        model.work_out();
        model.work_out_due();
    }
    let held = matches!(model.hands(), Hands::Held(_));
    let counted = match &mut model.draft {
        Some(Draft::Taps(taps)) => taps.settle(model.now, held),
        Some(Draft::Spill(_) | Draft::Vein(_)) | None => false,
    };
    if counted {
        model.judge();
    }
    let clock = model.timer().map(|timer| timer.ends_at);
    let looks = birds::looks_due(model);
    let still_here = enough::said_again(model);
    let due = [pane::instruction::ends_at(model), pane::header::too_long_from(model), clock, still_here];
    let crossed = |due: &DateTime<Utc>| before < *due && *due <= model.now;
    let still_here = still_here.as_ref().is_some_and(crossed);
    let look = looks.iter().find(|(at, _)| crossed(at)).map(|(_, bird)| of_birds::title_look(Text::typed(bird)));
    let left = model.flock.clocks.iter().find(|clock| crossed(&clock.ends_at));
    // What is done by the clock this minute goes before a look.
    let title = left.map(timing::rings).or(card).or(look);
    let rings = due.into_iter().flatten().any(|due| crossed(&due)) || title.is_some();
    if still_here {
        model.notice = Some(enough::still_here());
    }
    let effects = title.map(|title| Effect::Title(title.into())).into_iter();
    let effects: Vec<Effect> = effects.chain((rings || counted).then_some(Effect::Bell)).collect();
    effects.into_iter().chain(enough::go_in_time(model)).collect()
}

fn press(model: &mut Model, key: Key) -> Vec<Effect> {
    let before = model.entered();
    let effects = act(model, key);
    // What is being entered moves the verdict as it is typed, and stops to when it is given up.
    if before != model.entered() {
        model.judge();
    }
    effects
}

fn act(model: &mut Model, key: Key) -> Vec<Effect> {
    let context = model.context();
    let Some((action, which)) = resolve(context, key) else {
        if let (Context::Typing, Key::Char(c)) = (context, key) {
            entering::typed(model, c);
        }
        return Vec::new();
    };
    let said_before = model.notice.take();
    if action != Action::Answer {
        model.flock.typed.clear();
    }
    if named::is_closed_to(model, action) {
        model.notice = Some(of_birds::is_closed().into());
        return Vec::new();
    }
    match action {
        Action::Answer if model.context() == Context::Instruction => {
            model.notice = Some(notice::steps_in_order().into());
            Vec::new()
        }
        Action::Answer if model.overlays.last() == Some(&Overlay::Flock) => birds::by_number(model, which),
        Action::Answer if model.context() == Context::Course => cards::tick(model, which),
        Action::Answer => choose_figure(model, which),
        Action::AsAlways => as_always(model),
        Action::Choose => {
            if let Some(row) = model.cursor {
                return choose(model, row);
            }
            model.notice = Some(notice::number_first().into());
            Vec::new()
        }
        Action::CannotTell => cannot_tell(model),
        Action::GoOn if at_go(model) => enough::gone(model),
        Action::GoOn | Action::AskOn => end_instruction(model),
        Action::Beside => ask_beside(model),
        Action::Accept => {
            model.notice = said_before;
            accept(model)
        }
        Action::Resume => resume(model),
        Action::More => more(model),
        Action::Back => back(model),
        Action::Close => close(model),
        Action::Erase => {
            model.typed.as_mut().map(String::pop);
            Vec::new()
        }
        Action::Emergency => emergency(model),
        Action::Hands => let_her_rest(model),
        Action::Plan => cards::show(model),
        Action::Tick => cards::tick_next(model),
        Action::NextCard => cards::turn(model, 1),
        Action::CardBefore => cards::turn(model, -1),
        Action::Verdict => open(model, Face::Verdict),
        Action::Why => why(model),
        Action::Skip => skip(model),
        Action::Map => overlay(model, Overlay::Map(None)),
        Action::Tap => tap(model),
        Action::Over => {
            if let Some(Draft::Taps(taps)) = &mut model.draft {
                taps.run_over(which);
            }
            Vec::new()
        }
        Action::Telling => turn_to_telling(model),
        Action::Sums => overlay(model, Overlay::Sums(None)),
        Action::House => overlay(model, Overlay::House),
        Action::Names => birds::tell_keeper(model),
        Action::Contacts => overlay(model, Overlay::Contacts),
        Action::HandOver => hand_over(model),
        Action::Do => practice::open_deeds(model),
        Action::Judge => practice::judge(model),
        Action::Later => practice::later(model),
        Action::Birds => birds::birds(model),
        Action::Date => house::date(model),
        Action::Clock => timing::clock(model),
        Action::OnHer => overlay(model, Overlay::Page(Page::Body)),
        Action::Across(toward) => move_across(model, toward),
        Action::Law => overlay(model, Overlay::Countries),
        Action::Basis => overlay(model, Overlay::Page(Page::Basis)),
        Action::Help => overlay(model, Overlay::Help),
        Action::Up => move_by(model, -1),
        Action::Down => move_by(model, 1),
        Action::PageUp => scroll_by(model, -page_height(model)),
        Action::Suspend => vec![Effect::Suspend],
        Action::Leave => {
            let mut effects = keep_draft(model);
            effects.push(Effect::Leave);
            effects
        }
    }
}

/// Records entries, adds what follows from them by itself, and asks the shell to keep it all.
fn record(model: &mut Model, entries: Vec<Entry>) -> Vec<Effect> {
    let step_before = model.exam.step();
    let mut kept: Vec<Stamped> = entries.into_iter().map(|entry| record_whole(model, entry)).collect();
    let scripted = model.practice.as_ref().is_some_and(|practice| practice.on().is_some());
    if let Some(entry) = authority_call(model).filter(|_| !scripted) {
        kept.push(model.record(entry));
    }
    if let Some(entry) = grave_question(model).filter(|_| !scripted) {
        kept.push(model.record(entry));
    }
    if let Some(entry) = enough::go(model) {
        // It fills the screen, whatever showed: a card that was ticked off to the end as well.
        model.face = Face::Exam;
        kept.push(model.record(entry));
    }
    if let Some(entry) = birds::look_done(model) {
        kept.push(model.record(entry));
    }
    if let Some(entry) = clock_on_the_card(model) {
        kept.push(model.record(entry));
    }
    model.work_out_due();
    let handled = handling(model);
    if let Some(entry) = handled.clone() {
        kept.push(model.record(entry));
    }
    model.look_afresh();
    choosing::turn_to_open_page(model);
    model.notice = match handled {
        Some(Entry::PickedUp) => Some(taken_up(model).into()),
        // Who presses goes on pressing, in the hand or not.
        Some(Entry::PutDown) if instruction::pressing(model).is_none() => Some(notice::set_her_down().into()),
        _ => None,
    };
    if model.practice.is_some() {
        // Nothing of practice goes to the ledger.
        let notice = model.notice.take();
        if practice::took_back(model) {
            practice::follow_back(model);
        } else {
            practice::after(model, step_before);
        }
        model.notice = model.notice.take().or(notice);
        return Vec::new();
    }
    enough::show_card(model);
    birds::ask_about_parting(model);
    model.keeping.waiting += kept.len();
    kept.into_iter().map(Effect::Keep).collect()
}

/// Records an entry; an answer together with what can then not be told either.
fn record_whole(model: &mut Model, entry: Entry) -> Stamped {
    let Entry::Said(said) = entry else { return model.record(entry) };
    let stamped = Stamped { at: model.now, entry: Entry::Said(said.clone()) };
    let log: Vec<Stamped> = model.log.iter().cloned().chain([stamped]).collect();
    // What was answered by the person stands last: it is what an instruction is called up by.
    model.record(Entry::Said(exam::untold(model.protocol, &log).into_iter().chain(said).collect()))
}

/// A card that comes on screen brings its own clock: one that runs for the same step ends.
fn clock_on_the_card(model: &Model) -> Option<Entry> {
    let on_the_card = &model.protocol.action(pane::instruction::timed(model)?).id;
    (*on_the_card == model.timer()?.action).then_some(Entry::ClockEnded)
}

/// Signs of a notifiable disease interrupt once, as soon as they are found.
fn authority_call(model: &Model) -> Option<Entry> {
    let began = exam::began(model.protocol, model.protocol.roles.authority);
    let called = standing(&model.log).iter().any(|stamped| stamped.entry == began);
    let call = model.verdict.authority.low == Authority::CallNow && !called;
    call.then_some(began)
}

/// Where a humane end hangs on one more answer, that question comes next; but never before the danger signs are done with,
/// nor in place of what was turned to.
fn grave_question(model: &Model) -> Option<Entry> {
    let here = match &model.exam.place {
        Place::Ask(asked) => Some(*asked),
        Place::Wounds | Place::Done => None,
        Place::List(list) if *list != model.protocol.roles.danger_signs => None,
        Place::List(_) | Place::Instruction(..) => return None,
    };
    // A sign that could not be told hangs a humane end on nothing: only what was seen is asked about before the rest.
    let seen = |held: &&Held| {
        let of = |reason: &&Reason| reason.rule == held.rule && reason.standing == Standing::ExceptionOpen;
        model.verdict.reasons.iter().any(|reason| of(&reason))
    };
    let asks = model.verdict.held.iter().filter(seen).flat_map(|held| &held.ask);
    let next = asks.copied().find(|asked| !model.exam.was_skipped(*asked))?;
    (here != Some(next) && !model.exam.turned).then(|| Entry::Turned(model.exam.spot(next)))
}

/// How she is taken in the hand.
fn taken_up(model: &Model) -> Phrase {
    if model.exam.fits_a_fist() { notice::take_in_fist() } else { notice::take_in_hand() }
}

/// The clock of the hand starts with the first look that needs it, and stops with the last.
fn handling(model: &Model) -> Option<Entry> {
    if matches!(model.exam.place, Place::Instruction(..)) {
        return None;
    }
    // The danger signs, or a question turned to, are looked at with the bird still in the hand.
    let passing = model.exam.turned || matches!(model.exam.place, Place::List(_));
    // A bird that may not bear it is only looked at; if she is held all the same, `p` starts her rest.
    match (model.exam.wants_hands() && !model.exam.spares_her(), model.hands()) {
        (true, Hands::NotYet | Hands::Down(_)) => Some(Entry::PickedUp),
        (false, Hands::Held(_)) if !passing => Some(Entry::PutDown),
        _ => None,
    }
}

/// Whether it is said that it is time to go.
fn at_go(model: &Model) -> bool {
    matches!(model.exam.place, Place::Instruction(at, _) if at == model.protocol.roles.go)
}

fn let_her_rest(model: &mut Model) -> Vec<Effect> {
    let began = exam::began(model.protocol, model.protocol.roles.rest);
    match model.hands() {
        Hands::Held(_) => record(model, vec![Entry::PutDown, began]),
        Hands::NotYet | Hands::Down(_) => record(model, vec![began]),
    }
}

fn open(model: &mut Model, face: Face) -> Vec<Effect> {
    if model.practice.is_some() {
        model.notice = Some(lesson::verdict_first().into());
        return Vec::new();
    }
    model.face = face;
    model.look_afresh();
    Vec::new()
}

/// Shows the handover sheet; where it shows, writes it.
fn hand_over(model: &mut Model) -> Vec<Effect> {
    match model.overlays.last() {
        Some(Overlay::Page(Page::Handover)) => vec![Effect::WriteSheet(Box::new(model.sheet()))],
        Some(_) => Vec::new(),
        None => birds::sheet(model),
    }
}

fn overlay(model: &mut Model, overlay: Overlay) -> Vec<Effect> {
    model.overlays.push(overlay);
    model.look_afresh();
    Vec::new()
}

/// Why the line under the cursor stands; without one, why the verdict is what it is.
fn why(model: &mut Model) -> Vec<Effect> {
    if let Some(Overlay::Sums(at)) = model.overlays.last().copied() {
        return if let (Some(at), Some(Ok(_))) = (at, model.answer()) {
            overlay(model, Overlay::Page(Page::Answer(at)))
        } else {
            model.notice = Some(notice::no_answer_yet().into());
            Vec::new()
        };
    }
    let line = matches!(model.shown(), Face::Verdict | Face::Plan).then_some(model.cursor).flatten();
    overlay(model, Overlay::Why(line))
}
