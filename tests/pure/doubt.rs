//! Where somebody looked and could not tell, and where a bird is tiny, the gentler line is told.

use crate::common::{PROTOCOL, complete, now};
use coopside::care::cupboard::Cupboard;
use coopside::care::{PlanStep, plan};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::judge::Target;
use coopside::prove::judge_bands;
use coopside::zone::Zone;
use proptest::prelude::*;

fn say(findings: &mut Findings, about: About, question: &str, answer: Answer) {
    findings.say(Statement { about, question: question.into(), answer }, now());
}

fn choice(id: &str) -> Answer {
    Answer::Choice(id.into())
}

/// The end of the ban on all by mouth, of a bird with this answer to what shows.
fn ban_by_mouth(shows: Answer) -> Option<(String, bool)> {
    let mut findings = Findings::default();
    say(&mut findings, About::Bird, "bone_or_gut", choice("yes"));
    say(&mut findings, About::Bird, "open_what", shows);
    let verdict = judge_bands(&PROTOCOL, &findings, now());
    let target =
        Target { action: PROTOCOL.actions_enumerated().find(|(_, action)| action.id == *"by_mouth")?.0, wound: None };
    verdict.never.iter().find(|ban| ban.target == target)?;
    let (why, _) = verdict.fitting.why_not(&PROTOCOL, target)?;
    Some((why.to_owned(), verdict.fitting.until(&PROTOCOL, target)?.vet))
}

#[test]
fn what_may_be_gut_forbids_what_gut_forbids() {
    let gut = ban_by_mouth(choice("gut"));
    assert!(gut.as_ref().is_some_and(|(_, by_a_vet)| *by_a_vet), "{gut:?}");
    assert_eq!(ban_by_mouth(Answer::CannotTell), gut);
}

/// Whether a text tells somebody to press on her.
fn presses(text: &str) -> bool {
    let text = text.to_lowercase().replace("may press on it", "");
    text.contains("press on")
        || text.contains("press again")
        || text.contains("? press.")
        || text.contains("? press on")
}

/// Whether it says how gently, or that it is beside the place.
fn gently(text: &str) -> bool {
    let text = text.to_lowercase();
    ["lightly", "fingertip", "must breathe", "beside", "pinch", "flat fingers"].iter().any(|word| text.contains(word))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    /// Whatever presses on a chick or a quail says how gently: a firm hand on so small a bird stops her breath.
    #[test]
    fn nobody_presses_firmly_on_so_small_a_bird(bird in complete(), kind in prop::sample::select(vec!["chick", "quail"])) {
        let mut findings = bird.findings();
        say(&mut findings, About::Bird, "kind", choice(kind));
        let verdict = judge_bands(&PROTOCOL, &findings, now());
        let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), Zone::UTC);
        // How firmly a place is pressed is told by the place, and tested there.
        let by_place = |target: &Target| PROTOCOL.action(target.action).presses;
        for target in plan.steps.iter().filter_map(PlanStep::act).filter(|target| !by_place(target)) {
            let (say, how) = (verdict.fitting.say(&PROTOCOL, target), verdict.fitting.how(&PROTOCOL, target));
            let told = format!("{say} {how}");
            prop_assert!(!presses(&told) || gently(&told), "{}: {told}", PROTOCOL.action(target.action).id);
            let card = verdict.fitting.on_card(&PROTOCOL, target);
            let told = format!("{say} {card}");
            prop_assert!(!presses(card) || gently(&told), "{}, card: {told}", PROTOCOL.action(target.action).id);
        }
    }
}
