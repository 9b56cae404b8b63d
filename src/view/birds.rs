//! What stands over the birds that are kept, over one bird's case, and over what is written into it.

use crate::content::days::due_line;
use crate::content::particulars;
use crate::content::terms::{advice, whom as whom_called};
use crate::days::{self, cover, due};
use crate::finding::log::Outcome;
use crate::phrase::{Phrase, Text, birds as phrase, lesson, question, terms};
use crate::session::writing::{Closing, Writing};
use crate::session::{Overlay, Session};

/// What is asked, and what is told beside it.
pub fn words(session: &Session) -> (Text, Text) {
    if let Some(writing) = session.writing() {
        return match writing {
            Writing::Sure(closing) => sure(session, closing),
            other => asked(other),
        };
    }
    let (ask, look) = match session.overlays.last() {
        Some(Overlay::Particulars) => (phrase::particulars(), phrase::particulars_look()),
        Some(Overlay::Contacts) => (phrase::contacts(), phrase::contacts_look()),
        Some(Overlay::Flock) => return (phrase::all().into(), all(session)),
        Some(Overlay::Outcomes) => (phrase::outcomes(), phrase::outcomes_look()),
        Some(Overlay::Death) => (phrase::death(), phrase::death_look()),
        Some(Overlay::Parted) => (phrase::parted(), phrase::parted_look()),
        _ => return of_case(session),
    };
    (ask.into(), look.into())
}

/// How many birds there are, and in which order they stand.
fn all(session: &Session) -> Text {
    if !session.flock.is_listed {
        return phrase::being_listed().into();
    }
    let (all, shown) = (session.flock.all, session.flock.cases.len());
    let first = (all > shown).then(|| phrase::first(shown));
    Text::row([phrase::count(all)].into_iter().chain(first).chain([phrase::order()]))
}

/// How she stands, and what becomes of her case next.
fn of_case(session: &Session) -> (Text, Text) {
    let need = cover::state(session.protocol, &session.log, &session.days, &session.verdict);
    let state = match &session.days.end {
        Some(end) if end.outcome.is_over() => phrase::closed_at(Text::day(end.at)).into(),
        Some(end) => phrase::ended_at(Text::opening(days::outcome(end.outcome)), Text::day(end.at)).into(),
        None if session.days.archived => phrase::no_look_called().into(),
        None => due_line(&session.due).unwrap_or_else(|| phrase::no_look_due().into()),
    };
    (terms::named(bird(session), need).into(), Text::row(talk(session).map(Text::from).into_iter().chain([state])))
}

/// Whom to talk to, where a humane end is advised for her and her case is not over.
fn talk(session: &Session) -> Option<Phrase> {
    advice(session.verdict.humane.low).filter(|_| session.days.over().is_none()).map(|_| phrase::talk())
}

/// The bird that lies open, as a sentence begins.
fn bird(session: &Session) -> Text {
    Text::opening(due::bird(session.protocol, &session.log, &session.days))
}

/// What is asked before a case is closed or put away.
fn sure(session: &Session, closing: Closing) -> (Text, Text) {
    let (bird, word) = (bird(session), Text::typed(sure_word(session, closing)));
    let (ask, look) = match closing {
        Closing::Ended(Outcome::HumaneEnd) => (phrase::sure_ended(bird), phrase::sure_closes(word)),
        Closing::Ended(_) => (phrase::sure_died(bird), phrase::sure_closes(word)),
        Closing::Away => (phrase::sure_away(bird), phrase::sure_puts_away(word)),
    };
    (ask.into(), look.into())
}

/// What is asked where something is written.
pub fn asked(writing: Writing) -> (Text, Text) {
    let of = |what: Text| question::of(Text::opening(what)).into();
    let (ask, look) = match writing {
        Writing::Noted(what) => return (of(particulars::name(what).into()), particulars::ask(what).into()),
        Writing::Contact(whom) => return (of(whom_called(whom).into()), phrase::contact_look().into()),
        Writing::Name => (phrase::name(), phrase::name_look()),
        Writing::VetSaid => (phrase::vet_said(), phrase::vet_said_look()),
        // Asked with the bird before one: see above.
        Writing::Sure(_) => return (phrase::type_name().into(), Text::default()),
        Writing::Proved(_) => (phrase::proved(), phrase::proved_look()),
        Writing::Novice => (lesson::novice(), lesson::novice_look()),
        Writing::Letters => (phrase::letters(), phrase::letters_look()),
    };
    (ask.into(), look.into())
}

/// The birds that wait for a look, for the start: each with when somebody looked last.
pub fn waiting(session: &Session) -> Vec<Text> {
    let due = session.flock.waiting.birds.iter().filter(|waiting| waiting.at <= session.now);
    due.map(|waiting| {
        let at = Text::day(waiting.at);
        let since = if waiting.unexamined { phrase::unexamined_since(at) } else { phrase::due_since(at) };
        let last = waiting.last.map(|last| phrase::last_looked(Text::day(last)));
        let told = Text::list([since].into_iter().chain(last));
        terms::named(Text::opening(waiting.bird.clone()), told).into()
    })
    .collect()
}

/// What has to be typed before this is done: her name, or a word that is shown.
pub fn sure_word(session: &Session, closing: Closing) -> String {
    let name = session.days.name.trim();
    if name.is_empty() { session.say(closing.word()) } else { name.to_owned() }
}
