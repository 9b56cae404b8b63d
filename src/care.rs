//! From a verdict to a plan: what to do now, never, by when, when to look again, and when home care ends.

pub mod looks;

use crate::judge::{Advised, Reason, Verdict};
use crate::protocol::rule::{ActionAt, WatchAt};
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
    pub never: Vec<(ActionAt, Vec<Reason>)>,
    /// What must be done by when.
    pub due: Vec<Due>,
    /// When to look again, earliest first.
    pub looks: Vec<DateTime<Utc>>,
    /// The rules that ask for those looks.
    pub looks_because: Vec<Reason>,
    /// Signs that end home care.
    pub watch: Vec<(WatchAt, Vec<Reason>)>,
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// An action of the protocol, and the rules that advise it.
    Act(ActionAt, Vec<Reason>),
    /// A phone call.
    Phone(Phone),
}

impl Step {
    /// The line on screen, at most eight words.
    pub fn say<'p>(&self, protocol: &'p Protocol) -> &'p str {
        match self {
            Self::Act(action, _) => &protocol.action(*action).say,
            Self::Phone(phone) => phone.say(),
        }
    }
}

/// A phone call.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Phone {
    /// A vet, because the need is at least within hours.
    Vet,
    /// A vet, because it cannot be ruled out yet that the need is within hours.
    VetToBeSafe,
    /// The animal-health authority, before anything is moved.
    Authority,
}

impl Phone {
    /// The line on screen, at most eight words.
    pub const fn say(self) -> &'static str {
        match self {
            Self::Vet => "Phone a vet now.",
            Self::VetToBeSafe => "Phone a vet now, to be safe.",
            Self::Authority => "Phone the animal-health authority before moving her.",
        }
    }

    /// Why, in one sentence.
    pub const fn why(self) -> &'static str {
        match self {
            Self::Vet => "Say what bird, what happened, and what you read here.",
            Self::VetToBeSafe => "Open questions could still mean a vet within hours.",
            Self::Authority => "First aid goes on with gloves on. No bird leaves, not even for a clinic.",
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
    Plan {
        steps: steps(protocol, verdict),
        humane: (verdict.humane.low > Humane::NotInQuestion).then_some(verdict.humane.low),
        never: verdict.never.iter().map(|forbidden| (forbidden.action, forbidden.because.clone())).collect(),
        due: due(protocol, verdict),
        looks: looks::times(&verdict.looks, verdict.judged_at),
        looks_because: verdict.looks_because.clone(),
        watch: verdict.watch.iter().map(|watched| (watched.sign, watched.because.clone())).collect(),
    }
}

/// Actions keep the protocol's order; the phone call comes as soon as nothing has to happen before it.
fn steps(protocol: &Protocol, verdict: &Verdict) -> Vec<Step> {
    let act = |advised: &Advised| Step::Act(advised.action, advised.because.clone());
    let (at_once, then): (Vec<&Advised>, Vec<&Advised>) =
        verdict.acts.iter().partition(|advised| protocol.action(advised.action).at_once);
    // Where no vet can be reached, the protocol itself says whom else to phone.
    let elsewhere = verdict.acts.iter().any(|advised| protocol.action(advised.action).id == *PHONE_ANY);
    let phone = phone(verdict).filter(|phone| *phone == Phone::Authority || !elsewhere).map(Step::Phone);
    at_once.into_iter().map(act).chain(phone).chain(then.into_iter().map(act)).collect()
}

fn phone(verdict: &Verdict) -> Option<Phone> {
    if verdict.authority.low == Authority::CallNow {
        Some(Phone::Authority)
    } else if verdict.need.low >= Need::WithinHours {
        Some(Phone::Vet)
    } else if verdict.need.high >= Need::WithinHours {
        Some(Phone::VetToBeSafe)
    } else {
        None
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
