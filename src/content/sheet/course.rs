//! How she has gone over the days, for the sheet: need, weight and wounds, each in one line and, where it was measured, drawn.

use super::writer::SheetCase;
use super::{Part, PartId, Plot, Point, Row};
use crate::content::days::{weight_course, wound_course};
use crate::content::document::Item;
use crate::days::course::{self, Measured};
use crate::finding::figure::Lines;
use crate::judge::{Level, brief};
use crate::phrase::{Decimal, Phrase, Quantity, Text, UnitOf, sheet as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::unit::Grams;
use chrono::{DateTime, Utc};

/// At most this many values stand in a line: the first, and the last ones.
const VALUES: usize = 5;
/// At most this many wounds are drawn; all are told.
const DRAWN: usize = 2;

/// The part; nothing of a bird that was looked at once.
pub fn part(protocol: &Protocol, told: SheetCase) -> Option<Part<Text>> {
    let needs = course::needs(protocol, told.log, told.days);
    if needs.len() < 2 {
        return None;
    }
    let name = if told.days.over().is_some() { phrase::need_before() } else { phrase::need() };
    let mut rows = vec![Row { name: name.into(), told: changes(&needs) }];
    let (mut plots, mut notes) = (Vec::new(), Vec::new());
    let weights = course::weights(protocol, told.log);
    if weights.len() > 1 {
        let course = weight_course(&weights, false);
        notes.extend(course.iter().flat_map(|item| item.more.clone()));
        rows.push(Row {
            name: phrase::weight().into(),
            told: measured(series(&weights, |weight| Quantity::metric_weight(weight).into()), course),
        });
        plots.push(weight_plot(&weights));
    }
    for wound in 0..told.findings.wounds() {
        let sizes = course::sizes(protocol, told.log, wound);
        if sizes.len() < 2 {
            continue;
        }
        let course = wound_course(protocol, told.log, told.days, wound, &sizes);
        notes.extend(course.iter().flat_map(|item| item.more.clone()));
        rows.push(Row {
            name: words::wound(wound + 1).into(),
            told: measured(series(&sizes, |lines| Text::typed(lines.write())), course),
        });
        if wound < DRAWN {
            plots.push(wound_plot(wound, &sizes));
        }
    }
    // What is said of how well a figure is known is said once.
    notes.dedup();
    rows.extend(notes.into_iter().map(|told| Row { name: Text::default(), told }));
    Some(Part { id: PartId::Course, heading: PartId::Course.heading().into(), rows, table: None, drawing: None, plots })
}

/// Values, and what they come to.
fn measured(values: Text, comes_to: Option<Item<Text>>) -> Text {
    let comes_to = comes_to.map(|item| Text::opening(item.lead));
    Text::row([words::ended(values).into()].into_iter().chain(comes_to))
}

/// How soon a vet, where it changed, and at how many looks it was judged.
fn changes(needs: &[Measured<Level<Need>>]) -> Text {
    let mut told: Vec<(DateTime<Utc>, Phrase)> = Vec::new();
    for need in needs {
        let words = brief(need.value);
        if told.last().is_none_or(|(_, before)| *before != words) {
            told.push((need.at, words));
        }
    }
    let told = told.into_iter().map(|(at, words)| Text::row([Text::day_of_month(at), words.into()]));
    let told = told.reduce(|before, next| phrase::then(before, next).into()).unwrap_or_default();
    phrase::looks(told, needs.len()).into()
}

/// Values in a line, each with its day; where they are many, the first and the last ones.
fn series<T: Copy>(measured: &[Measured<T>], value: impl Fn(T) -> Text) -> Text {
    let skipped = measured.len().saturating_sub(VALUES);
    let mut told = Vec::new();
    for (at, one) in measured.iter().enumerate() {
        if at == 1 && skipped > 0 {
            told.push(phrase::values_left_out(skipped).into());
        }
        if at == 0 || at > skipped {
            told.push(Text::row([Text::day_of_month(one.at), value(one.value)]));
        }
    }
    Text::list(told)
}

fn weight_plot(weights: &[Measured<Grams>]) -> Plot<Text> {
    let best = weights.iter().map(|weighing| weighing.value).max().unwrap_or(Grams(0));
    let points = points(weights, |weighing| (weighing.0, weighing.0, weighing.0));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a weight in whole grams")]
    let noise = course::noise_ends(best).round() as u32;
    plot(weights, (phrase::weight().into(), UnitOf::Grams), points, Some(noise))
}

fn wound_plot(wound: usize, sizes: &[Measured<Lines>]) -> Plot<Text> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "an area in whole square millimetres")]
    let area = |lines: Lines| lines.area().round() as u32;
    let points = points(sizes, |lines| (lines.area_read().low.0, area(lines), lines.area_read().high.0));
    plot(sizes, (phrase::wound_area(words::wound(wound + 1)).into(), UnitOf::SquareMillimetres), points, None)
}

fn points<T: Copy>(measured: &[Measured<T>], values: impl Fn(T) -> (u32, u32, u32)) -> Vec<Point> {
    let first: Option<DateTime<Utc>> = measured.first().map(|measured| measured.at);
    let minute = |at: DateTime<Utc>| first.map_or(0, |first| u32::try_from((at - first).num_minutes()).unwrap_or(0));
    let point = |measured: &Measured<T>| {
        let (low, value, high) = values(measured.value);
        Point { minute: minute(measured.at), low, value, high }
    };
    measured.iter().map(point).collect()
}

fn plot<T>(
    measured: &[Measured<T>],
    (name, unit): (Text, UnitOf),
    points: Vec<Point>,
    floor: Option<u32>,
) -> Plot<Text> {
    let ends = |at: Option<&Measured<T>>| at.map(|measured| Text::day(measured.at)).unwrap_or_default();
    let (from, to) = (ends(measured.first()), ends(measured.last()));
    let figure = |value: u32| Text::from(Quantity::one(Decimal::whole(value), unit).signed());
    let moments = measured.first().zip(measured.last()).map(|(first, last)| (first.at, last.at));
    let value = |point: Option<&Point>| figure(point.map_or(0, |point| point.value));
    let (first, last) = (value(points.first()), value(points.last()));
    let words = match floor {
        Some(floor) => phrase::plot_floor(name, first, from.clone(), last, to.clone(), figure(floor)),
        None => phrase::plot(name, first, from.clone(), last, to.clone()),
    };
    Plot { words: words.into(), unit, from, to, ends: moments, points, floor }
}
