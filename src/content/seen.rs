//! A figure as it was seen, in everyday words: drops, pads, pools, breaths, lines.

use crate::finding::figure::{Count, Figure, Floor, Fullness, Pad, Spilt};
use crate::phrase::{Phrase, Text, seen as says};
use crate::typed;

/// A figure: blood as each thing that was seen of it, breaths as each count, any other as it is typed.
pub fn figure(figure: &Figure) -> Text {
    match figure {
        Figure::Spilt(seen) => Text::clauses(seen.iter().map(|one| spilt(*one))),
        Figure::Breaths(counts) => Text::clauses(counts.iter().map(|one| count(*one))),
        Figure::Lines(_) | Figure::Refill(_) => Text::typed(figure.write()),
    }
}

/// Breaths counted once.
fn count(Count { breaths, seconds, held }: Count) -> Phrase {
    let [breaths, seconds] = [breaths, seconds].map(|number| Text::typed(number.to_string()));
    if held { says::count_held(breaths, seconds) } else { says::count(breaths, seconds) }
}

/// What was seen of spilt blood.
pub fn spilt(seen: Spilt) -> Text {
    let number = |number: &dyn ToString| Text::typed(number.to_string());
    let phrase = match seen {
        Spilt::Drops(count) => says::drops(count),
        Spilt::Pads(count, of, how) => says::pads(number(&count), pad(of), full(how)),
        Spilt::Weighed { wet, dry } => says::weighed(number(&wet.0), number(&dry.0)),
        Spilt::Pool { width, floor: on } => says::pool(Text::typed(typed::write_length(width)), floor(on)),
        Spilt::Amount(volume) => return Text::typed(typed::write_volume(volume)),
        Spilt::Between(low, high) => says::between(number(&(low.0 / 1_000)), number(&high.0.div_ceil(1_000))),
        Spilt::Dripping { drops, seconds, minutes } => {
            says::dripping(number(&drops), number(&seconds), number(&minutes))
        }
    };
    phrase.into()
}

/// A pad.
pub const fn pad(pad: Pad) -> Phrase {
    match pad {
        Pad::Thin10 => says::thin_pad(),
        Pad::Small5 => says::small_swab(),
        Pad::Thick10 => says::thick_pad(),
        Pad::Any10 => says::any_pad(),
        Pad::Cloth30 => says::cloth(),
        Pad::Cloth45 => says::towel(),
    }
}

/// How full a pad is.
pub const fn full(full: Fullness) -> Phrase {
    match full {
        Fullness::Spotted => says::spotted(),
        Fullness::Half => says::half_red(),
        Fullness::Full => says::red_all_over(),
        Fullness::Dripping => says::full_dripping(),
    }
}

/// What a pool lies on.
pub const fn floor(floor: Floor) -> Phrase {
    match floor {
        Floor::Smooth => says::smooth(),
        Floor::Soil => says::soil(),
    }
}
