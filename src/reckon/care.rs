//! Sums about keeping her alive: fluids and warmth.

use super::answer::{Answer, volume};
use super::{Moment, ReckonError, Values, Wrong, checked, means};
use crate::bird::Kind;
use crate::measure::fluid::{self, Unsafe};
use crate::measure::warmth::{self, State};
use crate::phrase::{Decimal, Quantity, Text, UnitOf, sum as units, sum_care as says};
use crate::typed::{self, TypedError, weight as weighing};
use crate::unit::{Band, Permille};

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
        return Ok(Answer::new(says::fluids(), says::by_mouth_formula())
            .line(says::by_mouth(), says::nothing())
            .line(says::because(), means::mouth(why))
            .note(says::a_vet_can()));
    }
    let trained =
        values.may("hand", |text| typed::word(text, &[("trained", true), ("plain", false)]))?.unwrap_or(false);
    let water_fowl = matches!(super::body::kind(values)?, Some(Kind::Duck | Kind::Goose));
    let home = if dry >= TOO_DRY { says::too_dry() } else { says::dish() };
    let mut answer = Answer::new(says::fluids(), says::fluids_formula()).line(says::at_home(), home);
    if trained {
        let days = |plan: fluid::DayPlan| says::days(volume(plan.first), volume(plan.second));
        let [formulary, lafeber] = fluid::plans(grams, dry);
        answer = answer
            .line(says::lacking(), volume(fluid::deficit(grams, dry)).signed())
            .line(says::one_plan(), days(formulary))
            .line(says::other_plan(), days(lafeber))
            .line(says::first_by_tube(), Quantity::volume(fluid::first_dose(grams)).signed())
            .line(says::never_above(), says::at_one_time(volume(fluid::ceiling(grams, water_fowl))))
            .note(says::for_a_vet());
    } else {
        answer = answer.line(says::amounts(), says::only_trained());
    }
    Ok(answer.note(says::only_while()).note(says::sources_disagree()))
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
pub fn is_state(text: &str) -> Result<(), Wrong> {
    checked(typed::word(text, STATES))
}

/// How warm the air should be, and how it is stepped down.
pub fn warmth(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let mut state = values.read("state", |text| typed::word(text, STATES))?;
    if let (State::Chick(_), Some(week)) = (state, values.may("week", typed::count)?) {
        let week = u8::try_from(week.clamp(1, 52)).unwrap_or(52);
        state = State::Chick(Some((week, week)));
    }
    let mut answer = Answer::new(says::warmth(), says::warmth_formula());
    answer = match warmth::air(state) {
        Some(band) => answer.line(says::air(), Quantity::degrees(band).in_words(units::degrees_warm())).line(
            says::dampness(),
            Quantity::of(warmth::DAMP, Decimal::whole, UnitOf::Percent).in_words(units::of_what_air_holds()),
        ),
        None => answer.line(says::air(), says::no_heat()),
    };
    answer = answer.line(says::always(), says::cooler_side());
    if let (State::Ill | State::Chilled, Some(band)) = (state, warmth::air(state)) {
        let days = warmth::step_down(band.high);
        answer = answer
            .line(says::day_by_day(), Text::list(days.into_iter().map(|warm| Quantity::degrees(Band::exactly(warm)))));
    }
    Ok(answer.note(says::dry_her()).note(says::to_32()).note(says::stop()))
}
