//! What is proven held against a second way of finding out: every completion tried, one after the other.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

mod common;

use common::{PROTOCOL, complete, now};
use coopside::finding::About;
use coopside::judge::levels;
use coopside::protocol::question::Asked;
use coopside::prove::{Rung, Work, bands, domain, envelope, is_possible};
use coopside::sheet::{Cell, Sheet, Subject, Truth};
use coopside::unit::Band;
use proptest::prelude::*;
use proptest::sample::Index;

const ENOUGH: Work = Work(1000);

/// Every completion of a sheet whose look-over is finished, judged one by one; `None` where there are too many.
fn by_brute_force(sheet: &Sheet, open: &[Asked], most: usize) -> Option<[Band<Rung>; 3]> {
    let many = open.iter().try_fold(1usize, |many, asked| {
        many.checked_mul(domain(PROTOCOL.ask(asked.question)).len()).filter(|many| *many <= most)
    });
    many?;
    let mut found: Option<[Band<Rung>; 3]> = None;
    let mut filled = sheet.clone();
    fill(&mut filled, open, &mut |sheet| {
        let bands = bands(levels(&PROTOCOL, sheet));
        for band in bands {
            assert_eq!(band.low, band.high, "a complete bird has one verdict");
        }
        found = Some(found.map_or(bands, |before| std::array::from_fn(|at| before[at].hull(bands[at]))));
    });
    found
}

fn fill(sheet: &mut Sheet, open: &[Asked], judged: &mut impl FnMut(&Sheet)) {
    let Some((asked, rest)) = open.split_first() else {
        sheet.suppose_applies();
        if is_possible(&PROTOCOL, sheet) {
            judged(sheet);
        }
        return;
    };
    for cell in domain(PROTOCOL.ask(asked.question)) {
        sheet.suppose(*asked, cell);
        fill(sheet, rest, judged);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(std::env::var("PROPTEST_CASES").ok().and_then(|v| v.parse().ok()).unwrap_or(60)) })]

    /// The envelope is what trying every completion finds, no wider and no narrower.
    #[test]
    fn the_envelope_is_exact(bird in complete().prop_map(|bird| bird.possible()), picks in prop::collection::vec(any::<Index>(), 1..6)) {
        let sheet = Sheet::lay(&PROTOCOL, &bird.findings(), now());
        if !is_possible(&PROTOCOL, &sheet) {
            return Ok(());
        }
        let mut opened = bird.clone();
        let places: Vec<(Option<usize>, usize)> = std::iter::once((None, bird.whole.len()))
            .chain(bird.wounds.iter().enumerate().map(|(wound, column)| (Some(wound), column.len())))
            .flat_map(|(wound, count)| (0..count).map(move |at| (wound, at)))
            .collect();
        for pick in picks {
            opened.leave_open(*pick.get(&places));
        }
        let sheet = Sheet::lay(&PROTOCOL, &opened.findings(), now());
        let open: Vec<Asked> = PROTOCOL
            .enumerated()
            .flat_map(|(at, question)| {
                let abouts = if question.wound { (0..sheet.wounds()).map(About::Wound).collect() } else { vec![About::Bird] };
                abouts.into_iter().map(move |about| Asked { about, question: at })
            })
            .filter(|asked| {
                let subject = Subject::from(asked.about);
                sheet.cell(subject, asked.question) == Cell::NotAsked && sheet.applies(subject, asked.question) != Truth::No
            })
            .collect();
        if let Some(tried) = by_brute_force(&sheet, &open, 3000) {
            let proven = envelope(&PROTOCOL, &sheet, ENOUGH).unwrap_or_else(|error| panic!("{error}"));
            let proven = coopside::prove::Scale::ALL.map(|scale| proven.of(scale));
            prop_assert_eq!(proven, tried);
        }
    }
}
