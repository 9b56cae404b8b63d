//! A product's ingredients as printed: what may be used here, what not on this bird or place, what never, what nobody knows.

mod given;
mod printed;
pub mod strength;
mod uses;

pub use crate::protocol::known::{By, ReadAs};

pub use given::{EXAMPLE, Given, Missing, day};
pub use printed::LINE_END;
pub use uses::{OnUse, behind as on_behind};

use super::{Plan, PlanStep};
use crate::finding::Findings;
use crate::judge::Target;
use crate::protocol::Protocol;
use crate::protocol::rule::ActionAt;
use crate::protocol::spelling::words;
use crate::protocol::strength::{Family, UseAt};
use crate::protocol::substance::{Ruling, Substance};
use crate::protocol::texts::Country;
use crate::prove::Exact;
use crate::unit::MilligramsPerLitre;
use strength::Standing;

/// For whom a label is ruled on.
#[derive(Clone, Copy, Debug)]
pub struct Held<'a> {
    /// Whose law holds.
    pub country: &'a Country,
    /// What is told of the vet who gave it.
    pub given: &'a Given,
    /// On what it is to be put, where that was said.
    pub on: Option<UseAt>,
    /// The bird it is held against, where there is one.
    pub before: Option<Before<'a>>,
}

/// A bird to hold a label against.
#[derive(Clone, Copy, Debug)]
pub struct Before<'a> {
    /// What was found: her wounds decide on what it would be put.
    pub findings: &'a Findings,
    /// The verdict on her.
    pub verdict: &'a Exact,
    /// Her plan.
    pub plan: &'a Plan,
}

/// What is ruled of a whole label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ruled<'p> {
    /// The strictest ruling of all its parts.
    pub ruling: Ruling,
    /// Each part, the strictest first.
    pub parts: Vec<Part<'p>>,
    /// What was told of the vet who gave it.
    pub given: Given,
    /// On what it was to be put, where that was said.
    pub on: Option<UseAt>,
    /// How the whole is ruled on each use, the strictest first.
    pub uses: Vec<OnUse<'p>>,
}

/// What is ruled of one part of a label.
#[derive(Clone, Debug)]
pub struct Part<'p> {
    /// As it was printed; nothing where it is the whole of the label.
    pub printed: Option<String>,
    /// What is ruled of it, for this bird where there is one.
    pub ruling: Ruling,
    /// What it was read as; nothing where it is not known.
    pub read_as: Option<ReadAs<'p>>,
    /// Why it is not for this bird, or for which of her wounds it is.
    pub because: Option<Because<'p>>,
    /// Why it is ruled so in this country, in the protocol's words.
    pub say: Option<&'p str>,
    /// The family it is of, where the table of strengths has a word on it.
    pub family: Option<&'p Family>,
    /// The strength that is printed, and how it stands to what is wanted.
    pub strength: Option<(Option<MilligramsPerLitre>, Standing)>,
    /// How it is ruled on each use.
    pub uses: Vec<OnUse<'p>>,
}

/// Why a part is not for a bird, or for which of her wounds it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Because<'p> {
    /// There is no such strength as is printed.
    NoSuchStrength,
    /// The table of strengths refuses it, in the protocol's words.
    Refused(&'p str),
    /// Her verdict forbids it, by this reason.
    Forbidden(&'p str),
    /// Her wound is none it may go on.
    NotHerWound,
    /// Her plan does not ask for it now.
    NotPlanned,
    /// It is for these of her wounds alone, by their places in the order they were found.
    Only(Vec<usize>),
    /// A vet's drug that the law of the country bars in birds that give food.
    Barred,
}

impl PartialEq for Part<'_> {
    fn eq(&self, other: &Self) -> bool {
        let what = |part: &Self| (part.printed.clone(), part.ruling, part.because.clone(), part.strength);
        what(self) == what(other) && self.read_as == other.read_as && self.uses == other.uses
    }
}

impl Eq for Part<'_> {}

/// Rules on a label, in general or for one bird.
///
/// What a vet gave for this very bird is as the vet wrote: nothing is judged of its dose. What harms whoever gave it still does.
///
/// Unknown is never "may be used": a word nobody knows rules the whole, and what may be used is known by its exact name only,
/// while a stem or a slip of the pen is enough for what must not.
pub fn rule<'p>(protocol: &'p Protocol, printed: &str, held: Held) -> Ruled<'p> {
    let pieces = printed::pieces(protocol, printed);
    let mut parts: Vec<Part> = pieces.iter().flat_map(|piece| read(protocol, piece, held)).collect();
    let helps = |part: &Part| part.ruling > Ruling::Carrier;
    if !parts.iter().any(helps) {
        // Nothing but water and words: what it is for is not known.
        parts.push(unknown(protocol, None));
    }
    if held.given.is_whole() {
        for part in &mut parts {
            settle(part, held.country);
        }
    }
    parts.sort_by_key(|part| std::cmp::Reverse(part.ruling));
    let ruling = parts.first().map_or(Ruling::Unknown, |part| part.ruling);
    let uses = uses::strictest(protocol, &parts);
    Ruled { ruling, parts, given: held.given.clone(), on: held.on, uses }
}

