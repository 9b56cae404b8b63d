//! What is due: the looks that were promised, which of them were held, and which were missed.

use super::{Days, Sitting, kind, known};
use crate::care::course::course;
use crate::care::cupboard::Cupboard;
use crate::care::timetable::{Look, LooksOf, NEAR, Promise, timetable};
use crate::care::{Plan, plan};
use crate::exam::Exam;
use crate::finding::log::{self, Entry, Stamped};
use crate::ledger::{Case, CaseId};
use crate::phrase::{Text, course as of_course, days as phrase};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::prove::{Exact, judge_bands};
use crate::zone::Zone;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::BTreeSet;

/// A promised look, and what came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Promised {
    /// The look.
    pub look: Look,
    /// What came of it.
    pub fate: Fate,
}

/// What came of a promised look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// Somebody looked.
    Held,
    /// Nobody did, and the next one has come since.
    Missed,
    /// Its time has come, and nobody has looked yet.
    DueNow,
    /// Its time has not come.
    Ahead,
}

/// All promised looks of a case, the earliest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Due {
    /// The looks.
    pub looks: Vec<Promised>,
    /// When somebody looked at her last.
    pub looked: Option<DateTime<Utc>>,
    /// Since when she waits to be examined to the end, where she does: that is due at once.
    pub examine: Option<DateTime<Utc>>,
}

impl Due {
    /// Those with this fate.
    pub fn with(&self, fate: Fate) -> impl Iterator<Item = &Look> {
        self.looks.iter().filter(move |promised| promised.fate == fate).map(|promised| &promised.look)
    }

    /// When she is to be looked at next: the one that is due, else the first ahead.
    pub fn next(&self) -> Option<&Look> {
        self.with(Fate::DueNow).next().or_else(|| self.with(Fate::Ahead).next())
    }

    /// Since when she waits for a look: the earliest nobody held since the last that was, else the first ahead. However much time
    /// goes by, only a look changes it.
    pub fn since(&self) -> Option<&Look> {
        self.missed_since_last().next().or_else(|| self.next())
    }

    /// Since when she waits for somebody to come to her: to examine her to the end, or to look at her again.
    pub fn waits_since(&self) -> Option<DateTime<Utc>> {
        let look = self.since().map(|look| look.at);
        self.examine.into_iter().chain(look).min()
    }

    /// The look she waits for, where its time has come: the earliest nobody held since the last that was.
    pub fn overdue(&self) -> Option<&Look> {
        self.with(Fate::DueNow).next().and_then(|_| self.since())
    }

    /// When somebody looked at her last, where a look has gone by since: told in place of a count, for nobody is scolded.
    pub fn last_looked(&self) -> Option<DateTime<Utc>> {
        self.looked.filter(|_| self.missed_since_last().next().is_some())
    }

    /// The looks nobody held since the last one that was.
    pub fn missed_since_last(&self) -> impl Iterator<Item = &Look> {
        let after = self.looks.iter().rposition(|promised| promised.fate == Fate::Held).map_or(0, |at| at + 1);
        self.looks.iter().skip(after).filter(|promised| promised.fate == Fate::Missed).map(|promised| &promised.look)
    }
}

/// A bird that waits for a look.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiting {
    /// Her case.
    pub case: CaseId,
    /// Her name, or what bird she is.
    pub bird: Text,
    /// When she is to be looked at.
    pub at: DateTime<Utc>,
    /// The next look after it, where its own time has come: that rings, too.
    pub next: Option<DateTime<Utc>>,
    /// When somebody looked at her last, where a look has gone by since.
    pub last: Option<DateTime<Utc>>,
    /// Whether she was not examined to the end.
    pub unexamined: bool,
    /// The tests of her course that nobody ticked off, as far as they are known.
    pub tests: Vec<TestDue>,
}

/// A test that can end a ban, and when it is tried first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TestDue {
    /// When.
    pub at: DateTime<Utc>,
    /// What is asked.
    pub ask: Text,
}

impl TestDue {
    /// The test with its moment.
    pub fn told(&self) -> Text {
        of_course::at(Text::clock_after(self.at, Some(self.at)), self.ask.clone()).into()
    }
}

