//! The strength printed on a label, held against the table of strengths.

use crate::protocol::strength::{Against, Family};
use crate::typed::{self, TypedError};
use crate::unit::{Band, MilligramsPerLitre};

/// How a printed strength stands to what is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is a stock: it is thinned first.
    Stock,
    /// It is as strong as sources print.
    AsPublished,
    /// It is too strong, and not made to be thinned.
    TooStrong,
    /// It is too weak to help.
    TooWeak,
    /// None is printed where one matters.
    Untold,
}

impl Standing {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Stock => "stock",
            Self::AsPublished => "as_published",
            Self::TooStrong => "too_strong",
            Self::TooWeak => "too_weak",
            Self::Untold => "untold",
        }
    }
}

/// How a family's printed strength stands; nothing where no strength is wanted of it.
pub fn standing(family: &Family, printed: Option<MilligramsPerLitre>) -> Option<Standing> {
    let wanted = family.wanted()?;
    let Some(printed) = printed else { return family.thinned.then_some(Standing::Untold) };
    Some(match wanted.against(Band::exactly(printed.into())) {
        Against::Stronger | Against::PerhapsStronger if family.thinned => Standing::Stock,
        Against::Stronger | Against::PerhapsStronger => Standing::TooStrong,
        Against::Right => Standing::AsPublished,
        Against::PerhapsWeaker | Against::Weaker => Standing::TooWeak,
    })
}

/// How units are printed, and the unit they are read as: a gram of cream is taken as a millilitre.
const UNITS: [(&str, &str); 13] = [
    ("percent", "%"),
    ("per cent", "%"),
    ("g/100 ml", "%"),
    ("g/100ml", "%"),
    ("g/100 g", "%"),
    ("g/100g", "%"),
    ("mg/ml", "g/l"),
    ("mg per ml", "g/l"),
    ("mg/g", "g/l"),
    ("mg per g", "g/l"),
    ("g/l", "g/l"),
    ("mg/l", "mg/l"),
    ("ppm", "mg/l"),
];

/// The strength printed in one part, if one is.
///
/// # Errors
/// Where there can be none such: nothing, or more than all of it.
pub fn printed(part: &str) -> Result<Option<MilligramsPerLitre>, TypedError> {
    let part = part.to_lowercase();
    let read = |number: &str, unit: &str| typed::strength(&format!("{} {unit}", number.replace(',', ".")));
    let is_number = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    if let Some((told, _)) = part.split_once('%') {
        let number = told.rsplit(|c: char| !is_number(c)).find(|number| !number.is_empty());
        return number.map(|number| read(number, "%")).transpose();
    }
    let of = |(printed, unit): &(&str, &'static str)| {
        let at = part.match_indices(printed).map(|(at, _)| at);
        let mut numbers = at.filter_map(|at| {
            let told = part.get(..at)?.trim_end();
            Some(told.get(told.trim_end_matches(is_number).len()..)?.trim_matches(['.', ','])).filter(|n| !n.is_empty())
        });
        numbers.next().map(|number| (number.to_owned(), *unit))
    };
    UNITS.iter().find_map(of).map(|(number, unit)| read(&number, unit)).transpose()
}