fn unknown(protocol: &Protocol, printed: Option<&str>) -> Part<'static> {
    Part {
        printed: printed.map(str::to_owned),
        ruling: Ruling::Unknown,
        read_as: None,
        because: None,
        say: None,
        family: None,
        strength: None,
        uses: uses::all(protocol, Ruling::Unknown),
    }
}

/// A part a vet gave for this bird: settled, unless it harms whoever gave it or its strength cannot be.
fn settle(part: &mut Part, country: &Country) {
    let by_vet = part.read_as.is_none_or(|read| read.substance.by_vet);
    if !by_vet || part.because.is_some() || part.ruling <= Ruling::AsTheVetWrote {
        return;
    }
    part.ruling = Ruling::AsTheVetWrote;
    for on in &mut part.uses {
        on.ruling = on.ruling.min(Ruling::AsTheVetWrote);
    }
    if part.read_as.is_some_and(|read| read.substance.is_barred_in(country)) {
        part.because = Some(Because::Barred);
    }
}

/// What is read in one part: every substance in it, and every word nobody knows.
fn read<'p>(protocol: &'p Protocol, segment: &str, held: Held) -> Vec<Part<'p>> {
    let words = words(segment);
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
        let (taken, read_as) = protocol.next_known(rest);
        at += taken;
        match read_as {
            Some(read_as) => found.push(part(protocol, segment, read_as, held)),
            None if rest.first().is_some_and(|word| !protocol.label_words.contains(word)) => {
                found.push(unknown(protocol, Some(segment)));
            }
            None => {}
        }
    }
    found.dedup();
    found
}

fn part<'p>(protocol: &'p Protocol, segment: &str, read_as: ReadAs<'p>, held: Held) -> Part<'p> {
    let substance = read_as.substance;
    let (general, said) = substance.ruled_in(held.country);
    let family = protocol.family_of(substance);
    let (floor, mut because, strength) = match strength::printed(segment) {
        Err(_) => (Ruling::Unknown, Some(Because::NoSuchStrength), None),
        Ok(printed) => {
            let refused = family.and_then(|family| family.refuses(printed?));
            let floor = if refused.is_some() { Ruling::NotHere } else { Ruling::Carrier };
            let standing = family.and_then(|family| strength::standing(family, printed));
            (floor, refused.map(Because::Refused), standing.map(|standing| (printed, standing)))
        }
    };
    let uses = uses::of(protocol, read_as, general, floor);
    let on = held.on.and_then(|at| uses.iter().find(|on| on.at == at));
    let mut ruling = on.map_or(general.max(floor), |on| on.ruling);
    if let (None, Some(before)) = (&because, held.before) {
        let (hers, why) = for_her(protocol, (substance, ruling), (&uses, held.on), before);
        // What may be used is never guessed: a name spelled nearly so stays what it is in general.
        if read_as.by == By::Name || hers >= ruling {
            (ruling, because) = (hers, why);
        }
    }
    let say = Some(on.and_then(|on| on.say).unwrap_or(said));
    Part { printed: Some(segment.to_owned()), ruling, read_as: Some(read_as), because, say, family, strength, uses }
}

/// What is ruled for this bird: what her verdict forbids, and what her plan does not ask for, is not for her.
fn for_her<'p>(
    protocol: &'p Protocol,
    (substance, ruling): (&Substance, Ruling),
    (uses, named): (&[OnUse], Option<UseAt>),
    before: Before,
) -> (Ruling, Option<Because<'p>>) {
    let Some(act) = substance.act.filter(|_| matches!(ruling, Ruling::MayBeUsed | Ruling::NotHere)) else {
        return (ruling, None);
    };
    let planned: Vec<Target> =
        before.plan.steps.iter().filter_map(PlanStep::act).filter(|to| to.action == act).collect();
    let open = uses::open_to(protocol, before, (uses, named), &planned);
    if !open.is_empty() {
        // What is not for birds in general may still be what her plan asks for: a styptic for a nail.
        return (Ruling::MayBeUsed, where_to(before.verdict, &open));
    }
    if !planned.is_empty() {
        return (Ruling::NotHere, Some(Because::NotHerWound));
    }
    if ruling == Ruling::NotHere {
        return (Ruling::NotHere, None);
    }
    let because = forbids(protocol, before.verdict, act).map_or(Because::NotPlanned, Because::Forbidden);
    (Ruling::NotHere, Some(because))
}

/// For which of her wounds it is, where that is not all of them.
fn where_to<'p>(verdict: &Exact, planned: &[Target]) -> Option<Because<'p>> {
    let wounds: Vec<usize> = planned.iter().filter_map(|to| to.wound).collect();
    (!wounds.is_empty() && wounds.len() < verdict.wounds).then_some(Because::Only(wounds))
}

/// Why an action is forbidden for her, if it is.
fn forbids<'p>(protocol: &'p Protocol, verdict: &Exact, act: ActionAt) -> Option<&'p str> {
    let never = verdict.never.iter().find(|never| {
        let dragged = |at: ActionAt| protocol.rules_out.iter().any(|out| out.never == at && out.drop == act);
        never.target.action == act || dragged(never.target.action)
    })?;
    Some(&protocol.rule(never.because.first()?.rule).reason)
}
