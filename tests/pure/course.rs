//! What holds of every course: made-up birds, cupboards and reaches by the thousand, a hundred thousand in the long form.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, clock, count, now, rolled};
use chrono::TimeDelta;
use coopside::care::{self, Plan, PlanStep, plan};
use coopside::content::document::Section;
use coopside::content::plan as document;
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::judge::Target;
use coopside::protocol::action::{Air, Pressing, Stance};
use coopside::protocol::scale::{Humane, Need};
use coopside::prove::{Exact, judge_bands};
use coopside::words::{Reader, english};
use coopside::zone::Zone;
use std::{panic, thread};

/// One made-up bird with all that is told of her.
struct Case {
    known: Findings,
    verdict: Exact,
    plan: Plan,
}

/// The bird a claim is held against: if it fails, she is told with what she was rolled from.
struct Held {
    seed: u64,
    nth: usize,
    case: Case,
}

impl Drop for Held {
    fn drop(&mut self) {
        if thread::panicking() {
            eprintln!("seed {}, bird {}: {:#?}", self.seed, self.nth, self.case.known);
        }
    }
}

/// Holds a claim against every bird, as she was rolled.
fn of_every_bird(seed: u64, least: usize, claim: impl Fn(&Case) -> bool + Sync) {
    of_every_bird_made(seed, least, |_| (), claim);
}

/// Holds a claim against every bird, each made fit for it first. A claim returns whether there was anything about her to hold it
/// against, and there must be for at least so many birds.
fn of_every_bird_made(
    seed: u64,
    least: usize,
    make: impl Fn(&mut Findings) + Sync,
    claim: impl Fn(&Case) -> bool + Sync,
) {
    let (make, claim) = (&make, &claim);
    let half = |seed: u64| {
        let mut rng = fastrand::Rng::with_seed(seed);
        let mut applied = 0;
        for nth in 0..count(2_000, 50_000) {
            let (mut known, cupboard) = (rolled::bird(&mut rng, now()), rolled::cupboard(&mut rng));
            make(&mut known);
            let verdict = judge_bands(&PROTOCOL, &known, now());
            let plan = plan(&PROTOCOL, &verdict, &cupboard, coopside::zone::Zone::UTC);
            let held = Held { seed, nth, case: Case { known, verdict, plan } };
            applied += usize::from(claim(&held.case));
        }
        applied
    };
    let applied: usize = thread::scope(|scope| {
        let halves = [seed * 2, seed * 2 + 1].map(|seed| scope.spawn(move || half(seed)));
        halves.into_iter().map(|half| half.join().unwrap_or_else(|failed| panic::resume_unwind(failed))).sum()
    });
    assert!(applied >= least, "held against {applied} birds alone; expected at least {least}");
}

fn acts(plan: &Plan) -> impl Iterator<Item = Target> {
    plan.steps.iter().filter_map(|step| match step {
        PlanStep::Act(target, _) => Some(*target),
        PlanStep::Phone(_) => None,
    })
}

/// What a line of the plan is called, what it is about, which states it keeps her in, and which air it asks for.
type Line = (String, Target, Vec<Stance>, Option<Air>);

fn lines(case: &Case) -> Vec<Line> {
    let Case { verdict, plan, .. } = case;
    let act = |target: Target| {
        let action = PROTOCOL.action(target.action);
        let undone = plan.ways.get(&target.action).is_some_and(|chosen| PROTOCOL.way(chosen.way).undone);
        let keeps = if undone { Vec::new() } else { verdict.fitting.keeps(&PROTOCOL, target).to_vec() };
        (action.id.to_string(), target, keeps, action.air)
    };
    let way = |target: Target| {
        let chosen = plan.ways.get(&target.action)?;
        let way = PROTOCOL.way(chosen.way);
        Some((format!("a way to {}", PROTOCOL.action(way.act).id), target, way.keeps.clone(), None))
    };
    let paragraph = |at: &coopside::protocol::texts::ParagraphAt| {
        let told = PROTOCOL.paragraph(*at);
        let about = acts(plan).next().map(|target| Target { wound: None, ..target });
        Some((told.id.to_string(), about?, told.keeps.clone(), told.air))
    };
    let ways = acts(plan).filter_map(way).collect::<Vec<_>>();
    acts(plan).map(act).chain(ways).chain(verdict.told.iter().filter_map(paragraph)).collect()
}

