//! Sums about the whole bird: her weight, her blood, her breath, her weight over days.

use super::answer::{Answer, figure as tenths, millilitres, percent, span};
use super::{Moment, ReckonError, Values};
use crate::bird::{BUILDS, Build, Kind};
use crate::finding::figure::{self, Count, Figure, FigureOf};
use crate::measure::trend::{self, Weighing};
use crate::measure::{blood, breath};
use crate::typed::{self, TypedError, weight as weighing};
use crate::unit::{Band, Grams, Microlitres, TenthsPerMinute};

/// The kind of bird.
pub fn kind(values: &Values) -> Result<Option<Kind>, ReckonError> {
    values.may("kind", read_kind)
}

fn read_kind(text: &str) -> Result<Kind, TypedError> {
    typed::word(text, &Kind::ALL.map(|kind| (kind.id(), kind)))
}

/// Whether a text names a kind.
pub fn is_kind(text: &str) -> Result<(), TypedError> {
    read_kind(text).map(drop)
}

/// Whether a text names a build of any kind.
pub fn is_build(text: &str) -> Result<(), TypedError> {
    let known: Vec<(&str, ())> = BUILDS.iter().map(|build| (build.id, ())).collect();
    typed::word(text, &known)
}

/// Breaths counted once or several times.
pub fn counts(text: &str) -> Result<Vec<u32>, TypedError> {
    let counts: Vec<u32> =
        text.split([';', ' ']).filter(|one| !one.is_empty()).map(figure::breaths).collect::<Result<_, _>>()?;
    if counts.is_empty() { Err(TypedError::new(text, "says nothing", "15")) } else { Ok(counts) }
}

fn build(values: &Values, kind: Option<Kind>) -> Result<Option<Build>, ReckonError> {
    let of_kind = BUILDS.iter().filter(|build| kind.is_none_or(|kind| build.kinds.contains(&kind)));
    let known: Vec<(&str, Build)> = of_kind.map(|build| (build.id, *build)).collect();
    values.may("build", |text| typed::word(text, &known))
}

/// A weighing, else what her build or her kind may weigh. A weight far above her kind is refused as a wrong unit would be.
pub fn body(values: &Values, kind: Option<Kind>) -> Result<Band<Grams>, ReckonError> {
    let Some(grams) = values.may("weight", weighing::parse)? else {
        let build = build(values, kind)?.map(|build| build.weight);
        return build.or(kind.map(Kind::weight)).ok_or_else(|| values.missing("kind"));
    };
    if let Some(Err(what)) = kind.map(|kind| kind.could_weigh(grams)) {
        return Err(values.wrong("weight", what, "'2 kg'"));
    }
    Ok(Band::exactly(grams))
}

