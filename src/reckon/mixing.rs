//! Sums about what is mixed: a stock made up to a strength, salt water, rehydration salts, and the true strength of a recipe.

use super::answer::{Answer, volume};
use super::bottle::{self, Bottle};
use super::{Moment, ReckonError, Values, Wrong};
use crate::measure::solution::{self, Mix, Much, Salt, Thing};
use crate::phrase::{Decimal, Phrase, Quantity, Text, UnitOf, grams, sum as units, sum_bottle, sum_mixing as says};
use crate::typed::{self, Household, TypedError};
use crate::unit::{Band, MicrogramsPerLitre, Microlitres, MilligramsPerLitre};

/// A stock made up to a strength, or thinned one in so many.
pub fn solution(values: &Values, moment: &Moment) -> Result<Answer, ReckonError> {
    let bottle = Bottle::read(moment.protocol, values.get("name").unwrap_or_default())?;
    let stock = values.read("stock", typed::strength)?;
    if let Some(parts) = values.may("one_in", parts)? {
        return one_in(values, (&bottle, stock), parts, moment);
    }
    let target = values.read("target", typed::strength)?;
    let make = values.read("make", |text| typed::one_volume(text, moment.household))?;
    let mix = solution::dilute(stock, target, make)?;
    let answer = Answer::new(says::solution(), says::solution_formula());
    let mut answer = bottle
        .held(answer, moment.protocol, &[stock], Band::exactly(target.into()))
        .line(says::stock(), volume(mix.stock).signed())
        .line(says::water(), volume(mix.water).signed())
        .line(says::made(), says::made_of(volume(make), strength(target)));
    // A spoon is rounded down, towards the weaker mix; less than one is not spooned.
    if mix.stock.0 >= 5_000 {
        answer = answer.line(says::teaspoons(), says::of_5_ml(spoons(mix.stock)));
    }
    if mix.stock.0 < 10_000 {
        answer = answer.line(
            says::drops(),
            Quantity::of(solution::drops(mix.stock), |drops| Decimal::new(drops, 0), UnitOf::Count)
                .in_words(units::drops()),
        );
    }
    if solution::in_two_steps(mix) {
        let ten =
            Mix { stock: Microlitres(mix.stock.0 * 10), water: Microlitres(make.0.saturating_sub(mix.stock.0 * 10)) };
        if ten.stock.0 <= make.0 {
            let [thin, water] = [ten.stock, ten.water].map(|part| Text::from(volume(part)));
            answer = answer.line(says::two_steps(), says::ten_to_one(thin, water));
        }
    }
    Ok(bottle.noted(answer))
}

/// Teaspoons, to the quarter below.
fn spoons(volume: Microlitres) -> Quantity {
    Quantity::one(Decimal::new(volume.0 * 4 / 5_000 * 25, 2), UnitOf::Count)
}

/// A strength; its unit stands in the sentence around it.
fn strength(strength: impl Into<MicrogramsPerLitre>) -> Quantity {
    Quantity::strength(Band::exactly(strength.into()))
}

/// So many grams.
fn weighed(milligrams: u64) -> Quantity {
    Quantity::one(grams(milligrams), UnitOf::Grams).signed()
}

pub fn parts(text: &str) -> Result<u64, Wrong> {
    let parts = typed::count(text)?;
    if parts < 2 { Err(Wrong::new(text, says::two_or_more(), Text::typed("40"))) } else { Ok(u64::from(parts)) }
}

/// Both readings of "one in so many".
fn one_in(
    values: &Values,
    (bottle, stock): (&Bottle, MilligramsPerLitre),
    parts: u64,
    moment: &Moment,
) -> Result<Answer, ReckonError> {
    let [made_up, added] = solution::one_in(stock, parts);
    let answer = Answer::new(says::solution(), says::one_in_formula());
    let mut answer = bottle
        .held(answer, moment.protocol, &[stock], Band { low: added, high: made_up })
        .line(says::made_up_to(parts), strength(made_up).signed())
        .line(says::added_to(parts), strength(added).signed());
    if let Some(make) = values.may("make", |text| typed::one_volume(text, moment.household))? {
        let [stock, make] = [Microlitres(make.0 / parts), make].map(|part| Text::from(volume(part)));
        answer = answer.line(says::for_that_much(), says::stock_water_to(stock, make));
    }
    Ok(bottle.noted(answer.note(says::both_ways())))
}

