//! Which sentences there are, without saying them: a phrase of the catalogue by its name, with what is put into it.
//!
//! The names come from the catalogue (`assets/words/en`) when the program is built: one function a phrase, one argument for each
//! thing it takes, in `phrase::<file>::<name>`. A phrase that is not in the catalogue, or one that lacks an argument, does not
//! compile. What it says stands in `words` alone.

mod quantity;

pub use quantity::{Decimal, Quantity, UnitOf, UnitTold, grams, millilitres, percent, percent_strength};

use chrono::{DateTime, Utc};

include!(concat!(env!("OUT_DIR"), "/phrases.rs"));

/// A phrase of the catalogue and what is put into it. Two are equal where they say the same of the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Phrase {
    /// Its place among the names of the catalogue.
    at: u16,
    takes: Vec<(&'static str, Taken)>,
}

/// What a phrase takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Taken {
    /// A count, by which the catalogue may choose its words.
    Number(u64),
    /// Something said in its turn.
    Text(Text),
}

impl Phrase {
    /// A phrase that takes nothing, by its place among the names. The functions made from the catalogue alone call it.
    const fn plain(at: u16) -> Self {
        Self { at, takes: Vec::new() }
    }

    /// A phrase with what it takes. One function for all of them, so that each call is small.
    #[inline(never)]
    fn taking<const MANY: usize>(at: u16, takes: [(&'static str, Taken); MANY]) -> Self {
        Self { at, takes: Vec::from(takes) }
    }

    /// The file of the catalogue it stands in.
    pub fn file(&self) -> &'static str {
        let at = FILES.partition_point(|(until, _)| *until <= self.at);
        FILES.get(at).map_or("", |(_, name)| name)
    }

    /// Its name in the catalogue.
    pub fn id(&self) -> &'static str {
        let ends = STARTS.get(usize::from(self.at)).zip(STARTS.get(usize::from(self.at) + 1));
        let name = ends.and_then(|(from, to)| NAMES.get(usize::try_from(*from).ok()?..usize::try_from(*to).ok()?));
        name.unwrap_or_default()
    }

    /// What it takes, by name.
    pub fn takes(&self) -> &[(&'static str, Taken)] {
        &self.takes
    }
}

/// A count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Number(u64);

macro_rules! counts {
    ($($kind:ty),*) => {
        $(impl From<$kind> for Number {
            fn from(count: $kind) -> Self {
                Self(u64::from(count))
            }
        })*
    };
}
counts!(u8, u16, u32, u64);

impl From<usize> for Number {
    fn from(count: usize) -> Self {
        Self(u64::try_from(count).unwrap_or(u64::MAX))
    }
}

/// How much of a moment is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// The weekday and the time of day.
    Clock,
    /// The time of day to the second, without the weekday.
    Second,
    /// The time of day; the weekday where it is another than at this moment before.
    After(DateTime<Utc>),
    /// The day and the time of day.
    Day,
    /// The day alone.
    DayAlone,
    /// The date and the time of day, year and all.
    Date,
    /// The day of the month alone, in a row of values.
    DayOfMonth,
    /// The day of the month and the time of day, where the weekday alone could mean another week.
    Far,
}

/// What is told to a person, before anybody has said it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Text {
    /// A phrase of the catalogue.
    Phrase(Phrase),
    /// What the protocol says; a translation of it has replaced it where it was loaded.
    Quoted(String),
    /// What a person typed, or a name that is the same in every language.
    Typed(String),
    /// A moment, told in the reader's zone.
    Moment(DateTime<Utc>, Told),
    /// A time on a clock that runs down. Seconds.
    Left(u64),
    /// A figure: low and high in a unit.
    Quantity(Box<Quantity>),
    /// Sentences or parts, one after the other with a blank between them.
    Row(Vec<Text>),
    /// Parts with a comma between them.
    List(Vec<Text>),
    /// Parts with a semicolon between them.
    Clauses(Vec<Text>),
    /// Parts with a comma between them, ended as a sentence.
    ListEnded(Vec<Text>),
    /// Parts on a line each.
    Lines(Vec<Text>),
    /// Parts with nothing between them.
    Joined(Vec<Text>),
    /// With its first letter large.
    Opening(Box<Text>),
    /// With its first letter small, to go on after what introduces it.
    GoingOn(Box<Text>),
    /// In capitals, as headings are.
    Capitals(Box<Text>),
}

