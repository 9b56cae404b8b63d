//! The birds that are kept: the list of them, one bird's case, and what is written into it.

use super::opening::overlay;
use super::record::record;
use super::traffic::Effect;
use super::{follow, timing};
use crate::days::{self, again, due};
use crate::exam::{self, Hands, Place};
use crate::finding::log::{Entry, Outcome, Stamped};
use crate::ledger::{Case, CaseId, Covered};
use crate::phrase::{Text, birds as phrase};
use crate::session::change::Change;
use crate::session::line::{TypedLine, TypingOf};
use crate::session::writing::{Closing, Writing};
use crate::session::{Face, Overlay, Page, Session};
use crate::view::birds::sure_word;
use crate::view::meaning::{DeathSeen, Doing, Meaning};
use crate::view::rows::{self, PAGE};
use chrono::{DateTime, Utc};

/// Opens this bird's case; before anything is known of one, the list of all.
pub(super) fn birds(session: &mut Session) -> Vec<Effect> {
    match session.overlays.last() {
        // From her case, the same key leads on to all birds.
        Some(Overlay::Case) => return list(session),
        Some(_) => return Vec::new(),
        None if session.log.is_empty() => return list(session),
        None => {}
    }
    session.work_out_due();
    overlay(session, Overlay::Case)
}

/// Opens the list of all birds.
pub(super) fn list(session: &mut Session) -> Vec<Effect> {
    let mut effects = overlay(session, Overlay::Flock);
    effects.push(Effect::List(session.flock.filter.clone()));
    effects
}

/// Takes the cases that were asked for. The cursor stays on its bird, wherever she stands now.
pub(super) fn listed(session: &mut Session, cases: Vec<Covered>, all: usize) -> Vec<Effect> {
    let listed = session.overlays.last() == Some(&Overlay::Flock);
    let under =
        session.cursor.filter(|_| listed).and_then(|at| opens(&rows::page(session).into_iter().nth(at)?.meaning));
    (session.flock.cases, session.flock.all, session.flock.is_listed) = (cases, all, true);
    if let Some(id) = under {
        let place = rows::rows(session).iter().position(|row| opens(&row.meaning).as_ref() == Some(&id));
        session.cursor = place.map(|place| place % PAGE);
        session.page = place.map_or(0, |place| place / PAGE);
    }
    if listed {
        session.page = session.page.min(rows::pages(session) - 1);
    }
    Vec::new()
}

/// The case a row opens.
fn opens(meaning: &Meaning) -> Option<CaseId> {
    match meaning {
        Meaning::Case(Doing::Open(id)) => Some(id.clone()),
        _ => None,
    }
}

/// Shows closed birds and those put out of sight too, or no longer.
pub(super) fn show_closed(session: &mut Session) -> Vec<Effect> {
    let filter = &mut session.flock.filter;
    (filter.closed, filter.archived) = (!filter.closed, !filter.closed);
    vec![Effect::List(filter.clone())]
}

/// Takes a case that was asked for: from here on, this is the bird.
pub(super) fn opened(session: &mut Session, case: Case) -> Vec<Effect> {
    let mut effects = vec![Effect::GoOnWith(case.id.clone(), case.log.len())];
    become_bird(session, Some(case.id), case.log);
    // Nobody knows whether she was held meanwhile; the clock of the hand starts anew.
    if matches!(session.hands(), Hands::Held(_)) {
        effects.extend(record(session, vec![Entry::PutDown]));
    }
    session.work_out_due();
    session.overlays = vec![Overlay::Case];
    effects
}

/// Begins with another bird.
pub(super) fn new_bird(session: &mut Session) -> Vec<Effect> {
    become_bird(session, None, Vec::new());
    session.left = None;
    vec![Effect::NewBird]
}

/// Turns to another bird. A clock that runs for the one that is left goes on for her.
pub(super) fn become_bird(session: &mut Session, case: Option<CaseId>, log: Vec<Stamped>) {
    let left = timing::left(session);
    (session.case, session.log) = (case, log);
    session.flock.clocks.extend(left);
    timing::own_again(session);
    session.give_up_entering();
    session.face = Face::Exam;
    session.overlays.clear();
    session.flock.parted = None;
    session.work_out();
    session.look_afresh();
}

/// How her case was closed, or that it was put away; nothing where it is open.
pub(super) fn closed_as(session: &Session) -> Option<Text> {
    let ended = session.days.end.as_ref().map(|end| days::outcome(end.outcome).into());
    ended.or_else(|| session.days.archived.then(|| phrase::is_away().into()))
}

