//! The envelope: which rungs of need, humane end and authority a bird can still come to, exactly.

use super::clauses::{Bit, Clauses, OutOfBudget, Work};
use super::form::{BIRD, Form};
use super::scales::{Rung, Scale};
use crate::judge::{Levels, levels};
use crate::protocol::Protocol;
use crate::protocol::cond::Cond;
use crate::protocol::rule::{Rule, RuleAt};
use crate::sheet::Sheet;
use crate::unit::Band;

/// The lowest and highest rung of each scale that some bird with these findings comes to.
#[derive(Clone, Debug)]
pub struct Envelope<'p> {
    bands: [Band<Rung>; 3],
    /// Birds that come to the ends, everything open about them filled in.
    pub birds: Vec<Sheet<'p>>,
}

impl Envelope<'_> {
    /// Whether nothing that may still be found changes any scale.
    pub fn is_settled(&self) -> bool {
        self.bands.iter().all(|band| band.low == band.high)
    }

    /// The band of one scale.
    pub fn of(&self, scale: Scale) -> Band<Rung> {
        let [need, humane, authority] = self.bands;
        match scale {
            Scale::Need => need,
            Scale::Humane => humane,
            Scale::Authority => authority,
        }
    }
}

/// The envelope of a bird of whom some things are known.
///
/// Every completion counts: each open question answered with any answer offered, with "cannot tell" or with a figure; wounds
/// that may yet be found; birds that cannot be left out. The judge's own band is where the search begins: it is never too
/// narrow.
///
/// # Errors
/// Where the work allowed does not suffice; the judge's own band then stands.
pub fn envelope<'p>(protocol: &'p Protocol, sheet: &Sheet<'p>, work: Work) -> Result<Envelope<'p>, OutOfBudget> {
    let judged = bands(levels(protocol, sheet));
    if judged.iter().all(|band| band.low == band.high) {
        return Ok(Envelope { bands: judged, birds: Vec::new() });
    }
    let mut clauses = Clauses::new(work);
    let mut form = Form::new(protocol, sheet, &mut clauses, more_wounds(protocol));
    let mut seen: Vec<[Band<Rung>; 3]> = Vec::new();
    let mut shown: Vec<Sheet> = Vec::new();
    let mut show = |birds: Vec<Sheet<'p>>, seen: &mut Vec<[Band<Rung>; 3]>| {
        seen.extend(birds.iter().map(|bird| bands(levels(protocol, bird))));
        shown.extend(birds);
    };
    let mut found = judged;
    for ((scale, band), at) in Scale::ALL.into_iter().zip(&mut found).zip(0usize..) {
        let known = |seen: &[[Band<Rung>; 3]], rung: Rung| {
            seen.iter().any(|bands| bands.get(at).is_some_and(|band| band.low == rung))
        };
        while band.low < band.high && !known(&seen, band.low) {
            let above = reaches(&mut form, &mut clauses, scale, band.low + 1);
            match Form::can_be(&[&form], &mut clauses, &[above.not()])? {
                Some(birds) => show(birds, &mut seen),
                None => band.low += 1,
            }
        }
        while band.low < band.high && !known(&seen, band.high) {
            let top = reaches(&mut form, &mut clauses, scale, band.high);
            match Form::can_be(&[&form], &mut clauses, &[top])? {
                Some(birds) => show(birds, &mut seen),
                None => band.high -= 1,
            }
        }
    }
    Ok(Envelope { bands: found, birds: shown })
}

/// The judge's levels as rungs.
pub fn bands(levels: Levels) -> [Band<Rung>; 3] {
    let Levels { need, humane, authority } = levels;
    [
        Band { low: need.low as Rung, high: need.high as Rung },
        Band { low: humane.low as Rung, high: humane.high as Rung },
        Band { low: authority.low as Rung, high: authority.high as Rung },
    ]
}

/// How many wounds nobody has found can matter together: as many as one rule can speak of.
pub fn more_wounds(protocol: &Protocol) -> usize {
    let spoken_of = |rule: &Rule| {
        let mut wounds = usize::from(rule.per_wound);
        for cond in std::iter::once(&rule.when).chain(&rule.unless) {
            cond.walk(&mut |part| wounds += usize::from(matches!(part, Cond::SomeWound(_))));
        }
        wounds
    };
    protocol.rules.iter().map(spoken_of).max().unwrap_or(0).max(1)
}

/// Whether a scale reaches a rung: some rule of at least that rung holds, and where doubt may lead so far, in doubt too.
pub fn reaches(form: &mut Form, clauses: &mut Clauses, scale: Scale, rung: Rung) -> Bit {
    let mut fires = Vec::new();
    let placed = (0u16..).map(RuleAt).zip(&form.protocol().rules);
    for (at, rule) in placed.filter(|(_, rule)| scale.of(rule) >= rung) {
        let in_doubt = rung <= scale.most_in_doubt();
        let columns = if rule.per_wound { form.wounds() } else { BIRD..BIRD + 1 };
        for column in columns {
            let holds = form.stands(clauses, at, column, in_doubt);
            if holds == Bit::Known(true) {
                return holds;
            }
            fires.push(holds);
        }
    }
    clauses.any(&fires)
}
