//! Any bytes carried into a ledger: they are taken whole or refused, and change nothing where they are refused.

#![no_main]

use coopside::ledger::{Filter, Ledger};
use libfuzzer_sys::fuzz_target;
use std::cell::RefCell;
use tempfile::TempDir;

thread_local! {
    /// One ledger for many runs: what is refused leaves it empty; after something was taken it is made anew.
    static LEDGER: RefCell<Option<(TempDir, Ledger)>> = const { RefCell::new(None) };
}

fuzz_target!(|bytes: &[u8]| {
    LEDGER.with_borrow_mut(|kept| {
        let (_, ledger) = kept.get_or_insert_with(|| {
            let folder = tempfile::tempdir().expect("a folder");
            let ledger = Ledger::open(folder.path()).expect("a ledger");
            (folder, ledger)
        });
        let carried = ledger.carry_in(&mut &*bytes);
        let all = Filter { closed: true, archived: true, ..Filter::default() };
        let count = ledger.count(&all).expect("a count");
        let taken = carried.map_or(0, |carried| carried.cases.len());
        assert_eq!(count, taken, "all or nothing");
        if taken > 0 {
            *kept = None;
        }
    });
});
