//! A product's ingredients as printed: what may be used here, what not on this bird or place, what never, what nobody knows.

mod given;

pub use given::{EXAMPLE, Given, day};

use super::{Plan, Step};
use crate::judge::{Target, Verdict};
use crate::protocol::Protocol;
use crate::protocol::raw::Ruling;
use crate::protocol::rule::ActionAt;
use crate::protocol::spelling::words;
use crate::protocol::substance::Substance;
use crate::protocol::told::Country;
use crate::typed::{self, TypedError};
use crate::unit::MilligramsPerLitre;

/// For whom a label is ruled on.
#[derive(Clone, Copy, Debug)]
pub struct Held<'a> {
    /// Whose law holds.
    pub country: &'a Country,
    /// What is told of the vet who gave it.
    pub given: &'a Given,
    /// The bird it is held against, where there is one.
    pub before: Option<Before<'a>>,
}

/// A bird to hold a label against.
#[derive(Clone, Copy, Debug)]
pub struct Before<'a> {
    /// The verdict on her.
    pub verdict: &'a Verdict,
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
}

/// What is ruled of one part of a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part<'p> {
    /// As it was printed.
    pub printed: String,
    /// What is ruled of it, for this bird where there is one.
    pub ruling: Ruling,
    /// What it was read as; nothing where it is not known.
    pub read_as: Option<ReadAs<'p>>,
    /// Why it is not for this bird, or for which of her wounds it is.
    pub because: Option<String>,
    /// Why it is ruled so in this country, in the protocol's words.
    pub say: Option<&'p str>,
}

/// A substance, and how sure the reading is.
#[derive(Clone, Copy, Debug)]
pub struct ReadAs<'p> {
    /// The substance.
    pub substance: &'p Substance,
    /// How it was known.
    pub by: By,
}

impl PartialEq for ReadAs<'_> {
    fn eq(&self, other: &Self) -> bool {
        (&self.substance.id, self.by) == (&other.substance.id, other.by)
    }
}

impl Eq for ReadAs<'_> {}

/// How a substance was known on a label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// By its name.
    Name,
    /// By the stem of its name.
    Stem,
    /// By a name spelled nearly so.
    Likeness,
}

/// The most words a name has.
const LONGEST: usize = 4;

/// Rules on a label, in general or for one bird.
///
/// What a vet gave for this very bird is as the vet wrote: nothing is judged of its dose. What harms whoever gave it still does.
///
/// Unknown is never "may be used": a word nobody knows rules the whole, and what may be used is known by its exact name only,
/// while a stem or a slip of the pen is enough for what must not.
pub fn rule<'p>(protocol: &'p Protocol, printed: &str, held: Held) -> Ruled<'p> {
    let pieces = segments(printed).flat_map(|segment| lines(protocol, segment));
    let mut parts: Vec<Part> = pieces.flat_map(|piece| read(protocol, &piece, held)).collect();
    let helps = |part: &Part| part.ruling > Ruling::Carrier;
    if !parts.iter().any(helps) {
        // Nothing but water and words: what it is for is not known.
        parts.push(unknown("the whole of it"));
    }
    if held.given.is_whole() {
        for part in &mut parts {
            settle(part, held.country);
        }
    }
    parts.sort_by_key(|part| std::cmp::Reverse(part.ruling));
    let ruling = parts.first().map_or(Ruling::Unknown, |part| part.ruling);
    Ruled { ruling, parts, given: held.given.clone() }
}

fn unknown(printed: &str) -> Part<'static> {
    Part { printed: printed.to_owned(), ruling: Ruling::Unknown, read_as: None, because: None, say: None }
}

/// A part a vet gave for this bird: settled, unless it harms whoever gave it or its strength cannot be.
fn settle(part: &mut Part, country: &Country) {
    let by_vet = part.read_as.is_none_or(|read| read.substance.by_vet);
    if !by_vet || part.because.is_some() || part.ruling <= Ruling::AsTheVetWrote {
        return;
    }
    part.ruling = Ruling::AsTheVetWrote;
    if part.read_as.is_some_and(|read| read.substance.is_barred_in(country)) {
        part.because = Some(BARRED.to_owned());
    }
}