/// The birds that wait for a look.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Waits {
    /// Every one that comes to be due soon, and the longest overdue; the soonest first.
    pub birds: Vec<Waiting>,
    /// How many more are overdue.
    pub more_overdue: usize,
    /// The clocks that run for birds, or ran out of late.
    pub clocks: Vec<Running>,
}

/// A clock that runs for a bird who is not the one that lies open: it rings wherever one is, and names her.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Running {
    /// Her case, where its name is known.
    pub case: Option<CaseId>,
    /// When it began, by which she is known again where its name is not.
    pub begun: DateTime<Utc>,
    /// Her name, or what bird she is.
    pub bird: Text,
    /// What goes by the clock.
    pub what: Text,
    /// When its time is up.
    pub ends_at: DateTime<Utc>,
}

impl Running {
    /// Whether it runs for the bird of this case.
    pub fn is_of(&self, case: Option<&CaseId>, begun: DateTime<Utc>) -> bool {
        match (&self.case, case) {
            (Some(own), Some(case)) => own == case,
            (None, _) | (_, None) => self.begun == begun,
        }
    }

    /// Whether it is the same clock of the same bird.
    pub fn is(&self, other: &Self) -> bool {
        self.is_of(other.case.as_ref(), other.begun) && self.ends_at == other.ends_at
    }
}

/// What a case waits for, if for anything.
pub fn waiting(
    protocol: &Protocol,
    case: &Case,
    cupboard: &Cupboard,
    zone: Zone,
    now: DateTime<Utc>,
) -> Option<Waiting> {
    let days = Days::of(&case.log);
    let due = due(protocol, &case.log, &days, cupboard, zone, now);
    let at = due.waits_since()?;
    Some(Waiting {
        case: case.id.clone(),
        bird: bird(protocol, &case.log, &days),
        at,
        next: due.with(Fate::Ahead).map(|look| look.at).find(|look| *look > at),
        last: due.last_looked(),
        unexamined: due.examine.is_some(),
        tests: tests(protocol, &case.log, &days, cupboard, zone),
    })
}

/// The tests of a bird's course that nobody ticked off, as her last sitting left them.
fn tests(protocol: &Protocol, log: &[Stamped], days: &Days, cupboard: &Cupboard, zone: Zone) -> Vec<TestDue> {
    let Some(last) = days.sittings.iter().rev().find(|sitting| sitting.answered) else { return Vec::new() };
    let (verdict, plan) = judged(protocol, log, last, cupboard, zone);
    let done = log::ticked(log);
    let open =
        course(protocol, &verdict, &plan).tests.into_iter().filter(|test| !done.contains_key(&test.name(protocol)));
    open.map(|test| TestDue { at: test.at, ask: Text::quoted(test.ask) }).collect()
}

/// How far a bird was examined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Examined {
    /// No answer stands.
    Not,
    /// Questions of the examination still wait.
    InPart,
    /// To the end, or looked at to the end since.
    Whole,
}

/// How far she was examined. Whoever left the examination open and held a whole look since has looked at her.
pub fn examined(protocol: &Protocol, log: &[Stamped], days: &Days) -> Examined {
    if !days.sittings.iter().any(|sitting| sitting.answered) {
        return Examined::Not;
    }
    let looked = || days.sittings.iter().skip(1).any(|look| look.over && look.answered);
    let first = log.iter().position(|stamped| matches!(stamped.entry, Entry::LookBegan(_))).unwrap_or(log.len());
    let through = || Exam::from_log(protocol, log.get(..first).unwrap_or(log)).is_through();
    if looked() || through() { Examined::Whole } else { Examined::InPart }
}

/// A bird's name; without one, what bird she is.
pub fn bird(protocol: &Protocol, log: &[Stamped], days: &Days) -> Text {
    if !days.name.is_empty() {
        return Text::typed(&days.name);
    }
    let findings = log::findings(&log::standing(log));
    kind(protocol, &findings).unwrap_or_else(|| phrase::not_named().into())
}

