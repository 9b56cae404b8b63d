//! What is typed, tapped and kept on the screen, before anything is drawn.

mod calls {
    use coopside::view::calls::whole;

    #[test]
    fn a_number_is_not_parted() {
        assert_eq!(whole("the mill 0555 01-00 or 7"), "the mill 0555\u{a0}01-00 or 7");
    }
}

mod change {
    use coopside::care::cupboard::Kept;
    use coopside::protocol::whom::Whom;
    use coopside::session::change::Change;

    /// Arithmetic of two windows: each changes its own thing, and neither takes the other's away.
    #[test]
    fn two_windows_change_what_is_kept_and_lose_nothing() {
        let vet = Change::Contact(Whom::Vet, "mill 555 0100".into());
        let night = Change::Contact(Whom::EmergencyVet, "night clinic 555 0133".into());
        assert_eq!(vet.made_to(&night.made_to("")), night.made_to(&vet.made_to("")));
        let gauze = Change::Supply("gauze".into(), Some(Kept::default()));
        let box_out = Change::Supply("box".into(), None);
        assert_eq!(box_out.made_to(&gauze.made_to("box; scale")), "gauze; scale");
        assert!(vet.gives_way_to(&Change::Contact(Whom::Vet, String::new())) && !vet.gives_way_to(&night));
    }
}

mod spill {
    use coopside::finding::figure::{Floor, Fullness, Pad, Spilt};
    use coopside::session::draft::{Number, Pick, Spill, Taken};
    use coopside::unit::{Microlitres, Micrometres};

    fn picked(keys: &[usize]) -> Spill {
        let mut spill = Spill::default();
        for key in keys {
            spill.choose(key - 1);
        }
        spill
    }

    #[test]
    fn pads_pools_and_spoons_are_picked_by_single_keys() {
        let spill = picked(&[2, 1, 3, 2, 3, 1, 2, 2, 4, 4, 1, 3]);
        let pool = Spilt::Pool { width: Micrometres(100_000), floor: Floor::Smooth };
        let expected = [Spilt::Pads(2, Pad::Thin10, Fullness::Full), pool, Spilt::Amount(Microlitres(15_000))];
        assert_eq!(spill.seen, expected);
    }

    #[test]
    fn a_step_back_undoes_one_step_and_then_what_was_seen_last() {
        let mut spill = picked(&[2, 1, 3, 2, 3, 1]);
        assert!(spill.back() && spill.back() && spill.pick == Pick::What);
        assert!(spill.back() && spill.seen.is_empty());
        assert!(!spill.back());
    }

    #[test]
    fn a_number_that_cannot_be_read_changes_nothing() {
        let mut spill = picked(&[5]);
        assert!(spill.take("wet").is_err() && spill.pick == Pick::Typed(Number::Wet));
        assert_eq!(spill.take("25 g"), Ok(Taken::Typing));
        assert!(spill.take("30 g").is_err());
        assert_eq!(spill.take("5 g"), Ok(Taken::Picking));
        assert_eq!(spill.seen.len(), 1);
    }
}

mod taps {
    use chrono::{DateTime, TimeDelta, Utc};
    use coopside::finding::figure::Count;
    use coopside::session::draft::{Taps, Vein};
    use coopside::unit::TenthsOfSecond;

    fn at(milliseconds: i64) -> DateTime<Utc> {
        DateTime::UNIX_EPOCH + TimeDelta::milliseconds(milliseconds)
    }

    #[test]
    fn the_first_tap_starts_the_time_and_the_others_are_breaths() {
        let mut taps = Taps::after(Vec::new());
        for tap in 0..=15 {
            taps.tap(at(tap * 1_900), false);
        }
        assert_eq!(taps.left(at(29_000)), Some(1));
        assert!(!taps.settle(at(29_999), false) && taps.settle(at(30_000), false));
        assert_eq!(taps.counts, [Count { breaths: 15, seconds: 30, held: false }]);
        // A breath just after the end belongs to no count; later a tap begins one of its own.
        taps.tap(at(31_000), false);
        assert_eq!(taps.running, None);
        taps.tap(at(33_000), false);
        assert_eq!(taps.running, Some((at(33_000), 0)));
        assert!(taps.back() && taps.back() && !taps.back());
    }

    #[test]
    fn no_breath_is_no_count() {
        let mut taps = Taps::after(Vec::new());
        taps.tap(at(0), false);
        assert!(taps.settle(at(30_000), false) && taps.counts.is_empty());
        assert_eq!(taps.ended, Some((at(30_000), true)));
    }

    #[test]
    fn a_vein_is_timed_in_tenths() {
        let mut vein = Vein::default();
        vein.tap(at(0));
        vein.tap(at(1_250));
        assert_eq!(vein.took, Some(TenthsOfSecond(13)));
        vein.tap(at(5_000));
        vein.tap(at(4_000));
        assert_eq!(vein.took, Some(TenthsOfSecond(0)));
    }
}

mod wrap {
    use coopside::screen::wrap::cut;

    #[test]
    fn a_cut_text_fits_and_says_that_it_was_cut() {
        assert_eq!(cut("under a wing", 8), "under a~");
        assert_eq!(cut("wing", 4), "wing");
        assert_eq!(cut("wing", 0), "");
    }
}
