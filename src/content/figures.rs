//! The figures of a verdict in words: one deciding number first, the other readings and what they rest on under it.

use super::beside::{self, Beside, Of, beside};
use super::document::{Item, Section, Tone, section};
use super::sum;
use crate::judge::Reason;
use crate::judge::figures::{Blood, Breaths, Dryness, Figures, Skin, Weight};
use crate::measure::warmth::{self, State};
use crate::phrase::{Phrase, Quantity, Text, figures as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::sum::SumOf;
use crate::prove::Exact;
use crate::reckon::means;
use crate::unit::{Band, Microlitres, Minutes, Permille, TenthsPerMinute};

/// Which of the figures a line tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The blood that is gone.
    Blood,
    /// Her breaths a minute.
    Breaths,
    /// What she lacks in water.
    Dryness,
    /// How much of her skin is open.
    Skin,
    /// Her weight.
    Weight,
    /// The air she needs.
    Air,
    /// How long ago she was hurt.
    Hurt,
}

/// The figures; none where nothing was measured.
pub fn told(protocol: &Protocol, verdict: &Exact) -> Option<Section<Text>> {
    let items = each(protocol, verdict).into_iter().map(|(_, item)| item);
    section(phrase::heading(), Tone::Plain, items.collect())
}

/// Each figure that was measured, by which it is.
pub fn each(protocol: &Protocol, verdict: &Exact) -> Vec<(Which, Item<Text>)> {
    let Figures { weight, blood, breaths, dryness, skin, hurt, air } = &verdict.figures;
    let because = |of: Of| because(protocol, verdict, of);
    let besides = |of: Of| beside(protocol, verdict, of);
    let graver = |of: Of| besides(of).filter(|beside| beside.is_graver());
    let items = [
        blood.as_ref().map(|blood| {
            let item = blood_item(protocol, blood, *hurt, besides(beside::BLOOD), verdict.no_vet());
            (Which::Blood, Item { why: because(beside::BLOOD), ..item })
        }),
        breaths.as_ref().map(|breaths| {
            let item = breaths_item(protocol, breaths, graver(beside::BREATHS));
            (Which::Breaths, Item { why: because(beside::BREATHS), ..item })
        }),
        dryness
            .as_ref()
            .map(|dryness| (Which::Dryness, Item { why: because(beside::DRYNESS), ..dryness_item(protocol, dryness) })),
        skin.as_ref().map(|skin| {
            (Which::Skin, Item { why: because(beside::SKIN), ..skin_item(protocol, skin, graver(beside::SKIN)) })
        }),
        weight.as_ref().map(|weight| (Which::Weight, weight_item(weight))),
        air.map(|air| (Which::Air, air_item(protocol, air))),
        hurt.map(|hurt| (Which::Hurt, Item::plain(phrase::hurt(hurt_ago(hurt))))),
    ];
    items.into_iter().flatten().collect()
}

/// A weight whose ends lie further apart than so many times tells little.
const WIDE: u32 = 2;

fn weight_item(told: &Weight) -> Item<Text> {
    let wide = !told.weighed && told.band.high.0 > told.band.low.0.saturating_mul(WIDE);
    let narrow = wide.then(|| phrase::weigh_her().into());
    Item { more: narrow.into_iter().collect(), ..Item::plain(phrase::weight(weight_told(told))) }
}

/// Her weight, and whether she was weighed.
pub fn weight_told(told: &Weight) -> Phrase {
    let band = Quantity::weight(told.band);
    if told.weighed { phrase::weighed(band) } else { phrase::not_weighed(band) }
}

/// How long ago she was hurt: the least rounded down, the most rounded up.
pub(super) fn hurt_ago(hurt: Band<Minutes>) -> Phrase {
    let most = whole(hurt.high, u32::div_ceil);
    // Two ends less than a unit apart are one: of days, nobody minds the hour.
    if hurt.high.0.saturating_sub(hurt.low.0) < told_in(hurt.high).0 {
        return phrase::ago(most);
    }
    phrase::ago_between(whole(hurt.low, |minutes, unit| minutes / unit), most)
}

/// A length of time in the unit it is told in; parts of one as asked.
fn whole(minutes: Minutes, whole: impl Fn(u32, u32) -> u32) -> Phrase {
    let (unit, told) = told_in(minutes);
    told(whole(minutes.0, unit))
}

/// The unit a length of time is told in: its minutes, and how so many of it are told.
const fn told_in(minutes: Minutes) -> (u32, fn(u32) -> Phrase) {
    match minutes.0 {
        0..120 => (1, |minutes| phrase::minutes(minutes)),
        120..2880 => (60, |hours| phrase::hours(hours)),
        2880.. => (1440, |days| phrase::days(days)),
    }
}

/// Everything, in thousandths.
const ALL_OF_IT: u32 = 1000;
/// From here on a bird is given nothing by a lay hand, in thousandths of her weight.
const TOO_DRY: u32 = 100;

/// The deciding share in one line, for summaries; only "press" while she bleeds.
pub fn blood_line(blood: &Blood) -> Phrase {
    if blood.bleeds {
        return phrase::press();
    }
    if blood.share.high.0 >= ALL_OF_IT {
        // So wide a band is a weight nobody told, or blood without an upper end: the graver end decides.
        return phrase::blood_wide(share(Band::exactly(blood.share.low)));
    }
    phrase::blood_gone(share(Band::exactly(blood.share.high)))
}

/// What a figure rests on, one line each.
fn rests(protocol: &Protocol, sum: SumOf) -> impl Iterator<Item = Text> {
    protocol.rests_of(sum).iter().map(|rest| sum::rests(protocol, rest))
}

