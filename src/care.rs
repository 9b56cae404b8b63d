//! From a verdict and a cupboard to a plan: what to do now and with what, never, by when, when to look again, and when home
//! care ends.

pub mod contacts;
pub mod course;
pub mod cupboard;
pub mod label;
pub mod looks;
pub mod night;
pub mod timetable;
pub mod way;

use crate::judge::{Advised, Fitting, Reason, Target, Waiting, barred};
use crate::phrase::{Phrase, Text, care as phrase, terms};
use crate::protocol::Protocol;
use crate::protocol::action::{End, Home, Part, Stance, Until};
use crate::protocol::question::Reach;
use crate::protocol::rule::{ActionAt, WatchAt};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::supply::SupplyAt;
use crate::prove::Exact;
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use cupboard::{Cupboard, Standing};
use night::{ByNight, NightSpan};
use std::collections::{BTreeMap, BTreeSet};
use timetable::{Look, LooksOf, Promise, Timetable};
use way::Chosen;

/// What a person carries out, in order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// What to do, in the order of doing; a phone call stands after what cannot wait for it.
    pub steps: Vec<PlanStep>,
    /// The actions that are done, rather than something in their place.
    pub done: BTreeSet<ActionAt>,
    /// What is left to the vet who will see her within hours, or until the check has shown that none need.
    pub left_to_vet: Vec<(Target, Vec<Reason>)>,
    /// What is done once something has been seen.
    pub later: Vec<(Target, Vec<Reason>)>,
    /// How each action is done with what is in the house.
    pub ways: BTreeMap<ActionAt, Chosen>,
    /// What would do better than what is in the house, each once.
    pub fetch: Vec<SupplyAt>,
    /// What is used of what is in the house and bars her eggs and meat, each once.
    pub withheld: Vec<SupplyAt>,
    /// Whether somebody skilled is to be phoned for her.
    pub phoned: bool,
    /// Whether she is to be seen by one, as far as is settled.
    pub seen: bool,
    /// What is in the house, would be used, and does not count.
    pub of_no_use: Vec<(SupplyAt, Standing)>,
    /// Whether the text on a humane end is told.
    pub humane: Option<Humane>,
    /// Whether no vet can be reached: then nothing is told of one but whom to phone.
    pub no_vet: bool,
    /// What never to do, each with its instead and its end.
    pub never: Vec<(Target, Vec<Reason>)>,
    /// What is done only once an open question has been answered.
    pub waiting: Vec<Waiting>,
    /// What must be done by when.
    pub due: Vec<Due>,
    /// When to look again and what at, earliest first; those gone by are counted instead.
    pub looks: Vec<Look>,
    /// How many looks have gone by.
    pub looks_gone: usize,
    /// The nights still to come in which nobody looks, since she is stable; the earliest first.
    pub nights: Vec<NightSpan>,
    /// Whether somebody looks at her by night.
    pub by_night: ByNight,
    /// The rules that ask for those looks.
    pub looks_because: Vec<Reason>,
    /// Signs that end home care.
    pub watch: Vec<(WatchAt, Vec<Reason>)>,
}

impl Plan {
    /// Whether she is stable, but for what was begun of late.
    pub fn is_stable(&self) -> bool {
        self.by_night == ByNight::LeftAlone
    }

    /// Whether a humane end is advised: then that stands first, and what it makes pointless is left out.
    pub fn ends(&self) -> bool {
        self.humane.is_some_and(Humane::is_advised)
    }

    /// How long an act is done by the clock, where it is done at all. Seconds.
    pub fn timed(&self, protocol: &Protocol, action: ActionAt) -> Option<u16> {
        let way = protocol.way(self.ways.get(&action)?.way);
        way.timer_s.filter(|_| !way.undone)
    }

