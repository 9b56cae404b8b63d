//! What is wrong with something typed, and what would be taken.

use crate::bird::{Much, Unlikely};
use crate::phrase::{Phrase, Text, mistyped as says};
use crate::reckon::kinds;
use crate::typed::weight::EXAMPLES as WEIGHTS;
use crate::typed::{Example, Mistyped, NoAmount, TypedError};

/// What was typed, what is wrong with it, and what would be taken.
pub fn told(error: &TypedError) -> Text {
    wrong(&error.text, what(&error.what), example(error.example))
}

/// A text that cannot be taken, in a sentence.
pub fn wrong(text: &str, what: impl Into<Text>, example: impl Into<Text>) -> Text {
    if text.is_empty() {
        says::nothing_typed(what, example).into()
    } else {
        says::wrong(Text::typed(text), what, example).into()
    }
}

/// What would be taken.
pub fn example(of: Example) -> Text {
    match of {
        Example::One(example) => Text::typed(example),
        Example::Weights => weights(),
    }
}

/// Weights that would be taken.
pub fn weights() -> Text {
    let [metric, larger, imperial] = WEIGHTS.map(Text::typed);
    says::any_of(metric, larger, imperial).into()
}

/// What is wrong; it goes on after what was typed.
pub fn what(of: &Mistyped) -> Phrase {
    let number = |number: u64| Text::typed(number.to_string());
    match of {
        Mistyped::Amount(NoAmount::NoNumber) => says::no_number(),
        Mistyped::Amount(NoAmount::NoUnit) => says::no_unit(),
        Mistyped::Amount(NoAmount::StrangeUnit) => says::strange_unit(),
        Mistyped::Amount(NoAmount::TwoWays) => says::two_ways(),
        Mistyped::Amount(NoAmount::NotOne) => says::not_one(),
        Mistyped::Nothing => says::nothing(),
        Mistyped::DiffersByCountry { least_ml, most_ml } => {
            let [us, imperial, unit] = ["us", "imperial", "ml"].map(Text::typed);
            says::differs(number(*least_ml), number(*most_ml), us, imperial, unit)
        }
        Mistyped::MoreThanAll => says::more_than_all(),
        Mistyped::TooDry => says::too_dry(),
        Mistyped::OverTenYears => says::over_ten_years(),
        Mistyped::OverAMinute => says::over_a_minute(),
        Mistyped::NoWholeNumber => says::no_whole_number(),
        Mistyped::TooMany => says::too_many(),
        Mistyped::NotOneOf(words) => says::not_one_of(Text::list(words.iter().copied().map(Text::typed))),
        Mistyped::NoBirdsWeight => says::no_birds_weight(),
        Mistyped::NoWeight => says::no_weight(),
        Mistyped::TooHeavy => says::too_heavy(),
        Mistyped::Empty => says::says_nothing(),
        Mistyped::NoDryWeight => says::no_dry_weight(),
        Mistyped::LighterWet => says::lighter_wet(),
        Mistyped::PoolTooWide => says::pool_too_wide(),
        Mistyped::NoBlood => says::no_blood(),
        Mistyped::NoCount => says::no_count(),
        Mistyped::NotCountedOver => says::not_counted_over(),
        Mistyped::NoBreath => says::no_breath(),
        Mistyped::NotTwoLines => says::not_two_lines(),
        Mistyped::LineTooLong => says::line_too_long(),
    }
}

/// That no bird of her kind weighs that; it goes on after the weight.
pub fn unlikely(of: Unlikely) -> Phrase {
    let (kind, grams) = (kinds::kind(of.kind), Text::typed(of.than.0.to_string()));
    match of.much {
        Much::TooHeavy => says::kind_too_heavy(kind, grams),
        Much::TooLight => says::kind_too_light(kind, grams),
    }
}
