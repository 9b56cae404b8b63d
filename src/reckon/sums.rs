//! Each sum: its values read, its measure asked, its answer told.

use super::answer::{Answer, figure, millilitres, percent, percent_strength, span};
use super::{ReckonError, Values, typed};
use crate::bird::Kind;
use crate::measure::blood::{self, Floor, Fullness, Pad, Spilt};
use crate::measure::healing::{self, Size};
use crate::measure::solution::{self, Salt};
use crate::measure::trend::{self, Weighing};
use crate::measure::warmth::{self, State};
use crate::measure::{breath, fluid, skin, weight as weighing};
use crate::protocol::source::Strength::{Memory, Proposal, Read, SecondHand};
use crate::unit::{Band, Grams, Micrometres, Reading};

fn kind(values: &Values) -> Result<Option<Kind>, ReckonError> {
    let known = Kind::ALL.map(|kind| (kind.id(), kind));
    values.get("kind").map(|text| typed::word("kind", text, &known)).transpose()
}

/// A weighing, else what the kind may weigh; a weighing her kind does not reach is refused as a wrong unit would be.
fn body(values: &Values, kind: Option<Kind>) -> Result<Band<Grams>, ReckonError> {
    let Some(text) = values.get("weight") else {
        return kind.map(Kind::weight).ok_or_else(|| ReckonError::Missing("weight".into(), values.example.clone()));
    };
    let grams = weighing::parse(text)?;
    let most = kind.map_or(weighing::MOST, |kind| Grams(kind.weight().high.0 * 2));
    if grams > most {
        return Err(ReckonError::value(
            "weight",
            text,
            format!("is more than twice what her kind weighs, {}", weighing::show(most)),
            "2 kg",
        ));
    }
    Ok(Band::exactly(grams))
}

pub fn weight(values: &Values) -> Result<Answer, ReckonError> {
    let grams = weighing::parse(values.need("weight")?)?;
    Ok(Answer::new("weight", "1 lb = 453.59237 g, 1 oz = 28.349523125 g, exact; rounded to the gram")
        .line("read as", weighing::show(grams))
        .rests("International yard and pound agreement, 1959", Memory, None))
}

const PADS: &[(&str, Pad)] = &[
    ("thin10", Pad::Thin10),
    ("small5", Pad::Small5),
    ("thick10", Pad::Thick10),
    ("any10", Pad::Any10),
    ("cloth30", Pad::Cloth30),
    ("cloth45", Pad::Cloth45),
];
const FULLNESS: &[(&str, Fullness)] = &[
    ("quarter", Fullness::Quarter),
    ("half", Fullness::Half),
    ("full", Fullness::Full),
    ("dripping", Fullness::Dripping),
];
const FLOORS: &[(&str, Floor)] = &[("smooth", Floor::Smooth), ("soil", Floor::Soil)];

/// Everything seen of the blood spilt.
fn seen(values: &Values) -> Result<Vec<Spilt>, ReckonError> {
    let wrong = |name: &str, text: &str, example: &str| ReckonError::value(name, text, "cannot be read", example);
    let mut seen = Vec::new();
    if let Some(text) = values.get("drops") {
        seen.push(Spilt::Drops(u64::from(typed::count("drops", text)?)));
    }
    if let Some(text) = values.get("pads") {
        let words: Vec<&str> = text.split_whitespace().collect();
        let [count, pad, fullness] = words[..] else { return Err(wrong("pads", text, "'2 thin10 full'")) };
        let count = u64::from(typed::count("pads", count)?);
        seen.push(Spilt::Pads(count, typed::word("pads", pad, PADS)?, typed::word("pads", fullness, FULLNESS)?));
    }
    match (values.get("wet"), values.get("dry")) {
        (Some(wet), Some(dry)) => {
            let (wet, dry) = (weighing::parse(wet)?, weighing::parse(dry)?);
            if wet < dry {
                return Err(wrong("wet", &weighing::show(wet), "'25 g' with dry='5 g'"));
            }
            seen.push(Spilt::Weighed { wet, dry });
        }
        (None, None) => {}
        (wet, _) => {
            let missing = if wet.is_none() { "wet" } else { "dry" };
            return Err(ReckonError::Missing(missing.into(), "wet='25 g' dry='5 g'".into()));
        }
    }
    if let Some(text) = values.get("pool") {
        let (width, floor) = text.trim().rsplit_once(' ').ok_or_else(|| wrong("pool", text, "'10 cm smooth'"))?;
        let width = typed::length("pool", width)?;
        seen.push(Spilt::Pool { width, floor: typed::word("pool", floor, FLOORS)? });
    }
    if let Some(text) = values.get("amount") {
        seen.push(Spilt::Amount(typed::volume("amount", text)?));
    }
    Ok(seen)
}

