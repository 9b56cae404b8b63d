//! How practice is counted: agreement against published tables, and the pauses of the schedule.

#![expect(clippy::panic, reason = "a failing test panics")]

mod agreement {
    use coopside::practice::{Kappa, Share, Table, Triage, Weighing};

    #[track_caller]
    fn close(got: f64, want: f64, within: f64) {
        assert!((got - want).abs() < within, "{got} is not {want}");
    }

    fn table<const N: usize>(cells: [[u32; N]; N]) -> Table {
        let cells = cells.iter().map(|row| row.to_vec()).collect();
        Table::of(cells).unwrap_or_else(|| panic!("not square"))
    }

    #[track_caller]
    fn kappa(table: &Table, weighing: Weighing) -> Kappa {
        table.kappa(weighing).unwrap_or(Kappa { value: f64::NAN, error: f64::NAN })
    }

    /// The worked example of `cohens_kappa` in the tests of statsmodels 0.15.0 (`test_inter_rater.py`), which gives the output
    /// of a commercial statistics package.
    #[test]
    fn the_worked_table_of_statsmodels_comes_out() {
        let table = table([[0, 4, 1], [0, 8, 0], [0, 1, 5]]);
        let plain = kappa(&table, Weighing::Same);
        close(plain.value, 0.4842, 5e-5);
        close(plain.error, 0.1380, 5e-5);
        let (low, high) = plain.limits();
        close(low, 0.2137, 1e-4);
        close(high, 0.7547, 1e-4);
        let linear = kappa(&table, Weighing::Linear);
        close(linear.value, 0.4701, 5e-5);
        close(linear.error, 0.1457, 5e-5);
        let (low, high) = linear.limits();
        close(low, 0.1845, 1e-4);
        close(high, 0.7558, 1e-4);
    }

    /// The data set `SexualFun` of the R package vcd (Agresti 1990, after Hout and others 1987); kappas from memory of the
    /// published example, recomputed.
    #[test]
    fn the_table_of_91_couples_comes_out() {
        let table = table([[7, 7, 2, 3], [2, 8, 3, 7], [1, 5, 4, 9], [2, 8, 9, 14]]);
        assert_eq!(table.count(), 91);
        let plain = kappa(&table, Weighing::Same);
        close(plain.value, 0.12933, 5e-6);
        close(plain.error, 0.0686, 5e-5);
        let linear = kappa(&table, Weighing::Linear);
        close(linear.value, 0.23738, 5e-6);
        close(linear.error, 0.0783, 5e-5);
        let quadratic = kappa(&table, Weighing::Quadratic);
        close(quadratic.value, 0.33205, 5e-6);
        close(quadratic.error, 0.097, 5e-4);
    }

    /// The classroom table 20/5, 10/15 (textbook; from memory): 0.70 seen, 0.50 by chance.
    #[test]
    fn the_classroom_table_comes_out() {
        let table = table([[20, 5], [10, 15]]);
        let plain = kappa(&table, Weighing::Same);
        close(plain.value, 0.4, 1e-9);
        close(plain.error, 0.127, 5e-4);
        // With two rungs there is but one distance: all weights agree.
        close(kappa(&table, Weighing::Quadratic).value, 0.4, 1e-9);
        assert_eq!(table.same(), 35);
    }

    #[test]
    fn nothing_counted_and_only_one_thing_said_have_no_kappa() {
        assert_eq!(Table::new(5).kappa(Weighing::Linear), None);
        let mut one = Table::new(5);
        one.add(4, 4);
        one.add(9, 0);
        assert_eq!((one.count(), one.kappa(Weighing::Same)), (1, None));
    }

    /// Newcombe 1998, Statistics in Medicine 17:857-872, table I: 81 of 263, 15 of 148, 0 of 20, 1 of 29; methods 3 (Wilson)
    /// and 5 (Clopper-Pearson). From memory, and each limit recomputed.
    #[test]
    fn the_limits_of_newcombe_come_out() {
        let rows = [
            (81, 263, (0.2553, 0.3662), (0.2527, 0.3676)),
            (15, 148, (0.0624, 0.1605), (0.0578, 0.1617)),
            (0, 20, (0.0, 0.1611), (0.0, 0.1684)),
            (1, 29, (0.0061, 0.1718), (0.0009, 0.1776)),
        ];
        for (hits, of, wilson, exact) in rows {
            let share = Share { hits, of };
            close(share.wilson().0, wilson.0, 5e-5);
            close(share.wilson().1, wilson.1, 5e-5);
            close(share.exact().0, exact.0, 5e-5);
            close(share.exact().1, exact.1, 5e-5);
        }
    }

    /// The rule of three, exactly (common practice in statistics): 59 without a miss still allow one in twenty.
    #[test]
    fn no_miss_in_59_allows_five_in_a_hundred() {
        close(Share { hits: 0, of: 59 }.at_most(), 0.0495, 5e-4);
        close(Share { hits: 0, of: 60 }.wilson().1, 0.060, 5e-4);
        assert_eq!(Share { hits: 0, of: 0 }.wilson(), (0.0, 1.0));
    }

    /// Both definitions, as a study of graded mountain trauma teams sets them side by side (BMC Emergency Medicine); numbers
    /// of our own.
    #[test]
    fn too_low_and_too_high_have_two_meanings() {
        let triage = Triage { found: 36, over: 3, missed: 4, spared: 47 };
        let percent = |share: Share| share.value().map(|value| (value * 1000.0).round() / 10.0);
        assert_eq!(percent(triage.sensitivity()), Some(90.0));
        assert_eq!(percent(triage.too_low_of_urgent()), Some(10.0));
        assert_eq!(percent(triage.too_low_of_given()), Some(7.8));
        assert_eq!(percent(triage.too_high_of_mild()), Some(6.0));
        assert_eq!(percent(triage.too_high_of_given()), Some(7.7));
        assert_eq!(percent(triage.specificity()), Some(94.0));
    }
}

mod schedule {
    use coopside::practice::Card;

    /// The published steps: 1 day, 6 days, then the last pause times the ease, rounded up; the ease as in the formula.
    #[test]
    fn the_pauses_are_the_published_ones() {
        let days = |qualities: &[u8]| {
            let card = qualities.iter().fold(Card::NEW, |card, quality| card.after(*quality));
            format!("{:.2}", card.days())
        };
        assert_eq!(
            [days(&[4]), days(&[4, 4]), days(&[4, 4, 4]), days(&[4, 4, 4, 4])],
            ["1.00", "6.00", "15.00", "38.00"]
        );
        // 2.5 - 0.14 + 0.1 = 2.46; 6 times that is 14.76.
        assert_eq!(days(&[4, 3, 5]), "15.00");
        // Step 6: below 3 the repetitions begin anew "without changing the E-Factor": 2.5 + 4 x 0.1, then 6 times 2.9.
        assert_eq!([days(&[5, 5, 1]), days(&[5, 5, 1, 5]), days(&[5, 5, 1, 5, 5])], ["1.00", "1.00", "6.00"]);
        assert_eq!(days(&[4, 1, 4, 4, 4]), days(&[4, 4, 4, 4]).replace("38.00", "15.00"));
        let worst = (0..20).fold(Card::NEW, |card, _| card.after(3));
        assert!((worst.ease() - 1.3).abs() < 1e-9, "{worst:?}");
    }
}
