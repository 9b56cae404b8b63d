//! How she has gone over the days, for the sheet: need, weight and wounds, each in one line and, where it was measured, drawn.

use super::writer::SheetCase;
use super::{Part, Plot, Point, Row};
use crate::content::days::{day, weight_course, wound_course};
use crate::content::document::{Item, upper_first};
use crate::days::course::{self, Measured};
use crate::finding::figure::Lines;
use crate::judge::{Level, brief};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::typed::weight;
use crate::unit::Grams;
use crate::zone::Zone;
use chrono::{DateTime, Utc};

/// At most this many values stand in a line: the first, and the last ones.
const VALUES: usize = 5;
/// At most this many wounds are drawn; all are told.
const DRAWN: usize = 2;

/// The part; nothing of a bird that was looked at once.
pub fn part(protocol: &Protocol, told: SheetCase, zone: Zone) -> Option<Part> {
    let needs = course::needs(protocol, told.log, told.days);
    if needs.len() < 2 {
        return None;
    }
    // Of a case that is over this is what was; nothing of it calls a vet any more.
    let name = if told.days.over().is_some() { "Need, before it ended" } else { "Need" };
    let mut rows = vec![Row { name: name.into(), told: changes(zone, &needs) }];
    let (mut plots, mut notes) = (Vec::new(), Vec::new());
    let weights = course::weights(protocol, told.log);
    if weights.len() > 1 {
        let weighed = series(zone, &weights, kilograms);
        let course = weight_course(&weights, false)
            .map(|item| crate::words::Reader::english(zone, protocol.no_country()).item(&item));
        notes.extend(course.iter().flat_map(|item| item.more.clone()));
        rows.push(Row { name: "Weight".into(), told: format!("{weighed}.{}", comes_to(course)) });
        plots.push(weight_plot(zone, &weights));
    }
    for wound in 0..told.findings.wounds() {
        let sizes = course::sizes(protocol, told.log, wound);
        if sizes.len() < 2 {
            continue;
        }
        let measured = series(zone, &sizes, Lines::write);
        let course = wound_course(protocol, told.log, told.days, wound, &sizes)
            .map(|item| crate::words::Reader::english(zone, protocol.no_country()).item(&item));
        notes.extend(course.iter().flat_map(|item| item.more.clone()));
        rows.push(Row { name: format!("Wound {}", wound + 1), told: format!("{measured}.{}", comes_to(course)) });
        if wound < DRAWN {
            plots.push(wound_plot(zone, wound, &sizes));
        }
    }
    // What is said of how well a figure is known is said once.
    notes.dedup();
    rows.extend(notes.into_iter().map(|told| Row { name: String::new(), told }));
    Some(Part { id: "course", heading: "OVER THE DAYS", rows, table: None, drawing: None, plots })
}

fn comes_to(item: Option<Item>) -> String {
    item.map_or_else(String::new, |item| format!(" {}", upper_first(&item.lead)))
}

/// How soon a vet, where it changed, and at how many looks it was judged.
fn changes(zone: Zone, needs: &[Measured<Level<Need>>]) -> String {
    let mut told: Vec<(DateTime<Utc>, String)> = Vec::new();
    for need in needs {
        let words = crate::words::english(brief(need.value));
        if told.last().is_none_or(|(_, before)| *before != words) {
            told.push((need.at, words));
        }
    }
    let told: Vec<String> =
        told.into_iter().map(|(at, words)| format!("{} {words}", zone.local(at).format("%d %b"))).collect();
    format!("{}; {} looks", told.join(", then "), needs.len())
}

/// One unit is enough in a row of values.
fn kilograms(weight: Grams) -> String {
    let shown = weight::show(weight);
    shown.split(" (").next().unwrap_or(&shown).to_owned()
}

/// Values in a line, each with its day; where they are many, the first and the last ones.
fn series<T: Copy>(zone: Zone, measured: &[Measured<T>], words: impl Fn(T) -> String) -> String {
    let skipped = measured.len().saturating_sub(VALUES);
    let mut told = Vec::new();
    for (at, one) in measured.iter().enumerate() {
        if at == 1 && skipped > 0 {
            told.push(format!("({skipped} more)"));
        }
        if at == 0 || at > skipped {
            told.push(format!("{} {}", zone.local(one.at).format("%d %b"), words(one.value)));
        }
    }
    told.join(", ")
}

fn weight_plot(zone: Zone, weights: &[Measured<Grams>]) -> Plot {
    let best = weights.iter().map(|weighing| weighing.value).max().unwrap_or(Grams(0));
    let points = points(weights, |weighing| (weighing.0, weighing.0, weighing.0));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a weight in whole grams")]
    let noise = course::noise_ends(best).round() as u32;
    plot(zone, weights, ("Weight".into(), "g"), points, Some(noise))
}

fn wound_plot(zone: Zone, wound: usize, sizes: &[Measured<Lines>]) -> Plot {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "an area in whole square millimetres")]
    let area = |lines: Lines| lines.area().round() as u32;
    let points = points(sizes, |lines| (lines.area_read().low.0, area(lines), lines.area_read().high.0));
    plot(zone, sizes, (format!("Wound {}, area", wound + 1), "mm2"), points, None)
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
    zone: Zone,
    measured: &[Measured<T>],
    (name, unit): (String, &'static str),
    points: Vec<Point>,
    floor: Option<u32>,
) -> Plot {
    let ends = |at: Option<&Measured<T>>| at.map_or_else(String::new, |measured| day(zone, measured.at));
    let (from, to) = (ends(measured.first()), ends(measured.last()));
    let value = |point: Option<&Point>| point.map_or(0, |point| point.value);
    let below = floor.map_or_else(String::new, |floor| format!("; below {floor} {unit} a loss is more than noise"));
    let words =
        format!("{name}: {} {unit} at {from}, {} {unit} at {to}{below}.", value(points.first()), value(points.last()));
    Plot { words, unit, from, to, points, floor }
}