pub fn blood(values: &Values) -> Result<Answer, ReckonError> {
    let kind = kind(values)?;
    let frail =
        values.get("frail").map(|text| typed::word("frail", text, &[("yes", true), ("no", false)])).transpose()?;
    let all = blood::volume(kind, body(values, kind)?, frail.unwrap_or(false));
    let seen = seen(values)?;
    if seen.is_empty() {
        return Err(ReckonError::Missing("drops".into(), values.example.clone()));
    }
    let lost = blood::spilt(&seen);
    let gone = blood::share(lost, all);
    Ok(Answer::new("blood", "lost / (weight x blood a kilogram); the most lost of the least blood decides")
        .line("decides", blood::Line::of(gone.high).words())
        .line("gone", span(gone, percent, "% of her blood"))
        .line("lost", span(lost, millilitres, "mL"))
        .line("all her blood", span(all, millilitres, "mL"))
        .rests("Proc Soc Exp Biol Med 108:242-244, 1961 (66 mL/kg, cocks); Glomski and Pica 2011 (92, chicks)", Read, None)
        .rests("bands for each kind: our proposal from published 4 to 12 mL a 100 g", Proposal, None)
        .rests("Hughes 2007, Bose 2006, Kreutziger 2014, J Vet Med 2015 152730 (pads, pools, weighing)", Read, None)
        .rests("Veterinary Medicine, stabilising companion birds (a fast 20-25 % can kill)", Read, Some("companion birds"))
        .note("Does she still bleed? Press now. No sum says that it may go on.")
        .note("The common rule of a tenth of body weight gives more blood, so it would say less is gone; the lower figure decides."))
}

pub fn breaths(values: &Values) -> Result<Answer, ReckonError> {
    let count = typed::count("count", values.need("count")?)?;
    let seconds = typed::count("seconds", values.need("seconds")?)?;
    if !(5..=300).contains(&seconds) {
        return Err(ReckonError::value("seconds", &seconds.to_string(), "is outside 5 to 300", "30"));
    }
    let rate = breath::rate(count, seconds);
    let show = |rate: crate::unit::TenthsPerMinute| figure(u64::from(rate.0), 1);
    let mut answer = Answer::new("breaths", "count x 60 / seconds, one breath more or less")
        .line("rate", span(rate, show, "a minute"))
        .line("outer bound, decides nothing", span(breath::outer(count, seconds), show, "a minute"));
    if let Some(kind) = kind(values)? {
        let told = breath::at_rest(kind).map_or_else(
            || "nothing published for her kind".to_owned(),
            |range| span(range, show, "a minute at rest, untouched, not hot"),
        );
        answer = answer.line("published", told);
    }
    if rate.low > breath::HEAT {
        answer = answer.note("Above 60 a minute: in a hen that is heat, or worse. Shade first, then count again.");
    }
    Ok(answer
        .rests("clinic and extension pages (chickens 12-37, turkeys 28-49)", SecondHand, None)
        .rests("exact limits of a count (Garwood), the outer bound", Memory, None)
        .rests("waterfowl texts (ducks 30-95, geese 13-40)", Memory, None)
        .note("Held birds breathe faster: parrots twice as fast after 15 minutes. Count before you touch her.")
        .note("No line is drawn from heart rates: the formula by weight is wrong by a factor of two, either way."))
}

/// Weighings as `0=2100g 1=2050g`: days since the first, and weight.
fn weighings(text: &str) -> Result<Vec<Weighing>, ReckonError> {
    let wrong = |part: &str, what: &str| ReckonError::value("weights", part, what, "'0=2100g 1=2050g'");
    let mut weighings: Vec<Weighing> = Vec::new();
    for part in text.split_whitespace() {
        let (day, weight) = part.split_once('=').ok_or_else(|| wrong(part, "is not day=weight"))?;
        let day = typed::count("weights", day)?;
        if day > 3650 || weighings.last().is_some_and(|before| before.hour >= day * 24) {
            return Err(wrong(part, "comes before the one it stands after, or is ten years on"));
        }
        weighings.push(Weighing { hour: day * 24, weight: weighing::parse(weight)? });
    }
    if weighings.len() < 2 { Err(wrong(text, "holds fewer than two weighings")) } else { Ok(weighings) }
}

