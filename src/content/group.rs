//! What a mentor sees of a group's goes: tables, agreement, what was set too low or too high, what is missed most, what to
//! practise next.

use super::debrief::PRACTICE;
use super::document::{Item, Section, Tone, section};
use crate::finding::Id;
use crate::practice::{Due, Kappa, Mark, Share, Table, Triage, Weighing, due, triage};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::words::Reader;
use chrono::{DateTime, Utc};
use serde::Serialize;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// The schema of the report as JSON.
pub const SCHEMA: &str = "coopside.group/1";

/// The goes of one novice, or of all: only those under the protocol in force are counted.
#[derive(Clone, Debug)]
pub struct Goes<'m> {
    /// Whose; none for all.
    pub novice: Option<&'m str>,
    /// The goes under this protocol.
    pub marks: Vec<&'m Mark>,
    /// How many there are under other protocols: told, and never mixed in.
    pub other: usize,
}

/// All goes, then those of each novice, by name.
pub fn goes<'m>(protocol: &Protocol, marks: &'m [Mark]) -> Vec<Goes<'m>> {
    let names: BTreeSet<&str> = marks.iter().map(|mark| mark.novice.as_str()).collect();
    let of = |novice: Option<&'m str>| {
        let whose = marks.iter().filter(|mark| novice.is_none_or(|name| mark.novice == name));
        let (marks, other): (Vec<&Mark>, Vec<&Mark>) = whose.partition(|mark| mark.fingerprint == protocol.fingerprint);
        Goes { novice, marks, other: other.len() }
    };
    // One novice alone is all there is.
    let several = names.len() > 1;
    std::iter::once(None).chain(names.into_iter().filter(|_| several).map(Some)).map(of).collect()
}

impl Goes<'_> {
    /// The reference's need against the one given.
    pub fn table(&self) -> Table {
        let mut table = Table::new(Need::ALL.len());
        let rung = |need: Need| Need::ALL.iter().position(|known| *known == need).unwrap_or(usize::MAX);
        for mark in &self.marks {
            table.add(rung(mark.reference.need), rung(mark.given.need));
        }
        table
    }

    /// Urgent or not: a vet at once, or a humane end advised.
    pub fn triage(&self) -> Triage {
        triage(self.marks.iter().map(|mark| (mark.reference.is_urgent(), mark.given.is_urgent())))
    }

    /// What was missed, the most often missed first.
    pub fn missed(&self) -> Vec<(&Id, usize)> {
        let mut counts: BTreeMap<&Id, usize> = BTreeMap::new();
        self.marks.iter().flat_map(|mark| &mark.missed).for_each(|sign| *counts.entry(sign).or_default() += 1);
        let mut missed: Vec<_> = counts.into_iter().collect();
        missed.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
        missed
    }

    /// How often something was done that harms.
    pub fn harmful(&self) -> usize {
        self.marks.iter().filter(|mark| !mark.harm.is_empty()).count()
    }
}

/// The report as a document.
pub fn sections(protocol: &Protocol, marks: &[Mark], now: DateTime<Utc>, reader: Reader) -> Vec<Section> {
    let mut sections: Vec<Section> = Vec::new();
    let all = goes(protocol, marks);
    for goes in &all {
        sections.extend(report(protocol, goes));
    }
    sections.extend(section(
        "WHAT TO PRACTISE NEXT (schedule SM-2, Wozniak 1990)",
        Tone::Plain,
        next(marks, now, reader),
    ));
    sections.extend(section("HOW TO READ IT", Tone::Plain, HOW.iter().map(|line| Item::plain(*line)).collect()));
    sections.extend(section("PRACTICE", Tone::Caution, vec![Item::plain(PRACTICE)]));
    sections.extend(crate::content::old::caution(reader.country));
    sections
}

/// What the figures mean, and where they come from.
const HOW: [&str; 6] = [
    "Urgent means: a vet at once, or a humane end advised unless one can act in time.",
    "Too low has two published meanings: of the urgent, those missed (one minus sensitivity); and of those given as not urgent, those that were (the trauma matrix). Too high likewise. Papers differ; compare like with like.",
    "The American trauma surgeons' committee aims at 5 in 100 or fewer too low, and accepts 25 to 35 in 100 too high (its matrix; from memory).",
    "Real services miss that: a Dutch region 21.6 in 100 too low and 30.6 too high; an Alpine one 17.6 and 76.6.",
    "Kappa counts agreement beyond chance (Cohen 1960, 1968; limits after Fleiss, Cohen and Everitt 1969). It hangs on how many of each there were: look at the table, too. Kappas of different weights cannot be compared (Warrens 2013).",
    "Limits of shares after Wilson 1927; exact ones after Clopper and Pearson 1934.",
];

