//! The figures of a verdict in words: one deciding number first, the other readings and what they rest on under it.

use super::beside::{self, Beside, Of, beside};
use super::document::{Item, Section, Tone, section, upper_first};
use super::sum;
use crate::judge::Reason;
use crate::judge::figures::{Blood, Breaths, Dryness, Figures, Skin};
use crate::measure::warmth::{self, State};
use crate::protocol::Protocol;
use crate::protocol::sum::SumOf;
use crate::prove::Exact;
use crate::reckon::{AnswerValue, means, millilitres, percent, span};
use crate::typed::weight;
use crate::unit::{Band, Minutes, TenthsOfDegree, TenthsPerMinute};
use serde_json::{Value, json};

/// The figures; none where nothing was measured.
pub fn told(protocol: &Protocol, verdict: &Exact) -> Option<Section> {
    let Figures { weight, blood, breaths, dryness, skin, hurt, air } = &verdict.figures;
    let because = |of: Of| because(protocol, verdict, of);
    let besides = |of: Of| beside(protocol, verdict, of);
    let graver = |of: Of| besides(of).filter(|beside| beside.is_graver());
    let items = [
        blood.as_ref().map(|blood| Item {
            why: because(beside::BLOOD),
            ..blood_item(protocol, blood, *hurt, besides(beside::BLOOD), verdict.no_vet())
        }),
        breaths.as_ref().map(|breaths| Item {
            why: because(beside::BREATHS),
            ..breaths_item(protocol, breaths, graver(beside::BREATHS))
        }),
        dryness.as_ref().map(|dryness| Item { why: because(beside::DRYNESS), ..dryness_item(protocol, dryness) }),
        skin.as_ref()
            .map(|skin| Item { why: because(beside::SKIN), ..skin_item(protocol, skin, graver(beside::SKIN)) }),
        weight.as_ref().map(|told| {
            let how = if told.weighed { "weighed" } else { "not weighed: by build or kind" };
            let wide = !told.weighed && told.band.high.0 > told.band.low.0.saturating_mul(WIDE);
            let narrow = wide.then(|| "Weigh her, or say what build she is: every figure gets narrower.".to_owned());
            Item {
                more: narrow.into_iter().collect(),
                ..Item::plain(format!("Weight: {} ({how}).", between(told.band, weight::show)))
            }
        }),
        air.map(|air| air_item(protocol, air)),
        hurt.map(|hurt| Item::plain(format!("Hurt: {}.", hurt_ago(hurt)))),
    ];
    section("FIGURES, LOW TO HIGH", Tone::Plain, items.into_iter().flatten().collect())
}

/// A weight whose ends lie further apart than so many times tells little.
const WIDE: u32 = 2;

fn between<T: Copy>(band: Band<T>, show: impl Fn(T) -> String) -> String {
    let (low, high) = (show(band.low), show(band.high));
    if low == high { low } else { format!("{low} to {high}") }
}

/// How long ago she was hurt, in words: the least rounded down, the most rounded up.
pub(super) fn hurt_ago(hurt: Band<Minutes>) -> String {
    let high = ago(hurt.high, u32::div_ceil);
    // Two ends less than a unit apart are one: of days, nobody minds the hour.
    if hurt.high.0.saturating_sub(hurt.low.0) < told_in(hurt.high).0 {
        return format!("{high} ago");
    }
    format!("{} to {high} ago", ago(hurt.low, |minutes, unit| minutes / unit))
}

/// A length of time in the unit it is told in; parts of one as asked.
fn ago(minutes: Minutes, whole: impl Fn(u32, u32) -> u32) -> String {
    let (unit, name) = told_in(minutes);
    format!("{} {name}", whole(minutes.0, unit))
}

/// The unit a length of time is told in: its minutes and its name.
const fn told_in(minutes: Minutes) -> (u32, &'static str) {
    match minutes.0 {
        0..120 => (1, "min"),
        120..2880 => (60, "h"),
        2880.. => (1440, "days"),
    }
}

/// Everything, in thousandths.
const ALL_OF_IT: u32 = 1000;
/// From here on a bird is given nothing by a lay hand, in thousandths of her weight.
const TOO_DRY: u32 = 100;

/// The deciding share in one line, for summaries; only "press" while she bleeds.
pub fn blood_line(blood: &Blood) -> String {
    if blood.bleeds {
        return "Press. Reckon once it has stopped.".into();
    }
    if blood.share.high.0 >= ALL_OF_IT {
        // So wide a band is a weight nobody told, or blood without an upper end: the graver end decides.
        return format!("{} to 100 % of her blood may be gone", percent(blood.share.low));
    }
    format!("up to {} % of her blood gone", percent(blood.share.high))
}

/// What a figure rests on, one line each.
fn rests(protocol: &Protocol, sum: SumOf) -> Vec<String> {
    protocol.rests_of(sum).iter().map(|rest| crate::words::english(sum::rests(protocol, rest))).collect()
}

