//! The top line: which bird, how long she has been in the hand, whether all is kept.

use super::clock::{self, Press};
use super::{instruction, named};
use crate::content::answers;
use crate::days;
use crate::days::due::Running;
use crate::exam::{self, Hands, Place, Timer};
use crate::finding::About;
use crate::phrase::{Phrase, Text, clock as of_clock, header as phrase, terms};
use crate::protocol::action::Action;
use crate::screen::keys::{Action as Key, Context};
use crate::screen::model::Model;
use crate::screen::theme::Theme;
use crate::screen::wrap::{cut, wrapped};
use chrono::{DateTime, TimeDelta, Utc};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// From these columns on, the program's name stands beside the bird.
const ROOM_FOR_BOTH: usize = 56;

/// A warning takes at most so many lines: what could not be kept says what to do about it.
const MOST: usize = 3;

/// Draws the header in one line; those below, where there are any, warn.
pub fn draw(model: &Model, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width);
    let bird = model.say(bird(model, width));
    let right = right(model, width.saturating_sub(bird.chars().count() + 2));
    let left = cut(&bird, width.saturating_sub(right.chars().count() + 2));
    buffer.set_line(area.x, area.y, &Line::from(Span::styled(left, theme.question())), area.width);
    let style = if held_too_long(model) { theme.urgent() } else { theme.aside() };
    let x = area.right().saturating_sub(u16::try_from(right.chars().count()).unwrap_or(0));
    buffer.set_line(x.max(area.x), area.y, &Line::from(Span::styled(cut(&right, width), style)), area.width);
    let warning = warning(model).map(|warning| model.say(warning));
    let warnings = warning.map_or_else(Vec::new, |warning| wrapped(&warning, width, "", theme.urgent()));
    for (line, y) in warnings.iter().take(MOST).zip(area.y + 1..area.bottom()) {
        buffer.set_line(area.x, y, line, area.width);
    }
}

/// How many lines the header takes: one, and those of the warning.
pub fn height(model: &Model, width: u16) -> u16 {
    let plain = Theme { colour: false };
    let warning = warning(model).map(|warning| model.say(warning));
    let lines = warning.map_or(0, |warning| wrapped(&warning, usize::from(width), "", plain.urgent()).len());
    1 + u16::try_from(lines.min(MOST)).unwrap_or(0)
}

/// The clocks and whether all is kept. Where there is no room for all of it, "saved" gives way first: what is not is told in
/// any case.
fn right(model: &Model, room: usize) -> String {
    // On a phone there is room for one clock only, and that of the hand is the one that hurts.
    let with_her = with_her(model).filter(|_| room >= ROOM_FOR_BOTH / 2 || hand(model).is_none());
    let clocks = [with_her, clock(model), hand(model), of_another(model), look(model)].into_iter().flatten();
    let clocks: Vec<String> = clocks.map(|told| model.say(told)).collect();
    let joined = |parts: &[String]| parts.join(" · ");
    let kept = kept(model).map(|told| model.say(told));
    let all = joined(&clocks.iter().cloned().chain(kept).collect::<Vec<_>>());
    let gives_way = model.keeping.refusal.is_none() && all.chars().count() > room && !clocks.is_empty();
    if gives_way { joined(&clocks) } else { all }
}

/// What has to be said above everything, if anything.
pub fn warning(model: &Model) -> Option<Text> {
    match &model.keeping.refusal {
        Some(why) => Some(phrase::not_kept_why(why.clone()).into()),
        None if held_too_long(model) => {
            Some(named::key(model, Key::Hands).map_or_else(phrase::held_long, phrase::held_long_key).into())
        }
        None => time_is_up(model).or_else(|| time_is_up_elsewhere(model)),
    }
}

/// Whether the top line has room to tell of a clock whose time is up.
pub fn tells_of_clocks(model: &Model) -> bool {
    model.keeping.refusal.is_none() && !held_too_long(model)
}

/// The key that ends such a clock, where it does so now.
fn ends(model: &Model, press: Press) -> Option<Phrase> {
    let asks = press == Press::End && exam::asks_when_over(model.protocol, &model.log).is_some();
    let says = if asks { of_clock::key_asks } else { of_clock::key_ends };
    named::key(model, Key::Clock).filter(|_| clock::press(model) == press).map(says)
}

/// The program's name, the same in every language.
const PROGRAM: &str = "Coopside";

/// The kind of bird, before it is known the program's name; both where there is room.
fn bird(model: &Model, width: usize) -> Text {
    let asked = model.protocol.kind_question();
    let kind = model.exam.findings.answer(About::Bird, asked.id.as_str());
    let kind = kind.map(|said| answers::of(asked, &said.statement.answer));
    let scripted = model.practice.as_ref().and_then(|practice| practice.trial.as_ref());
    let name = scripted.map_or(model.days.name.as_str(), |trial| trial.script.bird());
    let name = Some(name).filter(|name| !name.is_empty()).map(Text::typed);
    // How it ended is told wherever she is named.
    let ended = model.days.end.as_ref().map(|end| Text::from(days::outcome(end.outcome)));
    let program = |bird: Text| terms::named(Text::typed(PROGRAM), bird).into();
    let bird = match (name, kind) {
        (None, None) => Text::typed(PROGRAM),
        (Some(bird), _) | (None, Some(bird)) if width < ROOM_FOR_BOTH => bird,
        (None, Some(bird)) | (Some(bird), None) => program(bird),
        (Some(name), Some(kind)) => program(Text::list([name, kind])),
    };
    let bird = Text::list([bird].into_iter().chain(ended));
    if model.flock.practice || model.practice.is_some() { phrase::practice(bird).into() } else { bird }
}

