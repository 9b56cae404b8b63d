//! What a carer has in the house: which supplies, how strong, and until when they count.

use crate::finding::Id;
use crate::protocol::Protocol;
use crate::protocol::fault::nearest;
use crate::protocol::supply::{Supply, SupplyAt};
use crate::typed::{self, TypedError};
use crate::unit::MilligramsPerLitre;
use chrono::{Months, NaiveDate};
use std::collections::BTreeMap;

/// What is in the house. It is kept under the supplies' own names, so that another protocol finds what it knows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cupboard(BTreeMap<Id, Kept>);

/// One supply, as it stands in the house.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Kept {
    /// Its strength, where it is a stock and was told.
    pub strength: Option<MilligramsPerLitre>,
    /// The last day it counts.
    pub until: Option<NaiveDate>,
}

/// Why a list of supplies cannot be read; `content::mistyped` tells it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CupboardError {
    /// A name nobody knows.
    Unknown {
        /// What was written.
        name: String,
        /// The nearest known name.
        near: Option<String>,
    },
    /// A date that is none.
    Date(String),
    /// A strength that is none.
    Strength(TypedError),
    /// A strength of something that has none.
    NoStrength(String),
}

/// Whether a supply counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is there and counts.
    Ready,
    /// It is not there.
    Missing,
    /// Its date has gone.
    Past,
    /// It is a stock, and nobody said how strong.
    StrengthUntold,
    /// It is weaker than what is made of it.
    TooWeak,
    /// It is sold at this strength for something else.
    Refused(MilligramsPerLitre),
}

impl Cupboard {
    /// Whether nothing was ever told of it.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How a supply stands in the house, if it is there.
    pub fn kept(&self, supply: &Supply) -> Option<Kept> {
        self.0.get(&supply.id).copied()
    }

    /// Puts a supply in, or what is told of it anew.
    pub fn put(&mut self, supply: &Supply, kept: Kept) {
        self.0.insert(supply.id.clone(), kept);
    }

    /// Puts in or takes out what goes by this name, whether a protocol knows it or not.
    pub fn change(&mut self, id: Id, now: Option<Kept>) {
        match now {
            Some(kept) => self.0.insert(id, kept),
            None => self.0.remove(&id),
        };
    }

    /// Takes a supply out.
    pub fn take(&mut self, supply: &Supply) {
        self.0.remove(&supply.id);
    }

    /// Whether a supply counts on a day. Days are those of UTC everywhere: a date on a package stands for a month or more, and
    /// half a day either way is nothing to it.
    pub fn standing(&self, supply: &Supply, today: NaiveDate) -> Standing {
        let Some(kept) = self.kept(supply) else { return Standing::Missing };
        if supply.dated && kept.until.is_some_and(|until| until < today) {
            return Standing::Past;
        }
        match (supply.thin_to, kept.strength) {
            (Some(_), None) => Standing::StrengthUntold,
            (Some(_), Some(strength)) if supply.refuses(strength).is_some() => Standing::Refused(strength),
            (Some(target), Some(strength)) if strength < target => Standing::TooWeak,
            (None, _) | (Some(_), Some(_)) => Standing::Ready,
        }
    }

    /// The supplies that do not count although they are there, in the protocol's order.
    pub fn of_no_use(&self, protocol: &Protocol, today: NaiveDate) -> Vec<(SupplyAt, Standing)> {
        let all = protocol.supplies_enumerated().map(|(at, supply)| (at, self.standing(supply, today)));
        all.filter(|(_, standing)| !matches!(standing, Standing::Ready | Standing::Missing)).collect()
    }

    /// Reads a list as it is typed: `gauze; povidone_iodine 10 % until 2027-03`, parted by `;` or `,` or lines.
    ///
    /// # Errors
    /// Where a name, a strength or a date is not known; nothing is read then.
    pub fn read(protocol: &Protocol, text: &str) -> Result<Self, CupboardError> {
        let mut cupboard = Self::default();
        for item in items(text) {
            let Item { name, strength, until } = parted(item);
            let supply = named(protocol, name)?;
            let strength = match strength {
                Some(told) if supply.thin_to.is_some() => Some(strong(told)?),
                Some(_) => return Err(CupboardError::NoStrength(supply.id.to_string())),
                None => None,
            };
            cupboard.put(supply, Kept { strength, until: until.map(day).transpose()? });
        }
        Ok(cupboard)
    }

    /// Reads a list as it was written. What this protocol does not know is kept: another may.
    pub fn recall(written: &str) -> Self {
        let kept = items(written).map(|item| {
            let Item { name, strength, until } = parted(item);
            let strength = strength.and_then(|told| strong(told).ok());
            (Id::from(name), Kept { strength, until: until.and_then(|date| day(date).ok()) })
        });
        Self(kept.collect())
    }

    /// Writes the list so that it can be read again.
    pub fn write(&self) -> String {
        let items = self.0.iter().map(|(id, kept)| {
            let strength = kept.strength.map_or_else(String::new, |s| format!(" {}", typed::write_strength(s)));
            let until = kept.until.map_or_else(String::new, |until| format!(" until {until}"));
            format!("{id}{strength}{until}")
        });
        items.collect::<Vec<_>>().join("; ")
    }
}

/// The parts of one entry of a list.
struct Item<'t> {
    name: &'t str,
    strength: Option<&'t str>,
    until: Option<&'t str>,
}

fn items(text: &str) -> impl Iterator<Item = &str> {
    text.split([';', ',', '\n']).map(str::trim).filter(|item| !item.is_empty())
}

fn parted(item: &str) -> Item<'_> {
    let (before, until) = match item.split_once(" until ") {
        Some((before, date)) => (before.trim(), Some(date.trim())),
        None => (item, None),
    };
    match before.find(|c: char| c.is_ascii_digit()) {
        Some(at) => {
            let (name, strength) = before.split_at(at);
            Item { name: name.trim(), strength: Some(strength.trim()), until }
        }
        None => Item { name: before, strength: None, until },
    }
}

/// A strength as it is typed; a number alone is percent, as labels print it.
///
/// # Errors
/// Where it is no strength.
pub fn strong(told: &str) -> Result<MilligramsPerLitre, CupboardError> {
    let bare = told.chars().all(|c| c.is_ascii_digit() || c == '.' || c == ',');
    let told = if bare { format!("{told} %") } else { told.to_owned() };
    typed::strength(&told).map_err(CupboardError::Strength)
}

/// A day as it is typed; a month means its last day, as on a package.
///
/// # Errors
/// Where it is no date.
pub fn day(told: &str) -> Result<NaiveDate, CupboardError> {
    let last = || {
        let first: NaiveDate = format!("{told}-01").parse().ok()?;
        first.checked_add_months(Months::new(1))?.pred_opt()
    };
    told.parse().ok().or_else(last).ok_or_else(|| CupboardError::Date(told.to_owned()))
}

/// The supply with this key, or whose name begins so.
fn named<'p>(protocol: &'p Protocol, name: &str) -> Result<&'p Supply, CupboardError> {
    let key = name.to_lowercase().replace([' ', '-'], "_");
    let is =
        |supply: &&Supply| supply.id == *key || supply.name.to_lowercase().replace([' ', '-'], "_").starts_with(&key);
    let exact = protocol.supplies.iter().find(|supply| supply.id == *key);
    let found = exact.or_else(|| protocol.supplies.iter().find(|supply| !key.is_empty() && is(supply)));
    found.ok_or_else(|| CupboardError::Unknown {
        name: name.to_owned(),
        near: nearest(&key, protocol.supplies.iter().map(|supply| supply.id.as_str())),
    })
}
