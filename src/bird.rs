//! Kinds of poultry, and what differs between them where it matters to a hurt bird.

use crate::unit::{Band, Grams};

/// A kind of poultry as a keeper would name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A full-sized domestic hen.
    Hen,
    /// A full-sized cock.
    Cock,
    /// A bantam of either sex.
    Bantam,
    /// Any young bird still under heat, up to about six weeks.
    Chick,
    /// A domestic duck or drake, Muscovy included.
    Duck,
    /// A domestic goose or gander.
    Goose,
    /// A turkey, hen or stag.
    Turkey,
    /// A quail.
    Quail,
    /// A guinea fowl.
    GuineaFowl,
}

impl Kind {
    /// Every kind, in the order the question offers them.
    pub const ALL: [Self; 9] = [
        Self::Hen,
        Self::Cock,
        Self::Bantam,
        Self::Chick,
        Self::Duck,
        Self::Goose,
        Self::Turkey,
        Self::Quail,
        Self::GuineaFowl,
    ];

    /// The kind's name in protocol and findings files.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Hen => "hen",
            Self::Cock => "cock",
            Self::Bantam => "bantam",
            Self::Chick => "chick",
            Self::Duck => "duck",
            Self::Goose => "goose",
            Self::Turkey => "turkey",
            Self::Quail => "quail",
            Self::GuineaFowl => "guinea_fowl",
        }
    }

    /// The kind whose name this is, if there is one.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.id() == id)
    }

    /// What a bird of this kind may weigh, from the lightest to the heaviest adult met in a yard.
    ///
    /// Unit: grams. Sources, read second-hand unless marked: hens 1.8-5.9 kg and bantams to 1.1 kg
    /// (aglifemedia.com, standard chickens; the lightest hen 1.6 kg and the lightest bantam 0.5 kg from memory);
    /// cocks to 5.9 kg (htfbw.com); ducks from the call duck's 0.6 kg (memory, British Waterfowl Association standards)
    /// to the heavy Muscovy drake's 8 kg (goldcoastchooks.com); geese 2.5 to over 10 kg (Poultry Hub, read);
    /// turkeys 2.5-11.5 kg, heavy stags to 20 kg from memory; quail 0.10-0.45 kg (biologyinsights.com);
    /// guinea fowl 1.3-1.8 kg (memory); chicks from hatching (R data set `ChickWeight`, read) to a six-week
    /// meat bird's 3 kg (memory, breeder guides).
    pub const fn weight(self) -> Band<Grams> {
        let (low, high) = match self {
            Self::Hen => (1600, 5900),
            Self::Cock => (2000, 5900),
            Self::Bantam => (500, 1100),
            Self::Chick => (30, 3000),
            Self::Duck => (600, 8000),
            Self::Goose => (2500, 12_000),
            Self::Turkey => (2500, 20_000),
            Self::Quail => (100, 450),
            Self::GuineaFowl => (1300, 1800),
        };
        Band { low: Grams(low), high: Grams(high) }
    }

    /// What a bird of unknown kind may weigh: every kind's band joined.
    pub fn any_weight() -> Band<Grams> {
        Self::ALL.into_iter().map(Self::weight).reduce(Band::hull).unwrap_or(Self::Hen.weight())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_found_by_its_own_name() {
        for kind in Kind::ALL {
            assert_eq!(Kind::from_id(kind.id()), Some(kind));
        }
        assert_eq!(Kind::from_id("ostrich"), None);
    }

    #[test]
    fn an_unknown_kind_may_weigh_what_any_kind_may() {
        let any = Kind::any_weight();
        for kind in Kind::ALL {
            assert!(any.low <= kind.weight().low && any.high >= kind.weight().high);
        }
    }
}
