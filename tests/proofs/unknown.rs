//! Unknown is never mild: figures, answers and "cannot tell" held against each other; and one range of weights wherever one is told.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, complete, now};
use coopside::bird::{BUILDS, Kind};
use coopside::finding::figure::{Count, Figure, FigureOf, LONGEST_LINE, Lines, Spilt};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::judge::levels;
use coopside::notes;
use coopside::protocol::KIND;
use coopside::protocol::question::Asked;
use coopside::protocol::scale::{Humane, Need};
use coopside::prove::{Rung, Scale, Work, bands, domain, envelope, is_possible};
use coopside::sheet::{Cell, Sheet};
use coopside::unit::{Grams, Microlitres, Micrometres, TenthsOfSecond};
use proptest::prelude::*;

/// Where a bird stands on each scale at least, no higher than doubt alone may lead.
fn stands(sheet: &Sheet) -> [Rung; 3] {
    let [need, humane, authority] = bands(levels(&PROTOCOL, sheet)).map(|band| band.low);
    let most = |scale: Scale, rung: Rung| rung.min(scale.most_in_doubt());
    [most(Scale::Need, need), most(Scale::Humane, humane), most(Scale::Authority, authority)]
}

fn no_lower(one: [Rung; 3], other: [Rung; 3]) -> bool {
    one.iter().zip(other).all(|(one, other)| *one >= other)
}

fn findings(bird: &[(&str, Answer)], wound: &[(&str, Answer)]) -> Findings {
    let mut findings = Findings::default();
    let mut say = |about, said: &[(&str, Answer)]| {
        for (question, answer) in said {
            findings.say(Statement { about, question: (*question).into(), answer: answer.clone() }, now());
        }
    };
    say(About::Bird, bird);
    if !wound.is_empty() {
        findings.find_wound();
        let mut say = |said: &[(&str, Answer)]| {
            for (question, answer) in said {
                let about = About::Wound(0);
                findings.say(Statement { about, question: (*question).into(), answer: answer.clone() }, now());
            }
        };
        say(wound);
    }
    findings.look_over();
    findings
}

fn choice(id: &str) -> Answer {
    Answer::Choice(id.into())
}

fn of(bird: &[(&str, Answer)], wound: &[(&str, Answer)]) -> [Rung; 3] {
    stands(&Sheet::lay(&PROTOCOL, &findings(bird, wound), now()))
}

fn lines(length: u64, width: u64) -> Answer {
    Answer::Figure(Figure::Lines(Lines { length: Micrometres(length), width: Micrometres(width) }))
}

/// A wound measured at 20 x 10 cm on a hen of two kilograms is about a tenth of her skin (10 x W^(2/3), Walsberg and King 1978;
/// arithmetic: 157 of 1587 cm2, read to 2 mm): an end may come into question. By eye, or not told at all, it is no milder.
#[test]
fn a_size_by_eye_or_not_told_is_no_milder_than_a_measured_one() {
    let bird = [(KIND, choice("hen")), ("weight", Answer::Amount(2000))];
    let wound = |size: Answer| of(&bird, &[("what", choice("skin_gone")), ("size", size)]);
    let measured = wound(lines(200_000, 100_000));
    assert_eq!(measured[1], Humane::MayComeIntoQuestion as Rung);
    for size in [choice("vast"), Answer::CannotTell, lines(500_000, 500_000)] {
        assert!(no_lower(wound(size.clone()), measured), "{size:?}");
    }
    let upwards = ["small", "medium", "large", "huge", "vast"].map(|size| wound(choice(size)));
    assert!(upwards.is_sorted_by(|one, next| no_lower(*next, *one)), "{upwards:?}");
    let largest = Lines { length: LONGEST_LINE, width: LONGEST_LINE };
    assert!(u64::from(largest.area_read().high.0) <= FigureOf::Wound.most());
}