/// The share of blood for summaries, with what else weighs more than what was seen of it.
pub fn blood_told(protocol: &Protocol, verdict: &Exact, blood: &Blood) -> String {
    let graver = beside(protocol, verdict, beside::BLOOD).filter(|beside| beside.is_graver() && !blood.bleeds);
    let outside = graver.map_or_else(String::new, |beside| format!(", by what was seen. {}", beside.words()));
    format!("{}{outside}", blood_line(blood))
}

fn blood_item(
    protocol: &Protocol,
    blood: &Blood,
    hurt: Option<Band<Minutes>>,
    others: Option<Beside>,
    no_vet: bool,
) -> Item {
    if blood.bleeds {
        return Item::plain("Blood: press. It is reckoned once the bleeding has stopped.");
    }
    let line = format!("{}.", upper_first(&crate::words::english(means::blood(blood.line, no_vet))));
    let fast = hurt
        .map(|hurt| format!("Lost within {} at most. A fast loss is the graver one.", ago(hurt.high, u32::div_ceil)));
    let frail = if blood.frail { ", 15 % less counted as she may be ill, old or fat" } else { "" };
    let asked = vec![
        format!(
            "Lost {}; she had {}{frail}.",
            span(blood.lost, millilitres, "mL").value,
            span(blood.all, millilitres, "mL").value
        ),
        format!(
            "All readings: {}; {}.",
            span(blood.share, percent, "% of her blood").value,
            span(blood.of_weight, percent, "% of her weight").value
        ),
        "Formula: lost / (weight x blood a kilogram). The most lost of the least blood decides.".into(),
    ];
    let asked = asked.into_iter().chain(rests(protocol, SumOf::Blood)).collect();
    // What runs inside her no sum of ours sees: a line that is not crossed would soothe beside a sign that is graver.
    let others = others.map(|beside| format!("Only blood seen outside is counted. {}", beside.words()));
    let more = others.into_iter().chain([line]).chain(fast).collect();
    Item { more, asked, ..Item::plain(format!("Blood: {}.", blood_line(blood))) }
}

fn rate(rate: TenthsPerMinute) -> String {
    format!("{}.{}", rate.0 / 10, rate.0 % 10).trim_end_matches(".0").to_owned()
}

/// Breaths in one line, for summaries.
pub fn breaths_line(breaths: &Breaths) -> String {
    let against = breaths
        .range
        .map(|(_, against)| format!(", {}", crate::words::english(means::breaths(against))))
        .unwrap_or_default();
    format!("{}{against}", span(breaths.rate, rate, "a minute").value)
}

fn breaths_item(protocol: &Protocol, breaths: &Breaths, others: Option<Beside>) -> Item {
    let held = breaths.held.then(|| "Counted in the hand: it says little. Count again when she has rested.".to_owned());
    let range = breaths.range.map_or_else(
        || "No range is published for her kind that we know of.".to_owned(),
        |(band, _)| format!("Her kind at rest, untouched and not hot: {}.", span(band, rate, "a minute").value),
    );
    let asked = vec![
        "Formula: breaths x 60 / seconds, one breath more or less; several counts: all of them.".into(),
        "No line is drawn from heart rates: the formula by weight is wrong by a factor of two.".into(),
    ];
    let asked = asked.into_iter().chain(rests(protocol, SumOf::Breaths)).collect();
    let others = others.map(|beside| format!("This only counts how often. {}", beside.words()));
    let more = others.into_iter().chain([range]).chain(held).collect();
    Item { more, asked, ..Item::plain(format!("Breaths: {}.", breaths_line(breaths))) }
}

fn dryness_item(protocol: &Protocol, dryness: &Dryness) -> Item {
    let share = span(dryness.share, percent, "% of her weight in water").value;
    let lacks = span(dryness.lacks, millilitres, "mL").value;
    let more = if dryness.nothing_by_mouth {
        "Nothing by mouth: no amount is told."
    } else if dryness.share.high.0 >= TOO_DRY {
        "Nothing from a lay hand: a vet gives fluid under the skin or into a vein."
    } else {
        "At home: water beside her, to drink by herself while she is awake and upright."
    };
    let more = vec![more.to_owned()];
    let told = dryness.weighed && !dryness.nothing_by_mouth;
    let amount = told.then(|| format!("For a vet or a trained hand: she lacks {lacks}."));
    let asked = amount
        .into_iter()
        .chain(["Formula: lacking = weight x share dry; the share goes by her signs.".to_owned()])
        .chain(rests(protocol, SumOf::Fluids))
        .collect();
    Item { more, asked, ..Item::plain(format!("Dryness: she lacks {share}.")) }
}

fn skin_item(protocol: &Protocol, skin: &Skin, others: Option<Beside>) -> Item {
    let asked = vec![
        format!(
            "It loses about {} a day, an order of magnitude borrowed from people.",
            span(skin.moisture, millilitres, "mL of water").value
        ),
        "Formula: pi/4 x length x width of each wound / (10 x W^(2/3) cm2, W in grams).".into(),
    ];
    let asked = asked.into_iter().chain(rests(protocol, SumOf::Skin)).collect();
    let more =
        others.map(|beside| format!("This only sums how much is open. {}", beside.words())).into_iter().collect();
    Item { more, asked, ..Item::plain(format!("Open skin: {}.", span(skin.share, percent, "% of all her skin").value)) }
}

