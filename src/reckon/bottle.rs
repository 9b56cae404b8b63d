//! What a bottle's name stands for in the table of strengths, and what a mix of it comes to for a wound.

use super::ReckonError;
use super::answer::{Answer, figure, percent_strength, span};
use crate::protocol::Protocol;
use crate::protocol::strength::{Against, Family, Wanted};
use crate::protocol::substance::{Ruling, Substance};
use crate::unit::{Band, MicrogramsPerLitre, MilligramsPerLitre};

/// The line that tells what a mix means.
pub const FOR_A_WOUND: &str = "for a wound";

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
            return Err(ReckonError::Refused(name.trim().to_owned(), lower_first(never.say.trim_end_matches('.'))));
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
                    (Some(why), Some(wanted)) => {
                        answer.line(FOR_A_WOUND, format!("NOT: {why}")).line("its strength", verdict(wanted, made))
                    }
                    (Some(why), None) => answer.line(FOR_A_WOUND, format!("NOT: {why}")),
                    (None, Some(wanted)) => answer.line(FOR_A_WOUND, verdict(wanted, made)),
                    (None, None) => answer.line(FOR_A_WOUND, format!("NOT thinned: {}", use_of(family))),
                }
            }
            Self::NotForAWound(substance, _) => answer.line(FOR_A_WOUND, format!("NOT: {}", substance.say)),
            Self::Unknown => answer.line(FOR_A_WOUND, unchecked(protocol)),
            Self::Several => answer.line(FOR_A_WOUND, "UNCHECKED: two stocks in one. Never mix them for a wound."),
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
                answer.note(family.note.clone())
            }
            Self::Of(_) | Self::NotForAWound(..) | Self::Several => answer,
            Self::Unknown => answer.note("Never a scrub, a tincture or a teat dip."),
        };
        answer.note("Never into a hole, an eye or a wound over an air sac. Ask a vet before any of it.")
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
fn perhaps(protocol: &Protocol, stocks: &[MilligramsPerLitre]) -> impl Iterator<Item = String> {
    let others = protocol.families.iter().flat_map(|family| &family.others);
    let of = |at: &MilligramsPerLitre| stocks.contains(at);
    others.filter(move |(at, _)| of(at)).map(|(_, say)| say.clone()).collect::<Vec<_>>().into_iter()
}

/// On what a family is put that is not thinned.
fn use_of(family: &Family) -> &str {
    family.on.iter().find(|on| on.ruling == Ruling::MayBeUsed).map_or("ask a vet.", |on| &on.say)
}

/// What a strength means for a wound.
fn verdict(wanted: &Wanted, made: Band<MicrogramsPerLitre>) -> String {
    let published = published(wanted);
    match wanted.against(made) {
        Against::Stronger => format!("STRONGER than the {published} that is published for wounds: {}", wanted.strong),
        Against::PerhapsStronger => {
            format!("may be STRONGER than the {published} that is published for wounds: {}", wanted.strong)
        }
        Against::Right => format!("as is published: {published}"),
        Against::PerhapsWeaker => format!("may be {}: published is {published}", wanted.weak),
        Against::Weaker => format!("{}: published is {published}", wanted.weak),
    }
}

/// What sources print, in percent.
fn published(wanted: &Wanted) -> String {
    span(wanted.published, percent_strength, "%").value
}

/// What is said of a stock nobody named.
fn unchecked(protocol: &Protocol) -> String {
    let thinned = protocol.families.iter().filter(|family| family.thinned);
    let of = |family: &Family| Some(format!("{} is {}", family.name, published(family.wanted()?)));
    let told: Vec<String> = thinned.filter_map(of).collect();
    format!("UNCHECKED: for wounds {}. Nothing else is thinned for a wound.", told.join(", "))
}

/// How strong salt water is wanted.
///
/// # Errors
/// Never with a protocol that has been checked: it tells that.
pub fn salt_water(protocol: &Protocol) -> Result<&Wanted, ReckonError> {
    let lacking = || {
        let what = "this protocol tells no strength of salt water";
        ReckonError::DoNotFit(what, "what `coopside check FOLDER` says it lacks".to_owned())
    };
    protocol.families.of(protocol.roles.salt_water).wanted().ok_or_else(lacking)
}

/// A strength of salt, as it is weighed: "0.9 % (9 g in a litre)".
pub fn in_a_litre(strength: MilligramsPerLitre) -> String {
    format!("{} % ({} g in a litre)", percent_strength(strength), figure(strength.0, 3))
}

/// How far a salt water is from what is wanted; salt by the spoon is a wide band.
pub fn salt_verdict(wanted: &Wanted, strength: Band<MicrogramsPerLitre>) -> String {
    match wanted.against(strength) {
        Against::Stronger => format!("TOO STRONG: {}", wanted.strong),
        Against::Weaker => format!("too weak: {}", wanted.weak),
        Against::Right => "right".to_owned(),
        Against::PerhapsStronger => "may be too strong: weigh the salt".to_owned(),
        Against::PerhapsWeaker => "may be right or weak: weigh the salt".to_owned(),
    }
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
