//! The gates of the proofs against their truth tables.

use coopside::prove::{Bit, Clauses, Work};
use std::array;

/// Every gate against its truth table.
#[test]
fn gates_are_what_they_say() {
    for values in 0..8u8 {
        let mut clauses = Clauses::new(Work(10));
        let bits: [Bit; 3] = array::from_fn(|_| clauses.open());
        let held: [bool; 3] = array::from_fn(|at| values >> at & 1 == 1);
        let all = clauses.all(&bits);
        let any = clauses.any(&bits);
        let two = clauses.at_least(2, &bits);
        let differ = clauses.differ(bits[0], bits[1]);
        let fixed: Vec<Bit> = bits.iter().zip(held).map(|(bit, held)| bit.when(held)).collect();
        assert_eq!(clauses.can_be(&fixed), Ok(true));
        let count = held.iter().filter(|held| **held).count();
        assert_eq!(clauses.value(all), count == 3);
        assert_eq!(clauses.value(any), count > 0);
        assert_eq!(clauses.value(two), count >= 2);
        assert_eq!(clauses.value(differ), held[0] != held[1]);
    }
}

#[test]
fn one_of_means_one() {
    let mut clauses = Clauses::new(Work(10));
    let bits: [Bit; 3] = array::from_fn(|_| clauses.open());
    clauses.require_one_of(&bits);
    assert_eq!(clauses.can_be(&[bits[0], bits[1]]), Ok(false));
    assert_eq!(clauses.can_be(&bits.map(Bit::not)), Ok(false));
    assert_eq!(clauses.can_be(&[bits[1]]), Ok(true));
}
