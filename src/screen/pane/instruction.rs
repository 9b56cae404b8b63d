//! An instruction: what to do, what never, and the time that is left. Nothing else while seconds count.

use super::{Lines, calls, clock};
use crate::care::PlanStep;
use crate::exam;
use crate::finding::About;
use crate::finding::log::Entry;
use crate::judge::Target;
use crate::phrase::{Text, clock as phrase, enough};
use crate::protocol::rule::{ActionAt, Instruction};
use crate::screen::model::Model;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use chrono::{DateTime, TimeDelta, Utc};
use ratatui::text::Line;

/// The instruction that runs, if one does: it fills the screen, unless a question lies over it.
pub fn showing<'p>(model: &Model<'p>) -> Option<&'p Instruction> {
    let (running, _) = model.exam.running?;
    Some(model.protocol.instruction(running))
}

/// The first step of the instruction that is done by the clock, where one is.
pub fn timed(model: &Model) -> Option<ActionAt> {
    let by_the_clock =
        |act: &&ActionAt| model.protocol.ways.iter().any(|way| way.act == **act && way.timer_s.is_some());
    showing(model)?.acts.iter().find(by_the_clock).copied()
}

/// When its timer runs out.
pub fn ends_at(model: &Model) -> Option<DateTime<Utc>> {
    let (_, since) = model.exam.running?;
    Some(since + TimeDelta::seconds(i64::from(showing(model)?.timer_s?)))
}

/// The time left on its timer; below zero once it has run out. Where the clock was set back, no more than the whole of it.
pub fn time_left(model: &Model) -> Option<TimeDelta> {
    let whole = TimeDelta::seconds(i64::from(showing(model)?.timer_s?));
    ends_at(model).map(|end| (end - model.now).min(whole))
}

/// The instruction as lines. Where they do not fit, the longer words give way.
pub fn lines(model: &Model, theme: Theme, width: usize, height: usize) -> Lines {
    let full = build(model, theme, width, true);
    if full.lines.len() <= height { full } else { build(model, theme, width, false) }
}

fn build(model: &Model, theme: Theme, width: usize, in_full: bool) -> Lines {
    let mut lines = Lines::default();
    let Some(instruction) = showing(model) else {
        return lines;
    };
    lines.cursor_here();
    lines.add(wrapped(&instruction.title, width, "", theme.urgent()));
    lines.add(timer(model, theme, width));
    lines.gap();
    let press = pressing(model).filter(|press| !instruction.acts.contains(press));
    for (number, action) in (1..).zip(acts(model, instruction, press)) {
        let target = Target { action, wound: called_for(model) };
        let (say, how) = told(model, target);
        lines.add(wrapped(say, width, &format!("{number}  "), theme.question()));
        if in_full {
            lines.add(wrapped(how, width, "   ", theme.plain()));
        }
    }
    lines.add(calls::numbers(model, instruction.phones, theme, width));
    lines.gap();
    let goes = model.exam.running.is_some_and(|(at, _)| at == model.protocol.roles.go);
    for target in nevers(model, instruction, goes) {
        let never = model.verdict.fitting.never(model.protocol, target);
        let never = phrase::never(Text::going_on(Text::quoted(never)));
        lines.add(wrapped(&model.say(never), width, "x  ", theme.never()));
    }
    if time_left(model).is_none_or(|left| left <= TimeDelta::zero()) && !instruction.after.is_empty() {
        // Nobody looks further with a hand that presses.
        // Her own safety does.
        let first = |press: &ActionAt| acts(model, instruction, Some(*press)).first() == Some(press);
        let after = if press.as_ref().is_some_and(first) {
            Text::from(phrase::presses_on())
        } else {
            Text::quoted(&instruction.after)
        };
        lines.gap();
        lines.add(wrapped(&model.say(after), width, "", theme.question()));
    }
    if goes {
        let left = || Text::list(model.exam.not_looked_at().into_iter().map(Text::quoted));
        lines.gap();
        let told = if in_full { enough::not_looked(left()) } else { enough::not_all_looked() };
        lines.add(wrapped(&model.say(told), width, "", theme.plain()));
    }
    if let Some(notice) = &model.notice {
        lines.gap();
        lines.add(wrapped(&model.reader().say(notice), width, "", theme.aside()));
    }
    lines
}

