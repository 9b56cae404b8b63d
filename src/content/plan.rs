//! The plan as a document: what to do, never, by when; when to look again; the days after, and a humane end in question.

use super::document::{Item, Section, Tone, lower_first, section, upper_first};
use super::together::{Said, together, whose};
use super::{law, steps};
use crate::care::timetable::Look;
use crate::care::{self, Plan};
use crate::content::old::{list, paragraphs, topic};
use crate::finding::Findings;
use crate::judge::{Reason, Target};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::scale::{Humane, Need, TALK};
use crate::protocol::supply::RoundAt;
use crate::protocol::texts::{Country, LawOn, Under};
use crate::prove::Exact;
use crate::words::Reader;
use crate::zone::Zone;
use chrono::TimeDelta;
use std::collections::BTreeSet;

/// The plan: what to do, never, by when; the humane-end text where it has come into question.
pub fn sections(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Exact,
    plan: &Plan,
    reader: Reader,
) -> Vec<Section> {
    let Reader { zone, country, .. } = reader;
    let due = due(plan, verdict, zone);
    let dropped = verdict
        .dropped
        .iter()
        .map(|dropped| Item::with(care::line(protocol, verdict, dropped.target), &dropped.because, &[]));
    let watch =
        plan.watch.iter().map(|(sign, why)| Item { why: why.clone(), ..Item::plain(&protocol.watch(*sign).say) });
    let humane_end = plan.humane.map(|rung| humane(protocol, verdict, country, rung));
    // What decides stands first.
    let (first, then) = if plan.ends() { (humane_end, None) } else { (None, humane_end) };
    let days_after = if plan.ends() { Vec::new() } else { paragraphs(protocol, verdict, Under::DaysAfter) };
    let asking = if plan.phoned { paragraphs(protocol, verdict, Under::Asking) } else { Vec::new() };
    let mut sections = vec![first];
    sections.extend(steps::sections(protocol, findings, verdict, plan));
    sections.extend([
        section("BY WHEN", Tone::Plain, due),
        section("NEVER", Tone::Never, nevers(protocol, verdict, plan)),
        section("NOT BEFORE A QUESTION IS ANSWERED", Tone::Plain, waiting(protocol, verdict, plan)),
        section("LOOK AGAIN", Tone::Plain, look_lines(protocol, plan, zone)),
        section("PHONE AT ONCE IF ANY OF THIS IS NEW OR WORSE", Tone::Plain, watch.collect()),
        then,
        section("EGGS AND MEAT", Tone::Plain, withheld(protocol, plan, country)),
        section("PAIN", Tone::Plain, paragraphs(protocol, verdict, Under::Pain)),
        section("ASKING A VET", Tone::Plain, asking),
        section("PEOPLE", Tone::Plain, paragraphs(protocol, verdict, Under::People)),
        section("THE DAYS AFTER", Tone::Plain, days_after),
        section("LAW", Tone::Plain, law::limits(country, &law::matters(verdict, plan))),
        section("LEFT OUT ON PURPOSE", Tone::Plain, dropped.collect()),
        crate::content::old::caution(country),
    ]);
    sections.into_iter().flatten().collect()
}

/// From when eggs and meat are withheld, and what the law adds. The day on which they are free again only a vet can name.
fn withheld(protocol: &Protocol, plan: &Plan, country: &Country) -> Vec<Item> {
    if plan.withheld.is_empty() {
        return Vec::new();
    }
    let names: Vec<String> = plan.withheld.iter().map(|at| protocol.supply(*at).name.clone()).collect();
    let first = Item {
        lead: "Nobody eats her eggs or meat from the first use on.".to_owned(),
        more: vec![format!("Used: {}", list(&names)), protocol.withheld_until.clone()],
        ..Item::default()
    };
    [first].into_iter().chain(law::limits(country, &[LawOn::EggsAndMeat])).collect()
}

