//! Gauges: for each measure and each value some rule holds it against, whether its low and its high end reach it.

use super::clauses::{Bit, Clauses};
use crate::finding::figure::FigureOf;
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, Measure, QuestionAt, Threshold};
use crate::sheet::{Sheet, Subject};
use crate::unit::{Band, Grams, Minutes, Permille, Reading, TenthsPerMinute};
use std::collections::BTreeSet;
use std::rc::Rc;

/// A measure as one gauge reads it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dial {
    /// Body weight.
    Weight,
    /// Time since she was hurt, or since the wound with this place among the columns came about.
    TimeSince(usize),
    /// The share of skin open.
    SkinOpen,
    /// The share of blood gone, of a frail bird or a sound one.
    BloodLost(bool),
    /// The blood lost against her weight.
    BloodOfWeight,
    /// Breaths a minute.
    BreathRate,
    /// What she lacks in water.
    Dryness,
}

impl Dial {
    /// The measure in plain words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Weight => "weight",
            Self::TimeSince(_) => "time since the injury",
            Self::SkinOpen => "the share of skin open",
            Self::BloodLost(_) => "the share of blood lost",
            Self::BloodOfWeight => "blood lost against weight",
            Self::BreathRate => "breaths a minute",
            Self::Dryness => "dryness",
        }
    }

    /// What it shows on a sheet, in the base unit of its measure.
    pub fn read(self, sheet: &Sheet, subject: Subject) -> Reading<u64> {
        fn plain<T>(reading: Reading<T>, value: impl Fn(T) -> u32) -> Reading<u64> {
            let Reading { band, settled } = reading;
            Reading { band: Band { low: u64::from(value(band.low)), high: u64::from(value(band.high)) }, settled }
        }
        match self {
            Self::Weight => plain(sheet.weight(), |Grams(value)| value),
            Self::TimeSince(_) => plain(sheet.time_since(subject), |Minutes(value)| value),
            Self::SkinOpen => plain(sheet.skin_open(), |Permille(value)| value),
            Self::BloodLost(frail) => plain(sheet.blood_share(frail), |Permille(value)| value),
            Self::BloodOfWeight => plain(sheet.blood_of_weight(), |Permille(value)| value),
            Self::BreathRate => plain(sheet.breath_rate(), |TenthsPerMinute(value)| value),
            Self::Dryness => plain(sheet.dryness(), |Permille(value)| value),
        }
    }

    /// The questions it is read from: those about the bird, and those about each wound.
    pub fn fed_by(self, protocol: &Protocol) -> (Vec<QuestionAt>, Vec<QuestionAt>) {
        let of_bird = |measures: &[Measure]| measures.iter().filter_map(|m| protocol.giving(*m, false)).collect();
        let with_kind = |mut found: Vec<QuestionAt>| {
            found.push(protocol.roles.kind.question);
            found
        };
        match self {
            Self::Weight => (with_kind(of_bird(&[Measure::Weight])), Vec::new()),
            Self::TimeSince(0) => (of_bird(&[Measure::TimeSince]), Vec::new()),
            Self::TimeSince(_) => (Vec::new(), protocol.giving(Measure::TimeSince, true).into_iter().collect()),
            Self::SkinOpen => (
                with_kind(of_bird(&[Measure::Weight])),
                protocol.giving(Measure::WoundArea, true).into_iter().collect(),
            ),
            Self::BloodLost(_) | Self::BloodOfWeight => {
                (with_kind(of_bird(&[Measure::BloodLost, Measure::Weight])), Vec::new())
            }
            Self::BreathRate => (of_bird(&[Measure::BreathRate]), Vec::new()),
            Self::Dryness => (of_bird(&[Measure::Dryness, Measure::Refill]), Vec::new()),
        }
    }
}

/// The value of a threshold in the base unit of its measure.
pub fn value(threshold: Threshold) -> u64 {
    u64::from(match threshold {
        Threshold::Weight(Grams(value))
        | Threshold::TimeSince(Minutes(value))
        | Threshold::SkinOpen(Permille(value))
        | Threshold::BloodLost(Permille(value))
        | Threshold::BloodOfWeight(Permille(value))
        | Threshold::BreathRate(TenthsPerMinute(value))
        | Threshold::Dryness(Permille(value)) => value,
    })
}

/// Every threshold in a protocol's conditions.
pub fn thresholds(protocol: &Protocol) -> Vec<Threshold> {
    let mut found = Vec::new();
    let mut visit = |cond: &Cond| {
        if let Cond::AtLeast(threshold) | Cond::Under(threshold) = cond
            && !found.contains(threshold)
        {
            found.push(*threshold);
        }
    };
    for rule in &protocol.rules {
        std::iter::once(&rule.when).chain(&rule.unless).for_each(|cond| cond.walk(&mut visit));
    }
    found
}

/// The values measures are held against, and the figures that may be given besides.
#[derive(Clone, Debug, Default)]
pub struct Marks {
    /// What some rule holds a measure against.
    pub thresholds: Rc<[Threshold]>,
    /// Figures that are told apart beyond the least and the most.
    pub figures: Rc<[(FigureOf, u64)]>,
}

impl Marks {
    /// Those of one protocol: its own thresholds.
    pub fn of(protocol: &Protocol) -> Self {
        Self { thresholds: thresholds(protocol).into(), figures: Rc::default() }
    }
}

/// One gauge: its values in order, and for each whether the low and the high end reach it.
#[derive(Clone, Debug)]
pub struct Gauge {
    /// The values, lowest first, each with its low and high end.
    pub marks: Vec<(u64, Bit, Bit)>,
}

impl Gauge {
    /// A gauge that shows what the sheet decides already and leaves the rest open.
    pub fn new(clauses: &mut Clauses, values: &BTreeSet<u64>, reading: Reading<u64>) -> Self {
        let mut marks: Vec<(u64, Bit, Bit)> = Vec::with_capacity(values.len());
        for value in values {
            let Band { low, high } = reading.band;
            let (low, high) = match (low >= *value, high >= *value) {
                (true, _) => (Bit::Known(true), Bit::Known(true)),
                (_, false) => (Bit::Known(false), Bit::Known(false)),
                (false, true) if reading.settled => (Bit::Known(false), Bit::Known(true)),
                (false, true) => (clauses.open(), clauses.open()),
            };
            // The high end is no lower than the low one, and who reaches a value reaches every lower one.
            clauses.require(&[low.not(), high]);
            if let Some((_, below_low, below_high)) = marks.last() {
                clauses.require(&[low.not(), *below_low]);
                clauses.require(&[high.not(), *below_high]);
            }
            marks.push((*value, low, high));
        }
        Self { marks }
    }

    /// The low and high end at one value.
    pub fn at(&self, value: u64) -> Option<(Bit, Bit)> {
        self.marks.iter().find(|(mark, ..)| *mark == value).map(|(_, low, high)| (*low, *high))
    }

    /// Whether everything on it is known.
    pub fn is_known(&self) -> bool {
        self.marks.iter().all(|(_, low, high)| matches!((low, high), (Bit::Known(_), Bit::Known(_))))
    }
}
