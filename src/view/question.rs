//! What is asked, how to look without harm, and what is told beside it.

use super::body::PictureView;
use super::choices::ChoicesView;
use super::keys::Action;
use super::{birds, named, rows};
use crate::content::answers;
use crate::content::document::{topic, wound_name};
use crate::exam::Place;
use crate::finding::log::{self, Entry};
use crate::finding::{About, Answer, Statement};
use crate::phrase::{Phrase, Text, lesson, question as phrase, terms as words_of};
use crate::protocol::question::{Asked, SignList};
use crate::protocol::supply::Supply;
use crate::prove::{Bearing, bearing};
use crate::session::line::{TypedLine, TypingOf};
use crate::session::{Overlay, Page, Session};
use crate::typed::weight;
use crate::view::practice_bird::{self as practice, Shown};

/// What is asked, and all that stands beside it.
#[derive(Clone, Debug)]
pub struct QuestionView {
    /// That she is only looked at for now.
    pub spared: Option<String>,
    /// What is asked.
    pub ask: String,
    /// How to look without harm.
    pub look: String,
    /// What words in it mean.
    pub terms: Vec<String>,
    /// What the practice bird shows here.
    pub shown: Vec<String>,
    /// Whether what the last key came to is asked once more.
    pub asked_again: bool,
    /// What was answered last time.
    pub last_time: Option<String>,
    /// How it is answered.
    pub answered: Answering,
    /// What waits before the first answer.
    pub waits: Option<WaitsView>,
    /// That it can be passed over.
    pub no_longer_weighs: Option<String>,
    /// What was said last.
    pub echo: Option<String>,
    /// The caution, before the first answer.
    pub caution: Option<String>,
}

/// How something is answered.
#[derive(Clone, Debug)]
pub enum Answering {
    /// By a line that is typed.
    Typing(TypingView),
    /// By a numbered line.
    Choosing(ChoicesView),
    /// By a numbered line, or over the bird that is drawn beside them.
    OnHer(ChoicesView, PictureView),
}

/// A line that is typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypingView {
    /// What stands before it.
    pub label: String,
    /// What was typed before the place of the next letter.
    pub before: String,
    /// What was typed after it.
    pub after: String,
    /// As what it is read, or an example.
    pub read: Option<String>,
}

/// What waits before the first answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WaitsView {
    /// The bird that was left: the key that goes on with her, and since when.
    pub left: Option<(String, String)>,
    /// The key that shows the birds, and those that are due a look.
    pub due: Option<(String, Vec<String>)>,
    /// How many more there are.
    pub more: Option<String>,
}

impl QuestionView {
    /// What is asked now.
    pub fn of(session: &Session) -> Self {
        let bare = session.overlays.is_empty();
        let spares = bare && session.exam.wants_hands() && session.exam.spares_her();
        let (ask, look) = words(session);
        let (ask, look) = (session.say(ask), named::without_skip(session, &session.say(look)));
        let lists = matches!(session.overlays.last(), Some(Overlay::Lessons | Overlay::Map(_)));
        let told = |told: Vec<Phrase>| told.into_iter().map(|told| session.say(told)).collect::<Vec<_>>();
        let is_practice = session.practice.is_some();
        Self {
            spared: spares.then(|| named::without_skip(session, &session.protocol.spare_say)),
            terms: if lists { Vec::new() } else { told(terms(session, &ask, &look)) },
            shown: if is_practice { told(shown(session)) } else { Vec::new() },
            asked_again: session.asked_again.is_some(),
            last_time: last_time(session).map(|before| session.say(before)),
            answered: answered(session),
            waits: (session.log.is_empty() && bare && !is_practice).then(|| waits(session)),
            no_longer_weighs: no_longer_weighs(session).map(|told| session.say(told)),
            echo: echo(session).filter(|_| session.notice.is_none()).map(|said| session.say(said)),
            caution: (session.log.is_empty() && bare).then(|| session.say(session.caution())),
            ask,
            look,
        }
    }
}

fn answered(session: &Session) -> Answering {
    if session.line.is_some() {
        return Answering::Typing(TypingView { read: read_as(session), ..TypingView::of(session) });
    }
    let choices = ChoicesView::of(session);
    match PictureView::of(session) {
        Some(picture) => Answering::OnHer(choices, picture),
        None => Answering::Choosing(choices),
    }
}

impl TypingView {
    /// The line as it stands.
    pub fn of(session: &Session) -> Self {
        let typed: Vec<char> = session.typed().unwrap_or_default().chars().collect();
        let before = session.line.as_ref().map_or(0, TypedLine::before);
        let (before, after) = typed.split_at(before.min(typed.len()));
        Self {
            label: session.say(phrase::typing()),
            before: before.iter().collect(),
            after: after.iter().collect(),
            read: None,
        }
    }
}

