//! A verdict and its plan as headed lists of lines: the one text that panes and exports show.

use super::why;
use crate::care::{self, Plan, Step};
use crate::finding::About;
use crate::judge::{Level, Reason, Verdict};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need, Severity};
use chrono::{DateTime, FixedOffset, Utc};

/// What a section is for; a pane may mark it, words always say it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// To be read in order.
    Plain,
    /// To be done.
    Act,
    /// Never to be done.
    Never,
    /// A humane end.
    Grave,
    /// The caution that stands on everything.
    Caution,
}

/// A headed list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// Its heading, in capitals.
    pub heading: String,
    /// What it is for.
    pub tone: Tone,
    /// Its lines.
    pub items: Vec<Item>,
}

/// A line, what belongs under it, and the rules behind it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// The line itself.
    pub lead: String,
    /// More, in smaller type as it were.
    pub more: Vec<String>,
    /// The rules it rests on.
    pub why: Vec<Reason>,
}

impl Item {
    fn plain(lead: impl Into<String>) -> Self {
        Self { lead: lead.into(), more: Vec::new(), why: Vec::new() }
    }

    fn with(lead: impl Into<String>, more: impl Into<String>, why: &[Reason]) -> Self {
        Self { lead: lead.into(), more: vec![more.into()], why: why.to_vec() }
    }
}

fn section(heading: &str, tone: Tone, items: Vec<Item>) -> Option<Section> {
    (!items.is_empty()).then(|| Section { heading: heading.to_owned(), tone, items })
}

/// A scale's band in words: one rung where both ends agree, else what stands and what could still come.
pub fn band<T: Copy + PartialEq + Default>(level: Level<T>, words: impl Fn(T) -> &'static str) -> String {
    if level.low == level.high {
        words(level.low).to_owned()
    } else if level.low == T::default() {
        format!("{} so far; open questions could mean: {}", words(level.low), words(level.high))
    } else {
        format!("at least {}; at most {}", words(level.low), words(level.high))
    }
}

/// The verdict: the three scales, severity, why, what is open.
pub fn verdict(protocol: &Protocol, verdict: &Verdict) -> Vec<Section> {
    let because = |moves: &dyn Fn(&Rule) -> bool| because(protocol, verdict, moves);
    let scales = vec![
        Item {
            why: because(&|rule| rule.need.is_some()),
            ..Item::plain(format!("Need: {}", band(verdict.need, Need::words)))
        },
        Item {
            why: because(&|rule| rule.humane.is_some()),
            ..Item::plain(format!("Humane end: {}", band(verdict.humane, Humane::words)))
        },
        Item {
            why: because(&|rule| rule.authority.is_some()),
            ..Item::plain(format!("Animal-health authority: {}", band(verdict.authority, Authority::words)))
        },
    ];
    let why = verdict.reasons.iter().filter(|reason| moves_a_scale(protocol, **reason)).map(|reason| Item {
        lead: upper_first(&format!("{}: {}", why::consequence(protocol, *reason), why::headline(protocol, *reason))),
        more: Vec::new(),
        why: vec![*reason],
    });
    let mut sections = vec![
        section("VERDICT", Tone::Plain, scales),
        section("WHY", Tone::Plain, why.collect()),
        section("STILL OPEN", Tone::Plain, still_open(protocol, verdict)),
        section("BY PART OF THE BODY (no odds of survival)", Tone::Plain, severity(protocol, verdict)),
        section("DO NOT FIT TOGETHER", Tone::Plain, verdict.clashes.iter().map(Item::plain).collect()),
        section(
            "NOT UNDERSTOOD BY THIS PROTOCOL, COUNTED AS CANNOT TELL",
            Tone::Plain,
            verdict.not_understood.iter().map(Item::plain).collect(),
        ),
    ];
    sections.push(caution(protocol));
    sections.into_iter().flatten().collect()
}

/// Severity where something was found; the systems of which nothing is known yet in one line.
fn severity(protocol: &Protocol, verdict: &Verdict) -> Vec<Item> {
    let found = |level: &Level<Severity>| level.low > Severity::Nothing;
    let told = verdict.severity.iter().filter(|(_, level)| found(level));
    let mut items: Vec<Item> = told
        .map(|(system, level)| Item {
            why: because(protocol, verdict, &|rule| rule.severity.iter().any(|(of, _)| of == system)),
            ..Item::plain(format!("{}: {}", system.words(), band(*level, Severity::words)))
        })
        .collect();
    let unknown: Vec<String> = verdict
        .severity
        .iter()
        .filter(|(_, level)| !found(level))
        .map(|(system, _)| system.words().to_owned())
        .collect();
    if !unknown.is_empty() {
        items.push(Item::plain(format!("nothing found so far, not all looked at: {}", list(&unknown))));
    }
    items
}

/// The rules in force that do a certain thing, gravest first.
fn because(protocol: &Protocol, verdict: &Verdict, does: &dyn Fn(&Rule) -> bool) -> Vec<Reason> {
    verdict.reasons.iter().copied().filter(|reason| does(protocol.rule(reason.rule))).collect()
}

fn moves_a_scale(protocol: &Protocol, reason: Reason) -> bool {
    let rule = protocol.rule(reason.rule);
    rule.need.is_some() || rule.humane.is_some() || rule.authority.is_some()
}

