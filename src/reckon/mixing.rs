//! Sums about what is mixed: a stock made up to a strength, salt water, rehydration salts, and the true strength of a recipe.

use super::answer::{Answer, figure, grams, millilitres, percent_strength, span};
use super::bottle::{self, Bottle, FOR_A_WOUND};
use super::{Moment, ReckonError, Values};
use crate::measure::solution::{self, Mix, Much, Thing};
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
    let answer = Answer::new("solution", "stock = amount x target / stock strength; water is the rest");
    let mut answer = bottle
        .held(answer, moment.protocol, &[stock], Band::exactly(target.into()))
        .line("stock", format!("{} mL", millilitres(mix.stock)))
        .line("boiled, cooled water", format!("{} mL", millilitres(mix.water)))
        .line("made", format!("{} mL of {} %", millilitres(make), percent_strength(target)));
    // A spoon is rounded down, towards the weaker mix; less than one is not spooned.
    if mix.stock.0 >= 5_000 {
        answer = answer.line("the stock in teaspoons, not more than", format!("{} of 5 mL", spoons(mix.stock)));
    }
    if mix.stock.0 < 10_000 {
        answer =
            answer.line("the stock in drops", span(solution::drops(mix.stock), |drops| drops.to_string(), "drops"));
    }
    if solution::in_two_steps(mix) {
        let ten =
            Mix { stock: Microlitres(mix.stock.0 * 10), water: Microlitres(make.0.saturating_sub(mix.stock.0 * 10)) };
        if ten.stock.0 <= make.0 {
            let (thin, water) = (millilitres(ten.stock), millilitres(ten.water));
            answer = answer
                .line("or in two steps", format!("1 part stock to 9 water; of that {thin} mL and {water} mL water"));
        }
    }
    Ok(bottle.noted(answer))
}

/// Teaspoons, to the quarter below.
fn spoons(volume: Microlitres) -> String {
    figure(volume.0 * 4 / 5_000 * 25, 2)
}

pub fn parts(text: &str) -> Result<u64, TypedError> {
    let parts = typed::count(text)?;
    if parts < 2 { Err(TypedError::new(text, "must be two or more", "40")) } else { Ok(u64::from(parts)) }
}

/// Both readings of "one in so many".
fn one_in(
    values: &Values,
    (bottle, stock): (&Bottle, MilligramsPerLitre),
    parts: u64,
    moment: &Moment,
) -> Result<Answer, ReckonError> {
    let [made_up, added] = solution::one_in(stock, parts);
    let answer = Answer::new("solution", "made up to N parts: stock / N; added to N parts: stock / (N + 1)");
    let mut answer = bottle
        .held(answer, moment.protocol, &[stock], Band { low: added, high: made_up })
        .line(format!("1 part made up to {parts}"), format!("{} %", percent_strength(made_up)))
        .line(format!("1 part added to {parts}"), format!("{} %", percent_strength(added)));
    if let Some(make) = values.may("make", |text| typed::one_volume(text, moment.household))? {
        let stock = Microlitres(make.0 / parts);
        answer = answer
            .line("for that much", format!("{} mL of stock, water to {} mL", millilitres(stock), millilitres(make)));
    }
    Ok(bottle.noted(answer.note("\"1 in N\" is used both ways; the stronger reading is the first.")))
}

/// Salt water by weight.
pub fn saline(values: &Values, moment: &Moment) -> Result<Answer, ReckonError> {
    let make = values.read("make", |text| typed::one_volume(text, moment.household))?;
    let wanted = bottle::salt_water(moment.protocol)?;
    let milligrams = salt_in(make, wanted.make.0);
    // Level teaspoons, in hundredths: the lighter spoon needs more of them.
    let hundredths = Band { low: milligrams / 60, high: milligrams.div_ceil(42) };
    Ok(Answer::new("saline", "salt = water x strength; a percent is ten grams a litre")
        .line("strength", bottle::in_a_litre(wanted.make))
        .line("salt, weighed", format!("{} g", grams(milligrams)))
        .line("boiled, cooled water", format!("to {} mL", millilitres(make)))
        .line("in level teaspoons, about", span(hundredths, |spoons| figure(spoons, 2), "(weigh it)"))
        .note("Weigh the salt: a spoon is off by up to half.")
        .note("For wounds only. Never leave it as her drink: 5 g a litre is unacceptable for poultry (Veterinary Toxicology, Table 80.10)."))
}

/// Milligrams for so much at so many milligrams a litre, to the nearest.
fn salt_in(make: Microlitres, a_litre: u64) -> u64 {
    make.0.saturating_mul(a_litre).saturating_add(500_000) / 1_000_000
}

/// At least a litre: below it the salts are too light for any scale at hand.
pub fn litres(text: &str, household: Household) -> Result<Microlitres, TypedError> {
    let make = typed::one_volume(text, household)?;
    if make.0 < 1_000_000 {
        return Err(TypedError::new(
            text,
            "is too little to weigh salts for; make a litre, or use a bought sachet",
            "1 l",
        ));
    }
    Ok(make)
}

