//! How the ledger keeps its backups and its schema.

mod backup {
    use chrono::{DateTime, TimeDelta, Utc};
    use coopside::ledger::backup::{DAYS, NEWEST, WEEKS, kept};
    use std::collections::BTreeSet;

    /// Arithmetic: two backups a day for sixty days leave three of the newest, one for each of seven days, and one for each of
    /// four weeks; the newest and the weeks' last fall among the days in part.
    #[test]
    fn backups_are_thinned_out_to_days_and_weeks() {
        let start: DateTime<Utc> = DateTime::UNIX_EPOCH + TimeDelta::days(20_000);
        let moments: Vec<_> = (0..120).map(|half| start + TimeDelta::hours(half * 12)).collect();
        let kept = kept(&moments, start + TimeDelta::days(60));
        assert!(moments.iter().rev().take(3).all(|at| kept.contains(at)));
        let days: BTreeSet<_> = kept.iter().map(DateTime::date_naive).collect();
        assert!((7..=10).contains(&days.len()) && kept.len() <= NEWEST + DAYS + WEEKS, "{kept:?}");
        assert!(
            kept.iter().any(|at| start + TimeDelta::days(60) - *at > TimeDelta::days(14)),
            "a backup of the week before the last two"
        );
    }
}

mod schema {
    use coopside::ledger::{NEWEST_SCHEMA, STEPS};

    #[test]
    fn the_newest_version_is_the_number_of_steps() {
        assert_eq!(usize::try_from(NEWEST_SCHEMA), Ok(STEPS.len()));
    }
}