/// A figure of one question, from nothing much to more than any bird comes to.
fn figure() -> impl Strategy<Value = (&'static str, Figure)> {
    let line = 1_000u64..=500_000;
    prop_oneof![
        (line.clone(), line).prop_map(|(one, other)| {
            ("size", Figure::Lines(Lines { length: Micrometres(one.max(other)), width: Micrometres(one.min(other)) }))
        }),
        (1u64..5_000_000).prop_map(|ul| ("blood_lost", Figure::Spilt(vec![Spilt::Amount(Microlitres(ul))]))),
        (1u32..5_000).prop_map(|drops| ("blood_lost", Figure::Spilt(vec![Spilt::Drops(drops)]))),
        (1u32..2_000, 5u32..=60).prop_map(|(breaths, seconds)| {
            ("breath_count", Figure::Breaths(vec![Count { breaths, seconds, held: false }]))
        }),
        (0u32..610).prop_map(|tenths| ("vein", Figure::Refill(TenthsOfSecond(tenths)))),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(120) })]

    /// Whatever is found, "cannot tell" in its place stands no lower on any scale, as far as doubt may lead: of every question,
    /// about the bird and each of her wounds, and every answer and figure.
    #[test]
    fn not_knowing_is_never_milder_than_any_answer(bird in complete()) {
        let sheet = Sheet::lay(&PROTOCOL, &bird.possible().findings(), now());
        let blank = Sheet::lay(&PROTOCOL, &Findings::default(), now());
        for (at, question) in PROTOCOL.enumerated() {
            for about in sheet.abouts(question) {
                let asked = Asked { about, question: at };
                let with = |cell: Cell| {
                    let mut other = sheet.clone();
                    other.suppose(asked, cell);
                    other.suppose_applies();
                    is_possible(&PROTOCOL, &blank, &other).then(|| stands(&other))
                };
                let Some(unknown) = with(Cell::CannotTell) else { continue };
                for cell in domain(&PROTOCOL, at) {
                    if let Some(known) = with(cell) {
                        prop_assert!(no_lower(unknown, known), "{}: {:?} {:?}, cannot tell {:?}", question.id, cell, known, unknown);
                    }
                }
            }
        }
    }

    /// The same of any figure that can be typed, in a bird of any kind and weight.
    #[test]
    fn not_knowing_is_never_milder_than_any_figure(
        (id, figure) in figure(), kind in prop::sample::select(Kind::ALL.to_vec()), share in 0u32..=1000, fast in any::<bool>(),
    ) {
        let taken = kind.taken();
        let grams = taken.low.0 + (taken.high.0 - taken.low.0) / 1000 * share;
        let breathing = choice(if fast { "fast" } else { "quiet" });
        let wounds = id == "size";
        let stands = |weight: Answer, told: Answer| {
            let bird = [(KIND, choice(kind.id())), ("weight", weight), ("breathing", breathing.clone())];
            let here = [(id, told)];
            let what = [("what", choice("skin_gone"))];
            if wounds { of(&bird, &[&what[..], &here[..]].concat()) } else { of(&[&bird[..], &here[..]].concat(), &[]) }
        };
        let exact = stands(Answer::Amount(grams), Answer::Figure(figure.clone()));
        for (weight, told) in [
            (Answer::Amount(grams), Answer::CannotTell),
            (Answer::CannotTell, Answer::Figure(figure)),
            (Answer::CannotTell, Answer::CannotTell),
        ] {
            prop_assert!(no_lower(stands(weight, told), exact), "{id} of a {} of {grams} g", kind.id());
        }
    }
}

