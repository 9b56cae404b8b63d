//! What is told of a practice bird: how much she asks of who practises, and what is seen where a question points.

use super::{answers, terms};
use crate::finding::{About, Answer};
use crate::phrase::{Phrase, Text, drawn, grammar, practised as says, terms as words};
use crate::practice::{DrawError, Drawn, DrawnTexts, Grade, Shows};
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, Question};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::{Rung, Scale};

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

/// What is told of a bird that was drawn, in the words that `say` makes of a text.
pub fn told(protocol: &Protocol, bird: &Drawn, say: &dyn Fn(&Text) -> String) -> DrawnTexts {
    let told = bird.told.iter().map(|(at, answer)| answers::of(protocol.ask(*at), answer));
    let truth = if bird.wrong.is_empty() {
        drawn::nothing_wrong()
    } else {
        grammar::ended(Text::clauses(bird.wrong.iter().map(|(asked, answer)| wrong(protocol, *asked, answer))))
    };
    DrawnTexts {
        opens: say(&drawn::opens(Text::clauses(told)).into()),
        trains: say(&drawn::trains().into()),
        truth: say(&truth.into()),
        source: say(&drawn::source(Text::typed(bird.seed.to_string())).into()),
    }
}

fn wrong(protocol: &Protocol, asked: Asked, answer: &Answer) -> Phrase {
    let question = protocol.ask(asked.question);
    let (topic, answer) = (Text::quoted(&question.topic), answers::of(question, answer));
    match asked.about {
        About::Bird => words::named(topic, answer),
        About::Wound(wound) => drawn::of_wound(terms::number(wound), topic, answer),
    }
}

/// Why no bird could be drawn.
pub fn undrawn(error: &DrawError) -> Phrase {
    match error {
        DrawError::NotFound => drawn::not_found(),
        DrawError::Nobody { scale, wanted, least, most } => {
            let name = match scale {
                Scale::Need => drawn::scale_need(),
                Scale::Humane => drawn::scale_humane(),
                Scale::Authority => drawn::scale_authority(),
            };
            let rung = |rung: &Rung| rung_of(*scale, *rung);
            drawn::nobody(rung(wanted), name, rung(least), rung(most))
        }
    }
}

/// A rung of a scale; nothing where the scale has none of that number.
fn rung_of(scale: Scale, rung: Rung) -> Text {
    let at = usize::from(rung);
    let phrase = match scale {
        Scale::Need => Need::ALL.get(at).map(|rung| terms::need(*rung, false)),
        Scale::Humane => Humane::ALL.get(at).map(|rung| terms::humane(*rung)),
        Scale::Authority => Authority::ALL.get(at).map(|rung| terms::authority(*rung)),
    };
    phrase.map(Text::from).unwrap_or_default()
}
