//! How she has gone over the days: her weights, her wounds, and how soon skilled help was needed.

use super::{Days, known};
use crate::finding::figure::{Figure, Lines};
use crate::finding::log::{self, Stamped};
use crate::finding::{About, Answer};
use crate::judge::Level;
use crate::measure::healing;
use crate::measure::trend::{self, Step, Weighing};
use crate::protocol::Protocol;
use crate::protocol::cond::Measure;
use crate::protocol::scale::Need;
use crate::prove::judge_bands;
use crate::unit::{Band, Grams};
use chrono::{DateTime, Utc};

/// Something measured, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured<T> {
    /// When.
    pub at: DateTime<Utc>,
    /// What came of it.
    pub value: T,
}

/// Every weighing, in the order of the clock. A build told in place of a weighing is none.
pub fn weights(protocol: &Protocol, log: &[Stamped]) -> Vec<Measured<Grams>> {
    answers(protocol, log, Measure::Weight, About::Bird, |answer| match answer {
        Answer::Amount(grams) => Some(Grams(*grams)),
        Answer::Choice(_) | Answer::Figure(_) | Answer::CannotTell => None,
    })
}

/// Every time a wound was measured by two lines, in the order of the clock.
pub fn sizes(protocol: &Protocol, log: &[Stamped], wound: usize) -> Vec<Measured<Lines>> {
    answers(protocol, log, Measure::WoundArea, About::Wound(wound), |answer| match answer {
        Answer::Figure(Figure::Lines(lines)) => Some(*lines),
        Answer::Figure(_) | Answer::Choice(_) | Answer::Amount(_) | Answer::CannotTell => None,
    })
}

/// How soon skilled help was needed at the end of each sitting.
pub fn needs(protocol: &Protocol, log: &[Stamped], days: &Days) -> Vec<Measured<Level<Need>>> {
    let need = |sitting| judge_bands(protocol, &known(log, sitting), sitting.ended).need;
    days.sittings.iter().map(|sitting| Measured { at: sitting.ended, value: need(sitting) }).collect()
}

fn answers<T>(
    protocol: &Protocol,
    log: &[Stamped],
    measure: Measure,
    about: About,
    value: impl Fn(&Answer) -> Option<T>,
) -> Vec<Measured<T>> {
    let Some(at) = protocol.giving(measure, matches!(about, About::Wound(_))) else { return Vec::new() };
    let findings = log::findings(&log::standing(log));
    let told = findings.over_time(about, &protocol.ask(at).id).into_iter();
    let mut measured: Vec<Measured<T>> =
        told.filter_map(|said| Some(Measured { at: said.at, value: value(&said.statement.answer)? })).collect();
    measured.sort_by_key(|measured| measured.at);
    measured
}

/// The weight below which a loss from her best is more than noise. Grams.
pub fn noise_ends(best: Grams) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "thousandths of a weight are far below 2^52")]
    let share = 1.0 - trend::NOISE_PERMILLE as f64 / 1000.0;
    f64::from(best.0) * share
}

/// What her weights come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightCourse {
    /// Grams a day; nothing from fewer than two weighings at different hours.
    pub slope: Option<f64>,
    /// What has gone of her heaviest weight, in thousandths; below zero where she has gained.
    pub lost_permille: i64,
    /// How far that has gone.
    pub step: Step,
}

/// What her weights come to; nothing of fewer than two.
pub fn weight_course(weights: &[Measured<Grams>]) -> Option<WeightCourse> {
    let first = weights.first()?.at;
    let hour = |at: DateTime<Utc>| u32::try_from((at - first).num_hours()).unwrap_or(0);
    let weighings: Vec<Weighing> =
        weights.iter().map(|measured| Weighing { hour: hour(measured.at), weight: measured.value }).collect();
    let best = trend::best_before_last(&weighings)?;
    let lost_permille = trend::lost_permille(best.weight, weighings.last()?.weight)?;
    Some(WeightCourse { slope: trend::slope(&weighings), lost_permille, step: Step::of(lost_permille) })
}

/// What the sizes of a wound come to, from the first to the last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WoundCourse {
    /// Whole days between the two.
    pub days: u32,
    /// How far its edge came in, in millimetres.
    pub advance: Option<Band<f64>>,
    /// The share of its area that has closed.
    pub closed: Option<Band<f64>>,
    /// In how many days more it may be closed.
    pub closes_in: Option<Band<u32>>,
    /// What it gives cause to say.
    pub flag: Option<healing::Flag>,
}

/// What the sizes of a wound come to; nothing of fewer than two. `hurt` is when it was made, as far as that is known.
pub fn wound_course(sizes: &[Measured<Lines>], hurt: Option<DateTime<Utc>>) -> Option<WoundCourse> {
    let (first, last) = (sizes.first()?, sizes.last()?);
    if sizes.len() < 2 {
        return None;
    }
    let days = |from: DateTime<Utc>| u32::try_from((last.at - from).num_days()).unwrap_or(0);
    Some(WoundCourse {
        days: days(first.at),
        advance: healing::advance_read(first.value, last.value),
        closed: healing::closed_read(first.value, last.value),
        closes_in: healing::closes_in(first.value, last.value, days(first.at)),
        flag: healing::flag(first.value, last.value, days(hurt.unwrap_or(first.at))),
    })
}
