//! Where no vet can be reached, nothing her keeper reads tells a vet's clock; and where a humane end is advised, all of it says so.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::walk::Walk;
use crate::common::{Bird, PROTOCOL, clock, complete, now, partial};
use coopside::care::cupboard::Cupboard;
use coopside::content::document::{Item, Judged, Section};
use coopside::content::sheet::card;
use coopside::content::{judgement, phone, plan};
use coopside::days::cover::cover;
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{CaseId, Covered};
use coopside::phrase::Text;
use coopside::protocol::question::Reach;
use coopside::protocol::scale::{Humane, Need};
use coopside::session::{Face, Overlay, Page};
use coopside::update::Input;
use coopside::words::english;
use proptest::prelude::*;

/// A frame's words, wherever its lines end.
fn words(frame: &str) -> String {
    frame.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A random bird, with this said of how soon a vet can see her; as it lies open in the program.
fn lies_open(bird: &Bird, reach: Reach) -> Walk {
    let findings = bird.findings();
    let question = PROTOCOL.reach_question();
    let choice = question.choices.iter().find(|choice| choice.reach == Some(reach));
    let choice = choice.unwrap_or_else(|| panic!("no answer for {reach:?}"));
    let mut said: Vec<Statement> = findings.said().iter().map(|said| said.statement.clone()).collect();
    said.retain(|said| said.question != question.id);
    said.push(Statement {
        about: About::Bird,
        question: question.id.clone(),
        answer: Answer::Choice(choice.id.clone()),
    });
    let over = findings.looked_over().then_some(Entry::LookedOver);
    let wounds = (0..findings.wounds()).map(|_| Entry::FoundWound);
    let entries = wounds.chain([Entry::Said(said)]).chain(over).chain([Entry::Named("Saffron".into())]);
    let mut walk = Walk::new();
    walk.session.log = entries.map(|entry| Stamped { at: now(), entry }).collect();
    walk.session.work_out();
    walk.session.work_out_due();
    walk
}

/// The lines of a document; what is read out to a vet on the phone is a vet's.
fn lines(sections: Vec<Section>) -> Vec<String> {
    let own = sections.into_iter().filter(|section| !section.heading.starts_with("ON THE PHONE"));
    let items =
        own.flat_map(|section| [section.heading].into_iter().chain(section.items.into_iter().flat_map(of_item)));
    items.collect()
}

fn of_item(item: Item) -> Vec<String> {
    [item.lead].into_iter().chain(item.more).chain(item.asked).collect()
}

/// The row of her in the list of birds, and the page of her case.
fn list_and_case(walk: &mut Walk) -> (String, String) {
    let covered = covered(walk);
    walk.session.overlays = vec![Overlay::Case];
    // Without the summary beside it, so that no line is cut in two.
    let case = walk.frame(60, 40);
    walk.session.overlays = vec![Overlay::Flock];
    walk.take(Input::Listed(vec![covered], 1));
    let list = walk.frame(60, 40);
    walk.session.overlays.clear();
    (list, case)
}

fn covered(walk: &Walk) -> Covered {
    Covered {
        id: CaseId::new(),
        begun: now(),
        last: now(),
        events: 1,
        cover: cover(&PROTOCOL, &walk.session.log, &Cupboard::default(), coopside::zone::Zone::UTC, now(), &english),
        fingerprint: String::new(),
        tag: 1,
    }
}

/// Everything her keeper reads of her, line by line.
fn read(walk: &mut Walk) -> Vec<String> {
    let mut read = vec![
        cover(&PROTOCOL, &walk.session.log, &Cupboard::default(), coopside::zone::Zone::UTC, now(), &english).need,
    ];
    for face in [Face::Exam, Face::Verdict, Face::Plan] {
        // The plan itself holds the call to a vet: it is read below, without that.
        let bare = (face != Face::Plan).then_some(None);
        for page in
            bare.into_iter().chain([Some(Overlay::Page(Page::Days)), Some(Overlay::Help), Some(Overlay::Why(None))])
        {
            walk.session.face = face;
            walk.session.overlays = page.into_iter().collect();
            for (columns, rows) in [(100, 60), (40, 20)] {
                read.extend(walk.frame(columns, rows).lines().map(str::to_owned));
            }
        }
    }
    walk.session.overlays.clear();
    let (list, case) = list_and_case(walk);
    read.extend([words(&list), words(&case)]);
    walk.session.face = Face::Verdict;
    walk.session.explain();
    let session = &walk.session;
    let judged = Judged { explained: session.explained.as_ref(), ..session.judged() };
    read.extend(lines(session.reader().sections(judgement::sections(&PROTOCOL, judged, session.reader().country))));
    let findings = &session.exam.findings;
    read.extend(lines(session.reader().sections(plan::sections(
        &PROTOCOL,
        findings,
        &session.verdict,
        &session.plan,
        session.reader(),
    ))));
    read.extend(session.verdict.reasons.iter().map(|reason| {
        coopside::words::english(coopside::content::why::consequence(&PROTOCOL, *reason, session.verdict.no_vet()))
    }));
    read.extend(
        coopside::render::sheet::cards_text(&session.reader().cards(&card::cards(
            &PROTOCOL,
            &[walk.sheet_case()],
            session.reader(),
        )))
        .lines()
        .map(str::to_owned),
    );
    let (verdict, plan) = (&session.verdict, &session.plan);
    let (bird, look) = (Text::typed("Saffron"), Text::typed("now"));
    let shift = phone::Shift { bird: &bird, verdict, plan, findings, vet: None, look: &look };
    read.push(crate::common::told_to_shift(&PROTOCOL, shift));
    read
}

fn tells_no_clock(bird: &Bird) -> Result<(), TestCaseError> {
    let mut walk = lies_open(bird, Reach::Nobody);
    prop_assert!(walk.session.verdict.no_vet());
    for line in read(&mut walk) {
        prop_assert_eq!(clock::of_a_vet(&line), None, "{}", line);
    }
    // How grave it is stands there all the same, and whom to phone.
    let need = walk.session.verdict.need.low;
    if need >= Need::WithinADay {
        let told =
            cover(&PROTOCOL, &walk.session.log, &Cupboard::default(), coopside::zone::Zone::UTC, now(), &english).need;
        prop_assert!(told.contains(need.gravity()) && told.contains("phone any for advice"), "{}", told);
        walk.session.face = Face::Exam;
        let band = words(&walk.frame(40, 20)).to_lowercase();
        let phones = ["phone any vet", "no vet near? phone any", "they phone any vet", "phone any vet: speaker on"]
            .iter()
            .any(|told| band.contains(told));
        prop_assert!(band.contains(need.gravity()) && phones, "{}", band);
    }
    Ok(())
}

fn tells_of_a_humane_end(bird: &Bird, reach: Reach) -> Result<(), TestCaseError> {
    let mut walk = lies_open(bird, reach);
    let advice = walk.session.verdict.humane.low.advice();
    prop_assert_eq!(advice.is_some(), walk.session.verdict.humane.low >= Humane::AdvisedUnlessVet);
    let script = crate::common::call(&PROTOCOL, &walk.session.exam.findings, &walk.session.verdict);
    prop_assert!(script.split_whitespace().count() <= phone::MOST_WORDS, "{}", script);
    let (verdict, plan, findings) = (&walk.session.verdict, &walk.session.plan, &walk.session.exam.findings);
    let (bird, look) = (Text::typed("Saffron"), Text::typed("now"));
    let shift = phone::Shift { bird: &bird, verdict, plan, findings, vet: None, look: &look };
    let shift = crate::common::told_to_shift(&PROTOCOL, shift);
    prop_assert!(shift.split_whitespace().count() <= phone::MOST_WORDS, "{}", shift);
    let reader = walk.session.reader();
    let cards = reader.cards(&card::cards(&PROTOCOL, &[walk.sheet_case()], reader));
    let cards = coopside::render::sheet::cards_text(&cards);
    let (list, case) = list_and_case(&mut walk);
    let all = [script, shift, words(&cards), words(&list), words(&case)];
    for said in &all {
        match advice {
            Some(advice) => prop_assert!(said.to_lowercase().contains(advice), "{}: {}", advice, said),
            None => prop_assert!(!said.to_lowercase().contains("humane end is advised"), "{}", said),
        }
    }
    if let Some(advice) = advice {
        prop_assert!(words(&case).contains(&format!("Saffron: {advice}")), "first after the name: {}", case);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(crate::common::count(30, 60)) })]

    #[test]
    fn without_a_vet_in_reach_nothing_tells_a_vets_clock(whole in complete(), part in partial()) {
        tells_no_clock(&whole)?;
        tells_no_clock(&part)?;
    }

    #[test]
    fn a_humane_end_that_is_advised_is_told_everywhere_and_one_that_is_not_nowhere(whole in complete(), part in partial()) {
        for reach in [Reach::Now, Reach::Nobody] {
            tells_of_a_humane_end(&whole, reach)?;
            tells_of_a_humane_end(&part, reach)?;
        }
    }
}

