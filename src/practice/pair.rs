//! Two people who looked at one bird, each without knowing what the other said: where they agree, question by question.

use super::agreement::Share;
use super::mark::Rungs3;
use crate::finding::{Answer, Findings};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::prove::judge_bands;
use crate::sheet::{Cell, Sheet};
use chrono::{DateTime, Utc};

/// How two answers to one question compare.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Alike {
    /// The same.
    Same,
    /// So many rungs apart, the first milder.
    Milder(u8),
    /// So many rungs apart, the first graver.
    Graver(u8),
    /// Another answer, where none is worse.
    Other,
    /// Only one of the two has an answer.
    OnlyOne,
}

/// One question, as both answered it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// The question.
    pub asked: Asked,
    /// What the first one said.
    pub one: Option<Answer>,
    /// What the second one said.
    pub other: Option<Answer>,
    /// How they compare.
    pub alike: Alike,
}

/// Two examinations of one bird.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// Every question at least one of them answered.
    pub compared: Vec<Compared>,
    /// Of those both answered, how many alike.
    pub same: Share,
    /// What the first one's findings come to.
    pub one: Rungs3,
    /// What the second one's come to.
    pub other: Rungs3,
}

/// Compares two examinations of one bird.
pub fn compare(protocol: &Protocol, one: &Findings, other: &Findings, now: DateTime<Utc>) -> Pair {
    let (left, right) = (Sheet::lay(protocol, one, now), Sheet::lay(protocol, other, now));
    let wider = if left.wounds() > right.wounds() { &left } else { &right };
    let mut compared = Vec::new();
    for (at, question) in protocol.enumerated() {
        for about in wider.abouts(question) {
            let said = |findings: &Findings| {
                findings.answer(about, question.id.as_str()).map(|said| said.statement.answer.clone())
            };
            let (one, other) = (said(one), said(other));
            if one.is_none() && other.is_none() {
                continue;
            }
            let alike = match (&one, &other) {
                (Some(one), Some(other)) if one == other => Alike::Same,
                (Some(_), Some(_)) => {
                    apart(left.cell(about.into(), at), right.cell(about.into(), at), question.ordered)
                }
                _ => Alike::OnlyOne,
            };
            compared.push(Compared { asked: Asked { about, question: at }, one, other, alike });
        }
    }
    let both = compared.iter().filter(|compared| compared.alike != Alike::OnlyOne);
    let count = |of: usize| u32::try_from(of).unwrap_or(u32::MAX);
    let same = Share {
        hits: count(both.clone().filter(|compared| compared.alike == Alike::Same).count()),
        of: count(both.count()),
    };
    Pair { compared, same, one: rungs(protocol, one, now), other: rungs(protocol, other, now) }
}

fn apart(one: Cell, other: Cell, ordered: bool) -> Alike {
    let span = |cell| match cell {
        Cell::Given(at) => Some((at, at)),
        Cell::Worked(_, first, last) => Some((first, last)),
        Cell::NotAsked | Cell::Amount(_) | Cell::CannotTell => None,
    };
    match (span(one), span(other)) {
        (Some((low, high)), Some((first, last))) if first <= high && low <= last => Alike::Same,
        (Some((_, high)), Some((first, _))) if ordered && high < first => Alike::Milder(first - high),
        (Some((low, _)), Some((_, last))) if ordered => Alike::Graver(low.saturating_sub(last)),
        _ => Alike::Other,
    }
}

fn rungs(protocol: &Protocol, findings: &Findings, now: DateTime<Utc>) -> Rungs3 {
    let verdict = judge_bands(protocol, findings, now);
    Rungs3 { need: verdict.need.low, humane: verdict.humane.low, authority: verdict.authority.low }
}
