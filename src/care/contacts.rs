//! Whom the keeper calls: written down once, for every bird. The program ships no number of its own.

use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::whom::Whom;
use crate::prove::Exact;
use std::collections::BTreeMap;

/// The longest entry that is kept, in letters.
pub const LONGEST: usize = 200;

/// Names and numbers, as the keeper would dial them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Contacts(BTreeMap<Whom, String>);

impl Contacts {
    /// What is written down of somebody.
    pub fn of(&self, whom: Whom) -> Option<&str> {
        self.0.get(&whom).map(String::as_str)
    }

    /// Everybody who is written down.
    pub fn all(&self) -> impl Iterator<Item = (Whom, &str)> {
        self.0.iter().map(|(whom, said)| (*whom, said.as_str()))
    }

    /// Writes somebody down, in one line; nothing written takes them out.
    pub fn put(&mut self, whom: Whom, said: &str) {
        let line: String = said.split_whitespace().collect::<Vec<_>>().join(" ").chars().take(LONGEST).collect();
        if line.is_empty() {
            self.0.remove(&whom);
        } else {
            self.0.insert(whom, line);
        }
    }

    /// As it is kept: one line for each, with the name first.
    pub fn write(&self) -> String {
        self.all().flat_map(|(whom, said)| [whom.id(), " ", said, "\n"]).collect()
    }

    /// Reads what was kept; a line nobody knows is passed over.
    pub fn recall(kept: &str) -> Self {
        let mut contacts = Self::default();
        for (id, said) in kept.lines().filter_map(|line| line.split_once(' ')) {
            if let Some(whom) = Whom::ALL.into_iter().find(|whom| whom.id() == id) {
                contacts.put(whom, said);
            }
        }
        contacts
    }
}

/// Whom a verdict asks to be called, the most urgent first.
pub fn needed(verdict: &Exact) -> Vec<Whom> {
    let vets = match (verdict.need.low, verdict.humane.low > Humane::default()) {
        // A bird whose end has come into question waits for nobody's office hours.
        (Need::Now | Need::WithinHours, _) | (_, true) => &[Whom::EmergencyVet, Whom::Vet][..],
        (Need::WithinADay, false) => &[Whom::Vet, Whom::EmergencyVet],
        (Need::None | Need::Home, false) => &[],
    };
    let authority = (verdict.authority.low > Authority::None).then_some(Whom::Authority);
    let (first, last) = if verdict.authority.low == Authority::CallNow { (authority, None) } else { (None, authority) };
    first.into_iter().chain(vets.iter().copied()).chain(last).collect()
}
