//! The ledger against a list in memory: whatever is done to it, in whatever order, both hold the same.

#![expect(clippy::panic, reason = "a failing test panics")]

use chrono::{DateTime, TimeDelta, Utc};
use coopside::finding::log::{Entry, Outcome, Stamped};
use coopside::ledger::{self, CaseId, Cover, Event, EventId, Filter, Ledger, LedgerError, Mark, State};
use proptest::prelude::*;
use proptest_state_machine::{ReferenceStateMachine, StateMachineTest, prop_state_machine};
use std::collections::BTreeMap;
use tempfile::TempDir;

/// What may be done.
#[derive(Clone, Debug)]
enum Step {
    /// Keeps the next event of a case; `window` says through which of two windows.
    Keep { case: usize, window: bool, closed: bool },
    /// Keeps the last event of a case once more, as after an answer that was lost.
    KeepAgain { case: usize },
    /// Keeps something in a place another window has taken.
    Clash { case: usize },
    /// Copies a case up to a place.
    Fork { case: usize, before: usize },
    /// Closes both windows and opens them again.
    Reopen,
    /// The program ends without closing anything.
    Crash,
    /// Makes a backup, keeps on, and takes the backup back.
    BackUpAndRestore,
    /// Carries all out and in again.
    CarryInAgain,
}

/// The list in memory: each case with what was said in it, and whether it is closed.
#[derive(Clone, Debug, Default)]
struct List {
    cases: Vec<(Vec<u32>, bool)>,
    next: u32,
}

const CASES: usize = 4;

impl List {
    fn case(&self, at: usize) -> usize {
        at % self.cases.len().max(1)
    }
}

impl ReferenceStateMachine for List {
    type State = Self;
    type Transition = Step;

    fn init_state() -> BoxedStrategy<Self> {
        Just(Self { cases: vec![(Vec::new(), false); CASES], next: 0 }).boxed()
    }

    fn transitions(_: &Self) -> BoxedStrategy<Step> {
        prop_oneof![
            8 => (0..CASES, any::<bool>(), any::<bool>()).prop_map(|(case, window, closed)| Step::Keep { case, window, closed }),
            2 => (0..CASES).prop_map(|case| Step::KeepAgain { case }),
            2 => (0..CASES).prop_map(|case| Step::Clash { case }),
            1 => (0..CASES, 0..6usize).prop_map(|(case, before)| Step::Fork { case, before }),
            1 => Just(Step::Reopen),
            1 => Just(Step::Crash),
            1 => Just(Step::BackUpAndRestore),
            1 => Just(Step::CarryInAgain),
        ]
        .boxed()
    }

    fn apply(mut list: Self, step: &Step) -> Self {
        match step {
            Step::Keep { case, closed, .. } => {
                let (at, said) = (list.case(*case), list.next);
                if let Some((log, ended)) = list.cases.get_mut(at) {
                    log.push(said);
                    *ended = *closed;
                }
                list.next += 1;
            }
            Step::Fork { case, before } => {
                let (at, before) = (list.case(*case), *before);
                let forked =
                    list.cases.get(at).map(|(log, ended)| (log.iter().take(before).copied().collect(), *ended));
                list.cases.extend(forked.filter(|(log, _): &(Vec<u32>, bool)| !log.is_empty()));
            }
            Step::KeepAgain { .. }
            | Step::Clash { .. }
            | Step::Reopen
            | Step::Crash
            | Step::BackUpAndRestore
            | Step::CarryInAgain => {}
        }
        list
    }
}

/// The real file, with two windows on it.
struct Real {
    folder: TempDir,
    windows: Option<(Ledger, Ledger)>,
    cases: Vec<CaseId>,
    last: BTreeMap<String, Event>,
}

fn mark() -> Mark {
    Mark { version: "0".into(), fingerprint: "f".into() }
}

fn now() -> DateTime<Utc> {
    DateTime::UNIX_EPOCH + TimeDelta::days(20_000)
}

fn event(case: &CaseId, seq: usize, said: u32, closed: bool) -> (Event, Cover) {
    let entry = if closed {
        Entry::Closed { outcome: Outcome::Recovered, proved: said.to_string() }
    } else {
        Entry::VetSaid(said.to_string())
    };
    let stamped = Stamped { at: now() + TimeDelta::minutes(i64::from(said)), entry };
    let state = if closed { State::Closed(Outcome::Recovered) } else { State::Open };
    let cover = Cover { name: format!("bird {said}"), state, ..Cover::default() };
    (Event { id: EventId::new(), case: case.clone(), seq: seq as u64, stamped, zone_min: 0 }, cover)
}

impl Real {
    fn open(&mut self) -> &mut (Ledger, Ledger) {
        let path = self.folder.path();
        self.windows.get_or_insert_with(|| {
            let open = || Ledger::open(path).unwrap_or_else(|error| panic!("{error}"));
            (open(), open())
        })
    }

    fn restore(&mut self, case: &CaseId, seq: usize) {
        let made = self.open().0.back_up(now()).unwrap_or_else(|error| panic!("{error}"));
        let (stray, cover) = event(case, seq, u32::MAX, false);
        self.open().1.append(&stray, &mark(), &cover).unwrap_or_else(|error| panic!("{error}"));
        assert!(ledger::restore(self.folder.path(), &made, now()).is_err(), "not while a window is open");
        self.windows = None;
        ledger::restore(self.folder.path(), &made, now()).unwrap_or_else(|error| panic!("{error}"));
    }
}