fn degrees(tenths: TenthsOfDegree) -> String {
    format!("{}.{}", tenths.0 / 10, tenths.0 % 10).trim_end_matches(".0").to_owned()
}

fn air_item(protocol: &Protocol, state: State) -> Item {
    let lead = match (state, warmth::air(state)) {
        (State::Hot, _) => "Air: no heat until she breathes quietly; shade and moving air.".to_owned(),
        (_, None) => "Air: room warmth; a cold bird is brought to her own warmth at the body, no further.".to_owned(),
        (_, Some(band)) => {
            let air = span(band, degrees, "°C on the warm side").value;
            format!("Air: {air}, {} to {} % damp, one side cooler.", warmth::DAMP.low, warmth::DAMP.high)
        }
    };
    let more = match state {
        State::Chick(_) => vec!["35 °C in its first week, about 3 less each week, not below 21.".to_owned()],
        State::Ill | State::Chilled => vec![
            "Soaked or cold: dry her first. To 32 °C only while someone stays with her.".to_owned(),
            "Once she stands and eats: 3 °C less a day, down to the room.".to_owned(),
        ],
        State::HeadHurt | State::Hot => Vec::new(),
    };
    Item { more, asked: rests(protocol, SumOf::Warmth), ..Item::plain(lead) }
}

/// The rules in force that rest on a measure.
fn because(protocol: &Protocol, verdict: &Exact, of: Of) -> Vec<Reason> {
    verdict.reasons.iter().filter(|reason| beside::reads(protocol.rule(reason.rule), of)).copied().collect()
}

/// The figures as JSON: low, high, unit, formula and source of each.
pub fn json(protocol: &Protocol, verdict: &Exact) -> Value {
    let figures = &verdict.figures;
    let graver = |of: Of| beside(protocol, verdict, of).is_some_and(Beside::is_graver);
    let band = |told: AnswerValue| json!({ "low": told.low, "high": told.high, "unit": told.unit });
    json!({
        "weight": figures.weight.map(|told| json!({
            "band": band(span(told.band, |grams| grams.0.to_string(), "g")), "weighed": told.weighed,
        })),
        "blood": figures.blood.map(|blood| if blood.bleeds { json!({ "bleeds": true }) } else { json!({
            "bleeds": false,
            "share_of_blood": band(span(blood.share, percent, "%")), "decides": "high",
            "share_of_weight": band(span(blood.of_weight, percent, "%")),
            "lost": band(span(blood.lost, millilitres, "mL")), "had": band(span(blood.all, millilitres, "mL")),
            "line": crate::words::english(means::blood(blood.line, false)), "counted_as_frail": blood.frail,
            "counts": "blood seen outside", "other_signs_weigh_more": graver(beside::BLOOD),
            "formula": "lost / (weight x blood a kilogram)", "rests_on": sum::rests_json(protocol, protocol.rests_of(SumOf::Blood)),
        }) }),
        "breaths": figures.breaths.map(|breaths| json!({
            "rate": band(span(breaths.rate, rate, "a minute")), "in_the_hand": breaths.held,
            "her_kind": breaths.range.map(|(range, _)| band(span(range, rate, "a minute"))),
            "against": breaths.range.map(|(_, against)| crate::words::english(means::breaths(against))),
            "other_signs_weigh_more": graver(beside::BREATHS),
            "formula": "breaths x 60 / seconds, one breath more or less", "rests_on": sum::rests_json(protocol, protocol.rests_of(SumOf::Breaths)),
        })),
        "dryness": figures.dryness.map(|dry| json!({
            "share_of_weight": band(span(dry.share, percent, "%")),
            "lacks_for_a_trained_hand": (dry.weighed && !dry.nothing_by_mouth).then(|| band(span(dry.lacks, millilitres, "mL"))),
            "nothing_by_mouth": dry.nothing_by_mouth,
            "formula": "weight x share dry", "rests_on": sum::rests_json(protocol, protocol.rests_of(SumOf::Fluids)),
        })),
        "open_skin": figures.skin.map(|skin| json!({
            "share": band(span(skin.share, percent, "%")),
            "other_signs_weigh_more": graver(beside::SKIN),
            "water_a_day_order_of_magnitude": band(span(skin.moisture, millilitres, "mL")),
            "formula": "pi/4 x length x width / (10 x W^(2/3) cm2)", "rests_on": sum::rests_json(protocol, protocol.rests_of(SumOf::Skin)),
        })),
        "air": figures.air.map(|state| json!({
            "degrees_on_the_warm_side": warmth::air(state).map(|air| band(span(air, degrees, "degrees Celsius"))),
            "rests_on": sum::rests_json(protocol, protocol.rests_of(SumOf::Warmth)),
        })),
        "hurt_ago": figures.hurt.map(|hurt| band(span(hurt, |minutes: Minutes| minutes.0.to_string(), "min"))),
    })
}
