//! Enough to act on: what cannot wait stands on the screen; once it is done, "go now", and what was not looked at is told.

use crate::care::course::Stage;
use crate::content::course::{CardOf, CourseCard, Does};
use crate::content::enough::{carried_out, is_enough};
use crate::exam::{self, Place};
use crate::finding::log::{Entry, Stamped, standing, ticked};
use crate::phrase::{Text, enough as phrase};
use crate::session::{Face, Session};
use chrono::{DateTime, TimeDelta, Utc};

/// After how long it is said again that she was not looked all over, where nobody has set off. Minutes; our own figure.
const STILL_HERE: i64 = 30;

/// That it is time to go comes on screen once, when nothing that cannot wait is left to do.
pub(super) fn go(session: &Session) -> Option<Entry> {
    let began = exam::began(session.protocol, session.protocol.roles.go);
    let told = standing(&session.log).iter().any(|stamped| stamped.entry == began);
    let busy =
        matches!(session.exam.place, Place::Instruction(..)) || session.line.is_some() || session.draft.is_some();
    (!told && !busy && !goes_by_the_clock(session) && is_known(session) && !is_left(session)).then_some(began)
}

/// Whether an instruction that was put aside, such as letting her rest, or a step that is timed, has not had its time yet.
fn goes_by_the_clock(session: &Session) -> bool {
    let ends = |stamped: &&Stamped| {
        let Entry::Began(id) = &stamped.entry else { return None };
        let instruction = session.protocol.instruction(session.protocol.instructions.at(id.as_str())?);
        Some(stamped.at + TimeDelta::seconds(i64::from(instruction.timer_s?)))
    };
    let put_aside = session.timer().is_some_and(|timer| timer.ends_at > session.now);
    put_aside || standing(&session.log).iter().filter_map(ends).any(|end| end > session.now)
}

/// Where enough is known and something that cannot wait is left to do, its card shows, once.
pub(super) fn show_card(session: &mut Session) {
    let asks = matches!(session.exam.place, Place::Ask(_) | Place::List(_) | Place::Wounds);
    let bare = session.overlays.is_empty() && session.face == Face::Exam && asks && !session.exam.turned;
    if bare && !session.enough_told && is_known(session) && is_left(session) {
        session.enough_told = true;
        (session.face, session.turned_card) = (Face::Course, None);
        session.notice = Some(phrase::act_first().into());
    }
}

/// Whether enough is known of a real bird who has not been looked all over.
fn is_known(session: &Session) -> bool {
    let Session { protocol, exam, verdict, plan, log, .. } = session;
    let over = exam.findings.looked_over() || session.days.over().is_some() || session.practice.is_some();
    !over && !exam.is_look() && is_enough(protocol, &exam.findings, verdict, plan, log)
}

/// Whether something on the cards of the minute that cannot wait is neither ticked off nor was carried out.
fn is_left(session: &Session) -> bool {
    let done = ticked(&session.log);
    let of_now = |card: &&CourseCard| card.of == CardOf::Stage(Stage::Now);
    let mut acts = session.cards.iter().filter(of_now).flat_map(|card| &card.acts);
    acts.any(|act| {
        let waits = match act.does {
            Does::Act(target) => {
                let done = carried_out(session.protocol, &session.log, target.action, |_| true);
                session.protocol.action(target.action).at_once && !done
            }
            Does::Phone(_) | Does::Test(_) | Does::Look(_) | Does::Told(_) => false,
        };
        waits && !done.contains_key(&act.does.name(session.protocol))
    })
}

/// When it is said again that she was not looked all over: some time after one was to go.
pub(super) fn said_again(session: &Session) -> Option<DateTime<Utc>> {
    let ended = exam::ended(session.protocol, session.protocol.roles.go);
    let left = standing(&session.log).into_iter().rfind(|stamped| stamped.entry == ended)?.at;
    (!session.exam.findings.looked_over()).then(|| left + TimeDelta::minutes(STILL_HERE))
}

/// What is said then.
pub(super) fn still_here() -> Text {
    phrase::still_here().into()
}