/// The clock of the step that is being timed; that of an instruction only where the instruction itself does not show it.
fn clock(model: &Model) -> Option<Text> {
    let (what, left) = match model.timer() {
        Some(timer) => (Text::quoted(&step(model, &timer)?.verb), timer.left(model.now)),
        None if model.context() == Context::Instruction => return None,
        // In practice what to do at once, and for how long, is the novice's to know.
        None if model.practice.is_some() => return None,
        None => (on_the_card(model), instruction::time_left(model)?),
    };
    Some(if left > TimeDelta::zero() {
        Text::row([what, clock::minutes(left.num_seconds())])
    } else {
        phrase::is_up(what).into()
    })
}

/// What goes by the clock of the instruction that another page covers.
fn on_the_card(model: &Model) -> Text {
    let act = instruction::timed(model);
    act.map_or_else(|| phrase::time().into(), |act| Text::quoted(&model.protocol.action(act).verb))
}

fn time_is_up(model: &Model) -> Option<Text> {
    let timer = model.timer()?;
    let up = timer.left(model.now) <= TimeDelta::zero();
    // No order to go on: what comes next stands in the plan.
    let verb = &step(model, &timer)?.verb;
    let told = || Text::row([phrase::ran_out(Text::quoted(verb))].into_iter().chain(ends(model, Press::End)));
    up.then(told)
}

/// The clock of a bird that was left for another one, the first to ring.
fn of_another(model: &Model) -> Option<Text> {
    let clock = model.flock.clocks.iter().min_by_key(|clock| clock.ends_at)?;
    let Running { bird, what, ends_at, .. } = clock;
    let left = *ends_at - model.now;
    let bird = bird.clone();
    Some(if left > TimeDelta::zero() {
        terms::named(bird, Text::row([what.clone(), clock::minutes(left.num_seconds())])).into()
    } else {
        phrase::is_up(bird).into()
    })
}

fn time_is_up_elsewhere(model: &Model) -> Option<Text> {
    let (at, Running { bird, what, .. }) = up_elsewhere(model)?;
    let told = phrase::ran_out_for(bird.clone(), what.clone());
    let finds = named::key(model, Key::Birds).map(phrase::finds_her);
    Some(Text::row([told].into_iter().chain(finds).chain(ends(model, Press::EndLeft(at)))))
}

/// The clock of another bird whose time is up, the first of them, by its place among the clocks.
pub fn up_elsewhere<'m>(model: &'m Model) -> Option<(usize, &'m Running)> {
    let up = model.flock.clocks.iter().enumerate().filter(|(_, clock)| clock.ends_at <= model.now);
    up.min_by_key(|(_, clock)| clock.ends_at)
}

fn step<'p>(model: &Model<'p>, timer: &Timer) -> Option<&'p Action> {
    model.protocol.actions.iter().find(|action| action.id == timer.action)
}

/// The countdown to the next look, within the last hour before it; not while she is examined.
fn look(model: &Model) -> Option<Text> {
    if model.exam.place != Place::Done {
        return None;
    }
    let left = model.due.next()?.at - model.now;
    match left.num_seconds() {
        ..=0 => Some(named::key(model, Key::Birds).map_or_else(phrase::look_now, phrase::look_now_key).into()),
        seconds @ 1..3600 => Some(phrase::look_in(((seconds + 59) / 60).unsigned_abs()).into()),
        _ => None,
    }
}

/// How long the novice has been with the practice bird.
fn with_her(model: &Model) -> Option<Text> {
    let trial = model.practice.as_ref()?.on()?;
    Some(phrase::with_her((model.now - trial.began).num_minutes().max(0).unsigned_abs()).into())
}

fn hand(model: &Model) -> Option<Text> {
    let held = model.hands().held_for(model.now)?;
    Some(phrase::in_hand(clock::minutes(held.num_seconds())).into())
}

fn kept(model: &Model) -> Option<Phrase> {
    let keeping = &model.keeping;
    if keeping.refusal.is_some() {
        Some(phrase::not_kept())
    } else if keeping.waiting > 0 {
        Some(phrase::saving())
    } else {
        keeping.last.map(|at| phrase::saved(Text::second(at)))
    }
}

fn held_too_long(model: &Model) -> bool {
    too_long_from(model).is_some_and(|from| from <= model.now)
}

/// From when on the bird has been held for longer than she may be.
pub fn too_long_from(model: &Model) -> Option<DateTime<Utc>> {
    match model.hands() {
        Hands::Held(since) => Some(since + TimeDelta::seconds(i64::from(model.protocol.hold_s))),
        Hands::NotYet | Hands::Down(_) => None,
    }
}