/// Works out what is due of a case. Nothing is due of a case that is closed or out of sight.
///
/// A look is counted from the sitting at which what asks for it was first found, as long as that has stood unbroken since: so
/// looking does not put off the next look, and a late decline keeps its own looks even if all seems well.
pub fn due(
    protocol: &Protocol,
    log: &[Stamped],
    days: &Days,
    cupboard: &Cupboard,
    zone: Zone,
    now: DateTime<Utc>,
) -> Due {
    if days.end.is_some() || days.archived {
        return Due::default();
    }
    let (mut promise, mut need) = (Promise::default(), Need::None);
    // A sitting at which nothing was answered moves nothing.
    for sitting in days.sittings.iter().filter(|sitting| sitting.answered) {
        let (verdict, plan) = judged(protocol, log, sitting, cupboard, zone);
        let kept = LooksOf { verdict: &verdict, done: &plan.done, stable: plan.is_stable() };
        promise = promise.renewed(protocol, kept, sitting.ended);
        need = verdict.need.low;
    }
    // Who needs a vet at once is not kept for the rest of the questions; she has looks of her own, and soon.
    let waits = need < Need::Now && examined(protocol, log, days) != Examined::Whole;
    let examine = log.first().filter(|_| waits).map(|first| first.at);
    let looks = timetable(protocol, &promise, zone).looks;
    let held = held(&looks, &days.sittings);
    let fates: Vec<Fate> = (0..looks.len()).map(|at| fate(&looks, at, &held, now)).collect();
    let promised = looks.into_iter().zip(fates).map(|(look, fate)| Promised { look, fate });
    let looked = days.sittings.iter().rev().find(|sitting| sitting.answered).map(|sitting| sitting.ended);
    Due { looks: promised.collect(), looked, examine }
}

/// The verdict and plan as a sitting left them.
pub fn judged(
    protocol: &Protocol,
    log: &[Stamped],
    sitting: &Sitting,
    cupboard: &Cupboard,
    zone: Zone,
) -> (Exact, Plan) {
    let verdict = judge_bands(protocol, &known(log, sitting), sitting.ended);
    let plan = plan(protocol, &verdict, cupboard, zone);
    (verdict, plan)
}

/// Which looks were held. A sitting holds the look that is about to come, from a quarter of an hour before it; else the last
/// one whose time has come, however late; and only where that was held before, the next one, from a quarter of the wait before
/// it. However near, none is held in the first half of the wait for it, and the examination itself is no look again.
fn held(looks: &[Look], sittings: &[Sitting]) -> BTreeSet<usize> {
    let first = sittings.first().map(|sitting| sitting.ended);
    // When a look comes, and how long the wait for it is.
    let comes = |at: usize| {
        let look = looks.get(at)?.at;
        let before = at.checked_sub(1).and_then(|before| looks.get(before)).map(|before| before.at).or(first);
        Some((look, before.map_or(NEAR + NEAR, |before| look - before)))
    };
    let mut held = BTreeSet::new();
    for sitting in sittings.iter().skip(1).filter(|sitting| sitting.over && sitting.answered) {
        let last = looks.iter().rposition(|look| look.at <= sitting.began);
        let next = last.map_or(0, |last| last + 1);
        let from = |early: fn(TimeDelta) -> TimeDelta| {
            comes(next).is_some_and(|(look, wait)| look - early(wait).min(wait / 2) <= sitting.began)
        };
        let late = last.filter(|last| !held.contains(last));
        let early = || from(|wait| (wait / 4).max(NEAR)).then_some(next);
        let holds = if from(|_| NEAR) { Some(next) } else { late.or_else(early) };
        held.extend(holds);
    }
    held
}

fn fate(looks: &[Look], at: usize, held: &BTreeSet<usize>, now: DateTime<Utc>) -> Fate {
    let has_come = |at: usize| looks.get(at).is_some_and(|look| look.at <= now);
    match (held.contains(&at), has_come(at + 1), has_come(at)) {
        (true, ..) => Fate::Held,
        (false, true, _) => Fate::Missed,
        (false, false, true) => Fate::DueNow,
        (false, false, false) => Fate::Ahead,
    }
}
