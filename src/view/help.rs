//! Help: how to look at what is asked, and every key that works there.

use super::{keys, question};
use crate::exam::Place;
use crate::phrase::{Text, page as phrase, terms};
use crate::session::{Face, Session};

/// Help, for what lies below it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HelpView {
    /// What is asked there, where something is.
    pub asked: Option<HelpAsked>,
    /// Where its keys work.
    pub heading: String,
    /// The keys, and what each does.
    pub keys: Vec<(String, String)>,
    /// What stands over the marks.
    pub marks_heading: String,
    /// What the marks mean.
    pub marks: Vec<String>,
    /// The caution.
    pub caution: String,
}

/// What is asked, and all that helps to answer it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HelpAsked {
    /// What is asked.
    pub ask: String,
    /// How to look.
    pub look: String,
    /// How to look at each sign of a list.
    pub signs: Vec<String>,
    /// What words mean.
    pub terms: Vec<String>,
}

impl HelpView {
    /// What helps with what lies below.
    pub fn of(session: &Session) -> Self {
        let mut below = session.clone();
        below.overlays.pop();
        let needs = if session.verdict.no_vet() { phrase::marks_no_vet() } else { phrase::marks_need() };
        let marks = [phrase::marks_calm(), needs, phrase::marks_steps(), phrase::marks_rows()];
        let key =
            |binding: &keys::Binding| (session.say(binding.shown_keys()), session.say(Text::from((binding.about)())));
        Self {
            asked: asked(&below),
            heading: session.say(phrase::keys(below.context().name())),
            keys: keys::of(below.context()).map(key).collect(),
            marks_heading: session.say(phrase::marks()),
            marks: marks.map(|mark| session.say(mark)).to_vec(),
            caution: session.say(session.caution()),
        }
    }
}

fn asked(below: &Session) -> Option<HelpAsked> {
    let (ask, look) = question::words(below);
    let (ask, look) = (below.say(ask), below.say(look));
    if ask.is_empty() || below.shown() != Face::Exam {
        return None;
    }
    let kind = below.exam.kind();
    let signs = match &below.exam.place {
        Place::List(list) => below.exam.signs(*list),
        Place::Ask(_) | Place::Wounds | Place::Instruction(..) | Place::Done => Vec::new(),
    };
    let signs = signs.into_iter().map(|asked| below.protocol.ask(asked.question));
    let signs = signs.map(|sign| below.say(terms::named(Text::quoted(&sign.topic), Text::quoted(sign.look_at(kind)))));
    let terms = question::terms(below, &ask, &look).into_iter().map(|words| below.say(words));
    Some(HelpAsked { signs: signs.collect(), terms: terms.collect(), ask, look })
}