/// Heat, water, food, wet cover, handling, company, box and bandage.
#[test]
fn no_two_lines_of_one_plan_contradict() {
    of_every_bird(1, 2_000, |case| {
        let lines = lines(case);
        let mut held = false;
        for (nth, (one, about, keeps, air)) in lines.iter().enumerate() {
            for (other, other_about, other_keeps, other_air) in lines.iter().skip(nth + 1) {
                if !about.meets(*other_about) {
                    continue;
                }
                held |= !keeps.is_empty() && !other_keeps.is_empty();
                assert!(air.is_none() || other_air.is_none() || air == other_air, "air: {one} and {other}");
                let clash = keeps.iter().find(|one| other_keeps.iter().any(|two| one.contradicts(*two)));
                assert!(clash.is_none(), "{one} and {other}: {clash:?}");
            }
        }
        held
    });
}

/// Nothing is told that a ban bars: no food or water under a ban on all by mouth, no searching of a bird that must not be handled.
#[test]
fn no_line_brings_her_into_what_a_ban_bars() {
    of_every_bird(2, 2_500, |case| {
        let mut held = false;
        for ban in &case.verdict.never {
            let Some(told) = &PROTOCOL.action(ban.target.action).forbidden else { panic!("a ban nobody explains") };
            for (line, about, keeps, _) in lines(case) {
                let barred = keeps.iter().any(|stance| told.bars.contains(stance));
                let id = &PROTOCOL.action(ban.target.action).id;
                assert!(!barred || !about.meets(ban.target), "{line} under a ban on {id}");
                held |= !told.bars.is_empty() && !keeps.is_empty();
            }
        }
        held
    });
}

/// Of an act's own states the check sees it; of the line that was chosen for her only the verdict knows.
#[test]
fn every_act_that_keeps_her_in_a_lasting_state_has_an_end() {
    of_every_bird(3, 2_500, |case| {
        let mut held = false;
        for target in acts(&case.plan) {
            let action = PROTOCOL.action(target.action);
            let lasts = case.verdict.fitting.keeps(&PROTOCOL, target).iter().any(|stance| stance.lasts());
            let comes_again = PROTOCOL.rounds.iter().any(|round| round.with.contains(&target.action));
            assert!(!lasts || comes_again || action.ends.is_some(), "{}", action.id);
            held |= lasts && !comes_again;
        }
        held
    });
}

fn sections(case: &Case) -> Vec<Section> {
    let reader = Reader::english(Zone::UTC, PROTOCOL.no_country());
    reader.sections(document::sections(&PROTOCOL, &case.known, &case.verdict, &case.plan, reader))
}

/// Where no vet can be reached, the plan speaks of one only where it says whom to phone, what a law or a source says, or what a vet
/// alone may do.
#[test]
fn no_vet_s_clock_runs_where_none_can_be_reached() {
    of_every_bird(4, 150, |case| {
        if !case.plan.no_vet {
            return false;
        }
        assert!(case.plan.due.is_empty() && case.plan.left_to_vet.is_empty());
        for section in sections(case) {
            assert!(section.heading != "BY WHEN" && section.heading != "ON THE WAY", "{}", section.heading);
            // What is read out is read to a vet, wherever one may sit.
            if section.heading.starts_with("ON THE PHONE") {
                continue;
            }
            for line in section.items.iter().flat_map(|item| [&item.lead].into_iter().chain(&item.more)) {
                assert_eq!(clock::of_a_vet(line), None, "{}: {line}", section.heading);
            }
        }
        true
    });
}