/// As what a typed answer is read; an example where it cannot be.
fn read_as(session: &Session) -> Option<String> {
    if session.writing().is_some() {
        return None;
    }
    let (Place::Ask(asked), None) = (&session.exam.place, session.overlays.last()) else { return None };
    let question = session.protocol.ask(asked.question);
    let typed = session.typed().unwrap_or_default();
    let weights = || Text::list(weight::EXAMPLES.map(Text::typed));
    let example = question.figure().map_or_else(weights, |of| Text::typed(of.example()));
    let read = match session.read(question, typed) {
        Ok(answer) => phrase::read_as(answers::of(question, &answer)),
        Err(_) => phrase::for_example(example),
    };
    Some(session.say(read))
}

/// At most this many birds that are due a look are named at the start.
const WAITING: usize = 3;

/// The birds that are due a look, and the one that was left.
fn waits(session: &Session) -> WaitsView {
    let due = birds::waiting(session);
    let more = due.len().saturating_sub(WAITING) + session.flock.waiting.more_overdue;
    let left = session.offers_to_resume().then(|| session.say(resume_line(session)));
    let due: Vec<String> = due.iter().take(WAITING).map(|bird| session.reader().say(bird)).collect();
    WaitsView {
        left: left.map(|left| (named::pressed(session, Action::Resume), left)),
        due: (!due.is_empty()).then(|| (named::pressed(session, Action::Birds), due)),
        more: (more > 0).then(|| session.say(phrase::more_birds(more))),
    }
}

/// What is asked and how to look, for the place or the overlay that shows.
pub fn words(session: &Session) -> (Text, Text) {
    match session.overlays.last() {
        Some(Overlay::Map(None)) if session.practice.is_some() => return story(session),
        Some(Overlay::Lessons | Overlay::Deeds | Overlay::Judging | Overlay::HandOver) => return in_practice(session),
        Some(Overlay::Map(None)) => {
            return (phrase::steps().into(), phrase::steps_look().into());
        }
        Some(Overlay::Map(Some(step))) => {
            let name = &session.protocol.steps.of(*step).name;
            return (phrase::step(Text::quoted(name)).into(), phrase::step_look().into());
        }
        Some(Overlay::Countries) => return (phrase::law().into(), phrase::law_look().into()),
        Some(Overlay::House) => {
            let supply = match session.line.as_ref().map(TypedLine::of) {
                Some(TypingOf::Supply(at)) => Some(session.protocol.supply(at)),
                Some(TypingOf::Answer | TypingOf::Blood | TypingOf::Case(_) | TypingOf::Label | TypingOf::Value(_))
                | None => None,
            };
            return match supply {
                Some(supply) => (phrase::of(Text::opening(Text::quoted(&supply.name))).into(), told_of(supply).into()),
                None => (phrase::house().into(), phrase::house_look().into()),
            };
        }
        Some(
            Overlay::Flock
            | Overlay::Case
            | Overlay::Outcomes
            | Overlay::Death
            | Overlay::Parted
            | Overlay::Particulars
            | Overlay::Contacts,
        ) => return birds::words(session),
        Some(Overlay::Page(Page::Label)) => return (phrase::label().into(), phrase::label_look().into()),
        Some(Overlay::Help | Overlay::Why(_) | Overlay::Sums(_) | Overlay::Page(_)) | None => {}
    }
    match &session.exam.place {
        Place::Ask(asked) => {
            let question = session.protocol.ask(asked.question);
            let kind = session.exam.kind();
            let asks = Text::quoted(question.ask_of(kind));
            let ask = match asked.about {
                About::Bird => asks,
                About::Wound(number) => {
                    words_of::named(wound_name(session.protocol, &session.exam.findings, number), asks).into()
                }
            };
            (ask, Text::quoted(question.look_at(kind)))
        }
        Place::List(list) => {
            let SignList { ask, look, .. } = session.protocol.sign_list(*list);
            (Text::quoted(ask), Text::quoted(look))
        }
        Place::Wounds => {
            let none = session.exam.findings.wounds() == 0;
            let ask = if none { phrase::wound() } else { phrase::another_wound() };
            let look = if session.exam.spares_her() { phrase::wound_spared() } else { phrase::wound_look() };
            (ask.into(), look.into())
        }
        Place::Instruction(..) | Place::Done => Default::default(),
    }
}

/// What one is told on coming to her, above the steps to choose from.
fn story(session: &Session) -> (Text, Text) {
    let trial = session.practice.as_ref().and_then(|practice| practice.trial.as_ref());
    let told = trial.map_or_else(Text::default, |trial| Text::quoted(trial.script.opens()));
    let ask = if session.log.is_empty() { lesson::first() } else { lesson::next() };
    (ask.into(), told)
}

/// What stands over the lists of practice.
fn in_practice(session: &Session) -> (Text, Text) {
    if let Some(writing) = session.writing() {
        return birds::asked(writing);
    }
    let given = session.practice.as_ref().and_then(|practice| practice.trial.as_ref()).map(|trial| trial.given);
    let (ask, look) = match (session.overlays.last(), given) {
        (Some(Overlay::Deeds), _) => (lesson::deeds(), lesson::deeds_look()),
        (Some(Overlay::HandOver), _) => (lesson::look_over(), lesson::look_over_look()),
        (Some(Overlay::Judging), Some(given)) => match (given.need, given.humane) {
            (None, _) => (lesson::need(), lesson::need_look()),
            (Some(_), None) => (lesson::humane(), lesson::humane_look()),
            (Some(_), Some(_)) => (lesson::authority(), lesson::authority_look()),
        },
        _ => (lesson::which(), lesson::which_look()),
    };
    (ask.into(), look.into())
}

