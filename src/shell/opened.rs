//! What this window holds of the cases it opened or wrote into: where their ledger is lost under it, they are written again.

use super::covers::{self, CoverMaker};
use crate::finding::log::Stamped;
use crate::ledger::{CaseId, Event, EventId, Kept, Ledger, LedgerError, Mark, Setting};
use chrono::{DateTime, Utc};

/// What is held.
#[derive(Debug, Default)]
pub struct Held {
    cases: Vec<Case>,
    settings: Vec<(Setting, String)>,
}

/// A case, whole.
#[derive(Debug)]
struct Case {
    id: CaseId,
    events: Vec<Kept>,
    /// Whether this window wrote into it: only then is it written again.
    written: bool,
}

impl Held {
    /// Takes a case as it was read.
    pub fn read(&mut self, id: &CaseId, events: Vec<Kept>) {
        match self.cases.iter_mut().find(|case| case.id == *id) {
            Some(case) => case.events = events,
            None => self.cases.push(Case { id: id.clone(), events, written: false }),
        }
    }

    /// Takes an event that was kept; tells whether all that came before it is held, too.
    pub fn kept(&mut self, event: &Event, mark: &Mark) -> bool {
        let kept = Kept { event: event.clone(), mark: mark.clone() };
        if !self.cases.iter().any(|case| case.id == event.case) {
            self.cases.push(Case { id: event.case.clone(), events: Vec::new(), written: true });
        }
        let Some(case) = self.cases.iter_mut().find(|case| case.id == event.case) else { return false };
        case.written = true;
        match case.events.len() as u64 {
            length if length == event.seq => {
                case.events.push(kept);
                true
            }
            length => length > event.seq,
        }
    }

    /// Takes a setting as it is kept.
    pub fn set(&mut self, setting: Setting, value: &str) {
        self.settings.retain(|(known, _)| *known != setting);
        self.settings.push((setting, value.to_owned()));
    }

    /// Whether this window wrote anything.
    pub fn wrote(&self) -> bool {
        self.cases.iter().any(|case| case.written)
    }

    /// All events of a case, as far as they are held.
    pub fn of(&self, id: &CaseId) -> Vec<Event> {
        let case = self.cases.iter().find(|case| case.id == *id);
        case.map(|case| case.events.iter().map(|kept| kept.event.clone()).collect()).unwrap_or_default()
    }

    /// The cases this window wrote into.
    pub fn written(&self) -> Vec<CaseId> {
        self.cases.iter().filter(|case| case.written).map(|case| case.id.clone()).collect()
    }

    /// Writes the cases again that this window wrote into, as far as they are not there, and the settings that are not. Where a
    /// case has gone on differently there, ours becomes a case of its own; tells from which to which.
    ///
    /// # Errors
    /// Where the disk fails. What is there by then is not written twice.
    pub fn write_again(
        &mut self,
        ledger: &mut Ledger,
        maker: CoverMaker,
        now: DateTime<Utc>,
    ) -> Result<Vec<(CaseId, CaseId)>, LedgerError> {
        for (setting, value) in &self.settings {
            if ledger.setting(*setting)?.is_none() {
                ledger.set(*setting, value)?;
            }
        }
        let cupboard = covers::cupboard(ledger)?;
        let mut parted = Vec::new();
        for case in self.cases.iter_mut().filter(|case| case.written) {
            let log: Vec<Stamped> = case.events.iter().map(|kept| kept.event.stamped.clone()).collect();
            let cover = maker.cover(&log, &cupboard, now);
            let all = |events: &[Kept], ledger: &mut Ledger| {
                events.iter().try_for_each(|Kept { event, mark }| ledger.append(event, mark, &cover))
            };
            match all(&case.events, ledger) {
                Err(LedgerError::Clash) => {
                    let own = CaseId::new();
                    for Kept { event, .. } in &mut case.events {
                        (event.id, event.case) = (EventId::new(), own.clone());
                    }
                    all(&case.events, ledger)?;
                    parted.push((std::mem::replace(&mut case.id, own.clone()), own));
                }
                other => other?,
            }
        }
        Ok(parted)
    }
}
