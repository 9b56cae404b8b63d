//! What measures come to, as data: every figure the arithmetic of a judgement takes, so that another program can do it by itself.
//! The steps are told in words beside the figures; their meaning is fixed by DEVELOPERS.md, "The protocol as JSON".

use crate::bird::Kind;
use crate::finding::figure::{FLOORS, FULLNESS, FigureOf, Floor, PADS, Spilt};
use crate::measure::{blood, breath, healing, skin};
use crate::sheet::SLOW_VEIN;
use crate::unit::{Band, Grams};
use serde_json::{Map, Value, json};

/// Every figure and every step.
pub fn whole() -> Value {
    json!({
        "bands": "A measure is a band, low and high, rounded outwards: the low end down, the high end up. It reaches a value where the low end does; it does not where the high end does not; between, doubt decides.",
        "cannot_tell": "From 0 to the largest high end of the question's answers; where none has a worth, to the most of its measure. What does not apply is 0; where doubt leaves open whether it applies, the low end is 0.",
        "figures": figures(),
        "weight": weight(),
        "blood": blood(),
        "skin": {
            "square_millimetres_by_weight": { "times": skin::whole(Grams(1)), "to_the_power": [2, 3] },
            "how": "Skin by weight in grams: times x W^(2/3). Open share in thousandths: low = sum of the low areas x 1000 / skin of the heaviest, high = sum of the high areas x 1000 / skin of the lightest; 1000 at most. Where any area is not settled, the high end is 1000.",
        },
        "dryness": {
            "slow_vein_thousandths": SLOW_VEIN,
            "how": "The band of the answer that gives dryness; where the wing vein's question applies and is answered with its worst answer, may be it, or could not be told, the high end is at least this.",
        },
        "time_since": {
            "how": "The band of the answer, with the minutes since it was given added to both ends. Could not be told: from 0 without end. Of a wound by the wound's own question, of the bird by hers.",
        },
        "breath_rate": { "how": "The band of the answer or of the counts, in tenths a minute." },
    })
}

/// Figures given in place of an answer: what they come to, and for which answers they stand.
fn figures() -> Value {
    let most = [FigureOf::Blood, FigureOf::Breaths, FigureOf::Wound, FigureOf::Refill].map(|of| {
        let (name, unit) = match of {
            FigureOf::Blood => ("blood_lost", "microlitres"),
            FigureOf::Breaths => ("breath_rate", "tenths a minute"),
            FigureOf::Wound => ("wound_area", "square millimetres"),
            FigureOf::Refill => ("refill", "tenths of a second"),
        };
        (name.to_owned(), json!({ "most": of.most(), "unit": unit, "example": of.example() }))
    });
    json!({
        "of": most.into_iter().collect::<Map<String, Value>>(),
        "how": "A figure's band is cut off at the most. It stands for the answers from the one its low end falls to to the one its high end does: an end falls to the answer whose place, from 0, is the number of answers whose high end lies below it, the last one at most.",
        "wound_area": {
            "ruler_micrometres": healing::RULER.0,
            "how": "An ellipse, pi/4 x length x width in millimetres. Its doubt is sqrt((ruler / length)^2 + (ruler / width)^2), 1 at most; the band is area x (1 - doubt) to area x (1 + doubt).",
        },
        "breath_rate": {
            "breaths_more_or_less": 1,
            "least_seconds": breath::LEAST_SECONDS,
            "how": "(breaths -/+ 1) x 600 / seconds; several counts: the least low end to the greatest high end.",
        },
        "refill": { "how": "As it was taken, exactly." },
        "blood_lost": spilt(),
    })
}

fn spilt() -> Value {
    fn band<T: Copy>(band: Band<T>, value: impl Fn(T) -> u64) -> [u64; 2] {
        [value(band.low), value(band.high)]
    }
    let pads = PADS.map(|(name, pad)| (name.to_owned(), json!(band(pad.full(), |full| full.0))));
    let full = FULLNESS.map(|(name, full)| (name.to_owned(), json!(band(full.hundredths(), |share| share))));
    let floors =
        FLOORS.map(|(name, floor): (&str, Floor)| (name.to_owned(), json!(band(floor.depth(), |depth| depth.0))));
    json!({
        "drop_microlitres": band(Spilt::Drops(1).volume(), |drop| drop.0),
        "pads_microlitres": pads.into_iter().collect::<Map<String, Value>>(),
        "fullness_hundredths": full.into_iter().collect::<Map<String, Value>>(),
        "floors_depth_micrometres": floors.into_iter().collect::<Map<String, Value>>(),
        "scale_read_to_grams": blood::SCALE.0,
        "microlitres_a_gram": { "low": blood::OF_A_GRAM.low, "high": blood::OF_A_GRAM.high },
        "how": "Everything seen is added up, low ends and high ends. Drops: number x drop. Pads: number x pad x fullness / 100. Weighed: (wet - dry, less the scale's reading, 0 at least) x the low fraction to (wet - dry, and the scale's reading) x the high one. A pool: pi/4 x width^2 x depth. An amount as it is. Dripping: the drops in all, drops x minutes x 60 / seconds, rounded outwards.",
    })
}

fn weight() -> Value {
    let taken = |kind: Option<Kind>| {
        let Band { low, high } = Kind::taken_of(kind);
        json!([low.0, high.0])
    };
    let kinds = Kind::ALL.map(|kind| (kind.id().to_owned(), taken(Some(kind))));
    json!({
        "grams_taken_by_kind": kinds.into_iter().collect::<Map<String, Value>>(),
        "grams_taken_of_any_kind": taken(None),
        "how": "A weight typed is exact; a build is its answer's worth. One that is outside what is taken of her kind, or a build of another kind, counts for nothing. Where nothing is known: from the least to the most taken of her kind, of any kind where that could not be told.",
    })
}

fn blood() -> Value {
    let per = |kind: Option<Kind>| {
        let Band { low, high } = blood::per_gram(kind);
        json!([low, high])
    };
    let kinds = Kind::ALL.map(|kind| (kind.id().to_owned(), per(Some(kind))));
    json!({
        "microlitres_a_gram_by_kind": kinds.into_iter().collect::<Map<String, Value>>(),
        "microlitres_a_gram_of_any_kind": per(None),
        "frail_low_end_hundredths": blood::FRAIL_HUNDREDTHS,
        "microlitres_a_gram_of_weight": 1000,
        "how": "All her blood: low = lightest x least a gram, of a frail bird (frail_when, doubt counted as met) so many hundredths of that, rounded down; high = heaviest x most a gram. Share gone in thousandths: low = least lost x 1000 / high, high = most lost x 1000 / low; 1000 at most. Against weight: the same with 1000 microlitres a gram in place of her blood.",
    })
}