/// Salt water by weight.
pub fn saline(values: &Values, moment: &Moment) -> Result<Answer, ReckonError> {
    let make = values.read("make", |text| typed::one_volume(text, moment.household))?;
    let wanted = bottle::salt_water(moment.protocol)?;
    let milligrams = salt_in(make, wanted.make.0);
    // Level teaspoons, in hundredths: the lighter spoon needs more of them.
    let hundredths = Band { low: milligrams / 60, high: milligrams.div_ceil(42) };
    Ok(Answer::new(says::saline(), says::saline_formula())
        .line(says::strength(), bottle::in_a_litre(wanted.make))
        .line(says::salt_weighed(), weighed(milligrams))
        .line(says::water(), says::water_to(volume(make)))
        .line(
            says::level_teaspoons(),
            Quantity::of(hundredths, |spoons| Decimal::new(spoons, 2), UnitOf::Count).in_words(units::weigh_it()),
        )
        .note(says::weigh_the_salt())
        .note(says::wounds_only()))
}

/// Milligrams for so much at so many milligrams a litre, to the nearest.
fn salt_in(make: Microlitres, a_litre: u64) -> u64 {
    make.0.saturating_mul(a_litre).saturating_add(500_000) / 1_000_000
}

/// At least a litre: below it the salts are too light for any scale at hand.
pub fn litres(text: &str, household: Household) -> Result<Microlitres, Wrong> {
    let make = typed::one_volume(text, household)?;
    if make.0 < 1_000_000 {
        return Err(Wrong::new(text, says::too_little(), Text::typed("1 l")));
    }
    Ok(make)
}

/// Rehydration salts by weight.
pub fn salts(values: &Values, moment: &Moment) -> Result<Answer, ReckonError> {
    let make = values.read("make", |text| litres(text, moment.household))?;
    let answer = Answer::new(says::salts(), says::salts_formula());
    let told = |answer: Answer, (of, a_litre): &(Salt, u64)| answer.line(salt(*of), weighed(salt_in(make, *a_litre)));
    Ok(solution::REHYDRATION
        .iter()
        .fold(answer, told)
        .line(says::water(), says::water_to(volume(make)))
        .note(says::holds_7_g())
        .note(says::sachet())
        .note(says::no_glucose()))
}

/// A salt of a drink by its name.
const fn salt(of: Salt) -> Phrase {
    match of {
        Salt::Table => says::salt(),
        Salt::Glucose => says::glucose(),
        Salt::PotassiumChloride => says::potassium_chloride(),
        Salt::TrisodiumCitrate => says::trisodium_citrate(),
    }
}

/// One part of a printed recipe: how much of what. A spoon that is not the same everywhere is a band.
pub struct Part {
    much: Band<Much>,
    thing: Thing,
    /// What the bottle of a stock says; empty for salt, sugar and a stock nobody named.
    name: String,
}

impl Part {
    /// What it holds, in micrograms.
    fn micrograms(&self) -> Option<Band<u64>> {
        let of = |much| self.thing.micrograms(much);
        Some(of(self.much.low)?.hull(of(self.much.high)?))
    }

    /// What a stock's bottle says.
    fn bottle(&self) -> Option<&str> {
        self.stock().map(|_| self.name.as_str())
    }

    /// How strong a stock is.
    fn stock(&self) -> Option<MilligramsPerLitre> {
        match self.thing {
            Thing::Stock(strength) => Some(strength),
            Thing::Salt | Thing::Sugar => None,
        }
    }

    /// The room a liquid stock takes, at most.
    fn room(&self) -> u64 {
        match (self.thing, self.much.high) {
            (Thing::Stock(_), Much::Volume(stock)) => stock.0,
            _ => 0,
        }
    }
}

