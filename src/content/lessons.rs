//! What is told of a practice bird: how much she asks of who practises, and what is seen where a question points.

use super::answers;
use crate::phrase::{Phrase, Text, practised as says};
use crate::practice::{Grade, Shows};
use crate::protocol::question::Question;

/// How much a lesson asks.
pub const fn grade(grade: Grade) -> Phrase {
    match grade {
        Grade::First => says::first(),
        Grade::Second => says::second(),
        Grade::Third => says::third(),
    }
}

/// What is seen by who looks where a question points.
pub fn shows(question: &Question, shows: &Shows) -> Text {
    match shows {
        Shows::Usual => says::usual().into(),
        Shows::Told(told) => Text::quoted(told),
        Shows::Answer(answer) => answers::of(question, answer),
    }
}
