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

mod kind {
    use chrono::DateTime;
    use coopside::days::Days;
    use coopside::finding::kind::Deed;
    use coopside::finding::log::{Entry, Outcome, Spot, Stamped, findings, standing};
    use coopside::finding::particular::Particular;
    use coopside::finding::{About, Answer, Findings, Statement};

    /// One entry of every kind, each at the place that `place` gives it.
    fn entries() -> Vec<Entry> {
        let spot = || Spot { about: About::Bird, question: "alert".into() };
        let said = Statement { about: About::Bird, question: "alert".into(), answer: Answer::CannotTell };
        vec![
            Entry::Said(vec![said]),
            Entry::FoundWound,
            Entry::LookedOver,
            Entry::Skipped(vec![spot()]),
            Entry::Went(Some(spot())),
            Entry::Opened("red".into()),
            Entry::Turned(spot()),
            Entry::Began("press".into()),
            Entry::Ended("press".into()),
            Entry::PickedUp,
            Entry::PutDown,
            Entry::Timed { action: "press".into(), seconds: 300 },
            Entry::ClockEnded,
            Entry::Ticked { what: "act:press".into(), done: true },
            Entry::Named("Saffron".into()),
            Entry::LookBegan(vec![spot()]),
            Entry::LookDone,
            Entry::VetSaid("rest".into()),
            Entry::Noted(Particular::Age, "two years".into()),
            Entry::Closed { outcome: Outcome::Recovered, proved: String::new() },
            Entry::Reopened,
            Entry::Archived,
            Entry::TookBack,
        ]
    }

    /// Where an entry of its kind stands among `entries`: a new kind does not build until it stands there, too.
    const fn place(entry: &Entry) -> usize {
        match entry {
            Entry::Said(_) => 0,
            Entry::FoundWound => 1,
            Entry::LookedOver => 2,
            Entry::Skipped(_) => 3,
            Entry::Went(_) => 4,
            Entry::Opened(_) => 5,
            Entry::Turned(_) => 6,
            Entry::Began(_) => 7,
            Entry::Ended(_) => 8,
            Entry::PickedUp => 9,
            Entry::PutDown => 10,
            Entry::Timed { .. } => 11,
            Entry::ClockEnded => 12,
            Entry::Ticked { .. } => 13,
            Entry::Named(_) => 14,
            Entry::LookBegan(_) => 15,
            Entry::LookDone => 16,
            Entry::VetSaid(_) => 17,
            Entry::Noted(..) => 18,
            Entry::Closed { .. } => 19,
            Entry::Reopened => 20,
            Entry::Archived => 21,
            Entry::TookBack => 22,
        }
    }

    fn stamped(entry: Entry) -> Stamped {
        Stamped { at: DateTime::UNIX_EPOCH, entry }
    }

    /// What the file calls an entry is what stands in its stored form.
    #[test]
    fn the_name_of_a_kind_is_the_stored_one() {
        for (at, entry) in entries().into_iter().enumerate() {
            assert_eq!(place(&entry), at);
            let stored = serde_json::to_value(&entry).unwrap_or_default();
            let bare = stored.as_str().map(str::to_owned);
            let tag = bare.or_else(|| stored.as_object()?.keys().next().cloned());
            assert_eq!(tag.as_deref(), Some(entry.kind().name));
        }
        assert_eq!(entries().len(), 23);
    }

    /// What is a finding by its kind says something about the bird, and nothing else does.
    #[test]
    fn findings_are_what_their_kind_says() {
        for entry in entries() {
            let log = [stamped(entry.clone())];
            let told = findings(&standing(&log)) != Findings::default();
            assert_eq!(told, entry.kind().is_finding(), "{entry:?}");
        }
    }

    /// What is written into the case is never counted as going on with the look, and all else is.
    #[test]
    fn only_what_is_not_written_goes_on_with_the_look() {
        for entry in entries().into_iter().filter(|entry| !matches!(entry, Entry::LookBegan(_))) {
            let sittings = Days::of(&[stamped(entry.clone())]).sittings.len();
            let written = entry.kind().deed == Deed::Written;
            assert_eq!(sittings == 0, written, "{entry:?}");
        }
    }

    /// Taking back stops at a decision, takes what followed from it, and leaves what happened or was written.
    #[test]
    fn taking_back_goes_by_the_kind() {
        for entry in entries().into_iter().filter(|entry| *entry != Entry::TookBack) {
            let kind = entry.kind();
            let log = [stamped(Entry::FoundWound), stamped(entry.clone()), stamped(Entry::TookBack)];
            let left: Vec<&Entry> = standing(&log).into_iter().map(|left| &left.entry).collect();
            let expected: Vec<&Entry> = match (&entry, kind.is_decision(), kind.is_lasting()) {
                // What was found before a look stays: it was true then.
                (Entry::LookBegan(_), ..) => vec![&Entry::FoundWound, &entry],
                (_, true, _) => vec![&Entry::FoundWound],
                (_, false, true) => vec![&entry],
                (_, false, false) => Vec::new(),
            };
            assert_eq!(left, expected, "{entry:?}");
        }
    }
}