/// What never to do, once for all the wounds it is said of.
pub(super) fn nevers(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Vec<Item> {
    let said = plan.never.iter().map(|(target, why)| (*target, why.clone()));
    let item = |said: Said<Vec<Reason>>| {
        let action = protocol.action(said.action);
        let of = Target { action: said.action, wound: said.wounds.first().copied() };
        let told = verdict.fitting.why_not(protocol, of);
        let instead =
            told.map_or_else(String::new, |(why, instead)| format!("{why} Instead: {}", lower_first(instead)));
        let until = care::until(protocol, &verdict.fitting, of, &said.of_each.concat(), plan.no_vet);
        let lead = format!("{}Never: {}", whose(verdict, &said.wounds), lower_first(action.never()));
        let item = Item::with(lead, instead, &said.of_each.concat());
        Item { more: item.more.into_iter().chain(until).collect(), ..item }
    };
    let alike = |target| (verdict.fitting.why_not(protocol, target), verdict.fitting.until(protocol, target));
    together(said, alike).into_iter().map(item).collect()
}

/// What waits for an answer, by the answers it waits for.
fn waiting(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Vec<Item> {
    let waiting = plan.waiting.iter().map(|waiting| (waiting.target, waiting.ask.clone()));
    let said = together(waiting, |target| verdict.fitting.say(protocol, target));
    let mut by_ask: Vec<(BTreeSet<Asked>, Vec<String>)> = Vec::new();
    for Said { action, wounds, of_each } in said {
        let ask: BTreeSet<Asked> = of_each.into_iter().flatten().collect();
        let of = Target { action, wound: wounds.first().copied() };
        let meanwhile = match protocol.action(action).meanwhile.as_str() {
            "" => String::new(),
            meanwhile => format!(" {meanwhile}"),
        };
        let line = format!("{}{}{meanwhile}", whose(verdict, &wounds), verdict.fitting.say(protocol, of));
        match by_ask.iter_mut().find(|(before, _)| *before == ask) {
            Some((_, lines)) => lines.push(line),
            None => by_ask.push((ask, vec![line])),
        }
    }
    let item = |(ask, lines): (BTreeSet<Asked>, Vec<String>)| {
        let topics: Vec<String> = ask.iter().map(|asked| topic(protocol, *asked)).collect();
        let more = topics.len().saturating_sub(TOPICS_SHOWN);
        let shown = list(topics.get(..TOPICS_SHOWN).unwrap_or(&topics));
        let rest = if more > 0 { format!(" And {more} more.") } else { String::new() };
        Item { lead: format!("First answer: {shown}{rest} Then:"), more: lines, ..Item::default() }
    };
    by_ask.into_iter().map(item).collect()
}

/// By when what has to be done; what only a vet can do is asked for by phone where none can be reached.
fn due(plan: &Plan, verdict: &Exact, zone: Zone) -> Vec<Item> {
    let line = |due: &care::Due, lead| Item { lead, why: vec![due.reason], ..Item::default() };
    if !verdict.no_vet() {
        // Beside "now" an hour still to come would read as leave to wait.
        let now = if verdict.need.low == Need::Now { "Now. Tell the vet too. " } else { "" };
        return plan.due.iter().map(|due| line(due, format!("{now}{}", due_line(due, zone)))).collect();
    }
    let ask = |due: &care::Due| match (due.by, due.past) {
        (Some(by), false) => format!("Phone for advice by about {} at the latest. Sooner is better.", zone.clock(by)),
        (Some(_), true) | (None, _) => "Phone for advice as soon as can be: its best hours may be gone.".to_owned(),
    };
    plan.due.first().map(|due| line(due, ask(due))).into_iter().collect()
}

/// By when something has to be done, in a line.
pub(super) fn due_line(due: &crate::care::Due, zone: Zone) -> String {
    match (due.by, due.past) {
        (Some(by), false) => format!("At the latest about {}: {}. Sooner is better.", zone.clock(by), due.what),
        (Some(_), true) => format!("Its best hours may be gone: {}, as soon as can be.", due.what),
        (None, _) => format!("Nobody knows when it happened: {}, as soon as can be.", due.what),
    }
}

/// At most this many questions an action waits for are named; the rest are counted.
const TOPICS_SHOWN: usize = 5;

/// At most this many looks are spelled out; the rest are counted.
const LOOKS_SHOWN: usize = 8;
/// Those of so long a time after are told by the clock: whoever sleeps finds a cold bottle.
const NIGHT: TimeDelta = TimeDelta::hours(12);

/// One timetable: when, and what at. Where nothing but the signs is looked for, the times stand in one line.
fn look_lines(protocol: &Protocol, plan: &Plan, zone: Zone) -> Vec<Item> {
    let looks = &plan.looks;
    let shown = looks.get(..LOOKS_SHOWN).unwrap_or(looks);
    let times = clock_times(shown, zone);
    let mut items = Vec::new();
    if looks.iter().all(|look| look.rounds.is_empty()) {
        if !shown.is_empty() {
            items.push(Item { why: plan.looks_because.clone(), ..Item::plain(times.join(", ")) });
        }
    } else {
        items.extend(shown.iter().zip(&times).map(|(look, time)| {
            let why = if look.signs { plan.looks_because.clone() } else { Vec::new() };
            Item { why, ..Item::plain(format!("{time}: {}", topics(protocol, look).join(", "))) }
        }));
    }
    if !shown.is_empty() && plan.humane.is_some() {
        // People mostly decide too late, so the question comes back by itself.
        items.push(Item::plain(&protocol.each_look));
    }
    if plan.looks_gone > 0 {
        let looks = if plan.looks_gone == 1 { "1 look has" } else { &format!("{} looks have", plan.looks_gone) };
        items.push(Item::plain(format!("{looks} gone by: look at her now")));
    }
    items.extend(looks_after(looks, zone));
    items.extend(rounds(protocol, looks));
    items
}

/// The looks after those told one by one: through the first night by the clock, then how many.
fn looks_after(looks: &[Look], zone: Zone) -> Option<Item> {
    let after = looks.get(LOOKS_SHOWN..).filter(|after| !after.is_empty())?;
    let until = after.first()?.at + NIGHT;
    let (tonight, later) = after.split_at(after.partition_point(|look| look.at <= until));
    let times = clock_times(tonight, zone).join(", ");
    let rest = later.last().map_or_else(String::new, |last| {
        format!(", and {} more until {}", later.len(), super::days::day(zone, last.at))
    });
    Some(Item::plain(format!("{times}{rest}: the same")))
}

/// Clock times; the day is told where it changes.
fn clock_times(looks: &[Look], zone: Zone) -> Vec<String> {
    let mut day = String::new();
    let time = |look: &Look| {
        let at = zone.local(look.at);
        let (today, time) = (at.format("%a").to_string(), at.format("%H:%M").to_string());
        if day == today {
            return time;
        }
        day.clone_from(&today);
        format!("{today} {time}")
    };
    looks.iter().map(time).collect()
}

/// What is looked at, in a word or three each.
fn topics(protocol: &Protocol, look: &Look) -> Vec<String> {
    let rounds = look.rounds.iter().map(|round| protocol.round(*round).topic.clone());
    rounds.chain(look.signs.then(|| "all signs below".to_owned())).collect()
}

/// What is meant by each of them, and what ends home care.
fn rounds(protocol: &Protocol, looks: &[Look]) -> Vec<Item> {
    let named: BTreeSet<_> = looks.iter().flat_map(|look| &look.rounds).collect();
    let told = |round: &RoundAt| {
        let round = protocol.round(*round);
        let borrowed = round.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
        let rests = crate::content::old::cite(protocol, protocol.source_id(round.source).as_str(), round.strength);
        Item {
            lead: format!("{}: {}", upper_first(&round.topic), round.say),
            more: vec![round.stop.clone()],
            asked: vec![format!("Rests on: {rests}{borrowed}.")],
            ..Item::default()
        }
    };
    named.into_iter().map(told).collect()
}

fn humane(protocol: &Protocol, verdict: &Exact, country: &Country, rung: Humane) -> Section {
    let lead = Item::plain(format!(
        "A humane end {}.",
        match rung {
            Humane::NotInQuestion => "is not in question",
            Humane::MayComeIntoQuestion => "may come into question",
            Humane::AdvisedUnlessVet => "is advised unless a vet can act in time",
            Humane::Advised => "is advised",
        }
    ));
    let talk = Item::plain(TALK);
    let told = paragraphs(protocol, verdict, Under::HumaneEnd);
    let limit = |item: Item| Item { lead: format!("A limit, not advice: {}", item.lead), ..item };
    let limits = law::limits(country, &[LawOn::HumaneEnd]).into_iter().map(limit);
    let limits = limits.chain(law::limits(country, &[LawOn::Disposal]));
    let items = [lead, talk].into_iter().chain(told).chain(limits).collect();
    Section { heading: "HUMANE END".into(), tone: Tone::Grave, items }
}
