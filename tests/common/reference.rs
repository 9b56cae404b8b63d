//! A second judge, as plain as it can be written: for birds of whom everything is known, straight from the rules' meaning.

use coopside::protocol::Protocol;
use coopside::protocol::cond::{Cond, QuestionAt, Threshold};
use coopside::protocol::rule::Rule;
use coopside::prove::{Rung, Scale};
use coopside::sheet::{Cell, Sheet, Subject};
use coopside::unit::Band;

/// Where a bird stands on need, humane end and authority.
pub fn levels(protocol: &Protocol, bird: &Sheet) -> [Rung; 3] {
    Scale::ALL.map(|scale| {
        let mut worst = 0;
        for rule in &protocol.rules {
            if in_force(protocol, bird, rule, true) {
                worst = worst.max(scale.of(rule).min(scale.most_in_doubt()));
            }
            if in_force(protocol, bird, rule, false) {
                worst = worst.max(scale.of(rule));
            }
        }
        worst
    })
}

fn in_force(protocol: &Protocol, bird: &Sheet, rule: &Rule, doubt: bool) -> bool {
    let of = |subject| {
        holds(protocol, bird, &rule.when, subject, doubt)
            && !rule.unless.iter().any(|cond| holds(protocol, bird, cond, subject, !doubt))
    };
    if rule.per_wound { (0..bird.wounds()).any(|wound| of(Subject::Wound(wound))) } else { of(Subject::Bird) }
}

/// Whether a condition holds, "cannot tell" counted as met where `doubt`, inside `Not` and `Under` the other way round.
fn holds(protocol: &Protocol, bird: &Sheet, cond: &Cond, subject: Subject, doubt: bool) -> bool {
    let part = |cond: &Cond| holds(protocol, bird, cond, subject, doubt);
    match cond {
        Cond::Always => true,
        Cond::Answer(at, set) => {
            asked(protocol, bird, *at, subject, doubt)
                && match bird.cell(subject, *at) {
                    Cell::Given(answer) => set.holds(answer),
                    Cell::CannotTell => doubt,
                    Cell::Worked(_, first, last) if doubt => (first..=last).any(|answer| set.holds(answer)),
                    Cell::Worked(_, first, last) => (first..=last).all(|answer| set.holds(answer)),
                    Cell::Amount(_) | Cell::NotAsked => false,
                }
        }
        Cond::All(parts) => parts.iter().all(part),
        Cond::Any(parts) => parts.iter().any(part),
        Cond::Count(least, parts) => parts.iter().filter(|cond| part(cond)).count() >= *least,
        Cond::Not(inner) => !holds(protocol, bird, inner, subject, !doubt),
        Cond::SomeWound(inner) => {
            (0..bird.wounds()).any(|wound| holds(protocol, bird, inner, Subject::Wound(wound), doubt))
        }
        Cond::AtLeast(threshold) => reaches(bird, *threshold, subject, doubt),
        Cond::Under(threshold) => !reaches(bird, *threshold, subject, !doubt),
    }
}

fn asked(protocol: &Protocol, bird: &Sheet, at: QuestionAt, subject: Subject, doubt: bool) -> bool {
    protocol.ask(at).applies.as_ref().is_none_or(|cond| holds(protocol, bird, cond, subject, doubt))
}

/// The measures themselves have checks of their own; here it is their use that is told a second time.
fn reaches(bird: &Sheet, threshold: Threshold, subject: Subject, doubt: bool) -> bool {
    fn end<T>(band: Band<T>, doubt: bool) -> T {
        if doubt { band.high } else { band.low }
    }
    match threshold {
        Threshold::Weight(value) => end(bird.weight().band, doubt) >= value,
        Threshold::TimeSince(value) => end(bird.time_since(subject).band, doubt) >= value,
        Threshold::SkinOpen(value) => end(bird.skin_open().band, doubt) >= value,
        Threshold::BloodOfWeight(value) => end(bird.blood_of_weight().band, doubt) >= value,
        Threshold::BreathRate(value) => end(bird.breath_rate().band, doubt) >= value,
        Threshold::Dryness(value) => end(bird.dryness().band, doubt) >= value,
        Threshold::BloodLost(value) => {
            let frail = bird.frail() == coopside::sheet::Truth::Yes;
            end(bird.blood_share(frail).band, doubt) >= value
        }
    }
}
