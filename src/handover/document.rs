//! A verdict and its plan as headed lists of lines: the one text that panes and exports show.

use super::why;
use crate::care::{self, Plan, Step};
use crate::finding::About;
use crate::judge::{Level, Reason, Verdict};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::raw::{LawOn, Under};
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need, Severity, System};
use crate::protocol::told::{Country, Term};
use chrono::{DateTime, FixedOffset, Utc};

/// For whom a document is written: where the clock stands, and whose law holds.
#[derive(Clone, Copy, Debug)]
pub struct Reader<'p> {
    /// The wall clock's distance from UTC.
    pub zone: FixedOffset,
    /// The country, or the one that stands for none.
    pub country: &'p Country,
}

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
pub fn verdict(protocol: &Protocol, verdict: &Verdict, reader: Reader) -> Vec<Section> {
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
        section("TO COMPARE AT THE NEXT LOOK (our own words, no odds)", Tone::Plain, scores(protocol, verdict)),
        section("COULD ALSO BE", Tone::Plain, paragraphs(protocol, verdict, Under::CouldBe)),
        section("DO NOT FIT TOGETHER", Tone::Plain, verdict.clashes.iter().map(Item::plain).collect()),
        section(
            "NOT UNDERSTOOD BY THIS PROTOCOL, COUNTED AS CANNOT TELL",
            Tone::Plain,
            verdict.not_understood.iter().map(Item::plain).collect(),
        ),
    ];
    sections.push(caution(protocol, reader.country));
    sections.into_iter().flatten().collect()
}

