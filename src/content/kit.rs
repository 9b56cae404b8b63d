//! The kit: what to have before it happens, and why; and what of it is in the house.

use super::document::{self, Item, Section, Tone, section};
use crate::care::cupboard::{Cupboard, Standing};
use crate::phrase::{Text, kit as phrase};
use crate::protocol::Protocol;
use crate::protocol::supply::Supply;
use crate::protocol::texts::Country;
use crate::typed::write_strength;
use chrono::NaiveDate;

/// Everything a carer may have, each with why; what is missing first.
pub fn sections(protocol: &Protocol, country: &Country, cupboard: &Cupboard, today: NaiveDate) -> Vec<Section<Text>> {
    let with = |wanted: fn(&Standing) -> bool| {
        let of = protocol.supplies.iter().filter(|supply| wanted(&cupboard.standing(supply, today)));
        of.map(|supply| item(cupboard, supply, today)).collect()
    };
    let no_use = |standing: &Standing| !matches!(standing, Standing::Missing | Standing::Ready);
    let sections = [
        section(phrase::heading_missing(), Tone::Plain, with(|standing| *standing == Standing::Missing)),
        section(phrase::heading_no_use(), Tone::Plain, with(no_use)),
        section(phrase::heading_here(), Tone::Plain, with(|standing| *standing == Standing::Ready)),
        document::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

fn item(cupboard: &Cupboard, supply: &Supply, today: NaiveDate) -> Item<Text> {
    let kept = cupboard.kept(supply).unwrap_or_default();
    let name = Text::opening(Text::quoted(&supply.name));
    let strength = kept.strength.map(|strength| Text::typed(write_strength(strength)));
    let until = kept.until.map(|until| phrase::until(Text::typed(until.to_string())).into());
    let standing = standing(supply, &cupboard.standing(supply, today));
    Item {
        lead: Text::list([name].into_iter().chain(strength).chain(until)),
        more: standing.into_iter().chain([Text::quoted(&supply.why)]).collect(),
        ..Item::default()
    }
}

/// Why a supply does not count although it is there.
pub fn standing(supply: &Supply, standing: &Standing) -> Option<Text> {
    match standing {
        Standing::Ready | Standing::Missing => None,
        Standing::Past => Some(phrase::past().into()),
        Standing::StrengthUntold => Some(phrase::strength_untold().into()),
        Standing::TooWeak => Some(phrase::too_weak().into()),
        Standing::Refused(strength) => supply.refuses(*strength).map(Text::quoted),
    }
}
