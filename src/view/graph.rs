//! Her weights and a wound's sizes over days, as lines and points to draw; the same figures stand as a table below.

use crate::content::days::{heading_of_weights, heading_of_wound};
use crate::days::course::{self, Measured};
use crate::finding::figure::Lines as WoundLines;
use crate::phrase::{Phrase, Text, drawing as phrase};
use crate::session::Session;
use crate::unit::Grams;
use chrono::{DateTime, Utc};

/// Something measured over days.
#[derive(Clone, Debug, PartialEq)]
pub struct GraphView {
    /// What is drawn, what comes later over what came before.
    pub sets: [GraphSet; 3],
    /// The unit of what was measured.
    pub unit: &'static str,
    /// The first and the last day, in words.
    pub days: [String; 2],
    /// What the marks mean.
    pub marks: String,
}

/// Points of one mark.
#[derive(Clone, Debug, PartialEq)]
pub struct GraphSet {
    /// The letter that draws them: letters tell lines apart, not colours.
    pub mark: char,
    /// Whether a line joins them.
    pub joined: bool,
    /// Days since the first look, and what was measured.
    pub points: Vec<(f64, f64)>,
}

impl GraphView {
    /// What belongs under a heading of her days, if something does; from two looks on.
    pub fn under(session: &Session, heading: &str) -> Option<Self> {
        let is = |phrase| session.say(phrase) == heading;
        if is(heading_of_weights()) {
            return weights(session, &course::weights(session.protocol, &session.log));
        }
        let wound = (0..session.exam.findings.wounds()).find(|wound| is(heading_of_wound(*wound)))?;
        sizes(session, &course::sizes(session.protocol, &session.log, wound))
    }

    /// The least and the most of what is drawn, along the days and up.
    pub fn ends(&self) -> ((f64, f64), (f64, f64)) {
        ends(&self.sets)
    }
}

/// Her weights, with the line below which a loss is more than noise, and the slope.
fn weights(session: &Session, weights: &[Measured<Grams>]) -> Option<GraphView> {
    let points = over_days(weights, |weight| f64::from(weight.0));
    let (first, last) = (points.first().copied()?, points.last().copied()?);
    let best = weights.iter().map(|weighing| weighing.value).max().filter(|_| points.len() > 1)?;
    let noise = course::noise_ends(best);
    let band = vec![(first.0, noise), (last.0, noise)];
    let slope = course::weight_course(weights).and_then(|course| course.slope);
    // Theil and Sen's line through the median point of what was weighed.
    let middle = median(&points);
    let at = |day: f64| slope.map(|slope| (day, middle.1 + slope * (day - middle.0)));
    let line = [at(first.0), at(last.0)].into_iter().flatten().collect();
    Some(graph(session, [joined('-', band), joined('.', line), single(points)], "g", phrase::weights()))
}

/// A wound's area, with what a ruler can tell.
fn sizes(session: &Session, sizes: &[Measured<WoundLines>]) -> Option<GraphView> {
    if sizes.len() < 2 {
        return None;
    }
    let area = over_days(sizes, WoundLines::area);
    let low = over_days(sizes, |lines| f64::from(lines.area_read().low.0));
    let high = over_days(sizes, |lines| f64::from(lines.area_read().high.0));
    Some(graph(session, [joined('-', high), joined('.', low), single(area)], "mm2", phrase::sizes()))
}

const fn joined(mark: char, points: Vec<(f64, f64)>) -> GraphSet {
    GraphSet { mark, joined: true, points }
}

const fn single(points: Vec<(f64, f64)>) -> GraphSet {
    GraphSet { mark: 'o', joined: false, points }
}

fn graph(session: &Session, sets: [GraphSet; 3], unit: &'static str, marks: Phrase) -> GraphView {
    let ((first, last), _) = ends(&sets);
    let whole = |value: f64| Text::typed(format!("{value:.0}"));
    let days = [phrase::first_day(whole(first)), phrase::last_day(whole(last))].map(|day| session.say(day));
    GraphView { sets, unit, days, marks: session.say(marks) }
}

fn ends(sets: &[GraphSet]) -> ((f64, f64), (f64, f64)) {
    let all = || sets.iter().flat_map(|set| &set.points);
    let of = |pick: &dyn Fn(&(f64, f64)) -> f64| {
        let least = all().map(pick).fold(f64::INFINITY, f64::min);
        let most = all().map(pick).fold(f64::NEG_INFINITY, f64::max);
        (least, if most > least { most } else { least + 1.0 })
    };
    (of(&|point| point.0), of(&|point| point.1))
}

fn over_days<T: Copy>(measured: &[Measured<T>], value: impl Fn(T) -> f64) -> Vec<(f64, f64)> {
    let Some(first) = measured.first().map(|measured| measured.at) else { return Vec::new() };
    measured.iter().map(|measured| (days(first, measured.at), value(measured.value))).collect()
}

#[expect(clippy::cast_precision_loss, reason = "minutes of a case are far below 2^52")]
fn days(from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
    (to - from).num_minutes() as f64 / 1440.0
}

fn median(points: &[(f64, f64)]) -> (f64, f64) {
    let middle = |of: &dyn Fn(&(f64, f64)) -> f64| {
        let mut values: Vec<f64> = points.iter().map(of).collect();
        values.sort_by(f64::total_cmp);
        values.get(values.len() / 2).copied().unwrap_or_default()
    };
    (middle(&|point| point.0), middle(&|point| point.1))
}
