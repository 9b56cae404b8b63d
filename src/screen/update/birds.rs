//! The birds that are kept: the list of them, one bird's case, and what is written into it.

use super::{Effect, choose, overlay, record, timing};
use crate::days::{self, again, due};
use crate::exam::{self, Hands, Place};
use crate::finding::log::{Entry, Outcome, Stamped};
use crate::finding::particular::Particular;
use crate::ledger::{Case, CaseId, Covered};
use crate::phrase::{Phrase, Text, birds as phrase};
use crate::protocol::whom::Whom;
use crate::screen::change::Change;
use crate::screen::model::{Face, Model, Overlay, Page};
use crate::screen::rows::{self, Meaning, PAGE};
use chrono::{DateTime, Utc};

/// What is being written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Writing {
    /// The bird's name.
    Name,
    /// What a vet said.
    VetSaid,
    /// What an outcome proved right or wrong.
    Proved(Outcome),
    /// Her name, or a word that is shown, so that no other bird's case is closed or put away.
    Sure(Closing),
    /// Letters by which birds are looked for.
    Letters,
    /// Who practises.
    Novice,
    /// What a vet will ask.
    Noted(Particular),
    /// Whom to call.
    Contact(Whom),
}

/// What is not done before her name was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closing {
    /// Her case is closed: she died, or her life was ended.
    Ended(Outcome),
    /// Her case is put out of sight.
    Away,
}

impl Closing {
    /// The word that is typed for a bird without a name.
    pub const fn word(self) -> Phrase {
        match self {
            Self::Ended(Outcome::HumaneEnd) => phrase::word_ended(),
            Self::Ended(_) => phrase::word_died(),
            Self::Away => phrase::word_away(),
        }
    }
}

/// What was seen of the signs of death.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DeathSeen {
    /// She is stiff all over.
    Stiff,
    /// No breath, no blink, limp, at two looks.
    Twice,
    /// The same at one look.
    Once,
    /// She is cold or soaked.
    Cold,
    /// One of the signs is not there, or cannot be told.
    Doubt,
}

/// What a row of a case, or of the list of all, stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Looks at her again.
    Look,
    /// Goes on with the look that was left.
    GoOn,
    /// Shows her days.
    Days,
    /// Writes something down.
    Write(Writing),
    /// Tells how it ended.
    End,
    /// Closes her case so, once it is sure.
    Close(Outcome),
    /// Says what was seen of the signs of death.
    Death(DeathSeen),
    /// Nothing: the line takes no key now.
    NotNow,
    /// Puts her out of sight, or brings her back.
    PutAway,
    /// Shows the handover sheet.
    HandOver,
    /// Shows what a vet will ask.
    Particulars,
    /// Shows all birds.
    All,
    /// Begins with another bird.
    NewBird,
    /// Shows closed birds too, or no longer.
    ShowClosed,
    /// Opens a bird's case.
    Open(CaseId),
    /// Goes on with this window's own.
    Keep,
}

/// Opens this bird's case; before anything is known of one, the list of all.
pub(super) fn birds(model: &mut Model) -> Vec<Effect> {
    match model.overlays.last() {
        // From her case, the same key leads on to all birds.
        Some(Overlay::Case) => return list(model),
        Some(_) => return Vec::new(),
        None if model.log.is_empty() => return list(model),
        None => {}
    }
    model.work_out_due();
    overlay(model, Overlay::Case)
}

/// Opens the list of all birds.
pub(super) fn list(model: &mut Model) -> Vec<Effect> {
    let mut effects = overlay(model, Overlay::Flock);
    effects.push(Effect::List(model.flock.filter.clone()));
    effects
}

