//! The plan as a document: what to do, never, by when; when to look again; the days after, and a humane end in question.

use super::document::{self, Item, Reader, Section, Tone, list, lower_first, paragraphs, section, topic};
use super::law;
use crate::care::{self, Plan, Step};
use crate::judge::{Reason, Verdict};
use crate::protocol::Protocol;
use crate::protocol::raw::{LawOn, Under};
use crate::protocol::scale::Humane;
use crate::protocol::told::Country;
use crate::zone::Zone;

/// The plan: what to do, never, by when; the humane-end text where it has come into question.
pub fn sections(protocol: &Protocol, verdict: &Verdict, plan: &Plan, reader: Reader) -> Vec<Section> {
    let Reader { zone, country } = reader;
    let gravest: Vec<Reason> = verdict.reasons.first().copied().into_iter().collect();
    let steps = plan.steps.iter().map(|step| {
        let lead = step.say(protocol, verdict);
        match step {
            Step::Act(target, why) => Item::with(lead, &protocol.action(target.action).how, why),
            // The gravest rule is the reason to phone; where a call is only to be safe, the open questions are.
            Step::Phone(phone) => Item::with(lead, phone.why(), &gravest),
        }
    });
    let never = plan.never.iter().map(|(target, why)| {
        let told = protocol.action(target.action).forbidden.as_ref();
        let instead =
            told.map_or_else(String::new, |told| format!("{} Instead: {}", told.why, lower_first(&told.instead)));
        Item::with(format!("Never: {}", lower_first(&care::never_line(protocol, verdict, *target))), instead, why)
    });
    let waiting = plan.waiting.iter().map(|waiting| {
        let topics: Vec<String> = waiting.ask.iter().map(|asked| topic(protocol, *asked)).collect();
        let more = topics.len().saturating_sub(TOPICS_SHOWN);
        let shown = list(topics.get(..TOPICS_SHOWN).unwrap_or(&topics));
        let rest = if more > 0 { format!(" And {more} more.") } else { String::new() };
        Item::with(care::line(protocol, verdict, waiting.target), format!("First answer: {shown}{rest}"), &[])
    });
    let due = plan.due.iter().map(|due| Item { lead: due_line(due, zone), why: vec![due.reason], ..Item::default() });
    let dropped = verdict
        .dropped
        .iter()
        .map(|dropped| Item::with(care::line(protocol, verdict, dropped.target), &dropped.because, &[]));
    let watch =
        plan.watch.iter().map(|(sign, why)| Item { why: why.clone(), ..Item::plain(&protocol.watch(*sign).say) });
    let sections = [
        section("DO NOW, IN THIS ORDER", Tone::Act, steps.collect()),
        section("NEVER", Tone::Never, never.collect()),
        section("NOT BEFORE A QUESTION IS ANSWERED", Tone::Plain, waiting.collect()),
        section("BY WHEN", Tone::Plain, due.collect()),
        section("LOOK AGAIN", Tone::Plain, look_lines(protocol, plan, zone)),
        section("PHONE AT ONCE IF ANY OF THIS IS NEW", Tone::Plain, watch.collect()),
        plan.humane.map(|rung| humane(protocol, verdict, country, rung)),
        section("PAIN", Tone::Plain, paragraphs(protocol, verdict, Under::Pain)),
        section("PEOPLE", Tone::Plain, paragraphs(protocol, verdict, Under::People)),
        section("THE DAYS AFTER", Tone::Plain, paragraphs(protocol, verdict, Under::DaysAfter)),
        section("LAW", Tone::Plain, law::limits(country, &law::matters(verdict))),
        section("LEFT OUT ON PURPOSE", Tone::Plain, dropped.collect()),
        document::caution(protocol, country),
    ];
    sections.into_iter().flatten().collect()
}

fn due_line(due: &crate::care::Due, zone: Zone) -> String {
    match (due.by, due.past) {
        (Some(by), false) => format!("At the latest about {}: {}.", zone.clock(by), due.what),
        (Some(_), true) => format!("At once: {}. The best hours for it may be gone.", due.what),
        (None, _) => format!("At once, since nobody knows when it happened: {}.", due.what),
    }
}

/// At most this many questions an action waits for are named; the rest are counted.
const TOPICS_SHOWN: usize = 5;

/// At most this many looks are spelled out; the rest are counted.
const LOOKS_SHOWN: usize = 8;

fn look_lines(protocol: &Protocol, plan: &Plan, zone: Zone) -> Vec<Item> {
    let looks = &plan.looks;
    let mut day = String::new();
    let shown: Vec<String> = looks
        .iter()
        .take(LOOKS_SHOWN)
        .map(|at| {
            // The day is told where it changes.
            let at = zone.local(*at);
            let (today, time) = (at.format("%a").to_string(), at.format("%H:%M").to_string());
            if day == today {
                return time;
            }
            day.clone_from(&today);
            format!("{today} {time}")
        })
        .collect();
    let mut items = Vec::new();
    if !shown.is_empty() {
        items.push(Item { why: plan.looks_because.clone(), ..Item::plain(shown.join(", ")) });
    }
    if !shown.is_empty() && plan.humane.is_some() {
        // People mostly decide too late, so the question comes back by itself.
        items.push(Item::plain(&protocol.each_look));
    }
    if plan.looks_gone > 0 {
        let looks = if plan.looks_gone == 1 { "1 look has" } else { &format!("{} looks have", plan.looks_gone) };
        items.push(Item::plain(format!("{looks} gone by: look at her now")));
    }
    if let (Some(last), true) = (looks.last(), looks.len() > LOOKS_SHOWN) {
        items.push(Item::plain(format!("and {} more until {}", looks.len() - LOOKS_SHOWN, zone.clock(*last))));
    }
    items
}

fn humane(protocol: &Protocol, verdict: &Verdict, country: &Country, rung: Humane) -> Section {
    let lead = Item::plain(format!(
        "A humane end {}.",
        match rung {
            Humane::NotInQuestion => "is not in question",
            Humane::MayComeIntoQuestion => "may come into question",
            Humane::AdvisedUnlessVet => "is advised unless a vet can act in time",
            Humane::Advised => "is advised",
        }
    ));
    let talk = Item::plain("Talk to a vet or a trained, lawful person.");
    let told = paragraphs(protocol, verdict, Under::HumaneEnd);
    let limit = |item: Item| Item { lead: format!("A limit, not advice: {}", item.lead), ..item };
    let limits = law::limits(country, &[LawOn::HumaneEnd]).into_iter().map(limit);
    let limits = limits.chain(law::limits(country, &[LawOn::Disposal]));
    let items = [lead, talk].into_iter().chain(told).chain(limits).collect();
    Section { heading: "HUMANE END".into(), tone: Tone::Grave, items }
}
