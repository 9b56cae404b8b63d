//! The promises of the judge, held against random birds.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, complete, now, partial};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::judge::{Open, Target, Verdict, judge, open};
use coopside::protocol::action::InDoubt;
use coopside::protocol::scale::{Authority, Humane, Need};
use coopside::protocol::{File, Protocol};
use coopside::sheet::Sheet;
use coopside::shipped;
use proptest::prelude::*;

fn verdict(findings: &Findings) -> Verdict {
    judge(&PROTOCOL, findings, now())
}

fn still_open(protocol: &Protocol, findings: &Findings) -> Open {
    open(protocol, &Sheet::lay(protocol, findings, now()))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(600) })]

    /// "At least" is never too high and "at most" never too low, however the open questions are answered.
    #[test]
    fn every_completion_stays_inside_the_band(bird in partial(), rest in complete()) {
        let before = verdict(&bird.findings());
        let after = verdict(&bird.completed(&rest).findings());
        prop_assert!(before.need.low <= after.need.low && after.need.high <= before.need.high);
        prop_assert!(before.humane.low <= after.humane.low && after.humane.high <= before.humane.high);
        prop_assert!(before.authority.low <= after.authority.low && after.authority.high <= before.authority.high);
        for (system, level) in &after.severity {
            let held = before.severity.get(system);
            prop_assert!(held.is_some_and(|held| held.low <= level.low && level.high <= held.high));
        }
    }

    /// When nothing is open, nothing is undecided.
    #[test]
    fn a_complete_bird_gets_one_verdict(bird in complete()) {
        let open = still_open(&PROTOCOL, &bird.findings());
        let verdict = verdict(&bird.findings());
        prop_assert_eq!(verdict.need.low, verdict.need.high);
        prop_assert_eq!(verdict.authority.low, verdict.authority.high);
        prop_assert_eq!(verdict.humane.low, verdict.humane.high);
        prop_assert!(open.questions.is_empty() && !open.wounds && verdict.held.is_empty());
    }

    /// Worse never looks better. While questions are open this is a promise about "at least": "at most" may still be an
    /// over-estimate, and a worse answer may show that.
    #[test]
    fn a_worse_answer_lowers_nothing(bird in prop_oneof![partial().boxed(), complete().boxed()], pick in any::<usize>()) {
        if let Some(worse) = bird.worsened(pick) {
            let (before, after) = (verdict(&bird.findings()), verdict(&worse.findings()));
            prop_assert!(before.need.low <= after.need.low && before.need.high <= after.need.high);
            prop_assert!(before.humane.low <= after.humane.low);
            prop_assert!(before.authority.low <= after.authority.low);
        }
    }

    /// Never beats do, and no two actions in declared conflict are advised together.
    #[test]
    fn nothing_is_both_advised_and_forbidden(bird in prop_oneof![partial().boxed(), complete().boxed()]) {
        let verdict = verdict(&bird.findings());
        for act in &verdict.acts {
            let acts = |action| act.target.action == action;
            for never in &verdict.never {
                let dragged = PROTOCOL.rules_out.iter().any(|out| out.never == never.target.action && acts(out.drop));
                let clashes = (acts(never.target.action) || dragged) && act.target.meets(never.target);
                prop_assert!(!clashes, "{}", PROTOCOL.action(act.target.action).id);
            }
            for conflict in PROTOCOL.conflicts.iter().filter(|conflict| acts(conflict.drop)) {
                let kept = verdict.acts.iter().any(|other| other.target.action == conflict.keep && act.target.meets(other.target));
                prop_assert!(!kept, "{}", PROTOCOL.action(act.target.action).id);
            }
        }
    }

    /// What is advised now, and could not wait for an answer, is not forbidden by any answer to come.
    #[test]
    fn no_answer_to_come_forbids_what_was_advised(bird in partial(), rest in complete()) {
        let before = verdict(&bird.findings());
        let mut after = bird.completed(&rest);
        // A wound nobody had found may forbid what nobody could know of.
        after.wounds.truncate(bird.wounds.len());
        let after = verdict(&after.findings());
        for act in before.acts.iter().filter(|act| !PROTOCOL.action(act.target.action).at_once) {
            let forbidden = after.never.iter().any(|never| never.target == act.target);
            prop_assert!(!forbidden, "{}", PROTOCOL.action(act.target.action).id);
        }
    }

    /// Doubt raises need and forbids; it never tells anybody to do a thing to a bird.
    #[test]
    fn doubt_advises_no_action(bird in complete()) {
        let told: Vec<_> = verdict(&bird.without_doubt().findings()).acts.into_iter().map(|act| act.target).collect();
        let waiting: Vec<_> = verdict(&bird.without_doubt().findings()).waiting.into_iter().map(|act| act.target).collect();
        let unconflicted = |target: &Target| told.contains(target) || waiting.contains(target)
            || PROTOCOL.conflicts.iter().any(|conflict| conflict.drop == target.action);
        // What does nothing to her is told.
        let does = |act: &&coopside::judge::Advised| PROTOCOL.action(act.target.action).in_doubt == InDoubt::Untold;
        for act in verdict(&bird.findings()).acts.iter().filter(does) {
            prop_assert!(unconflicted(&act.target), "{}", PROTOCOL.action(act.target.action).id);
        }
    }

    /// "Cannot tell" may bring a humane end into question, but never advises one; and may ask an authority, but never
    /// calls it out.
    #[test]
    fn doubt_alone_never_advises_a_humane_end_or_calls_out_an_authority(bird in complete()) {
        let told = verdict(&bird.without_doubt().findings()).humane.low;
        let doubted = verdict(&bird.findings()).humane.low;
        prop_assert!(doubted <= Humane::MayComeIntoQuestion || doubted <= told);
        let told = verdict(&bird.without_doubt().findings()).authority.low;
        let doubted = verdict(&bird.findings()).authority.low;
        prop_assert!(doubted <= Authority::Ask || doubted <= told);
    }

    /// Whatever could not be told raises need at least as far as any answer would have.
    #[test]
    fn cannot_tell_is_never_milder_than_an_answer(bird in complete(), rest in complete()) {
        let mut told = bird.without_doubt().completed(&rest);
        // The same bird with the same wounds: only what could not be told is told now; her kind stays open, since other
        // questions hang on it.
        told.wounds.truncate(bird.wounds.len());
        let kind = PROTOCOL.questions.iter().filter(|q| !q.wound).position(|q| q.id == PROTOCOL.kind_question().id);
        for (at, said) in told.whole.iter_mut().enumerate().filter(|(at, _)| Some(*at) == kind) {
            *said = bird.whole.get(at).copied().unwrap_or(*said);
        }
        prop_assert!(verdict(&bird.findings()).need.low >= verdict(&told.findings()).need.low);
    }

    /// The order in which questions were answered means nothing.
    #[test]
    fn the_order_of_answers_means_nothing(bird in partial(), seed in any::<u64>()) {
        let findings = bird.findings();
        let mut said: Vec<_> = findings.said().to_vec();
        let mut state = seed;
        for at in (1..said.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let other = usize::try_from(state >> 33).unwrap_or(0) % (at + 1);
            said.swap(at, other);
        }
        let mut shuffled = Findings::default();
        for one in said {
            shuffled.say(one.statement, one.at);
        }
        while shuffled.wounds() < findings.wounds() {
            shuffled.find_wound();
        }
        if findings.looked_over() {
            shuffled.look_over();
        }
        prop_assert_eq!(verdict(&findings), verdict(&shuffled));
    }

    /// Every open question named by the verdict is one that was not answered and may apply.
    #[test]
    fn open_questions_are_open(bird in partial()) {
        let findings = bird.findings();
        for asked in still_open(&PROTOCOL, &findings).questions {
            prop_assert!(findings.answer(asked.about, PROTOCOL.ask(asked.question).id.as_str()).is_none());
        }
    }
}

