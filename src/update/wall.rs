//! The clock of the wall is set while somebody presses: no time has gone by for her.

use super::entering;
use super::traffic::Effect;
use crate::phrase::{Text, clock as phrase};
use crate::session::Session;
use crate::view::clock;
use chrono::TimeDelta;

/// The machine's clock was set: what goes by the clock here goes on as if it had not been. What was said in this sitting is moved with
/// the clock, here and not on disk; what the clock tells of earlier days, and of the birds that were left, stays.
pub(super) fn clock_set(session: &mut Session, by: TimeDelta) -> Vec<Effect> {
    let counted = entering::jumped(session);
    let since = session.since;
    for stamped in session.log.iter_mut().filter(|stamped| stamped.at >= since) {
        stamped.at += by;
    }
    session.since += by;
    session.ticked += by;
    session.work_out();
    session.work_out_due();
    let minutes = clock::minutes(by.num_seconds().abs());
    let told = if by < TimeDelta::zero() { phrase::set_back(minutes) } else { phrase::set_on(minutes) };
    session.notice = Some(Text::row(session.notice.take().into_iter().chain([told.into()])));
    counted
}
