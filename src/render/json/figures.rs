//! The figures of a verdict as JSON: low, high and unit of each, what they stand for, and what they rest on.

use super::reckon;
use crate::content::beside::{self, Beside, Of, beside};
use crate::judge::figures::{Blood, Breaths, Dryness, Skin};
use crate::measure::warmth::{self, State};
use crate::phrase::{Decimal, Quantity, UnitOf, figures as phrase};
use crate::protocol::Protocol;
use crate::protocol::sum::SumOf;
use crate::prove::Exact;
use crate::reckon::means;
use crate::render::nodes::quantity;
use crate::words::Reader;
use serde_json::{Value, json};

/// Each figure; null where nothing was measured.
pub fn figures(protocol: &Protocol, verdict: &Exact, reader: Reader) -> Value {
    let figures = &verdict.figures;
    let desk = FigureWriter { protocol, verdict, reader };
    json!({
        "weight": figures.weight.map(|told| json!({
            "band": band(&Quantity::weight(told.band)), "weighed": told.weighed,
        })),
        "blood": figures.blood.map(|blood| desk.blood(&blood)),
        "breaths": figures.breaths.map(|breaths| desk.breaths(&breaths)),
        "dryness": figures.dryness.map(|dry| desk.dryness(&dry)),
        "open_skin": figures.skin.map(|skin| desk.skin(&skin)),
        "air": figures.air.map(|state| desk.air(state)),
        "hurt_ago": figures.hurt.map(|hurt| band(&Quantity::of(hurt, |minutes| Decimal::whole(minutes.0), UnitOf::Minutes))),
    })
}

/// Low to high, to as many places as they are read.
fn band(figure: &Quantity) -> Value {
    let [low, high, unit] = quantity(figure);
    json!({ "low": low, "high": high, "unit": unit })
}

struct FigureWriter<'a> {
    protocol: &'a Protocol,
    verdict: &'a Exact,
    reader: Reader<'a>,
}

impl FigureWriter<'_> {
    /// Whether other signs of the same part of the body are graver than the figure.
    fn graver(&self, of: Of) -> bool {
        beside(self.protocol, self.verdict, of).is_some_and(Beside::is_graver)
    }

    fn rests(&self, sum: SumOf) -> Vec<Value> {
        reckon::rests(self.protocol, self.protocol.rests_of(sum))
    }

    /// While she bleeds no figure of it is told.
    fn blood(&self, blood: &Blood) -> Value {
        let told = (!blood.bleeds).then_some(blood);
        json!({
            "bleeds": blood.bleeds,
            "share_of_blood": told.map(|blood| band(&Quantity::share(blood.share))),
            "decides": told.map(|_| "high"),
            "share_of_weight": told.map(|blood| band(&Quantity::share(blood.of_weight))),
            "lost": told.map(|blood| band(&Quantity::volume(blood.lost))),
            "had": told.map(|blood| band(&Quantity::volume(blood.all))),
            "line": told.map(|blood| blood.line.id()),
            "line_says": told.map(|blood| self.reader.phrase(&means::blood(blood.line, self.verdict.no_vet()))),
            "counted_as_frail": told.map(|blood| blood.frail),
            "counts": told.map(|_| "seen_outside"),
            "other_signs_weigh_more": told.map(|_| self.graver(beside::BLOOD)),
            "formula": told.map(|_| self.reader.phrase(&phrase::blood_formula())),
            "rests_on": told.map(|_| self.rests(SumOf::Blood)),
        })
    }

    fn breaths(&self, breaths: &Breaths) -> Value {
        json!({
            "rate": band(&Quantity::rate(breaths.rate)), "in_the_hand": breaths.held,
            "her_kind": breaths.range.map(|(range, _)| band(&Quantity::rate(range))),
            "against": breaths.range.map(|(_, against)| against.id()),
            "against_says": breaths.range.map(|(_, against)| self.reader.phrase(&means::breaths(against))),
            "other_signs_weigh_more": self.graver(beside::BREATHS),
            "formula": self.reader.phrase(&phrase::breaths_formula()),
            "rests_on": self.rests(SumOf::Breaths),
        })
    }

    fn dryness(&self, dry: &Dryness) -> Value {
        let told = dry.weighed && !dry.nothing_by_mouth;
        json!({
            "share_of_weight": band(&Quantity::share(dry.share)),
            "lacks_for_a_trained_hand": told.then(|| band(&Quantity::volume(dry.lacks))),
            "nothing_by_mouth": dry.nothing_by_mouth,
            "formula": self.reader.phrase(&phrase::dryness_formula()),
            "rests_on": self.rests(SumOf::Fluids),
        })
    }

    fn skin(&self, skin: &Skin) -> Value {
        json!({
            "share": band(&Quantity::share(skin.share)),
            "other_signs_weigh_more": self.graver(beside::SKIN),
            "water_a_day_order_of_magnitude": band(&Quantity::volume(skin.moisture)),
            "formula": self.reader.phrase(&phrase::skin_formula()),
            "rests_on": self.rests(SumOf::Skin),
        })
    }

    fn air(&self, state: State) -> Value {
        json!({
            "degrees_on_the_warm_side": warmth::air(state).map(|air| band(&Quantity::degrees(air))),
            "rests_on": self.rests(SumOf::Warmth),
        })
    }
}