/// A weight in both systems, or the range of a kind or build.
pub fn weight(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let kind = kind(values)?;
    let band = body(values, kind)?;
    let told = if band.low == band.high {
        weighing::show(band.low)
    } else {
        format!("{} to {}", weighing::show(band.low), weighing::show(band.high))
    };
    let answer = Answer::new("weight", "1 lb = 453.59237 g, 1 oz = 28.349523125 g, exact; rounded to the gram")
        .line("weight", told)
        .line("in grams", span(band, |grams| grams.0.to_string(), "g"));
    let by_eye = values.get("weight").is_none();
    let of_kind = BUILDS.iter().filter(|build| by_eye && kind.is_some_and(|kind| build.kinds.contains(&kind)));
    let told = |answer: Answer, build: &Build| {
        let span = span(build.weight, |grams| grams.0.to_string(), "g");
        answer.line(format!("{} (build={})", build.say, build.id), span)
    };
    let answer = of_kind.fold(answer, told);
    Ok(if by_eye {
        answer
            .note("By eye the weight is off by nearly half. A kitchen scale, or a luggage scale with a bag, is better.")
    } else {
        answer
    })
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
    let mut answer =
        Answer::new("blood", "lost / (weight x blood a kilogram); the most lost of the least blood decides")
            .line("decides", blood::Line::of(gone.high, of_weight.high).words())
            .line("gone", span(gone, percent, "% of her blood"))
            .line("of her weight", span(of_weight, percent, "%"))
            .line("lost", span(lost, millilitres, "mL"))
            .line("all her blood", span(all, millilitres, "mL"));
    if frail {
        answer = answer
            .note("Counted as 15 % less at the low end, as she may be ill, old or fat; frail=no takes that back.");
    }
    if let Some(minutes) = values.may("since", typed::minutes)? {
        let an_hour = |share: crate::unit::Permille| tenths(u64::from(share.0) * 60 / u64::from(minutes.max(1)), 1);
        answer = answer.line("how fast", span(gone, an_hour, "% of her blood an hour"));
    }
    let middle = Band {
        low: Microlitres(u64::from(weight.low.0) * blood::middle(kind)),
        high: Microlitres(u64::from(weight.high.0) * blood::middle(kind)),
    };
    answer = answer.line("by the middle volume", span(blood::share(lost, middle), percent, "% (decides nothing)"));
    if let Some(cells) = values.may("cells", typed::count)? {
        if !(5..=70).contains(&cells) {
            return Err(values.wrong("cells", "is no share of packed cells, 5 to 70 in 100".into(), "30"));
        }
        let after = blood::cells_after(cells * 10, gone);
        answer =
            answer.line("packed cells once refilled, for a vet", span(after, |cells| tenths(u64::from(cells), 1), "%"));
    }
    Ok(answer
        .note("Does she still bleed? Press now. No sum says that it may go on.")
        .note("Eyes miss much: people under-read large pools. Weigh cloths wet and dry where you can.")
        .note("The common rule of a tenth of body weight gives more blood, so it would say less is gone; the lower figure decides."))
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
    let show = |rate: TenthsPerMinute| tenths(u64::from(rate.0), 1);
    let mut answer =
        Answer::new("breaths", "count x 60 / seconds, one breath more or less; several counts: all of them")
            .line("rate", span(rate, show, "a minute"))
            .line("outer bound, decides nothing", span(outer, show, "a minute"));
    let kind = kind(values)?;
    if let Some(kind) = kind {
        answer = answer.line(
            "her kind at rest",
            breath::at_rest(kind).map_or_else(
                || "no range is published that we know of".into(),
                |band| span(band, show, "a minute, untouched and not hot"),
            ),
        );
        if let Some(band) = breath::at_rest(kind) {
            answer = answer.line("against it", breath::against(rate, band).words());
        }
    }
    if let Some(grams) = values.may("weight", weighing::parse)? {
        let by_weight = format!("{} a minute (decides nothing)", show(breath::by_weight(grams)));
        answer = answer.line("a resting bird of her weight, about", by_weight);
    }
    if rate.high >= breath::HEAT {
        answer = answer
            .note("Sixty a minute or more: a hen is past her comfort, by heat or by illness. Shade, and count again.");
    }
    if held {
        answer = answer.note("Counted in the hand: it says little. Set her down, wait five minutes, count again.");
    }
    if let Some(air) = values.may("air", air)?
        && air >= 24
    {
        answer = answer.note(format!("At {air} degrees the air alone quickens a hen: her comfort ends at about 24."));
    }
    Ok(answer
        .note("Held birds breathe faster: parrots twice as fast after 15 minutes. Count before you touch her.")
        .note("No line is drawn from heart rates: the formula by weight is wrong by a factor of two, either way."))
}

/// The air about her in whole degrees Celsius.
pub fn air(text: &str) -> Result<i32, TypedError> {
    let wrong = || TypedError::new(text, "is no air temperature from -40 to 60 degrees Celsius", "22");
    let plain = text.trim().trim_end_matches(['c', 'C']).trim_end_matches('°').trim();
    plain.parse().ok().filter(|air| (-40..=60).contains(air)).ok_or_else(wrong)
}

/// Weighings as `0=2100g 1=2050g`: days since the first, and weight.
pub fn weighings(text: &str) -> Result<Vec<Weighing>, TypedError> {
    let wrong = |part: &str, what: &str| TypedError::new(part, what, "'0=2100g 1=2050g'");
    let mut weighings: Vec<Weighing> = Vec::new();
    for part in text.split_whitespace() {
        let (day, weight) = part.split_once('=').ok_or_else(|| wrong(part, "is not day=weight"))?;
        let day = typed::count(day)?;
        if day > 3650 || weighings.last().is_some_and(|before| before.hour >= day * 24) {
            return Err(wrong(part, "comes before the one it stands after, or is ten years on"));
        }
        weighings.push(Weighing { hour: day * 24, weight: weighing::parse(weight)? });
    }
    if weighings.len() < 2 { Err(wrong(text, "holds fewer than two weighings")) } else { Ok(weighings) }
}

/// What she has lost over some days.
pub fn trend(values: &Values, _: &Moment) -> Result<Answer, ReckonError> {
    let weighings = values.read("weights", weighings)?;
    let (Some(best), Some(last)) = (trend::best_before_last(&weighings), weighings.last()) else {
        return Err(values.missing("weights"));
    };
    let gone_permille = trend::lost_permille(best.weight, last.weight).unwrap_or(0);
    let slope = trend::slope(&weighings).unwrap_or(0.0);
    let (gone, word) = (tenths(gone_permille.unsigned_abs(), 1), if gone_permille < 0 { "gained" } else { "lost" });
    let answer = Answer::new(
        "trend",
        "median of the slopes between every two weighings (Theil and Sen); loss = (heaviest before - last) / heaviest",
    )
    .line("means", trend::Step::of(gone_permille).words())
    .line(word, format!("{gone} % since day {}, her heaviest", best.hour / 24))
    .line("a day", format!("{slope:+.0} g"))
    .note("Weigh at the same hour with an empty crop.");
    let grown = best.weight.0 >= 1_000;
    Ok(if grown { answer.note("An egg of 60 g is about 3 % of a hen.") } else { answer })
}