impl StateMachineTest for Real {
    type SystemUnderTest = Self;
    type Reference = List;

    fn init_test(list: &List) -> Self {
        let folder = tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"));
        let cases = list.cases.iter().map(|_| CaseId::new()).collect();
        Self { folder, windows: None, cases, last: BTreeMap::new() }
    }

    fn apply(mut real: Self, list: &List, step: Step) -> Self {
        let of = |real: &Self, case: usize| real.cases.get(case % real.cases.len()).cloned().unwrap_or_default();
        let length = |real: &Self, case: usize| list.cases.get(case % real.cases.len()).map_or(0, |(log, _)| log.len());
        match step {
            Step::Keep { case, window, closed } => {
                let id = of(&real, case);
                // The list has it already.
                let seq = length(&real, case).saturating_sub(1);
                let (event, cover) = event(&id, seq, list.next - 1, closed);
                let (one, other) = real.open();
                let through = if window { one } else { other };
                through.append(&event, &mark(), &cover).unwrap_or_else(|error| panic!("{error}"));
                real.last.insert(id.as_str().to_owned(), event);
            }
            Step::KeepAgain { case } => {
                let id = of(&real, case);
                if let Some(event) = real.last.get(id.as_str()).cloned() {
                    let cover = Cover { name: "again".into(), ..Cover::default() };
                    let kept = real.open().0.append(&event, &mark(), &cover);
                    assert!(kept.is_ok(), "keeping twice is keeping once: {kept:?}");
                }
            }
            Step::Clash { case } => {
                let id = of(&real, case);
                if length(&real, case) > 0 {
                    let (event, cover) = event(&id, 0, u32::MAX, false);
                    let clash = real.open().1.append(&event, &mark(), &cover);
                    assert!(matches!(clash, Err(LedgerError::Clash)), "{clash:?}");
                }
            }
            Step::Fork { case, before } => {
                let id = of(&real, case);
                let copied = length(&real, case).min(before);
                let forked = real.open().0.fork(&id, before as u64).unwrap_or_else(|error| panic!("{error}"));
                if copied > 0 {
                    real.cases.push(forked);
                }
            }
            Step::Reopen => real.windows = None,
            // Nothing is closed: the locks stay with the process, as they would with a window that hangs.
            Step::Crash => std::mem::forget(real.windows.take()),
            Step::BackUpAndRestore => {
                let id = of(&real, 0);
                if length(&real, 0) > 0 && real.may_be_alone() {
                    let seq = length(&real, 0);
                    real.restore(&id, seq);
                }
            }
            Step::CarryInAgain => {
                let mut lines = Vec::new();
                let (one, other) = real.open();
                let events = one.carry_out(None, "caution", &mut lines).unwrap_or_else(|error| panic!("{error}"));
                let carried = other.carry_in(&mut lines.as_slice()).unwrap_or_else(|error| panic!("{error}"));
                assert_eq!((carried.new, carried.known), (0, events));
            }
        }
        real
    }

    fn check_invariants(real: &Self, list: &List) {
        let ledger = Ledger::open(real.folder.path()).unwrap_or_else(|error| panic!("{error}"));
        let mut open = 0;
        for (id, (log, closed)) in real.cases.iter().zip(&list.cases) {
            let log_kept = match ledger.load(id.clone()) {
                Ok(case) => case.log,
                Err(LedgerError::NoCase(_)) if log.is_empty() => Vec::new(),
                Err(error) => panic!("{error}"),
            };
            let said: Vec<String> = log_kept.iter().map(|stamped| said(&stamped.entry)).collect();
            assert_eq!(said, log.iter().map(u32::to_string).collect::<Vec<_>>());
            open += usize::from(!log.is_empty() && !closed);
        }
        assert_eq!(ledger.count(&Filter::default()).ok(), Some(open), "the covers tell the same");
        let all = Filter { closed: true, archived: true, ..Filter::default() };
        let kept = list.cases.iter().filter(|(log, _)| !log.is_empty()).count();
        assert_eq!(ledger.cases(&all, 0, 100).map(|cases| cases.len()).ok(), Some(kept));
    }
}

impl Real {
    /// Whether no window that hangs holds the folder.
    fn may_be_alone(&mut self) -> bool {
        let windows = self.windows.take();
        let lock = std::fs::File::options().write(true).open(self.folder.path().join("coopside.lock"));
        let alone = lock.is_ok_and(|lock| {
            drop(windows);
            lock.try_lock().is_ok()
        });
        self.open();
        alone
    }
}

fn said(entry: &Entry) -> String {
    match entry {
        Entry::VetSaid(said) => said.clone(),
        Entry::Closed { proved, .. } => proved.clone(),
        other => format!("{other:?}"),
    }
}

prop_state_machine! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(if crate::common::long() { 400 } else { 24 }) })]

    #[test]
    fn the_file_holds_what_the_list_holds(sequential 1..40 => Real);
}
