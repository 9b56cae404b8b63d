//! Unknown is never mild: figures, answers and "cannot tell" held against each other; and one range of weights wherever one is told.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, complete, now};
use coopside::bird::{BUILDS, Kind};
use coopside::finding::figure::{Count, Figure, FigureOf, LONGEST_LINE, Lines, Spilt};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::judge::{Standing, levels};
use coopside::notes;
use coopside::protocol::cond::Cond;
use coopside::protocol::question::Asked;
use coopside::protocol::scale::{Humane, Need};
use coopside::prove::{Rung, Scale, Work, bands, domain, envelope, is_possible};
use coopside::sheet::{Cell, Sheet, Subject};
use coopside::unit::{Band, Grams, Microlitres, Micrometres, Permille, TenthsOfSecond};
use proptest::prelude::*;
use std::collections::BTreeSet;

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
    let bird = [("kind", choice("hen")), ("weight", Answer::Amount(2000))];
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
            let bird = [("kind", choice(kind.id())), ("weight", weight), ("breathing", breathing.clone())];
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

/// What every measure comes to on a sheet, by its name.
fn readings(sheet: &Sheet) -> [(&'static str, Band<u64>); 7] {
    let wide = |Band { low, high }: Band<u32>| Band { low: u64::from(low), high: u64::from(high) };
    let share = |Band { low, high }: Band<Permille>| wide(Band { low: low.0, high: high.0 });
    let (lost, breaths) = (sheet.blood_lost().band, sheet.breath_rate().band);
    [
        ("blood lost", Band { low: lost.low.0, high: lost.high.0 }),
        ("blood of a sound bird", share(sheet.blood_share(false).band)),
        ("blood of a frail bird", share(sheet.blood_share(true).band)),
        ("blood of her weight", share(sheet.blood_of_weight().band)),
        ("breaths", wide(Band { low: breaths.low.0, high: breaths.high.0 })),
        ("dryness", share(sheet.dryness().band)),
        ("open skin", share(sheet.skin_open().band)),
    ]
}

/// Where an earlier "cannot tell" leaves in doubt whether a question applies, a measure fed from it spans whatever an answer to the
/// earlier one would make of it: of every such question, each of its answers and figures, and every answer to what it hangs on.
#[test]
fn a_measure_in_doubt_spans_every_answer_that_would_settle_it() {
    let mut fed = Vec::new();
    for (at, question) in PROTOCOL.enumerated() {
        let (Some(_), Some(applies)) = (question.gives, &question.applies) else { continue };
        fed.push(question.id.as_str());
        let about = if question.wound { About::Wound(0) } else { About::Bird };
        for gate in applies.questions() {
            for cell in domain(&PROTOCOL, at) {
                let mut sheet =
                    Sheet::lay(&PROTOCOL, &findings(&[("kind", choice("hen"))], &[("place", choice("back"))]), now());
                sheet.suppose(Asked { about, question: at }, cell);
                let mut with = |told: Cell| {
                    sheet.suppose(Asked { about, question: gate }, told);
                    sheet.suppose_applies();
                    readings(&sheet)
                };
                let doubted = with(Cell::CannotTell);
                for told in domain(&PROTOCOL, gate) {
                    for ((name, wide), (_, one)) in doubted.iter().zip(with(told)) {
                        let within = wide.low <= one.low && one.high <= wide.high;
                        assert!(within, "{}: {cell:?}, {told:?}: {name} {one:?} beyond {wide:?}", question.id);
                    }
                }
            }
        }
    }
    assert_eq!(fed, ["breath_count", "vein", "size"]);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(60) })]

    /// What stands as seen although an earlier answer could not be told, stands so whatever that answer is: of every question some
    /// other hangs on, of the bird and of each of her wounds.
    #[test]
    fn what_is_seen_in_doubt_is_seen_whatever_would_settle_it(bird in complete()) {
        let sheet = Sheet::lay(&PROTOCOL, &bird.possible().findings(), now());
        let blank = Sheet::lay(&PROTOCOL, &Findings::default(), now());
        let gates: BTreeSet<_> = PROTOCOL.questions.iter().filter_map(|q| q.applies.as_ref()).flat_map(Cond::questions).collect();
        for gate in gates {
            for about in sheet.abouts(PROTOCOL.ask(gate)) {
                let with = |cell: Cell| {
                    let mut other = sheet.clone();
                    other.suppose(Asked { about, question: gate }, cell);
                    other.suppose_applies();
                    is_possible(&PROTOCOL, &blank, &other).then_some(other)
                };
                let Some(doubted) = with(Cell::CannotTell) else { continue };
                for told in domain(&PROTOCOL, gate).into_iter().filter_map(with) {
                    for rule in &PROTOCOL.rules {
                        let (bird, wounds) = if rule.per_wound { (None, doubted.wounds()) } else { (Some(Subject::Bird), 0) };
                        for subject in bird.into_iter().chain((0..wounds).map(Subject::Wound)) {
                            let seen = doubted.surely(&rule.when, subject);
                            prop_assert!(!seen || told.surely(&rule.when, subject), "{} by {}", rule.id, PROTOCOL.ask(gate).id);
                        }
                    }
                }
            }
        }
    }
}

