//! A figure never soothes: where other signs of the same part of the body weigh more, it says so.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, complete, now};
use coopside::content::figures;
use coopside::finding::Findings;
use coopside::protocol::cond::{Cond, Threshold};
use coopside::protocol::rule::Rule;
use coopside::protocol::scale::{Severity, System};
use coopside::prove::{Exact, judge_bands};
use coopside::render::{json, text};
use coopside::words::Reader;
use coopside::zone::Zone;
use proptest::prelude::*;

fn reader() -> Reader<'static> {
    Reader::english(Zone::UTC, PROTOCOL.no_country())
}

fn told(verdict: &Exact) -> String {
    let sections = reader().sections(figures::told(&PROTOCOL, verdict));
    text::sections(&sections).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The gravest that rules in force say of a part of the body, by those that read a measure or by those that do not.
fn gravest(verdict: &Exact, of: System, by_measure: bool, reads: fn(&Threshold) -> bool) -> Severity {
    let by = |rule: &Rule| {
        let mut found = false;
        rule.when.walk(&mut |cond| found |= matches!(cond, Cond::AtLeast(at) | Cond::Under(at) if reads(at)));
        found
    };
    let rules = verdict.reasons.iter().map(|reason| PROTOCOL.rule(reason.rule)).filter(|rule| by(rule) == by_measure);
    let grades = rules.flat_map(|rule| &rule.severity).filter(|(system, _)| *system == of);
    grades.map(|(_, grade)| *grade).max().unwrap_or_default()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(800) })]

    /// Blood, breaths and skin of any bird: where another rule calls the same part serious or grave, the figure says that it sums
    /// only what was seen; nowhere else.
    #[test]
    fn a_sum_says_where_other_signs_weigh_more(bird in complete()) {
        let verdict = judge_bands(&PROTOCOL, &bird.findings(), now());
        let told = told(&verdict);
        let blood = |of: &Threshold| matches!(of, Threshold::BloodLost(_) | Threshold::BloodOfWeight(_));
        let serious = gravest(&verdict, System::Blood, false, blood) >= Severity::Serious;
        let summed = verdict.figures.blood.is_some_and(|blood| !blood.bleeds);
        prop_assert_eq!(told.contains("Only blood seen outside is counted."), summed && serious, "{}", told);
        let breath = |of: &Threshold| matches!(of, Threshold::BreathRate(_));
        let skin = |of: &Threshold| matches!(of, Threshold::SkinOpen(_));
        for (system, reads, shown, says) in [
            (System::Breath, breath as fn(&Threshold) -> bool, verdict.figures.breaths.is_some(), "This only counts how often."),
            (System::Skin, skin, verdict.figures.skin.is_some(), "This only sums how much is open."),
        ] {
            let (own, other) = (gravest(&verdict, system, true, reads), gravest(&verdict, system, false, reads));
            let graver = other >= Severity::Serious && other > own;
            prop_assert_eq!(told.contains(says), shown && graver, "{:?} {}", system, told);
        }
    }
}

/// A few drops seen, and a bird that may bleed inside: the drops do not stand alone.
#[test]
fn a_few_drops_do_not_stand_alone_beside_bleeding_inside() {
    let verdict = |lid: &str| {
        let text = format!(
            r#"(answers: {{"kind": "hen", "weight": "2 kg", "blood_lost": "drops", "eyelid": "{lid}", "bleeding_hard": "no",
            "posture": "normal", "breathing": "quiet", "alert": "alert", "dryness": "well", "in_hand": "strong", "cold_wet": "no",
            "happened": "accident", "keel": "fleshy"}}, looked_over: true)"#
        );
        let read = coopside::notes::read(&PROTOCOL, "drops", &text, now());
        let findings: Findings = read.unwrap_or_else(|faults| panic!("{faults}"));
        judge_bands(&PROTOCOL, &findings, now())
    };
    let white = verdict("white");
    assert!(
        told(&white).contains("Only blood seen outside is counted. Other signs weigh more. No line crossed,"),
        "{}",
        told(&white)
    );
    let json = json::figures::figures(&PROTOCOL, &white, reader());
    assert_eq!(json["blood"]["other_signs_weigh_more"], true, "{json}");
    let pink = verdict("pink");
    assert!(!told(&pink).contains("outside") && told(&pink).contains("No line crossed,"), "{}", told(&pink));
    assert_eq!(json::figures::figures(&PROTOCOL, &pink, reader())["blood"]["other_signs_weigh_more"], false);
}
