//! A case over days: how a log falls into sittings, and an end that is taken back.

use chrono::{DateTime, TimeDelta};
use coopside::days::Days;
use coopside::finding::log::{Entry, Outcome, Stamped};

#[test]
fn a_log_falls_into_sittings_and_an_end_can_be_undone() {
    let at = |hours, entry| Stamped { at: DateTime::UNIX_EPOCH + TimeDelta::hours(hours), entry };
    let mut log = vec![at(0, Entry::FoundWound), at(1, Entry::LookedOver), at(12, Entry::LookBegan(Vec::new()))];
    let days = Days::of(&log);
    assert!(days.looking() && days.sittings.len() == 2);
    let ended = days.sittings.first().map(|sitting| sitting.ended);
    assert_eq!(ended, Some(DateTime::UNIX_EPOCH + TimeDelta::hours(1)));
    log.extend([at(13, Entry::LookDone), at(14, Entry::Archived)]);
    log.push(at(15, Entry::Closed { outcome: Outcome::Recovered, proved: String::new() }));
    let days = Days::of(&log);
    assert!(!days.looking() && days.archived && days.end.is_some());
    log.push(at(16, Entry::Reopened));
    let days = Days::of(&log);
    assert!(!days.archived && days.end.is_none());
}