/// Begins a look: what it asks is worked out now, and written with it.
pub(super) fn look_now(session: &mut Session) -> Vec<Effect> {
    let asks = again::asks(session.protocol, &session.exam.findings, &session.verdict, &session.plan, session.now);
    session.overlays.clear();
    session.face = Face::Exam;
    // Whoever looks at her has not put her away: her looks are called again.
    let open = closed_as(session).map(|_| Entry::Reopened);
    record(session, open.into_iter().chain([Entry::LookBegan(asks)]).collect())
}

/// Starts writing.
pub(super) fn write(session: &mut Session, what: Writing) -> Vec<Effect> {
    let begins = match what {
        Writing::Name => session.days.name.clone(),
        Writing::Letters => session.flock.filter.text.clone(),
        Writing::Novice => session.practice.as_ref().map(|practice| practice.novice.clone()).unwrap_or_default(),
        Writing::Noted(what) if !what.adds_up() => {
            let stands = session.days.noted.iter().find(|noted| noted.what == what);
            stands.map(|noted| noted.said.clone()).unwrap_or_default()
        }
        Writing::Contact(whom) => session.contacts.of(whom).unwrap_or_default().to_owned(),
        Writing::VetSaid | Writing::Noted(_) | Writing::Proved(_) | Writing::Sure(_) => String::new(),
    };
    session.line = Some(TypedLine::with(TypingOf::Case(what), begins));
    Vec::new()
}

/// Takes what was written. A name and what adds up to a list need some; an empty word of a vet takes the last one back; anything
/// else may be emptied, and an outcome may go without a word.
pub(super) fn written(session: &mut Session, what: Writing, typed: &str) -> Vec<Effect> {
    if let Writing::Sure(closing) = what {
        return sure(session, closing, typed);
    }
    session.line = None;
    let typed = typed.trim().to_owned();
    let entry = match what {
        Writing::Letters => {
            session.flock.filter.text = typed;
            session.look_afresh();
            return vec![Effect::List(session.flock.filter.clone())];
        }
        Writing::Novice => {
            if let Some(practice) = &mut session.practice {
                practice.novice = typed;
            }
            session.look_afresh();
            return Vec::new();
        }
        Writing::Contact(whom) => {
            session.contacts.put(whom, &typed);
            session.lay_cards();
            return vec![Effect::Change(session.changed(Change::Contact(whom, typed)))];
        }
        Writing::Name if typed.is_empty() => return Vec::new(),
        Writing::VetSaid if typed.is_empty() && session.days.heard.is_empty() => return Vec::new(),
        Writing::Noted(what) if what.adds_up() && typed.is_empty() => return Vec::new(),
        Writing::Noted(what) => Entry::Noted(what, typed),
        Writing::Name => Entry::Named(typed),
        Writing::VetSaid => Entry::VetSaid(typed),
        Writing::Proved(outcome) => {
            session.overlays.retain(|overlay| !matches!(overlay, Overlay::Outcomes | Overlay::Death));
            return closed(session, outcome, typed);
        }
        // Taken above.
        Writing::Sure(_) => return Vec::new(),
    };
    let effects = record(session, vec![entry]);
    session.work_out_due();
    effects
}

/// Takes her name as it was typed; another one closes nothing.
fn sure(session: &mut Session, closing: Closing, typed: &str) -> Vec<Effect> {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let word = sure_word(session, closing);
    if plain(typed) != plain(&word) {
        session.begin_line(TypingOf::Case(Writing::Sure(closing)));
        session.notice = Some(phrase::not_the_word(Text::typed(word)).into());
        return Vec::new();
    }
    match closing {
        Closing::Ended(outcome) => write(session, Writing::Proved(outcome)),
        Closing::Away => {
            session.line = None;
            let effects = record(session, vec![Entry::Archived]);
            session.work_out_due();
            effects
        }
    }
}

/// Closes her case. Where nothing more is to be done for her, what runs by the clock ends with it.
fn closed(session: &mut Session, outcome: Outcome, proved: String) -> Vec<Effect> {
    let mut entries = Vec::new();
    if outcome.is_over() {
        if let Place::Instruction(at, _) = session.exam.place {
            entries.push(exam::ended(session.protocol, at));
        }
        entries.extend(session.timer().map(|_| Entry::ClockEnded));
        entries.extend(matches!(session.hands(), Hands::Held(_)).then_some(Entry::PutDown));
    }
    entries.push(Entry::Closed { outcome, proved });
    let effects = record(session, entries);
    session.work_out_due();
    effects
}

