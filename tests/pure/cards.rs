//! Cards of a course: what they hold at most, and that nothing that kills or maims within a stage is missing from its cards.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::rolled::bird as rolled;
use crate::common::{PROTOCOL, count};
use chrono::{DateTime, Utc};
use coopside::care::contacts::Contacts;
use coopside::care::course::{Stage, StagedPlan, course};
use coopside::care::cupboard::Cupboard;
use coopside::care::{Plan, PlanStep, plan};
use coopside::content::course::{CardOf, CourseCard, Does, cards};
use coopside::judge::Target;
use coopside::practice;
use coopside::protocol::action::Harm;
use coopside::protocol::scale::{Authority, Humane};
use coopside::protocol::whom::Whom;
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
    let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), Zone::UTC);
    let cards =
        cards(&PROTOCOL, &verdict, &plan, &Contacts::default(), Reader::english(Zone::UTC, PROTOCOL.no_country()));
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
        // Of several wounds it is said once, where it is said alike.
        let fitting = &bird.verdict.fitting;
        let words = |target: Target| (fitting.never(&PROTOCOL, target), fitting.until(&PROTOCOL, target));
        let told =
            |target: Target| nevers.iter().any(|never| never.action == target.action && words(*never) == words(target));
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
            // What waits for an answer and is said in other words meanwhile is no act of a stage yet.
            let harm = |target: &Target| {
                let mut acts = bird.course.stages.iter().flat_map(|stage| &stage.acts);
                let act = acts.find(|act| matches!(&act.step, PlanStep::Act(of, _) if of == target));
                act.map(|act| act.harm)
            };
            let slight = |act: &coopside::content::course::CardAct| match &act.does {
                Does::Act(target) => harm(target).is_none_or(|harm| harm == Harm::Slight),
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

/// What stands on a card, and what then must not stand on another of the same bird: a frightened person obeys the one or the other.
const AT_ODDS: [(&str, &str); 12] = [
    ("slide the cloth off", "Never take the cloth off"),
    ("wrapped bottle", "Never extra heat"),
    ("usual heat", "Never extra heat"),
    ("usual heat", "Never warm her beyond normal"),
    ("Cloth laid on, leg wrapped firmly", "Never wrap it tight, or"),
    ("Cloth laid on, leg wrapped firmly", "anything tight"),
    ("Bathe the foot", "Never bathe her, or"),
    ("windpipe free", "Never part, feel or turn"),
    ("cloth on it, ten minutes", "Never cool so wide a burn"),
    ("wind nothing", "toes in sight: go"),
    ("Change the top cloth", "Never take the cloth off"),
    ("wet and clean", "Never wet more than the foot"),
];

/// What is said on the cards of a bird's stages, acts and bans.
fn said(bird: &Laid) -> Vec<String> {
    let reader = Reader::english(Zone::UTC, PROTOCOL.no_country());
    let stages = bird.cards.iter().filter(|card| matches!(card.of, CardOf::Stage(_)));
    let each = |card: &CourseCard| {
        let acts = card.acts.iter().map(|act| reader.say(&act.say));
        acts.chain(card.all_nevers().map(|never| reader.say(&never.say))).collect::<Vec<_>>()
    };
    stages.flat_map(each).collect()
}

#[test]
fn no_card_forbids_what_a_card_asks_for() {
    let mut odds = Vec::new();
    for bird in birds() {
        let said = said(&bird);
        let stands = |part: &str| said.iter().any(|line| line.contains(part));
        odds.extend(
            AT_ODDS
                .iter()
                .filter(|(one, other)| stands(one) && stands(other))
                .map(|pair| format!("{}: {pair:?}", bird.name)),
        );
        // Where no bird may leave, a line for the drive stands only behind who has to allow it.
        let at = |part: &str| said.iter().position(|line| line.contains(part));
        if let (Some(_), Some(drive)) = (at("No bird leaves"), at("For the drive")) {
            assert!(at("No drive before").is_some_and(|asked| asked < drive), "{}: {said:#?}", bird.name);
        }
    }
    assert!(odds.is_empty(), "{odds:#?}");
}

#[test]
fn no_line_of_a_card_hangs_in_the_air() {
    for bird in birds() {
        for line in said(&bird) {
            let hangs = line.contains("Nobody can tell") || line.starts_with("Until then");
            assert!(!hangs, "{}: {line}", bird.name);
        }
        // Where a vet is waited for, what is given by mouth meanwhile says that none comes.
        let own =
            said(&bird).into_iter().find(|line| line.contains("A dish: she drinks") || line.contains("Small sips"));
        assert!(own.is_none_or(|line| line.contains("No vet for hours")), "{}", bird.name);
    }
}

#[test]
fn a_burnt_bird_has_a_box_and_one_sort_of_cloth() {
    let mut burnt = 0;
    for bird in birds() {
        let acts: Vec<&str> = bird
            .plan
            .steps
            .iter()
            .filter_map(|step| match step {
                PlanStep::Act(target, _) => Some(PROTOCOL.action(target.action).id.as_str()),
                PlanStep::Phone(_) => None,
            })
            .collect();
        let cool = bird.plan.never.iter().find(|(target, _)| PROTOCOL.action(target.action).id.as_str() == "cool_wide");
        let Some((cool, _)) = cool else { continue };
        burnt += 1;
        let instead = bird.verdict.fitting.why_not(&PROTOCOL, *cool).map_or("", |(_, instead)| instead);
        assert!(!instead.contains("moist"), "{}: {instead}", bird.name);
        // What cools a hot bird, or keeps a chick warm, stands in place of a box.
        let housed = ["quiet_box", "room_box", "warm_box", "chick_box", "cool_shade", "cool_cloth"];
        assert!(housed.iter().any(|act| acts.contains(act)), "{}: {acts:?}", bird.name);
    }
    assert!(burnt > 3, "{burnt}");
}

#[test]
fn no_card_of_bans_alone_stands_where_acts_are_left_for_it() {
    let mut bare = Vec::new();
    for bird in birds() {
        for stage in [Stage::Now, Stage::UntilSeen, Stage::NextHours, Stage::Today, Stage::Days] {
            let cards: Vec<&CourseCard> = bird.cards.iter().filter(|card| card.of == CardOf::Stage(stage)).collect();
            let acts = cards.iter().map(|card| card.acts.len()).sum::<usize>();
            let without = cards.iter().filter(|card| card.acts.is_empty()).count();
            if without > 0 && acts >= cards.len() {
                bare.push(format!("{}: {stage:?}, {acts} acts on {} cards", bird.name, cards.len()));
            }
        }
    }
    // Of the others no card would hold its act beside three long bans: they are turned to, as all of bans alone are, when the card
    // before is done (`screen::course`). May only get fewer.
    assert!(bare.len() <= 14, "{} {bare:#?}", bare.len());
}

#[test]
fn a_call_tells_whom_and_its_words_do_not_count() {
    let mut contacts = Contacts::default();
    contacts.put(Whom::Vet, "The mill, 555 0100");
    contacts.put(Whom::Authority, "555 0122");
    let reader = Reader::english(Zone::UTC, PROTOCOL.no_country());
    let (mut vets, mut authorities) = (0, 0);
    for bird in birds().iter().step_by(3) {
        for card in cards(&PROTOCOL, &bird.verdict, &bird.plan, &contacts, reader) {
            let most = card.of.budget();
            assert!(card.words <= most.words, "{}: {}", bird.name, card.words);
            for act in &card.acts {
                let call = act.call.as_ref().map(|call| reader.say(call));
                match &act.does {
                    Does::Phone(_) => assert_eq!(call.as_deref(), Some("The mill, 555 0100"), "{}", bird.name),
                    Does::Test(_) | Does::Look(_) | Does::Told(_) => assert_eq!(call, None),
                    Does::Act(target) => {
                        let says = &PROTOCOL.action(target.action).say;
                        let authority = says.contains("authority");
                        assert_eq!(call.as_deref() == Some("555 0122"), authority, "{says}");
                        authorities += usize::from(authority);
                    }
                }
                vets += usize::from(call.as_deref() == Some("The mill, 555 0100"));
            }
        }
        assert!(bird.cards.iter().flat_map(|card| &card.acts).all(|act| act.call.is_none()), "nobody is written down");
    }
    assert!(vets > 50 && authorities > 3, "{vets} {authorities}");
}