/// Takes the cases that were asked for. The cursor stays on its bird, wherever she stands now.
pub(super) fn listed(model: &mut Model, cases: Vec<Covered>, all: usize) -> Vec<Effect> {
    let listed = model.overlays.last() == Some(&Overlay::Flock);
    let under = model.cursor.filter(|_| listed).and_then(|at| opens(&rows::page(model).into_iter().nth(at)?.meaning));
    (model.flock.cases, model.flock.all) = (cases, all);
    if let Some(id) = under {
        let place = rows::rows(model).iter().position(|row| opens(&row.meaning).as_ref() == Some(&id));
        model.cursor = place.map(|place| place % PAGE);
        model.page = place.map_or(0, |place| place / PAGE);
    }
    if listed {
        model.page = model.page.min(rows::pages(model) - 1);
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

/// A figure in the list of birds: the first lines have fixed numbers; else the bird who bears the number, wherever she stands.
/// A number of one figure opens her at once; one of several brings the cursor to her, and enter opens her.
pub(super) fn by_number(model: &mut Model, which: usize) -> Vec<Effect> {
    if model.flock.typed.is_empty() && which < rows::TOOLS {
        model.page = 0;
        return choose(model, which);
    }
    let typed = format!("{}{}", model.flock.typed, which + 1);
    let rows = rows::rows(model);
    let of = |row: &rows::Row| row.number().is_some_and(|number| *number == *typed);
    if let Some((place, row)) = rows.iter().enumerate().find(|(_, row)| of(row)) {
        model.flock.typed.clear();
        let meaning = row.meaning.clone();
        return match meaning {
            Meaning::Case(Doing::Open(id)) if typed.len() == 1 => vec![Effect::Open(id)],
            _ => {
                (model.page, model.cursor) = (place / PAGE, Some(place % PAGE));
                model.notice = Some(phrase::number_opens(Text::typed(typed)).into());
                Vec::new()
            }
        };
    }
    let begins = |row: &rows::Row| row.number().is_some_and(|number| number.starts_with(&typed));
    if rows.iter().any(begins) {
        model.notice = Some(phrase::number_goes_on(Text::typed(&typed)).into());
        model.flock.typed = typed;
    } else {
        model.notice = Some(phrase::number_none(Text::typed(typed)).into());
        model.flock.typed.clear();
    }
    Vec::new()
}

/// Shows closed birds and those put out of sight too, or no longer.
pub(super) fn show_closed(model: &mut Model) -> Vec<Effect> {
    let filter = &mut model.flock.filter;
    (filter.closed, filter.archived) = (!filter.closed, !filter.closed);
    vec![Effect::List(filter.clone())]
}

/// Takes a case that was asked for: from here on, this is the bird.
pub(super) fn opened(model: &mut Model, case: Case) -> Vec<Effect> {
    let mut effects = vec![Effect::GoOnWith(case.id.clone(), case.log.len())];
    become_bird(model, Some(case.id), case.log);
    // Nobody knows whether she was held meanwhile; the clock of the hand starts anew.
    if matches!(model.hands(), Hands::Held(_)) {
        effects.extend(record(model, vec![Entry::PutDown]));
    }
    model.work_out_due();
    model.overlays = vec![Overlay::Case];
    effects
}

/// Begins with another bird.
pub(super) fn new_bird(model: &mut Model) -> Vec<Effect> {
    become_bird(model, None, Vec::new());
    model.left = None;
    vec![Effect::NewBird]
}

/// Turns to another bird. A clock that runs for the one that is left goes on for her.
pub(super) fn become_bird(model: &mut Model, case: Option<CaseId>, log: Vec<Stamped>) {
    let left = timing::left(model);
    (model.case, model.log) = (case, log);
    model.flock.clocks.extend(left);
    timing::own_again(model);
    model.give_up_entering();
    model.face = Face::Exam;
    model.overlays.clear();
    model.flock.parted = None;
    model.work_out();
    model.look_afresh();
}

/// How her case was closed, or that it was put away; nothing where it is open.
pub(super) fn closed_as(model: &Model) -> Option<Text> {
    let ended = model.days.end.as_ref().map(|end| days::outcome(end.outcome).into());
    ended.or_else(|| model.days.archived.then(|| phrase::is_away().into()))
}

/// Begins a look: what it asks is worked out now, and written with it.
pub(super) fn look_now(model: &mut Model) -> Vec<Effect> {
    let asks = again::asks(model.protocol, &model.exam.findings, &model.verdict, &model.plan, model.now);
    model.overlays.clear();
    model.face = Face::Exam;
    // Whoever looks at her has not put her away: her looks are called again.
    let open = closed_as(model).map(|_| Entry::Reopened);
    record(model, open.into_iter().chain([Entry::LookBegan(asks)]).collect())
}

/// Starts writing.
pub(super) fn write(model: &mut Model, what: Writing) -> Vec<Effect> {
    model.writing = Some(what);
    model.typed = Some(match what {
        Writing::Name => model.days.name.clone(),
        Writing::Letters => model.flock.filter.text.clone(),
        Writing::Novice => model.practice.as_ref().map(|practice| practice.novice.clone()).unwrap_or_default(),
        Writing::Noted(what) if !what.adds_up() => {
            let stands = model.days.noted.iter().find(|noted| noted.what == what);
            stands.map(|noted| noted.said.clone()).unwrap_or_default()
        }
        Writing::Contact(whom) => model.contacts.of(whom).unwrap_or_default().to_owned(),
        Writing::VetSaid | Writing::Noted(_) | Writing::Proved(_) | Writing::Sure(_) => String::new(),
    });
    Vec::new()
}

/// Takes what was written. A name and what adds up to a list need some; an empty word of a vet takes the last one back; anything
/// else may be emptied, and an outcome may go without a word.
pub(super) fn written(model: &mut Model, what: Writing, typed: &str) -> Vec<Effect> {
    if let Writing::Sure(closing) = what {
        return sure(model, closing, typed);
    }
    (model.typed, model.writing) = (None, None);
    let typed = typed.trim().to_owned();
    let entry = match what {
        Writing::Letters => {
            model.flock.filter.text = typed;
            model.look_afresh();
            return vec![Effect::List(model.flock.filter.clone())];
        }
        Writing::Novice => {
            if let Some(practice) = &mut model.practice {
                practice.novice = typed;
            }
            model.look_afresh();
            return Vec::new();
        }
        Writing::Contact(whom) => {
            model.contacts.put(whom, &typed);
            model.lay_cards();
            return vec![Effect::Change(model.changed(Change::Contact(whom, typed)))];
        }
        Writing::Name if typed.is_empty() => return Vec::new(),
        Writing::VetSaid if typed.is_empty() && model.days.heard.is_empty() => return Vec::new(),
        Writing::Noted(what) if what.adds_up() && typed.is_empty() => return Vec::new(),
        Writing::Noted(what) => Entry::Noted(what, typed),
        Writing::Name => Entry::Named(typed),
        Writing::VetSaid => Entry::VetSaid(typed),
        Writing::Proved(outcome) => {
            model.overlays.retain(|overlay| !matches!(overlay, Overlay::Outcomes | Overlay::Death));
            return closed(model, outcome, typed);
        }
        // Taken above.
        Writing::Sure(_) => return Vec::new(),
    };
    let effects = record(model, vec![entry]);
    model.work_out_due();
    effects
}

/// What has to be typed before this is done: her name, or a word that is shown.
pub fn sure_word(model: &Model, closing: Closing) -> String {
    let name = model.days.name.trim();
    if name.is_empty() { model.say(closing.word()) } else { name.to_owned() }
}

/// Takes her name as it was typed; another one closes nothing.
fn sure(model: &mut Model, closing: Closing, typed: &str) -> Vec<Effect> {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let word = sure_word(model, closing);
    if plain(typed) != plain(&word) {
        model.typed = Some(String::new());
        model.notice = Some(phrase::not_the_word(Text::typed(word)).into());
        return Vec::new();
    }
    match closing {
        Closing::Ended(outcome) => write(model, Writing::Proved(outcome)),
        Closing::Away => {
            (model.typed, model.writing) = (None, None);
            let effects = record(model, vec![Entry::Archived]);
            model.work_out_due();
            effects
        }
    }
}

/// Closes her case. Where nothing more is to be done for her, what runs by the clock ends with it.
fn closed(model: &mut Model, outcome: Outcome, proved: String) -> Vec<Effect> {
    let mut entries = Vec::new();
    if outcome.is_over() {
        if let Place::Instruction(at, _) = model.exam.place {
            entries.push(exam::ended(model.protocol, at));
        }
        entries.extend(model.timer().map(|_| Entry::ClockEnded));
        entries.extend(matches!(model.hands(), Hands::Held(_)).then_some(Entry::PutDown));
    }
    entries.push(Entry::Closed { outcome, proved });
    let effects = record(model, entries);
    model.work_out_due();
    effects
}

/// Closes her case so, once it is sure: a death by its signs, and what cannot be undone for her by her name.
fn close(model: &mut Model, outcome: Outcome) -> Vec<Effect> {
    match outcome {
        Outcome::Died => overlay(model, Overlay::Death),
        Outcome::HumaneEnd => write(model, Writing::Sure(Closing::Ended(outcome))),
        Outcome::Recovered | Outcome::MovedOn => write(model, Writing::Proved(outcome)),
    }
}

/// Takes what was seen of the signs of death; where they are not all there, nothing is closed, and what to do is said.
fn death(model: &mut Model, seen: DeathSeen) -> Vec<Effect> {
    let what = match seen {
        DeathSeen::Stiff | DeathSeen::Twice => {
            return write(model, Writing::Sure(Closing::Ended(Outcome::Died)));
        }
        DeathSeen::Once => phrase::dead_once(),
        DeathSeen::Cold => phrase::dead_cold(),
        DeathSeen::Doubt => phrase::dead_doubt(),
    };
    model.overlays.retain(|overlay| !matches!(overlay, Overlay::Outcomes | Overlay::Death));
    model.look_afresh();
    model.notice = Some(what.into());
    Vec::new()
}

/// Shows the handover sheet, without anybody's name.
pub(super) fn sheet(model: &mut Model) -> Vec<Effect> {
    model.tells_keeper = false;
    overlay(model, Overlay::Page(Page::Handover))
}

/// On the sheet: tells who keeps her, or no longer.
pub(super) fn tell_keeper(model: &mut Model) -> Vec<Effect> {
    if model.overlays.last() == Some(&Overlay::Page(Page::Handover)) {
        model.tells_keeper = !model.tells_keeper;
        let what = if model.tells_keeper { phrase::keeper_told() } else { phrase::keeper_not_told() };
        model.notice = Some(what.into());
    }
    Vec::new()
}

/// Puts her out of sight once her name was typed, or brings her back.
pub(super) fn put_away(model: &mut Model) -> Vec<Effect> {
    if !model.days.archived && model.days.end.is_none() {
        return write(model, Writing::Sure(Closing::Away));
    }
    let effects = record(model, vec![Entry::Reopened]);
    model.work_out_due();
    effects
}

/// A look that has nothing left to ask is over.
pub(super) fn look_done(model: &Model) -> Option<Entry> {
    (model.exam.place == Place::Done && model.days.looking()).then_some(Entry::LookDone)
}

/// Another window went on with this bird: both are kept, and which one goes on here is asked.
pub(super) fn parted(model: &mut Model, theirs: CaseId) -> Vec<Effect> {
    model.flock.parted = Some(theirs);
    ask_about_parting(model);
    Vec::new()
}

/// Asks it as soon as no instruction fills the screen: what has to be done this minute is never covered.
pub(super) fn ask_about_parting(model: &mut Model) {
    let busy = matches!(model.exam.place, Place::Instruction(..)) && model.face == Face::Exam;
    if model.flock.parted.is_some() && !busy && !model.overlays.contains(&Overlay::Parted) {
        overlay(model, Overlay::Parted);
    }
}

/// When looks are due, with the bird's name: this bird's, and the others'.
pub(super) fn looks_due(model: &Model) -> Vec<(DateTime<Utc>, String)> {
    let own = model.due.next().map(|look| (look.at, due::bird(model.protocol, &model.log, &model.days)));
    let waiting = model.flock.waiting.birds.iter();
    let others = waiting.flat_map(|waiting| {
        [Some(waiting.at), waiting.next].into_iter().flatten().map(|at| (at, waiting.bird.clone()))
    });
    own.into_iter().chain(others).map(|(at, bird)| (at, model.reader().say(&bird))).collect()
}

/// Does what a row of a case, or of the list of all, stands for.
pub(super) fn act(model: &mut Model, doing: Doing) -> Vec<Effect> {
    match doing {
        Doing::Look => look_now(model),
        Doing::GoOn => {
            model.overlays.clear();
            model.face = Face::Exam;
            model.look_afresh();
            Vec::new()
        }
        Doing::Days => overlay(model, Overlay::Page(Page::Days)),
        Doing::Write(what) => write(model, what),
        Doing::End => overlay(model, Overlay::Outcomes),
        Doing::Close(outcome) => close(model, outcome),
        Doing::Death(seen) => death(model, seen),
        Doing::NotNow => {
            model.notice = Some(phrase::no_key_now().into());
            Vec::new()
        }
        Doing::PutAway => put_away(model),
        Doing::HandOver => sheet(model),
        Doing::Particulars => overlay(model, Overlay::Particulars),
        Doing::All => list(model),
        Doing::NewBird => new_bird(model),
        Doing::ShowClosed => show_closed(model),
        Doing::Open(id) => vec![Effect::Open(id)],
        Doing::Keep => {
            model.overlays.pop();
            model.flock.parted = None;
            Vec::new()
        }
    }
}
