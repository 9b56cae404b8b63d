//! One timetable for all her wounds: when to look again, and what at.

use super::looks;
use crate::protocol::Protocol;
use crate::protocol::rule::{ActionAt, Looks};
use crate::protocol::supply::{Round, RoundAt};
use crate::prove::Exact;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::{BTreeMap, BTreeSet};

/// Looks so near to each other are one: a bird is not taken up twice within a quarter of an hour.
pub const NEAR: TimeDelta = TimeDelta::minutes(15);

/// One look.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Look {
    /// When.
    pub at: DateTime<Utc>,
    /// Whether all signs that end home care are looked for.
    pub signs: bool,
    /// What else comes round then.
    pub rounds: Vec<RoundAt>,
}

/// What asks for looks, and from when on each is counted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Promise {
    looks: Vec<(Looks, DateTime<Utc>)>,
    rounds: Vec<(RoundAt, DateTime<Utc>)>,
}

impl Promise {
    /// What one verdict promises, from its last answer on; rounds are those of what is done.
    pub fn of(protocol: &Protocol, verdict: &Exact, done: &BTreeSet<ActionAt>) -> Self {
        Self::default().renewed(protocol, verdict, done, verdict.answered_at)
    }

    /// What a later verdict promises: what stood before is still counted from when it was first promised.
    #[must_use]
    pub fn renewed(&self, protocol: &Protocol, verdict: &Exact, done: &BTreeSet<ActionAt>, at: DateTime<Utc>) -> Self {
        let rounds = protocol.rounds.placed();
        let asked = rounds.filter(|(_, round)| round.with.iter().any(|act| done.contains(act)));
        // What may come late is looked for even if all seems well since.
        let gone = |looks: &Looks| !verdict.looks.contains(looks);
        let late = self.looks.iter().filter(|(looks, _)| looks.late && gone(looks)).copied();
        Self {
            looks: verdict.looks.iter().map(|looks| (*looks, since(&self.looks, looks, at))).chain(late).collect(),
            rounds: asked.map(|(round, _)| (round, since(&self.rounds, &round, at))).collect(),
        }
    }
}

fn since<T: PartialEq>(before: &[(T, DateTime<Utc>)], what: &T, at: DateTime<Utc>) -> DateTime<Utc> {
    before.iter().find(|(stood, _)| stood == what).map_or(at, |(_, since)| *since)
}

/// Every look that is promised, the earliest first.
pub fn timetable(protocol: &Protocol, promise: &Promise) -> Vec<Look> {
    let mut by_time: BTreeMap<DateTime<Utc>, (bool, Vec<RoundAt>)> = BTreeMap::new();
    let starts: BTreeSet<DateTime<Utc>> = promise.looks.iter().map(|(_, since)| *since).collect();
    for start in starts {
        let of = promise.looks.iter().filter(|(_, since)| *since == start);
        let together: Vec<Looks> = of.map(|(looks, _)| *looks).collect();
        for at in looks::times(&together, start) {
            by_time.entry(at).or_default().0 = true;
        }
    }
    for (round, start) in &promise.rounds {
        for minutes in minutes(protocol.round(*round)) {
            by_time.entry(*start + TimeDelta::minutes(minutes)).or_default().1.push(*round);
        }
    }
    let mut looks: Vec<Look> = Vec::new();
    for (at, (signs, rounds)) in by_time {
        match looks.last_mut().filter(|before| at - before.at <= NEAR) {
            // The earlier time is kept: sooner is never worse.
            Some(before) => {
                before.signs |= signs;
                before.rounds.extend(rounds);
                before.rounds.sort_unstable();
                before.rounds.dedup();
            }
            None => looks.push(Look { at, signs, rounds }),
        }
    }
    looks
}

/// The minutes at which a round comes.
fn minutes(round: &Round) -> Vec<i64> {
    let end = i64::from(round.until_h) * 60;
    let first: Vec<i64> = round.at_min.iter().copied().map(i64::from).collect();
    let every = i64::from(round.every_min).max(1);
    let from = first.last().copied().unwrap_or(0);
    // The regular times are counted from the start, so that "twice a day" stays twice a day.
    let regular = (1..).map(|nth| nth * every).skip_while(|at| *at <= from).take_while(|at| *at <= end);
    first.iter().copied().chain(regular).collect()
}
