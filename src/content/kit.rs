//! The kit: what to have before it happens, and why; and what of it is in the house.

use super::document::{Item, Section, Tone, section, upper_first};
use crate::care::cupboard::{Cupboard, Standing};
use crate::protocol::Protocol;
use crate::protocol::supply::Supply;
use crate::protocol::texts::Country;
use crate::typed::write_strength;
use chrono::NaiveDate;
use serde_json::{Value, json};

/// Everything a carer may have, each with why; what is missing first.
pub fn sections(protocol: &Protocol, country: &Country, cupboard: &Cupboard, today: NaiveDate) -> Vec<Section> {
    let with = |wanted: fn(&Standing) -> bool| {
        let of = protocol.supplies.iter().filter(|supply| wanted(&cupboard.standing(supply, today)));
        of.map(|supply| item(cupboard, supply, today)).collect()
    };
    let sections = [
        section("TO HAVE BEFORE IT HAPPENS", Tone::Plain, with(|standing| *standing == Standing::Missing)),
        section(
            "IN THE HOUSE, BUT OF NO USE",
            Tone::Plain,
            with(|s| !matches!(s, Standing::Missing | Standing::Ready)),
        ),
        section("IN THE HOUSE", Tone::Plain, with(|standing| *standing == Standing::Ready)),
        crate::content::old::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.kit/1";

/// The same as JSON.
pub fn json(protocol: &Protocol, country: &Country, cupboard: &Cupboard, today: NaiveDate) -> Value {
    let supply = |supply: &Supply| {
        let kept = cupboard.kept(supply);
        let found = cupboard.standing(supply, today);
        json!({
            "id": supply.id, "name": supply.name, "why": supply.why, "source": protocol.source_id(supply.source),
            "in_the_house": kept.is_some(), "counts": found == Standing::Ready, "because": standing(supply, &found),
            "strength": kept.and_then(|kept| kept.strength).map(write_strength), "until": kept.and_then(|kept| kept.until),
        })
    };
    json!({
        "schema": SCHEMA,
        "caution": crate::content::old::caution_text(country),
        "reviewed_by_a_veterinarian": false,
        "supplies": protocol.supplies.iter().map(supply).collect::<Vec<_>>(),
    })
}

fn item(cupboard: &Cupboard, supply: &Supply, today: NaiveDate) -> Item {
    let kept = cupboard.kept(supply).unwrap_or_default();
    let strength = kept.strength.map(|strength| format!(", {}", write_strength(strength))).unwrap_or_default();
    let until = kept.until.map(|until| format!(", until {until}")).unwrap_or_default();
    let mut more: Vec<String> = standing(supply, &cupboard.standing(supply, today)).into_iter().collect();
    more.push(supply.why.clone());
    Item { lead: format!("{}{strength}{until}", upper_first(&supply.name)), more, ..Item::default() }
}

/// Why a supply does not count although it is there.
pub fn standing(supply: &Supply, standing: &Standing) -> Option<String> {
    match standing {
        Standing::Ready | Standing::Missing => None,
        Standing::Past => Some("Its date has gone: do not use it.".to_owned()),
        Standing::StrengthUntold => Some("Its strength is not told: read the label.".to_owned()),
        Standing::TooWeak => Some("It is weaker than it must be.".to_owned()),
        Standing::Refused(strength) => supply.refuses(*strength).map(str::to_owned),
    }
}
