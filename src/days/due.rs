//! What is due: the looks that were promised, which of them were held, and which were missed.

use super::{Days, Sitting, known};
use crate::care::cupboard::Cupboard;
use crate::care::timetable::{Look, NEAR, Promise, timetable};
use crate::care::{Plan, plan};
use crate::finding::About;
use crate::finding::log::{self, Stamped};
use crate::judge::{Verdict, judge};
use crate::ledger::{Case, CaseId};
use crate::protocol::{KIND, Protocol};
use chrono::{DateTime, Utc};

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
    pub bird: String,
    /// When she is to be looked at.
    pub at: DateTime<Utc>,
    /// How many looks before it nobody held.
    pub missed: usize,
}

/// What a case waits for, if for anything.
pub fn waiting(protocol: &Protocol, case: &Case, cupboard: &Cupboard, now: DateTime<Utc>) -> Option<Waiting> {
    let days = Days::of(&case.log);
    let due = due(protocol, &case.log, &days, cupboard, now);
    let at = due.next()?.at;
    Some(Waiting {
        case: case.id.clone(),
        bird: bird(protocol, &case.log, &days),
        at,
        missed: due.missed_since_last().count(),
    })
}

/// A bird's name; without one, what bird she is.
pub fn bird(protocol: &Protocol, log: &[Stamped], days: &Days) -> String {
    if !days.name.is_empty() {
        return days.name.clone();
    }
    let findings = log::findings(&log::standing(log));
    let kind = findings
        .answer(About::Bird, KIND)
        .and_then(|said| Some(protocol.question(KIND)?.words(&said.statement.answer)));
    kind.unwrap_or_else(|| "a bird not named".to_owned())
}

/// Works out what is due of a case. Nothing is due of a case that is closed or out of sight.
///
/// A look is counted from the sitting at which what asks for it was first found, as long as that has stood unbroken since: so
/// looking does not put off the next look, and a late decline keeps its own looks even if all seems well.
pub fn due(protocol: &Protocol, log: &[Stamped], days: &Days, cupboard: &Cupboard, now: DateTime<Utc>) -> Due {
    if days.end.is_some() || days.archived {
        return Due::default();
    }
    let mut promise = Promise::default();
    for sitting in &days.sittings {
        let (verdict, plan) = judged(protocol, log, sitting, cupboard);
        promise = promise.renewed(protocol, &verdict, &plan.done, sitting.ended);
    }
    let looks = timetable(protocol, &promise);
    let fates: Vec<Fate> = (0..looks.len()).map(|at| fate(&looks, at, &days.sittings, now)).collect();
    let promised = looks.into_iter().zip(fates).map(|(look, fate)| Promised { look, fate });
    Due { looks: promised.collect() }
}

/// The verdict and plan as a sitting left them.
pub fn judged(protocol: &Protocol, log: &[Stamped], sitting: &Sitting, cupboard: &Cupboard) -> (Verdict, Plan) {
    let verdict = judge(protocol, &known(log, sitting), sitting.ended);
    let plan = plan(protocol, &verdict, cupboard);
    (verdict, plan)
}

/// A look counts as held by a sitting that began within a quarter of the time since the look before it, or from a quarter of
/// an hour before it, but never in the first half of that time; until the next one opens.
fn fate(looks: &[Look], at: usize, sittings: &[Sitting], now: DateTime<Utc>) -> Fate {
    let Some(look) = looks.get(at) else { return Fate::Ahead };
    let first = sittings.first().map(|sitting| sitting.ended);
    let opens = |at: usize| {
        let look = looks.get(at)?.at;
        let before = at.checked_sub(1).and_then(|before| looks.get(before)).map(|before| before.at).or(first)?;
        // However near, a look in the first half of the wait is not the one that was asked for.
        Some(look - ((look - before) / 4).max(NEAR).min((look - before) / 2))
    };
    let (opened, closes) = (opens(at).unwrap_or(look.at - NEAR), opens(at + 1));
    // The examination itself is no look again.
    let held = sittings
        .iter()
        .skip(1)
        .any(|sitting| sitting.over && sitting.began >= opened && closes.is_none_or(|closes| sitting.began < closes));
    let next_has_come = looks.get(at + 1).is_some_and(|next| next.at <= now);
    match (held, next_has_come, look.at <= now) {
        (true, ..) => Fate::Held,
        (false, true, _) => Fate::Missed,
        (false, false, true) => Fate::DueNow,
        (false, false, false) => Fate::Ahead,
    }
}
