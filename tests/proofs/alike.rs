//! One judge above the proofs: the list of birds, one bird's case, her sheet and her verdict are told from the same bands.

use crate::common::rolled::bird;
use crate::common::{PROTOCOL, now};
use coopside::care::cupboard::Cupboard;
use coopside::days::cover::{cover, state};
use coopside::days::due::judged;
use coopside::days::{Days, course};
use coopside::finding::log::{self, Entry, Stamped};
use coopside::finding::{About, Findings};
use coopside::judge::Verdict;
use coopside::protocol::scale::{Authority, Humane, Need};
use coopside::unit::Band;
use coopside::words::english;
use coopside::{judge, prove};

/// The log of an examination that was broken off: the wounds found first, then question by question.
fn broken_off(whole: &Findings, said: usize) -> Vec<Stamped> {
    let stamped = |entry| Stamped { at: now(), entry };
    let told: Vec<_> = whole.said().iter().take(said).map(|said| said.statement.clone()).collect();
    let found = told.iter().filter_map(|told| match told.about {
        About::Wound(number) => Some(number + 1),
        About::Bird => None,
    });
    let wounds = found.max().unwrap_or(0);
    let entries =
        std::iter::repeat_n(Entry::FoundWound, wounds).chain(told.into_iter().map(|told| Entry::Said(vec![told])));
    entries.map(stamped).collect()
}

fn half_finished(seed: u64) -> Vec<Stamped> {
    let mut rng = fastrand::Rng::with_seed(seed);
    let whole = bird(&mut rng, now());
    let said = rng.usize(1..=whole.said().len().max(1));
    broken_off(&whole, said)
}

type Scales = (Band<Need>, Band<Humane>, Band<Authority>);

fn scales(verdict: &Verdict) -> Scales {
    (verdict.need, verdict.humane, verdict.authority)
}

/// What the list says of a bird is what her sheet says, and her case, and the drawing of her days. The bands that rules give by
/// themselves are wider for some of them: were one of these told from those, the test would fail.
#[test]
fn of_half_finished_birds_the_list_says_what_the_sheet_says() {
    let cupboard = Cupboard::default();
    let (mut by_rules_alone, mut graver) = (0, 0);
    for seed in 0..480 {
        let log = half_finished(seed);
        let days = Days::of(&log);
        let findings = log::findings(&log::standing(&log));
        let sheet = prove::judge(&PROTOCOL, &findings, now());
        let list = cover(&PROTOCOL, &log, &cupboard, coopside::zone::Zone::UTC, now(), &english);
        assert_eq!(list.need, english(state(&PROTOCOL, &log, &days, &sheet)), "bird {seed}: the list and the sheet");
        assert_eq!(scales(&prove::judge_bands(&PROTOCOL, &findings, now())), scales(&sheet), "bird {seed}: the bands");
        for sitting in &days.sittings {
            let (case, _) = judged(&PROTOCOL, &log, sitting, &cupboard, coopside::zone::Zone::UTC);
            assert_eq!(scales(&case), scales(&sheet), "bird {seed}: her case and the sheet");
        }
        let drawn = course::needs(&PROTOCOL, &log, &days);
        assert!(drawn.iter().all(|drawn| drawn.value == sheet.need), "bird {seed}: her days and the sheet");
        by_rules_alone += usize::from(scales(&judge::judge(&PROTOCOL, &findings, now())) != scales(&sheet));
        graver += usize::from(sheet.need.low > Need::None);
    }
    println!("{by_rules_alone} of 480 would be told otherwise by the rules alone");
    assert!(by_rules_alone > 0 && graver > 100, "{by_rules_alone} differ, {graver} need something");
}