    /// What is never done, each once, whichever of her wounds it is never done to.
    pub fn never_once(&self) -> impl Iterator<Item = Target> {
        let targets = || self.never.iter().map(|(target, _)| *target);
        targets()
            .enumerate()
            .filter(move |(at, target)| !targets().take(*at).any(|before| before.action == target.action))
            .map(|(_, target)| target)
    }
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PlanStep {
    /// An action of the protocol, and the rules that advise it.
    Act(Target, Vec<Reason>),
    /// A phone call.
    Phone(Phone),
}

impl PlanStep {
    /// In which part of the plan it stands.
    pub fn part(&self, protocol: &Protocol) -> Part {
        match self {
            Self::Act(target, _) => protocol.action(target.action).part,
            Self::Phone(_) => Part::First,
        }
    }

    /// The action, where it is one.
    pub fn act(&self) -> Option<Target> {
        match self {
            Self::Act(target, _) => Some(*target),
            Self::Phone(_) => None,
        }
    }

    /// The line on screen: at most eight words, and the wound it is for where there are several.
    pub fn say(&self, protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Text {
        match self {
            Self::Act(target, _) => {
                let way = plan.ways.get(&target.action).map(|chosen| protocol.way(chosen.way));
                let own = verdict.fitting.say(protocol, *target);
                for_wound(verdict, *target, way.and_then(|way| way.say.as_deref()).unwrap_or(own))
            }
            Self::Phone(phone) => phone.say().into(),
        }
    }
}

/// An action's line, with the wound it is for where there are several.
pub fn line(protocol: &Protocol, verdict: &Exact, target: Target) -> Text {
    for_wound(verdict, target, verdict.fitting.say(protocol, target))
}

/// What must never be done, in one line, with the wound it is about where there are several.
pub fn never_line(protocol: &Protocol, verdict: &Exact, target: Target) -> Text {
    for_wound(verdict, target, verdict.fitting.never(protocol, target))
}

fn for_wound(verdict: &Exact, target: Target, say: &str) -> Text {
    match target.wound {
        Some(number) if verdict.wounds > 1 => terms::named(terms::wound(number + 1), Text::quoted(say)).into(),
        Some(_) | None => Text::quoted(say),
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
    /// A vet, because the need is within a day.
    VetToday,
    /// A vet, because it cannot be ruled out yet that the need is within hours.
    VetToBeSafe,
}

impl Phone {
    /// The line on screen, at most eight words.
    pub const fn say(self) -> Phrase {
        match self {
            Self::VetAndGo | Self::Vet => phrase::vet_now(),
            Self::VetBeforeMoving => phrase::vet_before_moving(),
            Self::VetToday => phrase::vet_today(),
            Self::VetToBeSafe => phrase::vet_to_be_safe(),
        }
    }

    /// Why, and how. Where it is known who is there, it is told apart who phones.
    pub const fn why(self, hands: bool) -> Phrase {
        match self {
            Self::VetAndGo if hands => phrase::why_go_known(),
            Self::VetAndGo => phrase::why_go(),
            Self::Vet | Self::VetToday if hands => phrase::why_vet_known(),
            Self::Vet | Self::VetToday => phrase::why_vet(),
            Self::VetBeforeMoving if hands => phrase::why_before_moving_known(),
            Self::VetBeforeMoving => phrase::why_before_moving(),
            Self::VetToBeSafe => phrase::why_to_be_safe(),
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

/// What ends a ban on an action: the end that fits this bird, or a vet's word alone where a rule that forbids it says so.
pub fn until(
    protocol: &Protocol,
    fitting: &Fitting,
    target: Target,
    because: &[Reason],
    no_vet: bool,
) -> Option<Phrase> {
    end(protocol, fitting, target, because).map(|until| end_of_ban(&until, no_vet))
}

/// The end of a ban, before it is told.
fn end(protocol: &Protocol, fitting: &Fitting, target: Target, because: &[Reason]) -> Option<Until> {
    // What could not be told keeps no ban on for good.
    let seen = because.iter().filter(|reason| !reason.is_doubt());
    let stays = seen.flat_map(|reason| &protocol.rule(reason.rule).stays);
    let only_a_vet = stays.filter(|(banned, _)| *banned == target.action).map(|(_, why)| Until::only_a_vet(why)).next();
    only_a_vet.or_else(|| fitting.until(protocol, target).cloned())
}

/// The end of a ban. Where no vet can be reached, nothing is said of one.
pub fn end_of_ban(until: &Until, no_vet: bool) -> Phrase {
    match (&until.alone, until.vet && !no_vet) {
        (End::Test { say, .. }, false) => phrase::until(going_on(say)),
        (End::Test { say, .. }, true) => phrase::until_vet(going_on(say)),
        (End::Lives { because }, false) => phrase::stays(going_on(because)),
        (End::Lives { because }, true) => phrase::until_vet_alone(going_on(because)),
    }
}

/// The end of what is done for her.
pub fn end_of_act(until: &Until, no_vet: bool) -> Phrase {
    match (&until.alone, until.vet && !no_vet) {
        (End::Test { say, .. }, false) => phrase::go_on(going_on(say)),
        (End::Test { say, .. }, true) => phrase::go_on_vet(going_on(say)),
        (End::Lives { because }, false) => phrase::goes_on(going_on(because)),
        (End::Lives { because }, true) => phrase::go_on_vet_alone(going_on(because)),
    }
}

/// What follows a colon.
fn going_on(said: &str) -> Text {
    Text::going_on(Text::quoted(said))
}

/// Whether she is stable, but for what was begun of late: all of her was looked over, nothing is still to be tried, skilled help
/// is needed within a day at the very soonest, and all is so beyond doubt that her protocol asks for.
fn stable(protocol: &Protocol, verdict: &Exact, no_vet: bool) -> bool {
    verdict.steady
        && verdict.looked_over
        && verdict.need.high <= Need::WithinADay
        && !course::tests_wait(protocol, verdict, no_vet)
}

/// Makes the plan for a verdict, with what is in the house; a night is one by the clock of her zone.
pub fn plan(protocol: &Protocol, verdict: &Exact, cupboard: &Cupboard, zone: Zone) -> Plan {
    let today = verdict.judged_at.date_naive();
    let Carried { kept, left_to_vet, phone } = carried(protocol, verdict);
    let acts: BTreeSet<ActionAt> = kept.iter().map(|advised| advised.target.action).collect();
    let barred: Vec<Stance> = barred(protocol, &verdict.never).collect();
    let chosen = |act: &ActionAt| Some((*act, way::choose(protocol, cupboard, *act, today, &barred)?));
    let mut ways: BTreeMap<ActionAt, Chosen> = acts.iter().filter_map(chosen).collect();
    let undone = |act: ActionAt| ways.get(&act).is_some_and(|chosen| protocol.way(chosen.way).undone);
    let ends = verdict.humane.low.is_advised();
    let steps = in_order(protocol, kept, phone, undone);
    let told: BTreeSet<ActionAt> = steps.iter().filter_map(PlanStep::act).map(|target| target.action).collect();
    let done: BTreeSet<ActionAt> = told.iter().copied().filter(|act| !undone(*act)).collect();
    ways.retain(|act, _| told.contains(act));
    let useful =
        |supply| told.iter().flat_map(|act| protocol.ways_to(*act)).any(|(_, way)| way.needs.contains(&supply));
    let used = |act: &ActionAt| ways.get(act).map(|chosen| protocol.way(chosen.way).needs.iter().copied());
    let used: BTreeSet<SupplyAt> = done.iter().filter_map(used).flatten().collect();
    let fetch: BTreeSet<SupplyAt> = ways.values().flat_map(|chosen| chosen.better.iter().copied()).collect();
    let elsewhere = steps.iter().filter_map(PlanStep::act).any(|target| target.action == protocol.roles.phone_any);
    let seen = verdict.need.low >= Need::WithinADay && !elsewhere;
    let no_vet = elsewhere || verdict.no_vet();
    let stable = stable(protocol, verdict, no_vet);
    let promise = Promise::of(protocol, LooksOf { verdict, done: &done, stable });
    let Timetable { looks: all, nights } = timetable::timetable(protocol, &promise, zone);
    let looks_gone = all.iter().filter(|look| look.at <= verdict.judged_at).count();
    Plan {
        withheld: used.into_iter().filter(|at| protocol.supply(*at).withholds).collect(),
        no_vet,
        phoned: seen || elsewhere || steps.iter().any(|step| matches!(step, PlanStep::Phone(_))),
        seen,
        steps,
        done,
        left_to_vet,
        later: verdict.later.iter().map(|later| (later.target, later.because.clone())).collect(),
        fetch: fetch.into_iter().collect(),
        of_no_use: cupboard.of_no_use(protocol, today).into_iter().filter(|(at, _)| useful(*at)).collect(),
        ways,
        humane: (verdict.humane.low > Humane::NotInQuestion).then_some(verdict.humane.low),
        never: verdict.never.iter().map(|forbidden| (forbidden.target, forbidden.because.clone())).collect(),
        waiting: verdict.waiting.clone(),
        // A vet's hours are nothing to a bird that no vet can see.
        due: if elsewhere || ends { Vec::new() } else { due(protocol, verdict) },
        looks: all.into_iter().skip(looks_gone).collect(),
        looks_gone,
        nights: nights.into_iter().filter(|night| night.until > verdict.judged_at).collect(),
        by_night: if stable { ByNight::LeftAlone } else { ByNight::Watched },
        looks_because: verdict.looks_because.clone(),
        watch: verdict.watch.iter().map(|watched| (watched.sign, watched.because.clone())).collect(),
    }
}

/// What of a verdict's actions the carer carries out.
struct Carried<'v> {
    kept: Vec<&'v Advised>,
    left_to_vet: Vec<(Target, Vec<Reason>)>,
    phone: Option<Phone>,
}

fn carried<'v>(protocol: &Protocol, verdict: &'v Exact) -> Carried<'v> {
    // Where no vet can be reached, the protocol itself says whom else to phone; but only if anyone need be phoned.
    let is_elsewhere = |advised: &&Advised| advised.target.action == protocol.roles.phone_any;
    let phone = phone(verdict);
    let elsewhere = verdict.acts.iter().any(|advised| is_elsewhere(&advised));
    // Where a vet sees her within a day only, what helps until then is done: a dirty wound does not wait so long.
    let to_vet = phone.is_some_and(|phone| phone != Phone::VetToday) && !elsewhere;
    let waits = to_vet && verdict.reach != Some(Reach::Day);
    let goes = phone.is_some() && !elsewhere;
    // A wound is not worked on where a humane end is advised; what cannot wait stands in the first part.
    let ends = verdict.humane.low.is_advised();
    let (mut kept, mut left_to_vet) = (Vec::new(), Vec::new());
    for advised in &verdict.acts {
        match protocol.action(advised.target.action).home {
            _ if ends && protocol.action(advised.target.action).part == Part::Wound => {}
            Home::LeftToVet if waits => left_to_vet.push((advised.target, advised.because.clone())),
            Home::ForTheVet if to_vet => left_to_vet.push((advised.target, advised.because.clone())),
            Home::Untold if to_vet => {}
            Home::OnTheWay if !goes => {}
            Home::UntilFound if verdict.looked_over && verdict.wounds > 0 => {}
            _ if phone.is_none() && is_elsewhere(&advised) => {}
            Home::Done | Home::LeftToVet | Home::ForTheVet | Home::Untold | Home::OnTheWay | Home::UntilFound => {
                kept.push(advised);
            }
        }
    }
    Carried { kept, left_to_vet, phone: phone.filter(|_| !elsewhere) }
}

/// Part by part in the protocol's order, the phone call as soon as nothing has to happen before it.
fn in_order(
    protocol: &Protocol,
    mut kept: Vec<&Advised>,
    phone: Option<Phone>,
    undone: impl Fn(ActionAt) -> bool,
) -> Vec<PlanStep> {
    // What cannot be done stands in for nothing, and is not told where what it would have stood in for is done.
    let there: BTreeSet<Target> = kept.iter().map(|advised| advised.target).collect();
    let stands_in = |advised: &&Advised| replaces(protocol, advised.target).any(|replaced| there.contains(&replaced));
    kept.retain(|advised| !(undone(advised.target.action) && stands_in(advised)));
    let replaced: BTreeSet<Target> = kept
        .iter()
        .filter(|advised| !undone(advised.target.action))
        .flat_map(|advised| replaces(protocol, advised.target))
        .collect();
    kept.retain(|advised| !replaced.contains(&advised.target));
    let part = |advised: &&Advised| protocol.action(advised.target.action).part;
    // Wounds are seen to one by one; all else keeps the order of doing.
    let wound = |advised: &&Advised| advised.target.wound.filter(|_| part(advised) == Part::Wound);
    // Of what is done alike to several wounds, the gravest comes first: a worse answer meets every rule that a milder one meets, and
    // more, so where no need tells them apart the number of reasons does.
    let need = |advised: &Advised| {
        let need = advised.because.iter().filter_map(|reason| protocol.rule(reason.rule).need).max();
        std::cmp::Reverse((need, advised.because.len()))
    };
    kept.sort_by_key(|advised| (part(advised), wound(advised), advised.target.action, need(advised)));
    let kept = first_things_first(protocol, kept);
    let act = |advised: &Advised| PlanStep::Act(advised.target, advised.because.clone());
    let (at_once, then): (Vec<&Advised>, Vec<&Advised>) =
        kept.into_iter().partition(|advised| protocol.action(advised.target.action).at_once);
    at_once.into_iter().map(act).chain(phone.map(PlanStep::Phone)).chain(then.into_iter().map(act)).collect()
}

/// Puts each act after those for her or the same wound that come before it, and keeps the order of doing otherwise. The check saw
/// that there is no way round.
fn first_things_first<'v>(protocol: &Protocol, mut left: Vec<&'v Advised>) -> Vec<&'v Advised> {
    let mut placed = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let is_before = |one: &Advised, other: &Advised| {
            one.target.meets(other.target) && protocol.action(one.target.action).before.contains(&other.target.action)
        };
        let next = left.iter().position(|act| !left.iter().any(|other| is_before(other, act)));
        placed.push(left.remove(next.unwrap_or(0)));
    }
    placed
}

/// What a step stands in for: for its own wound, or for the whole bird.
fn replaces(protocol: &Protocol, target: Target) -> impl Iterator<Item = Target> {
    protocol.action(target.action).replaces.iter().map(move |action| Target { action: *action, wound: target.wound })
}

fn phone(verdict: &Exact) -> Option<Phone> {
    let within_hours = verdict.need.low >= Need::WithinHours;
    // What may be catching is not driven anywhere before somebody has said so.
    match (within_hours, verdict.authority.low >= Authority::Ask) {
        (true, true) => Some(Phone::VetBeforeMoving),
        (true, false) if verdict.need.low == Need::Now => Some(Phone::VetAndGo),
        (true, false) => Some(Phone::Vet),
        (false, _) if verdict.need.high >= Need::WithinHours => Some(Phone::VetToBeSafe),
        (false, _) => (verdict.need.low == Need::WithinADay).then_some(Phone::VetToday),
    }
}

/// One line a thing to be done: several wounds bitten ask for one antibiotic, by the earliest hour.
fn due(protocol: &Protocol, verdict: &Exact) -> Vec<Due> {
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
