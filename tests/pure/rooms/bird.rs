//! The kinds of birds and their builds: names that lead back to their kind, and weights that lie within each other.

use coopside::bird::{BUILDS, Kind};

#[test]
fn every_kind_is_found_by_its_own_name() {
    for kind in Kind::ALL {
        assert_eq!(Kind::from_id(kind.id()), Some(kind));
    }
    assert_eq!(Kind::from_id("ostrich"), None);
}

#[test]
fn a_build_stays_within_its_kind() {
    for build in BUILDS {
        for kind in build.kinds {
            let (of, kind) = (build.weight, kind.weight());
            assert!(kind.low <= of.low && of.low < of.high && of.high <= kind.high, "{}", build.id());
        }
    }
}

#[test]
fn an_unknown_kind_may_weigh_what_any_kind_may() {
    let any = Kind::any_weight();
    for kind in Kind::ALL {
        assert!(any.low <= kind.weight().low && any.high >= kind.weight().high);
    }
}