/// What is said of a vet's drug that the law of the country bars.
const BARRED: &str = "The law bars it in birds that give food: ask the vet about that before the first dose.";

/// The parts of a label: parted by commas and the like, but not within a number.
fn segments(printed: &str) -> impl Iterator<Item = &str> {
    let parts = move |(at, c): (usize, char)| {
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let (before, after) = printed.split_at(at);
        let within = digit(before.chars().next_back()) && digit(after.chars().nth(1));
        match c {
            ',' | '.' => !within,
            ';' | ':' | '(' | ')' | '[' | ']' | '+' | '&' | '*' | '•' | '·' => true,
            _ => false,
        }
    };
    let mut from = 0;
    let mut cuts: Vec<(usize, usize)> = Vec::new();
    for (at, c) in printed.char_indices() {
        if parts((at, c)) {
            cuts.push((from, at));
            from = at + c.len_utf8();
        }
    }
    cuts.push((from, printed.len()));
    cuts.into_iter().filter_map(|(from, to)| printed.get(from..to)).map(str::trim).filter(|part| !part.is_empty())
}

/// Where a line of the label ends, as it is typed.
pub const LINE_END: char = '|';

/// The lines of one part. A line may end between two ingredients or within one: where the last words of a line and the first
/// of the next are one name, they are read as that.
fn lines(protocol: &Protocol, segment: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for line in segment.split(['\n', LINE_END]).map(str::trim).filter(|line| !line.is_empty()) {
        let before = lines.pop();
        let split = before.as_ref().and_then(|before| goes_on(protocol, before, line));
        match (before, split) {
            (Some(before), Some(at)) => {
                let (head, tail) = before.split_at(at);
                lines.extend(Some(head.trim().to_owned()).filter(|head| !head.is_empty()));
                lines.push(format!("{} {line}", tail.trim()));
            }
            (before, _) => lines.extend(before.into_iter().chain([line.to_owned()])),
        }
    }
    lines
}

/// Where in a line a name begins that goes on in the next; the longest such name, if there is one.
fn goes_on(protocol: &Protocol, line: &str, next: &str) -> Option<usize> {
    let starts = line.char_indices().filter(|(at, c)| {
        !c.is_whitespace()
            && line.get(..*at).and_then(|before| before.chars().next_back()).is_none_or(char::is_whitespace)
    });
    let next = words(next);
    starts.map(|(at, _)| at).find(|at| {
        let ours = line.get(*at..).map(words).unwrap_or_default();
        (1..LONGEST).any(|taken| {
            let name: Vec<String> = ours.iter().chain(next.iter().take(taken)).cloned().collect();
            name.len() == ours.len() + taken && named(protocol, &name).is_some()
        })
    })
}

/// What is read in one part: every substance in it, and every word nobody knows.
fn read<'p>(protocol: &'p Protocol, segment: &str, held: Held) -> Vec<Part<'p>> {
    let words = words(segment);
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
        let (taken, read_as) = next(protocol, rest);
        at += taken;
        match read_as {
            Some(read_as) => found.push(part(protocol, segment, read_as, held)),
            None if rest.first().is_some_and(|word| !protocol.label_words.contains(word)) => {
                found.push(unknown(segment));
            }
            None => {}
        }
    }
    found.dedup();
    found
}

/// What goes by exactly these words.
fn named<'p>(protocol: &'p Protocol, words: &[String]) -> Option<&'p Substance> {
    protocol.substances.iter().find(|substance| substance.names.iter().any(|name| name == words))
}

/// What the next words stand for, and how many of them: the longest name first, then stems, then likeness.
fn next<'p>(protocol: &'p Protocol, rest: &[String]) -> (usize, Option<ReadAs<'p>>) {
    for taken in (1..=LONGEST.min(rest.len())).rev() {
        if let Some(substance) = rest.get(..taken).and_then(|words| named(protocol, words)) {
            return (taken, Some(ReadAs { substance, by: By::Name }));
        }
    }
    let Some(word) = rest.first() else { return (1, None) };
    if protocol.label_words.contains(word) {
        return (1, None);
    }
    let with = |by: By| move |substance| ReadAs { substance, by };
    let stem = protocol.substances.iter().filter(|substance| substance.has_stem(word));
    let stem = stem.max_by_key(|substance| substance.ruling).map(with(By::Stem));
    (1, stem.or_else(|| alike(protocol, word).map(with(By::Likeness))))
}

