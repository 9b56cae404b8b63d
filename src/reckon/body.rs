//! Sums about the whole bird: her weight, her blood, her breath, her weight over days.

use super::answer::Answer;
use super::{Moment, ReckonError, Values, Wrong, checked, kinds, means, mistyped};
use crate::bird::{BUILDS, Build, Kind};
use crate::finding::figure::{self, Count, Figure, FigureOf};
use crate::measure::trend::{self, Weighing};
use crate::measure::{blood, breath};
use crate::phrase::{
    Decimal, Phrase, Quantity, Text, UnitOf, mistyped as mistyped_says, sum as units, sum_body as says,
};
use crate::typed::{self, TypedError, weight as weighing};
use crate::unit::{Band, Grams, Microlitres, Permille};

/// The kind of bird.
pub fn kind(values: &Values) -> Result<Option<Kind>, ReckonError> {
    values.may("kind", read_kind)
}

fn read_kind(text: &str) -> Result<Kind, TypedError> {
    typed::word(text, &Kind::ALL.map(|kind| (kind.id(), kind)))
}

/// Whether a text names a kind.
pub fn is_kind(text: &str) -> Result<(), Wrong> {
    checked(read_kind(text))
}

/// Whether a text names a build of any kind.
pub fn is_build(text: &str) -> Result<(), Wrong> {
    let known: Vec<(&str, ())> = BUILDS.iter().map(|build| (build.id(), ())).collect();
    checked(typed::word(text, &known))
}

/// Breaths counted once or several times.
pub fn counts(text: &str) -> Result<Vec<u32>, Wrong> {
    let counts: Vec<u32> =
        text.split([';', ' ']).filter(|one| !one.is_empty()).map(figure::breaths).collect::<Result<_, _>>()?;
    if counts.is_empty() { Err(Wrong::new(text, mistyped_says::says_nothing(), Text::typed("15"))) } else { Ok(counts) }
}

fn build(values: &Values, kind: Option<Kind>) -> Result<Option<Build>, ReckonError> {
    let of_kind = BUILDS.iter().filter(|build| kind.is_none_or(|kind| build.kinds.contains(&kind)));
    let known: Vec<(&str, Build)> = of_kind.map(|build| (build.id(), *build)).collect();
    values.may("build", |text| typed::word(text, &known))
}

/// A weighing, else what her build or her kind may weigh. A weight far above her kind is refused as a wrong unit would be.
pub fn body(values: &Values, kind: Option<Kind>) -> Result<Band<Grams>, ReckonError> {
    let Some(grams) = values.may("weight", weighing::parse)? else {
        let build = build(values, kind)?.map(|build| build.weight);
        return build.or(kind.map(Kind::weight)).ok_or_else(|| values.missing("kind"));
    };
    if let Some(Err(what)) = kind.map(|kind| kind.could_weigh(grams)) {
        return Err(values.wrong("weight", mistyped::unlikely(what), Text::typed("'2 kg'")));
    }
    Ok(Band::exactly(grams))
}

/// So many grams.
fn in_grams(band: Band<Grams>) -> Quantity {
    Quantity::of(band, |grams| Decimal::whole(grams.0), UnitOf::Grams).signed()
}

/// A weight in both systems, or the range of a kind or build.
pub fn weight(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let kind = kind(values)?;
    let band = body(values, kind)?;
    let answer = Answer::new(says::weight(), says::weight_formula())
        .line(says::weight(), Quantity::weight(band))
        .line(says::in_grams(), in_grams(band));
    let by_eye = values.get("weight").is_none();
    let of_kind = BUILDS.iter().filter(|build| by_eye && kind.is_some_and(|kind| build.kinds.contains(&kind)));
    let told = |answer: Answer, build: &Build| {
        let span = in_grams(build.weight);
        answer.line(says::of_build(kinds::build(build.of), Text::typed(build.id())), span)
    };
    let answer = of_kind.fold(answer, told);
    Ok(if by_eye { answer.note(says::by_eye()) } else { answer })
}

/// What was spilt against what she had.
pub fn blood(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let kind = kind(values)?;
    let frail = values.may("frail", |text| typed::word(text, &[("yes", true), ("no", false)]))?.unwrap_or(true);
    // Neither weighed nor told by build: as a verdict counts her, whatever a bird of her kind may weigh.
    let by_kind = kind.filter(|_| values.get("weight").is_none() && values.get("build").is_none());
    let weight = by_kind.map_or_else(|| body(values, kind), |kind| Ok(kind.taken()))?;
    let all = blood::volume(kind, weight, frail);
    let Figure::Spilt(seen) = values.read("seen", |text| Figure::read(FigureOf::Blood, text))? else {
        return Err(values.missing("seen"));
    };
    let lost = blood::spilt(&seen);
    let gone = blood::share(lost, all);
    let of_weight = blood::share_of_weight(lost, weight);
    let mut answer = Answer::new(says::blood(), says::blood_formula())
        .line(says::decides(), means::blood(blood::Line::of(gone.high, of_weight.high), false))
        .line(says::gone(), Quantity::share(gone).in_words(units::of_her_blood()))
        .line(says::of_her_weight(), Quantity::share(of_weight).signed())
        .line(says::spilt(), Quantity::volume(lost).signed())
        .line(says::all_her_blood(), Quantity::volume(all).signed());
    if frail {
        answer = answer.note(says::frail());
    }
    if let Some(minutes) = values.may("since", typed::minutes)? {
        let an_hour = |share: Permille| Decimal::new(u64::from(share.0) * 60 / u64::from(minutes.max(1)), 1);
        answer = answer.line(
            says::how_fast(),
            Quantity::of(gone, an_hour, UnitOf::PercentAnHour).in_words(units::of_her_blood_an_hour()),
        );
    }
    let middle = Band {
        low: Microlitres(u64::from(weight.low.0) * blood::middle(kind)),
        high: Microlitres(u64::from(weight.high.0) * blood::middle(kind)),
    };
    answer =
        answer.line(says::by_middle(), Quantity::share(blood::share(lost, middle)).in_words(units::percent_idle()));
    if let Some(cells) = values.may("cells", typed::count)? {
        if !(5..=70).contains(&cells) {
            return Err(values.wrong("cells", says::no_cells(), Text::typed("30")));
        }
        let after = blood::cells_after(cells * 10, gone);
        answer = answer.line(
            says::cells(),
            Quantity::of(after, |cells| Decimal::new(u64::from(cells), 1), UnitOf::Percent).signed(),
        );
    }
    Ok(answer.note(says::still_bleeds()).note(says::eyes_miss()).note(says::common_rule()))
}

