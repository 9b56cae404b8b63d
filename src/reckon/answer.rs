//! An answer to a sum: lines with low and high, the formula, and what each figure rests on.

use crate::phrase::{Text, sum};
use crate::protocol::strength::Rest;
use crate::unit::{Band, MicrogramsPerLitre, Microlitres, Permille};
use serde::Serialize;

/// A figure as low, high and unit, already said.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AnswerValue {
    /// Low and high with the unit, or one figure where both agree.
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

/// What a line of an answer tells: words, or a figure as low, high and unit besides.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// Low and high with the unit, or one figure where both agree, or words.
    pub value: Text,
    /// The low end, where it is a figure.
    pub low: Option<f64>,
    /// The high end, where it is a figure.
    pub high: Option<f64>,
    /// The unit, where it is a figure.
    pub unit: Option<Text>,
}

impl<T: Into<Text>> From<T> for Told {
    fn from(words: T) -> Self {
        Self { value: words.into(), low: None, high: None, unit: None }
    }
}

/// One line of an answer.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswerLine {
    /// What it is.
    pub what: Text,
    /// What it comes to.
    pub told: Told,
}

/// An answer to a sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What was reckoned.
    pub title: Text,
    /// The figures, the deciding one first.
    pub lines: Vec<AnswerLine>,
    /// How they were worked out.
    pub formula: Text,
    /// What they rest on.
    pub rests_on: Vec<Rest>,
    /// What must be kept in mind.
    pub notes: Vec<Text>,
}

impl Answer {
    /// An answer without lines yet.
    pub fn new(title: impl Into<Text>, formula: impl Into<Text>) -> Self {
        Self {
            title: title.into(),
            lines: Vec::new(),
            formula: formula.into(),
            rests_on: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// With one more line.
    #[must_use]
    pub fn line(mut self, what: impl Into<Text>, told: impl Into<Told>) -> Self {
        self.lines.push(AnswerLine { what: what.into(), told: told.into() });
        self
    }

    /// With one more note.
    #[must_use]
    pub fn note(mut self, note: impl Into<Text>) -> Self {
        self.notes.push(note.into());
        self
    }
}

/// Low to high with a unit, as a line tells it; one figure where both agree.
pub fn between<T: Copy>(band: Band<T>, show: impl Fn(T) -> String, unit: impl Into<Text>) -> Told {
    let (low, high, unit) = (show(band.low), show(band.high), unit.into());
    let [one, other] = [&low, &high].map(Text::typed);
    let value = if low == high { sum::figure(one, unit.clone()) } else { sum::between(one, other, unit.clone()) };
    Told { value: value.into(), low: low.parse().ok(), high: high.parse().ok(), unit: Some(unit) }
}

/// A unit that is the same in every language.
pub fn unit(unit: &str) -> Text {
    Text::typed(unit)
}

/// So many millilitres.
pub fn in_millilitres(volume: Microlitres) -> Text {
    Text::typed(format!("{} mL", millilitres(volume)))
}

/// So many percent.
pub fn in_percent(strength: impl Into<MicrogramsPerLitre>) -> Text {
    Text::typed(format!("{} %", percent_strength(strength)))
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