/// What must not be used and is spelled nearly so. What may be used is never guessed.
fn alike<'p>(protocol: &'p Protocol, word: &str) -> Option<&'p Substance> {
    let slips = match word.len() {
        0..6 => return None,
        6..10 => 1,
        _ => 2,
    };
    let near = |name: &Vec<String>| matches!(name.as_slice(), [one] if strsim::damerau_levenshtein(one, word) <= slips);
    let harmful = protocol.substances.iter().filter(|substance| substance.ruling >= Ruling::AskFirst);
    harmful.filter(|substance| substance.names.iter().any(near)).max_by_key(|substance| substance.ruling)
}

fn part<'p>(protocol: &Protocol, segment: &str, read_as: ReadAs<'p>, held: Held) -> Part<'p> {
    let substance = read_as.substance;
    let (general, say) = substance.ruled_in(held.country);
    let of = |strength| Some(protocol.supply(substance.supply?).refuses(strength?)?.to_owned());
    let (ruling, because) = match (strength(segment).map(of), held.before) {
        (Err(_), _) => {
            let because = "That strength cannot be: read the label again.".to_owned();
            (Ruling::Unknown.max(general), Some(because))
        }
        (Ok(Some(because)), _) => (Ruling::NotHere.max(general), Some(because)),
        (Ok(None), Some(before)) => for_her(protocol, (substance, general), before),
        (Ok(None), None) => (general, None),
    };
    Part { printed: segment.to_owned(), ruling, read_as: Some(read_as), because, say: Some(say) }
}

/// The strength printed in one part in percent, if one is; an error where there can be none such.
fn strength(segment: &str) -> Result<Option<MilligramsPerLitre>, TypedError> {
    let Some((told, _)) = segment.split_once('%') else { return Ok(None) };
    let mut numbers = told.rsplit(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','));
    let number = numbers.find(|part| !part.is_empty());
    number.map(|number| typed::strength(&format!("{} %", number.replace(',', ".")))).transpose()
}

/// What is ruled for this bird: what her verdict forbids, and what her plan does not ask for, is not for her.
fn for_her(protocol: &Protocol, (substance, ruling): (&Substance, Ruling), before: Before) -> (Ruling, Option<String>) {
    let Some(act) = substance.act.filter(|_| matches!(ruling, Ruling::MayBeUsed | Ruling::NotHere)) else {
        return (ruling, None);
    };
    let planned: Vec<Target> = before.plan.steps.iter().filter_map(Step::act).filter(|to| to.action == act).collect();
    if !planned.is_empty() {
        // What is not for birds in general may still be what her plan asks for: a styptic for a nail.
        return (Ruling::MayBeUsed, where_to(before.verdict, &planned));
    }
    if ruling == Ruling::NotHere {
        return (Ruling::NotHere, None);
    }
    let because =
        forbids(protocol, before.verdict, act).unwrap_or_else(|| "Her plan does not ask for it now.".to_owned());
    (Ruling::NotHere, Some(because))
}

/// For which of her wounds it is, where that is not all of them.
fn where_to(verdict: &Verdict, planned: &[Target]) -> Option<String> {
    let wounds: Vec<String> = planned.iter().filter_map(|to| to.wound).map(|wound| (wound + 1).to_string()).collect();
    (!wounds.is_empty() && wounds.len() < verdict.wounds).then(|| format!("Only for wound {}.", wounds.join(" and ")))
}

/// Why an action is forbidden for her, if it is.
fn forbids(protocol: &Protocol, verdict: &Verdict, act: ActionAt) -> Option<String> {
    let never = verdict.never.iter().find(|never| {
        let dragged = |at: ActionAt| protocol.rules_out.iter().any(|out| out.never == at && out.drop == act);
        never.target.action == act || dragged(never.target.action)
    })?;
    Some(protocol.rule(never.because.first()?.rule).reason.clone())
}
