//! The night of a stable bird: nobody looks between its hours, one looks at both its edges, and nothing changes for any other bird.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::rolled::bird as rolled;
use crate::common::{PROTOCOL, count};
use chrono::{DateTime, TimeDelta, Timelike, Utc};
use coopside::care::course::course;
use coopside::care::cupboard::Cupboard;
use coopside::care::timetable::{Look, NEAR};
use coopside::care::{Plan, plan};
use coopside::days::Days;
use coopside::days::due::{Fate, due};
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::practice;
use coopside::protocol::Protocol;
use coopside::protocol::action::{Air, Stance};
use coopside::protocol::cond::Cond;
use coopside::protocol::scale::Need;
use coopside::prove::judge_bands;
use coopside::render::text;
use coopside::words::Reader;
use coopside::zone::Zone;
use std::sync::LazyLock;

/// The shipped protocol, but that no bird is ever stable.
static WAKEFUL: LazyLock<Protocol> =
    LazyLock::new(|| Protocol { stable_when: Cond::Not(Box::new(Cond::Always)), ..PROTOCOL.clone() });

fn dublin() -> Zone {
    Zone::named("Europe/Dublin").unwrap_or_else(|| panic!("no such zone"))
}

fn at(text: &str) -> DateTime<Utc> {
    text.parse().unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// At noon, an hour before the dark, in it, and before dawn: by the clock in Dublin an hour later.
const HOURS: [&str; 4] =
    ["2026-05-01T11:00:00Z", "2026-05-01T20:00:00Z", "2026-05-01T22:30:00Z", "2026-05-02T03:00:00Z"];

/// Every scripted bird, each again with no vet in reach, and 200 drawn ones.
fn birds(now: DateTime<Utc>) -> Vec<(String, Findings)> {
    let mut birds = Vec::new();
    for (name, text) in practice::shipped() {
        let (scenario, known) =
            practice::read(&PROTOCOL, name, text, now).unwrap_or_else(|faults| panic!("\n{faults}"));
        let twin = practice::without_vet(&PROTOCOL, &scenario, &known, now);
        birds.push((name.to_owned(), known));
        birds.extend(twin.map(|twin| (format!("{name}, no vet"), twin)));
    }
    let mut rng = fastrand::Rng::with_seed(29);
    birds.extend((0..count(200, 2_000)).map(|nth| (format!("drawn {nth}"), rolled(&mut rng, now))));
    birds
}

/// What of the list is so, or cannot be told: with any of it she is no stable bird. `slack` is what was begun of late, which passes.
struct Against {
    lasting: Vec<&'static str>,
    of_late: bool,
}

fn against(known: &Findings, plan: &Plan, now: DateTime<Utc>) -> Against {
    let verdict = judge_bands(&PROTOCOL, known, now);
    let is = |about: About, question: &str, fine: &[&str]| match known.answer(about, question) {
        Some(said) => matches!(&said.statement.answer, Answer::Choice(id) if fine.contains(&id.as_str())),
        None => false,
    };
    let bird = |question: &str, fine: &[&str]| is(About::Bird, question, fine);
    let wounds = || (0..known.wounds()).map(About::Wound);
    let dry = |about: About| is(about, "bleeds", &["dry", "oozes"]);
    let danger = ["bleeding_hard", "fighting_breath", "not_responding", "bone_or_gut", "fitting"];
    let bitten = !bird("happened", &["raptor", "flock", "accident", "run_over", "fire", "scald", "unseen", "ill"])
        || wounds().any(|about| !is(about, "cause", &["raptor", "pecked", "sharp", "blow", "heat", "unseen"]));
    let found = [
        ("not looked over", !verdict.looked_over),
        ("more than a day's need", verdict.need.high > Need::WithinADay),
        ("a test is due", !course(&PROTOCOL, &verdict, plan).tests.is_empty()),
        ("a danger sign", danger.iter().any(|sign| !bird(sign, &["no"]))),
        ("a blow to the head", !bird("head_blow", &["no"])),
        ("a hard bleed", wounds().any(|about| !dry(about))),
        ("a bite without a vet", bitten && !bird("reach", &["now", "hours", "day"])),
    ];
    // What is done of late, and looks that come near each other since a harm shows late.
    let of_late = plan.done.iter().any(|act| PROTOCOL.night.acts.contains(act))
        || verdict.looks.iter().any(|looks| looks.late && looks.every_min < 240);
    Against { lasting: found.into_iter().filter(|(_, so)| *so).map(|(what, _)| what).collect(), of_late }
}

/// Whether a moment is in the dark hours by the clock of Dublin, its edges left out.
fn is_dark(at: DateTime<Utc>) -> bool {
    let local = dublin().local(at);
    let edge = local.minute() == 0 && local.second() == 0 && (local.hour() == 22);
    (local.hour() >= 22 || local.hour() < 6) && !edge
}

fn planned(protocol: &Protocol, known: &Findings, now: DateTime<Utc>) -> Plan {
    plan(protocol, &judge_bands(protocol, known, now), &Cupboard::default(), dublin())
}

#[test]
fn nobody_looks_at_a_stable_bird_by_night_and_nothing_changes_for_any_other() {
    let (mut stable, mut put_off) = (0, 0);
    for now in HOURS.map(at) {
        for (name, known) in birds(now) {
            let (own, wakeful) = (planned(&PROTOCOL, &known, now), planned(&WAKEFUL, &known, now));
            let Against { lasting, of_late } = against(&known, &own, now);
            if !lasting.is_empty() {
                assert!(!own.is_stable(), "{name}: stable in spite of {lasting:?}");
                assert_eq!(own.looks, wakeful.looks, "{name}: {lasting:?}");
                continue;
            }
            // The protocol may ask for more than the list: then nothing changes for her either.
            if !own.is_stable() {
                assert_eq!(own.looks, wakeful.looks, "{name}");
                continue;
            }
            stable += 1;
            let fresh = |look: &&Look| of_late && look.at < now + TimeDelta::hours(48);
            let woken: Vec<&Look> =
                own.looks.iter().filter(|look| is_dark(look.at)).filter(|look| !fresh(look)).collect();
            assert!(woken.is_empty(), "{name} at {now}: {woken:?}");
            // By day all is as it was.
            let by_day = |plan: &Plan| -> Vec<DateTime<Utc>> {
                plan.looks.iter().map(|look| look.at).filter(|at| !is_dark(*at)).collect()
            };
            let (own_days, days) = (by_day(&own), by_day(&wakeful));
            let near = |look: &DateTime<Utc>| own_days.iter().any(|own| (*own - *look).abs() <= NEAR);
            assert!(days.iter().all(near), "{name} at {now}: {days:?} in place of {own_days:?}");
            edges(&name, &own, &wakeful, now);
            put_off += own.nights.len();
        }
    }
    assert!(stable > 20 && put_off > 20, "{stable} stable birds, {put_off} nights");
}

/// For each night looks were taken out of: one look last thing, one at dawn, and both look for all that was put off.
fn edges(name: &str, own: &Plan, wakeful: &Plan, now: DateTime<Utc>) {
    for night in &own.nights {
        let within = |look: &&Look| night.from < look.at && look.at < night.until;
        assert!(
            !own.looks.iter().any(|look| within(&look)),
            "{name} at {now}: a look in the night that is told as dark"
        );
        let signs = wakeful.looks.iter().filter(within).any(|look| look.signs);
        let there = |at: DateTime<Utc>| {
            let near = |look: &&Look| look.at <= at && at - look.at <= NEAR;
            own.looks.iter().find(near).is_some_and(|look| look.signs || !signs)
        };
        assert!(there(night.until), "{name} at {now}: no look at dawn, {:?}", own.looks);
        assert!(night.from < now + NEAR || there(night.from), "{name} at {now}: none last thing, {:?}", own.looks);
    }
}

/// Whatever of the list is turned for a stable bird, to the worse or to "cannot tell", her night is as watched as any other's.
#[test]
fn any_sign_of_the_list_that_is_so_or_cannot_be_told_brings_the_looks_back() {
    let now = at("2026-05-01T11:00:00Z");
    let (name, known) = birds(now)
        .into_iter()
        .find(|(_, known)| planned(&PROTOCOL, known, now).is_stable())
        .unwrap_or_else(|| panic!("none"));
    let signs = ["bleeding_hard", "fighting_breath", "not_responding", "bone_or_gut", "fitting", "head_blow", "pupils"];
    for sign in signs {
        let question = PROTOCOL.question(sign).unwrap_or_else(|| panic!("{sign}"));
        let worse = question.choices.iter().skip(1).map(|choice| Answer::Choice(choice.id.clone()));
        for answer in worse.chain([Answer::CannotTell]) {
            let mut turned = known.clone();
            turned.say(Statement { about: About::Bird, question: sign.into(), answer: answer.clone() }, now);
            let (own, wakeful) = (planned(&PROTOCOL, &turned, now), planned(&WAKEFUL, &turned, now));
            assert!(!own.is_stable(), "{name}: {sign} {answer:?}");
            assert_eq!(own.looks, wakeful.looks, "{name}: {sign} {answer:?}");
        }
    }
}

/// What gives heat, is wrapped round her, or comes round more than once a night is named among what keeps her watched.
#[test]
fn every_act_of_heat_or_a_wrap_keeps_her_watched() {
    let often = |act| {
        let of = |round: &&coopside::protocol::supply::Round| round.with.contains(&act);
        PROTOCOL.rounds.iter().filter(of).any(|round| round.every_min < 480)
    };
    let of_heat = |air| matches!(air, Air::Ill | Air::Chick | Air::HeadHurt);
    for (at, action) in PROTOCOL.actions_enumerated() {
        let wraps = action.keeps.contains(&Stance::Bandaged);
        if wraps || often(at) || action.air.is_some_and(of_heat) {
            assert!(PROTOCOL.night.acts.contains(&at), "{}", action.id);
        }
    }
}

/// A case as the log holds it: what was found at noon, and whatever else was said at a look later on.
fn case(known: &Findings, began: DateTime<Utc>) -> Vec<Stamped> {
    let stamp = |entry| Stamped { at: began, entry };
    let mut log: Vec<Stamped> = (0..known.wounds()).map(|_| stamp(Entry::FoundWound)).collect();
    log.extend(known.said().iter().map(|said| stamp(Entry::Said(vec![said.statement.clone()]))));
    log.push(stamp(Entry::LookedOver));
    log
}

/// Looks that were not promised are never called missed: neither the morning after, nor once she is stable no more.
#[test]
fn nothing_is_missed_that_was_dropped() {
    let noon = at("2026-05-01T11:00:00Z");
    let mut seen = 0;
    for (name, known) in birds(noon) {
        let own = planned(&PROTOCOL, &known, noon);
        let Some(night) = own.nights.first().filter(|_| own.is_stable()) else { continue };
        seen += 1;
        let mut log = case(&known, noon);
        let by_night = |log: &[Stamped], now| {
            let due = due(&PROTOCOL, log, &Days::of(log), &Cupboard::default(), dublin(), now);
            let dark = |look: &&Look| night.from < look.at && look.at < night.until;
            (due.with(Fate::Missed).filter(dark).count(), due.with(Fate::DueNow).filter(dark).count(), due)
        };
        let dawn = night.until + TimeDelta::hours(1);
        let (missed, now_due, due) = by_night(&log, dawn);
        assert_eq!((missed, now_due), (0, 0), "{name}: {due:?}");
        // In the morning she fights for breath: the night that has gone stays as it was promised.
        let stamp = |entry| Stamped { at: dawn, entry };
        let worse =
            Statement { about: About::Bird, question: "fighting_breath".into(), answer: Answer::Choice("yes".into()) };
        log.push(stamp(Entry::LookBegan(Vec::new())));
        log.push(stamp(Entry::Said(vec![worse])));
        log.push(stamp(Entry::LookDone));
        let (missed, now_due, due) = by_night(&log, dawn + TimeDelta::hours(12));
        assert_eq!((missed, now_due), (0, 0), "{name}: {due:?}");
        let next = due.looks.iter().filter(|look| look.look.at > dawn).map(|look| look.look.at).collect::<Vec<_>>();
        assert!(next.iter().any(|at| is_dark(*at)), "{name}: she is looked at by night again, {next:?}");
    }
    assert!(seen > 5, "{seen}");
}

/// A night is one by the clock of her own zone.
#[test]
fn the_night_goes_by_the_clock_of_her_zone() {
    let noon = at("2026-05-01T11:00:00Z");
    let stable = birds(noon).into_iter().map(|(_, known)| known);
    let known = stable.into_iter().find(|known| !planned(&PROTOCOL, known, noon).nights.is_empty());
    let known = known.unwrap_or_else(|| panic!("none"));
    let verdict = judge_bands(&PROTOCOL, &known, noon);
    for name in ["Europe/Dublin", "America/Denver", "Pacific/Auckland", "Asia/Kolkata"] {
        let zone = Zone::named(name).unwrap_or_else(|| panic!("{name}"));
        let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), zone);
        for night in &plan.nights {
            assert_eq!((zone.local(night.from).hour(), zone.local(night.until).hour()), (22, 6), "{name}");
        }
        let dark = |look: &&Look| {
            (6..22).contains(&zone.local(look.at).hour())
                || zone.local(look.at).minute() == 0 && zone.local(look.at).hour() == 22
        };
        assert!(plan.looks.iter().all(|look| dark(&look)), "{name}: {:?}", plan.looks);
    }
}

/// Looks that have gone by are told without a count: when she was looked at last, and that it is time.
#[test]
fn nobody_is_scolded_for_a_look_that_has_gone_by() {
    let noon = at("2026-05-01T11:00:00Z");
    let mut told = 0;
    for (name, known) in birds(noon) {
        let later = noon + TimeDelta::hours(11);
        let verdict = coopside::prove::judge(&PROTOCOL, &known, later);
        let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), dublin());
        let reader = Reader::english(dublin(), PROTOCOL.no_country());
        let text = text::plan(&PROTOCOL, &known, &verdict, &plan, reader);
        let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(!words.contains("looks have gone by") && !words.contains("looks missed"), "{name}");
        if plan.looks_gone > 0 {
            told += 1;
            assert!(words.contains("Last looked at") && words.contains("Look now."), "{name}: {words}");
        }
    }
    assert!(told > 20, "{told}");
}