pub fn trend(values: &Values) -> Result<Answer, ReckonError> {
    let weighings = weighings(values.need("weights")?)?;
    let (Some(first), Some(last)) = (weighings.first(), weighings.last()) else {
        return Err(ReckonError::Missing("weights".into(), values.example.clone()));
    };
    let gone_permille = trend::lost_permille(first.weight, last.weight).unwrap_or(0);
    let slope = trend::slope(&weighings).unwrap_or(0.0);
    let (gone, word) = (figure(gone_permille.unsigned_abs(), 1), if gone_permille < 0 { "gained" } else { "lost" });
    Ok(Answer::new(
        "trend",
        "median of the slopes between every two weighings (Theil and Sen); loss = (first - last) / first",
    )
    .line("means", trend::Step::of(gone_permille).words())
    .line(word, format!("{gone} % since day {}", first.hour / 24))
    .line("a day", format!("{slope:+.0} g"))
    .rests("IVAPM pain scale for birds (5, 10, 15, 20 % in steps)", Read, Some("pigeons"))
    .rests("3 % as noise: our proposal, from egg and growth data sets", Proposal, None)
    .note("Weigh at the same hour with an empty crop. An egg is about 3 % of a hen."))
}

pub fn skin(values: &Values) -> Result<Answer, ReckonError> {
    let grams = weighing::parse(values.need("weight")?)?;
    let size = size(values, "length", "width")?;
    let area = size.square();
    let weight = Reading { band: Band::exactly(grams), settled: true };
    let share = skin::open_share([Some(Band::exactly(area))], true, weight).band;
    Ok(Answer::new("skin", "pi/4 x length x width / (10 x W^(2/3) cm2, W in grams)")
        .line("share of her skin", span(share, percent, "%"))
        .line("area", format!("{} cm2", figure(u64::from(area.0).div_ceil(10), 1)))
        .rests("Walsberg and King 1978, J Exp Biol 76:185-189", Read, None)
        .note("Length times width would say 27 in 100 more.")
        .note("No share is published for birds. Our lines: from 5 % a vet now, from 10 % a serious talk."))
}

pub fn solution(values: &Values) -> Result<Answer, ReckonError> {
    if let Some(name) = values.get("name")
        && let Some(why) = solution::is_refused(name)
    {
        return Err(ReckonError::Refused(name.into(), why));
    }
    let stock = typed::strength("stock", values.need("stock")?)?;
    let target = typed::strength("target", values.need("target")?)?;
    let make = typed::volume("make", values.need("make")?)?;
    let mix = solution::dilute(stock, target, make)?;
    Ok(Answer::new("solution", "stock = amount x target / stock strength; water is the rest")
        .line("stock", format!("{} mL", millilitres(mix.stock)))
        .line("boiled, cooled water", format!("{} mL", millilitres(mix.water)))
        .line("made", format!("{} mL of {} %", millilitres(make), percent_strength(target)))
        .rests("Vet Times 2015 (chlorhexidine 0.05 %)", Read, Some("horses"))
        .rests("small-animal surgery texts (povidone-iodine 0.1 to 1 %)", Memory, Some("dogs and cats"))
        .note("Weak iodine looks like weak tea. Never a scrub, a tincture or a teat dip.")
        .note("Never into a hole, an eye or a wound over an air sac. Ask a vet before any of it."))
}

pub fn recipe(values: &Values) -> Result<Answer, ReckonError> {
    let told = values.need("salt")?;
    let salt = match typed::volume("salt", told) {
        // A teaspoon is 5 mL here; quarters of it are counted.
        Ok(spoons) if !told.to_lowercase().contains("ml") => Salt::QuarterTeaspoons(spoons.0 * 4 / 5_000),
        _ => Salt::Weighed(u64::from(weighing_of_salt(told)?)),
    };
    let water = typed::volume("water", values.need("water")?)?;
    let strength = solution::salt_strength(salt, water)?;
    Ok(Answer::new("recipe", "grams of salt / litres of water")
        .line("true strength", span(strength, percent_strength, "%"))
        .line("wanted for a wound", "0.9 % (9 g in a litre)")
        .rests("a level teaspoon holds 4.2 g (a public recipe) to 6 g (food tables, from memory)", Read, None)
        .note("Weigh the salt: printed spoon recipes are off by up to three times.")
        .note("Never leave salt water as her drink: 5 g a litre is unacceptable for poultry (Veterinary Toxicology, Table 80.10)."))
}

/// Salt in milligrams, as `9 g` or `2.25 g`.
fn weighing_of_salt(text: &str) -> Result<u32, ReckonError> {
    let strength = typed::strength("salt", &format!("{}/l", text.trim().to_lowercase().replace(' ', "")));
    strength
        .map(|per_litre| u32::try_from(per_litre.0).unwrap_or(u32::MAX))
        .map_err(|_| ReckonError::value("salt", text, "is neither spoons nor grams", "'1 tsp' or salt='9 g'"))
}

