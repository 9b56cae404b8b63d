//! What is proven held against other ways of finding out: every completion tried one by one, and judged twice.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{self, Bird, PROTOCOL, complete, count, now, partial, reference};
use chrono::TimeDelta;
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::judge::{Target, Verdict, judge, levels};
use coopside::protocol::Protocol;
use coopside::protocol::cond::{AnswerSet, Cond, QuestionAt};
use coopside::protocol::question::{Asked, Question};
use coopside::protocol::rule::Rule;
use coopside::protocol::scale::{Authority, Humane, Need};
use coopside::prove::{
    Bearing, Rung, Scale, Work, answer_of, bands, bearing, domain, envelope, explain, is_possible, matters, what_if,
    why_at_least,
};
use coopside::sheet::{Cell, Sheet, Subject, Truth};
use coopside::unit::Band;
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

const ENOUGH: Work = Work(1000);
/// How many completions are judged one by one, in all.
fn completions() -> usize {
    count(100_000, 1_000_000)
}
/// Of one bird at most so many.
const OF_ONE: usize = 20_000;

type Bands = [Band<Rung>; 3];

/// Every completion of a sheet whose look-over is finished, judged one by one by both judges; `None` where there are too many.
fn by_brute_force(protocol: &Protocol, sheet: &Sheet, open: &[Asked], most: usize) -> Option<(Bands, usize)> {
    let many = open.iter().try_fold(1usize, |many, asked| {
        many.checked_mul(domain(protocol, asked.question).len()).filter(|many| *many <= most)
    });
    many?;
    let mut found: Option<Bands> = None;
    let mut count = 0;
    let mut filled = sheet.clone();
    fill(protocol, &mut filled, open, &mut |sheet| {
        count += 1;
        let bands = bands(levels(protocol, sheet));
        let told = reference::levels(protocol, sheet);
        for (band, told) in bands.iter().zip(told) {
            assert_eq!((band.low, band.high), (told, told), "a complete bird has one verdict, by either judge");
        }
        found = Some(found.map_or(bands, |before| std::array::from_fn(|at| before[at].hull(bands[at]))));
    });
    found.map(|found| (found, count))
}

fn fill(protocol: &Protocol, sheet: &mut Sheet, open: &[Asked], judged: &mut impl FnMut(&Sheet)) {
    let Some((asked, rest)) = open.split_first() else {
        sheet.suppose_applies();
        if is_possible(protocol, &blank(protocol), sheet) {
            judged(sheet);
        }
        return;
    };
    for cell in domain(protocol, asked.question) {
        sheet.suppose(*asked, cell);
        fill(protocol, sheet, rest, judged);
    }
}

fn blank(protocol: &Protocol) -> Sheet<'_> {
    Sheet::lay(protocol, &Findings::default(), now())
}

/// What is open on a sheet, bird and wounds, and may apply.
fn open(protocol: &Protocol, sheet: &Sheet) -> Vec<Asked> {
    let all = protocol.enumerated().flat_map(|(at, question)| {
        let abouts = if question.wound { (0..sheet.wounds()).map(About::Wound).collect() } else { vec![About::Bird] };
        abouts.into_iter().map(move |about| Asked { about, question: at })
    });
    let waits = |asked: &Asked| {
        let subject = Subject::from(asked.about);
        sheet.cell(subject, asked.question) == Cell::NotAsked && sheet.applies(subject, asked.question) != Truth::No
    };
    all.filter(waits).collect()
}

/// A bird with some places left open, of all her places or of those asked in `among`.
fn opened(bird: &crate::common::Bird, picks: &[Index], among: Option<&[QuestionAt]>) -> crate::common::Bird {
    let mut opened = bird.possible();
    let named = |wound: bool| PROTOCOL.enumerated().filter(move |(_, question)| question.wound == wound);
    let places: Vec<(Option<usize>, usize)> = std::iter::once(None)
        .chain((0..bird.wounds.len()).map(Some))
        .flat_map(|wound: Option<usize>| {
            let wanted = move |at: QuestionAt| among.is_none_or(|among| among.contains(&at));
            let places = named(wound.is_some()).enumerate().filter(move |(_, (at, _))| wanted(*at));
            places.map(move |(place, _)| (wound, place)).collect::<Vec<_>>()
        })
        .collect();
    for pick in picks.iter().filter(|_| !places.is_empty()) {
        opened.leave_open(*pick.get(&places));
    }
    opened
}

