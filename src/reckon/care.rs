//! Sums about keeping her alive: fluids and warmth.

use super::answer::{Answer, figure, millilitres, span};
use super::{Moment, ReckonError, Values};
use crate::bird::Kind;
use crate::measure::fluid::{self, Unsafe};
use crate::measure::warmth::{self, State};
use crate::typed::{self, TypedError, weight as weighing};
use crate::unit::{Permille, TenthsOfDegree};

/// How she is: safe to drink, or why nothing may go by mouth.
pub fn state(text: &str) -> Result<Option<Unsafe>, TypedError> {
    let known: Vec<(&str, Option<Unsafe>)> =
        std::iter::once(("awake", None)).chain(Unsafe::ALL.map(|(name, why)| (name, Some(why)))).collect();
    typed::word(text, &known)
}

/// What a dry bird lacks, and both published plans; no amount at all while nothing may go by mouth.
pub fn fluids(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let grams = values.read("weight", weighing::parse)?;
    let dry = values.read("dry", typed::dryness)?;
    if let Some(why) = values.read("state", state)? {
        return Ok(Answer::new("fluids", "no sum: nothing may go by mouth")
            .line("by mouth", "NOTHING")
            .line("because", why.words())
            .note("A vet can give fluid under the skin or into a vein. Warm first, then fluid, then food."));
    }
    let trained =
        values.may("hand", |text| typed::word(text, &[("trained", true), ("plain", false)]))?.unwrap_or(false);
    let water_fowl = matches!(super::body::kind(values)?, Some(Kind::Duck | Kind::Goose));
    let home = if dry >= TOO_DRY {
        "nothing: so dry a bird needs a vet at once, who gives it under the skin or into a vein"
    } else {
        "a shallow dish beside her, and she drinks by herself: offer, never pour, no drops into her beak"
    };
    let mut answer =
        Answer::new("fluids", "lacking = weight x share dry; then 50 or 48 mL/kg a day").line("at home", home);
    if trained {
        let days = |plan: fluid::DayPlan| {
            format!("{} mL on day one, {} mL on day two", millilitres(plan.first), millilitres(plan.second))
        };
        let [formulary, lafeber] = fluid::plans(grams, dry);
        answer = answer
            .line("lacking", format!("{} mL", millilitres(fluid::deficit(grams, dry))))
            .line("one plan", days(formulary))
            .line("the other plan", days(lafeber))
            .line("TRAINED HAND, first by tube", span(fluid::first_dose(grams), millilitres, "mL"))
            .line(
                "TRAINED HAND, never above",
                format!("{} mL at one time", millilitres(fluid::ceiling(grams, water_fowl))),
            )
            .note("These amounts are FOR A VET OR A TRAINED HAND, by tube or needle, at 38 to 39 degrees.");
    } else {
        answer = answer.line("amounts", "only for a vet or a trained hand: hand=trained");
    }
    Ok(answer
        .note(
            "Only while she is awake, upright and swallows. Not drunk in an hour: phone a vet. Water stays beside her.",
        )
        .note("The two sources disagree; both are shown."))
}

/// From here on a bird is not given fluid by a lay hand: in cranes, dull, dry mouth, cool limbs.
const TOO_DRY: Permille = Permille(100);

const STATES: &[(&str, State)] = &[
    ("ill", State::Ill),
    ("chilled", State::Chilled),
    ("head", State::HeadHurt),
    ("hot", State::Hot),
    ("chick", State::Chick(None)),
];

/// Whether a text names a state that decides the air.
pub fn is_state(text: &str) -> Result<(), TypedError> {
    typed::word(text, STATES).map(drop)
}

/// How warm the air should be, and how it is stepped down.
pub fn warmth(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let mut state = values.read("state", |text| typed::word(text, STATES))?;
    if let (State::Chick(_), Some(week)) = (state, values.may("week", typed::count)?) {
        let week = u8::try_from(week.clamp(1, 52)).unwrap_or(52);
        state = State::Chick(Some((week, week)));
    }
    let show = |tenths: TenthsOfDegree| figure(u64::try_from(tenths.0).unwrap_or(0), 1);
    let mut answer =
        Answer::new("warmth", "chick: 35 - 2.8 x (week - 1), not below 21; others step down 3 degrees a day");
    answer = match warmth::air(state) {
        Some(band) => answer
            .line("air", span(band, show, "degrees Celsius on the warm side"))
            .line("dampness", span(warmth::DAMP, |damp| damp.to_string(), "% of what air can hold")),
        None => answer.line("air", "no extra heat: room warmth; for a hot bird shade and moving air"),
    };
    answer = answer.line("always", "a cooler side she can go to");
    if let (State::Ill | State::Chilled, Some(band)) = (state, warmth::air(state)) {
        let days = warmth::step_down(band.high);
        let days: Vec<String> = days.into_iter().map(show).collect();
        answer = answer.line("once she stands and eats, day by day", days.join(", "));
    }
    Ok(answer
        .note("Dry her first. A towel between her and any heat. No water bowl in a box that moves.")
        .note("To 32 degrees only while someone stays with her; alone in a box no more than 30.")
        .note("Stop if she pants or holds her wings off."))
}
