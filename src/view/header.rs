//! The top line: which bird, what goes by the clock, whether all is kept, and what has to be said above everything.

use super::{
    clock::{self, Press},
    named,
};
use crate::content::answers;
use crate::days;
use crate::days::due::Running;
use crate::exam::{self, Place, Timer};
use crate::finding::About;
use crate::phrase::{Phrase, Text, clock as of_clock, header as phrase, terms};
use crate::protocol::action::Action;
use crate::session::Session;
use crate::session::clocks::{held_too_long, time_left, timed, up_elsewhere};
use crate::session::context::Context;
use crate::view::keys::Action as Key;
use chrono::TimeDelta;

/// The top line, and what stands above everything.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeaderView {
    /// The bird by herself.
    pub bird: String,
    /// The program's name, and the bird.
    pub in_full: String,
    /// How long the novice has been with the practice bird.
    pub with_her: Option<String>,
    /// The clock of a step.
    pub clock: Option<String>,
    /// How long she has been in the hand.
    pub hand: Option<String>,
    /// The clock of another bird.
    pub of_another: Option<String>,
    /// How long until the next look.
    pub look: Option<String>,
    /// Whether all is kept.
    pub kept: Option<String>,
    /// Whether the disk refused something.
    pub is_refused: bool,
    /// Whether she has been held for longer than she may be.
    pub held_too_long: bool,
    /// What has to be said above everything.
    pub warning: Option<String>,
}

impl HeaderView {
    /// As it stands.
    pub fn of(session: &Session) -> Self {
        let say = |told: Option<Text>| told.map(|told| session.say(told));
        Self {
            bird: session.say(bird(session, false)),
            in_full: session.say(bird(session, true)),
            with_her: say(with_her(session)),
            clock: say(clock(session)),
            hand: say(hand(session)),
            of_another: say(of_another(session)),
            look: say(look(session)),
            kept: kept(session).map(|told| session.say(told)),
            is_refused: session.keeping.refusal.is_some(),
            held_too_long: held_too_long(session),
            warning: say(warning(session)),
        }
    }
}

/// What has to be said above everything, if anything.
fn warning(session: &Session) -> Option<Text> {
    match &session.keeping.refusal {
        Some(why) => Some(phrase::not_kept_why(why.clone()).into()),
        None if held_too_long(session) => {
            Some(named::key(session, Key::Hands).map_or_else(phrase::held_long, phrase::held_long_key).into())
        }
        None => time_is_up(session).or_else(|| time_is_up_elsewhere(session)),
    }
}

/// The key that ends such a clock, where it does so now.
fn ends(session: &Session, press: Press) -> Option<Phrase> {
    let asks = press == Press::End && exam::asks_when_over(session.protocol, &session.log).is_some();
    let says = if asks { of_clock::key_asks } else { of_clock::key_ends };
    named::key(session, Key::Clock).filter(|_| clock::press(session) == press).map(says)
}

/// The program's name, the same in every language.
const PROGRAM: &str = "Coopside";

/// The bird by her name or her kind, before either is known the program's name; with the program's name all of it.
fn bird(session: &Session, in_full: bool) -> Text {
    let asked = session.protocol.kind_question();
    let kind = session.exam.findings.answer(About::Bird, asked.id.as_str());
    let kind = kind.map(|said| answers::of(asked, &said.statement.answer));
    let scripted = session.practice.as_ref().and_then(|practice| practice.trial.as_ref());
    let name = scripted.map_or(session.days.name.as_str(), |trial| trial.script.bird());
    let name = Some(name).filter(|name| !name.is_empty()).map(Text::typed);
    // How it ended is told wherever she is named.
    let ended = session.days.end.as_ref().map(|end| Text::from(days::outcome(end.outcome)));
    let program = |bird: Text| terms::named(Text::typed(PROGRAM), bird).into();
    let bird = match (name, kind) {
        (None, None) => Text::typed(PROGRAM),
        (Some(bird), _) | (None, Some(bird)) if !in_full => bird,
        (None, Some(bird)) | (Some(bird), None) => program(bird),
        (Some(name), Some(kind)) => program(Text::list([name, kind])),
    };
    let bird = Text::list([bird].into_iter().chain(ended));
    if session.flock.practice || session.practice.is_some() { phrase::practice(bird).into() } else { bird }
}