/// Severity where something was found; the systems of which nothing is known yet in one line.
fn severity(protocol: &Protocol, verdict: &Verdict) -> Vec<Item> {
    let found = |level: &Level<Severity>| level.low > Severity::Nothing;
    let told = verdict.severity.iter().filter(|(_, level)| found(level));
    let mut items: Vec<Item> = told
        .map(|(system, level)| Item {
            why: because(protocol, verdict, &|rule| rule.severity.iter().any(|(of, _)| of == system)),
            more: severity_told(protocol, verdict, *system, level.low),
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

/// Each score with its parts; a part that is not known leaves the sum open.
fn scores(protocol: &Protocol, verdict: &Verdict) -> Vec<Item> {
    let told = verdict.scores.iter().map(|scored| {
        let score = protocol.score(scored.score);
        let sum =
            scored.total().map_or_else(|| "not complete".to_owned(), |total| format!("{total} of {}", scored.most));
        let parts = score.of.iter().zip(&scored.parts).map(|(at, points)| {
            let points = points.map_or_else(|| "not known".to_owned(), |points| points.to_string());
            format!("{}: {points}", protocol.ask(*at).topic)
        });
        let parts = list(&parts.collect::<Vec<_>>());
        Item { lead: format!("{}: {sum}", score.name), more: vec![parts, score.say.clone()], why: Vec::new() }
    });
    told.collect()
}

/// The paragraphs told under a heading, each with what it rests on.
fn paragraphs(protocol: &Protocol, verdict: &Verdict, under: Under) -> Vec<Item> {
    let told = verdict.told.iter().map(|at| protocol.paragraph(*at)).filter(|paragraph| paragraph.under == under);
    told.map(|paragraph| {
        let rests_on = why::cite(protocol, paragraph.source.as_str(), paragraph.strength);
        let borrowed = paragraph.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
        let more = paragraph.lines.iter().cloned().chain([format!("Rests on: {rests_on}{borrowed}.")]).collect();
        Item { lead: format!("{}:", paragraph.title), more, why: Vec::new() }
    })
    .collect()
}

/// What the law limits in a matter.
fn laws(country: &Country, matters: &[LawOn]) -> Vec<Item> {
    let told = matters.iter().flat_map(|matter| country.on(*matter));
    told.map(|law| Item::with(&law.say, format!("{}, {} ({}).", law.law, law.dated, law.strength.words()), &[]))
        .collect()
}

/// All that ships of a country's law, for the page where it is chosen.
pub fn country(protocol: &Protocol, country: &Country) -> Vec<Section> {
    let all = |heading: &str, matter| section(heading, Tone::Plain, laws(country, &[matter]));
    let sections = [
        section("WHOSE LAW", Tone::Plain, vec![Item::plain(upper_first(&country.name))]),
        all("LIMITS ON A HUMANE END (a limit is never advice)", LawOn::HumaneEnd),
        all("WHO MAY TREAT", LawOn::Treating),
        all("EGGS AND MEAT AFTER MEDICINE", LawOn::EggsAndMeat),
        all("REPORTING", LawOn::Reporting),
        all("A DEAD BIRD", LawOn::Disposal),
        caution(protocol, country),
    ];
    sections.into_iter().flatten().collect()
}

/// What makes a system so grave in this bird, and what else would count as the same.
fn severity_told(protocol: &Protocol, verdict: &Verdict, system: System, grade: Severity) -> Vec<String> {
    let gives = |rule: &Rule| rule.severity.contains(&(system, grade));
    let found = because(protocol, verdict, &gives).first().map(|reason| why::headline(protocol, *reason));
    let like = protocol.grades_of(system, grade).map(|words| format!("As grave as, for example: {words}."));
    found.into_iter().chain(like).collect()
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
pub fn plan(protocol: &Protocol, verdict: &Verdict, plan: &Plan, reader: Reader) -> Vec<Section> {
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
        section("LOOK AGAIN", Tone::Plain, look_lines(protocol, plan, zone)),
        section("PHONE AT ONCE IF ANY OF THIS IS NEW", Tone::Plain, watch.collect()),
        plan.humane.map(|rung| humane(protocol, verdict, country, rung)),
        section("PAIN", Tone::Plain, paragraphs(protocol, verdict, Under::Pain)),
        section("PEOPLE", Tone::Plain, paragraphs(protocol, verdict, Under::People)),
        section("THE DAYS AFTER", Tone::Plain, paragraphs(protocol, verdict, Under::DaysAfter)),
        section("LAW", Tone::Plain, laws(country, &matters(verdict))),
        section("LEFT OUT ON PURPOSE", Tone::Plain, dropped.collect()),
        caution(protocol, country),
    ];
    sections.into_iter().flatten().collect()
}

/// The matters of law a verdict touches; what limits a humane end stands with that text.
fn matters(verdict: &Verdict) -> Vec<LawOn> {
    let treated = verdict.need.low >= Need::WithinADay;
    let reported = verdict.authority.low >= Authority::Ask;
    let matters = [(LawOn::Reporting, reported), (LawOn::Treating, treated), (LawOn::EggsAndMeat, treated)];
    matters.into_iter().filter(|(_, touched)| *touched).map(|(matter, _)| matter).collect()
}

fn due_line(due: &crate::care::Due, zone: FixedOffset) -> String {
    match (due.by, due.past) {
        (Some(by), false) => format!("At the latest about {}: {}.", clock(by, zone), due.what),
        (Some(_), true) => format!("At once: {}. The best hours for it may be gone.", due.what),
        (None, _) => format!("At once, since nobody knows when it happened: {}.", due.what),
    }
}

/// At most this many questions an action waits for are named; the rest are counted.
const TOPICS_SHOWN: usize = 5;

/// At most this many looks are spelled out; the rest are counted.
const LOOKS_SHOWN: usize = 8;

fn look_lines(protocol: &Protocol, plan: &Plan, zone: FixedOffset) -> Vec<Item> {
    let looks = &plan.looks;
    let mut day = String::new();
    let shown: Vec<String> = looks
        .iter()
        .take(LOOKS_SHOWN)
        .map(|at| {
            // The day is told where it changes.
            let at = at.with_timezone(&zone);
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
        items.push(Item::plain(format!("and {} more until {}", looks.len() - LOOKS_SHOWN, clock(*last, zone))));
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
    let limits = laws(country, &[LawOn::HumaneEnd]).into_iter().map(limit);
    let limits = limits.chain(laws(country, &[LawOn::Disposal]));
    let items = [lead, talk].into_iter().chain(told).chain(limits).collect();
    Section { heading: "HUMANE END".into(), tone: Tone::Grave, items }
}

/// The caution, which stands on everything that leaves the program.
fn caution(protocol: &Protocol, country: &Country) -> Option<Section> {
    section("CAUTION", Tone::Caution, vec![Item::plain(caution_text(protocol, country))])
}

/// The caution in words, with what it says of the law.
pub fn caution_text(protocol: &Protocol, country: &Country) -> String {
    format!("{} {}", protocol.caution, country.caution)
}

/// The words in some sections that a keeper may not know, with their meaning.
pub fn glossary(protocol: &Protocol, sections: &[Section]) -> Option<Section> {
    let items: Vec<&Item> = sections.iter().flat_map(|section| &section.items).collect();
    let uses = |term: &&Term| {
        items.iter().any(|item| std::iter::once(&item.lead).chain(&item.more).any(|text| term.is_in(text)))
    };
    let told = protocol.terms.iter().filter(uses);
    let told = told.map(|term| Item::plain(format!("{}: {}.", term.term, term.means))).collect();
    section("WORDS", Tone::Plain, told)
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
