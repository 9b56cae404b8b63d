//! From a verdict to a plan: what to do now, never, by when, when to look again, and when home care ends.

pub mod looks;

use crate::judge::{Advised, Reason, Target, Verdict, Waiting};
use crate::protocol::rule::WatchAt;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::{PHONE_ANY, Protocol};
use chrono::{DateTime, Utc};

/// What a person carries out, in order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// What to do, in the order of doing; a phone call stands after what cannot wait for it.
    pub steps: Vec<Step>,
    /// Whether the text on a humane end is told.
    pub humane: Option<Humane>,
    /// What never to do, each with its instead.
    pub never: Vec<(Target, Vec<Reason>)>,
    /// What is done only once an open question has been answered.
    pub waiting: Vec<Waiting>,
    /// What must be done by when.
    pub due: Vec<Due>,
    /// When to look again, earliest first; those gone by are counted instead.
    pub looks: Vec<DateTime<Utc>>,
    /// How many looks have gone by.
    pub looks_gone: usize,
    /// The rules that ask for those looks.
    pub looks_because: Vec<Reason>,
    /// Signs that end home care.
    pub watch: Vec<(WatchAt, Vec<Reason>)>,
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// An action of the protocol, and the rules that advise it.
    Act(Target, Vec<Reason>),
    /// A phone call.
    Phone(Phone),
}

impl Step {
    /// The line on screen: at most eight words, and the wound it is for where there are several.
    pub fn say(&self, protocol: &Protocol, verdict: &Verdict) -> String {
        match self {
            Self::Act(target, _) => line(protocol, verdict, *target),
            Self::Phone(phone) => phone.say().to_owned(),
        }
    }
}

/// An action's line, with the wound it is for where there are several.
pub fn line(protocol: &Protocol, verdict: &Verdict, target: Target) -> String {
    for_wound(verdict, target, &protocol.action(target.action).say)
}

/// What must never be done, in one line, with the wound it is about where there are several.
pub fn never_line(protocol: &Protocol, verdict: &Verdict, target: Target) -> String {
    for_wound(verdict, target, protocol.action(target.action).never())
}

fn for_wound(verdict: &Verdict, target: Target, say: &str) -> String {
    match target.wound {
        Some(number) if verdict.wounds > 1 => format!("Wound {}: {say}", number + 1),
        Some(_) | None => say.to_owned(),
    }
}

/// A phone call.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Phone {
    /// A vet, and off to her, because the need is now.
    VetAndGo,
    /// A vet, because the need is within hours.
    Vet,
    /// A vet, before the bird is moved, because it may be a notifiable disease.
    VetBeforeMoving,
    /// A vet, because it cannot be ruled out yet that the need is within hours.
    VetToBeSafe,
}

impl Phone {
    /// The line on screen, at most eight words.
    pub const fn say(self) -> &'static str {
        match self {
            Self::VetAndGo => "Phone a vet now, and set off.",
            Self::Vet => "Phone a vet now.",
            Self::VetBeforeMoving => "Phone a vet too, before moving her.",
            Self::VetToBeSafe => "Phone a vet now, to be safe.",
        }
    }

    /// Why, in one sentence.
    pub const fn why(self) -> &'static str {
        match self {
            Self::VetAndGo => {
                "Alone? Phone with the speaker on, your hands on her. Say what bird, what happened, what you read here."
            }
            Self::Vet => "Say what bird, what happened, and what you read here. Ask when to come.",
            Self::VetBeforeMoving => "Say first that it may be catching. Do as you are told.",
            Self::VetToBeSafe => "Open questions could still mean a vet within hours.",
        }
    }
}

/// Something to be done by some moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Due {
    /// What.
    pub what: String,
    /// By when; `None` means at once, because nobody knows when the clock began.
    pub by: Option<DateTime<Utc>>,
    /// Whether that moment has gone.
    pub past: bool,
    /// The rule it comes from.
    pub reason: Reason,
}

/// Makes the plan for a verdict.
pub fn plan(protocol: &Protocol, verdict: &Verdict) -> Plan {
    let times = looks::times(&verdict.looks, verdict.answered_at);
    let looks_gone = times.iter().filter(|at| **at <= verdict.judged_at).count();
    Plan {
        steps: steps(protocol, verdict),
        humane: (verdict.humane.low > Humane::NotInQuestion).then_some(verdict.humane.low),
        never: verdict.never.iter().map(|forbidden| (forbidden.target, forbidden.because.clone())).collect(),
        waiting: verdict.waiting.clone(),
        due: due(protocol, verdict),
        looks: times.into_iter().skip(looks_gone).collect(),
        looks_gone,
        looks_because: verdict.looks_because.clone(),
        watch: verdict.watch.iter().map(|watched| (watched.sign, watched.because.clone())).collect(),
    }
}

/// Actions keep the protocol's order; the phone call comes as soon as nothing has to happen before it.
fn steps(protocol: &Protocol, verdict: &Verdict) -> Vec<Step> {
    let act = |advised: &Advised| Step::Act(advised.target, advised.because.clone());
    let (at_once, then): (Vec<&Advised>, Vec<&Advised>) =
        verdict.acts.iter().partition(|advised| protocol.action(advised.target.action).at_once);
    // Where no vet can be reached, the protocol itself says whom else to phone; but only if anyone need be phoned.
    let is_elsewhere = |advised: &&Advised| protocol.action(advised.target.action).id == *PHONE_ANY;
    let phone = phone(verdict);
    let elsewhere = then.iter().any(is_elsewhere);
    let then = then.into_iter().filter(|advised| phone.is_some() || !is_elsewhere(advised));
    let phone = phone.filter(|_| !elsewhere).map(Step::Phone);
    at_once.into_iter().map(act).chain(phone).chain(then.map(act)).collect()
}

fn phone(verdict: &Verdict) -> Option<Phone> {
    let within_hours = verdict.need.low >= Need::WithinHours;
    match (within_hours, verdict.authority.low == Authority::CallNow) {
        (true, true) => Some(Phone::VetBeforeMoving),
        (true, false) if verdict.need.low == Need::Now => Some(Phone::VetAndGo),
        (true, false) => Some(Phone::Vet),
        (false, _) => (verdict.need.high >= Need::WithinHours).then_some(Phone::VetToBeSafe),
    }
}

/// One line a thing to be done: several wounds bitten ask for one antibiotic, by the earliest hour.
fn due(protocol: &Protocol, verdict: &Verdict) -> Vec<Due> {
    let mut due: Vec<Due> = Vec::new();
    for deadline in &verdict.deadlines {
        let past = deadline.by.is_some_and(|by| by <= verdict.judged_at);
        if !due.iter().any(|before| before.what == deadline.what) {
            due.push(Due { what: deadline.what.clone(), by: deadline.by, past, reason: deadline.reason });
        }
    }
    due.sort_by_key(|due| (due.by, protocol.rule(due.reason.rule).id.clone()));
    due
}
