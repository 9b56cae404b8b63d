//! Body weight: the person's own weighing, or else the band of the kind.

use crate::bird::Kind;
use crate::typed::weight::{LEAST, MOST};
use crate::unit::{Band, Grams, Reading};

/// The bird's weight: `known` if a person has weighed her or told her build, else what her kind may weigh.
///
/// `kind` is `None` while the kind is not known; `may_still_weigh` says whether a weighing may yet be given.
pub fn reading(known: Option<Band<Grams>>, kind: Option<Kind>, may_still_weigh: bool) -> Reading<Grams> {
    match known {
        Some(band) => Reading { band, settled: true },
        None if may_still_weigh => Reading { band: Band { low: LEAST, high: MOST }, settled: false },
        None => Reading { band: kind.map_or_else(Kind::any_weight, Kind::weight), settled: true },
    }
}