/// What is done, in order: nothing that is forbidden for this bird, however the instruction was called up. While a hand presses,
/// that is the first line but for what comes before any pressing, and what it would let go for waits.
fn acts(model: &Model, instruction: &Instruction, press: Option<ActionAt>) -> Vec<ActionAt> {
    let protocol = model.protocol;
    let may = instruction.acts.iter().copied().filter(|act| !model.verdict.forbids(protocol, *act));
    let Some(press) = press else { return may.collect() };
    let dropped = |act: ActionAt| protocol.conflicts.iter().any(|pair| pair.keep == press && pair.drop == act);
    let waits = |act: &ActionAt| protocol.action(press).before.contains(act) || dropped(*act);
    let (first, then): (Vec<ActionAt>, Vec<ActionAt>) =
        may.filter(|act| !waits(act)).partition(|act| protocol.action(*act).before.contains(&press));
    first.into_iter().chain([press]).chain(then).take(ACTS).collect()
}

/// What is pressed by an instruction whose minutes are not over yet, left or not, as long as she still needs it.
pub fn pressing(model: &Model) -> Option<ActionAt> {
    let protocol = model.protocol;
    model.log.iter().rev().find_map(|stamped| {
        let Entry::Began(id) = &stamped.entry else { return None };
        let begun = protocol.instruction(protocol.instructions.at(id.as_str())?);
        let lasts = TimeDelta::seconds(i64::from(begun.timer_s?));
        let press = begun.acts.iter().copied().find(|act| protocol.action(*act).presses)?;
        let wanted = model.plan.steps.iter().filter_map(PlanStep::act).any(|target| target.action == press);
        (stamped.at + lasts > model.now && wanted).then_some(press)
    })
}

/// At most so many acts stand on it.
const ACTS: usize = 3;

/// At most so many bans stand on it.
const NEVERS: usize = 2;

/// What it forbids. Before the way that is what kills this bird soonest: she may have what no rule forbids her.
fn nevers(model: &Model, instruction: &Instruction, goes: bool) -> Vec<Target> {
    if goes {
        return model.plan.never.iter().map(|(target, _)| *target).take(NEVERS).collect();
    }
    let of_wound = |action: ActionAt| called_for(model).filter(|_| model.protocol.action(action).wound);
    instruction.never.iter().map(|action| Target { action: *action, wound: of_wound(*action) }).collect()
}

/// The wound whose answer called the instruction up, where one did.
fn called_for(model: &Model) -> Option<usize> {
    let asked = exam::asks_after(model.protocol, &model.log, model.exam.running?.0)?;
    match asked.about {
        About::Wound(number) => Some(number),
        About::Bird => None,
    }
}

/// What to do and how, as it fits her and the wound it is for.
fn told<'m>(model: &'m Model, target: Target) -> (&'m str, &'m str) {
    let fitting = &model.verdict.fitting;
    let of_wound = model.protocol.action(target.action).wound;
    let target = if of_wound { target } else { Target { wound: None, ..target } };
    (fitting.say(model.protocol, target), fitting.how(model.protocol, target))
}

fn timer(model: &Model, theme: Theme, width: usize) -> Vec<Line<'static>> {
    let told = time_left(model).map(|left| match left {
        left if left > TimeDelta::zero() => phrase::to_go(clock::minutes(left.num_seconds())),
        _ => phrase::up(),
    });
    told.map_or_else(Vec::new, |told| wrapped(&model.say(told), width, "", theme.heading()))
}
