//! What is handed over: a calendar that is told anew, the words on an edge that has moved, a curve laid out.

#![expect(clippy::panic, reason = "a failing test panics")]

mod calendar {
    use chrono::{DateTime, TimeDelta, Utc};
    use coopside::render::calendar::{Memory, Reminder, calendar};
    use serde::Deserialize;
    use std::collections::BTreeMap;

    fn at(hours: i64) -> DateTime<Utc> {
        DateTime::UNIX_EPOCH + TimeDelta::days(20_000) + TimeDelta::hours(hours)
    }

    fn look(hours: i64, summary: &str) -> Reminder {
        Reminder {
            uid: format!("case-{hours}@coopside"),
            at: at(hours),
            summary: summary.into(),
            description: "all signs".into(),
        }
    }

    /// What was told of a look, as it is kept.
    #[derive(Deserialize)]
    struct Kept {
        at: DateTime<Utc>,
        sequence: u32,
        cancelled: bool,
    }

    fn sequences(memory: &Memory) -> Vec<(i64, u32, bool)> {
        let kept = serde_json::to_value(memory).and_then(serde_json::from_value::<BTreeMap<String, Kept>>);
        let kept = kept.unwrap_or_else(|error| panic!("{error}"));
        kept.values().map(|told| ((told.at - at(0)).num_hours(), told.sequence, told.cancelled)).collect()
    }

    /// RFC 5545, 3.8.7.4: SEQUENCE grows with each significant revision, and a cancellation is one; the UID stays.
    #[test]
    fn what_is_told_again_replaces_and_what_is_no_longer_due_is_cancelled() {
        let (text, first) = calendar(&[look(2, "Saffron"), look(4, "Saffron")], &Memory::new(), at(0));
        assert_eq!(sequences(&first), [(2, 0, false), (4, 0, false)]);
        let (same, second) = calendar(&[look(2, "Saffron"), look(4, "Saffron")], &first, at(0));
        assert_eq!((same, &second), (text, &first), "told twice is told once");
        let (text, third) = calendar(&[look(2, "Saffron, hen")], &second, at(1));
        assert_eq!(sequences(&third), [(2, 1, false), (4, 1, true)]);
        assert!(text.contains("STATUS:CANCELLED") && text.matches("BEGIN:VEVENT").count() == 2);
        // It comes back; and what has gone by is forgotten.
        let (_, fourth) = calendar(&[look(4, "Saffron")], &third, at(3));
        assert_eq!(sequences(&fourth), [(4, 2, false)]);
    }
}

mod days {
    use coopside::unit::Band;

    fn moved(advance: Band<f64>) -> String {
        coopside::words::english(coopside::content::days::moved(advance))
    }

    #[test]
    fn an_edge_that_went_out_is_said_to_have() {
        assert_eq!(moved(Band { low: 1.0, high: 2.5 }), "edge in by 1.0 to 2.5 mm");
        assert_eq!(moved(Band { low: -2.9, high: 0.1 }), "edge between 2.9 mm out and 0.1 mm in");
        assert_eq!(moved(Band { low: -3.0, high: -1.0 }), "edge OUT by 1.0 to 3.0 mm");
    }
}

mod curve {
    use coopside::content::sheet::curve::{Curve, FOOT, HIGH, LEFT, RIGHT, TOP, WIDE};
    use coopside::content::sheet::{Plot, Point};
    use coopside::phrase::UnitOf;

    #[test]
    fn the_least_stands_at_the_foot_and_the_most_at_the_top() {
        let point = |minute, low, value, high| Point { minute, low, value, high };
        let points = vec![point(0, 90, 100, 110), point(1440, 40, 50, 60)];
        let plot = Plot {
            words: String::new(),
            unit: UnitOf::SquareMillimetres,
            from: String::new(),
            to: String::new(),
            ends: None,
            points,
            floor: None,
        };
        let curve = Curve::of(&plot);
        assert_eq!(curve.ends, (40, 110));
        let (first, last) = (curve.dots.first().copied(), curve.dots.last().copied());
        assert_eq!(first.map(|dot| (dot.x, dot.top)), Some((LEFT, TOP)));
        assert_eq!(last.map(|dot| (dot.x, dot.bottom)), Some((WIDE - RIGHT, HIGH - FOOT)));
        assert!(first.map(|dot| dot.y) < last.map(|dot| dot.y), "less stands lower");
    }

    #[test]
    fn one_moment_and_one_value_divide_by_nothing() {
        let points = vec![Point { minute: 0, low: 5, value: 5, high: 5 }; 2];
        let plot = Plot {
            words: String::new(),
            unit: UnitOf::Grams,
            from: String::new(),
            to: String::new(),
            ends: None,
            points,
            floor: Some(5),
        };
        assert_eq!(Curve::of(&plot).ends, (5, 5));
    }
}