/// The clock of the step that is being timed; that of an instruction only where the instruction itself does not show it.
fn clock(session: &Session) -> Option<Text> {
    let (what, left) = match session.timer() {
        Some(timer) => (Text::quoted(&step(session, &timer)?.verb), timer.left(session.now)),
        None if session.context() == Context::Instruction => return None,
        // In practice what to do at once, and for how long, is the novice's to know.
        None if session.practice.is_some() => return None,
        None => (on_the_card(session), time_left(session)?),
    };
    Some(if left > TimeDelta::zero() {
        Text::row([what, clock::minutes(left.num_seconds())])
    } else {
        phrase::is_up(what).into()
    })
}

/// What goes by the clock of the instruction that another page covers.
pub(super) fn on_the_card(session: &Session) -> Text {
    let act = timed(session);
    act.map_or_else(|| phrase::time().into(), |act| Text::quoted(&session.protocol.action(act).verb))
}

fn time_is_up(session: &Session) -> Option<Text> {
    let timer = session.timer()?;
    let up = timer.left(session.now) <= TimeDelta::zero();
    // No order to go on: what comes next stands in the plan.
    let verb = &step(session, &timer)?.verb;
    let told = || Text::row([phrase::ran_out(Text::quoted(verb))].into_iter().chain(ends(session, Press::End)));
    up.then(told)
}

/// The clock of a bird that was left for another one, the first to ring.
fn of_another(session: &Session) -> Option<Text> {
    let clock = session.flock.clocks.iter().min_by_key(|clock| clock.ends_at)?;
    let Running { bird, what, ends_at, .. } = clock;
    let left = *ends_at - session.now;
    let bird = bird.clone();
    Some(if left > TimeDelta::zero() {
        terms::named(bird, Text::row([what.clone(), clock::minutes(left.num_seconds())])).into()
    } else {
        phrase::is_up(bird).into()
    })
}

fn time_is_up_elsewhere(session: &Session) -> Option<Text> {
    let (at, Running { bird, what, .. }) = up_elsewhere(session)?;
    let told = phrase::ran_out_for(bird.clone(), what.clone());
    let finds = named::key(session, Key::Birds).map(phrase::finds_her);
    Some(Text::row([told].into_iter().chain(finds).chain(ends(session, Press::EndLeft(at)))))
}

/// The step that a clock times.
pub(super) fn step<'p>(session: &Session<'p>, timer: &Timer) -> Option<&'p Action> {
    session.protocol.actions.iter().find(|action| action.id == timer.action)
}

/// The countdown to the next look, within the last hour before it; not while she is examined.
fn look(session: &Session) -> Option<Text> {
    if session.exam.place != Place::Done {
        return None;
    }
    let left = session.due.next()?.at - session.now;
    match left.num_seconds() {
        ..=0 => Some(named::key(session, Key::Birds).map_or_else(phrase::look_now, phrase::look_now_key).into()),
        seconds @ 1..3600 => Some(phrase::look_in(((seconds + 59) / 60).unsigned_abs()).into()),
        _ => None,
    }
}

/// How long the novice has been with the practice bird.
fn with_her(session: &Session) -> Option<Text> {
    let trial = session.practice.as_ref()?.on()?;
    Some(phrase::with_her((session.now - trial.began).num_minutes().max(0).unsigned_abs()).into())
}

/// How long she has been in the hand.
fn hand(session: &Session) -> Option<Text> {
    let held = session.hands().held_for(session.now)?;
    Some(phrase::in_hand(clock::minutes(held.num_seconds())).into())
}

/// Whether all is kept.
fn kept(session: &Session) -> Option<Phrase> {
    let keeping = &session.keeping;
    if keeping.refusal.is_some() {
        Some(phrase::not_kept())
    } else if keeping.waiting > 0 {
        Some(phrase::saving())
    } else {
        keeping.last.map(|at| phrase::saved(Text::second(at)))
    }
}
