//! The plan as a document: what to do, never, by when; when to look again; the days after, and a humane end in question.

use super::document::{self, Item, Section, Tone, paragraphs, section, topic};
use super::together::{Said, of_some, together};
use super::{law, steps, terms, why};
use crate::care::timetable::Look;
use crate::care::{self, Plan};
use crate::finding::Findings;
use crate::judge::{Reason, Target};
use crate::phrase::{Phrase, Text, plan as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::scale::{Humane, Need};
use crate::protocol::supply::RoundAt;
use crate::protocol::texts::{Country, LawOn, Under};
use crate::prove::Exact;
use crate::words::Reader;
use chrono::TimeDelta;
use std::collections::BTreeSet;

/// The plan: what to do, never, by when; the humane-end text where it has come into question.
pub fn sections(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Exact,
    plan: &Plan,
    reader: Reader,
) -> Vec<Section<Text>> {
    let country = reader.country;
    let watch = plan.watch.iter().map(|(sign, why)| {
        let say = Text::quoted(&protocol.watch(*sign).say);
        Item { why: why.clone(), ..Item::plain(say) }
    });
    let humane_end = plan.humane.map(|rung| humane(protocol, verdict, country, rung));
    // What decides stands first.
    let (first, then) = if plan.ends() { (humane_end, None) } else { (None, humane_end) };
    let days_after = if plan.ends() { Vec::new() } else { paragraphs(protocol, verdict, Under::DaysAfter) };
    let asking = if plan.phoned { paragraphs(protocol, verdict, Under::Asking) } else { Vec::new() };
    let mut sections = vec![first];
    sections.extend(steps::sections(protocol, findings, verdict, plan, &|text| reader.say(text)));
    sections.extend([
        section(phrase::heading_due(), Tone::Plain, due(plan, verdict)),
        section(phrase::heading_never(), Tone::Never, nevers(protocol, verdict, plan)),
        section(phrase::heading_waiting(), Tone::Plain, waiting(protocol, verdict, plan)),
        section(phrase::heading_looks(), Tone::Plain, look_lines(protocol, verdict, plan)),
        section(phrase::heading_watch(), Tone::Plain, watch.collect()),
        then,
        section(phrase::heading_eggs(), Tone::Plain, withheld(protocol, plan, country)),
        section(phrase::heading_pain(), Tone::Plain, paragraphs(protocol, verdict, Under::Pain)),
        section(phrase::heading_asking(), Tone::Plain, asking),
        section(phrase::heading_people(), Tone::Plain, paragraphs(protocol, verdict, Under::People)),
        section(phrase::heading_days_after(), Tone::Plain, days_after),
        section(phrase::heading_law(), Tone::Plain, law::limits(country, &law::matters(verdict, plan))),
        section(phrase::heading_left_out(), Tone::Plain, left_out(protocol, verdict)),
        document::caution(country),
    ]);
    sections.into_iter().flatten().collect()
}

/// What something else keeps from being done.
fn left_out(protocol: &Protocol, verdict: &Exact) -> Vec<Item<Text>> {
    let dropped = verdict.dropped.iter();
    dropped
        .map(|dropped| Item::with(care::line(protocol, verdict, dropped.target), Text::quoted(&dropped.because), &[]))
        .collect()
}

/// From when eggs and meat are withheld, and what the law adds. The day on which they are free again only a vet can name.
fn withheld(protocol: &Protocol, plan: &Plan, country: &Country) -> Vec<Item<Text>> {
    if plan.withheld.is_empty() {
        return Vec::new();
    }
    let names = Text::list_ended(plan.withheld.iter().map(|at| Text::quoted(&protocol.supply(*at).name)));
    let first = Item {
        lead: phrase::withheld().into(),
        more: vec![phrase::used(names).into(), Text::quoted(&protocol.withheld_until)],
        ..Item::default()
    };
    [first].into_iter().chain(law::limits(country, &[LawOn::EggsAndMeat])).collect()
}

/// What never to do, once for all the wounds it is said of.
pub(super) fn nevers(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Vec<Item<Text>> {
    let said = plan.never.iter().map(|(target, why)| (*target, why.clone()));
    let item = |said: Said<Vec<Reason>>| {
        let of = Target { action: said.action, wound: said.wounds.first().copied() };
        let why = said.of_each.concat();
        let instead = verdict.fitting.why_not(protocol, of);
        let instead = instead.map(|(why, instead)| phrase::instead(Text::quoted(why), going_on(instead)));
        let until = care::until(protocol, &verdict.fitting, of, &why, plan.no_vet);
        Item {
            lead: of_some(verdict, &said.wounds, phrase::never(going_on(verdict.fitting.never(protocol, of)))),
            more: instead.into_iter().chain(until).map(Text::from).collect(),
            why,
            ..Item::default()
        }
    };
    let fitting = &verdict.fitting;
    let alike =
        |target| (fitting.never(protocol, target), fitting.why_not(protocol, target), fitting.until(protocol, target));
    together(said, alike).into_iter().map(item).collect()
}

/// What the protocol says, going on after what introduces it.
pub(super) fn going_on(said: &str) -> Text {
    Text::going_on(Text::quoted(said))
}

/// What waits for an answer, by the answers it waits for.
fn waiting(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Vec<Item<Text>> {
    let waiting = plan.waiting.iter().map(|waiting| (waiting.target, waiting.ask.clone()));
    let said = together(waiting, |target| verdict.fitting.say(protocol, target));
    let mut by_ask: Vec<(BTreeSet<Asked>, Vec<Text>)> = Vec::new();
    for Said { action, wounds, of_each } in said {
        let ask: BTreeSet<Asked> = of_each.into_iter().flatten().collect();
        let of = Target { action, wound: wounds.first().copied() };
        let meanwhile = protocol.action(action).meanwhile.as_str();
        let say = Text::row([verdict.fitting.say(protocol, of), meanwhile].map(Text::quoted));
        let line = of_some(verdict, &wounds, say);
        match by_ask.iter_mut().find(|(before, _)| *before == ask) {
            Some((_, lines)) => lines.push(line),
            None => by_ask.push((ask, vec![line])),
        }
    }
    let item = |(ask, lines): (BTreeSet<Asked>, Vec<Text>)| {
        let shown = Text::list_ended(ask.iter().take(TOPICS_SHOWN).map(|asked| topic(protocol, *asked)));
        let lead = match ask.len().saturating_sub(TOPICS_SHOWN) {
            0 => phrase::first_answer(shown),
            more => phrase::first_answer_more(shown, more),
        };
        Item { lead: lead.into(), more: lines, ..Item::default() }
    };
    by_ask.into_iter().map(item).collect()
}

/// By when what has to be done; what only a vet can do is asked for by phone where none can be reached.
fn due(plan: &Plan, verdict: &Exact) -> Vec<Item<Text>> {
    let line = |due: &care::Due, lead| Item { lead, why: vec![due.reason], ..Item::default() };
    if !verdict.no_vet() {
        // Beside "now" an hour still to come would read as leave to wait.
        let now = (verdict.need.low == Need::Now).then(phrase::due_now);
        let told = |due: &care::Due| match &now {
            Some(now) => Text::row([now.clone(), due_line(due)]),
            None => due_line(due).into(),
        };
        return plan.due.iter().map(|due| line(due, told(due))).collect();
    }
    let ask = |due: &care::Due| match (due.by, due.past) {
        (Some(by), false) => phrase::phone_by(Text::clock(by)),
        (Some(_), true) | (None, _) => phrase::phone_past(),
    };
    plan.due.first().map(|due| line(due, ask(due).into())).into_iter().collect()
}

/// By when something has to be done, in a line.
pub(super) fn due_line(due: &care::Due) -> Phrase {
    let what = Text::quoted(&due.what);
    match (due.by, due.past) {
        (Some(by), false) => phrase::due_by(Text::clock(by), what),
        (Some(_), true) => phrase::due_past(what),
        (None, _) => phrase::due_unknown(what),
    }
}

/// At most this many questions an action waits for are named; the rest are counted.
const TOPICS_SHOWN: usize = 5;

/// At most this many looks are spelled out; the rest are counted.
const LOOKS_SHOWN: usize = 8;
/// Those of so long a time after are told by the clock: whoever sleeps finds a cold bottle.
const NIGHT: TimeDelta = TimeDelta::hours(12);

/// One timetable: when, and what at. Where nothing but the signs is looked for, the times stand in one line.
fn look_lines(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Vec<Item<Text>> {
    let looks = &plan.looks;
    let shown = looks.get(..LOOKS_SHOWN).unwrap_or(looks);
    let times = clock_times(shown);
    let mut items = Vec::new();
    if looks.iter().all(|look| look.rounds.is_empty()) {
        if !shown.is_empty() {
            items.push(Item { why: plan.looks_because.clone(), ..Item::plain(Text::List(times)) });
        }
    } else {
        items.extend(shown.iter().zip(times).map(|(look, time)| {
            let why = if look.signs { plan.looks_because.clone() } else { Vec::new() };
            Item { why, ..Item::plain(words::named(time, topics(protocol, look))) }
        }));
    }
    if !shown.is_empty() && plan.humane.is_some() {
        // People mostly decide too late, so the question comes back by itself.
        items.push(Item::plain(Text::quoted(&protocol.each_look)));
    }
    if plan.looks_gone > 0 {
        items.push(Item::plain(phrase::looks_gone(Text::clock(verdict.answered_at))));
    }
    if let Some(night) = plan.nights.first() {
        items.push(Item::plain(phrase::night(Text::clock(night.from), Text::clock(night.until))));
    }
    items.extend(looks_after(looks));
    items.extend(rounds(protocol, looks));
    items
}

/// The looks after those told one by one: through the first night by the clock, then how many.
fn looks_after(looks: &[Look]) -> Option<Item<Text>> {
    let after = looks.get(LOOKS_SHOWN..).filter(|after| !after.is_empty())?;
    let until = after.first()?.at + NIGHT;
    let (tonight, later) = after.split_at(after.partition_point(|look| look.at <= until));
    let times = Text::List(clock_times(tonight));
    Some(Item::plain(match later.last() {
        None => phrase::looks_after(times),
        Some(last) => phrase::looks_after_more(times, later.len(), Text::day(last.at)),
    }))
}

/// Clock times; the day is told where it changes.
fn clock_times(looks: &[Look]) -> Vec<Text> {
    let before = std::iter::once(None).chain(looks.iter().map(|look| Some(look.at)));
    looks.iter().zip(before).map(|(look, before)| Text::clock_after(look.at, before)).collect()
}

/// What is looked at, in a word or three each.
fn topics(protocol: &Protocol, look: &Look) -> Text {
    let rounds = look.rounds.iter().map(|round| Text::quoted(&protocol.round(*round).topic));
    Text::list(rounds.chain(look.signs.then(|| phrase::all_signs().into())))
}

/// What is meant by each of them, and what ends home care.
fn rounds(protocol: &Protocol, looks: &[Look]) -> Vec<Item<Text>> {
    let named: BTreeSet<_> = looks.iter().flat_map(|look| &look.rounds).collect();
    let told = |round: &RoundAt| {
        let round = protocol.round(*round);
        let rests = why::cite(protocol, round.source, round.strength);
        Item {
            lead: Text::opening(words::named(Text::quoted(&round.topic), Text::quoted(&round.say))),
            more: vec![Text::quoted(&round.stop)],
            asked: vec![terms::rests_on(rests, round.borrowed.as_deref()).into()],
            ..Item::default()
        }
    };
    named.into_iter().map(told).collect()
}

fn humane(protocol: &Protocol, verdict: &Exact, country: &Country, rung: Humane) -> Section<Text> {
    let lead = Item::plain(match rung {
        Humane::NotInQuestion => phrase::humane_not(),
        Humane::MayComeIntoQuestion => phrase::humane_may(),
        Humane::AdvisedUnlessVet => phrase::humane_unless(),
        Humane::Advised => phrase::humane_advised(),
    });
    let talk = Item::plain(words::talk());
    let told = paragraphs(protocol, verdict, Under::HumaneEnd);
    let limit = |item: Item<Text>| Item { lead: phrase::limit(item.lead).into(), ..item };
    let limits = law::limits(country, &[LawOn::HumaneEnd]).into_iter().map(limit);
    let limits = limits.chain(law::limits(country, &[LawOn::Disposal]));
    let items = [lead, talk].into_iter().chain(told).chain(limits).collect();
    Section { heading: phrase::heading_humane().into(), tone: Tone::Grave, items }
}