fn still_open(protocol: &Protocol, verdict: &Verdict) -> Vec<Item> {
    let mut items = Vec::new();
    if !verdict.held.is_empty() {
        let ask: Vec<String> =
            verdict.held.iter().flat_map(|held| &held.ask).map(|asked| topic(protocol, *asked)).collect();
        items.push(Item::with("Ask next: whether a humane end is in question turns on it.", list(&dedup(ask)), &[]));
    }
    if verdict.open_wounds {
        items.push(Item::plain("The look-over for wounds is not finished."));
    }
    if !verdict.open.is_empty() {
        let topics: Vec<String> = verdict.open.iter().map(|asked| topic(protocol, *asked)).collect();
        let count = verdict.open.len();
        let lead = format!("{count} {} could make this worse:", if count == 1 { "question" } else { "questions" });
        items.push(Item::with(lead, list(&topics), &[]));
    }
    items
}

fn dedup(mut items: Vec<String>) -> Vec<String> {
    items.dedup();
    items
}

fn list(items: &[String]) -> String {
    format!("{}.", items.join(", "))
}

/// A question's topic, with its wound where it belongs to one.
pub fn topic(protocol: &Protocol, asked: Asked) -> String {
    let topic = &protocol.ask(asked.question).topic;
    match asked.about {
        About::Bird => topic.clone(),
        About::Wound(number) => format!("wound {}: {topic}", number + 1),
    }
}

/// The plan: what to do, never, by when; the humane-end text where it has come into question.
pub fn plan(protocol: &Protocol, verdict: &Verdict, plan: &Plan, zone: FixedOffset) -> Vec<Section> {
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
        let instead = format!("Instead: {}", protocol.action(target.action).instead);
        Item::with(format!("Never: {}", lower_first(&care::line(protocol, verdict, *target))), instead, why)
    });
    let waiting = plan.waiting.iter().map(|waiting| {
        let topics: Vec<String> = waiting.ask.iter().map(|asked| topic(protocol, *asked)).collect();
        Item::with(care::line(protocol, verdict, waiting.target), format!("First answer: {}", list(&topics)), &[])
    });
    let due = plan.due.iter().map(|due| Item { lead: due_line(due, zone), more: Vec::new(), why: vec![due.reason] });
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
        plan.humane.map(|rung| humane(protocol, rung)),
        section("LOOK AGAIN", Tone::Plain, look_lines(plan, zone)),
        section("PHONE AT ONCE IF ANY OF THIS IS NEW", Tone::Plain, watch.collect()),
        section("LEFT OUT ON PURPOSE", Tone::Plain, dropped.collect()),
        caution(protocol),
    ];
    sections.into_iter().flatten().collect()
}

fn due_line(due: &crate::care::Due, zone: FixedOffset) -> String {
    match (due.by, due.past) {
        (Some(by), false) => format!("At the latest about {}: {}.", clock(by, zone), due.what),
        (Some(by), true) => format!("At once: {} (the hour was about {}).", due.what, clock(by, zone)),
        (None, _) => format!("At once, since nobody knows when it happened: {}.", due.what),
    }
}

/// At most this many looks are spelled out; the rest are counted.
const LOOKS_SHOWN: usize = 8;

fn look_lines(plan: &Plan, zone: FixedOffset) -> Vec<Item> {
    let looks = &plan.looks;
    let shown: Vec<String> = looks.iter().take(LOOKS_SHOWN).map(|at| clock(*at, zone)).collect();
    let mut items = Vec::new();
    if !shown.is_empty() {
        items.push(Item { why: plan.looks_because.clone(), ..Item::plain(shown.join(", ")) });
    }
    if plan.looks_gone > 0 {
        let looks = if plan.looks_gone == 1 { "1 look has" } else { &format!("{} looks have", plan.looks_gone) };
        items.push(Item::plain(format!("{looks} gone by: look at her now")));
    }
    if let (Some(last), true) = (looks.last(), looks.len() > LOOKS_SHOWN) {
        items.push(Item::plain(format!("and {} more until {}", looks.len() - LOOKS_SHOWN, clock(*last, zone))));
    }
    items
}

fn humane(protocol: &Protocol, rung: Humane) -> Section {
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
    let told = protocol.humane.iter().map(|paragraph| {
        let rests_on = why::cite(protocol, &paragraph.source, paragraph.strength);
        let more = paragraph.lines.iter().cloned().chain([format!("Rests on: {rests_on}.")]).collect();
        Item { lead: format!("{}:", paragraph.title), more, why: Vec::new() }
    });
    let items = [lead, talk].into_iter().chain(told).collect();
    Section { heading: "HUMANE END".into(), tone: Tone::Grave, items }
}

/// The caution, which stands on everything that leaves the program.
pub fn caution(protocol: &Protocol) -> Option<Section> {
    section("CAUTION", Tone::Caution, vec![Item::plain(&protocol.caution)])
}

/// A text with its first letter small, for going on after "Never:".
pub fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// A text with its first letter large.
pub fn upper_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// A moment as people say it: weekday and wall time.
pub fn clock(at: DateTime<Utc>, zone: FixedOffset) -> String {
    at.with_timezone(&zone).format("%a %H:%M").to_string()
}
