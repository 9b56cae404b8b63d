//! What a bottle's name stands for in the table of strengths, and what a mix of it comes to for a wound.

use super::ReckonError;
use super::answer::Answer;
use crate::phrase::{Decimal, Phrase, Quantity, Text, UnitOf, sum, sum_bottle as says};
use crate::protocol::Protocol;
use crate::protocol::strength::{Against, Family, Wanted};
use crate::protocol::substance::{Ruling, Substance};
use crate::unit::{Band, MicrogramsPerLitre, MilligramsPerLitre};

/// What a bottle is, as far as its name tells.
pub enum Bottle<'p> {
    /// Of a family that is thinned or used.
    Of(&'p Family),
    /// Known, and not for a wound; with its family, where it has one.
    NotForAWound(&'p Substance, Option<&'p Family>),
    /// Not named, or by a name nobody knows.
    Unknown,
    /// Several that are not one.
    Several,
}

impl<'p> Bottle<'p> {
    /// Reads what is printed on it.
    ///
    /// # Errors
    /// Where it holds what is never put on a bird.
    pub fn read(protocol: &'p Protocol, name: &str) -> Result<Self, ReckonError> {
        let known = protocol.known_in(name);
        let worst = known.iter().map(|read| read.substance).max_by_key(|substance| substance.ruling);
        if let Some(never) = worst.filter(|substance| substance.ruling == Ruling::Never) {
            return Err(ReckonError::Refused(
                name.trim().to_owned(),
                Text::going_on(Text::quoted(never.say.trim_end_matches('.'))),
            ));
        }
        let barred = |substance: &&Substance| {
            substance.ruling >= Ruling::AskFirst
                && of(protocol, substance).is_none_or(|family| family.wanted().is_none())
        };
        if let Some(substance) = worst.filter(barred) {
            return Ok(Self::NotForAWound(substance, of(protocol, substance)));
        }
        let family = known.iter().find_map(|read| of(protocol, read.substance));
        Ok(family.or_else(|| begun(protocol, name)).map_or(Self::Unknown, Self::Of))
    }

    /// What several bottles are together: one, where all are the same.
    ///
    /// # Errors
    /// Where one of them is never put on a bird.
    pub fn of_all<'t>(protocol: &'p Protocol, names: impl Iterator<Item = &'t str>) -> Result<Self, ReckonError> {
        let mut all: Option<Self> = None;
        for name in names {
            let one = Self::read(protocol, name)?;
            all = Some(match all {
                None => one,
                Some(before) if before.key() == one.key() => one,
                Some(before @ Self::NotForAWound(..)) => before,
                Some(_) if matches!(one, Self::NotForAWound(..)) => one,
                Some(_) => Self::Several,
            });
        }
        Ok(all.unwrap_or(Self::Unknown))
    }

    fn key(&self) -> Option<&str> {
        match self {
            Self::Of(family) => Some(family.id.as_str()),
            Self::NotForAWound(substance, _) => Some(substance.id.as_str()),
            Self::Unknown => None,
            Self::Several => Some(""),
        }
    }

    /// The answer with what the mix means for a wound, told first; and what the bottle may be besides its name.
    pub fn held(
        &self,
        answer: Answer,
        protocol: &Protocol,
        stocks: &[MilligramsPerLitre],
        made: Band<MicrogramsPerLitre>,
    ) -> Answer {
        let answer = match self {
            Self::Of(family) => {
                let refused = stocks.iter().filter(|_| family.thinned).find_map(|stock| family.refuses(*stock));
                match (refused, family.wanted()) {
                    // However thin it is made, soap and alcohol stay in it.
                    (Some(why), Some(wanted)) => answer
                        .line(says::for_a_wound(), says::not(Text::quoted(why)))
                        .line(says::its_strength(), verdict(wanted, made)),
                    (Some(why), None) => answer.line(says::for_a_wound(), says::not(Text::quoted(why))),
                    (None, Some(wanted)) => answer.line(says::for_a_wound(), verdict(wanted, made)),
                    (None, None) => answer.line(says::for_a_wound(), says::not_thinned(use_of(family))),
                }
            }
            Self::NotForAWound(substance, _) => {
                answer.line(says::for_a_wound(), says::not(Text::quoted(&substance.say)))
            }
            Self::Unknown => answer.line(says::for_a_wound(), unchecked(protocol)),
            Self::Several => answer.line(says::for_a_wound(), says::two_stocks()),
        };
        match self {
            Self::Unknown => perhaps(protocol, stocks).fold(answer, Answer::note),
            Self::Of(_) | Self::NotForAWound(..) | Self::Several => answer,
        }
    }

    /// The answer with what is kept in mind with such a bottle, and with any.
    pub fn noted(&self, answer: Answer) -> Answer {
        let answer = match self {
            Self::Of(family) | Self::NotForAWound(_, Some(family)) if !family.note.is_empty() => {
                answer.note(Text::quoted(&family.note))
            }
            Self::Of(_) | Self::NotForAWound(..) | Self::Several => answer,
            Self::Unknown => answer.note(says::never_scrub()),
        };
        answer.note(says::never_into())
    }
}

