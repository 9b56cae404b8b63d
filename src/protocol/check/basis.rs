//! What a claim rests on: a source, how well that is known, and which animals it is about. What an item leaves out is as its source
//! has it; what names no source at all is common practice.

use super::Desk;
use crate::finding::Id;
use crate::protocol::fault::nearest;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::source::Strength;

/// The source of what has none.
const PRACTICE: &str = "PRACTICE";

/// What a source says of whatever rests on it.
pub(super) struct Known {
    strength: Strength,
    about: Option<String>,
}

impl Known {
    pub(super) fn of(source: &raw::Source) -> Self {
        Self { strength: source.known, about: source.about.clone() }
    }
}

/// What a claim rests on, whole.
pub(super) struct Basis {
    pub source: Id,
    pub strength: Strength,
    pub borrowed: Option<String>,
}

impl Desk {
    /// The source of this name; without a name, common practice.
    pub(super) fn known_source<T>(&mut self, placed: &Placed<T>, item: &str, name: Option<&str>) -> Id {
        let name = name.unwrap_or(PRACTICE);
        if !self.names.sources.contains_key(name) {
            let near = nearest(name, self.names.sources.keys().map(String::as_str));
            self.unknown(placed, item, "source", "source", name, near);
        }
        name.into()
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
        let source = self.known_source(placed, item, source);
        let known = self.names.sources.get(source.as_str());
        let own = known.map_or_else(Strength::default, |known| known.strength);
        let about = known.and_then(|known| known.about.clone());
        Basis { source, strength: strength.unwrap_or(own), borrowed: borrowed.or(about) }
    }
}
