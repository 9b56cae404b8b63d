//! Birds and cupboards made up by the roll of dice, from the protocol's own questions and supplies.

use super::PROTOCOL;
use chrono::{DateTime, NaiveDate, Utc};
use coopside::care::cupboard::{Cupboard, Kept};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::protocol::question::Question;
use coopside::unit::MilligramsPerLitre;

/// A bird made up by the roll of dice: most signs of most birds are fine, so that not all are at death's door.
pub fn bird(rng: &mut fastrand::Rng, now: DateTime<Utc>) -> Findings {
    let mut known = Findings::default();
    let wounds = rng.usize(0..4);
    (0..wounds).for_each(|_| {
        known.find_wound();
    });
    if rng.u8(0..4) > 0 {
        known.look_over();
    }
    for question in &PROTOCOL.questions {
        let abouts = if question.wound { (0..wounds).map(About::Wound).collect() } else { vec![About::Bird] };
        for about in abouts {
            if let Some(answer) = answer(question, rng) {
                known.say(Statement { about, question: question.id.clone(), answer }, now);
            }
        }
    }
    known
}

fn answer(question: &Question, rng: &mut fastrand::Rng) -> Option<Answer> {
    let fine = question.ordered && rng.u8(0..10) < 7;
    match rng.u8(0..20) {
        0 => None,
        1 => Some(Answer::CannotTell),
        _ => {
            let choice = if fine { 0 } else { rng.usize(0..question.choices.len().max(1)) };
            Some(Answer::Choice(question.choices.get(choice)?.id.clone()))
        }
    }
}

/// A cupboard filled by the roll of dice.
pub fn cupboard(rng: &mut fastrand::Rng) -> Cupboard {
    let mut cupboard = Cupboard::default();
    let strengths = [500, 1_000, 20_000, 50_000, 75_000, 100_000, 200_000];
    for supply in &PROTOCOL.supplies {
        let (there, told, dated) = (rng.bool(), rng.u8(0..4) > 0, rng.bool());
        let (strength, month) = (strengths[rng.usize(0..strengths.len())], rng.u32(1..12));
        if there {
            let strength = supply.thin_to.filter(|_| told).map(|_| MilligramsPerLitre(strength));
            let until = NaiveDate::from_ymd_opt(2026, month, 1).filter(|_| dated);
            cupboard.put(supply, Kept { strength, until });
        }
    }
    cupboard
}
