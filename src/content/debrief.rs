//! The debrief of a practice go as a document: kind in tone, the one thing to do better first.

use super::document::{Item, Section, Tone, lower_first, section, upper_first};
use crate::content::old::{list, topic};
use crate::judge::Reason;
use crate::practice::{Advice, Debrief, Lesson, Reading, Rungs3, Seen, Trial};
use crate::protocol::Protocol;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::source::Strength;
use crate::words::Reader;

/// The whole debrief.
pub fn sections(protocol: &Protocol, trial: &Trial, debrief: &Debrief, reader: Reader) -> Vec<Section> {
    let lesson = trial.script.lesson();
    let sections = vec![
        section("FOR NEXT TIME, ONE THING", Tone::Plain, vec![advice(protocol, debrief)]),
        section("YOUR VERDICT BESIDE THE REFERENCE", Tone::Plain, verdicts(protocol, debrief)),
        section("WHAT WAS THE MATTER", Tone::Plain, truth(trial, lesson)),
        section("WHAT YOU DID THAT HARMS", Tone::Never, harm(protocol, debrief)),
        section("WHAT YOU SAW", Tone::Plain, seen(protocol, debrief)),
        section("WHAT CAME FIRST", Tone::Plain, order(protocol, debrief)),
        section("WHAT CAME OF IT", Tone::Plain, turned(trial, debrief)),
        section("A MENTOR WOULD SAY", Tone::Plain, lesson.map_or_else(Vec::new, |lesson| teaches(protocol, lesson))),
        section("PRACTICE", Tone::Caution, vec![Item::plain(PRACTICE)]),
        crate::content::old::caution(reader.country),
    ];
    sections.into_iter().flatten().collect()
}

/// What stands on everything that comes of practice.
pub const PRACTICE: &str =
    "A scripted bird: invented, and hurt by nobody. The reference is this program's own, no vet's.";

fn truth(trial: &Trial, lesson: Option<&Lesson>) -> Vec<Item> {
    match lesson {
        Some(lesson) => {
            vec![Item::with(lesson.truth.clone(), format!("What it trains: {}.", lesson.trains), &[])]
        }
        None => vec![Item::plain(trial.script.scenario.story.clone())],
    }
}

fn advice(protocol: &Protocol, debrief: &Debrief) -> Item {
    let say = |at| lower_first(&protocol.action(at).say);
    match debrief.advice {
        Advice::Leave(at) => Item::plain(format!("Leave this off: {}", lower_first(protocol.action(at).never()))),
        Advice::First(at) => Item::plain(format!("Before any other look: {}", say(at))),
        Advice::LookFor(asked) => {
            let ask = protocol.ask(asked.question).ask_of(None);
            Item::with(format!("Look for this: {}.", topic(protocol, asked)), format!("The question was: {ask}"), &[])
        }
        Advice::TooLow => Item::plain("You saw what there was. It means more than you said: see the reasons below."),
        Advice::DangerSignsFirst => Item::plain("Begin with the danger signs, whatever else strikes the eye."),
        Advice::WatchFirst => Item::plain("Watch her from where you stand before you take her in the hand."),
        Advice::PutDown => {
            Item::plain("Put her down sooner. What is not seen in three minutes can wait until she has rested.")
        }
        Advice::TooHigh => Item::plain("On the safe side. What was there asks for a little less."),
        Advice::LookOver => {
            Item::plain("Look her over to the end: part the feathers from neck to tail. A wound was not found.")
        }
        Advice::Misread(asked) => {
            let ask = protocol.ask(asked.question).ask_of(None);
            Item::with(
                format!("Look at this once more: {}. It was read as something it is not.", topic(protocol, asked)),
                format!("The question was: {ask}"),
                &[],
            )
        }
        Advice::WholeBird => {
            let names = debrief.left_out.iter().map(|step| protocol.steps.of(*step).name.clone());
            let names: Vec<String> = names.collect();
            let wounds = if debrief.looked_over { "" } else { "She was not looked over for wounds to the end. " };
            let left = if names.is_empty() { String::new() } else { format!("Nobody looked at: {}", list(&names)) };
            Item::with(
                "The verdict is right. Next time look at the whole bird: a wound hides.",
                format!("{wounds}{left}"),
                &[],
            )
        }
        Advice::Harder => Item::plain("Nothing. That was well done: take a harder one."),
    }
}

fn verdicts(protocol: &Protocol, debrief: &Debrief) -> Vec<Item> {
    let (given, right) = (debrief.given, debrief.right);
    let scale = |name: &str, said: &str, is: &str, order: std::cmp::Ordering, why: Vec<Reason>| {
        let lead = match order {
            std::cmp::Ordering::Equal => format!("{name}: {is}. You said so too."),
            std::cmp::Ordering::Less => format!("{name}: {is}. You said less: {said}."),
            std::cmp::Ordering::Greater => format!("{name}: {is}. You said more: {said}."),
        };
        let differs = order != std::cmp::Ordering::Equal;
        let told = |reason: &Reason| {
            let labels = crate::content::old::labels(protocol, *reason).join(" ");
            [upper_first(&crate::content::old::headline(protocol, *reason)), labels]
        };
        let mut more: Vec<String> = why.iter().take(3).filter(|_| differs).flat_map(told).collect();
        if differs && more.is_empty() {
            more.push("Nothing that was there to be found asks for more.".into());
        }
        Item { lead, more, why, ..Item::default() }
    };
    let because = |moves: &dyn Fn(&Rule) -> bool| -> Vec<Reason> {
        debrief.reference.reasons.iter().copied().filter(|reason| moves(protocol.rule(reason.rule))).collect()
    };
    let Rungs3 { need, humane, authority } = right;
    vec![
        scale(
            "Need",
            given.need.words(),
            need.words(),
            given.need.cmp(&need),
            because(&|rule| rule.need == Some(need) && need > Need::None),
        ),
        scale(
            "Humane end",
            given.humane.words(),
            humane.words(),
            given.humane.cmp(&humane),
            because(&|rule| rule.humane == Some(humane) && humane > Humane::NotInQuestion),
        ),
        scale(
            "Animal-health authority",
            given.authority.words(),
            authority.words(),
            given.authority.cmp(&authority),
            because(&|rule| rule.authority == Some(authority) && authority > Authority::None),
        ),
    ]
}