/// Reads `1 tbsp salt in 600 ml`, `6 tsp sugar + 0.5 tsp salt in 1 quart`, `5 ml of 10 % in 500 ml`.
pub fn printed(text: &str, household: Household) -> Result<(Vec<Part>, Band<Microlitres>), Wrong> {
    let wrong = |what: Phrase| Wrong::new(text, what, says::recipes());
    let lower = text.trim().to_lowercase();
    let (parts, water) = lower.rsplit_once(" in ").ok_or_else(|| wrong(says::lacks_in()))?;
    let own = |error: TypedError| Wrong { example: says::recipes().into(), ..Wrong::from(error) };
    let poured = |text: &str| typed::volume(text, household);
    let volume = |Band { low, high }: Band<Microlitres>| Band { low: Much::Volume(low), high: Much::Volume(high) };
    let water = poured(water.trim().trim_end_matches("of water").trim_end_matches("water")).map_err(own)?;
    let parts = parts.replace(" and ", "+").replace(" plus ", "+");
    let read = |part: &str| -> Result<Part, Wrong> {
        let part = part.trim();
        if let Some((much, strength)) = part.split_once(" of ")
            && strength.contains('%')
        {
            let (strength, name) = strength.split_once('%').unwrap_or((strength, ""));
            let thing = Thing::Stock(typed::strength(&format!("{strength}%")).map_err(own)?);
            return Ok(Part { much: volume(poured(much).map_err(own)?), thing, name: name.trim().to_owned() });
        }
        let (thing, name) = if part.ends_with("salt") {
            (Thing::Salt, "salt")
        } else if part.ends_with("sugar") {
            (Thing::Sugar, "sugar")
        } else {
            return Err(wrong(says::names_neither()));
        };
        let amount = part.trim_end_matches(name).trim().trim_end_matches(" of").trim();
        let much = match poured(amount) {
            Ok(amount) => volume(amount),
            Err(_) => Band::exactly(Much::Weighed(typed::milligrams(amount).map_err(|_| wrong(says::no_amount()))?)),
        };
        Ok(Part { much, thing, name: String::new() })
    };
    let parts: Vec<Part> = parts.split('+').map(read).collect::<Result<_, _>>()?;
    Ok((parts, water))
}

/// The true strength of a printed recipe: like parts are one. A liquid stock may be made up to that much water or added to it;
/// the band holds both.
pub fn recipe(values: &Values, moment: &Moment) -> Result<Answer, ReckonError> {
    let (parts, water) = values.read("recipe", |text| printed(text, moment.household))?;
    let room = parts.iter().map(Part::room).fold(0, u64::saturating_add);
    if room >= water.low.0 {
        return Err(values.wrong("recipe", says::more_stock(), says::recipes()));
    }
    let all = Band { low: water.low, high: Microlitres(water.high.0.saturating_add(room)) };
    let held = |wanted: fn(&Part) -> bool| -> Option<Band<u64>> {
        let of = parts.iter().filter(|part| wanted(part)).filter_map(Part::micrograms);
        of.reduce(|sum, one| Band { low: sum.low.saturating_add(one.low), high: sum.high.saturating_add(one.high) })
    };
    let mut answer = Answer::new(says::recipe(), says::recipe_formula());
    let sugar = held(|part| part.thing == Thing::Sugar);
    if let Some(salt) = held(|part| part.thing == Thing::Salt) {
        let strength = solution::strength_of(salt, all)?;
        // What it means comes before the figure it comes from.
        let (what, means) = if sugar.is_none() {
            (sum_bottle::for_a_wound(), bottle::salt_verdict(bottle::salt_water(moment.protocol)?, strength))
        } else {
            (says::as_a_drink(), drink_verdict(strength))
        };
        answer = answer.line(what, means).line(says::true_salt(), Quantity::strength(strength).signed());
        if sugar.is_none() {
            let wanted = bottle::salt_water(moment.protocol)?.make;
            let times = |strength: MicrogramsPerLitre| Decimal::new(strength.0 / 100 / wanted.0.max(1), 1);
            answer = answer
                .line(says::wanted(), bottle::in_a_litre(wanted))
                .line(says::against(), Quantity::of(strength, times, UnitOf::Count).in_words(units::times()));
        }
    }
    if let Some(sugar) = sugar {
        answer = answer.line(says::true_sugar(), Quantity::strength(solution::strength_of(sugar, all)?).signed());
    }
    if let Some(stock) = held(|part| matches!(part.thing, Thing::Stock(_))) {
        let strength = solution::strength_of(stock, all)?;
        let bottle = Bottle::of_all(moment.protocol, parts.iter().filter_map(Part::bottle))?;
        let stocks: Vec<_> = parts.iter().filter_map(Part::stock).collect();
        answer = bottle
            .held(answer, moment.protocol, &stocks, strength)
            .line(says::true_stock(), Quantity::strength(strength).signed())
            .note(says::in_both_ways());
        answer = bottle.noted(answer);
    }
    if water.low < water.high {
        answer = answer.line(says::whose_measure(), Quantity::volume(water).signed());
    }
    Ok(answer.note(says::printed_spoons()).note(says::never_a_drink()))
}

/// How a drink's salt stands to what poultry bear.
const fn drink_verdict(strength: Band<MicrogramsPerLitre>) -> Phrase {
    match strength.high.0 {
        ..3_000_000 => says::drink_under_3(),
        3_000_000..5_000_000 => says::drink_3_to_5(),
        _ => says::drink_5(),
    }
}
