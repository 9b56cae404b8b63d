//! Nothing grows: keys that say nothing lasting leave no memory behind, however many are many.

#![expect(clippy::panic, reason = "a failing test panics")]

mod common;

use common::walk::Walk;
use stats_alloc::{INSTRUMENTED_SYSTEM, Region, StatsAlloc};
use std::alloc::System;
use std::sync::{Mutex, MutexGuard, PoisonError};

#[global_allocator]
static COUNTED: &StatsAlloc<System> = &INSTRUMENTED_SYSTEM;

/// What is counted is everybody's: one test at a time.
fn alone() -> MutexGuard<'static, ()> {
    static ALONE: Mutex<()> = Mutex::new(());
    ALONE.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Bytes held now against bytes held when counting began.
fn held(region: &Region<System>) -> isize {
    let change = region.change();
    let signed = |bytes: usize| isize::try_from(bytes).unwrap_or(isize::MAX);
    // What a grown allocation adds is counted among the allocated bytes already.
    signed(change.bytes_allocated) - signed(change.bytes_deallocated)
}

/// Notes twice as long allocate twice as much, faults and all: nothing is gone over again for each key.
#[test]
fn notes_twice_as_long_allocate_twice_as_much() {
    let _alone = alone();
    assert!(!common::PROTOCOL.questions.is_empty());
    let allocated = |keys: usize| {
        let text: Vec<String> = (0..keys).map(|at| format!("\"no{at:06}\": \"such\"")).collect();
        let text = text.join(",\n");
        let text = format!("(answers: {{{text}}})");
        let region = Region::new(COUNTED);
        let faults = coopside::notes::read(&common::PROTOCOL, "long.ron", &text, common::now()).err();
        assert_eq!(faults.map(|faults| faults.0.len()), Some(keys));
        region.change().bytes_allocated
    };
    let (once, twice) = (allocated(2_000), allocated(4_000));
    println!("{once} bytes for 2,000 keys, {twice} for 4,000");
    assert!(twice < once * 5 / 2, "{once} bytes for 2,000 keys, {twice} for 4,000");
}

/// A thousand keys, ten thousand in the long form, in the panes for numbers: pads picked and taken back, a pool sized, a number typed and erased, each with
/// its frame. The bird is judged anew at every one, all measures among it.
#[test]
fn a_thousand_keys_hold_no_more_memory_than_a_hundred() {
    let _alone = alone();
    let mut walk = Walk::new();
    let at = common::PROTOCOL.question_at("blood_lost").unwrap_or_else(|| panic!("no question"));
    let spot = walk.press("aaa1n1").session.exam.spot(coopside::protocol::question::Asked::of_bird(at));
    walk.session.record(coopside::finding::log::Entry::Went(Some(spot)));
    walk.press("6");
    let round = "2 1 3 2 b  3 1 2 3 1 b b  1 4 2 <back> <esc>";
    let keys = 16;
    let mut presses = |times: usize| {
        for _ in 0..times {
            let frame = walk.press(round).frame(60, 24);
            assert!(frame.contains("What blood do you see?"), "{frame}");
        }
    };
    presses(100 / keys + 1);
    let region = Region::new(COUNTED);
    let many = common::count(1_000, 10_000);
    presses(many / keys + 1);
    let grown = held(&region);
    println!("{grown} bytes more after {many} keys");
    assert!(grown < 512, "{grown} bytes more are held after {many} keys");
}