fn report(protocol: &Protocol, goes: &Goes) -> Option<Section> {
    let name = match goes.novice {
        None => "ALL GOES".to_owned(),
        Some("") => "WITHOUT A NAME".to_owned(),
        Some(name) => name.to_uppercase(),
    };
    let count = goes.marks.len();
    let mut items = Vec::new();
    if goes.other > 0 {
        let what = format!("{} under another protocol: read, and not mixed in.", goes_counted(goes.other));
        items.push(Item::plain(what));
    }
    if count > 0 {
        let same = goes.table().same();
        items.push(Item::plain(format!("{}; the need was right in {same}.", goes_counted(count))));
        items
            .push(Item { picture: table(goes), ..Item::plain("Need: rows are the reference, columns what was given") });
        items.push(kappas(goes));
        if count < FEW {
            items.push(Item::plain("So few goes say little; the limits tell how little."));
        }
        items.extend(shares(goes.triage()));
        items.push(Item::plain(format!("Something that harms was done in {} of {count}.", goes.harmful())));
        items.extend(missed(protocol, goes));
    }
    section(&name, Tone::Plain, items)
}

fn goes_counted(count: usize) -> String {
    if count == 1 { "1 go".into() } else { format!("{count} goes") }
}

/// Below so many goes a figure says little: our own choice.
const FEW: usize = 20;

/// The rungs' heads in a table.
const HEADS: [&str; 5] = ["none", "home", "day", "hours", "now"];

fn table(goes: &Goes) -> Vec<String> {
    let mut lines = vec![HEADS.iter().fold(format!("{:6}", ""), |mut line, head| {
        let _ = write!(line, "{head:>6}");
        line
    })];
    for (head, row) in HEADS.iter().zip(goes.table().rows()) {
        lines.push(row.iter().fold(format!("{head:6}"), |mut line, count| {
            let _ = write!(line, "{count:>6}");
            line
        }));
    }
    lines
}

fn kappas(goes: &Goes) -> Item {
    let table = goes.table();
    let told = |name: &str, weighing| match table.kappa(weighing) {
        Some(kappa) => format!("{name} {}", show(kappa)),
        None => format!("{name}: not defined for these goes"),
    };
    let more = vec![told("linear", Weighing::Linear), told("quadratic", Weighing::Quadratic)];
    Item { lead: told("Kappa: unweighted", Weighing::Same), more, ..Item::default() }
}

fn show(kappa: Kappa) -> String {
    let (low, high) = kappa.limits();
    format!("{:.2} (95 % {low:.2} to {high:.2})", kappa.value)
}

fn shares(triage: Triage) -> Vec<Item> {
    let told = |name: &str, share: Share| match share.value() {
        Some(value) => {
            let (low, high) = share.wilson();
            let (low_exact, high_exact) = share.exact();
            format!(
                "{name}: {} of {}, {:.0} % (95 % {:.0} to {:.0}; exact {:.0} to {:.0})",
                share.hits,
                share.of,
                value * 100.0,
                low * 100.0,
                high * 100.0,
                low_exact * 100.0,
                high_exact * 100.0
            )
        }
        None => format!("{name}: nothing to count"),
    };
    vec![
        Item::plain(told("Urgent birds found (sensitivity)", triage.sensitivity())),
        Item {
            more: vec![told("of those given as not urgent", triage.too_low_of_given())],
            ..Item::plain(told("Too low, of the urgent", triage.too_low_of_urgent()))
        },
        Item {
            more: vec![told("of those given as urgent", triage.too_high_of_given())],
            ..Item::plain(told("Too high, of those not urgent", triage.too_high_of_mild()))
        },
    ]
}

fn missed(protocol: &Protocol, goes: &Goes) -> Option<Item> {
    let topic = |id: &Id| protocol.question(id.as_str()).map_or_else(|| id.to_string(), |q| q.topic.clone());
    let most: Vec<String> =
        goes.missed().into_iter().take(5).map(|(sign, count)| format!("{} ({count})", topic(sign))).collect();
    (!most.is_empty()).then(|| Item::plain(format!("Missed most: {}", crate::content::old::list(&most))))
}

/// For each novice the lessons that are due, or the next one.
fn next(marks: &[Mark], now: DateTime<Utc>, reader: Reader) -> Vec<Item> {
    let names: BTreeSet<&str> = marks.iter().map(|mark| mark.novice.as_str()).collect();
    let of = |novice: &str| {
        let due = due(marks, novice);
        let (now_due, later): (Vec<&Due>, Vec<&Due>) = due.iter().partition(|due| due.at <= now);
        let name = if novice.is_empty() { "without a name" } else { novice };
        let birds = |due: &[&Due]| due.iter().map(|due| due.bird.replace('_', " ")).collect::<Vec<_>>().join(", ");
        match (now_due.is_empty(), later.first()) {
            (false, _) => Item::plain(format!("{name}: now {}.", birds(&now_due))),
            (true, Some(first)) => {
                let day = reader.zone.local(first.at).format("%a %-d %b");
                Item::plain(format!("{name}: nothing now; {} on {day}.", birds(&[first])))
            }
            (true, None) => Item::plain(format!("{name}: anything.")),
        }
    };
    names.into_iter().map(of).collect()
}

