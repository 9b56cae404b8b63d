//! The envelope: which rungs of need, humane end and authority a bird can still come to, exactly.

use super::clauses::{Bit, Clauses, OutOfBudget, Work};
use super::domain::is_possible;
use super::form::{BIRD, Form};
use super::scales::{Rung, Scale};
use crate::judge::{Levels, levels};
use crate::protocol::Protocol;
use crate::protocol::cond::Cond;
use crate::protocol::question::{Asked, Question};
use crate::protocol::rule::Rule;
use crate::sheet::{Cell, Sheet};
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
    let mut seen: Vec<[Band<Rung>; 3]> = Vec::new();
    let mut shown: Vec<Sheet> = Vec::new();
    let mut show = |birds: Vec<Sheet<'p>>, seen: &mut Vec<[Band<Rung>; 3]>| {
        seen.extend(birds.iter().map(|bird| bands(levels(protocol, bird))));
        shown.extend(birds);
    };
    // A bird with nothing worse and one with all that is worst often show both ends: then nothing has to be searched for.
    show(plain_birds(protocol, sheet), &mut seen);
    let known = |seen: &[[Band<Rung>; 3]], at: usize, rung: Rung| {
        seen.iter().any(|bands| bands.get(at).is_some_and(|band| band.low == rung))
    };
    let mut found = judged;
    let both_ends = |(at, band): (usize, &Band<Rung>)| known(&seen, at, band.low) && known(&seen, at, band.high);
    if found.iter().enumerate().all(both_ends) {
        return Ok(Envelope { bands: found, birds: shown });
    }
    let mut clauses = Clauses::new(work);
    let mut form = Form::new(protocol, sheet, &mut clauses, more_wounds(protocol));
    for ((scale, band), at) in Scale::ALL.into_iter().zip(&mut found).zip(0usize..) {
        while band.low < band.high && !known(&seen, at, band.low) {
            let above = reaches(&mut form, &mut clauses, scale, band.low + 1);
            let Some(birds) = Form::can_be(&[&form], &mut clauses, &[above.not()])? else {
                band.low += 1;
                continue;
            };
            show(birds, &mut seen);
            // A bird the judge puts elsewhere than the solver decides nothing; better to claim nothing than to ask for ever.
            if !known(&seen, at, band.low) {
                return Err(OutOfBudget);
            }
        }
        while band.low < band.high && !known(&seen, at, band.high) {
            let top = reaches(&mut form, &mut clauses, scale, band.high);
            let Some(birds) = Form::can_be(&[&form], &mut clauses, &[top])? else {
                band.high -= 1;
                continue;
            };
            show(birds, &mut seen);
            if !known(&seen, at, band.high) {
                return Err(OutOfBudget);
            }
        }
    }
    Ok(Envelope { bands: found, birds: shown })
}

/// Two birds that need no search, where they can be: every open question at its first answer, and every one at its last.
fn plain_birds<'p>(protocol: &'p Protocol, sheet: &Sheet<'p>) -> Vec<Sheet<'p>> {
    let mild = |_: &Question| 0;
    let grave = |question: &Question| question.choices.len().saturating_sub(1);
    let birds = [filled_in(protocol, sheet, mild), filled_in(protocol, sheet, grave)];
    birds.into_iter().filter(|bird| is_possible(protocol, sheet, bird)).collect()
}

fn filled_in<'p>(protocol: &'p Protocol, sheet: &Sheet<'p>, choose: impl Fn(&Question) -> usize) -> Sheet<'p> {
    let mut bird = sheet.clone();
    for (at, question) in protocol.enumerated() {
        for about in bird.abouts(question) {
            let offered = |choice: &u8| question.is_offered(*choice, bird.kind());
            let choice = u8::try_from(choose(question)).ok().filter(offered);
            if bird.cell(about.into(), at) == Cell::NotAsked {
                bird.suppose(Asked { about, question: at }, choice.map_or(Cell::CannotTell, Cell::Given));
            }
        }
    }
    bird.suppose_looked_over();
    bird.suppose_applies();
    bird
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

/// Where the judge puts need, humane end and authority call at least.
pub fn floors(protocol: &Protocol, sheet: &Sheet) -> [Rung; 3] {
    bands(levels(protocol, sheet)).map(|band| band.low)
}

/// Where the judge puts one scale at least.
pub fn floor_of(protocol: &Protocol, sheet: &Sheet, scale: Scale) -> Rung {
    let [need, humane, authority] = floors(protocol, sheet);
    match scale {
        Scale::Need => need,
        Scale::Humane => humane,
        Scale::Authority => authority,
    }
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
    let placed = form.protocol().rules_enumerated();
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
