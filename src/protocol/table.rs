//! What a protocol holds of one class, and where one item stands in it. The position of a question is never taken for that of a
//! rule: the class is part of its type.

use crate::finding::Id;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::marker::PhantomData;
use std::ops::{Deref, DerefMut};

/// The position of an item in the table of its class, from 0. It is made by `check`, for the protocol it belongs to.
pub struct At<T> {
    nth: u16,
    of: PhantomData<fn() -> T>,
}

impl<T> At<T> {
    /// The position with this number, from 0. Outside of this room a position comes from the table it is one of.
    pub(in crate::protocol) const fn new(nth: u16) -> Self {
        Self { nth, of: PhantomData }
    }

    /// The number, from 0.
    #[inline]
    pub const fn nth(self) -> usize {
        self.nth as usize
    }
}

impl<T> Clone for At<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for At<T> {}

impl<T> PartialEq for At<T> {
    #[inline]
    fn eq(&self, other: &Self) -> bool {
        self.nth == other.nth
    }
}

impl<T> Eq for At<T> {}

impl<T> PartialOrd for At<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> Ord for At<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.nth.cmp(&other.nth)
    }
}

impl<T> Hash for At<T> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.nth.hash(state);
    }
}

impl<T> fmt::Debug for At<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "At({})", self.nth)
    }
}

impl<T> Serialize for At<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.nth.serialize(serializer)
    }
}

impl<'de, T> Deserialize<'de> for At<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        u16::deserialize(deserializer).map(Self::new)
    }
}

/// All items of one class, in the order of the files.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Table<T>(Vec<T>);

/// What has a name of its own within its class.
pub trait Keyed {
    /// The name.
    fn key(&self) -> &Id;
}

impl<T> Table<T> {
    /// Every item with its position.
    pub fn placed(&self) -> impl ExactSizeIterator<Item = (At<T>, &T)> {
        placed(&self.0)
    }

    /// The item at a position of this table.
    #[inline]
    #[expect(clippy::indexing_slicing, reason = "INVARIANT: positions are made for this protocol only")]
    pub fn of(&self, at: At<T>) -> &T {
        &self.0[at.nth()]
    }
}

impl<T: Keyed> Table<T> {
    /// The position of the item with this name.
    pub fn at(&self, name: &str) -> Option<At<T>> {
        self.placed().find(|(_, item)| *item.key() == *name).map(|(at, _)| at)
    }

    /// The item with this name.
    pub fn named(&self, name: &str) -> Option<&T> {
        self.0.iter().find(|item| *item.key() == *name)
    }
}

/// Every item of a class that is still being checked, with the position that what is made of it will have.
pub fn placed<T, R>(items: &[R]) -> impl ExactSizeIterator<Item = (At<T>, &R)> {
    // A protocol holds at most as many items of a class as a short number counts: `limits` sees to that.
    items.iter().enumerate().map(|(nth, item)| (At::new(u16::try_from(nth).unwrap_or(u16::MAX)), item))
}

impl<T> From<Vec<T>> for Table<T> {
    fn from(items: Vec<T>) -> Self {
        Self(items)
    }
}

impl<T> FromIterator<T> for Table<T> {
    fn from_iter<I: IntoIterator<Item = T>>(items: I) -> Self {
        Self(items.into_iter().collect())
    }
}

impl<T> Deref for Table<T> {
    type Target = Vec<T>;

    fn deref(&self) -> &Vec<T> {
        &self.0
    }
}

impl<T> DerefMut for Table<T> {
    fn deref_mut(&mut self) -> &mut Vec<T> {
        &mut self.0
    }
}

impl<'t, T> IntoIterator for &'t Table<T> {
    type Item = &'t T;
    type IntoIter = std::slice::Iter<'t, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

macro_rules! keyed {
    ($($class:ty),*) => {
        $(impl Keyed for $class {
            fn key(&self) -> &Id {
                &self.id
            }
        })*
    };
}

keyed!(
    super::question::Question,
    super::question::SignList,
    super::rule::Instruction,
    super::source::Source,
    super::texts::Country
);
