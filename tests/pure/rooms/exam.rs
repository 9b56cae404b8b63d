//! The clocks of an examination: how long she has been in the hand, and what an instruction times.

mod hands {
    use chrono::{DateTime, TimeDelta};
    use coopside::exam::hands;
    use coopside::finding::log::{Entry, Stamped};

    #[test]
    fn the_clock_runs_from_the_first_pick_up_and_stops_when_she_is_put_down() {
        let start = DateTime::UNIX_EPOCH;
        let at = |seconds, entry| Stamped { at: start + TimeDelta::seconds(seconds), entry };
        let mut log = vec![at(0, Entry::PickedUp), at(60, Entry::PickedUp)];
        let now = start + TimeDelta::seconds(100);
        assert_eq!(hands(&log).held_for(now), Some(TimeDelta::seconds(100)));
        log.push(at(90, Entry::PutDown));
        assert_eq!(hands(&log).held_for(now), None);
    }
}

mod timer {
    use chrono::{DateTime, TimeDelta};
    use coopside::exam::timer;
    use coopside::finding::log::{Entry, Stamped};

    #[test]
    fn the_clock_stands_until_it_is_ended_and_an_answer_taken_back_does_not_end_it() {
        let start = DateTime::UNIX_EPOCH;
        let at = |seconds, entry| Stamped { at: start + TimeDelta::seconds(seconds), entry };
        let mut log = vec![at(10, Entry::Timed { action: "press".into(), seconds: 300 }), at(20, Entry::TookBack)];
        let left = |log: &[Stamped]| timer(log).map(|timer| timer.left(start + TimeDelta::seconds(400)).num_seconds());
        assert_eq!(left(&log), Some(-90));
        // The clock is set back a day: the whole time, and not a day of it.
        let before = timer(&log).map(|timer| timer.left(start - TimeDelta::days(1)).num_seconds());
        assert_eq!(before, Some(300));
        log.push(at(410, Entry::ClockEnded));
        assert_eq!(left(&log), None);
    }
}

mod lists {
    use crate::common::PROTOCOL;
    use chrono::{DateTime, TimeDelta};
    use coopside::exam::Exam;
    use coopside::finding::log::{Entry, Stamped};
    use coopside::finding::{About, Answer, Statement};
    use coopside::judge::judge;

    /// A case kept while the danger signs went by another name tells all it told: a list nobody knows leads nowhere.
    #[test]
    fn a_list_by_a_name_of_long_ago_is_passed_over() {
        let start = DateTime::UNIX_EPOCH;
        let said = |question: &str, answer: &str| {
            let answer = Answer::Choice(answer.into());
            Entry::Said(vec![Statement { about: About::Bird, question: question.into(), answer }])
        };
        let signs = PROTOCOL.list(PROTOCOL.roles.danger_signs);
        let signs = signs.iter().map(|at| said(PROTOCOL.ask(*at).id.as_str(), "no"));
        let entries: Vec<Entry> = signs.chain([said("kind", "hen"), said("reach", "hours")]).collect();
        let stamped = |entries: &[Entry]| -> Vec<Stamped> {
            let placed = (0..).zip(entries);
            placed.map(|(at, entry)| Stamped { at: start + TimeDelta::seconds(at), entry: entry.clone() }).collect()
        };
        for known in 0..=entries.len() {
            let own: Vec<Entry> = entries.iter().take(known).cloned().collect();
            let opened = Entry::Opened("red".into());
            let old: Vec<Entry> = own.iter().cloned().chain([opened]).collect();
            let [own, old] = [&own, &old].map(|entries| Exam::from_log(&PROTOCOL, &stamped(entries)));
            assert_eq!(own.place, old.place, "after {known} answers");
            let [own, old] = [own, old].map(|exam| judge(&PROTOCOL, &exam.findings, start));
            assert_eq!((own.need, own.humane, own.authority), (old.need, old.humane, old.authority));
        }
    }
}
