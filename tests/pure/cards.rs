//! Cards of a course: what they hold at most, and that nothing that kills or maims within a stage is missing from its cards.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::rolled::bird as rolled;
use crate::common::{PROTOCOL, count};
use chrono::{DateTime, Utc};
use coopside::care::course::{Stage, StagedPlan, course};
use coopside::care::cupboard::Cupboard;
use coopside::care::{Plan, PlanStep, plan};
use coopside::content::course::{CardOf, CourseCard, Does, cards};
use coopside::judge::Target;
use coopside::practice;
use coopside::protocol::action::Harm;
use coopside::protocol::scale::{Authority, Humane};
use coopside::prove::{Whole, judge};
use coopside::words::Reader;
use coopside::zone::Zone;
use std::collections::BTreeSet;

fn now() -> DateTime<Utc> {
    "2026-05-01T12:00:00Z".parse().unwrap_or_else(|error| panic!("{error}"))
}

/// A bird with all that is laid out for her.
struct Laid {
    name: String,
    verdict: Whole,
    plan: Plan,
    course: StagedPlan,
    cards: Vec<CourseCard>,
}

fn laid(name: String, findings: &coopside::finding::Findings) -> Laid {
    let verdict = judge(&PROTOCOL, findings, now());
    let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
    let cards = cards(&PROTOCOL, &verdict, &plan, Reader::english(Zone::UTC, PROTOCOL.no_country()));
    Laid { name, course: course(&PROTOCOL, &verdict, &plan), verdict, plan, cards }
}

/// Every scripted bird, each again with no vet in reach, and 200 drawn ones.
fn birds() -> Vec<Laid> {
    let mut birds = Vec::new();
    for (name, text) in practice::shipped() {
        let (scenario, known) =
            practice::read(&PROTOCOL, name, text, now()).unwrap_or_else(|faults| panic!("\n{faults}"));
        birds.push(laid(name.to_owned(), &known));
        let twin = practice::without_vet(&PROTOCOL, &scenario, &known, now());
        birds.extend(twin.map(|twin| laid(format!("{name}, no vet"), &twin)));
    }
    let mut rng = fastrand::Rng::with_seed(28);
    birds.extend((0..count(200, 2_000)).map(|nth| laid(format!("drawn {nth}"), &rolled(&mut rng, now()))));
    birds
}

/// What kills or maims within a stage and stands on none of its cards, or on an earlier one.
fn missing(bird: &Laid, cards: &[CourseCard]) -> Vec<String> {
    let stands = |stage: Stage| {
        let by_then = |card: &&CourseCard| matches!(card.of, CardOf::Stage(of) if of <= stage);
        cards.iter().filter(by_then).collect::<Vec<_>>()
    };
    let mut missing = Vec::new();
    for stage in &bird.course.stages {
        let cards = stands(stage.stage);
        let acts: Vec<&Does> = cards.iter().flat_map(|card| &card.acts).map(|act| &act.does).collect();
        for act in &stage.acts {
            let does = match &act.step {
                PlanStep::Act(target, _) => Does::Act(*target),
                PlanStep::Phone(phone) => Does::Phone(*phone),
            };
            if act.harm < Harm::Slight && !acts.contains(&&does) {
                missing.push(format!("{}: {does:?} in {:?}", bird.name, stage.stage));
            }
        }
        let nevers: BTreeSet<Target> =
            cards.iter().flat_map(|card| card.all_nevers()).filter_map(|never| never.target).collect();
        // Of several wounds it is said once.
        let told = |target: Target| nevers.iter().any(|never| never.action == target.action);
        missing.extend(
            stage
                .bans
                .iter()
                .filter(|ban| !told(ban.target))
                .map(|ban| format!("{}: {:?} in {:?}", bird.name, PROTOCOL.action(ban.target.action).id, stage.stage)),
        );
    }
    missing
}

#[test]
fn no_card_holds_more_than_a_frightened_person_takes_in() {
    let mut over = Vec::new();
    for bird in birds() {
        for card in &bird.cards {
            let most = card.of.budget();
            if card.words > most.words || card.acts.len() > most.acts || card.bans() > most.bans {
                let (words, acts, bans) = (card.words, card.acts.len(), card.bans());
                over.push(format!("{}: {:?} {words} words, {acts} acts, {bans} bans", bird.name, card.of));
            }
        }
    }
    assert!(over.is_empty(), "{} cards\n{}", over.len(), over.join("\n"));
}

