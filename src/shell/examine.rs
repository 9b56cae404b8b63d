//! The examination on the whole screen: how it begins, and how it ends.

use super::command::{known_country, path};
use super::exit::Refusal;
use super::front::{Front, LineByLine};
use super::handover::unset;
use super::here::here;
use super::input::{self, Inputs};
use super::lesson::Lessons;
use super::options::{Opened, Options};
use super::output::Output;
use super::signals::Ending;
use super::sitting::Sitting;
use super::terminal::{self, Borrowed};
use super::writer::{LedgerWriter, LeftOver};
use super::{flock, set_aside};
use crate::ledger::CaseId;
use crate::phrase::command as phrase;
use crate::screen::Theme;
use crate::session::{Overlay, Session};
use crate::spoken::heard;
use crate::update;
use crate::words::{Voice, Words, say};
use anyhow::Result;
use chrono::Utc;
use std::io::{self, IsTerminal, Write};
use std::path::Path;
use std::process::ExitCode;
use std::sync::{Arc, mpsc};
use std::thread;
use std::time::Duration;

/// How long a slow disk may hold up leaving.
const PATIENCE: Duration = Duration::from_secs(2);
/// How long a terminal that takes nothing may hold up leaving where a signal asks for it.
const SIGNALLED: Duration = Duration::from_millis(400);
/// How long such a terminal may take for the last words.
const A_MOMENT: Duration = Duration::from_millis(100);

/// Runs the examination until the person leaves or a signal ends it.
pub fn examine(options: &Options, break_down: bool, practice: Option<Lessons>) -> Result<ExitCode> {
    let by_person = io::stdin().is_terminal();
    let at_terminal = by_person && io::stdout().is_terminal();
    // A terminal that cannot draw is told line by line.
    let spoken = options.spoken || (at_terminal && std::env::var_os("TERM").is_some_and(|term| term == "dumb"));
    if !spoken && !at_terminal {
        return Err(Refusal::Usage(phrase::needs_terminal().into()).into());
    }
    let Opened { protocol, words } = options.open()?;
    let protocol = Arc::new(protocol);
    let folder = options.folder()?;
    let practice = practice.map(|lessons| lessons.open(&protocol, words, &folder)).transpose()?;
    let kept = practice.as_ref().and_then(|_| flock::kept_country(&folder));
    // Practice keeps to a ledger of its own, and writes nothing into it.
    let folder = if practice.is_some() { folder.join(flock::FOLDER) } else { folder };
    let (to, heard) = input::line();
    let output = Output::start(to.clone()).map_err(unset(phrase::no_screen))?;
    let ending = Ending::listen((!spoken).then(|| output.clone())).map_err(unset(phrase::no_signals))?;
    let writer = LedgerWriter::start(folder.clone(), Arc::clone(&protocol), words);
    let now = Utc::now();
    let mut session = Session::new(&protocol, None, now, here());
    session.speak(words);
    session.voice = if spoken { Voice::Aloud } else { Voice::Written };
    if let Some(id) = &options.country {
        session.choose_country(known_country(&protocol, id)?);
    } else if let Some(id) = kept {
        session.choose_country(protocol.country(&id));
    }
    let mut marks = None;
    if let Some((practice, first, file)) = practice {
        (session.practice, marks) = (Some(practice), Some(file));
        match first {
            Some(script) => drop(update::begin(&mut session, script)),
            None => session.overlays = vec![Overlay::Lessons],
        }
    }
    let (front, inputs) = if spoken {
        let permits = input::lines::start(to, by_person).map_err(unset(phrase::no_screen))?;
        (Front::Lines(LineByLine::new(output, permits, session.say(heard::begins()))), None)
    } else {
        let terminal = Borrowed::take(output, session.say(phrase::broke())).map_err(unset(phrase::no_screen))?;
        let theme = Theme { colour: std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty()) };
        // Before the size is asked for: no change of it is missed.
        (Front::Screen(terminal, theme), Some(Inputs::start(to).map_err(unset(phrase::no_screen))?))
    };
    let case = CaseId::new();
    session.case = Some(case.clone());
    if break_down {
        fall();
    }
    let mut sitting = Sitting::new(session, writer, case, folder.clone(), marks, front, heard);
    let ended = sitting.run(&ending);
    let Sitting { session, writer, front, mut unkept, heard, .. } = sitting;
    // What is typed from here on is for whoever comes after us.
    drop((inputs, heard));
    let taken = front.leave(if ending.signal().is_some() { SIGNALLED } else { terminal::PATIENCE });
    let left = writer.stop(PATIENCE).unwrap_or_else(|| LeftOver {
        count: session.keeping.waiting,
        events: unkept.make_contiguous().to_vec(),
        why: None,
    });
    let lost = left.count;
    let caution = session.say(session.caution());
    let rescued =
        if lost > 0 { set_aside::rescue(&protocol, &folder, &left.events, &caution, Utc::now()) } else { None };
    if let Some(told) = farewell(words, &session, &left, rescued.as_deref()) {
        tell(told, if taken { PATIENCE } else { A_MOMENT });
    }
    // Only now: whatever became of the screen, what was said is put by first.
    ended.map_err(unset(phrase::screen_failed))?;
    Ok(match ending.signal() {
        Some(signal) => ExitCode::from(u8::try_from(128 + signal).unwrap_or(1)),
        None if lost > 0 => ExitCode::from(74),
        None => ExitCode::SUCCESS,
    })
}

/// Breaks down, so that a test can see the terminal given back.
#[expect(clippy::panic, reason = "the one place that is meant to break")]
fn fall() -> ! {
    std::panic::panic_any("broken on purpose")
}

/// What stays readable after the screen is gone.
fn farewell(words: &Words, session: &Session, left: &LeftOver, rescued: Option<&Path>) -> Option<String> {
    let lost = left.count;
    let told = if lost > 0 {
        let why = left.why.clone().or_else(|| session.keeping.refusal.clone());
        let why = why.unwrap_or_else(|| phrase::no_answer().into());
        match rescued {
            Some(file) => phrase::set_aside(lost, why, path(file)),
            None => phrase::lost(lost, why),
        }
    } else if session.practice.is_some() {
        phrase::practice_ended()
    } else if session.log.is_empty() {
        return None;
    } else {
        phrase::kept()
    };
    Some(say(words, session.zone, &told.into()))
}

/// Tells it on standard error, which may be a terminal that takes nothing.
fn tell(told: String, patience: Duration) {
    let (done, waits) = mpsc::channel();
    thread::spawn(move || {
        // A closed standard error leaves nobody to tell.
        let _ = writeln!(io::stderr().lock(), "{told}");
        let _ = done.send(());
    });
    let _ = waits.recv_timeout(patience);
}
