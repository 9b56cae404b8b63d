//! Who is there to help: asked once, no verdict hangs on it, and each act that one pair of hands cannot do while doing the next says
//! how it is done alone and who does what where two are there.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::rolled::bird as rolled;
use crate::common::{PROTOCOL, count};
use chrono::{DateTime, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::care::plan;
use coopside::content::course::cards;
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::practice;
use coopside::protocol::cond::Cond;
use coopside::prove::judge;
use coopside::render::text;
use coopside::words::Reader;
use coopside::zone::Zone;

const ASKED: &str = "alone";

fn now() -> DateTime<Utc> {
    "2026-05-01T12:00:00Z".parse().unwrap_or_else(|error| panic!("{error}"))
}

fn birds() -> Vec<(String, Findings)> {
    let mut birds = Vec::new();
    for (name, text) in practice::shipped() {
        let (scenario, known) =
            practice::read(&PROTOCOL, name, text, now()).unwrap_or_else(|faults| panic!("\n{faults}"));
        let twin = practice::without_vet(&PROTOCOL, &scenario, &known, now());
        birds.push((name.to_owned(), known));
        birds.extend(twin.map(|twin| (format!("{name}, no vet"), twin)));
    }
    let mut rng = fastrand::Rng::with_seed(31);
    birds.extend((0..count(100, 1_000)).map(|nth| (format!("drawn {nth}"), rolled(&mut rng, now()))));
    birds
}

fn with(known: &Findings, question: &str, answer: Answer) -> Findings {
    let mut told = known.clone();
    told.say(Statement { about: About::Bird, question: question.into(), answer }, now());
    told
}

fn choice(id: &str) -> Answer {
    Answer::Choice(id.into())
}

/// The plan and its cards as they are read, each blank one.
fn told(known: &Findings) -> String {
    let verdict = judge(&PROTOCOL, known, now());
    let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), Zone::UTC);
    let reader = Reader::english(Zone::UTC, PROTOCOL.no_country());
    let cards = cards(&PROTOCOL, &verdict, &plan, &coopside::care::contacts::Contacts::default(), reader);
    let parts = cards.iter().flat_map(coopside::content::course::CourseCard::sections);
    let told = text::plan(&PROTOCOL, known, &verdict, &plan, reader) + &text::sections(&reader.sections(parts));
    told.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn no_verdict_hangs_on_who_is_there() {
    let at = PROTOCOL.question_at(ASKED).unwrap_or_else(|| panic!("nobody asks"));
    let reads = |cond: &Cond| cond.questions().contains(&at);
    let rules = PROTOCOL.rules.iter().flat_map(|rule| std::iter::once(&rule.when).chain(&rule.unless));
    assert!(!rules.into_iter().any(reads), "a rule reads it");
    let asked = PROTOCOL.questions.iter().flat_map(|question| [&question.applies, &question.moot, &question.asked_if]);
    assert!(!asked.flatten().any(reads), "a question hangs on it");
    for (name, known) in birds() {
        let verdict = judge(&PROTOCOL, &known, now());
        for answer in [choice("help"), choice("no_help"), Answer::CannotTell] {
            let other = judge(&PROTOCOL, &with(&known, ASKED, answer.clone()), now());
            let scales =
                (other.need, other.humane, other.authority) == (verdict.need, verdict.humane, verdict.authority);
            assert!(scales && other.never == verdict.never, "{name}: {answer:?}");
            assert!(other.acts == verdict.acts && other.waiting == verdict.waiting, "{name}: {answer:?}");
            assert!(other.looks == verdict.looks && other.watch == verdict.watch, "{name}: {answer:?}");
            assert!(other.steady == verdict.steady && other.later == verdict.later, "{name}: {answer:?}");
            let weighed = other.idle.iter().all(|(asked, _)| asked.question != at);
            assert!(weighed, "{name}: what was told is called idle");
        }
    }
}