/// The share of blood for summaries, with what else weighs more than what was seen of it.
pub fn blood_told(protocol: &Protocol, verdict: &Exact, blood: &Blood) -> Text {
    let graver = beside(protocol, verdict, beside::BLOOD).filter(|beside| beside.is_graver() && !blood.bleeds);
    match graver {
        None => blood_line(blood).into(),
        Some(beside) => Text::row([phrase::by_what_was_seen(blood_line(blood)), beside.told()]),
    }
}

fn blood_item(
    protocol: &Protocol,
    blood: &Blood,
    hurt: Option<Band<Minutes>>,
    others: Option<Beside>,
    no_vet: bool,
) -> Item<Text> {
    if blood.bleeds {
        return Item::plain(phrase::blood_press());
    }
    let line = words::ended(Text::opening(means::blood(blood.line, no_vet)));
    let fast = hurt.map(|hurt| phrase::lost_within(whole(hurt.high, u32::div_ceil)));
    let (lost, had) = (volume(blood.lost), volume(blood.all));
    let asked = [
        if blood.frail { phrase::lost_of_frail(lost, had) } else { phrase::lost(lost, had) },
        phrase::readings(share(blood.share), share(blood.of_weight)),
        phrase::blood_formula(),
    ];
    let asked = asked.into_iter().map(Text::from).chain(rests(protocol, SumOf::Blood)).collect();
    // What runs inside her no sum of ours sees: a line that is not crossed would soothe beside a sign that is graver.
    let others = others.map(|beside| Text::row([phrase::only_outside(), beside.told()]));
    let more = others.into_iter().chain([line.into()]).chain(fast.map(Text::from)).collect();
    Item { more, asked, ..Item::plain(phrase::blood(blood_line(blood))) }
}

/// A share in a hundred; what it is a share of, the sentence tells.
fn share(band: Band<Permille>) -> Text {
    Quantity::share(band).into()
}

/// Millilitres.
fn volume(band: Band<Microlitres>) -> Text {
    Quantity::volume(band).into()
}

/// Breaths a minute.
fn rate(band: Band<TenthsPerMinute>) -> Text {
    Quantity::rate(band).into()
}

/// Breaths in one line, for summaries.
pub fn breaths_line(breaths: &Breaths) -> Text {
    let against = breaths.range.map(|(_, against)| means::breaths(against));
    Text::list([phrase::a_minute(rate(breaths.rate))].into_iter().chain(against))
}

fn breaths_item(protocol: &Protocol, breaths: &Breaths, others: Option<Beside>) -> Item<Text> {
    let held = breaths.held.then(phrase::held);
    let range = breaths.range.map_or_else(phrase::no_range, |(band, _)| phrase::range(rate(band)));
    let asked = [phrase::breaths_formula(), phrase::no_heart()];
    let asked = asked.into_iter().map(Text::from).chain(rests(protocol, SumOf::Breaths)).collect();
    let others = others.map(|beside| Text::row([phrase::only_how_often(), beside.told()]));
    let more = others.into_iter().chain([range.into()]).chain(held.map(Text::from)).collect();
    Item { more, asked, ..Item::plain(phrase::breaths(breaths_line(breaths))) }
}

fn dryness_item(protocol: &Protocol, dryness: &Dryness) -> Item<Text> {
    let more = if dryness.nothing_by_mouth {
        phrase::nothing_by_mouth()
    } else if dryness.share.high.0 >= TOO_DRY {
        phrase::nothing_lay()
    } else {
        phrase::water_beside()
    };
    let told = dryness.weighed && !dryness.nothing_by_mouth;
    let amount = told.then(|| phrase::lacks(volume(dryness.lacks)));
    let asked = amount.into_iter().chain([phrase::dryness_formula()]).map(Text::from);
    let asked = asked.chain(rests(protocol, SumOf::Fluids)).collect();
    Item { more: vec![more.into()], asked, ..Item::plain(phrase::dryness(share(dryness.share))) }
}

fn skin_item(protocol: &Protocol, skin: &Skin, others: Option<Beside>) -> Item<Text> {
    let asked = [phrase::skin_loses(volume(skin.moisture)), phrase::skin_formula()];
    let asked = asked.into_iter().map(Text::from).chain(rests(protocol, SumOf::Skin)).collect();
    let more = others.map(|beside| Text::row([phrase::only_how_much(), beside.told()])).into_iter().collect();
    Item { more, asked, ..Item::plain(phrase::skin(share(skin.share))) }
}

fn air_item(protocol: &Protocol, state: State) -> Item<Text> {
    let lead = match (state, warmth::air(state)) {
        (State::Hot, _) => phrase::air_hot(),
        (_, None) => phrase::air_room(),
        (_, Some(band)) => phrase::air(Quantity::degrees(band), warmth::DAMP.low, warmth::DAMP.high),
    };
    let more = match state {
        State::Chick(_) => vec![phrase::chick().into()],
        State::Ill | State::Chilled => vec![phrase::dry_first().into(), phrase::less_a_day().into()],
        State::HeadHurt | State::Hot => Vec::new(),
    };
    Item { more, asked: rests(protocol, SumOf::Warmth).collect(), ..Item::plain(lead) }
}

/// The rules in force that rest on a measure.
fn because(protocol: &Protocol, verdict: &Exact, of: Of) -> Vec<Reason> {
    verdict.reasons.iter().filter(|reason| beside::reads(protocol.rule(reason.rule), of)).copied().collect()
}
