//! What a claim rests on: a source, how well that is known, and which animals it is about. What an item leaves out is as its source
//! has it; what names no source at all is common practice.

use super::Desk;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::source::{Source, Strength};
use crate::protocol::table::At;

/// The source of what has none.
const PRACTICE: &str = "PRACTICE";

/// What a source says of whatever rests on it.
pub(super) struct SourceFacts {
    strength: Strength,
    about: Option<String>,
}

impl SourceFacts {
    pub(super) fn of(source: &raw::Source) -> Self {
        Self { strength: source.known, about: source.about.clone() }
    }
}

/// What a claim rests on, whole.
pub(super) struct Basis {
    pub source: At<Source>,
    pub strength: Strength,
    pub borrowed: Option<String>,
}

impl Desk {
    /// The source of this name; without a name, common practice.
    pub(super) fn known_source<T>(&mut self, placed: &Placed<T>, item: &str, name: Option<&str>) -> At<Source> {
        let name = name.unwrap_or(PRACTICE);
        self.known::<Source, T>(placed, item, "source", name).unwrap_or(At::new(0))
    }

    /// A source, and what an item says of it in place of what the source itself says.
    pub(super) fn basis<T>(
        &mut self,
        placed: &Placed<T>,
        item: &str,
        source: Option<&str>,
        strength: Option<Strength>,
        borrowed: Option<String>,
    ) -> Basis {
        let known = self.sources.get(source.unwrap_or(PRACTICE));
        let own = known.map_or_else(Strength::default, |known| known.strength);
        let about = known.and_then(|known| known.about.clone());
        let source = self.known_source(placed, item, source);
        Basis { source, strength: strength.unwrap_or(own), borrowed: borrowed.or(about) }
    }
}
