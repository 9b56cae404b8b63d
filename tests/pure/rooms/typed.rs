//! Quantities as people type them: the units of the law, one reading or none, weights in both systems.

use coopside::typed::{Household, TypedError, dryness, length, minutes, one_volume, strength};
use coopside::unit::{Microlitres, Micrometres};

fn volume(text: &str) -> Result<Microlitres, TypedError> {
    one_volume(text, Household::Elsewhere)
}

/// International yard and pound agreement 1959 (from memory): 1 in is 25.4 mm. What a pint and an ounce are stands in `amounts`.
#[test]
fn an_inch_is_that_of_the_law() {
    assert_eq!(length("1 in"), Ok(Micrometres(25_400)));
}

#[test]
fn a_quantity_is_read_one_way_or_not_at_all() {
    assert_eq!(volume("1/2 tsp"), Ok(Microlitres(2_500)));
    assert_eq!(volume("1½ tsp"), Ok(Microlitres(7_500)));
    assert_eq!(volume("0,5 l"), Ok(Microlitres(500_000)));
    assert_eq!(length("2 in"), Ok(Micrometres(50_800)));
    assert_eq!(minutes("1,5 h"), Ok(90));
    for wrong in ["", "1,500 ml", "5", "-5 ml", "0 ml", "ml", "5 stone", "1.2.3 ml", "99999999999 ml"] {
        assert!(volume(wrong).is_err(), "{wrong}");
    }
    assert!(strength("101 %").is_err() && dryness("16 %").is_err() && minutes("11 years").is_err());
}

mod weight {
    use coopside::typed::weight::{parse, show};
    use coopside::unit::Grams;

    #[test]
    fn weights_are_read_as_people_type_them() {
        for (text, grams) in [
            ("950 g", 950),
            ("2 kg", 2000),
            ("1,9 kg", 1900),
            ("1.900 kg", 1900),
            ("4 lb 6 oz", 1984), // 4 x 453.59237 + 6 x 28.349523125 = 1984.4666
            ("4lb6oz", 1984),
            ("4½ lb", 2041),
            ("4 ½ lb", 2041),
            ("70 oz", 1984),
            ("150G", 150),
        ] {
            assert_eq!(parse(text), Ok(Grams(grams)), "{text}");
        }
    }

    #[track_caller]
    fn refused(text: &str, why: &str) {
        let error = parse(text).err().map(|error| error.for_author()).unwrap_or_default();
        assert!(error.contains(why), "{text}: {error}");
    }

    #[test]
    fn what_is_no_weight_is_refused_with_the_reason() {
        refused("", "is not a weight");
        refused("heavy", "is not a weight");
        refused("2", "has no unit");
        refused("1,500 g", "two ways");
        refused("200 kg", "30 kg");
        refused("4 stone", "is not a weight");
    }

    #[test]
    fn a_weight_is_echoed_in_both_systems() {
        assert_eq!(show(Grams(1984)), "1.98 kg (4 lb 6 oz)");
        assert_eq!(show(Grams(140)), "140 g (5 oz)");
    }
}
