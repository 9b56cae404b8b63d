//! What the cover of a case says: worked out anew from its log.

use super::due::{Examined, due, examined};
use super::{Days, since_vet};
use crate::care::cupboard::Cupboard;
use crate::exam::{Exam, Place, timer};
use crate::finding::log::{self, Entry, Stamped};
use crate::finding::{About, Id};
use crate::judge::brief_told;
use crate::ledger::{Clock, Cover, State};
use crate::protocol::Protocol;
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::Need;
use crate::prove::{Exact, judge_bands};
use chrono::{DateTime, TimeDelta, Utc};

/// The cover of a case as it stands now.
pub fn cover(protocol: &Protocol, log: &[Stamped], cupboard: &Cupboard, now: DateTime<Utc>) -> Cover {
    let days = Days::of(log);
    let findings = log::findings(&log::standing(log));
    let kind = findings
        .answer(About::Bird, protocol.kind_question().id.as_str())
        .map(|said| protocol.kind_question().words(&said.statement.answer));
    // As her own page and sheet judge her.
    let verdict = judge_bands(protocol, &findings, now);
    let due = due(protocol, log, &days, cupboard, now);
    let clock = clock(protocol, log, &days);
    Cover {
        need: state(protocol, log, &days, &verdict),
        name: days.name,
        kind: kind.unwrap_or_default(),
        due: due.waits_since(),
        state: days.end.map_or(State::Open, |end| State::Closed(end.outcome)),
        archived: days.archived,
        clock,
    }
}

/// The clock that runs for her, its time up or not: that of a step, else that of the card that lies open. None of a bird whose
/// case is over.
pub fn clock(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<Clock> {
    if days.over().is_some() {
        return None;
    }
    let (what, ends_at) = match timer(log) {
        Some(timer) => (protocol.actions.iter().find(|action| action.id == timer.action)?.verb.clone(), timer.ends_at),
        None => on_the_card(protocol, log)?,
    };
    Some(Clock { what, ends_at })
}

/// What goes by the clock of the card that lies open, and until when.
fn on_the_card(protocol: &Protocol, log: &[Stamped]) -> Option<(String, DateTime<Utc>)> {
    // Most logs hold no card; the examination is worked out only where one does.
    log.iter().any(|stamped| matches!(stamped.entry, Entry::Began(_))).then_some(())?;
    let Place::Instruction(at, since) = Exam::from_log(protocol, log).place else { return None };
    let card = protocol.instruction(at);
    let ends_at = since + TimeDelta::seconds(i64::from(card.timer_s?));
    let timed = |act: &&ActionAt| protocol.ways.iter().any(|way| way.act == **act && way.timer_s.is_some());
    let what = card.acts.iter().find(timed).map_or_else(|| "time".to_owned(), |act| protocol.action(*act).verb.clone());
    (!card_ended(log, &card.id)).then_some((what, ends_at))
}

/// Whether the clock of a card was ended: by an entry that ended no other one.
fn card_ended(log: &[Stamped], card: &Id) -> bool {
    let (mut step_runs, mut ended) = (false, false);
    for stamped in log {
        match &stamped.entry {
            Entry::Timed { .. } => step_runs = true,
            Entry::Began(id) if id == card => ended = false,
            Entry::ClockEnded => {
                ended |= !step_runs;
                step_runs = false;
            }
            _ => {}
        }
    }
    ended
}

/// How she stands, in a few words: how it ended, where it did; that a humane end is advised, where it is; then her need.
pub fn state(protocol: &Protocol, log: &[Stamped], days: &Days, verdict: &Exact) -> String {
    if let Some(end) = days.over() {
        return end.outcome.words().to_owned();
    }
    let need = need(protocol, log, days, verdict);
    match verdict.humane.low.advice() {
        Some(advice) => format!("{advice}; {need}"),
        None => need,
    }
}

/// That she was not examined, where she was not; else how soon she needs a vet, and what has become of that since one was asked.
pub fn need(protocol: &Protocol, log: &[Stamped], days: &Days, verdict: &Exact) -> String {
    let (need, no_vet) = (verdict.need, verdict.no_vet());
    let vet = || since_vet(protocol, log, days).map_or_else(String::new, |vet| format!("; {}", vet.words()));
    match (examined(protocol, log, days), need.low) {
        (Examined::Not, _) => "not examined".to_owned(),
        // That nothing was found so far says nothing of a bird that was not looked at to the end.
        (Examined::InPart, Need::None) => "not examined to the end".to_owned() + &vet(),
        (Examined::InPart, Need::Home | Need::WithinADay | Need::WithinHours) => {
            format!("not examined to the end; so far {}{}", brief_told(need, no_vet), vet())
        }
        (Examined::InPart, Need::Now) | (Examined::Whole, _) => brief_told(need, no_vet) + &vet(),
    }
}
