//! What is read aloud: one thought a line, and no sign that no voice reads. Read aloud, the same is said as is written.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use chrono::{DateTime, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::care::plan;
use coopside::content::whole;
use coopside::phrase::{Decimal, Quantity, Text, UnitOf};
use coopside::practice;
use coopside::prove::judge;
use coopside::render::speech;
use coopside::unit::{Band, Grams, Microlitres};
use coopside::words::{Reader, spoken_clock};
use coopside::zone::Zone;

fn now() -> DateTime<Utc> {
    "2026-05-01T12:07:00Z".parse().unwrap_or_else(|error| panic!("{error}"))
}

fn reader() -> Reader<'static> {
    Reader::english(Zone::UTC, PROTOCOL.no_country()).aloud()
}

/// Everything a scripted bird is told of, read aloud.
fn read_aloud() -> impl Iterator<Item = (String, Vec<String>)> {
    practice::shipped().into_iter().map(|(name, text)| {
        let (_, known) = practice::read(&PROTOCOL, name, text, now()).unwrap_or_else(|faults| panic!("\n{faults}"));
        let verdict = judge(&PROTOCOL, &known, now());
        let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
        let parts = whole::judged(&PROTOCOL, &known, &verdict, &plan, reader());
        (name.to_owned(), speech::lines(&parts, reader()))
    })
}

/// Signs that a voice reads wrongly, or not at all.
const SIGNS: &[char] = &['°', '%', '[', ']', '{', '}', '|', '*', '#', '_', '=', '→', '▲', '✗', '\u{2013}'];

#[test]
fn no_line_holds_a_sign_or_two_thoughts() {
    let mut lines = 0;
    for (name, told) in read_aloud() {
        for line in &told {
            lines += 1;
            // Where a source stands or how it is cited is read as it is printed.
            assert!(line.starts_with("Rests on") || !line.contains(SIGNS), "{name}: {line}");
            let words: Vec<&str> = line.split(' ').collect();
            let pairs = words.windows(2).filter_map(|pair| pair.first().zip(pair.get(1)));
            for (figure, unit) in pairs {
                let is_figure = figure.starts_with(|first: char| first.is_ascii_digit());
                let sign = matches!(
                    unit.trim_end_matches(['.', ',', ';', ':']),
                    "g" | "kg" | "mL" | "mm" | "cm" | "h" | "min"
                );
                assert!(!(is_figure && sign), "{name}: {line}");
            }
            let clock = |word: &str| {
                let digits = |text: &str| text.len() == 2 && text.chars().all(|letter| letter.is_ascii_digit());
                word.split_once(':').is_some_and(|(hour, minute)| digits(hour) && digits(minute))
            };
            assert!(!words.iter().any(|word| clock(word)), "{name}: {line}");
            let ends = line.trim_end_matches(['.', '?', '!', ';']);
            assert!(!ends.contains("? ") && !ends.contains("; "), "{name}: {line}");
        }
    }
    assert!(lines > 10_000, "{lines}");
}

#[test]
fn times_of_day_are_words() {
    let say = |hour, minute| reader().phrase(&spoken_clock(hour, minute));
    // How times are told in English, common practice, no source.
    assert_eq!(say(2, 7), "two oh seven");
    assert_eq!(say(14, 0), "fourteen o'clock");
    assert_eq!(say(0, 0), "midnight");
    assert_eq!(say(23, 59), "twenty three fifty nine");
    assert_eq!(reader().say(&Text::clock(now())), "Friday twelve oh seven");
}

#[test]
fn quantities_are_written_with_signs_and_read_with_words() {
    let written = Reader::english(Zone::UTC, PROTOCOL.no_country());
    let both = |quantity: Quantity| {
        let text = Text::from(quantity);
        (written.say(&text), reader().say(&text))
    };
    let volume = |low, high| Quantity::volume(Band { low: Microlitres(low), high: Microlitres(high) }).signed();
    assert_eq!(both(volume(1_200, 15_000)), ("1.2 to 15 mL".into(), "1.2 to 15 millilitres".into()));
    // Two ends that are read alike are one figure.
    assert_eq!(both(volume(1_200, 1_210)), ("1.2 mL".into(), "1.2 millilitres".into()));
    assert_eq!(both(volume(10_000, 10_000)), ("10 mL".into(), "10 millilitres".into()));
    assert_eq!(both(volume(450, 450)), ("0.45 mL".into(), "0.45 millilitres".into()));
    assert_eq!(both(Quantity::one(Decimal::change(0.4, 0), UnitOf::GramsADay).signed()).0, "+0 g/d");
    assert_eq!(both(Quantity::one(Decimal::change(-12.6, 0), UnitOf::GramsADay).signed()).0, "-13 g/d");
    assert_eq!(both(Quantity::one(Decimal::rounded(2.0, 1), UnitOf::Millimetres).signed()).0, "2.0 mm");
    // 1 lb = 453.59237 g (International yard and pound agreement, 1959, from memory).
    assert_eq!(both(Quantity::weight(Band::exactly(Grams(1984)))).0, "1.98 kg (4 lb 6 oz)");
    assert_eq!(both(Quantity::metric_weight(Grams(1984))).0, "1.98 kg");
}