/// Rehydration salts by weight.
pub fn salts(values: &Values, moment: &Moment) -> Result<Answer, ReckonError> {
    let make = values.read("make", |text| litres(text, moment.household))?;
    let answer = Answer::new("salts", "WHO and UNICEF, low osmolarity: 2.6, 13.5, 1.5 and 2.9 g a litre");
    let told = |answer: Answer, (name, a_litre): &(&str, u64)| {
        answer.line(*name, format!("{} g", grams(salt_in(make, *a_litre))))
    };
    Ok(solution::REHYDRATION
        .iter()
        .fold(answer, told)
        .line("boiled, cooled water", format!("to {} mL", millilitres(make)))
        .note("It holds 7 g of salts a litre, unfit as the only water of poultry: measured doses for some hours, plain water beside it.")
        .note("Only for a bird that is awake, upright and swallows. A bought sachet is safer than weighing.")
        .note("No glucose at hand: table sugar will do for hens, quail, ducks and geese; they can split it."))
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

/// Recipes that can be read.
const RECIPES: &str = "'1 tbsp salt in 600 ml', '6 tsp sugar + 1/2 tsp salt in 1 l' or '5 ml of 10 % in 500 ml'";

/// Reads `1 tbsp salt in 600 ml`, `6 tsp sugar + 0.5 tsp salt in 1 quart`, `5 ml of 10 % in 500 ml`.
pub fn printed(text: &str, household: Household) -> Result<(Vec<Part>, Band<Microlitres>), TypedError> {
    let wrong = |what: &str| TypedError::new(text, what, RECIPES);
    let lower = text.trim().to_lowercase();
    let (parts, water) = lower.rsplit_once(" in ").ok_or_else(|| wrong("lacks \"in\" and the water"))?;
    let own = |error: TypedError| error.example_of(RECIPES);
    let poured = |text: &str| typed::volume(text, household);
    let volume = |Band { low, high }: Band<Microlitres>| Band { low: Much::Volume(low), high: Much::Volume(high) };
    let water = poured(water.trim().trim_end_matches("of water").trim_end_matches("water")).map_err(own)?;
    let parts = parts.replace(" and ", "+").replace(" plus ", "+");
    let read = |part: &str| -> Result<Part, TypedError> {
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
            return Err(wrong("names neither salt, sugar nor a stock with its strength"));
        };
        let amount = part.trim_end_matches(name).trim().trim_end_matches(" of").trim();
        let much = match poured(amount) {
            Ok(amount) => volume(amount),
            Err(_) => Band::exactly(Much::Weighed(
                typed::milligrams(amount).map_err(|_| wrong("has an amount that is neither spoons nor grams"))?,
            )),
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
        return Err(values.wrong("recipe", "has more stock than water".to_owned(), RECIPES));
    }
    let all = Band { low: water.low, high: Microlitres(water.high.0.saturating_add(room)) };
    let held = |wanted: fn(&Part) -> bool| -> Option<Band<u64>> {
        let of = parts.iter().filter(|part| wanted(part)).filter_map(Part::micrograms);
        of.reduce(|sum, one| Band { low: sum.low.saturating_add(one.low), high: sum.high.saturating_add(one.high) })
    };
    let mut answer = Answer::new("recipe", "grams / litres of water; a spoon of salt or sugar has no one weight");
    let sugar = held(|part| part.thing == Thing::Sugar);
    if let Some(salt) = held(|part| part.thing == Thing::Salt) {
        let strength = solution::strength_of(salt, all)?;
        // What it means comes before the figure it comes from.
        let (what, means) = if sugar.is_none() {
            (FOR_A_WOUND, bottle::salt_verdict(bottle::salt_water(moment.protocol)?, strength))
        } else {
            ("as a drink", drink_verdict(strength).to_owned())
        };
        answer = answer.line(what, means).line("true strength, salt", span(strength, percent_strength, "%"));
        if sugar.is_none() {
            let wanted = bottle::salt_water(moment.protocol)?.make;
            let times = |strength: MicrogramsPerLitre| figure(strength.0 / 100 / wanted.0.max(1), 1);
            answer =
                answer.line("wanted", bottle::in_a_litre(wanted)).line("against it", span(strength, times, "times"));
        }
    }
    if let Some(sugar) = sugar {
        answer = answer.line("true strength, sugar", span(solution::strength_of(sugar, all)?, percent_strength, "%"));
    }
    if let Some(stock) = held(|part| matches!(part.thing, Thing::Stock(_))) {
        let strength = solution::strength_of(stock, all)?;
        let bottle = Bottle::of_all(moment.protocol, parts.iter().filter_map(Part::bottle))?;
        let stocks: Vec<_> = parts.iter().filter_map(Part::stock).collect();
        answer = bottle
            .held(answer, moment.protocol, &stocks, strength)
            .line("true strength, the stock", span(strength, percent_strength, "%"))
            .note("Made up to that much, or added to it: \"in\" is used both ways, and both are told.");
        answer = bottle.noted(answer);
    }
    if water.low < water.high {
        let litres = |volume: Microlitres| millilitres(volume);
        answer = answer.line("the water, by whose measure it is", span(water, litres, "mL"));
    }
    Ok(answer
        .note("Weigh the salt: printed spoon recipes are off by up to three times.")
        .note("Never leave salt water as her drink: 5 g a litre is unacceptable for poultry."))
}

/// How a drink's salt stands to what poultry bear.
fn drink_verdict(strength: Band<MicrogramsPerLitre>) -> &'static str {
    match strength.high.0 {
        ..3_000_000 => "under 3 g a litre: loosens droppings at most",
        3_000_000..5_000_000 => "may be 3 to 5 g a litre: poor for poultry; doses only, water beside it",
        _ => "5 g a litre or more: UNACCEPTABLE as a drink for poultry",
    }
}
