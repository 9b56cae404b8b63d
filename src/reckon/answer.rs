//! An answer to a sum: lines with low and high, the formula, and what each figure rests on.

use crate::protocol::strength::Rest;
use crate::unit::{Band, MicrogramsPerLitre, Microlitres, Permille};
use serde::Serialize;

/// What a line tells: words, or a figure as low, high and unit besides.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AnswerValue {
    /// Low and high with the unit, or one figure where both agree, or words.
    pub value: String,
    /// The low end, where it is a figure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// The high end, where it is a figure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// The unit, where it is a figure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
}

impl<T: Into<String>> From<T> for AnswerValue {
    fn from(words: T) -> Self {
        Self { value: words.into(), low: None, high: None, unit: None }
    }
}

/// One line of an answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AnswerLine {
    /// What it is.
    pub what: String,
    /// What it comes to.
    #[serde(flatten)]
    pub told: AnswerValue,
}

/// An answer to a sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What was reckoned.
    pub title: &'static str,
    /// The figures, the deciding one first.
    pub lines: Vec<AnswerLine>,
    /// How they were worked out.
    pub formula: &'static str,
    /// What they rest on.
    pub rests_on: Vec<Rest>,
    /// What must be kept in mind.
    pub notes: Vec<String>,
}

impl Answer {
    /// An answer without lines yet.
    pub fn new(title: &'static str, formula: &'static str) -> Self {
        Self { title, lines: Vec::new(), formula, rests_on: Vec::new(), notes: Vec::new() }
    }

    /// With one more line.
    #[must_use]
    pub fn line(mut self, what: impl Into<String>, told: impl Into<AnswerValue>) -> Self {
        self.lines.push(AnswerLine { what: what.into(), told: told.into() });
        self
    }

    /// With one more note.
    #[must_use]
    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }
}

/// A figure in tenths, hundredths and so on, without trailing noughts.
pub fn figure(value: u64, decimals: usize) -> String {
    let unit = 10u64.pow(u32::try_from(decimals).unwrap_or(0));
    let (whole, part) = (value / unit, value % unit);
    if decimals == 0 {
        return whole.to_string();
    }
    let text = format!("{whole}.{part:0decimals$}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Low to high with a unit; one figure where both agree.
pub fn span<T: Copy>(band: Band<T>, show: impl Fn(T) -> String, unit: &str) -> AnswerValue {
    let (low, high) = (show(band.low), show(band.high));
    let value = if low == high { format!("{low} {unit}") } else { format!("{low} to {high} {unit}") };
    AnswerValue { value, low: low.parse().ok(), high: high.parse().ok(), unit: Some(unit.to_owned()) }
}

/// Microlitres as millilitres, to a tenth; below one to a hundredth.
pub fn millilitres(volume: Microlitres) -> String {
    if volume.0 < 1_000 { figure((volume.0 + 5) / 10, 2) } else { figure((volume.0 + 50) / 100, 1) }
}

/// A strength as percent, to three significant figures.
pub fn percent_strength(strength: impl Into<MicrogramsPerLitre>) -> String {
    let MicrogramsPerLitre(strength) = strength.into();
    // A thousandth of what is told is the last figure.
    let digits = strength.checked_ilog10().map_or(1, |ten| ten + 1);
    let last = 10u64.pow(digits.saturating_sub(3));
    figure(strength.saturating_add(last / 2) / last * last, 7)
}

/// Milligrams as grams, to a hundredth.
pub fn grams(milligrams: u64) -> String {
    figure((milligrams + 5) / 10, 2)
}

/// Thousandths as percent.
pub fn percent(share: Permille) -> String {
    figure(u64::from(share.0), 1)
}
