//! Her days as a document: what is due, what has changed, how she has gone, what a vet said and how it ended.

use super::answers;
use super::document::{self, Item, Section, Tone, section, topic};
use crate::days::change::{Change, Way, changes};
use crate::days::course::{self, Measured, WoundCourse};
use crate::days::due::{Due, Fate};
use crate::days::{Days, End, SinceVet, known, outcome, since_vet};
use crate::finding::About;
use crate::finding::figure::Lines;
use crate::finding::log::Stamped;
use crate::judge::brief_told;
use crate::measure::healing::Flag;
use crate::phrase::{Decimal, Phrase, Quantity, Text, UnitOf, days as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::scale::{Authority, Need};
use crate::protocol::texts::Country;
use crate::prove::Exact;
use crate::reckon::means;
use crate::unit::{Band, Grams};
use chrono::{DateTime, Utc};

/// At most this many looks to come are spelled out.
const AHEAD: usize = 6;

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

/// The heading over her weights; a pane draws them under it.
pub const fn heading_of_weights() -> Phrase {
    phrase::heading_weight()
}

/// The heading over a wound's sizes, by its place in the order they were found; a pane draws them under it.
pub fn heading_of_wound(wound: usize) -> Phrase {
    phrase::heading_wound(wound + 1)
}

/// Her days.
pub fn sections(protocol: &Protocol, told: CaseDays, country: &Country) -> Vec<Section<Text>> {
    let CaseDays { log, days, due, no_vet } = told;
    let over_time = if no_vet { phrase::heading_how_grave() } else { phrase::heading_how_soon() };
    let mut sections = vec![
        section(phrase::heading_ended(), Tone::Plain, days.end.iter().map(end_line).collect()),
        section(phrase::heading_looks(), Tone::Plain, looks(due)),
        since_last(protocol, log, days),
        section(over_time, Tone::Plain, needs(protocol, told)),
        section(heading_of_weights(), Tone::Plain, weights(protocol, log, no_vet)),
    ];
    let wounds = days.sittings.last().map_or(0, |last| known(log, last).wounds());
    let sized = |wound| section(heading_of_wound(wound), Tone::Plain, sizes(protocol, log, days, wound));
    sections.extend((0..wounds).map(sized));
    let heard = days.heard.iter().map(|heard| Item::plain(said_at(heard.at, &heard.said)));
    let heard = heard.chain(since(protocol, log, days).map(Item::plain));
    sections.extend([section(phrase::heading_vet(), Tone::Plain, heard.collect()), document::caution(country)]);
    sections.into_iter().flatten().collect()
}

/// What somebody said, with when it was written down.
fn said_at(at: DateTime<Utc>, said: &str) -> Phrase {
    words::named(Text::day(at), Text::typed(said))
}

/// How it ended, in a line.
fn end_line(end: &End) -> Item<Text> {
    Item {
        lead: words::named_ended(Text::day(end.at), Text::opening(outcome(end.outcome))).into(),
        more: (!end.proved.is_empty()).then(|| Text::typed(&end.proved)).into_iter().collect(),
        ..Item::default()
    }
}

/// What is told of a bird whose case is over, in place of verdict and plan: how it ended, and what her death or her signs still
/// mean for the others. Nothing of her where it is not over.
pub fn ended(days: &Days, verdict: &Exact, country: &Country) -> Option<Vec<Section<Text>>> {
    let end = days.over()?;
    let items = vec![end_line(end), Item::plain(phrase::closed())];
    let told = [
        section(phrase::heading_ended(), Tone::Plain, items),
        section(phrase::heading_flock(), Tone::Grave, catching(verdict).map(Item::plain).into_iter().collect()),
        document::caution(country),
    ];
    Some(told.into_iter().flatten().collect())
}

/// What still has to be said for the other birds' sake, where what she had may be catching.
pub(super) fn catching(verdict: &Exact) -> Option<Phrase> {
    match verdict.authority.low {
        Authority::None => None,
        Authority::Ask => Some(phrase::catching_ask()),
        Authority::CallNow => Some(phrase::catching_call()),
    }
}

/// That somebody else has her now, before what was found of her.
pub fn moved_on(days: &Days) -> Option<Section<Text>> {
    let end = days.end.as_ref().filter(|end| !end.outcome.is_over())?;
    section(phrase::heading_ended(), Tone::Plain, vec![end_line(end), Item::plain(phrase::as_it_stood())])
}

/// What has become of her since a vet was asked.
fn since(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<Phrase> {
    since_vet(protocol, log, days).map(|vet| match vet {
        SinceVet::NotWorse(_) => phrase::since_not_worse(),
        SinceVet::Worse(_) => phrase::since_worse(),
    })
}

/// What a vet said last, for whoever reads a verdict or a plan that cannot know of it.
pub fn vet_first(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<Section<Text>> {
    let heard = days.heard.last()?;
    let said = Item::with(said_at(heard.at, &heard.said), phrase::vet_first(), &[]);
    let since = since(protocol, log, days).map(Item::plain);
    section(phrase::heading_vet(), Tone::Plain, std::iter::once(said).chain(since).collect())
}

/// What is due in one line; nothing where nothing is.
pub fn due_line(due: &Due) -> Option<Text> {
    if let Some(since) = due.examine {
        return Some(phrase::examine(Text::day(since)).into());
    }
    let look = match (due.last_looked(), due.overdue()) {
        (Some(last), Some(_)) => phrase::last_looked_now(Text::day(last)),
        (None, Some(look)) => phrase::look_now(Text::day(look.at)),
        (_, None) => phrase::next_look(Text::day(due.next()?.at)),
    };
    Some(look.into())
}

fn looks(due: &Due) -> Vec<Item<Text>> {
    let last = due.last_looked().map(|last| phrase::last_looked(Text::day(last)));
    let now = due.overdue().map(|look| phrase::due_now(Text::day(look.at)));
    let ahead: Vec<Text> = due.with(Fate::Ahead).take(AHEAD).map(|look| Text::day(look.at)).collect();
    let ahead = (!ahead.is_empty()).then(|| phrase::ahead(Text::List(ahead)));
    let examine = due.examine.map(|since| phrase::examine_now(Text::day(since)));
    [examine, last, now, ahead].into_iter().flatten().map(Item::plain).collect()
}

/// What has changed since the sitting before, what got worse first.
pub fn since_last(protocol: &Protocol, log: &[Stamped], days: &Days) -> Option<Section<Text>> {
    let (since, changes) = changes(protocol, log, days)?;
    let mut items: Vec<Item<Text>> = changes.iter().map(|change| Item::plain(changed(protocol, change))).collect();
    if items.is_empty() {
        items.push(Item::plain(phrase::nothing_different()));
    }
    let tone = if changes.iter().any(|change| change.way == Way::Worse) { Tone::Grave } else { Tone::Plain };
    section(phrase::heading_since(Text::capitals(Text::day(since))), tone, items)
}

fn changed(protocol: &Protocol, change: &Change) -> Phrase {
    let question = protocol.ask(change.asked.question);
    let way = match change.way {
        Way::Worse => phrase::worse(),
        Way::Otherwise => phrase::changed(),
        Way::Better => phrase::better(),
    };
    let now = answers::of(question, &change.now);
    let before = match &change.before {
        Some(before) => phrase::before(answers::of(question, &before.statement.answer)),
        None => phrase::not_asked_before(),
    };
    phrase::change(way, topic(protocol, change.asked), now, before)
}

fn needs(protocol: &Protocol, told: CaseDays) -> Vec<Item<Text>> {
    let needs = course::needs(protocol, told.log, told.days);
    if needs.len() < 2 {
        return Vec::new();
    }
    let bar = |need: Need| "#".repeat(1 + need as usize);
    let most = 1 + Need::Now as usize;
    let line = |need: &Measured<Band<Need>>| {
        let bar = Text::typed(format!("{:<most$}", bar(need.value.low)));
        Item::plain(Text::row([Text::day(need.at), bar, brief_told(need.value, told.no_vet)]))
    };
    needs.iter().map(line).collect()
}

fn weights(protocol: &Protocol, log: &[Stamped], no_vet: bool) -> Vec<Item<Text>> {
    let weights = course::weights(protocol, log);
    let best = weights.iter().map(|weighing| weighing.value).max();
    let line = |weighing: &Measured<Grams>| {
        let of_best = best.map_or(100, |best| u64::from(weighing.value.0) * 100 / u64::from(best.0.max(1)));
        let weight = Quantity::weight(Band::exactly(weighing.value));
        Item::plain(phrase::weighed(Text::day(weighing.at), weight, of_best))
    };
    weights.iter().map(line).chain(weight_course(&weights, no_vet)).collect()
}

fn per_day(slope: f64) -> Phrase {
    let slope = slope.round();
    if slope == 0.0 {
        phrase::no_gain()
    } else {
        phrase::per_day(Quantity::one(Decimal::change(slope, 0), UnitOf::GramsADay))
    }
}

/// What her weights come to; nothing of fewer than two.
pub(super) fn weight_course(weights: &[Measured<Grams>], no_vet: bool) -> Option<Item<Text>> {
    let gone = course::weight_course(weights)?;
    let slope = gone.slope.map(per_day);
    let lost =
        if gone.lost_permille <= 0 { phrase::best_weight() } else { phrase::loss(means::weight(gone.step, no_vet)) };
    Some(Item::with(Text::row(slope.into_iter().chain([lost])), phrase::weights_known(), &[]))
}

fn sizes(protocol: &Protocol, log: &[Stamped], days: &Days, wound: usize) -> Vec<Item<Text>> {
    let sizes = course::sizes(protocol, log, wound);
    let line = |size: &Measured<Lines>| {
        let area = size.value.area_read();
        let lines = Text::typed(size.value.write());
        Item::plain(phrase::size(Text::day(size.at), lines, area.low.0, area.high.0))
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
) -> Option<Item<Text>> {
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
pub fn moved(advance: Band<f64>) -> Phrase {
    let (low, high) = (advance.low, advance.high);
    let millimetres = |far: f64| Text::from(Quantity::one(Decimal::rounded(far, 1), UnitOf::Millimetres));
    match (low < 0.0, high < 0.0) {
        (false, _) => phrase::edge_in(millimetres(low), millimetres(high)),
        (true, true) => phrase::edge_out(millimetres(-high), millimetres(-low)),
        (true, false) => phrase::edge_between(millimetres(-low), millimetres(high)),
    }
}

fn healed(course: &WoundCourse) -> Item<Text> {
    let advance = course.advance.map(|come| phrase::moved_in(moved(come), course.days));
    let closes = course.closes_in.map(|days| phrase::may_close(days.low, days.high));
    let flag = course.flag.map(|flag| match flag {
        Flag::GrewAfterDay3 => phrase::grew(),
        Flag::NotSmallerByDay7 => phrase::not_smaller(),
    });
    let said = Text::clauses([advance, closes, flag].into_iter().flatten());
    Item::with(words::ended(Text::opening(said)), phrase::sizes_known(), &[])
}
