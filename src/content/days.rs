//! Her days as a document: what is due, what has changed, how she has gone, what a vet said and how it ended.

use super::document::{Item, Section, Tone, section, upper_first};
use crate::content::old::topic;
use crate::days::change::{Change, Way, changes};
use crate::days::course::{self, Measured, WoundCourse};
use crate::days::due::{Due, Fate};
use crate::days::{Days, End, SinceVet, known, since_vet};
use crate::finding::About;
use crate::finding::figure::Lines;
use crate::finding::log::Stamped;
use crate::judge::brief_told;
use crate::measure::healing::Flag;
use crate::protocol::Protocol;
use crate::protocol::scale::{Authority, Need};
use crate::prove::Exact;
use crate::typed::weight;
use crate::unit::{Band, Grams};
use crate::words::Reader;
use crate::zone::Zone;
use chrono::{DateTime, Utc};

/// The heading over her weights; a pane draws them under it.
pub const WEIGHT: &str = "WEIGHT";
/// How the heading over a wound's sizes begins; its number follows.
pub const WOUND: &str = "SIZE OF WOUND ";
/// At most this many looks to come are spelled out.
const AHEAD: usize = 6;
/// At most this many of the looks nobody held.
const MISSED: usize = 6;

/// A case over days, as it is kept.
#[derive(Clone, Copy, Debug)]
pub struct CaseDays<'a> {
    /// What was done.
    pub log: &'a [Stamped],
    /// The same, folded.
    pub days: &'a Days,
    /// What is due.
    pub due: &'a Due,
    /// Whether no vet can be reached.
    pub no_vet: bool,
}

/// Her days.
pub fn sections(protocol: &Protocol, told: CaseDays, reader: Reader) -> Vec<Section> {
    let Reader { zone, country, .. } = reader;
    let CaseDays { log, days, due, no_vet } = told;
    let end = section("HOW IT ENDED", Tone::Plain, days.end.iter().map(|end| end_line(end, zone)).collect());
    let mut sections = vec![
        end,
        section("LOOKS", Tone::Plain, looks(due, zone)),
        since_last(protocol, log, days, zone),
        section(
            if no_vet { "HOW GRAVE, OVER TIME" } else { "HOW SOON A VET, OVER TIME" },
            Tone::Plain,
            needs(protocol, told, zone),
        ),
        section(WEIGHT, Tone::Plain, weights(protocol, log, no_vet, zone)),
    ];
    let wounds = days.sittings.last().map_or(0, |last| known(log, last).wounds());
    sections.extend(
        (0..wounds).map(|wound| {
            section(&format!("{WOUND}{}", wound + 1), Tone::Plain, sizes(protocol, log, days, wound, zone))
        }),
    );
    let since = since(protocol, log, days);
    let heard = days.heard.iter().map(|heard| Item::plain(format!("{}: {}", day(zone, heard.at), heard.said)));
    let heard = heard.chain(since.map(Item::plain));
    sections.extend([section("A VET SAID", Tone::Plain, heard.collect()), crate::content::old::caution(country)]);
    sections.into_iter().flatten().collect()
}

/// How it ended, in a line.
fn end_line(end: &End, zone: Zone) -> Item {
    Item {
        lead: format!("{}: {}.", day(zone, end.at), upper_first(end.outcome.words())),
        more: (!end.proved.is_empty()).then(|| end.proved.clone()).into_iter().collect(),
        ..Item::default()
    }
}

/// What is told of a bird whose case is over, in place of verdict and plan: how it ended, and what her death or her signs still
/// mean for the others. Nothing of her where it is not over.
pub fn ended(days: &Days, verdict: &Exact, reader: Reader) -> Option<Vec<Section>> {
    let end = days.over()?;
    let next = "Her case is closed; nothing is due. f, then 8, opens it again.";
    let items = vec![end_line(end, reader.zone), Item::plain(next)];
    let told = [
        section("HOW IT ENDED", Tone::Plain, items),
        section("THE OTHER BIRDS", Tone::Grave, catching(verdict).map(Item::plain).into_iter().collect()),
        crate::content::old::caution(reader.country),
    ];
    Some(told.into_iter().flatten().collect())
}

/// What still has to be said for the other birds' sake, where what she had may be catching.
pub(super) fn catching(verdict: &Exact) -> Option<&'static str> {
    match verdict.authority.low {
        Authority::None => None,
        Authority::Ask => {
            Some("It may be catching: gloves; ask your animal-health authority before you move or bury her.")
        }
        Authority::CallNow => Some("Call your animal-health authority now, and move no bird, dead or alive."),
    }
}

