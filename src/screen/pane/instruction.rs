//! An instruction: what to do, what never, and the time that is left. Nothing else while seconds count.

use super::Lines;
use crate::exam;
use crate::finding::About;
use crate::judge::Target;
use crate::phrase::{Text, clock as phrase, enough};
use crate::protocol::rule::{ActionAt, Instruction};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::Session;
use crate::session::clocks::{pressing, showing, time_left};
use crate::view::{calls, clock};
use chrono::TimeDelta;
use ratatui::text::Line;

/// The instruction as lines. Where they do not fit, the longer words give way.
pub fn lines(session: &Session, theme: Theme, width: usize, height: usize) -> Lines {
    let full = build(session, theme, width, true);
    if full.lines.len() <= height { full } else { build(session, theme, width, false) }
}

fn build(session: &Session, theme: Theme, width: usize, in_full: bool) -> Lines {
    let mut lines = Lines::default();
    let Some(instruction) = showing(session) else {
        return lines;
    };
    lines.cursor_here();
    lines.add(wrapped(&instruction.title, width, "", theme.urgent()));
    lines.add(timer(session, theme, width));
    lines.gap();
    let press = pressing(session).filter(|press| !instruction.acts.contains(press));
    for (number, action) in (1..).zip(acts(session, instruction, press)) {
        let target = Target { action, wound: called_for(session) };
        let (say, how) = told(session, target);
        lines.add(wrapped(say, width, &format!("{number}  "), theme.question()));
        if in_full {
            lines.add(wrapped(how, width, "   ", theme.plain()));
        }
    }
    let numbers = calls::numbers(session, instruction.phones);
    lines.add(numbers.iter().flat_map(|line| wrapped(line, width, "   ", theme.plain())));
    lines.gap();
    let goes = session.exam.running.is_some_and(|(at, _)| at == session.protocol.roles.go);
    for target in nevers(session, instruction, goes) {
        let never = session.verdict.fitting.never(session.protocol, target);
        let never = phrase::never(Text::going_on(Text::quoted(never)));
        lines.add(wrapped(&session.say(never), width, "x  ", theme.never()));
    }
    if time_left(session).is_none_or(|left| left <= TimeDelta::zero()) && !instruction.after.is_empty() {
        // Nobody looks further with a hand that presses.
        // Her own safety does.
        let first = |press: &ActionAt| acts(session, instruction, Some(*press)).first() == Some(press);
        let after = if press.as_ref().is_some_and(first) {
            Text::from(phrase::presses_on())
        } else {
            Text::quoted(&instruction.after)
        };
        lines.gap();
        lines.add(wrapped(&session.say(after), width, "", theme.question()));
    }
    if goes {
        let left = || Text::list(session.exam.not_looked_at().into_iter().map(Text::quoted));
        lines.gap();
        let told = if in_full { enough::not_looked(left()) } else { enough::not_all_looked() };
        lines.add(wrapped(&session.say(told), width, "", theme.plain()));
    }
    if let Some(notice) = &session.notice {
        lines.gap();
        lines.add(wrapped(&session.reader().say(notice), width, "", theme.aside()));
    }
    lines
}

/// What is done, in order: nothing that is forbidden for this bird, however the instruction was called up. While a hand presses,
/// that is the first line but for what comes before any pressing, and what it would let go for waits.
fn acts(session: &Session, instruction: &Instruction, press: Option<ActionAt>) -> Vec<ActionAt> {
    let protocol = session.protocol;
    let may = instruction.acts.iter().copied().filter(|act| !session.verdict.forbids(protocol, *act));
    let Some(press) = press else { return may.collect() };
    let dropped = |act: ActionAt| protocol.conflicts.iter().any(|pair| pair.keep == press && pair.drop == act);
    let waits = |act: &ActionAt| protocol.action(press).before.contains(act) || dropped(*act);
    let (first, then): (Vec<ActionAt>, Vec<ActionAt>) =
        may.filter(|act| !waits(act)).partition(|act| protocol.action(*act).before.contains(&press));
    first.into_iter().chain([press]).chain(then).take(ACTS).collect()
}

/// At most so many acts stand on it.
const ACTS: usize = 3;

/// At most so many bans stand on it.
const NEVERS: usize = 2;

/// What it forbids. Before the way that is what kills this bird soonest: she may have what no rule forbids her.
fn nevers(session: &Session, instruction: &Instruction, goes: bool) -> Vec<Target> {
    if goes {
        return session.plan.never.iter().map(|(target, _)| *target).take(NEVERS).collect();
    }
    let of_wound = |action: ActionAt| called_for(session).filter(|_| session.protocol.action(action).wound);
    instruction.never.iter().map(|action| Target { action: *action, wound: of_wound(*action) }).collect()
}

/// The wound whose answer called the instruction up, where one did.
fn called_for(session: &Session) -> Option<usize> {
    let asked = exam::asks_after(session.protocol, &session.log, session.exam.running?.0)?;
    match asked.about {
        About::Wound(number) => Some(number),
        About::Bird => None,
    }
}

/// What to do and how, as it fits her and the wound it is for.
fn told<'m>(session: &'m Session, target: Target) -> (&'m str, &'m str) {
    let fitting = &session.verdict.fitting;
    let of_wound = session.protocol.action(target.action).wound;
    let target = if of_wound { target } else { Target { wound: None, ..target } };
    (fitting.say(session.protocol, target), fitting.how(session.protocol, target))
}

fn timer(session: &Session, theme: Theme, width: usize) -> Vec<Line<'static>> {
    let told = time_left(session).map(|left| match left {
        left if left > TimeDelta::zero() => phrase::to_go(clock::minutes(left.num_seconds())),
        _ => phrase::up(),
    });
    told.map_or_else(Vec::new, |told| wrapped(&session.say(told), width, "", theme.heading()))
}