/// A dirty wound is rinsed now, or some line says why it is not and what ends that.
#[test]
fn a_dirty_wound_never_waits_in_silence() {
    let rinse = PROTOCOL.actions_enumerated().find(|(_, action)| action.id == *"rinse").map(|(at, _)| at);
    let Some(rinse) = rinse else { panic!("no action `rinse`") };
    let dirty = |known: &mut Findings| {
        for wound in 0..known.wounds() {
            for (question, answer) in [("dirt", "dirty"), ("bleeds", "dry")] {
                let answer = Answer::Choice(answer.into());
                known.say(Statement { about: About::Wound(wound), question: question.into(), answer }, now());
            }
        }
    };
    of_every_bird_made(5, 1_400, dirty, |case| {
        let mut held = false;
        for wound in 0..case.known.wounds() {
            let answer = |id: &str| case.known.answer(About::Wound(wound), id).map(|said| &said.statement.answer);
            let is = |id: &str, any: &[&str]| matches!(answer(id), Some(Answer::Choice(said)) if any.iter().any(|one| *said == **one));
            // What nobody has looked at yet stands under what is still open.
            let reach = case.known.answer(About::Bird, "reach");
            if reach.is_none() || ["place", "depth"].iter().any(|id| answer(id).is_none()) {
                continue;
            }
            if !is("dirt", &["dirty", "foul"]) || !is("what", &["scrape", "cut", "hole", "skin_gone"]) {
                continue;
            }
            let target = Target { action: rinse, wound: Some(wound) };
            let told = |of: Target| of.action == rinse && of.meets(target);
            let Case { verdict, plan, .. } = case;
            let said = acts(plan).any(told)
                || plan.left_to_vet.iter().any(|(of, _)| told(*of))
                || plan.later.iter().any(|(of, _)| told(*of))
                || plan.waiting.iter().any(|waiting| told(waiting.target))
                || verdict.dropped.iter().any(|dropped| told(dropped.target))
                || plan.never.iter().any(|(of, _)| told(*of))
                || plan.ends();
            let told = ["what", "place", "depth", "dirt", "bleeds", "size", "cause"].map(answer);
            assert!(said, "a dirty wound waits and nobody says why: {told:?}, {:?}", plan.steps);
            held = true;
        }
        held
    });
}

/// No line on pressing tells of a place what it forbids.
#[test]
fn no_line_presses_harder_than_its_place_bears() {
    let place = PROTOCOL.place_question();
    of_every_bird(6, 1_500, |case| {
        let mut held = false;
        for (at, _) in PROTOCOL.actions_enumerated().filter(|(_, action)| action.presses) {
            for wound in 0..case.known.wounds() {
                let said = case.known.answer(About::Wound(wound), place.id.as_str());
                let Some(Answer::Choice(said)) = said.map(|said| &said.statement.answer) else { continue };
                let region = PROTOCOL.regions.iter().find(|region| region.place == *said);
                let least = region.map_or(Pressing::Firmly, |region| region.pressing);
                let target = Target { action: at, wound: Some(wound) };
                let pressing = case.verdict.fitting.pressing(&PROTOCOL, target);
                assert!(pressing.is_some_and(|pressing| pressing >= least), "{said}: {pressing:?}");
                held |= least > Pressing::Firmly;
            }
        }
        held
    });
}

/// Where one presses beside a place, nothing is said of what lies on it.
#[test]
fn no_cloth_lies_where_one_presses_beside() {
    of_every_bird(9, 200, |case| {
        let mut held = false;
        for target in acts(&case.plan) {
            if case.verdict.fitting.pressing(&PROTOCOL, target) != Some(Pressing::Beside) {
                continue;
            }
            let Some(chosen) = case.plan.ways.get(&target.action) else { continue };
            let lead = english(care::line(&PROTOCOL, &case.verdict, target));
            let told = sections(case);
            let item = told.iter().flat_map(|section| &section.items).find(|item| item.lead == lead);
            let Some(item) = item else { panic!("{lead} is told nowhere") };
            assert!(
                chosen.lines.iter().all(|line| !item.more.contains(&english(line.clone()))),
                "{lead}: {:?}",
                item.more
            );
            held = true;
        }
        held
    });
}

