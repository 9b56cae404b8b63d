//! What is wrong with something typed: with an amount, with a list of what is in the house.

pub use crate::reckon::mistyped::{told, unlikely, weights, wrong};

use crate::care::cupboard::CupboardError;
use crate::phrase::{Phrase, Text, mistyped as says};

/// A month and a day as they are typed.
const DATES: [&str; 2] = ["2027-03", "2027-03-31"];

/// Why a list of supplies cannot be read.
pub fn cupboard(error: &CupboardError) -> Text {
    let command = || Text::typed("coopside kit");
    let phrase: Phrase = match error {
        CupboardError::Unknown { name, near: None } => says::no_supply(Text::typed(name), command()),
        CupboardError::Unknown { name, near: Some(near) } => {
            says::no_supply_near(Text::typed(name), Text::typed(near), command())
        }
        CupboardError::Date(date) => {
            let [month, day] = DATES.map(Text::typed);
            says::no_date(Text::typed(date), month, day)
        }
        CupboardError::Strength(error) => return told(error),
        CupboardError::NoStrength(name) => says::no_strength(Text::typed(name)),
    };
    phrase.into()
}
