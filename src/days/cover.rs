//! What the cover of a case says: worked out anew from its log.

use super::due::{Examined, due, examined};
use super::{Days, kind, outcome, since_vet};
use crate::care::cupboard::Cupboard;
use crate::exam::{Exam, Place, timer};
use crate::finding::Id;
use crate::finding::log::{self, Entry, Stamped};
use crate::judge::{advice, brief_told};
use crate::ledger::{Clock, Cover, State};
use crate::phrase::{Text, days as phrase};
use crate::protocol::Protocol;
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::Need;
use crate::prove::{Exact, judge_bands};
use crate::zone::Zone;
use chrono::{DateTime, TimeDelta, Utc};

/// What goes by a bird's clock, and until when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timed {
    /// What goes by it, in a word.
    pub what: Text,
    /// When its time is up.
    pub ends_at: DateTime<Utc>,
}

/// The cover of a case as it stands now, in the words that `say` makes of a text; whoever says it marks whose they are.
pub fn cover(
    protocol: &Protocol,
    log: &[Stamped],
    cupboard: &Cupboard,
    zone: Zone,
    now: DateTime<Utc>,
    say: &dyn Fn(Text) -> String,
) -> Cover {
    let days = Days::of(log);
    let findings = log::findings(&log::standing(log));
    let kind = kind(protocol, &findings);
    // As her own page and sheet judge her.
    let verdict = judge_bands(protocol, &findings, now);
    let due = due(protocol, log, &days, cupboard, zone, now);
    let clock = clock(protocol, log, &days).map(|Timed { what, ends_at }| Clock { what: say(what), ends_at });
    Cover {
        need: say(state(protocol, log, &days, &verdict)),
        name: days.name,
        kind: kind.map(say).unwrap_or_default(),
        due: due.waits_since(),
        state: days.end.map_or(State::Open, |end| State::Closed(end.outcome)),
        archived: days.archived,
        clock,
        words: String::new(),
    }
}

/// The clock that runs for her, its time up or not: that of a step, else that of the card that lies open. None of a bird whose
/// case is over.
pub fn clock(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<Timed> {
    if days.over().is_some() {
        return None;
    }
    let (what, ends_at) = match timer(log) {
        Some(timer) => {
            let action = protocol.actions.iter().find(|action| action.id == timer.action)?;
            (Text::quoted(&action.verb), timer.ends_at)
        }
        None => on_the_card(protocol, log)?,
    };
    Some(Timed { what, ends_at })
}

/// What goes by the clock of the card that lies open, and until when.
fn on_the_card(protocol: &Protocol, log: &[Stamped]) -> Option<(Text, DateTime<Utc>)> {
    // Most logs hold no card; the examination is worked out only where one does.
    log.iter().any(|stamped| matches!(stamped.entry, Entry::Began(_))).then_some(())?;
    let Place::Instruction(at, since) = Exam::from_log(protocol, log).place else { return None };
    let card = protocol.instruction(at);
    let ends_at = since + TimeDelta::seconds(i64::from(card.timer_s?));
    let timed = |act: &&ActionAt| protocol.ways.iter().any(|way| way.act == **act && way.timer_s.is_some());
    let act = card.acts.iter().find(timed);
    let what = act.map_or_else(|| phrase::time().into(), |act| Text::quoted(&protocol.action(*act).verb));
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
pub fn state(protocol: &Protocol, log: &[Stamped], days: &Days, verdict: &Exact) -> Text {
    if let Some(end) = days.over() {
        return outcome(end.outcome).into();
    }
    let advice = advice(verdict.humane.low).map(Text::from);
    Text::clauses(advice.into_iter().chain([need(protocol, log, days, verdict)]))
}

/// That she was not examined, where she was not; else how soon she needs a vet, and what has become of that since one was asked.
pub fn need(protocol: &Protocol, log: &[Stamped], days: &Days, verdict: &Exact) -> Text {
    let told = || brief_told(verdict.need, verdict.no_vet());
    let stands = match (examined(protocol, log, days), verdict.need.low) {
        (Examined::Not, _) => return phrase::not_examined().into(),
        // That nothing was found so far says nothing of a bird that was not looked at to the end.
        (Examined::InPart, Need::None) => phrase::not_to_the_end().into(),
        (Examined::InPart, Need::Home | Need::WithinADay | Need::WithinHours) => phrase::so_far(told()).into(),
        (Examined::InPart, Need::Now) | (Examined::Whole, _) => told(),
    };
    let vet = since_vet(protocol, log, days).map(|vet| vet.told().into());
    Text::clauses([stands].into_iter().chain(vet))
}
