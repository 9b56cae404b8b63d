//! An instruction: what to do, what never, and the time that is left. Nothing else while seconds count.

use super::{calls, clock};
use crate::exam;
use crate::finding::About;
use crate::judge::Target;
use crate::phrase::{Text, clock as phrase, enough};
use crate::protocol::rule::{ActionAt, Instruction};
use crate::session::Session;
use crate::session::clocks::{pressing, showing, time_left};
use chrono::TimeDelta;

/// What to do now.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct InstructionView {
    /// What it is about.
    pub title: String,
    /// The time left on its clock.
    pub timer: Option<String>,
    /// What is done, and how.
    pub acts: Vec<(String, String)>,
    /// Whom to call.
    pub numbers: Vec<String>,
    /// What never.
    pub nevers: Vec<String>,
    /// What comes once the time is over.
    pub after: Option<String>,
    /// What nobody has looked at yet, before one goes: in full and in short.
    pub not_looked: Option<(String, String)>,
}

impl InstructionView {
    /// The one that runs.
    pub fn of(session: &Session) -> Self {
        let Some(instruction) = showing(session) else { return Self::default() };
        let press = pressing(session).filter(|press| !instruction.acts.contains(press));
        let goes = session.exam.running.is_some_and(|(at, _)| at == session.protocol.roles.go);
        let never = |target| {
            let never = session.verdict.fitting.never(session.protocol, target);
            session.say(phrase::never(Text::going_on(Text::quoted(never))))
        };
        let left = || Text::list(session.exam.not_looked_at().into_iter().map(Text::quoted));
        Self {
            title: instruction.title.clone(),
            timer: timer(session),
            acts: acts(session, instruction, press).into_iter().map(|action| told(session, action)).collect(),
            numbers: calls::numbers(session, instruction.phones),
            nevers: nevers(session, instruction, goes).into_iter().map(never).collect(),
            after: after(session, instruction, press),
            not_looked: goes.then(|| (session.say(enough::not_looked(left())), session.say(enough::not_all_looked()))),
        }
    }
}

/// What comes next. Nobody looks further with a hand that presses; her own safety comes first all the same.
fn after(session: &Session, instruction: &Instruction, press: Option<ActionAt>) -> Option<String> {
    let runs = time_left(session).is_some_and(|left| left > TimeDelta::zero());
    if runs || instruction.after.is_empty() {
        return None;
    }
    let first = |press: &ActionAt| acts(session, instruction, Some(*press)).first() == Some(press);
    let presses_on = press.as_ref().is_some_and(first);
    Some(session.say(if presses_on { phrase::presses_on().into() } else { Text::quoted(&instruction.after) }))
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
fn told(session: &Session, action: ActionAt) -> (String, String) {
    let fitting = &session.verdict.fitting;
    let wound = called_for(session).filter(|_| session.protocol.action(action).wound);
    let target = Target { action, wound };
    (fitting.say(session.protocol, target).to_owned(), fitting.how(session.protocol, target).to_owned())
}

fn timer(session: &Session) -> Option<String> {
    time_left(session).map(|left| match left {
        left if left > TimeDelta::zero() => session.say(phrase::to_go(clock::minutes(left.num_seconds()))),
        _ => session.say(phrase::up()),
    })
}