/// What is typed, what notes may say and what a proof supposes of a weight are one range, kind by kind.
#[test]
fn one_range_of_weights_for_typing_notes_and_proof() {
    let weight =
        PROTOCOL.questions.iter().find(|question| question.is_weight()).map(|question| question.id.to_string());
    let Some(weight) = weight else { panic!("no question of weight") };
    let (at, blank) = (PROTOCOL.question_at(&weight), Sheet::lay(&PROTOCOL, &Findings::default(), now()));
    let Some(at) = at else { panic!("no question of weight") };
    for kind in Kind::ALL {
        let taken = kind.taken();
        for (grams, expected) in
            [(taken.low.0 - 1, false), (taken.low.0, true), (taken.high.0, true), (taken.high.0 + 1, false)]
        {
            let text = format!("(answers: {{\"kind\": \"{}\", \"{weight}\": \"{grams} g\"}})", kind.id());
            let noted = notes::read(&PROTOCOL, "notes", &text, now()).is_ok();
            let told = findings(&[(KIND, choice(kind.id())), (&weight, Answer::Amount(grams))], &[]);
            let supposed = is_possible(&PROTOCOL, &blank, &Sheet::lay(&PROTOCOL, &told, now()));
            assert_eq!((noted, supposed), (expected, expected), "{} of {grams} g", kind.id());
            let typed = coopside::typed::weight::parse(&format!("{grams} g"));
            assert_eq!(
                typed.is_ok_and(|grams| kind.could_weigh(grams).is_ok()),
                expected,
                "{} of {grams} g",
                kind.id()
            );
        }
        let possible = |cell: &Cell| matches!(cell, Cell::Amount(grams) if taken.holds(&Grams(*grams)));
        let ends: Vec<Cell> = domain(&PROTOCOL, at).into_iter().filter(possible).collect();
        for end in [taken.low, taken.high] {
            assert!(ends.contains(&Cell::Amount(end.0)), "{}: {ends:?}", kind.id());
        }
    }
}

/// A quail has at most 81 mL of blood at 900 g, twice the heaviest (90 microlitres a gram, the band of its kind): a tablespoon,
/// up to 15 mL, is more than a fifth of the least she may have. No weight she can have makes it milder than now.
#[test]
fn the_floor_is_exact_while_the_weight_is_open() {
    let said = [(KIND, choice("quail")), ("blood_lost", choice("tablespoon"))];
    let sheet = Sheet::lay(&PROTOCOL, &findings(&said, &[]), now());
    let found = envelope(&PROTOCOL, &sheet, Work(1000)).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(found.of(Scale::Need).low, Need::Now as Rung);
    // While her kind is open too, a goose may have lost the same and stand lower.
    let sheet = Sheet::lay(&PROTOCOL, &findings(&said[1..], &[]), now());
    let found = envelope(&PROTOCOL, &sheet, Work(1000)).unwrap_or_else(|error| panic!("{error}"));
    assert!(found.of(Scale::Need).low < Need::Now as Rung);
}

/// A build that is not one of her kind's is refused by name in notes, with what is offered; where it stands in a case all the
/// same, it is told, and she is no milder than a bird whose weight cannot be told.
#[test]
fn a_build_of_another_kind_is_refused_and_never_ignored() {
    for kind in Kind::ALL {
        for build in BUILDS {
            let hers = build.kinds.contains(&kind);
            let text = format!("(answers: {{\"kind\": \"{}\", \"weight\": \"{}\"}})", kind.id(), build.id);
            let noted = notes::read(&PROTOCOL, "notes", &text, now());
            assert_eq!(noted.is_ok(), hers, "{} as {}", kind.id(), build.id);
            let told = noted.err().map(|faults| faults.to_string()).unwrap_or_default();
            let offered = BUILDS.iter().filter(|other| other.kinds.contains(&kind));
            assert!(hers || told.contains(build.id) && offered.clone().all(|other| told.contains(other.id)), "{told}");
            let clashes = |weight: &str| {
                let said = findings(&[(KIND, choice(kind.id())), ("weight", choice(weight))], &[]);
                !coopside::judge::judge(&PROTOCOL, &said, now()).clashes.is_empty()
            };
            assert_eq!(clashes(build.id), !hers, "{} as {}", kind.id(), build.id);
            for blood in ["drops", "teaspoon", "tablespoon", "three", "more"] {
                let with = |weight: Answer| {
                    of(&[(KIND, choice(kind.id())), ("weight", weight), ("blood_lost", choice(blood))], &[])
                };
                let unknown = with(Answer::CannotTell);
                assert!(hers || no_lower(with(choice(build.id)), unknown), "{} as {}", kind.id(), build.id);
            }
        }
    }
    let text = "(answers: {\"kind\": \"cannot_tell\", \"weight\": \"heavy_hen\"})";
    let told = notes::read(&PROTOCOL, "notes", text, now()).err().map(|faults| faults.to_string());
    assert!(told.is_some_and(|told| told.contains("needs her kind")));
}