fn proven(protocol: &Protocol, sheet: &Sheet) -> Bands {
    let envelope = envelope(protocol, sheet, ENOUGH).unwrap_or_else(|error| panic!("{error}"));
    Scale::ALL.map(|scale| envelope.of(scale))
}

/// The envelope is what trying every completion finds, no wider and no narrower: the shipped protocol, a hundred thousand
/// completions, a million in the long form.
#[test]
fn the_envelope_is_exact_over_every_completion_tried() {
    let mut runner = TestRunner::deterministic();
    let drawn = (complete(), prop::collection::vec(any::<Index>(), 1..8));
    let (mut tried, mut birds, mut narrowed) = (0, 0, 0);
    while tried < completions() {
        let tree = drawn.new_tree(&mut runner).unwrap_or_else(|error| panic!("{error}"));
        let (bird, picks) = tree.current();
        let findings = opened(&bird, &picks, None).findings();
        let sheet = Sheet::lay(&PROTOCOL, &findings, now());
        let Some((found, completions)) = by_brute_force(&PROTOCOL, &sheet, &open(&PROTOCOL, &sheet), OF_ONE) else {
            continue;
        };
        assert_eq!(proven(&PROTOCOL, &sheet), found);
        narrowed += usize::from(bands(levels(&PROTOCOL, &sheet)) != found);
        tried += completions;
        birds += 1;
    }
    assert!(birds > 10, "{birds} birds");
    // What somebody said shows rules out the birds that have nothing of it: the judge alone knows nothing of that.
    for sign in PROTOCOL.questions.iter().filter(|question| question.shown_if.is_some()) {
        let sheet = Sheet::lay(&PROTOCOL, &told_alone(sign), now());
        let Some((found, completions)) = by_brute_force(&PROTOCOL, &sheet, &open(&PROTOCOL, &sheet), OF_ONE) else {
            continue;
        };
        assert_eq!(proven(&PROTOCOL, &sheet), found, "{}", sign.id);
        narrowed += usize::from(bands(levels(&PROTOCOL, &sheet)) != found);
        tried += completions;
    }
    assert!(narrowed > 4, "of {birds} birds the judge alone told {narrowed} too wide a band; {tried} completions");
}

/// A bird who is as always but for what somebody said shows; what it would be found by is open.
fn told_alone(sign: &Question) -> Findings {
    let found_by = sign.shown_if.as_ref().map(Cond::questions).unwrap_or_default();
    let mut findings = Findings::default();
    for (at, question) in PROTOCOL.enumerated().filter(|(_, question)| !question.wound) {
        let answer = if question.id == sign.id { question.choices.last() } else { question.choices.first() };
        if let Some(choice) = answer.filter(|_| !found_by.contains(&at) && question.worked_out.is_none()) {
            let answer = Answer::Choice(choice.id.clone());
            findings.say(Statement { about: About::Bird, question: question.id.clone(), answer }, now());
        }
    }
    findings.look_over();
    findings
}

/// Each rule that moves a scale, on a bird of whom all else is fine: what it reads is open, of her and of her second wound. Random
/// birds hardly ever hang on one seldom rule, and most show both ends without a search.
#[test]
fn the_envelope_is_exact_where_one_rule_decides() {
    let fine = |wound: bool| {
        PROTOCOL.questions.iter().filter(|one| one.wound == wound).map(|_| common::Said::Choice(0)).collect()
    };
    let mut held = 0;
    for rule in PROTOCOL.rules.iter().filter(|rule| Scale::ALL.iter().any(|scale| scale.of(rule) > 0)) {
        let mut bird = Bird { whole: fine(false), wounds: vec![fine(true), fine(true)], looked_over: true };
        let reads = rule.when.questions();
        for wound in [None, Some(1)] {
            let of = PROTOCOL.enumerated().filter(|(_, question)| question.wound == wound.is_some()).enumerate();
            of.filter(|(_, (at, _))| reads.contains(at)).for_each(|(place, _)| bird.leave_open((wound, place)));
        }
        let findings = bird.findings();
        let sheet = Sheet::lay(&PROTOCOL, &findings, now());
        if let Some((found, _)) = by_brute_force(&PROTOCOL, &sheet, &open(&PROTOCOL, &sheet), OF_ONE) {
            assert_eq!(proven(&PROTOCOL, &sheet), found, "{}", rule.id);
            held += 1;
        }
    }
    assert!(held > 150, "{held} rules");
}

