//! What each sum rests on: sources by their keys in the protocol, how each came to us, and whose figure it is.

use crate::protocol::source::Strength::{self, Memory, Practice, Proposal, Read, SecondHand};
use serde::Serialize;

/// Where a figure comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Cited {
    /// The source's key in the protocol.
    pub source: &'static str,
    /// What is taken from it.
    pub what: &'static str,
    /// How we know it.
    pub strength: Strength,
    /// Whose figure it is, where it is not poultry's.
    pub borrowed_from: Option<&'static str>,
}

const fn own(source: &'static str, strength: Strength, what: &'static str) -> Cited {
    Cited { source, what, strength, borrowed_from: None }
}

const fn borrowed(source: &'static str, strength: Strength, what: &'static str, from: &'static str) -> Cited {
    Cited { source, what, strength, borrowed_from: Some(from) }
}

/// Blood lost.
pub const BLOOD: &[Cited] = &[
    own("blood1961", Read, "66 mL/kg in cocks; packed cells by bleeds"),
    own("glomski2011", Read, "92 mL/kg in chicks of eight days; birds about a tenth"),
    borrowed("vetpractice_pale", Read, "4 to 8 in 100 of body weight", "birds at large"),
    borrowed("lafeber_transfuse", Read, "blood is given below 20 packed cells", "birds at large"),
    own("OURS", Proposal, "a band for each kind, and the lines; decided on the low volume"),
    borrowed("ulam", Read, "15 in 100 less when ill, old or fat; a tenth is a safe sample", "laboratory animals"),
    borrowed("hughes2007", SecondHand, "pads of 5 and 10 cm", "people"),
    borrowed("bose2006", Read, "a towel of 45 cm, pools on a ward floor", "people"),
    borrowed("bose2006", Memory, "a thick pad of 10 cm", "people"),
    borrowed("algadiem2016", Memory, "cloths of 30 and 45 cm", "people"),
    borrowed("algadiem2016", Read, "a dripping pad holds a quarter more", "people"),
    borrowed("kreutziger2014", Read, "pools on plastic and on soil", "people"),
    borrowed("vitello2015", Read, "1 g is 1 mL", "rats"),
    borrowed("spill_lay", SecondHand, "20 to 50 drops a mL", "people"),
    borrowed("nybirds_bleed", Read, "10 drops a mL; above a tenth is unsafe", "pet birds"),
    borrowed(
        "dvm360_stabilise",
        Read,
        "a fast loss of 20 to 25 in 100 can kill; a tenth of body weight is blood",
        "companion birds",
    ),
    own("OURS", Proposal, "lines at 0.6 and 1 in 100 of body weight, worked out from that"),
    borrowed("lichtenberger2009", Read, "half died at 60 in 100", "mallards"),
    borrowed("gildersleeve1985", Read, "30 in 100 was borne", "quail"),
];

/// Breaths counted.
pub const BREATHS: &[Cited] = &[
    own(
        "vitals",
        SecondHand,
        "chickens 12 to 37, turkeys 28 to 49, ducks 30 to 95, geese 13 to 40 (the last two from memory)",
    ),
    own("hen_heat", Read, "60 a minute is a hen's mark of heat"),
    own("chang_temp", Read, "a hen's comfort ends at about 24 degrees"),
    borrowed("greenacre2004", Read, "held 15 minutes they breathe twice as fast", "parrots"),
    own("open_data", Read, "exact limits of a count, the outer bound"),
    borrowed("calder1968", Memory, "breath by body weight, a check of sense", "birds at large"),
];

/// Weight.
pub const WEIGHT: &[Cited] = &[
    own("yard1959", Memory, "pound and ounce, exact"),
    own(
        "weights_lay",
        SecondHand,
        "what kinds and builds weigh; geese read; guinea fowl, call and runner ducks, the lightest hens from memory",
    ),
];

/// Skin open.
pub const SKIN: &[Cited] = &[
    own("walsberg1978", Read, "skin from body weight"),
    own("OURS", Proposal, "lines at 5 and 10 in 100; none is published for birds"),
    borrowed("burn_people", Memory, "water lost through a wound, the burn texts' rule", "people"),
];

/// Printed recipes.
pub const RECIPE: &[Cited] = &[
    own("spoon_lay", Read, "a level teaspoon of salt as 4.2 g; food tables say 6 (from memory)"),
    borrowed("vettimes_wounds", Read, "a tablespoon in 600 mL, printed as 0.9 in 100", "horses"),
    own("toxicology", Read, "salts in drinking water of poultry"),
    borrowed("sanchez_dogs", Read, "chlorhexidine 0.05, povidone-iodine 0.1 and 1 in 100 on wounds", "dogs"),
    borrowed("swaim_iodine", Memory, "povidone-iodine 0.1 to 1 in 100", "dogs and cats"),
    borrowed("sanchez_cells", Read, "below 0.05 in 100 of chlorhexidine germs live on", "cells of dogs"),
    borrowed("macrae1984", Read, "scrubs of 4 and 7.5 in 100 hold a detergent", "rabbits"),
    own("OURS", Proposal, "within a tenth counts as right"),
];

