//! One timetable for all her wounds: when to look again, and what at.

use super::looks;
use crate::judge::Verdict;
use crate::protocol::Protocol;
use crate::protocol::rule::ActionAt;
use crate::protocol::supply::{Round, RoundAt};
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::{BTreeMap, BTreeSet};

/// Looks so near to each other are one: a bird is not taken up twice within a quarter of an hour.
const NEAR: TimeDelta = TimeDelta::minutes(15);

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

/// Every look of a bird, the earliest first, from the last answer on; rounds are those of what is done.
pub fn timetable(protocol: &Protocol, verdict: &Verdict, done: &BTreeSet<ActionAt>) -> Vec<Look> {
    let mut by_time: BTreeMap<DateTime<Utc>, (bool, Vec<RoundAt>)> = BTreeMap::new();
    for at in looks::times(&verdict.looks, verdict.answered_at) {
        by_time.entry(at).or_default().0 = true;
    }
    for (number, round) in (0u16..).map(RoundAt).zip(&protocol.rounds) {
        if round.with.iter().any(|act| done.contains(act)) {
            for minutes in minutes(round) {
                by_time.entry(verdict.answered_at + TimeDelta::minutes(minutes)).or_default().1.push(number);
            }
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