/// A condition over a few questions, three levels deep.
fn any_cond(among: Vec<QuestionAt>) -> impl Strategy<Value = Cond> {
    let literal = (prop::sample::select(among), any::<u32>()).prop_map(|(at, set)| {
        let literal = Cond::Answer(at, AnswerSet(set));
        if PROTOCOL.ask(at).wound { Cond::SomeWound(Box::new(literal)) } else { literal }
    });
    literal.prop_recursive(3, 12, 3, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 1..4).prop_map(Cond::All),
            prop::collection::vec(inner.clone(), 1..4).prop_map(Cond::Any),
            prop::collection::vec(inner.clone(), 2..4).prop_map(|parts| Cond::Count(2, parts)),
            inner.prop_map(|part| Cond::Not(Box::new(part))),
        ]
    })
}

/// Six questions of the shipped protocol, some of them of wounds.
fn few() -> Vec<QuestionAt> {
    ["bleeding_hard", "bleeding_now", "alert", "posture", "depth", "bleeds"]
        .iter()
        .filter_map(|id| PROTOCOL.question_at(id))
        .collect()
}

/// A protocol of the same questions with a handful of random rules, conditions of any shape.
fn small() -> impl Strategy<Value = Protocol> {
    let rule = (any_cond(few()), prop::collection::vec(any_cond(few()), 0..2), 1..5usize, 0..4usize, 0..3usize);
    prop::collection::vec(rule, 1..7).prop_map(|drawn| {
        let mut protocol = PROTOCOL.clone();
        let model = (*PROTOCOL.rules)[0].clone();
        protocol.rules = drawn
            .into_iter()
            .map(|(when, unless, need, humane, authority)| Rule {
                when,
                unless,
                need: Some(Need::ALL[need]),
                humane: Some(Humane::ALL[humane]),
                authority: Some(Authority::ALL[authority]),
                per_wound: false,
                ..model.clone()
            })
            .collect();
        protocol
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, max_global_rejects: 200_000, ..ProptestConfig::with_cases(150) })]

    /// Random rules of any shape, even such as no protocol may hold: reference, judge, solver and brute force agree.
    #[test]
    fn four_ways_agree_on_random_protocols(protocol in small(), bird in complete(), picks in prop::collection::vec(any::<Index>(), 1..6)) {
        let findings = opened(&bird, &picks, Some(&few())).findings();
        let sheet = Sheet::lay(&protocol, &findings, now());
        if let Some((found, _)) = by_brute_force(&protocol, &sheet, &open(&protocol, &sheet), 4000) {
            prop_assert_eq!(proven(&protocol, &sheet), found);
            let judged = bands(levels(&protocol, &sheet));
            for (judged, found) in judged.iter().zip(found) {
                prop_assert!(judged.low <= found.low && found.high <= judged.high, "the judge's band is never too narrow");
            }
        }
    }

    /// A question matters where two birds that differ in nothing else come out differently, and only there.
    #[test]
    fn what_still_matters_is_what_trying_finds(bird in complete(), picks in prop::collection::vec(any::<Index>(), 1..5)) {
        let findings = opened(&bird, &picks, None).findings();
        let sheet = Sheet::lay(&PROTOCOL, &findings, now());
        let waiting = open(&PROTOCOL, &sheet);
        let many = waiting.iter().map(|asked| domain(&PROTOCOL, asked.question).len()).product::<usize>();
        let whole = Sheet::lay(&PROTOCOL, &bird.possible().findings(), now());
        prop_assume!(many <= 1500 && is_possible(&PROTOCOL, &blank(&PROTOCOL), &whole));
        let proven = envelope(&PROTOCOL, &sheet, ENOUGH).unwrap_or_else(|error| panic!("{error}"));
        let found = matters(&PROTOCOL, &sheet, &proven, &waiting, ENOUGH).unwrap_or_else(|error| panic!("{error}"));
        for asked in &waiting {
            prop_assert_eq!(found.contains(asked), turns(&sheet, &waiting, *asked), "{}", PROTOCOL.ask(asked.question).id);
        }
    }

    /// The fewest findings are enough by themselves, and none of them can be left out.
    #[test]
    fn the_fewest_findings_are_enough_and_needed(bird in complete()) {
        let sheet = Sheet::lay(&PROTOCOL, &bird.findings(), now());
        for (at, scale) in Scale::ALL.into_iter().enumerate() {
            let floor = bands(levels(&PROTOCOL, &sheet))[at].low;
            let why = why_at_least(&PROTOCOL, &sheet, scale, floor);
            if floor == 0 {
                prop_assert!(why.is_empty());
                continue;
            }
            let with = |kept: &[Asked]| {
                let mut findings = Findings::default();
                (0..sheet.wounds()).for_each(|_| { findings.find_wound(); });
                findings.look_over();
                let mut alone = Sheet::lay(&PROTOCOL, &findings, now());
                for asked in kept {
                    alone.suppose(*asked, sheet.cell(asked.about.into(), asked.question));
                }
                alone.suppose_applies();
                bands(levels(&PROTOCOL, &alone))[at].low
            };
            prop_assert!(with(&why) >= floor, "{} {:?}", scale.name(), why);
            for left_out in &why {
                let rest: Vec<Asked> = why.iter().copied().filter(|asked| asked != left_out).collect();
                prop_assert!(with(&rest) < floor, "{} needs no {:?}", scale.name(), left_out);
            }
        }
    }

    /// What is told to change a scale does, and as told.
    #[test]
    fn what_if_keeps_its_word(bird in partial()) {
        let sheet = Sheet::lay(&PROTOCOL, &bird.findings(), now());
        for (at, scale) in Scale::ALL.into_iter().enumerate() {
            let before = proven(&PROTOCOL, &sheet)[at].low;
            let told = what_if(&PROTOCOL, &sheet, scale, before, ENOUGH);
            for (change, milder) in [(told.milder, true), (told.graver, false)] {
                let Some(change) = change else { continue };
                let mut other = sheet.clone();
                change.instead.iter().for_each(|one| other.suppose(one.asked, one.cell));
                other.suppose_applies();
                let after = proven(&PROTOCOL, &other)[at].low;
                prop_assert!(after == change.rung && (after < before) == milder && after != before);
            }
        }
    }

    /// Until the moment told the clock alone changes nothing; at that moment it does, as told.
    #[test]
    fn a_verdict_holds_until_the_moment_told(bird in partial(), later in prop::collection::vec(1i64..20_000, 4)) {
        let findings = bird.findings();
        let verdict = coopside::prove::judge(&PROTOCOL, &findings, now());
        let until = explain(&PROTOCOL, &findings, &verdict).until;
        let at = |moment| outcome(&coopside::prove::judge(&PROTOCOL, &findings, moment));
        if let Some((moment, then)) = &until {
            prop_assert!(outcome(then) != outcome(&verdict) && outcome(then) == at(*moment));
            prop_assert_eq!(at(*moment - TimeDelta::minutes(1)), outcome(&verdict), "it changed before {}", moment);
        }
        for minutes in later {
            let moment = now() + TimeDelta::minutes(minutes);
            if until.as_ref().is_none_or(|(until, _)| moment < *until) {
                prop_assert_eq!(at(moment), outcome(&verdict), "after {} minutes", minutes);
            }
        }
    }

    /// What is told of a verdict is true of its exact floor, also where the judge's own was lower.
    #[test]
    fn what_is_told_of_a_verdict_is_true_of_its_floor(bird in partial()) {
        let findings = bird.findings();
        let sheet = Sheet::lay(&PROTOCOL, &findings, now());
        let verdict = coopside::prove::judge(&PROTOCOL, &findings, now());
        let exact = proven(&PROTOCOL, &sheet);
        for (at, told) in explain(&PROTOCOL, &findings, &verdict).scales.into_iter().enumerate() {
            prop_assert_eq!((told.floor, told.top), (exact[at].low, exact[at].high));
            if !told.at_least.is_empty() {
                let mut alone = Sheet::lay(&PROTOCOL, &bird_with_wounds(sheet.wounds()), now());
                for asked in &told.at_least {
                    alone.suppose(*asked, sheet.cell(asked.about.into(), asked.question));
                }
                alone.suppose_applies();
                prop_assert!(bands(levels(&PROTOCOL, &alone))[at].low >= told.floor);
            }
            prop_assert!(told.what_if.milder.is_none_or(|change| change.rung < told.floor));
            prop_assert!(told.what_if.graver.is_none_or(|change| change.rung > told.floor));
        }
    }

    /// What is said to change nothing any more changes nothing, whatever is answered.
    #[test]
    fn what_can_change_nothing_changes_nothing(bird in partial()) {
        let findings = bird.findings();
        let verdict = coopside::prove::judge(&PROTOCOL, &findings, now());
        let (raw, sheet) = (judge(&PROTOCOL, &findings, now()), Sheet::lay(&PROTOCOL, &findings, now()));
        for asked in open(&PROTOCOL, &sheet) {
            if bearing(&PROTOCOL, &findings, &verdict, asked) != Bearing::Nothing {
                continue;
            }
            let question = PROTOCOL.ask(asked.question);
            for answer in domain(&PROTOCOL, asked.question).into_iter().filter_map(|cell| answer_of(question, cell)) {
                let mut other = findings.clone();
                other.say(Statement { about: asked.about, question: question.id.clone(), answer }, now());
                prop_assert_eq!(outcome(&judge(&PROTOCOL, &other, now())), outcome(&raw), "{}", question.id);
            }
        }
    }

    /// The verdict shown is inside the judge's own, and every completion inside it.
    #[test]
    fn every_completion_stays_inside_the_exact_band(bird in partial(), rest in complete()) {
        let before = coopside::prove::judge(&PROTOCOL, &bird.findings(), now());
        let after = bird.completed(&rest.possible());
        let sheet = Sheet::lay(&PROTOCOL, &after.findings(), now());
        prop_assume!(is_possible(&PROTOCOL, &blank(&PROTOCOL), &sheet));
        let after = judge(&PROTOCOL, &after.findings(), now());
        prop_assert!(before.need.low <= after.need.low && after.need.high <= before.need.high);
        prop_assert!(before.humane.low <= after.humane.low && after.humane.high <= before.humane.high);
        prop_assert!(before.authority.low <= after.authority.low && after.authority.high <= before.authority.high);
    }
}