/// Stocks thinned.
pub const SOLUTION: &[Cited] = &[
    borrowed("vettimes_wounds", Read, "chlorhexidine 0.05 in 100; no scrubs", "horses"),
    borrowed("swaim_iodine", Memory, "povidone-iodine 0.1 to 1 in 100", "dogs and cats"),
    borrowed("sanchez_dogs", Read, "chlorhexidine 0.05, povidone-iodine 0.1 and 1 in 100 on wounds", "dogs"),
    borrowed("sanchez_cells", Read, "below 0.05 in 100 of chlorhexidine germs live on", "cells of dogs"),
    borrowed("macrae1984", Read, "scrubs of 4 and 7.5 in 100 hold a detergent", "rabbits"),
    own("air_sacs", Read, "nothing runs into an air sac"),
    own("spill_lay", SecondHand, "20 to 50 drops a mL"),
    own("OURS", Proposal, "the arithmetic"),
];

/// Salt water.
pub const SALINE: &[Cited] = &[
    own("OURS", Proposal, "9 g a litre, the arithmetic"),
    own("spoon_lay", Read, "a level teaspoon of salt as 4.2 g; food tables say 6 (from memory)"),
    own("toxicology", Read, "salts in drinking water of poultry"),
];

/// Rehydration salts.
pub const SALTS: &[Cited] = &[
    borrowed("who_ors", Read, "low-osmolarity salts", "people"),
    own("toxicology", Read, "salts in drinking water of poultry"),
    own("sucrase", Read, "hens, quail, ducks and geese split table sugar"),
];

/// Fluids.
pub const FLUIDS: &[Cited] = &[
    borrowed(
        "formulary",
        Read,
        "weight x share dry; half on each of two days; 50 mL/kg a day; 38 to 39 degrees",
        "birds at large",
    ),
    borrowed("lafeber_fluids", Read, "all on day one; 48 mL/kg a day; a crop holds 50 mL/kg", "birds at large"),
    borrowed("wildpro_dry", Read, "dryness by signs", "cranes"),
    borrowed("duerr", Read, "first 10 to 25 mL/kg", "wild birds"),
    borrowed("duerr_drink", Read, "once warm and calm they drink by themselves from a dish", "ducklings"),
    borrowed("duerr_mouth", Read, "nothing by mouth while cold, limp or blocked", "wild birds"),
    own("PRACTICE", Practice, "the other signs against giving by mouth"),
    own(
        "OURS",
        Proposal,
        "first 10 to 20 mL/kg; 20 mL/kg at most in ducks and geese; nothing by a lay hand from 10 in 100 dry",
    ),
];

/// Warmth.
pub const WARMTH: &[Cited] = &[
    borrowed("lafeber_heat", Read, "26 to 32 degrees for sick birds", "companion birds"),
    borrowed("duerr", Read, "40 to 50 in 100 damp for chilled young; then 30, then 21 to 24", "herons"),
    own("brooder", SecondHand, "35 degrees in week one, 2.8 less each week"),
    own("PRACTICE", Practice, "3 degrees less a day"),
    borrowed("ritchie1994", Memory, "about 70 in 100 damp", "companion birds"),
    borrowed("merck_trauma", Read, "no heat after a blow to the head", "pet birds"),
    own("OURS", Proposal, "27 to 30 with a cool side, where sources give 26 to 38"),
];

/// Weight over days.
pub const TREND: &[Cited] = &[
    borrowed("ivapm", Read, "steps of 5, 10, 15 and 20 in 100", "pigeons"),
    own("open_data", Read, "what an egg weighs, and how far healthy hens swing"),
    own("OURS", Proposal, "3 in 100 as noise; what each step calls for"),
];

/// Healing.
pub const HEALING: &[Cited] = &[
    borrowed("gilman1990", Memory, "how far the edge comes in", "people"),
    own("OURS", Proposal, "day 3 and day 7; none is published for birds"),
];

/// Time.
pub const TIME: &[Cited] = &[
    own("PRACTICE", Practice, "closing a cut within 6 to 12 h"),
    borrowed("tully", Read, "bites are treated soon", "companion birds"),
    own("OURS", Proposal, "12 h for a bite, 48 h for nerve signs"),
];
