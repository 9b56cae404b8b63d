//! Her weights and a wound's sizes over days, drawn; the same figures stand as a table under the drawing.

use crate::content::days::{heading_of_weights, heading_of_wound};
use crate::days::course::{self, Measured};
use crate::finding::figure::Lines as WoundLines;
use crate::phrase::{Phrase, Text, drawing as phrase};
use crate::screen::wrap::wrapped;
use crate::session::Session;
use crate::unit::Grams;
use chrono::{DateTime, Utc};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::symbols::Marker;
use ratatui::text::{Line, Span};
use ratatui::widgets::{Axis, Chart, Dataset, GraphType, Widget};

/// How high a drawing is, and below which width none is made.
const HEIGHT: u16 = 9;
const NARROWEST: u16 = 36;

/// The drawing that belongs under a heading, if one does; from two looks on.
pub fn under(session: &Session, heading: &str, width: usize) -> Vec<Line<'static>> {
    let width = u16::try_from(width).unwrap_or(u16::MAX);
    if width < NARROWEST {
        return Vec::new();
    }
    let is = |phrase| session.say(phrase) == heading;
    if is(heading_of_weights()) {
        return weights(session, &course::weights(session.protocol, &session.log), width);
    }
    let wound = (0..session.exam.findings.wounds()).find(|wound| is(heading_of_wound(*wound)));
    wound.map_or_else(Vec::new, |wound| sizes(session, &course::sizes(session.protocol, &session.log, wound), width))
}

/// Her weights, with the line below which a loss is more than noise, and the slope.
fn weights(session: &Session, weights: &[Measured<Grams>], width: u16) -> Vec<Line<'static>> {
    let points = over_days(weights, |weight| f64::from(weight.0));
    let (Some(first), Some(last)) = (points.first().copied(), points.last().copied()) else { return Vec::new() };
    let Some(best) = weights.iter().map(|weighing| weighing.value).max().filter(|_| points.len() > 1) else {
        return Vec::new();
    };
    let noise = course::noise_ends(best);
    let band = [(first.0, noise), (last.0, noise)];
    let slope = course::weight_course(weights).and_then(|course| course.slope);
    // Theil and Sen's line through the median point of what was weighed.
    let middle = median(&points);
    let at = |day: f64| slope.map(|slope| (day, middle.1 + slope * (day - middle.0)));
    let line: Vec<(f64, f64)> = [at(first.0), at(last.0)].into_iter().flatten().collect();
    let sets = [
        dataset('-', GraphType::Line, &band),
        dataset('.', GraphType::Line, &line),
        dataset('o', GraphType::Scatter, &points),
    ];
    drawn(session, &sets, &[&points, &band, &line], width, ("g", phrase::weights()))
}

/// A wound's area, with what a ruler can tell.
fn sizes(session: &Session, sizes: &[Measured<WoundLines>], width: u16) -> Vec<Line<'static>> {
    if sizes.len() < 2 {
        return Vec::new();
    }
    let area = over_days(sizes, WoundLines::area);
    let low = over_days(sizes, |lines| f64::from(lines.area_read().low.0));
    let high = over_days(sizes, |lines| f64::from(lines.area_read().high.0));
    let sets = [
        dataset('-', GraphType::Line, &high),
        dataset('.', GraphType::Line, &low),
        dataset('o', GraphType::Scatter, &area),
    ];
    drawn(session, &sets, &[&area, &low, &high], width, ("mm2", phrase::sizes()))
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

/// Letters tell the lines apart, not colours.
fn dataset(mark: char, graph: GraphType, data: &[(f64, f64)]) -> Dataset<'_> {
    Dataset::default().marker(Marker::Custom(mark)).graph_type(graph).data(data)
}

/// Draws it, with the unit of what is drawn and what its marks mean.
fn drawn(
    session: &Session,
    sets: &[Dataset],
    points: &[&[(f64, f64)]],
    width: u16,
    (unit, marks): (&str, Phrase),
) -> Vec<Line<'static>> {
    let all = || points.iter().flat_map(|points| points.iter());
    let ends = |of: &dyn Fn(&(f64, f64)) -> f64| {
        let least = all().map(of).fold(f64::INFINITY, f64::min);
        let most = all().map(of).fold(f64::NEG_INFINITY, f64::max);
        (least, if most > least { most } else { least + 1.0 })
    };
    let (x, y) = (ends(&|point| point.0), ends(&|point| point.1));
    let room = (y.1 - y.0) * 0.05;
    let whole = |value: f64| Text::typed(format!("{value:.0}"));
    let days = [phrase::first_day(whole(x.0)), phrase::last_day(whole(x.1))];
    let label = |value: f64| Span::raw(format!("{value:.0} {unit}"));
    let chart = Chart::new(sets.to_vec())
        .x_axis(Axis::default().bounds([x.0, x.1]).labels(days.map(|day| Span::raw(session.say(day)))))
        .y_axis(Axis::default().bounds([y.0 - room, y.1 + room]).labels([label(y.0), label(y.1)]))
        .legend_position(None);
    let area = Rect::new(0, 0, width, HEIGHT);
    let mut buffer = Buffer::empty(area);
    chart.render(area, &mut buffer);
    let row =
        |y: u16| (0..width).filter_map(|x| buffer.cell((x, y))).map(ratatui::buffer::Cell::symbol).collect::<String>();
    let drawing = (0..HEIGHT).map(|y| Line::from(row(y).trim_end().to_owned()));
    drawing.chain(wrapped(&session.say(marks), usize::from(width), "", Style::new())).collect()
}