/// That somebody else has her now, before what was found of her.
pub fn moved_on(days: &Days, zone: Zone) -> Option<Section> {
    let end = days.end.as_ref().filter(|end| !end.outcome.is_over())?;
    section("HOW IT ENDED", Tone::Plain, vec![end_line(end, zone), Item::plain("What follows is as it stood then.")])
}

/// What has become of her since a vet was asked.
fn since(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<&'static str> {
    since_vet(protocol, log, days).map(|vet| match vet {
        SinceVet::NotWorse(_) => "Since then nothing graver was found. What was found before still stands.",
        SinceVet::Worse(_) => "Since then she is WORSE: phone the vet again.",
    })
}

/// What a vet said last, for whoever reads a verdict or a plan that cannot know of it.
pub fn vet_first(protocol: &Protocol, log: &[Stamped], days: &Days, zone: Zone) -> Option<Section> {
    let heard = days.heard.last()?;
    let said = Item::with(
        format!("{}: {}", day(zone, heard.at), heard.said),
        "Where this differs from what stands below, the vet's word goes first.",
        &[],
    );
    section(
        "A VET SAID",
        Tone::Plain,
        std::iter::once(said).chain(since(protocol, log, days).map(Item::plain)).collect(),
    )
}

/// A day and an hour, short enough for a phone.
pub fn day(zone: Zone, at: DateTime<Utc>) -> String {
    zone.local(at).format("%a %d %b %H:%M").to_string()
}

/// What is due in one line; nothing where nothing is.
pub fn due_line(due: &Due, zone: Zone) -> Option<String> {
    if let Some(since) = due.examine {
        return Some(format!("Examine her now: not examined to the end since {}.", day(zone, since)));
    }
    let missed = due.missed_since_last().count();
    let missed = match missed {
        0 => String::new(),
        1 => " One look was missed.".to_owned(),
        more => format!(" {more} looks were missed."),
    };
    if let Some(look) = due.overdue() {
        return Some(format!("Look now: due since {}.{missed}", day(zone, look.at)));
    }
    due.next().map(|look| format!("Next look {}.{missed}", day(zone, look.at)))
}

fn looks(due: &Due, zone: Zone) -> Vec<Item> {
    let missed: Vec<String> = due.missed_since_last().map(|look| day(zone, look.at)).collect();
    let more = missed.len().saturating_sub(MISSED);
    let and = if more > 0 { format!(", and {more} more") } else { String::new() };
    let shown = missed.get(..MISSED).unwrap_or(&missed).join(", ");
    let missed = (!missed.is_empty()).then(|| Item::plain(format!("Missed: {shown}{and}.")));
    let overdue = due.overdue();
    let now = overdue.map(|look| Item::plain(format!("LOOK NOW: due since {}.", day(zone, look.at)))).into_iter();
    let ahead: Vec<String> = due.with(Fate::Ahead).take(AHEAD).map(|look| day(zone, look.at)).collect();
    let ahead = (!ahead.is_empty()).then(|| Item::plain(format!("To come: {}.", ahead.join(", "))));
    let examine = due.examine.map(|since| format!("EXAMINE NOW: not examined to the end since {}.", day(zone, since)));
    examine.map(Item::plain).into_iter().chain(now).chain(missed).chain(ahead).collect()
}

/// What has changed since the sitting before, what got worse first.
pub fn since_last(protocol: &Protocol, log: &[Stamped], days: &Days, zone: Zone) -> Option<Section> {
    let (since, changes) = changes(protocol, log, days)?;
    let mut items: Vec<Item> = changes.iter().map(|change| changed(protocol, change)).collect();
    if items.is_empty() {
        items.push(Item::plain("Nothing that was asked again is different."));
    }
    let tone = if changes.iter().any(|change| change.way == Way::Worse) { Tone::Grave } else { Tone::Plain };
    section(&format!("SINCE {}", day(zone, since).to_uppercase()), tone, items)
}

fn changed(protocol: &Protocol, change: &Change) -> Item {
    let question = protocol.ask(change.asked.question);
    let way = match change.way {
        Way::Worse => "WORSE",
        Way::Otherwise => "changed",
        Way::Better => "better",
    };
    let now = question.words(&change.now);
    let before = match &change.before {
        Some(before) => format!("before: {}", question.words(&before.statement.answer)),
        None => "not asked before".to_owned(),
    };
    Item::plain(format!("{way}: {}: {now} ({before})", topic(protocol, change.asked)))
}

fn needs(protocol: &Protocol, told: CaseDays, zone: Zone) -> Vec<Item> {
    let needs = course::needs(protocol, told.log, told.days);
    if needs.len() < 2 {
        return Vec::new();
    }
    let bar = |need: Need| "#".repeat(1 + need as usize);
    let most = 1 + Need::Now as usize;
    let line = |need: &Measured<Band<Need>>| {
        let bar = bar(need.value.low);
        Item::plain(format!("{} {bar:<most$} {}", day(zone, need.at), brief_told(need.value, told.no_vet)))
    };
    needs.iter().map(line).collect()
}

