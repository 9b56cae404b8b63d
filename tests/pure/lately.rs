//! What was so a while ago and is not any more: a ban holds on until its time, though the sign that brought it has gone.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, now};
use chrono::{DateTime, TimeDelta, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::care::{self, plan};
use coopside::exam::Exam;
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::prove::{Exact, judge_bands};

/// What is said of her or her first wound, so many minutes after the beginning.
type Said<'s> = (i64, About, &'s str, &'s str);

fn statement(about: About, question: &str, answer: &str) -> Statement {
    Statement { about, question: question.into(), answer: Answer::Choice(answer.into()) }
}

fn at(minute: i64) -> DateTime<Utc> {
    now() + TimeDelta::minutes(minute)
}

fn judged(said: &[Said], minute: i64) -> Exact {
    let mut findings = Findings::default();
    for (minute, about, question, answer) in said {
        findings.say(statement(*about, question, answer), at(*minute));
    }
    judge_bands(&PROTOCOL, &findings, at(minute))
}

fn forbids(verdict: &Exact, action: &str) -> bool {
    verdict.never.iter().any(|never| PROTOCOL.action(never.target.action).id == *action)
}

const WOUND: About = About::Wound(0);

/// A cloth lies on what bled: it is not taken off a minute after the bleeding has stopped. (Merck Veterinary Manual, trauma of birds: a clot
/// that holds is left alone.)
#[test]
fn what_bled_within_a_day_keeps_its_cloth() {
    let place = (0, WOUND, "place", "leg");
    let bled = [place, (0, WOUND, "what", "cut"), (0, WOUND, "bleeds", "runs"), (12, WOUND, "bleeds", "dry")];
    assert!(forbids(&judged(&bled, 13), "lift_cloth"));
    assert!(forbids(&judged(&bled, 20 * 60), "lift_cloth"));
    assert!(!forbids(&judged(&bled, 25 * 60), "lift_cloth"), "the day is over");
    let acts: Vec<_> = judged(&bled, 13).acts.iter().map(|act| PROTOCOL.action(act.target.action).id.clone()).collect();
    assert!(acts.iter().any(|act| *act == *"leave_clot"), "{acts:?}");
    // Another wound, and one that never bled, are not meant.
    let other =
        [bled.as_slice(), &[(12, About::Wound(1), "place", "leg"), (12, About::Wound(1), "bleeds", "dry")]].concat();
    let never = judged(&other, 13).never.clone();
    let of = |wound: usize| {
        never
            .iter()
            .any(|never| never.target.wound == Some(wound) && PROTOCOL.action(never.target.action).id == *"pick_clot")
    };
    assert!(of(0) && !of(1));
    assert!(!forbids(&judged(&[place, (0, WOUND, "bleeds", "dry")], 13), "lift_cloth"));
}

/// A wrong key that is put right within the minute was never so.
#[test]
fn a_slip_of_the_finger_leaves_no_ban() {
    let mut slip = Findings::default();
    for (second, answer) in [(0, "runs"), (40, "dry")] {
        slip.say(statement(WOUND, "bleeds", answer), now() + TimeDelta::seconds(second));
    }
    assert!(!forbids(&judge_bands(&PROTOCOL, &slip, at(2)), "lift_cloth"));
}

/// Twenty quiet minutes (MSPCA-Angell, birds short of breath) before she is picked up again, in the verdict and in the examination.
#[test]
fn a_bird_that_gasped_just_now_is_not_picked_up() {
    for (question, was, is) in [("breathing", "open", "quiet"), ("fighting_breath", "yes", "no")] {
        let said = [(0, About::Bird, "kind", "hen"), (1, About::Bird, question, was), (5, About::Bird, question, is)];
        assert!(forbids(&judged(&said, 6), "handle_more"), "{question}");
        assert!(forbids(&judged(&said, 24), "handle_more"), "{question}");
        assert!(!forbids(&judged(&said, 26), "handle_more"), "{question}: twenty minutes are over");
        let log = |more: &[(i64, &str, &str)]| -> Vec<Stamped> {
            let all = said
                .iter()
                .map(|(minute, _, question, answer)| (*minute, *question, *answer))
                .chain(more.iter().copied());
            let stamped = |(minute, question, answer)| Stamped {
                at: at(minute),
                entry: Entry::Said(vec![statement(About::Bird, question, answer)]),
            };
            all.map(stamped).collect()
        };
        assert!(Exam::from_log(&PROTOCOL, &log(&[(7, "alert", "alert")])).spares_her(), "{question}");
        assert!(!Exam::from_log(&PROTOCOL, &log(&[(27, "alert", "alert")])).spares_her(), "{question}");
    }
}

/// What is shut off by a string or a hole in the crop is not shut off until she dies of thirst where nobody can be found: a test ends
/// it. (`WikiVet`, crop fistula: it is closed days later, and birds with one are usually bright.) Where the gut is open it comes last,
/// half a day on and water alone: nobody will mend her then, and thirst would be cruel (common practice, no source).
#[test]
fn a_ban_on_water_ends_by_a_test_where_no_vet_can_be_had() {
    let end = |said: &[Said]| {
        let none = [said, &[(0, About::Bird, "kind", "hen"), (0, About::Bird, "reach", "none")]].concat();
        let verdict = judged(&none, 1);
        let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
        let (target, because) = plan
            .never
            .iter()
            .find(|(target, _)| PROTOCOL.action(target.action).id == *"by_mouth")
            .unwrap_or_else(|| panic!("nothing by mouth"));
        let end = care::until(&PROTOCOL, &verdict.fitting, *target, because, plan.no_vet);
        end.map(coopside::words::english).unwrap_or_default()
    };
    let string = end(&[(0, About::Bird, "string", "yes")]);
    assert!(
        string.starts_with("Until: an hour awake") && string.contains("a little soft food; she gags, none"),
        "{string}"
    );
    let crop = end(&[(0, About::Bird, "crop_leaks", "yes")]);
    assert!(crop.contains("Small sips by herself"), "{crop}");
    let gut = end(&[
        (0, About::Bird, "string", "yes"),
        (0, WOUND, "place", "belly"),
        (0, WOUND, "what", "cut"),
        (0, WOUND, "comes_out", "droppings"),
    ]);
    assert!(
        gut.starts_with("Until: half a day, nobody found")
            && gut.contains("A day on")
            && gut.ends_with("a little soft food."),
        "{gut}"
    );
}