#[test]
fn what_kills_or_maims_within_a_stage_stands_on_its_cards() {
    let missing: Vec<String> = birds().iter().flat_map(|bird| missing(bird, &bird.cards)).collect();
    assert!(missing.is_empty(), "{} missing\n{}", missing.len(), missing.join("\n"));
}

#[test]
fn a_ban_or_an_act_taken_from_a_card_is_missed() {
    let mut taken = 0;
    for bird in birds().iter().step_by(5) {
        for at in 0..bird.cards.len() {
            let mut cards = bird.cards.clone();
            let Some(card) = cards.get_mut(at).filter(|card| matches!(card.of, CardOf::Stage(_))) else { continue };
            // The same call stands nowhere else; a test and a look are no acts of the plan.
            let acts = card.acts.iter().filter(|act| matches!(act.does, Does::Act(_) | Does::Phone(_))).count();
            let bans: BTreeSet<Target> = card.all_nevers().filter_map(|never| never.target).collect();
            if acts + bans.len() == 0 {
                continue;
            }
            cards.remove(at);
            taken += 1;
            let slight = |act: &coopside::content::course::CardAct| match &act.does {
                Does::Act(target) => PROTOCOL.action(target.action).left_out.is_none_or(|harm| harm == Harm::Slight),
                Does::Phone(_) => false,
                Does::Test(_) | Does::Look(_) | Does::Told(_) => true,
            };
            // A ban of several wounds is said once, so one of another wound may still stand.
            let banned = |action| {
                let nevers = cards.iter().flat_map(CourseCard::all_nevers).filter_map(|never| never.target);
                nevers.into_iter().any(|target| target.action == action)
            };
            let only_slight = bird.cards.get(at).is_some_and(|card| card.acts.iter().all(slight))
                && bans.iter().all(|target| banned(target.action));
            assert!(only_slight || !missing(bird, &cards).is_empty(), "{} without card {at}", bird.name);
        }
    }
    assert!(taken > 200, "{taken}");
}

#[test]
fn now_always_stands_first_and_what_is_in_force_has_its_card() {
    for bird in birds() {
        let of: Vec<CardOf> = bird.cards.iter().map(|card| card.of).collect();
        assert_eq!(of.first(), Some(&CardOf::Stage(Stage::Now)), "{}", bird.name);
        let humane = bird.verdict.humane.low > Humane::NotInQuestion;
        assert_eq!(of.iter().any(|of| matches!(of, CardOf::Humane(_))), humane, "{}", bird.name);
        let authority = bird.verdict.authority.low > Authority::None;
        assert_eq!(of.iter().any(|of| matches!(of, CardOf::Authority(_))), authority, "{}", bird.name);
        // Where nobody can see her, no stage waits for that.
        let seen = of.contains(&CardOf::Stage(Stage::UntilSeen));
        assert!(!(seen && bird.plan.no_vet), "{}", bird.name);
    }
}

#[test]
fn nothing_stands_twice_among_the_stages() {
    for bird in birds() {
        let stages = || bird.cards.iter().filter(|card| matches!(card.of, CardOf::Stage(_)));
        let acts: Vec<&Does> = stages().flat_map(|card| &card.acts).map(|act| &act.does).collect();
        for (at, does) in acts.iter().enumerate() {
            assert!(!acts.iter().skip(at + 1).any(|other| other == does), "{}: {does:?}", bird.name);
        }
        let bans: Vec<Target> = stages().flat_map(|card| card.all_nevers().filter_map(|never| never.target)).collect();
        let once: BTreeSet<Target> = bans.iter().copied().collect();
        assert_eq!(once.len(), bans.len(), "{}", bird.name);
    }
}

#[test]
fn second_cards_are_few_and_counted() {
    let birds = birds();
    let second = |stage: Stage| {
        let has = |bird: &&Laid| bird.cards.iter().any(|card| card.of == CardOf::Stage(stage) && card.number.1 > 1);
        birds.iter().filter(has).count()
    };
    let counted = [Stage::Now, Stage::UntilSeen, Stage::NextHours, Stage::Today, Stage::Days].map(second);
    insta::assert_snapshot!(
        "second_cards",
        format!(
            "{} birds; with a second card of now, until she is seen, the next hours, today, the days: {counted:?}",
            birds.len()
        )
    );
}