fn weights(protocol: &Protocol, log: &[Stamped], no_vet: bool, zone: Zone) -> Vec<Item> {
    let weights = course::weights(protocol, log);
    let best = weights.iter().map(|weighing| weighing.value).max();
    let line = |weighing: &Measured<Grams>| {
        let of_best = best.map_or(100, |best| u64::from(weighing.value.0) * 100 / u64::from(best.0.max(1)));
        Item::plain(format!(
            "{} {}, {of_best} in 100 of her best",
            day(zone, weighing.at),
            weight::show(weighing.value)
        ))
    };
    weights.iter().map(line).chain(weight_course(&weights, no_vet)).collect()
}

fn per_day(slope: f64) -> String {
    let slope = slope.round();
    if slope == 0.0 { "No gain or loss from day to day. ".into() } else { format!("{slope:+.0} g a day. ") }
}

/// What her weights come to; nothing of fewer than two.
pub(super) fn weight_course(weights: &[Measured<Grams>], no_vet: bool) -> Option<Item> {
    let gone = course::weight_course(weights)?;
    let slope = gone.slope.map_or_else(String::new, per_day);
    Some(Item::with(
        if gone.lost_permille <= 0 {
            format!("{slope}She is at her best weight.")
        } else {
            format!("{slope}Her loss is {}.", crate::words::english(crate::reckon::means::weight(gone.step, no_vet)))
        },
        "Up to 3 in 100 is noise: a full crop, or an egg (our line). The slope is Theil and Sen's.",
        &[],
    ))
}

fn sizes(protocol: &Protocol, log: &[Stamped], days: &Days, wound: usize, zone: Zone) -> Vec<Item> {
    let sizes = course::sizes(protocol, log, wound);
    let line = |size: &Measured<Lines>| {
        let area = size.value.area_read();
        Item::plain(format!("{} {}: {} to {} mm2", day(zone, size.at), size.value.write(), area.low.0, area.high.0))
    };
    sizes.iter().map(line).chain(wound_course(protocol, log, days, wound, &sizes)).collect()
}

/// What the sizes of a wound come to; nothing of fewer than two.
pub(super) fn wound_course(
    protocol: &Protocol,
    log: &[Stamped],
    days: &Days,
    wound: usize,
    sizes: &[Measured<Lines>],
) -> Option<Item> {
    let hurt = days.sittings.first().and_then(|first| hurt(protocol, log, first, wound));
    course::wound_course(sizes, hurt).map(|course| healed(&course))
}

/// When a wound was made at the latest, as it was told.
fn hurt(protocol: &Protocol, log: &[Stamped], first: &crate::days::Sitting, wound: usize) -> Option<DateTime<Utc>> {
    let at = protocol.giving(crate::protocol::cond::Measure::TimeSince, true)?;
    let question = protocol.ask(at);
    let findings = known(log, first);
    let said = findings.answer(About::Wound(wound), question.id.as_str())?;
    let crate::finding::Answer::Choice(id) = &said.statement.answer else { return None };
    let choice = question.choices.get(usize::from(question.choice_at(id.as_str())?))?;
    let minutes = i64::try_from(choice.worth?.low).ok()?;
    said.at.checked_sub_signed(chrono::TimeDelta::minutes(minutes))
}

/// How far a wound's edge came in, or went out where it grew.
pub fn moved(advance: Band<f64>) -> String {
    let (low, high) = (advance.low, advance.high);
    match (low < 0.0, high < 0.0) {
        (false, _) => format!("edge in by {low:.1} to {high:.1} mm"),
        (true, true) => format!("edge OUT by {:.1} to {:.1} mm", -high, -low),
        (true, false) => format!("edge between {:.1} mm out and {high:.1} mm in", -low),
    }
}

fn healed(course: &WoundCourse) -> Item {
    let advance = course.advance.map(|come| format!("{} in {} days", moved(come), course.days));
    let closes = course.closes_in.map(|days| format!("may close in {} to {} days more", days.low, days.high));
    let flag = course.flag.map(|flag| match flag {
        Flag::GrewAfterDay3 => "it GREW after the third day: a vet",
        Flag::NotSmallerByDay7 => "not clearly smaller by the seventh day: ask a vet",
    });
    let said: Vec<String> = advance.into_iter().chain(closes).chain(flag.map(str::to_owned)).collect();
    Item::with(
        format!("{}.", upper_first(&said.join("; "))),
        "A ruler reads to 2 mm. The forecast is from wounds of people (Gilman 1990, from memory).",
        &[],
    )
}
