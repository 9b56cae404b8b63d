//! The figures behind a verdict: what the measures come to, once enough was said for them to mean anything.

use super::verdict::Advised;
use crate::bird::Kind;
use crate::finding::figure::Figure;
use crate::finding::{About, Answer, Findings};
use crate::measure::blood::{self, Line};
use crate::measure::breath::{self, Against};
use crate::measure::warmth::State;
use crate::measure::{fluid, skin};
use crate::protocol::Protocol;
use crate::protocol::action::Air;
use crate::protocol::cond::Measure;
use crate::protocol::rule::ActionAt;
use crate::sheet::{Cell, Sheet, Subject, Truth};
use crate::unit::{Band, Grams, Microlitres, Minutes, Permille, TenthsPerMinute};

/// What the measures come to. A figure that nothing was said for is not there.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Figures {
    /// Her weight, and whether it was weighed.
    pub weight: Option<Weight>,
    /// Her blood.
    pub blood: Option<Blood>,
    /// Her breaths, where they were counted.
    pub breaths: Option<Breaths>,
    /// What she lacks in water.
    pub dryness: Option<Dryness>,
    /// Her open skin.
    pub skin: Option<Skin>,
    /// How long ago she was hurt.
    pub hurt: Option<Band<Minutes>>,
    /// The air she needs, where an action asks for some.
    pub air: Option<State>,
}

/// Her weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weight {
    /// Low and high.
    pub band: Band<Grams>,
    /// Whether she was weighed, rather than gone by build or kind.
    pub weighed: bool,
}

/// Her blood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Blood {
    /// What was lost.
    pub lost: Band<Microlitres>,
    /// All she had.
    pub all: Band<Microlitres>,
    /// The share of it that is gone; the high end decides.
    pub share: Band<Permille>,
    /// What was lost against her weight.
    pub of_weight: Band<Permille>,
    /// The line that was crossed, by the graver ends.
    pub line: Line,
    /// Whether she may still bleed: then nothing is told but to press.
    pub bleeds: bool,
    /// Whether she is counted as frail.
    pub frail: bool,
}

/// Her breaths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Breaths {
    /// Breaths a minute.
    pub rate: Band<TenthsPerMinute>,
    /// What is published for her kind at rest, and how she stands to it.
    pub range: Option<(Band<TenthsPerMinute>, Against)>,
    /// Whether she was in the hand for any count.
    pub held: bool,
}

/// What she lacks in water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dryness {
    /// The share of her weight.
    pub share: Band<Permille>,
    /// The same by volume.
    pub lacks: Band<Microlitres>,
    /// Whether she was weighed: without, the amount is too wide a guess to tell.
    pub weighed: bool,
    /// Whether anything by mouth is forbidden: then no amount is told.
    pub nothing_by_mouth: bool,
}

/// Her open skin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Skin {
    /// The share that is open.
    pub share: Band<Permille>,
    /// The water it loses in a day, as an order of magnitude.
    pub moisture: Band<Microlitres>,
}

/// Works the figures out.
pub(super) fn figures(
    protocol: &Protocol,
    sheet: &Sheet,
    findings: &Findings,
    acts: &[Advised],
    never: impl Fn(ActionAt) -> bool,
) -> Figures {
    Figures {
        weight: weight(protocol, sheet),
        blood: blood(protocol, sheet),
        breaths: breaths(protocol, sheet, findings),
        dryness: dryness(sheet, never(protocol.roles.by_mouth)),
        skin: open_skin(sheet),
        air: acts.iter().find_map(|act| protocol.action(act.target.action).air).map(|air| state(sheet, air)),
        hurt: sheet.hurt(Subject::Bird).map(|_| sheet.time_since(Subject::Bird).band),
    }
}

/// The state the air is for. A chick's weeks go by the build that was told; a weighed chick may be of any week.
fn state(sheet: &Sheet, air: Air) -> State {
    match air {
        Air::Ill => State::Ill,
        Air::HeadHurt => State::HeadHurt,
        Air::Hot => State::Hot,
        Air::Chick => State::Chick(sheet.build().and_then(|build| build.weeks)),
    }
}

fn weight(protocol: &Protocol, sheet: &Sheet) -> Option<Weight> {
    let reading = sheet.weight();
    let cell = protocol.giving(Measure::Weight, false).map(|at| sheet.cell(Subject::Bird, at));
    let weighed = matches!(cell, Some(Cell::Amount(_)));
    reading.settled.then_some(Weight { band: reading.band, weighed })
}

/// Told once there is blood; her kind's weight does until she is weighed.
fn blood(protocol: &Protocol, sheet: &Sheet) -> Option<Blood> {
    let lost = sheet.blood_lost();
    if !lost.settled || lost.band.high.0 == 0 {
        return None;
    }
    // Whether she bleeds and cannot be told, she is taken to.
    let bleeds = sheet.in_doubt_too(&protocol.bleeds_when, Subject::Bird);
    let weight = told_weight(sheet);
    let frail = sheet.frail() != Truth::No;
    let all = blood::volume(sheet.kind(), weight, frail);
    let (share, of_weight) = (blood::share(lost.band, all), blood::share_of_weight(lost.band, weight));
    let line = Line::of(share.high, of_weight.high);
    Some(Blood { lost: lost.band, all, share, of_weight, line, bleeds, frail })
}

/// Her weight, or what her kind may weigh while nobody has told it.
fn told_weight(sheet: &Sheet) -> Band<Grams> {
    let reading = sheet.weight();
    if reading.settled { reading.band } else { sheet.kind().map_or_else(Kind::any_weight, Kind::weight) }
}

fn breaths(protocol: &Protocol, sheet: &Sheet, findings: &Findings) -> Option<Breaths> {
    let at = protocol.giving(Measure::BreathRate, false)?;
    // Where a look said that there was nothing to count, the two do not fit: that is told, and no rate.
    let applies = sheet.applies(Subject::Bird, at) == Truth::Yes;
    let Cell::Worked(band, ..) = sheet.cell(Subject::Bird, at) else { return None };
    let rate = |value| TenthsPerMinute(u32::try_from(value).unwrap_or(u32::MAX));
    let rate = applies.then_some(Band { low: rate(band.low), high: rate(band.high) })?;
    let said = findings.answer(About::Bird, protocol.ask(at).id.as_str())?;
    let held = match &said.statement.answer {
        Answer::Figure(Figure::Breaths(counts)) => counts.iter().any(|count| count.held),
        _ => false,
    };
    let range = sheet.kind().and_then(breath::at_rest).map(|range| (range, breath::against(rate, range)));
    Some(Breaths { rate, range, held })
}

fn dryness(sheet: &Sheet, nothing_by_mouth: bool) -> Option<Dryness> {
    let dry = sheet.dryness();
    if !dry.settled || dry.band.low.0 == 0 {
        return None;
    }
    let weight = told_weight(sheet);
    let lacks =
        Band { low: fluid::deficit(weight.low, dry.band.low), high: fluid::deficit(weight.high, dry.band.high) };
    let weighed = weight.low == weight.high;
    Some(Dryness { share: dry.band, lacks, weighed, nothing_by_mouth })
}

fn open_skin(sheet: &Sheet) -> Option<Skin> {
    let open = sheet.skin_open();
    let weight = told_weight(sheet);
    (open.settled && open.band.high.0 > 0)
        .then(|| Skin { share: open.band, moisture: skin::moisture_a_day(open.band, weight) })
}
