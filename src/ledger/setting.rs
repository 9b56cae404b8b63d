//! What a ledger keeps beside the cases: each setting is one text, as whoever uses it writes it down.

/// A setting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Setting {
    /// The country whose law is told.
    Country,
    /// What is in the house.
    Cupboard,
    /// Whom to call.
    Contacts,
    /// That the birds are for practice.
    Practice,
    /// What calendars were told of.
    Reminded,
    /// Forms that came back from whom the packet was given to.
    Reviews,
}

impl Setting {
    /// Its name in the file: never changed.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Country => "country",
            Self::Cupboard => "cupboard",
            Self::Contacts => "contacts",
            Self::Practice => "practice",
            Self::Reminded => "reminded",
            Self::Reviews => "reviews",
        }
    }
}
