//! The clocks of the steps of the plan: how one is started, and ended; and those that run for other birds.

use super::record::record;
use super::traffic::Effect;
use crate::days::cover;
use crate::days::due::{self, Running, Waits};
use crate::exam;
use crate::finding::log::Entry;
use crate::phrase::{Phrase, Text, clock as phrase};
use crate::protocol::rule::ActionAt;
use crate::session::{Face, Session};
use crate::view::clock::{self, Press};

/// At most this many clocks that ran out while nobody was here are told of by name.
const GONE_BY: usize = 3;

/// Starts the clock of the step the cursor stands on, or of the first that has one; pressed again, ends it. Away from the
/// plan it only ends it. A clock whose time is up is ended before anything else.
pub(super) fn clock(session: &mut Session) -> Vec<Effect> {
    let (entries, told) = match clock::press(session) {
        Press::EndLeft(at) => {
            return session.flock.clocks.get(at).cloned().map_or_else(Vec::new, |up| end_left(session, up));
        }
        Press::Runs => {
            session.notice = Some(phrase::runs().into());
            return Vec::new();
        }
        Press::Nothing => {
            session.notice = Some(phrase::nothing().into());
            return Vec::new();
        }
        Press::Start(action, seconds) => (vec![started(session, action, seconds)], phrase::started()),
        Press::End => match over(session) {
            Some(asks) => {
                // What has come of it is asked, whatever showed.
                session.face = Face::Exam;
                session.overlays.clear();
                session.give_up_entering();
                let effects = record(session, asks);
                session.notice = Some(phrase::ended().into());
                return effects;
            }
            None => (vec![Entry::ClockEnded], phrase::ended()),
        },
    };
    let (cursor, page, scroll) = (session.cursor, session.page, session.scroll);
    let effects = record(session, entries);
    (session.cursor, session.page, session.scroll) = (cursor, page, scroll);
    session.notice = Some(told.into());
    effects
}

/// What ends the clock of a step and asks what has come of it, where something is asked.
pub(super) fn over(session: &Session) -> Option<Vec<Entry>> {
    let (did, spot) = exam::asks_when_over(session.protocol, &session.log)?;
    Some(vec![Entry::ClockEnded, exam::ended(session.protocol, did), Entry::Turned(spot)])
}

/// Ends the clock of another bird, here and in her own log.
fn end_left(session: &mut Session, up: Running) -> Vec<Effect> {
    session.flock.clocks.retain(|clock| *clock != up);
    session.notice = Some(phrase::ended_of(up.what.clone(), up.bird.clone()).into());
    let ends = up.case.clone().map(|case| Effect::EndClock(case, up.ends_at));
    session.flock.done_with.push(up);
    ends.into_iter().collect()
}

/// The clock that runs for this bird, to be kept while another one is opened.
pub(super) fn left(session: &Session) -> Option<Running> {
    let begun = session.log.first().filter(|_| session.practice.is_none())?.at;
    let clock = cover::clock(session.protocol, &session.log, &session.days)?;
    let bird = Text::opening(due::bird(session.protocol, &session.log, &session.days));
    Some(Running { case: session.case.clone(), begun, bird, what: clock.what, ends_at: clock.ends_at })
}

/// What runs for the bird that lies open is her own clock again.
pub(super) fn own_again(session: &mut Session) {
    let clocks = std::mem::take(&mut session.flock.clocks);
    session.flock.clocks = clocks.into_iter().filter(|clock| !session.is_own(clock)).collect();
}

/// What stands on the window's title when the clock of another bird rings.
pub(super) fn rings(clock: &Running) -> Phrase {
    phrase::title(clock.bird.clone(), clock.what.clone())
}

/// Takes the birds that wait, and the clocks that run for others. One that ran out before the start is told once, by name; one
/// that ran out since rings. What was ended here may not be on disk yet: it is not told again.
pub(super) fn heard(session: &mut Session, mut waits: Waits) -> Vec<Effect> {
    let done = |clock: &Running| session.flock.done_with.iter().any(|done| done.is(clock));
    let (gone, told): (Vec<Running>, Vec<Running>) = std::mem::take(&mut waits.clocks)
        .into_iter()
        .filter(|clock| !session.is_own(clock) && !done(clock))
        .map(|clock| Running { bird: Text::opening(clock.bird), ..clock })
        .partition(|clock| clock.ends_at <= session.since);
    session.flock.waiting = waits;
    // Being told of does not end it: whoever opens her sees that its time is up.
    tell_gone_by(session, &gone);
    session.flock.done_with.extend(gone);
    let is_new = |clock: &&Running| !session.flock.clocks.iter().any(|known| known.is(clock));
    let up = told.iter().filter(is_new).find(|clock| clock.ends_at <= session.ticked).map(rings);
    // What the disk does not hold yet runs on here; else the ledger knows best.
    let unkept = session.keeping.waiting > 0;
    session
        .flock
        .clocks
        .retain(|clock| unkept && told.iter().all(|told| !told.is_of(clock.case.as_ref(), clock.begun)));
    session.flock.clocks.extend(told);
    up.into_iter().flat_map(|title| [Effect::Title(title.into()), Effect::Bell]).collect()
}

/// Says which clocks ran out before the start.
fn tell_gone_by(session: &mut Session, gone: &[Running]) {
    if gone.is_empty() {
        return;
    }
    let line =
        |clock: &Running| phrase::ran_out(clock.what.clone(), clock.bird.clone(), Text::clock(clock.ends_at)).into();
    let told = gone.iter().take(GONE_BY).map(line);
    let more = gone.len().saturating_sub(GONE_BY);
    let more = (more > 0).then(|| phrase::more(more).into());
    session.notice = Some(Text::row(session.notice.take().into_iter().chain(told).chain(more)));
}

/// That the clock of an action starts.
pub(super) fn started(session: &Session, action: ActionAt, seconds: u16) -> Entry {
    Entry::Timed { action: session.protocol.action(action).id.clone(), seconds }
}
