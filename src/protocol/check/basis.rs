//! What a claim rests on: a source, how well that is known, and which animals it is about. What an item leaves out is as its source
//! has it; what names no source at all is common practice.

use super::Checker;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::source::{Source, Strength};
use crate::protocol::table::At;

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

impl Checker {
    /// The source of this name; without a name, common practice.
    pub(super) fn known_source<T>(&mut self, placed: &Placed<T>, item: &str, name: Option<&str>) -> At<Source> {
        let practice = self.practice();
        self.source_in(placed, item, "source", name.unwrap_or(&practice))
    }

    /// The source a field names.
    pub(super) fn source_in<T>(&mut self, placed: &Placed<T>, item: &str, field: &str, name: &str) -> At<Source> {
        self.known::<Source, T>(placed, item, field, name).unwrap_or(At::new(0))
    }

    /// What the roles name as the source of what has none.
    fn practice(&self) -> String {
        self.roles.as_ref().map_or_else(String::new, |roles| roles.common_practice.clone())
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
        let known = self.sources.get(source.unwrap_or(&self.practice()));
        let own = known.map_or_else(Strength::default, |known| known.strength);
        let about = known.and_then(|known| known.about.clone());
        let source = self.known_source(placed, item, source);
        Basis { source, strength: strength.unwrap_or(own), borrowed: borrowed.or(about) }
    }

    /// The name of the source that goes with how well a claim is known, where the claim names another.
    pub(super) fn lacks_source(&self, basis: &Basis) -> Option<String> {
        let wanted = self.unsourced()?.of(basis.strength).filter(|wanted| *wanted != basis.source)?;
        self.names.sources.iter().find(|(_, at)| **at == wanted).map(|(name, _)| name.clone())
    }

    /// What the roles call the answers of a question that is asked for one sign.
    pub(super) fn yes_no(&self) -> raw::YesNo {
        let called = |name: fn(&raw::Roles) -> &String| {
            self.roles.as_ref().map_or_else(String::new, |roles| name(roles).clone())
        };
        raw::YesNo {
            yes: called(|roles| &roles.yes),
            no: called(|roles| &roles.no),
            not_seen: called(|roles| &roles.not_seen),
        }
    }
}