fn of<'p>(protocol: &'p Protocol, substance: &Substance) -> Option<&'p Family> {
    protocol.family_of(substance)
}

/// A family that is thinned and whose name was only begun: "povidone". To be warned by it is enough; a label reads whole names.
fn begun<'p>(protocol: &'p Protocol, name: &str) -> Option<&'p Family> {
    let words = crate::protocol::spelling::words(name);
    let begins = |substance: &Substance| {
        substance.names.iter().any(|name| name.first().is_some_and(|first| words.contains(first)))
    };
    let mut families = protocol.families.iter().filter(|family| family.thinned);
    let of = |family: &&Family| protocol.substances.iter().any(|s| family.of.contains(&s.id) && begins(s));
    families.find(of)
}

/// What an unnamed bottle of such a strength may be.
fn perhaps(protocol: &Protocol, stocks: &[MilligramsPerLitre]) -> impl Iterator<Item = Text> {
    let others = protocol.families.iter().flat_map(|family| &family.others);
    let of = |at: &MilligramsPerLitre| stocks.contains(at);
    others.filter(move |(at, _)| of(at)).map(|(_, say)| Text::quoted(say)).collect::<Vec<_>>().into_iter()
}

/// On what a family is put that is not thinned.
fn use_of(family: &Family) -> Text {
    let used = family.on.iter().find(|on| on.ruling == Ruling::MayBeUsed);
    used.map_or_else(|| says::ask_a_vet().into(), |on| Text::quoted(&on.say))
}

/// What a strength means for a wound.
fn verdict(wanted: &Wanted, made: Band<MicrogramsPerLitre>) -> Phrase {
    let published = published(wanted);
    let [strong, weak] = [&wanted.strong, &wanted.weak].map(Text::quoted);
    match wanted.against(made) {
        Against::Stronger => says::stronger(published, strong),
        Against::PerhapsStronger => says::perhaps_stronger(published, strong),
        Against::Right => says::right(published),
        Against::PerhapsWeaker => says::perhaps_weaker(weak, published),
        Against::Weaker => says::weaker(weak, published),
    }
}

/// What sources print, in percent.
fn published(wanted: &Wanted) -> Text {
    Quantity::strength(wanted.published).signed().into()
}

/// What is said of a stock nobody named.
fn unchecked(protocol: &Protocol) -> Phrase {
    let thinned = protocol.families.iter().filter(|family| family.thinned);
    let of = |family: &Family| Some(says::family_is(Text::quoted(&family.name), published(family.wanted()?)));
    says::unchecked(Text::list(thinned.filter_map(of)))
}

/// How strong salt water is wanted.
///
/// # Errors
/// Never with a protocol that has been checked: it tells that.
pub fn salt_water(protocol: &Protocol) -> Result<&Wanted, ReckonError> {
    let lacking = || ReckonError::DoNotFit(sum::no_salt_water(), sum::no_salt_water_check().into());
    protocol.families.of(protocol.roles.salt_water).wanted().ok_or_else(lacking)
}

/// A strength of salt, as it is weighed: "0.9 % (9 g in a litre)".
pub fn in_a_litre(strength: MilligramsPerLitre) -> Phrase {
    says::in_a_litre(
        Quantity::strength(Band::exactly(strength)),
        Quantity::one(Decimal::new(strength.0, 3), UnitOf::Grams),
    )
}

/// How far a salt water is from what is wanted; salt by the spoon is a wide band.
pub fn salt_verdict(wanted: &Wanted, strength: Band<MicrogramsPerLitre>) -> Phrase {
    match wanted.against(strength) {
        Against::Stronger => says::salt_too_strong(Text::quoted(&wanted.strong)),
        Against::Weaker => says::salt_too_weak(Text::quoted(&wanted.weak)),
        Against::Right => says::salt_right(),
        Against::PerhapsStronger => says::salt_perhaps_strong(),
        Against::PerhapsWeaker => says::salt_perhaps_weak(),
    }
}