#[test]
fn each_act_of_two_hands_is_worded_for_whoever_is_there() {
    let at = PROTOCOL.question_at(ASKED).unwrap_or_else(|| panic!("nobody asks"));
    for action in &PROTOCOL.actions {
        let alone =
            action.undoable.contains("Alone?") || action.say.contains("Alone?") || action.how.contains("Alone?");
        let by_hands = action.hands.iter().map(|hands| &hands.when);
        let by_fits = action.fits.iter().map(|fit| &fit.when);
        let worded = by_hands.chain(by_fits).any(|cond| cond.questions().contains(&at));
        assert!(!alone || worded, "{}", action.id);
    }
    for (name, known) in birds() {
        let alone = told(&with(&known, ASKED, choice("no_help")));
        for of_two in
            ["Two of you", "someone else drives", "One drives, one", "Not alone?", "Fetch a driver", "They drive"]
        {
            assert!(!alone.contains(of_two), "{name}, alone: {of_two}");
        }
        let helped = told(&with(&known, ASKED, choice("help")));
        for of_one in ["Alone?", "Two of you", "Speaker on", "speaker on"] {
            let fit = of_one.ends_with("peaker on") && helped.contains("Phone meanwhile, speaker on");
            assert!(fit || !helped.contains(of_one), "{name}, helped: {of_one}: {helped}");
        }
    }
}

#[test]
fn who_presses_and_who_phones_is_told_on_the_card() {
    let bleeding = |(_, known): &(String, Findings)| {
        known.answer(About::Bird, "bleeding_hard").is_some_and(|said| said.statement.answer == choice("yes"))
    };
    let found = birds().into_iter().filter(bleeding).collect::<Vec<_>>();
    let (mut alone, mut helped) = (0, 0);
    for (_, known) in &found {
        alone +=
            usize::from(told(&with(known, ASKED, choice("no_help"))).contains("Press on; phone on speaker by her."));
        helped += usize::from(told(&with(known, ASKED, choice("help"))).contains("They phone, you press."));
    }
    assert!(alone > 2 && helped > 2, "{alone} alone, {helped} helped, of {}", found.len());
}

/// The same bird, of whom nothing was said of a comb.
fn without_comb(known: &Findings) -> Findings {
    let mut own = Findings::default();
    (0..known.wounds()).for_each(|_| {
        own.find_wound();
    });
    if known.looked_over() {
        own.look_over();
    }
    let told = known.said().iter().filter(|said| !said.statement.question.as_str().starts_with("comb"));
    told.for_each(|said| own.say(said.statement.clone(), said.at));
    own
}

/// A duck has no comb and no true crop, and neither duck nor goose roosts on a perch. Every scripted bird but those hurt at the comb is
/// told of as a duck and as a goose.
#[test]
fn a_duck_or_goose_is_told_of_no_perch_comb_or_crop() {
    let mut wrong = Vec::new();
    for (name, known) in birds() {
        let comb = (0..known.wounds()).any(|wound| {
            known.answer(About::Wound(wound), "place").is_some_and(|said| said.statement.answer == choice("comb"))
        });
        if comb {
            continue;
        }
        for kind in ["duck", "goose"] {
            let told = told(&with(&without_comb(&known), "kind", choice(kind)))
                .to_lowercase()
                .replace("crop or gullet", "gullet")
                .replace("neck or crop", "neck")
                // Where an answer names it, the word is explained, and that they have none.
                .replace("crop: the food bag at the front of her neck; ducks and geese have none", "")
                .replace("crop leaking", "leaking");
            let words = told.split(|c: char| !c.is_alphabetic());
            let foreign = |word: &&str| {
                ["perch", "roost", "wattle"].iter().any(|other| word.starts_with(other))
                    || ["comb", "combs", "crop", "crops"].contains(word)
            };
            if let Some(word) = words.into_iter().find(foreign) {
                let at = told.find(word).unwrap_or_default();
                let around: String = told.chars().skip(at.saturating_sub(60)).take(130).collect();
                wrong.push(format!("{name} as a {kind}: {word}: {around}"));
            }
        }
    }
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{}\n{}", wrong.len(), wrong.join("\n"));
}
