//! One thing a person changed of what is kept beside the cases; it changes that and leaves what another window kept.

use crate::care::contacts::Contacts;
use crate::care::cupboard::{Cupboard, Kept};
use crate::finding::Id;
use crate::ledger::Setting;
use crate::protocol::whom::Whom;

/// A change of a setting.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// The country whose law is told.
    Country(Id),
    /// A supply, as it stands in the house; nothing where it was taken out.
    Supply(Id, Option<Kept>),
    /// Whom to call, as it was written; nothing written takes them out.
    Contact(Whom, String),
}

impl Change {
    /// The setting it changes.
    pub const fn setting(&self) -> Setting {
        match self {
            Self::Country(_) => Setting::Country,
            Self::Supply(..) => Setting::Cupboard,
            Self::Contact(..) => Setting::Contacts,
        }
    }

    /// The setting as it is kept from now on, from what is kept of it now.
    pub fn made_to(&self, kept: &str) -> String {
        match self {
            Self::Country(id) => id.to_string(),
            Self::Supply(id, now) => {
                let mut cupboard = Cupboard::recall(kept);
                cupboard.change(id.clone(), *now);
                cupboard.write()
            }
            Self::Contact(whom, said) => {
                let mut contacts = Contacts::recall(kept);
                contacts.put(*whom, said);
                contacts.write()
            }
        }
    }

    /// Whether a later change makes this one idle.
    pub fn gives_way_to(&self, later: &Self) -> bool {
        match (self, later) {
            (Self::Country(_), Self::Country(_)) => true,
            (Self::Supply(own, _), Self::Supply(other, _)) => own == other,
            (Self::Contact(own, _), Self::Contact(other, _)) => own == other,
            (Self::Country(_) | Self::Supply(..) | Self::Contact(..), _) => false,
        }
    }
}