/// The sieve above finds what it is for.
#[test]
fn a_vets_clock_is_known_for_one() {
    for told in [
        "Vet at once.",
        "Need: vet within hours",
        "phone her. Then set off.",
        "At the latest: treatment by a vet",
        "Phone a vet now, and set off.",
        "Phone any vet now, and set off.",
        "Until a vet says so.",
    ] {
        assert!(clock::of_a_vet(told).is_some(), "{told}");
    }
    for told in ["No vet near? Phone any vet now.", "Gravest. No vet: phone any for advice.", "a vet gives it"] {
        assert!(clock::of_a_vet(told).is_none(), "{told}");
    }
}

/// With a vet in reach the same bird is told as ever; the rung itself is the same.
#[test]
fn only_the_words_change_with_the_vet() {
    let gasps = |reach: &str| {
        let mut walk = Walk::new();
        walk.press("aaa");
        let said = [("kind", "hen"), ("reach", reach), ("fighting_breath", "yes")];
        let say = |(question, answer): (&str, &str)| Statement {
            about: About::Bird,
            question: question.into(),
            answer: Answer::Choice(answer.into()),
        };
        walk.session.record(Entry::Said(said.map(say).to_vec()));
        walk
    };
    let (mut with, mut without) = (gasps("day"), gasps("none"));
    assert_eq!(with.session.verdict.need, without.session.verdict.need);
    let (with, without) = (words(&with.frame(40, 20)), words(&without.frame(40, 20)));
    assert!(with.contains("!!! Vet at once") && !with.contains("Gravest"), "{with}");
    assert!(without.contains("!!! Gravest") && !without.contains("Vet at once"), "{without}");
}