/// The shipped protocol with one rule more.
fn with_rule(rule: &str) -> Protocol {
    let mut files = shipped::files();
    files.push(File { name: "extra.ron".into(), text: format!("(rules: [{rule}])") });
    Protocol::load(&files).unwrap_or_else(|faults| panic!("\n{faults}"))
}

fn answers(bird: &[(&str, &str)], wound: &[(&str, &str)]) -> Findings {
    let mut findings = Findings::default();
    for (about, pairs) in [(About::Bird, bird), (About::Wound(0), wound)] {
        for (question, answer) in pairs {
            let answer = Answer::Choice((*answer).into());
            findings.say(Statement { about, question: (*question).into(), answer }, now());
        }
    }
    findings
}

const REST: &str = "humane: MayComeIntoQuestion, reason: \"x\")";

#[test]
fn counting_rules_stay_open_until_the_count_is_certain() {
    let rule = "when: \"2 of (belly >= tight, keel >= sharp, air >= wide)\"";
    let protocol = with_rule(&format!("(id: \"extra\", {rule}, {REST}"));
    let humane = |bird: &[(&str, &str)]| {
        let mut findings = answers(bird, &[]);
        findings.look_over();
        let verdict = judge(&protocol, &findings, now());
        let holds = verdict.reasons.iter().any(|reason| protocol.rule(reason.rule).id == *"extra");
        let open =
            still_open(&protocol, &findings).questions.iter().any(|asked| protocol.ask(asked.question).id == *"air");
        (holds, open)
    };
    assert_eq!(humane(&[("belly", "tight")]), (false, true));
    assert!(humane(&[("belly", "tight"), ("keel", "sharp")]).0);
    assert!(!humane(&[("belly", "soft"), ("keel", "fleshy")]).0);
}

#[test]
fn some_wound_speaks_of_any_wound_found_and_stays_open_until_all_are() {
    let protocol = with_rule(&format!("(id: \"extra\", when: \"some wound (size >= large)\", {REST}"));
    let holds = |findings: &Findings| {
        let verdict = judge(&protocol, findings, now());
        verdict.reasons.iter().any(|reason| protocol.rule(reason.rule).id == *"extra")
    };
    let mut small = answers(&[], &[("what", "cut"), ("size", "small")]);
    assert!(!holds(&small) && still_open(&protocol, &small).wounds);
    small.look_over();
    assert!(!holds(&small) && !still_open(&protocol, &small).wounds);
    assert!(holds(&answers(&[], &[("what", "cut"), ("size", "large")])));
    // A size that was said of what turns out to be a bruise does not count: it does not apply.
    assert!(!holds(&answers(&[], &[("what", "bruise"), ("size", "large")])));
}

#[test]
fn what_a_protocol_no_longer_knows_is_told_and_counted_as_the_worst() {
    let verdict = verdict(&answers(&[("eyelid", "chartreuse"), ("plumage", "glossy")], &[]));
    assert_eq!(verdict.not_understood.len(), 2);
    assert_eq!(verdict.need.low, Need::Now, "an answer that cannot be read is one that could not be told");
}

#[test]
fn answers_that_cannot_both_be_true_are_told() {
    let clash = verdict(&answers(&[("not_responding", "yes"), ("gait", "level")], &[])).clashes;
    assert_eq!(clash.len(), 1);
}