/// The report as JSON.
pub fn json(protocol: &Protocol, marks: &[Mark], now: DateTime<Utc>, reader: Reader) -> Value {
    let kappa = |table: &Table, weighing| {
        table.kappa(weighing).map(|kappa| {
            let (low, high) = kappa.limits();
            json!({ "value": kappa.value, "standard_error": kappa.error, "low": low, "high": high })
        })
    };
    let share = |share: Share| {
        let ((low, high), (exact_low, exact_high)) = (share.wilson(), share.exact());
        json!({ "hits": share.hits, "of": share.of, "value": share.value(),
            "wilson": [low, high], "clopper_pearson": [exact_low, exact_high] })
    };
    let of = |goes: &Goes| {
        let (table, triage) = (goes.table(), goes.triage());
        json!({
            "novice": goes.novice,
            "goes": goes.marks.len(),
            "under_another_protocol": goes.other,
            "table": table.rows().collect::<Vec<_>>(),
            "kappa": kappa(&table, Weighing::Same),
            "kappa_linear": kappa(&table, Weighing::Linear),
            "kappa_quadratic": kappa(&table, Weighing::Quadratic),
            "sensitivity": share(triage.sensitivity()),
            "specificity": share(triage.specificity()),
            "too_low": { "of_urgent": share(triage.too_low_of_urgent()), "of_given": share(triage.too_low_of_given()) },
            "too_high": { "of_mild": share(triage.too_high_of_mild()), "of_given": share(triage.too_high_of_given()) },
            "harmful": goes.harmful(),
            "missed": goes.missed().into_iter().map(|(sign, count)| json!({ "sign": sign, "count": count })).collect::<Vec<_>>(),
            "next": again(marks, goes.novice, now),
        })
    };
    json!({
        "schema": SCHEMA,
        "caution": crate::content::old::caution_text(reader.country),
        "practice": PRACTICE,
        "reviewed_by_a_veterinarian": false,
        "protocol": { "version": protocol.version, "fingerprint": protocol.fingerprint },
        "rungs": Need::ALL,
        "reports": goes(protocol, marks).iter().map(of).collect::<Vec<_>>(),
    })
}

/// When each lesson is practised again: by this novice, or by each where all are meant.
fn again(marks: &[Mark], novice: Option<&str>, now: DateTime<Utc>) -> Vec<serde_json::Value> {
    let names: BTreeSet<&str> = marks.iter().map(|mark| mark.novice.as_str()).collect();
    let wanted = names.into_iter().filter(|name| novice.is_none_or(|novice| novice == *name));
    let told = |name: &str, due: Due| json!({ "novice": name, "bird": due.bird, "at": due.at, "now": due.at <= now });
    wanted.flat_map(|name| due(marks, name).into_iter().map(move |due| told(name, due))).collect()
}

/// The goes as a table of values parted by commas (RFC 4180), one a line.
pub fn csv(marks: &[Mark]) -> Result<String, csv::Error> {
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    out.write_record(COLUMNS)?;
    for mark in marks {
        let ids = |ids: &[Id]| plain(&ids.iter().map(Id::as_str).collect::<Vec<_>>().join(" "));
        out.write_record([
            mark.at.to_rfc3339(),
            plain(&mark.novice),
            plain(&mark.bird),
            plain(&mark.protocol),
            rung(mark.given.need),
            rung(mark.given.humane),
            rung(mark.given.authority),
            rung(mark.reference.need),
            rung(mark.reference.humane),
            rung(mark.reference.authority),
            ids(&mark.missed),
            ids(&mark.harm),
            ids(&mark.late),
            mark.held_s.to_string(),
        ])?;
    }
    let bytes = out.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

const COLUMNS: [&str; 14] = [
    "at",
    "novice",
    "bird",
    "protocol",
    "given_need",
    "given_humane",
    "given_authority",
    "need",
    "humane",
    "authority",
    "missed",
    "harm",
    "late",
    "held_s",
];

/// A table program must not take for a formula what a person typed.
fn plain(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{cell}") } else { cell.to_owned() }
}

/// The name of a rung as files spell it.
fn rung<T: Serialize>(rung: T) -> String {
    serde_json::to_value(rung).ok().and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}
