//! What the events are called in the file.

use crate::finding::log::Entry;

/// The kind of an event, for people who look into the file with other tools.
pub const fn kind(entry: &Entry) -> &'static str {
    match entry {
        Entry::Said(_) => "said",
        Entry::FoundWound => "found_wound",
        Entry::LookedOver => "looked_over",
        Entry::Skipped(_) => "skipped",
        Entry::Went(_) => "went",
        Entry::Opened(_) => "opened",
        Entry::Turned(_) => "turned",
        Entry::Began(_) => "began",
        Entry::Ended(_) => "ended",
        Entry::PickedUp => "picked_up",
        Entry::PutDown => "put_down",
        Entry::Timed { .. } => "timed",
        Entry::ClockEnded => "clock_ended",
        Entry::Named(_) => "named",
        Entry::LookBegan(_) => "look_began",
        Entry::LookDone => "look_done",
        Entry::VetSaid(_) => "vet_said",
        Entry::Noted(..) => "noted",
        Entry::Closed { .. } => "closed",
        Entry::Reopened => "reopened",
        Entry::Archived => "archived",
        Entry::TookBack => "took_back",
    }
}
