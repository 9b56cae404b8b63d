//! What is kept for her care: whom to call, and the moments to look again.

mod contacts {
    use coopside::care::contacts::Contacts;
    use coopside::protocol::whom::Whom;

    #[test]
    fn what_is_kept_is_recalled_and_an_empty_line_takes_somebody_out() {
        let mut contacts = Contacts::default();
        contacts.put(Whom::Vet, "  the clinic in\nthe mill,  555 0100 ");
        contacts.put(Whom::Authority, "555 0199");
        assert_eq!(contacts.of(Whom::Vet), Some("the clinic in the mill, 555 0100"));
        assert_eq!(Contacts::recall(&contacts.write()), contacts);
        contacts.put(Whom::Vet, " ");
        assert_eq!(contacts.all().count(), 1);
        assert_eq!(Contacts::recall("nobody 1\nvet\n\nauthority  2"), {
            let mut only = Contacts::default();
            only.put(Whom::Authority, "2");
            only
        });
    }
}

mod looks {
    use chrono::DateTime;
    use coopside::care::looks::times;
    use coopside::protocol::rule::Looks;

    /// After a blow to the head: every half hour to 2 h, two-hourly to 8 h, eight-hourly to 48 h. Re-scoring every 6-8 h
    /// over 48 h is published (Vet Times, head trauma; Foss et al. 2023); the shorter steps before are our inference.
    #[test]
    fn looks_after_a_blow_to_the_head_thin_out() {
        let looks = [
            Looks { every_min: 30, until_h: 2, late: false },
            Looks { every_min: 120, until_h: 8, late: false },
            Looks { every_min: 480, until_h: 48, late: false },
        ];
        let start = DateTime::UNIX_EPOCH;
        let minutes: Vec<i64> = times(&looks, start).iter().map(|at| (*at - start).num_minutes()).collect();
        assert_eq!(minutes, [30, 60, 90, 120, 240, 360, 480, 960, 1440, 1920, 2400, 2880]);
    }

    /// Arithmetic: two-hourly to 8 h and a quarter of an hour to 24 h is a quarter of an hour all the way.
    #[test]
    fn a_longer_watch_that_is_closer_is_not_thinned_out_by_a_shorter_one() {
        let looks =
            [Looks { every_min: 120, until_h: 8, late: false }, Looks { every_min: 15, until_h: 24, late: false }];
        assert_eq!(times(&looks, DateTime::UNIX_EPOCH).len(), 96);
    }

    #[test]
    fn the_shorter_interval_wins_over_the_same_hours() {
        let looks =
            [Looks { every_min: 1440, until_h: 72, late: false }, Looks { every_min: 720, until_h: 72, late: false }];
        assert_eq!(times(&looks, DateTime::UNIX_EPOCH).len(), 6);
    }
}
