//! Body weight: the person's own weighing, or else the band of the kind.

use crate::bird::Kind;
use crate::unit::{Band, Grams, Reading};

/// The bird's weight: `known` if a person has weighed her or told her build, else whatever is taken of a bird of her kind.
///
/// `kind` is `None` while the kind is not known; `may_still_weigh` says whether kind or weight may yet be told. A weight that
/// cannot be told is no milder than any that could have been.
pub fn reading(known: Option<Band<Grams>>, kind: Option<Kind>, may_still_weigh: bool) -> Reading<Grams> {
    Reading { band: known.unwrap_or(Kind::taken_of(kind)), settled: known.is_some() || !may_still_weigh }
}