/// Where a verdict puts the scales, what it advises and what it forbids.
type Said = (Band<Need>, Band<Humane>, Band<Authority>, Vec<Target>, Vec<Target>);

fn outcome(verdict: &Verdict) -> Said {
    let acts = verdict.acts.iter().map(|act| act.target).collect();
    let never = verdict.never.iter().map(|never| never.target).collect();
    (verdict.need, verdict.humane, verdict.authority, acts, never)
}

fn bird_with_wounds(wounds: usize) -> Findings {
    let mut findings = Findings::default();
    for _ in 0..wounds {
        findings.find_wound();
    }
    findings.look_over();
    findings
}

/// Whether some completion comes out differently with another answer to one question.
fn turns(sheet: &Sheet, waiting: &[Asked], asked: Asked) -> bool {
    let rest: Vec<Asked> = waiting.iter().copied().filter(|one| *one != asked).collect();
    let mut found = false;
    let mut filled = sheet.clone();
    each(&mut filled, &rest, &mut |bird| {
        if found {
            return;
        }
        let mut outcomes = Vec::new();
        for cell in domain(&PROTOCOL, asked.question) {
            let mut other = bird.clone();
            other.suppose(asked, cell);
            other.suppose_applies();
            if is_possible(&PROTOCOL, sheet, &other) {
                outcomes.push(reference::levels(&PROTOCOL, &other));
            }
        }
        outcomes.dedup();
        found |= outcomes.len() > 1;
    });
    found
}

fn each(sheet: &mut Sheet, open: &[Asked], visit: &mut impl FnMut(&Sheet)) {
    let Some((asked, rest)) = open.split_first() else { return visit(sheet) };
    for cell in domain(&PROTOCOL, asked.question) {
        sheet.suppose(*asked, cell);
        each(sheet, rest, visit);
    }
}
