//! A neck that is twisted, hangs or lies limp is held as it is: nobody is told to part it, feel it or turn it.

use crate::common::{PROTOCOL, complete, now};
use coopside::care::cupboard::Cupboard;
use coopside::care::{PlanStep, plan};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::protocol::scale::Need;
use coopside::prove::{Exact, judge_bands};
use coopside::sheet::{Sheet, Subject};
use proptest::prelude::*;

const SIGNS: [&str; 3] = ["neck_twisted", "head_hangs", "neck_limp"];

fn say(findings: &mut Findings, question: &str, answer: Answer) {
    findings.say(Statement { about: About::Bird, question: question.into(), answer }, now());
}

fn bird(said: &[(&str, &str)]) -> (Findings, Exact) {
    let mut findings = Findings::default();
    for (question, answer) in said {
        say(&mut findings, question, Answer::Choice((*answer).into()));
    }
    let verdict = judge_bands(&PROTOCOL, &findings, now());
    (findings, verdict)
}

fn acts(verdict: &Exact) -> Vec<&'static str> {
    verdict.acts.iter().map(|act| PROTOCOL.action(act.target.action).id.as_str()).collect()
}

/// What may be said of a neck while it is hurt: how it is left, propped or laid.
const LEAVES_IT: [&str; 3] = ["support_head", "lay_on_breast", "press"];

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    /// Of any bird with such a neck, seen or in doubt: no step of her plan is one at the neck.
    #[test]
    fn no_step_is_done_at_a_hurt_neck(bird in complete(), sign in prop::sample::select(SIGNS.to_vec()), seen in any::<bool>()) {
        let mut findings = bird.findings();
        say(&mut findings, sign, if seen { Answer::Choice("yes".into()) } else { Answer::CannotTell });
        let verdict = judge_bands(&PROTOCOL, &findings, now());
        for step in plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC).steps {
            let PlanStep::Act(target, _) = step else { continue };
            let action = PROTOCOL.action(target.action);
            let text = format!("{} {}", action.say, action.how).to_lowercase();
            let leaves = LEAVES_IT.iter().any(|id| action.id == **id);
            prop_assert!(leaves || target.wound.is_some() || !text.contains("neck"), "{}: {text}", action.id);
        }
    }
}

/// What the look-over does not ask of such a neck holds nothing back for ever: a thread is cut although nobody feels for air.
#[test]
fn nothing_waits_for_what_is_never_asked() {
    for sign in SIGNS {
        let (_, verdict) = bird(&[(sign, "yes"), ("tight", "yes"), ("alert", "alert"), ("breathing", "quiet")]);
        let air = PROTOCOL.question_at("air");
        let asks = verdict.waiting.iter().flat_map(|waits| &waits.ask).find(|asked| Some(asked.question) == air);
        assert!(asks.is_none(), "{sign}: {asks:?}");
    }
}

/// Nor does the look-over stroke or feel it.
#[test]
fn no_look_over_feels_a_hurt_neck() {
    for sign in SIGNS {
        let (findings, _) = bird(&[(sign, "yes")]);
        let sheet = Sheet::lay(&PROTOCOL, &findings, now());
        let mut felt = 0;
        for question in PROTOCOL.questions.iter().filter(|question| question.touches) {
            let kinds = question.for_kinds.iter().filter_map(|wording| wording.look.as_deref());
            let feels = |look: &str| {
                let look = look.to_lowercase();
                look.contains("neck") && ["stroke", "feel", "part "].iter().any(|verb| look.contains(verb))
            };
            if [question.look.as_str()].into_iter().chain(kinds).any(feels) {
                let moot = question.moot.as_ref();
                assert!(moot.is_some_and(|moot| sheet.surely(moot, Subject::Bird)), "{}: {sign}", question.id);
                felt += 1;
            }
        }
        assert!(felt >= 2, "the neck is felt by {felt} questions");
        let list = PROTOCOL.lists.iter().find(|list| list.id == *"neck").map(|list| list.look.as_str());
        assert!(list.is_some_and(|look| look.contains("A sound neck:")), "{list:?}");
    }
}

/// Common practice, no source: a head that hangs is propped and left, and gets no milder than a twisted neck. Dull, or down, it is for
/// now; without a vet it is as grave as a limp one.
#[test]
fn a_hanging_head_is_propped_and_left() {
    for kind in ["hen", "chick", "goose"] {
        let (_, alone) = bird(&[("kind", kind), ("head_hangs", "yes"), ("posture", "normal"), ("alert", "alert")]);
        assert_eq!(alone.need.low, Need::WithinHours, "{kind}");
        assert!(acts(&alone).contains(&"support_head"), "{kind}: {:?}", acts(&alone));
        for never in ["by_mouth", "handle_more", "upside_down", "feel_neck"] {
            let forbids = |at: &coopside::judge::Forbidden| PROTOCOL.action(at.target.action).id == *never;
            assert!(alone.never.iter().any(forbids), "{kind}: {never}");
        }
        for worse in [("posture", "down"), ("posture", "collapsed"), ("alert", "voice"), ("alert", "nothing")] {
            let (_, verdict) = bird(&[("kind", kind), ("head_hangs", "yes"), worse]);
            assert!(verdict.need.low == Need::Now && acts(&verdict).contains(&"support_head"), "{kind} {worse:?}");
        }
        let with =
            |sign| bird(&[("kind", kind), (sign, "yes"), ("reach", "none"), ("happened", "ill"), ("others", "one")]).1;
        let [twisted, hangs, limp] = SIGNS.map(with);
        assert!(hangs.need.low >= twisted.need.low && hangs.authority.low >= twisted.authority.low, "{kind}");
        assert!(hangs.humane.low >= limp.humane.low && limp.need.low >= hangs.need.low, "{kind}");
        assert!(acts(&limp).contains(&"support_head"), "{kind}");
    }
    let chick = bird(&[("kind", "chick"), ("happened", "mammal"), ("head_hangs", "yes"), ("posture", "down")]).1;
    assert!(
        !acts(&chick).contains(&"find_holes")
            && chick.dropped.iter().any(|dropped| { PROTOCOL.action(dropped.target.action).id == *"find_holes" }),
        "{:?}",
        acts(&chick)
    );
}
