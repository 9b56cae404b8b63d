//! Truth with a third value: its tables, and counting while something is still open.

use coopside::sheet::Truth::{self, No, Open, Yes};

/// Kleene's strong three-valued tables (Kleene, Introduction to Metamathematics, 1952, section 64; from memory).
#[test]
fn the_tables_are_those_of_kleene() {
    for (one, other, and, or) in [
        (Yes, Yes, Yes, Yes),
        (Yes, Open, Open, Yes),
        (Yes, No, No, Yes),
        (Open, Open, Open, Open),
        (Open, No, No, Open),
        (No, No, No, No),
    ] {
        assert_eq!((one.min(other), one.max(other)), (and, or));
        assert_eq!((Truth::all([one, other]), Truth::any([other, one])), (and, or));
    }
    assert_eq!([Yes, Open, No].map(Truth::not), [No, Open, Yes]);
}

#[test]
fn counting_stays_open_only_while_it_can_still_go_either_way() {
    assert_eq!(Truth::count(2, [Yes, Yes, Open].into_iter()), Yes);
    assert_eq!(Truth::count(2, [Yes, Open, No].into_iter()), Open);
    assert_eq!(Truth::count(2, [Yes, No, No].into_iter()), No);
}
