//! A bird's case: its keys stay where they are, nothing is closed by a slip, her end is told first, and who was not examined waits.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::walk::Walk;
use crate::common::{PROTOCOL, now};
use chrono::TimeDelta;
use coopside::care::cupboard::Cupboard;
use coopside::content::sheet::{PartId, SheetCase, card, sheet};
use coopside::days::cover::cover;
use coopside::days::due::{Due, Waiting, Waits, due};
use coopside::exam::Place;
use coopside::finding::log::{Entry, Outcome, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{Case, CaseId, Covered, State};
use coopside::phrase::Text;
use coopside::render::sheet::{cards_html, cards_json, cards_markdown, cards_text, json, text};
use coopside::session::context::Context;
use coopside::session::{Face, Overlay};
use coopside::update::Input;
use coopside::view::rows;
use coopside::words::english;

/// A frame's words, wherever its lines end.
fn words(frame: &str) -> String {
    frame.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn say(question: &str, answer: &str) -> Statement {
    Statement { about: About::Bird, question: question.into(), answer: Answer::Choice(answer.into()) }
}

fn hours(walk: &mut Walk, hours: i64) {
    walk.session.now += TimeDelta::hours(hours);
    walk.take(Input::Tick);
}

fn due_of(walk: &Walk) -> Due {
    due(&PROTOCOL, &walk.session.log, &walk.session.days, &Cupboard::default(), walk.session.zone, walk.session.now)
}

/// A hen that gasps: she needs a vet at once.
fn gasping() -> Walk {
    let mut walk = Walk::new();
    walk.press("aaa");
    walk.session.record(Entry::Said(vec![say("kind", "hen"), say("reach", "day"), say("fighting_breath", "yes")]));
    for _ in 0..200 {
        if walk.session.exam.place == Place::Done {
            break;
        }
        walk.fine();
    }
    assert!(
        walk.session.exam.place == Place::Done && walk.frame(60, 24).contains("Vet at once"),
        "{}",
        walk.frame(60, 24)
    );
    walk
}

fn named(mut walk: Walk, name: &str) -> Walk {
    walk.press("f4").press(name).press("<enter><esc>");
    assert_eq!(walk.session.days.name, name);
    walk
}

/// Every line of the case page, with the key it is chosen by.
fn lines(walk: &Walk) -> Vec<String> {
    let rows = rows::rows(&walk.session);
    assert_eq!(rows.len(), rows::PAGE, "one page, so that a key is one line");
    rows.into_iter().map(|row| walk.session.say(row.label)).collect()
}

#[test]
fn a_key_of_the_case_page_is_always_the_same_line() {
    let heads = ["her days", "write down what a vet said", "", "how it ended", "hand her over", "what a vet will ask"];
    let is_fixed = |walk: &mut Walk, what: &str| {
        walk.press("f");
        let lines = lines(walk);
        for (line, head) in lines.iter().skip(1).zip(heads) {
            assert!(line.starts_with(head), "{what}: {line}");
        }
        assert!(lines.iter().any(|line| line.starts_with("put her case away") || line.starts_with("open the case")));
        walk.press("<esc>");
        lines
    };
    // Left in the middle; whole; in a look; closed.
    let mut walk = Walk::new();
    walk.press("aaa").press("1");
    let first = is_fixed(&mut walk, "left in the middle");
    assert!(first.first().is_some_and(|line| line == "go on with the examination"), "{first:?}");
    let mut walk = named(gasping(), "Saffron");
    is_fixed(&mut walk, "whole");
    hours(&mut walk, 3);
    walk.press("f1").press("6");
    is_fixed(&mut walk, "in a look");
    walk.session.record(Entry::Closed { outcome: Outcome::Died, proved: String::new() });
    let closed = is_fixed(&mut walk, "closed");
    // What is not offered takes no key, and says so.
    let log = walk.session.log.len();
    let told = words(&walk.press("f1").frame(60, 24));
    assert!(told.contains("takes no key now") && told.contains("her case is closed"), "{told}\n{closed:?}");
    assert_eq!(walk.press("9").session.log.len(), log);
}

/// What closed a living bird's case before: her name typed one line too far down.
#[test]
fn no_habit_of_the_hand_closes_a_living_birds_case() {
    for mut walk in [Walk::new(), named(gasping(), "Saffron")] {
        if walk.session.log.is_empty() {
            walk.press("6").press("1");
        }
        for keys in [
            "f5tansy<enter>",
            "f53<enter>",
            "f53tansy<enter><enter>",
            "f52<enter>",
            "f522<enter>",
            "f8<enter>",
            "f8yes<enter>",
        ] {
            walk.press(keys);
            walk.take(Input::Tick);
            for _ in 0..6 {
                walk.press("<esc>");
            }
            let days = &walk.session.days;
            assert!(days.end.is_none() && !days.archived, "{keys} closed her case: {days:?}");
        }
    }
}

#[test]
fn a_humane_end_and_putting_away_are_sure_by_her_name_or_by_a_word_that_is_shown() {
    let mut walk = named(gasping(), "Saffron");
    let asked = words(&walk.press("f53").frame(60, 24));
    assert!(asked.contains("Saffron: her life was ended?") && asked.contains("Type Saffron"), "{asked}");
    let told = words(&walk.press("Tansy<enter>").frame(60, 24));
    assert!(told.contains("That is not `Saffron`") && walk.session.days.end.is_none(), "{told}");
    walk.press(" saffron <enter>The<space>vet<space>came<enter>");
    let end = walk.session.days.end.clone().unwrap_or_else(|| panic!("not closed"));
    assert_eq!((end.outcome, end.proved.as_str()), (Outcome::HumaneEnd, "The vet came"));
    // Without a name, a plain word stands there to be typed.
    let mut walk = gasping();
    let asked = words(&walk.press("f8").frame(60, 24));
    assert!(asked.contains("put her case away?") && asked.contains("Type away"), "{asked}");
    walk.press("away<enter>");
    assert!(walk.session.days.archived);
    assert!(words(&walk.frame(60, 24)).contains("Put away: no look is called"), "{}", walk.frame(60, 24));
    walk.press("8");
    assert!(!walk.session.days.archived, "bringing her back needs no name");
}

#[test]
fn the_signs_of_death_are_asked_and_a_doubt_closes_nothing() {
    let mut walk = named(gasping(), "Saffron");
    let asked = words(&walk.press("f52").frame(60, 24));
    assert!(asked.contains("Is she dead?") && asked.contains("no source"), "{asked}");
    for (key, told) in [("3", "again in 5 minutes"), ("4", "warm her first"), ("5", "Count her as alive")] {
        let words = words(&walk.press(key).frame(60, 24));
        assert!(words.contains("Nothing was closed") && words.contains(told), "{words}");
        assert!(walk.session.days.end.is_none());
        walk.press("52");
    }
    walk.press("2Saffron<enter><enter>");
    assert_eq!(walk.session.days.end.as_ref().map(|end| end.outcome), Some(Outcome::Died));
}

/// A gasping hen that died while the clock of a step ran and she was held.
fn died() -> Walk {
    let mut walk = named(gasping(), "Saffron");
    walk.session.record(Entry::PickedUp);
    walk.session.record(Entry::Timed { action: "press".into(), seconds: 300 });
    walk.press("f521Saffron<enter>Too late<enter>");
    walk
}

/// What would send somebody to a vet with a bird that is dead.
fn calls_a_vet(text: &str) -> bool {
    let text = text.to_lowercase();
    ["vet at once", "phone a vet", "set off", "vet within", "how soon can you see her", "look now"]
        .iter()
        .any(|words| text.contains(words))
}

#[test]
fn her_death_is_the_first_thing_told_on_the_screen_and_no_clock_runs_after_it() {
    let mut walk = died();
    let case = words(&walk.frame(60, 24));
    assert!(case.contains("Saffron: died") && !calls_a_vet(&case), "{case}");
    walk.press("<esc>");
    let why = words(&walk.press("w").frame(60, 24));
    assert!(why.contains("Her case is closed") && !calls_a_vet(&why), "{why}");
    for face in ["", "dd"] {
        let shown = words(&walk.press(face).frame(60, 24));
        let first = shown.split_once("HOW IT ENDED").unwrap_or_else(|| panic!("{shown}")).0.chars().count();
        assert!(first < 120 && shown.contains("Died") && !calls_a_vet(&shown), "{shown}");
    }
    walk.asked_for.clear();
    hours(&mut walk, 1);
    hours(&mut walk, 12);
    let shown = words(&walk.frame(60, 24));
    assert!(
        walk.asked_for.is_empty() && !shown.contains("Held long enough") && !shown.contains("Time is up"),
        "{shown}"
    );
    assert_eq!(due_of(&walk), Due::default());
    // The list, too.
    let covered = Covered {
        id: CaseId::new(),
        begun: now(),
        last: now(),
        events: 1,
        cover: cover(
            &PROTOCOL,
            &walk.session.log,
            &Cupboard::default(),
            walk.session.zone,
            walk.session.now,
            &|text| english(text),
        ),
        fingerprint: String::new(),
        tag: 1,
    };
    assert_eq!((covered.cover.need.as_str(), covered.cover.state), ("died", State::Closed(Outcome::Died)));
    walk.press("ff");
    walk.take(Input::Listed(vec![covered], 1));
    let list = words(&walk.frame(60, 24));
    assert!(list.contains("Saffron, hen: died") && !calls_a_vet(&list), "{list}");
}

#[test]
fn whoever_asks_for_the_danger_signs_has_a_living_bird_before_them() {
    let mut walk = died();
    walk.press("<esc>e");
    assert!(walk.session.days.end.is_none() && walk.asked() == "list danger", "{}", walk.asked());
    assert!(words(&walk.frame(60, 24)).contains("It is open again"), "{}", walk.frame(60, 24));
    // Put away, too; and whoever looks at her again has her looks called again.
    for keys in ["<esc>e", "1"] {
        let mut walk = gasping();
        walk.press("f8away<enter>");
        assert!(walk.session.days.archived && due_of(&walk) == Due::default());
        walk.press(keys);
        assert!(!walk.session.days.archived && walk.asked() == "list danger", "{keys}: {}", walk.asked());
        assert!(!due_of(&walk).looks.is_empty(), "{keys}");
    }
}

/// Recovered, her case is over as well: nothing is begun in it that nobody could see.
#[test]
fn a_recovered_birds_case_is_opened_again_before_she_is_looked_at() {
    let mut walk = gasping();
    walk.press("f51<enter>");
    assert_eq!(walk.session.days.end.as_ref().map(|end| end.outcome), Some(Outcome::Recovered));
    let log = walk.session.log.len();
    assert_eq!(walk.press("19").session.log.len(), log);
    walk.press("81");
    assert!(walk.session.days.looking() && walk.asked() == "list danger", "{}", walk.asked());
}

#[test]
fn her_death_is_the_first_thing_told_on_paper() {
    let mut walk = died();
    walk.session.work_out_due();
    let made = walk.session.sheet();
    let (plain, told) = (text(&made), json(&made).to_string());
    assert!(plain.starts_with("HANDOVER: Saffron, hen, DIED"), "{plain}");
    assert_eq!(made.parts.first().map(|part| part.id), Some(PartId::Ended));
    // How the need went over the days is history; no line of it calls a vet.
    assert!(!calls_a_vet(&plain) && !calls_a_vet(&told), "{plain}");
    let reader = walk.session.reader();
    let cards = reader.cards(&card::cards(&PROTOCOL, &[walk.sheet_case()], reader));
    let html = cards_html(&cards).unwrap_or_else(|error| panic!("{error}"));
    for form in [cards_text(&cards), cards_markdown(&cards), html, cards_json(&cards).to_string()] {
        assert!(form.to_lowercase().contains("died, ") && !calls_a_vet(&form), "{form}");
        assert!(!form.contains("NEED") && !form.contains("**Need"), "{form}");
    }
    // Somebody else has her: how soon she needs a vet still counts, after that.
    let mut walk = named(gasping(), "Tansy");
    walk.press("f54<enter>");
    let reader = walk.session.reader();
    let told = SheetCase { due: &Due::default(), ..walk.sheet_case() };
    let plain = text(&reader.sheet(&sheet(&PROTOCOL, told, reader, now())));
    assert!(plain.starts_with("HANDOVER: Tansy, hen, MOVED ON") && calls_a_vet(&plain), "{plain}");
}

fn state_of(walk: &Walk) -> (String, Option<i64>) {
    let cover =
        cover(&PROTOCOL, &walk.session.log, &Cupboard::default(), walk.session.zone, walk.session.now, &|text| {
            english(text)
        });
    (cover.need, cover.due.map(|due| (walk.session.now - due).num_minutes()))
}

#[test]
fn a_bird_that_was_not_examined_is_due_at_once_and_its_words_say_so() {
    // Only a name.
    let mut walk = Walk::new();
    walk.session.record(Entry::Named("Pepper".into()));
    hours(&mut walk, 5);
    assert_eq!(state_of(&walk), ("not examined".to_owned(), Some(300)));
    let case = words(&walk.press("f").frame(60, 24));
    assert!(case.contains("Pepper: not examined") && case.contains("Examine her now"), "{case}");
    // As far as what happened to her.
    let mut walk = Walk::new();
    walk.press("aaa");
    walk.session.record(Entry::Said(vec![say("kind", "hen"), say("reach", "day"), say("happened", "mammal")]));
    let (need, since) = state_of(&walk);
    assert!(need.starts_with("not examined to the end") && since == Some(0), "{need} {since:?}");
    assert!(words(&walk.press("f").frame(60, 24)).contains("Examine her now"), "{}", walk.frame(60, 24));
    // To the end: her looks count, and no longer that.
    walk.press("1");
    for _ in 0..200 {
        walk.fine();
    }
    let (need, since) = state_of(&walk);
    assert!(!need.contains("not examined") && since.is_some_and(|since| since < 0), "{need} {since:?}");
    // What the danger signs lead to afterwards is asked, but she was examined.
    hours(&mut walk, 1);
    walk.press("<esc>e");
    assert!(!state_of(&walk).0.contains("not examined"), "{:?}", state_of(&walk));
}

/// Who needs a vet at once is on her way: the rest of the questions can wait, and her looks come soon.
#[test]
fn a_bird_that_needs_a_vet_now_waits_for_no_questions() {
    let mut walk = Walk::new();
    walk.press("aaa");
    walk.session.record(Entry::Said(vec![say("kind", "hen"), say("fighting_breath", "yes")]));
    let due = due_of(&walk);
    assert!(due.examine.is_none() && due.waits_since().is_some(), "{due:?}");
    assert!(state_of(&walk).0.contains("vet at once"), "{:?}", state_of(&walk));
}

#[test]
fn only_answers_make_a_look() {
    let mut walk = gasping();
    hours(&mut walk, 1);
    walk.press("f3Seen, on the way<enter><esc>");
    let (before, state) = (due_of(&walk), state_of(&walk).0);
    assert!(state.contains("a vet was asked since"), "{state}");
    hours(&mut walk, 1);
    let due = |walk: &Walk| due_of(walk).looks.into_iter().map(|promised| promised.look).collect::<Vec<_>>();
    let looks = |due: &Due| due.looks.iter().map(|promised| promised.look.clone()).collect::<Vec<_>>();
    // Opened and gone back from.
    walk.press("eb");
    assert_eq!((due(&walk), state_of(&walk).0), (looks(&before), state.clone()));
    // Begun, every question left open, and so ended.
    walk.press("<esc><esc>f1");
    for _ in 0..40 {
        if walk.session.exam.place == Place::Done {
            break;
        }
        walk.press("n");
    }
    assert!(!walk.session.days.looking(), "the look is over");
    assert_eq!((due(&walk), state_of(&walk).0), (looks(&before), state));
    assert!(due_of(&walk).looks.iter().all(|promised| promised.fate != coopside::days::due::Fate::Held));
}

#[test]
fn an_answer_after_a_vets_word_that_is_worse_says_so() {
    let mut walk = Walk::new();
    walk.press("aaa");
    walk.session.record(Entry::Said(vec![say("kind", "hen"), say("reach", "day"), say("happened", "mammal")]));
    hours(&mut walk, 1);
    walk.press("f3Keep her warm<enter><esc>");
    hours(&mut walk, 1);
    walk.session.record(Entry::Said(vec![say("fighting_breath", "yes")]));
    assert!(state_of(&walk).0.contains("WORSE since a vet was asked"), "{:?}", state_of(&walk));
}

#[test]
fn the_start_counts_every_bird_that_waits_and_every_look_to_come_rings() {
    let mut walk = Walk::new();
    let bird = |name: &str, minutes: i64| Waiting {
        case: CaseId::new(),
        bird: Text::typed(name),
        at: now() + TimeDelta::minutes(minutes),
        next: None,
        last: None,
        unexamined: name == "Pepper",
        tests: Vec::new(),
    };
    let mut birds: Vec<Waiting> = (0..30).map(|_| bird("Rue", -600)).collect();
    birds.extend([bird("Pepper", -700), bird("Tansy", 10)]);
    birds.push(Waiting { next: Some(now() + TimeDelta::minutes(20)), ..bird("Dill", -60) });
    birds.sort_by_key(|waiting| waiting.at);
    walk.take(Input::Waiting(Waits { birds, more_overdue: 13_303, ..Waits::default() }));
    let start = words(&walk.frame(60, 40));
    assert!(start.contains("Pepper: not examined to the end, since"), "{start}");
    assert!(start.contains("and 13332 more birds wait"), "{start}");
    walk.wait(601);
    assert_eq!(walk.titles(), ["LOOK NOW: Tansy"]);
    walk.wait(600);
    assert_eq!(walk.titles().last().map(String::as_str), Some("LOOK NOW: Dill"), "the look after a missed one");
}

#[test]
fn a_clock_belongs_to_its_bird_and_rings_wherever_one_is() {
    let mut walk = named(gasping(), "Saffron");
    walk.session.record(Entry::Timed { action: "press".into(), seconds: 300 });
    let saffron = (walk.session.case.clone().unwrap_or_default(), walk.session.log.clone());
    let other = Case { id: CaseId::new(), log: vec![Stamped { at: now(), entry: Entry::Named("Tansy".into()) }] };
    walk.take(Input::Opened(other));
    assert!(words(&walk.frame(100, 30)).contains("Saffron: "), "{}", walk.frame(100, 30));
    walk.asked_for.clear();
    walk.wait(299);
    assert!(walk.asked_for.is_empty());
    walk.wait(2);
    assert!(matches!(walk.titles().as_slice(), [title] if title.starts_with("TIME IS UP: Saffron")));
    let told = words(&walk.frame(60, 24));
    assert!(told.contains("Time is up for Saffron"), "{told}");
    // Back with her, it is her own clock again, once.
    walk.take(Input::Opened(Case { id: saffron.0, log: saffron.1 }));
    assert!(walk.session.flock.clocks.is_empty() && walk.session.timer().is_some());
    // A new bird leaves it running as well; there it is ended by hand.
    walk.press("f1");
    assert!(
        walk.session.overlays.is_empty() || walk.session.context() != Context::Birds || walk.session.face == Face::Exam
    );
    walk.take(Input::Tick);
    assert_eq!(walk.session.flock.clocks.len(), 1);
    walk.session.overlays.retain(|overlay| *overlay != Overlay::Case);
    walk.press("t");
    assert!(walk.session.flock.clocks.is_empty() && words(&walk.frame(60, 24)).contains("is ended"));
}

/// A phone held upright shows every line of her case and every sign of death, each with its key, and the word to be typed.
#[test]
fn every_line_of_her_case_and_of_the_signs_of_death_shows_on_a_phone() {
    let mut walk = named(gasping(), "Saffron");
    for keys in ["f", "<esc>f52"] {
        walk.press(keys);
        let rows = rows::rows(&walk.session);
        let frame = walk.frame(40, 20);
        for (key, row) in (1..).zip(&rows) {
            let head: String =
                walk.session.say(row.label.clone()).split_whitespace().take(3).collect::<Vec<_>>().join(" ");
            let has_key = |line: &str| line.trim_start_matches([' ', '*', '>']).starts_with(&format!("{key}"));
            assert!(frame.lines().any(|line| has_key(line) && line.contains(&head)), "{key} {head}: {frame}");
        }
    }
    let frame = words(&walk.press("1").frame(40, 20));
    assert!(frame.contains("Type Saffron"), "{frame}");
}
