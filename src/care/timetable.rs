//! One timetable for all her wounds: when to look again, and what at. A stable bird is left in the dark for the night.

use super::{looks, night};
use crate::protocol::Protocol;
use crate::protocol::rule::{ActionAt, Looks};
use crate::protocol::supply::{Round, RoundAt};
use crate::prove::Exact;
use crate::zone::Zone;
use chrono::{DateTime, TimeDelta, Utc};
use night::{Calm, Dark, NightSpan};
use std::collections::{BTreeMap, BTreeSet};

/// Looks so near to each other are one: a bird is not taken up twice within a quarter of an hour.
pub const NEAR: TimeDelta = TimeDelta::minutes(15);

/// Late looks that come more often than this are held by night, too. Minutes; our own figure.
const NEAR_LATE: u32 = 240;

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
    /// What brings heat or a wrap, of what is done.
    begun: Vec<(ActionAt, DateTime<Utc>)>,
    /// When she was stable.
    calm: Calm,
}

/// What a verdict comes to, as far as looks go by it.
#[derive(Clone, Copy, Debug)]
pub struct LooksOf<'a> {
    /// The verdict.
    pub verdict: &'a Exact,
    /// The actions that are done.
    pub done: &'a BTreeSet<ActionAt>,
    /// Whether she is stable, but for what was begun of late.
    pub stable: bool,
}

/// Every look that is promised, and the nights that are left dark.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Timetable {
    /// The looks, the earliest first.
    pub looks: Vec<Look>,
    /// The nights in which looks would have fallen and none is held, the earliest first.
    pub nights: Vec<NightSpan>,
}

impl Promise {
    /// What one verdict promises, from its last answer on; rounds are those of what is done.
    pub fn of(protocol: &Protocol, kept: LooksOf) -> Self {
        Self::default().renewed(protocol, kept, kept.verdict.answered_at)
    }

    /// What a later verdict promises: what stood before is still counted from when it was first promised.
    #[must_use]
    pub fn renewed(&self, protocol: &Protocol, kept: LooksOf, at: DateTime<Utc>) -> Self {
        let LooksOf { verdict, done, stable } = kept;
        let rounds = protocol.rounds.placed();
        let asked = rounds.filter(|(_, round)| round.with.iter().any(|act| done.contains(act)));
        // What may come late is looked for even if all seems well since.
        let gone = |looks: &Looks| !verdict.looks.contains(looks);
        let late = self.looks.iter().filter(|(looks, _)| looks.late && gone(looks)).copied();
        let rounds: Vec<(RoundAt, DateTime<Utc>)> =
            asked.map(|(round, _)| (round, since(&self.rounds, &round, at))).collect();
        let begun = done.intersection(&protocol.night.acts).map(|act| (*act, since(&self.begun, act, at)));
        let begun: Vec<(ActionAt, DateTime<Utc>)> = begun.collect();
        let fresh = begun.iter().map(|(_, begun)| *begun + night::NEW);
        // What comes round more than once a night is not left for one.
        let often = rounds.iter().map(|(at, begun)| (protocol.round(*at), *begun));
        let often =
            often.filter(|(round, _)| i64::from(round.every_min) < night::length(&protocol.night).num_minutes());
        let often = often.map(|(round, begun)| begun + TimeDelta::hours(i64::from(round.until_h)));
        // What an accident did inside shows late: looks that are asked for because of it are held by night, too, while they are near
        // each other.
        let watched = verdict.looks.iter().filter(|looks| looks.late && looks.every_min < NEAR_LATE);
        let watched = watched.map(|looks| since(&self.looks, looks, at) + TimeDelta::hours(i64::from(looks.until_h)));
        let from = stable.then(|| fresh.chain(often).chain(watched).fold(at, Ord::max));
        Self {
            looks: verdict.looks.iter().map(|looks| (*looks, since(&self.looks, looks, at))).chain(late).collect(),
            calm: self.calm.renewed(from, at),
            rounds,
            begun,
        }
    }
}

fn since<T: PartialEq>(before: &[(T, DateTime<Utc>)], what: &T, at: DateTime<Utc>) -> DateTime<Utc> {
    before.iter().find(|(stood, _)| stood == what).map_or(at, |(_, since)| *since)
}

/// What falls on one moment: whether all signs are looked for, and what comes round.
type Asked = (bool, Vec<RoundAt>);

/// Every look that is promised. A night is one by the clock of her zone.
pub fn timetable(protocol: &Protocol, promise: &Promise, zone: Zone) -> Timetable {
    let mut by_time: BTreeMap<DateTime<Utc>, Asked> = BTreeMap::new();
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
    let nights = without_nights(&mut by_time, &promise.calm, Dark { hours: &protocol.night, zone });
    let mut looks: Vec<Look> = Vec::new();
    for (at, (signs, mut rounds)) in by_time {
        if let Some(before) = looks.last_mut().filter(|before| at - before.at <= NEAR) {
            // The earlier time is kept: sooner is never worse.
            before.signs |= signs;
            before.rounds.extend(rounds);
            before.rounds.sort_unstable();
            before.rounds.dedup();
        } else {
            rounds.sort_unstable();
            rounds.dedup();
            looks.push(Look { at, signs, rounds });
        }
    }
    Timetable { looks, nights }
}

/// Takes the looks out that would wake a stable bird, and puts what they were for to both edges of her night: last thing, and at
/// dawn. Tells the nights.
fn without_nights(by_time: &mut BTreeMap<DateTime<Utc>, Asked>, calm: &Calm, dark: Dark) -> Vec<NightSpan> {
    let mut nights: BTreeMap<NightSpan, Asked> = BTreeMap::new();
    by_time.retain(|at, (signs, rounds)| {
        let Some(night) = dark.night(*at).filter(|_| calm.holds(*at)) else { return true };
        let put_off = nights.entry(night).or_default();
        put_off.0 |= *signs;
        put_off.1.append(rounds);
        false
    });
    for (night, put_off) in &nights {
        // Whoever looked her over late in the evening has held the last look of the day.
        let last_thing = Some(night.from).filter(|from| calm.foreseen(*night, *from - NEAR));
        let dawn = Some(night.until).filter(|until| calm.holds(*until));
        for at in last_thing.into_iter().chain(dawn) {
            let (signs, rounds) = by_time.entry(at).or_default();
            *signs |= put_off.0;
            rounds.extend(&put_off.1);
        }
    }
    // What is still looked at in the evening of it shortens the night that is told.
    let held = |night: &NightSpan| by_time.range(night.from..night.until).next_back().map(|(at, _)| *at);
    nights.into_keys().map(|night| NightSpan { from: held(&night).unwrap_or(night.from), ..night }).collect()
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