/// A count, a slow vein, a large wound: where it could not be told whether they are there, they raise need and advise nothing.
#[test]
fn a_measure_in_doubt_raises_need_and_advises_nothing() {
    let breaths = Answer::Figure(Figure::Breaths(vec![Count { breaths: 60, seconds: 30, held: false }]));
    let hen = ("kind", choice("hen"));
    let grams = ("weight", Answer::Amount(1500));
    let doubted = [
        ("breath_counted", findings(&[hen.clone(), ("breathing", Answer::CannotTell), ("breath_count", breaths)], &[])),
        ("vein_slow", findings(&[hen.clone(), ("dryness", Answer::CannotTell), ("vein", choice("slow"))], &[])),
        ("skin_share", findings(&[hen, grams], &[("what", Answer::CannotTell), ("size", lines(250_000, 200_000))])),
    ];
    for (id, findings) in doubted {
        let verdict = coopside::judge::judge(&PROTOCOL, &findings, now());
        let reason = verdict.reasons.iter().find(|reason| PROTOCOL.rule(reason.rule).id == *id);
        assert_eq!(reason.map(|reason| reason.standing), Some(Standing::CouldNotTell), "{id}");
        let advised =
            verdict.acts.iter().flat_map(|act| &act.because).any(|reason| PROTOCOL.rule(reason.rule).id == *id);
        assert!(!advised && verdict.humane.low <= Humane::MayComeIntoQuestion, "{id}");
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
            let told = findings(&[("kind", choice(kind.id())), (&weight, Answer::Amount(grams))], &[]);
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
    let said = [("kind", choice("quail")), ("blood_lost", choice("tablespoon"))];
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
            let text = format!("(answers: {{\"kind\": \"{}\", \"weight\": \"{}\"}})", kind.id(), build.id());
            let noted = notes::read(&PROTOCOL, "notes", &text, now());
            assert_eq!(noted.is_ok(), hers, "{} as {}", kind.id(), build.id());
            let told = noted.err().map(|faults| faults.to_string()).unwrap_or_default();
            let offered = BUILDS.iter().filter(|other| other.kinds.contains(&kind));
            assert!(
                hers || told.contains(build.id()) && offered.clone().all(|other| told.contains(other.id())),
                "{told}"
            );
            let clashes = |weight: &str| {
                let said = findings(&[("kind", choice(kind.id())), ("weight", choice(weight))], &[]);
                !coopside::judge::judge(&PROTOCOL, &said, now()).clashes.is_empty()
            };
            assert_eq!(clashes(build.id()), !hers, "{} as {}", kind.id(), build.id());
            for blood in ["drops", "teaspoon", "tablespoon", "three", "more"] {
                let with = |weight: Answer| {
                    of(&[("kind", choice(kind.id())), ("weight", weight), ("blood_lost", choice(blood))], &[])
                };
                let unknown = with(Answer::CannotTell);
                assert!(hers || no_lower(with(choice(build.id())), unknown), "{} as {}", kind.id(), build.id());
            }
        }
    }
    let text = "(answers: {\"kind\": \"cannot_tell\", \"weight\": \"heavy_hen\"})";
    let told = notes::read(&PROTOCOL, "notes", text, now()).err().map(|faults| faults.to_string());
    assert!(told.is_some_and(|told| told.contains("needs her kind")));
}