fn harm(protocol: &Protocol, debrief: &Debrief) -> Vec<Item> {
    let told = |at: &crate::protocol::rule::ActionAt| {
        let action = protocol.action(*at);
        let why = action.forbidden.as_ref();
        let more =
            why.map_or_else(Vec::new, |why| vec![why.why.clone(), format!("Instead: {}", lower_first(&why.instead))]);
        Item { lead: action.never().to_owned(), more, ..Item::default() }
    };
    debrief.harm.iter().map(told).collect()
}

fn seen(protocol: &Protocol, debrief: &Debrief) -> Vec<Item> {
    if debrief.looks == 0 {
        return vec![Item::plain("No look at her was taken, or none was written down.")];
    }
    let signs = debrief.readings.iter().filter(|reading| reading.seen != Seen::Otherwise);
    let right = signs.clone().filter(|reading| reading.seen == Seen::Right).count();
    let count = signs.count();
    let mut items = vec![match count {
        0 => Item::plain("There was no sign to be seen."),
        _ => Item::plain(format!("Seen as they are: {right} of {count} signs.")),
    }];
    let (found, there) = debrief.wounds;
    if there > 0 {
        items.push(Item::plain(format!("Wounds found: {found} of {there}.")));
    }
    let told = |reading: &Reading| {
        let question = protocol.ask(reading.asked.question);
        let is = question.words(&reading.truth);
        let said = reading.said.as_ref().map(|said| question.words(said)).unwrap_or_default();
        let how = match reading.seen {
            Seen::Right => return None,
            Seen::Milder => format!("{is}; you took it for less: {said}."),
            Seen::Otherwise => format!("{is}; you said: {said}."),
            Seen::CouldNotTell => format!("{is}; you could not tell."),
            Seen::Unlooked if reading.decides => format!("{is}; you did not look, and it decides."),
            Seen::Unlooked => format!("{is}; not looked at."),
        };
        Some((!reading.is_missed(), Item::plain(format!("{}: {how}", upper_first(&topic(protocol, reading.asked))))))
    };
    let mut missed: Vec<_> = debrief.readings.iter().filter_map(told).collect();
    missed.sort_by_key(|(lesser, _)| *lesser);
    items.extend(missed.into_iter().map(|(_, item)| item));
    items
}

fn order(protocol: &Protocol, debrief: &Debrief) -> Vec<Item> {
    let first = if debrief.danger_first {
        "The danger signs came first: right."
    } else {
        "The danger signs did not come first."
    };
    let watch = if debrief.watched_first {
        "She was watched before she was taken in the hand: right."
    } else {
        "She was taken in the hand before she had been watched."
    };
    let seconds = debrief.held.num_seconds();
    let clock = |seconds: i64| format!("{}:{:02}", seconds / 60, seconds % 60);
    let most = clock(debrief.hold.num_seconds());
    let hand = match seconds {
        0 => "She was not held.".to_owned(),
        _ if debrief.held > debrief.hold => {
            format!("Held for {} at one stretch; {most} is the most she should be.", clock(seconds))
        }
        _ => format!("Held for {} at most at one stretch, of {most}: right.", clock(seconds)),
    };
    let late = debrief.late.iter().map(|late| {
        let say = &protocol.action(late.action).say;
        Item::plain(match late.looks {
            None => format!("This was never done: {}", lower_first(say)),
            Some(1) => format!("One look came before this: {}", lower_first(say)),
            Some(looks) => format!("{looks} looks came before this: {}", lower_first(say)),
        })
    });
    let looked = (debrief.looks > 0).then_some([Item::plain(first), Item::plain(watch), Item::plain(hand)]);
    late.chain(looked.into_iter().flatten()).collect()
}

fn turned(trial: &Trial, debrief: &Debrief) -> Vec<Item> {
    let told = |(at, shows): &(chrono::DateTime<chrono::Utc>, String)| {
        let minutes = (*at - trial.began).num_minutes();
        Item::plain(match minutes {
            0 => format!("At once: {}", lower_first(shows)),
            minutes => format!("After {minutes} min: {}", lower_first(shows)),
        })
    };
    debrief.turned.iter().map(told).collect()
}

fn teaches(protocol: &Protocol, lesson: &Lesson) -> Vec<Item> {
    let told = |teaching: &crate::practice::Teaching| {
        // How well the source is known stands in the rules; here only whose word it is.
        let source = match protocol.source(&teaching.source) {
            Some(source) => source.cite.clone(),
            None => Strength::Practice.words().to_owned(),
        };
        Item::with(teaching.say.clone(), format!("Rests on: {source}."), &[])
    };
    lesson.teaches.iter().map(told).collect()
}