/// Breaths a minute.
pub fn breaths(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let seconds = values.read("seconds", |text| figure::seconds(text.trim()))?;
    let counts = values.read("count", counts)?;
    let held = values.may("held", |text| typed::word(text, &[("yes", true), ("no", false)]))?.unwrap_or(false);
    let counted: Vec<Count> = counts.iter().map(|breaths| Count { breaths: *breaths, seconds, held }).collect();
    let outer = counts.iter().map(|breaths| breath::outer(*breaths, seconds)).reduce(Band::hull);
    let (Some(rate), Some(outer)) = (breath::repeated(&counted), outer) else {
        return Err(values.missing("count"));
    };
    let mut answer = Answer::new(says::breaths(), says::breaths_formula())
        .line(says::rate(), Quantity::rate(rate).in_words(units::a_minute()))
        .line(says::outer(), Quantity::rate(outer).in_words(units::a_minute()));
    let kind = kind(values)?;
    if let Some(kind) = kind {
        answer = answer.line(
            says::at_rest(),
            breath::at_rest(kind).map_or_else(
                || Text::from(says::no_range()),
                |band| Quantity::rate(band).in_words(units::a_minute_at_rest()).into(),
            ),
        );
        if let Some(band) = breath::at_rest(kind) {
            answer = answer.line(says::against(), means::breaths(breath::against(rate, band)));
        }
    }
    if let Some(grams) = values.may("weight", weighing::parse)? {
        let by_weight = says::by_weight_rate(Quantity::rate(Band::exactly(breath::by_weight(grams))));
        answer = answer.line(says::by_weight(), by_weight);
    }
    if rate.high >= breath::HEAT {
        answer = answer.note(says::heat());
    }
    if held {
        answer = answer.note(says::in_hand());
    }
    if let Some(air) = values.may("air", air)?
        && air >= 24
    {
        answer = answer.note(says::warm_air(Quantity::one(Decimal::whole(air), UnitOf::Degrees)));
    }
    Ok(answer.note(says::held_faster()).note(says::no_heart()))
}

/// The air about her in whole degrees Celsius.
pub fn air(text: &str) -> Result<i32, Wrong> {
    let wrong = || Wrong::new(text, says::no_air(), Text::typed("22"));
    let plain = text.trim().trim_end_matches(['c', 'C']).trim_end_matches('°').trim();
    plain.parse().ok().filter(|air| (-40..=60).contains(air)).ok_or_else(wrong)
}

/// Weighings as `0=2100g 1=2050g`: days since the first, and weight.
pub fn weighings(text: &str) -> Result<Vec<Weighing>, Wrong> {
    let wrong = |part: &str, what: Phrase| Wrong::new(part, what, Text::typed("'0=2100g 1=2050g'"));
    let mut weighings: Vec<Weighing> = Vec::new();
    for part in text.split_whitespace() {
        let (day, weight) = part.split_once('=').ok_or_else(|| wrong(part, says::no_day()))?;
        let day = typed::count(day)?;
        if day > 3650 || weighings.last().is_some_and(|before| before.hour >= day * 24) {
            return Err(wrong(part, says::out_of_order()));
        }
        weighings.push(Weighing { hour: day * 24, weight: weighing::parse(weight)? });
    }
    if weighings.len() < 2 { Err(wrong(text, says::too_few())) } else { Ok(weighings) }
}

/// What she has lost over some days.
pub fn trend(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let weighings = values.read("weights", weighings)?;
    let (Some(best), Some(last)) = (trend::best_before_last(&weighings), weighings.last()) else {
        return Err(values.missing("weights"));
    };
    let gone_permille = trend::lost_permille(best.weight, last.weight).unwrap_or(0);
    let slope = trend::slope(&weighings).unwrap_or(0.0);
    let gone = Quantity::one(Decimal::new(gone_permille.unsigned_abs(), 1), UnitOf::Percent);
    let word = if gone_permille < 0 { says::gained() } else { says::spilt() };
    let answer = Answer::new(says::trend(), says::trend_formula())
        .line(says::means(), means::weight(trend::Step::of(gone_permille), false))
        .line(word, says::since(gone, best.hour / 24))
        .line(says::a_day(), Quantity::one(Decimal::change(slope, 0), UnitOf::Grams).signed())
        .note(says::same_hour());
    let grown = best.weight.0 >= 1_000;
    Ok(if grown { answer.note(says::an_egg()) } else { answer })
}
