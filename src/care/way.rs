//! How an action is done with what is in the house: the best way that can be gone, and what would do better.

use super::cupboard::{Cupboard, Standing};
use crate::measure::solution::{dilute, in_two_steps};
use crate::phrase::{Decimal, Quantity, Text, UnitOf, care as phrase};
use crate::protocol::Protocol;
use crate::protocol::action::Stance;
use crate::protocol::rule::ActionAt;
use crate::protocol::supply::{SupplyAt, Way, WayAt};
use crate::unit::{Microlitres, MilligramsPerLitre};
use chrono::NaiveDate;

/// How much of a weak solution is made: a wound of a bird needs no more, and what is over is poured away.
const MADE: Microlitres = Microlitres(500_000);
/// Where the amount of stock stands in a line.
const MIX: &str = "{mix}";

/// The way an action is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chosen {
    /// Which way.
    pub way: WayAt,
    /// What to do, with amounts filled in.
    pub lines: Vec<Text>,
    /// What would do better, were it in the house.
    pub better: Vec<SupplyAt>,
}

/// The first way to do an action for which everything is in the house, and which brings her into nothing that is barred; nothing
/// for an action that has none.
pub fn choose(
    protocol: &Protocol,
    cupboard: &Cupboard,
    act: ActionAt,
    today: NaiveDate,
    barred: &[Stance],
) -> Option<Chosen> {
    let ready = |at: &SupplyAt| cupboard.standing(protocol.supply(*at), today) == Standing::Ready;
    let open = |way: &Way| !way.keeps.iter().any(|stance| barred.contains(stance));
    let best = protocol.ways_to(act).find(|(_, way)| open(way))?.1;
    let (at, way) = protocol.ways_to(act).find(|(_, way)| open(way) && way.needs.iter().all(ready))?;
    let better = best.needs.iter().copied().filter(|need| !ready(need)).collect();
    Some(Chosen { way: at, lines: filled(protocol, cupboard, way), better })
}

fn filled(protocol: &Protocol, cupboard: &Cupboard, way: &Way) -> Vec<Text> {
    let stock = way.needs.iter().find_map(|need| {
        let supply = protocol.supply(*need);
        Some((supply.thin_to?, cupboard.kept(supply)?.strength?))
    });
    let mix = stock.map(|(target, strength)| mix(strength, target)).unwrap_or_default();
    let filled = |line: &String| {
        let parts = line.split(MIX).map(Text::quoted);
        parts.reduce(|before, after| Text::joined([before, mix.clone(), after])).unwrap_or_default()
    };
    way.lines.iter().map(filled).collect()
}

/// How half a litre is made. A spoonful too little to measure is thinned twice.
fn mix(stock: MilligramsPerLitre, target: MilligramsPerLitre) -> Text {
    if stock == target {
        return phrase::weak_enough().into();
    }
    let Ok(mix) = dilute(stock, target, MADE) else { return Text::default() };
    if !in_two_steps(mix) {
        return phrase::thinned(millilitres(mix.stock)).into();
    }
    let tenfold = Microlitres(mix.stock.0.saturating_mul(10));
    phrase::thinned_twice(millilitres(tenfold)).into()
}

/// Tenths of a millilitre, rounded down: weaker is the safe side.
fn millilitres(volume: Microlitres) -> Text {
    Quantity::one(Decimal::new(volume.0 / 100, 1), UnitOf::Millilitres).signed().into()
}
