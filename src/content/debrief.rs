//! The debrief of a practice go as a document: kind in tone, the one thing to do better first.

use super::document::{self, Item, Section, Tone, section, topic};
use super::{answers, terms, why};
use crate::judge::Reason;
use crate::phrase::{Phrase, Text, debrief as says};
use crate::practice::{Advice, Debrief, Lesson, Reading, Rungs3, Seen, Trial};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::rule::{ActionAt, Rule};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::source::Strength;
use crate::protocol::texts::Country;
use std::cmp::Ordering;

/// The whole debrief.
pub fn sections(protocol: &Protocol, trial: &Trial, debrief: &Debrief, country: &Country) -> Vec<Section<Text>> {
    let lesson = trial.script.lesson();
    let teaches = lesson.map_or_else(Vec::new, |lesson| teaches(protocol, lesson));
    let sections = [
        section(says::heading_next_time(), Tone::Plain, vec![advice(protocol, debrief)]),
        section(says::heading_verdict(), Tone::Plain, verdicts(protocol, debrief)),
        section(says::heading_truth(), Tone::Plain, truth(trial, lesson)),
        section(says::heading_harm(), Tone::Never, harm(protocol, debrief)),
        section(says::heading_seen(), Tone::Plain, seen(protocol, debrief)),
        section(says::heading_order(), Tone::Plain, order(protocol, debrief)),
        section(says::heading_turned(), Tone::Plain, turned(trial, debrief)),
        section(says::heading_mentor(), Tone::Plain, teaches),
        practice(),
        document::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// What stands on everything that comes of practice.
pub fn practice() -> Option<Section<Text>> {
    section(says::heading_practice(), Tone::Caution, vec![Item::plain(says::practice())])
}

fn truth(trial: &Trial, lesson: Option<&Lesson>) -> Vec<Item<Text>> {
    vec![match lesson {
        Some(lesson) => Item::with(Text::quoted(&lesson.truth), says::trains(Text::quoted(&lesson.trains)), &[]),
        None => Item::plain(Text::quoted(&trial.script.scenario.story)),
    }]
}

/// What the protocol says, as it goes on after a colon.
fn going_on(said: &str) -> Text {
    Text::going_on(Text::quoted(said))
}

fn advice(protocol: &Protocol, debrief: &Debrief) -> Item<Text> {
    let question = |asked: Asked| says::question_was(Text::quoted(protocol.ask(asked.question).ask_of(None)));
    match debrief.advice {
        Advice::Leave(at) => Item::plain(says::leave(going_on(protocol.action(at).never()))),
        Advice::First(at) => Item::plain(says::first(going_on(&protocol.action(at).say))),
        Advice::LookFor(asked) => Item::with(says::look_for(topic(protocol, asked)), question(asked), &[]),
        Advice::TooLow => Item::plain(says::too_low()),
        Advice::DangerSignsFirst => Item::plain(says::danger_first()),
        Advice::WatchFirst => Item::plain(says::watch_first()),
        Advice::PutDown => Item::plain(says::put_down()),
        Advice::TooHigh => Item::plain(says::too_high()),
        Advice::LookOver => Item::plain(says::look_over()),
        Advice::Misread(asked) => Item::with(says::misread(topic(protocol, asked)), question(asked), &[]),
        Advice::WholeBird => {
            let names = debrief.left_out.iter().map(|step| Text::quoted(&protocol.steps.of(*step).name));
            let names: Vec<Text> = names.collect();
            let wounds = (!debrief.looked_over).then(says::not_looked_over);
            let left = (!names.is_empty()).then(|| says::nobody_looked(Text::list_ended(names)));
            Item::with(says::whole_bird(), Text::row(wounds.into_iter().chain(left)), &[])
        }
        Advice::Harder => Item::plain(says::harder()),
    }
}

fn verdicts(protocol: &Protocol, debrief: &Debrief) -> Vec<Item<Text>> {
    let (given, right) = (debrief.given, debrief.right);
    let scale = |name: Phrase, said: Phrase, is: Phrase, order: Ordering, why: Vec<Reason>| {
        let lead = match order {
            Ordering::Equal => says::said_so(name, is),
            Ordering::Less => says::said_less(name, is, said),
            Ordering::Greater => says::said_more(name, is, said),
        };
        let differs = order != Ordering::Equal;
        let told = |reason: &Reason| {
            [Text::opening(why::headline(protocol, *reason)), Text::row(why::labels(protocol, *reason))]
        };
        let mut more: Vec<Text> = why.iter().take(3).filter(|_| differs).flat_map(told).collect();
        if differs && more.is_empty() {
            more.push(says::nothing_asks_for_more().into());
        }
        Item { lead: lead.into(), more, why, ..Item::default() }
    };
    let because = |moves: &dyn Fn(&Rule) -> bool| -> Vec<Reason> {
        debrief.reference.reasons.iter().copied().filter(|reason| moves(protocol.rule(reason.rule))).collect()
    };
    let Rungs3 { need, humane, authority } = right;
    vec![
        scale(
            says::need(),
            terms::need(given.need, false),
            terms::need(need, false),
            given.need.cmp(&need),
            because(&|rule| rule.need == Some(need) && need > Need::None),
        ),
        scale(
            says::humane(),
            terms::humane(given.humane),
            terms::humane(humane),
            given.humane.cmp(&humane),
            because(&|rule| rule.humane == Some(humane) && humane > Humane::NotInQuestion),
        ),
        scale(
            says::authority(),
            terms::authority(given.authority),
            terms::authority(authority),
            given.authority.cmp(&authority),
            because(&|rule| rule.authority == Some(authority) && authority > Authority::None),
        ),
    ]
}

fn harm(protocol: &Protocol, debrief: &Debrief) -> Vec<Item<Text>> {
    let told = |at: &ActionAt| {
        let action = protocol.action(*at);
        let why = action.forbidden.iter();
        let more = why.flat_map(|why| [Text::quoted(&why.why), says::instead(going_on(&why.instead)).into()]).collect();
        Item { lead: Text::quoted(action.never()), more, ..Item::default() }
    };
    debrief.harm.iter().map(told).collect()
}

fn seen(protocol: &Protocol, debrief: &Debrief) -> Vec<Item<Text>> {
    if debrief.looks == 0 {
        return vec![Item::plain(says::no_look())];
    }
    let signs = debrief.readings.iter().filter(|reading| reading.seen != Seen::Otherwise);
    let right = signs.clone().filter(|reading| reading.seen == Seen::Right).count();
    let count = signs.count();
    let mut items = vec![match count {
        0 => Item::plain(says::no_sign()),
        _ => Item::plain(says::seen_as_they_are(right, count)),
    }];
    let (found, there) = debrief.wounds;
    if there > 0 {
        items.push(Item::plain(says::wounds_found(found, there)));
    }
    let told = |reading: &Reading| Some((!reading.is_missed(), Item::plain(read(protocol, reading)?)));
    let mut missed: Vec<_> = debrief.readings.iter().filter_map(told).collect();
    missed.sort_by_key(|(lesser, _)| *lesser);
    items.extend(missed.into_iter().map(|(_, item)| item));
    items
}

/// How a sign was read that was not read as it is.
fn read(protocol: &Protocol, reading: &Reading) -> Option<Phrase> {
    let question = protocol.ask(reading.asked.question);
    let topic = Text::opening(topic(protocol, reading.asked));
    let is = answers::of(question, &reading.truth);
    let said = reading.said.as_ref().map(|said| answers::of(question, said)).unwrap_or_default();
    Some(match reading.seen {
        Seen::Right => return None,
        Seen::Milder => says::milder(topic, is, said),
        Seen::Otherwise => says::otherwise(topic, is, said),
        Seen::CouldNotTell => says::could_not_tell(topic, is),
        Seen::Unlooked if reading.decides => says::unlooked_decides(topic, is),
        Seen::Unlooked => says::unlooked(topic, is),
    })
}

fn order(protocol: &Protocol, debrief: &Debrief) -> Vec<Item<Text>> {
    let first = if debrief.danger_first { says::danger_came_first() } else { says::danger_not_first() };
    let watch = if debrief.watched_first { says::watched_first() } else { says::not_watched_first() };
    let seconds = debrief.held.num_seconds();
    let clock = |seconds: i64| Text::Left(u64::try_from(seconds).unwrap_or(0));
    let most = clock(debrief.hold.num_seconds());
    let hand = match seconds {
        0 => says::not_held(),
        _ if debrief.held > debrief.hold => says::held_long(clock(seconds), most),
        _ => says::held_right(clock(seconds), most),
    };
    let late = debrief.late.iter().map(|late| {
        let say = going_on(&protocol.action(late.action).say);
        Item::plain(match late.looks {
            None => says::never_done(say),
            Some(looks) => says::looks_before(looks, say),
        })
    });
    let looked = (debrief.looks > 0).then_some([first, watch, hand].map(Item::plain));
    late.chain(looked.into_iter().flatten()).collect()
}

fn turned(trial: &Trial, debrief: &Debrief) -> Vec<Item<Text>> {
    let told = |(at, shows): &(chrono::DateTime<chrono::Utc>, String)| {
        let minutes = (*at - trial.began).num_minutes();
        Item::plain(match minutes {
            0 => says::at_once(going_on(shows)),
            minutes => says::after_minutes(Text::typed(minutes.to_string()), going_on(shows)),
        })
    };
    debrief.turned.iter().map(told).collect()
}

fn teaches(protocol: &Protocol, lesson: &Lesson) -> Vec<Item<Text>> {
    let told = |teaching: &crate::practice::Teaching| {
        // How well the source is known stands in the rules; here only whose word it is.
        let source = match protocol.source(&teaching.source) {
            Some(source) => Text::quoted(&source.cite),
            None => terms::strength(Strength::Practice).into(),
        };
        Item::with(Text::quoted(&teaching.say), terms::rests_on(source, None), &[])
    };
    lesson.teaches.iter().map(told).collect()
}