/// A humane end that is advised stands first, and nothing below it tends a wound or counts the weeks.
#[test]
fn an_advised_end_stands_first_and_what_it_makes_pointless_is_left_out() {
    of_every_bird(7, 21, |case| {
        assert_eq!(case.plan.ends(), case.verdict.humane.low >= Humane::AdvisedUnlessVet);
        if !case.plan.ends() {
            return false;
        }
        let sections = sections(case);
        assert!(sections.first().is_some_and(|first| first.heading == "HUMANE END"));
        let pointless = ["THE DAYS AFTER", "THEN THE WOUND", "THEN HER WOUNDS", "BY WHEN"];
        let told = sections.iter().find(|section| pointless.iter().any(|heading| section.heading.starts_with(heading)));
        assert!(told.is_none(), "{told:?}");
        true
    });
}

/// What comes before another act stands before it, wherever both are told in one part of the plan.
#[test]
fn what_comes_first_stands_first() {
    of_every_bird(8, 2_000, |case| {
        let mut held = false;
        let told: Vec<Target> = acts(&case.plan).collect();
        for (nth, later) in told.iter().enumerate() {
            let too_late = |first: &&Target| PROTOCOL.action(first.action).before.contains(&later.action);
            let after = told.iter().skip(nth + 1).filter(|first| first.meets(*later)).find(too_late);
            held |= told.iter().take(nth).filter(|first| first.meets(*later)).any(|first| too_late(&first));
            let id = |target: &Target| PROTOCOL.action(target.action).id.to_string();
            assert!(after.is_none(), "{} stands after {}", after.map(id).unwrap_or_default(), id(later));
        }
        held
    });
}

/// A bird that needs a vet within hours is looked at within the half hour, whatever brings the need (our proposal).
#[test]
fn what_can_kill_within_hours_is_not_left_for_half_a_day() {
    of_every_bird(41, 500, |case| {
        let soon = case.verdict.need.low >= Need::WithinHours;
        let first = case.plan.looks.first().map(|look| look.at - case.verdict.answered_at);
        assert!(!soon || first.is_some_and(|after| after <= TimeDelta::minutes(30)), "{first:?}");
        soon
    });
}

/// Whatever is told of a wound at an eye: pressing is beside it.
#[test]
fn nothing_presses_an_eye() {
    let at_eye = |known: &mut Findings| {
        let wound = known.find_wound();
        let said = |question: &str, answer: &str| Statement {
            about: About::Wound(wound),
            question: question.into(),
            answer: Answer::Choice(answer.into()),
        };
        known.say(said("place", "eye"), now());
        known.say(said("what", "cut"), now());
        let bleeds = ["dry", "oozes", "runs"];
        known.say(said("bleeds", bleeds[known.said().len() % bleeds.len()]), now());
    };
    of_every_bird_made(43, 2_000, at_eye, |case| {
        let Case { known, verdict, plan } = case;
        let eye = known.wounds() - 1;
        let mut held = false;
        for target in acts(plan).filter(|target| target.wound == Some(eye)) {
            let told = format!("{} {}", verdict.fitting.say(&PROTOCOL, target), verdict.fitting.how(&PROTOCOL, target));
            let presses = told.split(['.', '?']).filter(|sentence| sentence.to_lowercase().contains("press"));
            for sentence in presses {
                let low = sentence.to_lowercase();
                assert!(["beside", "never", "nothing"].iter().any(|word| low.contains(word)), "{sentence}");
            }
            held = true;
        }
        held
    });
}

/// Blood is stopped, or looked for, before she is felt, dried, warmed or housed: minutes kill there, and half hours here. Common
/// practice, no source for the order itself.
#[test]
fn blood_comes_before_warmth() {
    let staunches = ["press", "look_blood", "flour_nail", "press_feather"];
    let warms = ["feel_cold", "dry_her", "warm_box", "chick_box", "room_box", "quiet_box"];
    of_every_bird(12, 500, |case| {
        let order: Vec<String> = acts(&case.plan).map(|act| PROTOCOL.action(act.action).id.to_string()).collect();
        let place = |of: &[&str]| order.iter().position(|act| of.contains(&act.as_str()));
        let last = order.iter().rposition(|act| staunches.contains(&act.as_str()));
        let Some((last, first)) = last.zip(place(&warms)) else { return false };
        assert!(last < first, "{order:?}");
        true
    });
}
