//! Which scripted birds stand in the packet: those that between them show most, chosen by what comes out, never by a list.

use super::deadly::{broken, left_out};
use crate::bird::Kind;
use crate::content::terms;
use crate::finding::About;
use crate::phrase::{Phrase, review as phrase, why};
use crate::practice::Script;
use crate::protocol::Protocol;
use crate::protocol::question::Reach;
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::{Exact, judge_bands};
use chrono::DateTime;
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// At most this many birds: with the rules they are an evening's reading.
pub const BIRDS: usize = 20;

/// Where a bird stands on need, humane end and authority call, as "at least".
pub type Rungs = (Need, Humane, Authority);

fn rungs(verdict: &Exact) -> Rungs {
    (verdict.need.low, verdict.humane.low, verdict.authority.low)
}

/// A chosen bird, and what she shows that none chosen before her did.
#[derive(Clone, Debug)]
pub struct Chosen<'s> {
    /// The bird.
    pub script: &'s Script,
    /// Where she stands.
    pub rungs: Rungs,
    /// What she adds, in words.
    pub adds: Vec<Phrase>,
}

/// What a bird shows.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Shows {
    Need(Need),
    Humane(Humane),
    Authority(Authority),
    Together(Rungs),
    Kind(Option<Kind>),
    Reach(Option<Reach>),
    Wounds(bool),
    Does(ActionAt),
    Never(ActionAt),
}

impl Shows {
    /// How much it matters that somebody shows it: a rung before a combination of rungs, that before kinds, reach and wounds, those
    /// before one more act or ban that can kill.
    const fn weight(&self) -> usize {
        match self {
            Self::Need(_) | Self::Humane(_) | Self::Authority(_) => 0,
            Self::Together(_) => 1,
            Self::Kind(_) | Self::Reach(_) | Self::Wounds(_) => 2,
            Self::Does(_) | Self::Never(_) => 3,
        }
    }

    /// In words, for who asks why this bird; nothing for what her page shows anyway.
    fn words(&self) -> Option<Phrase> {
        match self {
            Self::Need(need) => Some(terms::need(*need, false)),
            Self::Humane(humane) => Some(why::humane(terms::humane(*humane))),
            Self::Authority(authority) => Some(terms::authority(*authority)),
            Self::Kind(kind) => Some(kind.map_or_else(phrase::unknown_kind, name)),
            Self::Reach(Some(Reach::Nobody)) => Some(phrase::no_vet()),
            Self::Reach(Some(Reach::Now)) => Some(phrase::vet_now()),
            Self::Reach(Some(Reach::Hours)) => Some(phrase::vet_hours()),
            Self::Reach(Some(Reach::Day)) => Some(phrase::vet_day()),
            Self::Reach(None) => Some(phrase::reach_not_told()),
            Self::Wounds(true) => Some(phrase::a_wound()),
            Self::Wounds(false) => Some(phrase::no_wound()),
            Self::Together(_) => Some(phrase::rungs_together()),
            Self::Does(_) | Self::Never(_) => None,
        }
    }
}

/// A kind of bird by its name.
const fn name(kind: Kind) -> Phrase {
    match kind {
        Kind::Hen => phrase::hen(),
        Kind::Cock => phrase::cock(),
        Kind::Bantam => phrase::bantam(),
        Kind::Chick => phrase::chick(),
        Kind::Duck => phrase::duck(),
        Kind::Goose => phrase::goose(),
        Kind::Turkey => phrase::turkey(),
        Kind::Quail => phrase::quail(),
        Kind::GuineaFowl => phrase::guinea_fowl(),
    }
}

/// The birds of a packet, the gravest first. The same protocol and birds give the same choice.
///
/// One after another the bird is taken that adds most to those before her; of several alike the first by name.
pub fn choose<'s>(protocol: &Protocol, scripts: &'s [Script]) -> Vec<Chosen<'s>> {
    let mut rest: Vec<(&Script, Rungs, BTreeSet<Shows>)> = scripts
        .iter()
        .map(|script| {
            let verdict = judge_bands(protocol, &script.findings, DateTime::UNIX_EPOCH);
            (script, rungs(&verdict), shows(protocol, script, &verdict))
        })
        .collect();
    rest.sort_by(|(one, ..), (other, ..)| one.name.cmp(&other.name));
    let (mut shown, mut chosen) = (BTreeSet::new(), Vec::new());
    while chosen.len() < BIRDS && !rest.is_empty() {
        let adds = |shows: &BTreeSet<Shows>| {
            let mut counts = [0usize; 4];
            for new in shows.difference(&shown) {
                if let Some(count) = counts.get_mut(new.weight()) {
                    *count += 1;
                }
            }
            counts
        };
        let best = (0..rest.len()).max_by_key(|at| (rest.get(*at).map(|(.., shows)| adds(shows)), Reverse(*at)));
        let Some(best) = best else { break };
        let (script, rungs, own) = rest.remove(best);
        let adds = own.difference(&shown).filter_map(Shows::words).collect();
        chosen.push(Chosen { script, rungs, adds });
        shown.extend(own);
    }
    chosen
        .sort_by(|one, other| (Reverse(one.rungs), &one.script.name).cmp(&(Reverse(other.rungs), &other.script.name)));
    chosen
}

fn shows(protocol: &Protocol, script: &Script, verdict: &Exact) -> BTreeSet<Shows> {
    let rungs @ (need, humane, authority) = rungs(verdict);
    let kind = script.findings.answer(About::Bird, protocol.kind_question().id.as_str());
    let kind = kind.and_then(|said| protocol.kind_of(&said.statement.answer));
    let scales = [
        Shows::Need(need),
        Shows::Humane(humane),
        Shows::Authority(authority),
        Shows::Together(rungs),
        Shows::Kind(kind),
        Shows::Reach(verdict.reach),
        Shows::Wounds(verdict.wounds > 0),
    ];
    let acts = verdict.acts.iter().map(|advised| advised.target.action);
    let acts = acts.filter(|act| left_out(protocol, *act).is_some()).map(Shows::Does);
    let bans = verdict.never.iter().map(|ban| ban.target.action);
    let bans = bans.filter(|ban| broken(protocol, *ban).is_some()).map(Shows::Never);
    scales.into_iter().chain(acts).chain(bans).collect()
}
