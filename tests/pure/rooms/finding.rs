//! What is found and told: the answer that stands, figures as they are typed, logs taken back, files that are doubted.

use chrono::DateTime;
use coopside::finding::{About, Answer, Findings, Statement};

#[test]
fn the_last_answer_stands() {
    let mut findings = Findings::default();
    for answer in ["pink", "white"] {
        let statement =
            Statement { about: About::Bird, question: "eyelid".into(), answer: Answer::Choice(answer.into()) };
        findings.say(statement, DateTime::UNIX_EPOCH);
    }
    let standing = findings.answer(About::Bird, "eyelid").map(|said| said.statement.answer.clone());
    assert_eq!(standing, Some(Answer::Choice("white".into())));
    assert_eq!(findings.answer(About::Wound(0), "eyelid"), None);
}

#[test]
fn speaking_of_a_wound_lists_it() {
    let mut findings = Findings::default();
    let statement = Statement { about: About::Wound(1), question: "size".into(), answer: Answer::CannotTell };
    findings.say(statement, DateTime::UNIX_EPOCH);
    assert_eq!(findings.wounds(), 2);
}

mod figure {
    use coopside::finding::figure::{Figure, FigureOf, Lines};

    #[test]
    fn figures_are_read_as_they_are_written() {
        let blood = "2 thin10 full; pool 100 mm smooth; 12 drops; wet 25 g dry 5 g; 5 ml; 10 drops in 15 s for 8 min";
        for (of, text) in [
            (FigureOf::Blood, blood),
            (FigureOf::Breaths, "15 in 30 s; 17 in 30 s held"),
            (FigureOf::Wound, "80 mm x 50 mm"),
            (FigureOf::Refill, "1.2 s"),
        ] {
            assert_eq!(Figure::read(of, text).map(|figure| figure.write()), Ok(text.to_owned()));
            assert!(Figure::read(of, of.example()).is_ok(), "{}", of.example());
        }
        assert_eq!(Lines::read("5 x 8 cm"), Lines::read("8cm by 50mm"));
    }

    #[test]
    fn what_is_no_figure_is_refused() {
        for (of, text) in [
            (FigureOf::Blood, ""),
            (FigureOf::Blood, "much"),
            (FigureOf::Blood, "wet 5 g dry 25 g"),
            (FigureOf::Blood, "2 thin10 soaked"),
            (FigureOf::Blood, "pool 10 cm carpet"),
            (FigureOf::Blood, "1,500 ml"),
            (FigureOf::Breaths, "15"),
            (FigureOf::Breaths, "15 in 2 s"),
            (FigureOf::Wound, "8 cm"),
            (FigureOf::Wound, "0 x 5 cm"),
            (FigureOf::Wound, "8 x 5 m"),
            (FigureOf::Refill, "soon"),
        ] {
            assert!(Figure::read(of, text).is_err(), "{text}");
        }
    }
}

mod log {
    use chrono::DateTime;
    use coopside::finding::log::{Entry, Stamped, standing};
    use coopside::finding::{About, Answer, Statement};

    fn stamped(entry: Entry) -> Stamped {
        Stamped { at: DateTime::UNIX_EPOCH, entry }
    }

    fn said(question: &str) -> Stamped {
        let statement = Statement { about: About::Bird, question: question.into(), answer: Answer::CannotTell };
        stamped(Entry::Said(vec![statement]))
    }

    #[test]
    fn taking_back_removes_the_answer_and_the_instruction_it_opened() {
        let log = [said("alert"), said("bleeding"), stamped(Entry::Began("press".into())), stamped(Entry::TookBack)];
        assert_eq!(standing(&log), [&log[0]]);
    }

    #[test]
    fn taking_back_twice_removes_two_answers_and_then_nothing_more() {
        let back = || stamped(Entry::TookBack);
        assert!(standing(&[said("alert"), said("breath"), back(), back(), back()]).is_empty());
    }

    #[test]
    fn the_bird_stays_picked_up_when_an_answer_is_taken_back() {
        let log = [said("alert"), stamped(Entry::PickedUp), stamped(Entry::TookBack)];
        assert_eq!(standing(&log), [&log[1]]);
    }
}

mod doubt {
    use chrono::{DateTime, TimeDelta, Utc};
    use coopside::finding::doubt::{MOST_WOUNDS, doubt};
    use coopside::finding::log::{Entry, Spot, Stamped};
    use coopside::finding::{About, Answer, Statement};

    fn at(days: i64, entry: Entry) -> Stamped {
        Stamped { at: DateTime::<Utc>::UNIX_EPOCH + TimeDelta::days(days), entry }
    }

    fn of_wound(number: usize, answer: Answer) -> Entry {
        Entry::Said(vec![Statement { about: About::Wound(number), question: "size".into(), answer }])
    }

    /// Invented files: each holds one thing an examination cannot have said.
    #[test]
    fn what_no_examination_says_is_doubted() {
        let today = 20_000;
        for wrong in [
            at(today, of_wound(usize::MAX, Answer::CannotTell)),
            at(today, of_wound(MOST_WOUNDS, Answer::CannotTell)),
            at(today, of_wound(0, Answer::Amount(4_000_000_000))),
            at(today, of_wound(0, Answer::Choice("sm\u{1b}all".into()))),
            at(today, Entry::Named("Rue\u{7}".into())),
            at(today, Entry::Skipped(vec![Spot { about: About::Wound(100), question: "size".into() }])),
            at(90_000_000, Entry::LookedOver),
            at(-1, Entry::LookedOver),
        ] {
            assert!(doubt(&wrong).is_some(), "{wrong:?}");
        }
        assert_eq!(doubt(&at(today, of_wound(MOST_WOUNDS - 1, Answer::Amount(2_000)))), None);
        assert_eq!(doubt(&at(today, Entry::Named("Ruë, 2nd".into()))), None);
    }
}