/// Closes her case so, once it is sure: a death by its signs, and what cannot be undone for her by her name.
fn close(session: &mut Session, outcome: Outcome) -> Vec<Effect> {
    match outcome {
        Outcome::Died => overlay(session, Overlay::Death),
        Outcome::HumaneEnd => write(session, Writing::Sure(Closing::Ended(outcome))),
        Outcome::Recovered | Outcome::MovedOn => write(session, Writing::Proved(outcome)),
    }
}

/// Takes what was seen of the signs of death; where they are not all there, nothing is closed, and what to do is said.
fn death(session: &mut Session, seen: DeathSeen) -> Vec<Effect> {
    let what = match seen {
        DeathSeen::Stiff | DeathSeen::Twice => {
            return write(session, Writing::Sure(Closing::Ended(Outcome::Died)));
        }
        DeathSeen::Once => phrase::dead_once(),
        DeathSeen::Cold => phrase::dead_cold(),
        DeathSeen::Doubt => phrase::dead_doubt(),
    };
    session.overlays.retain(|overlay| !matches!(overlay, Overlay::Outcomes | Overlay::Death));
    session.look_afresh();
    session.notice = Some(what.into());
    Vec::new()
}

/// Shows the handover sheet, without anybody's name.
pub(super) fn sheet(session: &mut Session) -> Vec<Effect> {
    session.tells_keeper = false;
    overlay(session, Overlay::Page(Page::Handover))
}

/// On the sheet: tells who keeps her, or no longer.
pub(super) fn tell_keeper(session: &mut Session) -> Vec<Effect> {
    if session.overlays.last() == Some(&Overlay::Page(Page::Handover)) {
        session.tells_keeper = !session.tells_keeper;
        let what = if session.tells_keeper { phrase::keeper_told() } else { phrase::keeper_not_told() };
        session.notice = Some(what.into());
    }
    Vec::new()
}

/// Puts her out of sight once her name was typed, or brings her back.
pub(super) fn put_away(session: &mut Session) -> Vec<Effect> {
    if !session.days.archived && session.days.end.is_none() {
        return write(session, Writing::Sure(Closing::Away));
    }
    let effects = record(session, vec![Entry::Reopened]);
    session.work_out_due();
    effects
}

/// Another window went on with this bird: both are kept, and which one goes on here is asked.
pub(super) fn parted(session: &mut Session, theirs: CaseId) -> Vec<Effect> {
    session.flock.parted = Some(theirs);
    follow::ask_about_parting(session);
    Vec::new()
}

/// When looks are due, with the bird's name: this bird's, and the others'.
pub(super) fn looks_due(session: &Session) -> Vec<(DateTime<Utc>, String)> {
    let own = session.due.next().map(|look| (look.at, due::bird(session.protocol, &session.log, &session.days)));
    let waiting = session.flock.waiting.birds.iter();
    let others = waiting.flat_map(|waiting| {
        [Some(waiting.at), waiting.next].into_iter().flatten().map(|at| (at, waiting.bird.clone()))
    });
    own.into_iter().chain(others).map(|(at, bird)| (at, session.reader().say(&bird))).collect()
}

/// Does what a row of a case, or of the list of all, stands for.
pub(super) fn act(session: &mut Session, doing: Doing) -> Vec<Effect> {
    match doing {
        Doing::Look => look_now(session),
        Doing::GoOn => {
            session.overlays.clear();
            session.face = Face::Exam;
            session.look_afresh();
            Vec::new()
        }
        Doing::Days => overlay(session, Overlay::Page(Page::Days)),
        Doing::Write(what) => write(session, what),
        Doing::End => overlay(session, Overlay::Outcomes),
        Doing::Close(outcome) => close(session, outcome),
        Doing::Death(seen) => death(session, seen),
        Doing::NotNow => {
            session.notice = Some(phrase::no_key_now().into());
            Vec::new()
        }
        Doing::PutAway => put_away(session),
        Doing::HandOver => sheet(session),
        Doing::Particulars => overlay(session, Overlay::Particulars),
        Doing::All => list(session),
        Doing::NewBird => new_bird(session),
        Doing::ShowClosed => show_closed(session),
        Doing::Open(id) => vec![Effect::Open(id)],
        Doing::Keep => {
            session.overlays.pop();
            session.flock.parted = None;
            Vec::new()
        }
    }
}
