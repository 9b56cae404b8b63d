//! The comparison of a club's own protocol with the shipped one by what they mean: some bird of whom it says less.
//!
//! The solver searches every bird at once; each one it finds is judged again by both protocols before anything is told of
//! her, and that there is none is a proof. What no bird can show is told as a difference of data. Which of the two is right no
//! proof can tell.

mod data;
mod difference;
mod effects;
mod search;

pub use data::{Difference, Differs, Pairing, Sort};
pub use difference::{Loss, Rungs, Shown};
pub use search::Sought;

use super::clauses::Work;
use super::gauge::{Marks, thresholds, value};
use super::links::Links;
use crate::bird::Kind;
use crate::finding::figure::FigureOf;
use crate::measure::{blood, skin};
use crate::protocol::Protocol;
use crate::protocol::cond::{Measure, Threshold};
use crate::protocol::question::Question;
use crate::unit::Grams;
use std::collections::BTreeSet;

/// How many birds are shown at most: who has mended what these show compares again.
pub const MOST_SHOWN: usize = 24;

/// A bird of this weight is among those searched, so that figures can be told apart at every line: a middling hen.
const WEIGHED: Grams = Grams(2000);

/// What came of comparing one's own protocol with the shipped one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Comparison {
    /// Birds of whom one's own says less, or what it should not.
    pub shown: Vec<Shown>,
    /// What one's own holds less of, without a bird to show it.
    pub weaker: Vec<Difference>,
    /// What is otherwise, and neither more nor less as far as a program can tell: other words, what is added.
    pub otherwise: Vec<Difference>,
    /// What could not be decided with the work allowed.
    pub undecided: Vec<Sought>,
    /// How many cases were decided.
    pub cases: usize,
    /// Whether the search was ended early because so many birds were found.
    pub ended_early: bool,
}

impl Comparison {
    /// Whether nothing is milder: a proof, as far as the two protocols share questions and answers. Not compared are the lines by
    /// place and kind, how a thing is done with what is in the house, substances and their strengths, paragraphs, and law.
    pub fn nothing_milder(&self) -> bool {
        self.shown.is_empty() && self.weaker.is_empty() && self.undecided.is_empty()
    }
}

/// Compares one's own protocol with the shipped one. `work` is allowed for each case.
pub fn compare(shipped: &Protocol, own: &Protocol, work: Work) -> Comparison {
    let links = Links::of(shipped, own);
    let mut found = Comparison::default();
    data::differences(shipped, own, &links, &mut found);
    let marks = marks(shipped, own);
    for minutes in moments(shipped, own) {
        search::search([shipped, own], &links, &marks, minutes, work, &mut found);
    }
    data::shown_by_birds(shipped, &mut found);
    found
}

/// Everything either protocol holds a measure against, a weighed bird, and for her the figures just at and below each line.
fn marks(shipped: &Protocol, own: &Protocol) -> Marks {
    let mut all = thresholds(shipped);
    for mark in thresholds(own) {
        if !all.contains(&mark) {
            all.push(mark);
        }
    }
    // Where both draw the same lines, the least and the most stand for all figures between.
    let differ: Vec<Threshold> = all
        .iter()
        .copied()
        .filter(|mark| thresholds(shipped).contains(mark) != thresholds(own).contains(mark))
        .collect();
    let mut figures = BTreeSet::new();
    for mark in &differ {
        figures_at(*mark, &mut figures);
    }
    if !figures.is_empty() {
        all.push(Threshold::Weight(WEIGHED));
    }
    let of = |at: u8| match at {
        0 => FigureOf::Blood,
        1 => FigureOf::Breaths,
        _ => FigureOf::Wound,
    };
    let figures: Vec<(FigureOf, u64)> = figures.into_iter().map(|(at, value)| (of(at), value)).collect();
    Marks { thresholds: all.into(), figures: figures.into() }
}

fn figures_at(mark: Threshold, into: &mut BTreeSet<(u8, u64)>) {
    let mut around = |of: u8, value: u64| into.extend([(of, value.saturating_sub(1)), (of, value)]);
    let (weight, part) = (u64::from(WEIGHED.0), value(mark));
    match mark {
        Threshold::BreathRate(_) => around(1, part),
        Threshold::BloodOfWeight(_) => around(0, part * weight),
        Threshold::BloodLost(_) => {
            // Both ends of what a hen of this weight may have, sound or frail, in microlitres.
            let hen = crate::unit::Band::exactly(WEIGHED);
            for frail in [false, true] {
                let all = blood::volume(Some(Kind::Hen), hen, frail);
                for all in [all.low.0, all.high.0] {
                    around(0, (all * part).div_ceil(1000));
                }
            }
        }
        Threshold::SkinOpen(_) => {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                clippy::cast_precision_loss,
                reason = "an area of a few hundred square centimetres"
            )]
            let area = (skin::whole(WEIGHED) * part as f64 / 1000.0).ceil() as u64;
            around(2, area);
        }
        Threshold::Weight(_) | Threshold::TimeSince(_) | Threshold::Dryness(_) => {}
    }
}

/// At how many minutes after the answers she is judged: at once; and where the two draw other lines of time, so much later that
/// an answer's end stands just at such a line.
fn moments(shipped: &Protocol, own: &Protocol) -> Vec<u32> {
    let lines = |protocol: &Protocol| -> BTreeSet<u64> {
        let times = thresholds(protocol).into_iter().filter(|mark| matches!(mark, Threshold::TimeSince(_)));
        times.map(value).collect()
    };
    let (there, here) = (lines(shipped), lines(own));
    let asks = |question: &&Question| question.gives == Some(Measure::TimeSince);
    let spans = shipped.questions.iter().filter(asks).flat_map(|question| &question.choices);
    let spans: Vec<_> = spans.filter_map(|choice| choice.worth).collect();
    let mut found: BTreeSet<u32> = BTreeSet::from([0]);
    for line in there.symmetric_difference(&here) {
        for of in [spans.iter().map(|span| span.low).collect::<Vec<_>>(), spans.iter().map(|span| span.high).collect()]
        {
            // The last answer that ends before the line: the least the clock has to move.
            let last = of.into_iter().filter(|end| end < line).max();
            found.extend(last.and_then(|end| u32::try_from(line - end).ok()));
        }
    }
    found.into_iter().collect()
}