/// What the practice bird shows here, as it is told; where a mentor reads aloud, with the sentence to say.
pub fn shown(session: &Session) -> Vec<Phrase> {
    if !session.overlays.is_empty() {
        return Vec::new();
    }
    let told = match &session.exam.place {
        Place::Ask(asked) => practice::shown(session, *asked).into_iter().collect(),
        Place::List(list) => practice::shown_of_list(session, *list).unwrap_or_default(),
        Place::Wounds => practice::shown_of_wounds(session).into_iter().collect(),
        Place::Instruction(..) | Place::Done => Vec::new(),
    };
    let aloud = session.practice.as_ref().is_some_and(|practice| practice.aloud);
    let line = |Shown { how, what }: Shown| {
        let told = words_of::named(how, what);
        if aloud { lesson::tell(told) } else { told }
    };
    let say = aloud.then(|| {
        let answers = rows::rows(session).into_iter().map(|row| row.label);
        let answers = answers.reduce(|before, next| lesson::or(before, next).into());
        lesson::say(words(session).0, answers.unwrap_or_default())
    });
    say.into_iter().chain(told.into_iter().map(line)).collect()
}

/// What is asked of a supply that is put in the house.
const fn told_of(supply: &Supply) -> Phrase {
    match (supply.thin_to.is_some(), supply.dated) {
        (true, true) => phrase::strength_and_date(),
        (true, false) => phrase::strength(),
        (false, _) => phrase::date(),
    }
}

/// The words in question and answers that a keeper may not know, each with what it means.
pub fn terms(session: &Session, ask: &str, look: &str) -> Vec<Phrase> {
    let rows: Vec<String> = rows::rows(session).into_iter().map(|row| session.say(row.label)).collect();
    let texts = [ask, look].into_iter().chain(rows.iter().map(String::as_str));
    let told = session.protocol.terms_in(texts).into_iter();
    told.map(|term| words_of::named(Text::quoted(&term.term), Text::quoted(&term.means))).collect()
}

/// That one can go on with the bird that was left, and since when.
pub fn resume_line(session: &Session) -> Phrase {
    let last = session.left.as_ref().and_then(|left| left.log.last());
    last.map_or_else(phrase::resume, |stamped| phrase::resume_since(Text::clock(stamped.at)))
}

/// What was answered last time, at a later look, where that answer does not stand among the lines.
pub fn last_time(session: &Session) -> Option<Phrase> {
    let Place::Ask(asked) = session.exam.place else { return None };
    let said = session.exam.last_time(asked).filter(|_| session.overlays.is_empty())?;
    let question = session.protocol.ask(asked.question);
    if matches!(&said.statement.answer, Answer::Choice(id) if question.choice_at(id.as_str()).is_some()) {
        return None;
    }
    Some(phrase::last_time(Text::day(said.at), answers::of(question, &said.statement.answer)))
}

/// What was said last, so that a slip of the hand is seen; one key takes it back.
pub fn echo(session: &Session) -> Option<Phrase> {
    if !session.overlays.is_empty() || session.line.is_some() || session.practice.is_some() {
        return None;
    }
    let back = named::key(session, Action::Back)?;
    let standing = log::standing(&session.log);
    let said = standing.iter().rev().find(|stamped| stamped.entry.kind().is_decision())?;
    let Entry::Said(statements) = &said.entry else { return None };
    let told = |said: &Statement| {
        let at = session.protocol.question_at(said.question.as_str())?;
        let question = session.protocol.ask(at);
        let topic = topic(session.protocol, Asked { about: said.about, question: at });
        Some(Text::from(words_of::named(topic, answers::of(question, &said.answer))))
    };
    let what = match statements.as_slice() {
        [said] => told(said)?,
        [.., Statement { answer: Answer::CannotTell, .. }] => words_of::cannot_tell().into(),
        [.., last] if session.protocol.question_at(last.question.as_str()).is_some() => phrase::the_rest().into(),
        _ => return None,
    };
    Some(phrase::said(what, back))
}

/// That the question asked can no longer change the outcome, where that is so; it may then be skipped in one key.
pub fn no_longer_weighs(session: &Session) -> Option<Phrase> {
    let Place::Ask(asked) = session.exam.place else { return None };
    let hidden = !session.overlays.is_empty() || session.practice.is_some() || session.line.is_some();
    if hidden || session.exam.standing(asked).is_some() {
        return None;
    }
    if session.protocol.ask(asked.question).adds_to.is_some() {
        return Some(phrase::skip_vet_only());
    }
    match bearing(session.protocol, &session.exam.findings, &session.verdict, asked) {
        Bearing::Outcome => None,
        Bearing::Care => Some(phrase::skip_care()),
        Bearing::Nothing => Some(phrase::skip_nothing()),
    }
}