impl Text {
    /// What the protocol says.
    pub fn quoted(said: impl Into<String>) -> Self {
        Self::Quoted(said.into())
    }

    /// What a person typed, or what is the same in every language.
    pub fn typed(typed: impl Into<String>) -> Self {
        Self::Typed(typed.into())
    }

    /// With its first letter large.
    pub fn opening(text: impl Into<Self>) -> Self {
        Self::Opening(Box::new(text.into()))
    }

    /// With its first letter small.
    pub fn going_on(text: impl Into<Self>) -> Self {
        Self::GoingOn(Box::new(text.into()))
    }

    /// In capitals.
    pub fn capitals(text: impl Into<Self>) -> Self {
        Self::Capitals(Box::new(text.into()))
    }

    /// One after the other, a blank between them.
    pub fn row<T: Into<Self>>(texts: impl IntoIterator<Item = T>) -> Self {
        Self::Row(texts.into_iter().map(Into::into).collect())
    }

    /// With commas between them.
    pub fn list<T: Into<Self>>(texts: impl IntoIterator<Item = T>) -> Self {
        Self::List(texts.into_iter().map(Into::into).collect())
    }

    /// With semicolons between them.
    pub fn clauses<T: Into<Self>>(texts: impl IntoIterator<Item = T>) -> Self {
        Self::Clauses(texts.into_iter().map(Into::into).collect())
    }

    /// With commas between them, and a full stop.
    pub fn list_ended<T: Into<Self>>(texts: impl IntoIterator<Item = T>) -> Self {
        Self::ListEnded(texts.into_iter().map(Into::into).collect())
    }

    /// On a line each.
    pub fn lines<T: Into<Self>>(texts: impl IntoIterator<Item = T>) -> Self {
        Self::Lines(texts.into_iter().map(Into::into).collect())
    }

    /// With nothing between them.
    pub fn joined<T: Into<Self>>(texts: impl IntoIterator<Item = T>) -> Self {
        Self::Joined(texts.into_iter().map(Into::into).collect())
    }

    /// A clock time.
    pub const fn clock(at: DateTime<Utc>) -> Self {
        Self::Moment(at, Told::Clock)
    }

    /// A clock time to the second.
    pub const fn second(at: DateTime<Utc>) -> Self {
        Self::Moment(at, Told::Second)
    }

    /// A clock time in a row of them: the weekday is told where it is another than at the moment before.
    pub fn clock_after(at: DateTime<Utc>, before: Option<DateTime<Utc>>) -> Self {
        Self::Moment(at, before.map_or(Told::Clock, Told::After))
    }

    /// A day with its clock time.
    pub const fn day(at: DateTime<Utc>) -> Self {
        Self::Moment(at, Told::Day)
    }

    /// A day without its clock time.
    pub const fn day_alone(at: DateTime<Utc>) -> Self {
        Self::Moment(at, Told::DayAlone)
    }

    /// A day of the month with its clock time.
    pub const fn far(at: DateTime<Utc>) -> Self {
        Self::Moment(at, Told::Far)
    }

    /// A day of the month alone.
    pub const fn day_of_month(at: DateTime<Utc>) -> Self {
        Self::Moment(at, Told::DayOfMonth)
    }

    /// A date with its clock time.
    pub const fn date(at: DateTime<Utc>) -> Self {
        Self::Moment(at, Told::Date)
    }

    /// Whether nothing would be said.
    pub fn is_empty(&self) -> bool {
        match self {
            Self::Quoted(said) | Self::Typed(said) => said.is_empty(),
            Self::Row(of) | Self::List(of) | Self::Clauses(of) | Self::Lines(of) | Self::Joined(of) => {
                of.iter().all(Self::is_empty)
            }
            Self::Opening(of) | Self::GoingOn(of) | Self::Capitals(of) => of.is_empty(),
            Self::Phrase(_) | Self::Moment(..) | Self::Left(_) | Self::Quantity(_) | Self::ListEnded(_) => false,
        }
    }
}

impl Default for Text {
    fn default() -> Self {
        Self::Typed(String::new())
    }
}

impl From<Phrase> for Text {
    fn from(phrase: Phrase) -> Self {
        Self::Phrase(phrase)
    }
}
