//! What every kind of entry is, whatever it says: what the file calls it, and whose deed it was. All else asks here.

use super::log::Entry;

/// Whose deed an entry is, and so what becomes of it when something is taken back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deed {
    /// The person found something out about the bird.
    Found,
    /// The person chose where to go on; it says nothing about the bird.
    Steered,
    /// The program did it on account of what the person found or chose, and it is taken back with that.
    Followed,
    /// It was done to the bird in the hand, or by the clock: it stands, for it happened.
    Handled,
    /// It was written into the case: it stands, and is corrected by writing again.
    Written,
    /// It takes back what the person last found or chose.
    Undone,
}

/// The facts of one kind of entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EntryKind {
    /// What the file calls it, for people who look into it with other tools. It never changes.
    pub name: &'static str,
    /// Whose deed it is.
    pub deed: Deed,
}

impl EntryKind {
    /// Whether "take back" stops here: the entry is a decision of the person's.
    pub const fn is_decision(self) -> bool {
        match self.deed {
            Deed::Found | Deed::Steered => true,
            Deed::Followed | Deed::Handled | Deed::Written | Deed::Undone => false,
        }
    }

    /// Whether it stands whatever is taken back before it.
    pub const fn is_lasting(self) -> bool {
        match self.deed {
            Deed::Handled | Deed::Written => true,
            Deed::Found | Deed::Steered | Deed::Followed | Deed::Undone => false,
        }
    }

    /// Whether it says something about the bird; what moves the eye or the bird says nothing about her.
    pub const fn is_finding(self) -> bool {
        matches!(self.deed, Deed::Found)
    }
}

impl Entry {
    /// What kind of entry it is. The one list of them.
    pub const fn kind(&self) -> EntryKind {
        let (name, deed) = match self {
            Self::Said(_) => ("said", Deed::Found),
            Self::FoundWound => ("found_wound", Deed::Found),
            Self::LookedOver => ("looked_over", Deed::Found),
            Self::Skipped(_) => ("skipped", Deed::Steered),
            Self::Went(_) => ("went", Deed::Steered),
            Self::Opened(_) => ("opened", Deed::Steered),
            Self::Turned(_) => ("turned", Deed::Followed),
            Self::Began(_) => ("began", Deed::Followed),
            Self::Ended(_) => ("ended", Deed::Followed),
            Self::PickedUp => ("picked_up", Deed::Handled),
            Self::PutDown => ("put_down", Deed::Handled),
            Self::Timed { .. } => ("timed", Deed::Handled),
            Self::ClockEnded => ("clock_ended", Deed::Handled),
            Self::Ticked { .. } => ("ticked", Deed::Handled),
            Self::Named(_) => ("named", Deed::Written),
            Self::LookBegan(_) => ("look_began", Deed::Written),
            Self::LookDone => ("look_done", Deed::Written),
            Self::VetSaid(_) => ("vet_said", Deed::Written),
            Self::Noted(..) => ("noted", Deed::Written),
            Self::Closed { .. } => ("closed", Deed::Written),
            Self::Reopened => ("reopened", Deed::Written),
            Self::Archived => ("archived", Deed::Written),
            Self::TookBack => ("took_back", Deed::Undone),
        };
        EntryKind { name, deed }
    }
}