pub fn fluids(values: &Values) -> Result<Answer, ReckonError> {
    let grams = weighing::parse(values.need("weight")?)?;
    let dry = typed::share("dry", values.need("dry")?)?;
    let [formulary, lafeber] = fluid::plans(grams, dry);
    let days = |plan: fluid::DayPlan| {
        format!("{} mL on day one, {} mL on day two", millilitres(plan.first), millilitres(plan.second))
    };
    Ok(Answer::new("fluids", "lacking = weight x share dry; then 50 or 48 mL/kg a day")
        .line("lacking", format!("{} mL", millilitres(fluid::deficit(grams, dry))))
        .line("one plan", days(formulary))
        .line("the other plan", days(lafeber))
        .rests("Exotic Animal Formulary, 5th edition, Table 5-36 (half the lack on each of two days)", Read, Some("birds at large"))
        .rests("LafeberVet, fluids (all of the lack on day one)", Read, Some("birds at large"))
        .note("FOR A VET OR A TRAINED HAND ONLY. At home: drops at the side of the beak of a bird that is awake, upright and swallows.")
        .note("Nothing by mouth while she is cold, limp, fitting, short of breath, cannot hold her head, or has a full crop.")
        .note("The two sources disagree; both are shown."))
}

const STATES: &[(&str, State)] = &[
    ("ill", State::Ill),
    ("chilled", State::Chilled),
    ("head", State::HeadHurt),
    ("hot", State::Hot),
    ("chick", State::Chick(1)),
];

pub fn warmth(values: &Values) -> Result<Answer, ReckonError> {
    let mut state = typed::word("state", values.need("state")?, STATES)?;
    if let (State::Chick(_), Some(week)) = (state, values.get("week")) {
        state = State::Chick(u8::try_from(typed::count("week", week)?.clamp(1, 52)).unwrap_or(52));
    }
    let show = |tenths: crate::unit::TenthsOfDegree| figure(u64::try_from(tenths.0).unwrap_or(0), 1);
    let told = warmth::air(state).map_or_else(
        || "no extra heat: room warmth; for a hot bird shade and moving air".to_owned(),
        |band| span(band, show, "degrees Celsius on the warm side"),
    );
    Ok(Answer::new("warmth", "chick: 35 - 2.8 x (week - 1), not below 21")
        .line("air", told)
        .line("always", "a cooler side she can go to")
        .rests("LafeberVet, supplemental heat (26 to 32 for sick birds)", Read, Some("companion birds"))
        .rests("rearing texts (35 in week one, 2.8 less each week)", SecondHand, None)
        .rests("27 to 30 with a cool side: our proposal where sources give 26 to 38", Proposal, None)
        .note("Stop if she pants or holds her wings off. Step down by no more than 3 degrees a day."))
}

/// Two lines of a wound.
fn size(values: &Values, length: &str, width: &str) -> Result<Size, ReckonError> {
    Ok(Size { length: typed::length(length, values.need(length)?)?, width: typed::length(width, values.need(width)?)? })
}

/// A ruler is read to within this.
const RULER: Micrometres = Micrometres(2_000);

pub fn healing(values: &Values) -> Result<Answer, ReckonError> {
    let before = size(values, "length", "width")?;
    let after = size(values, "later_length", "later_width")?;
    let closed = healing::closed(before, after).unwrap_or(0.0);
    let come = healing::advance(before, after).unwrap_or(0.0);
    let doubt = before.doubt(RULER).max(after.doubt(RULER));
    let mut answer = Answer::new("healing", "area = pi/4 x length x width; edge in = area closed / mean edge")
        .line("area closed", format!("{:.0} %, give or take {:.0}", closed * 100.0, doubt * 100.0))
        .line("edge came in", format!("{come:.1} mm"));
    if let Some(days) = values.get("days") {
        let days = typed::count("days", days)?.max(1);
        answer = answer.line("a day", format!("{:.2} mm", come / f64::from(days)));
        if closed <= 0.0 && days >= 3 {
            answer = answer
                .note("It has not got smaller. A vet, within a day (our inference; no bird figure is published).");
        }
    }
    if closed.abs() < doubt {
        answer = answer.note("The change is smaller than the ruler can tell. Measure again in some days.");
    }
    Ok(answer
        .rests("geometry; Gilman 1990, Wounds 2:95-101 (advance of the edge)", Memory, Some("people"))
        .note("No rate of healing is published for birds."))
}
