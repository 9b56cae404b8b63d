//! An instruction that was put aside before its time was up: one key goes back to it while nothing has been said since.

use crate::finding::log::{self, Entry, Stamped};
use crate::protocol::Protocol;
use crate::protocol::rule::InstructionAt;
use chrono::TimeDelta;

/// The instruction that ended last, where its time was not up and nothing was said or done after it. Letting her rest and
/// calling an authority answer nothing she was asked, so back goes past them.
pub fn put_aside(protocol: &Protocol, log: &[Stamped]) -> Option<InstructionAt> {
    let standing = log::standing(log);
    let last = standing.iter().rposition(|stamped| !matches!(stamped.entry, Entry::Turned(_)))?;
    let ended = standing.get(last)?;
    let Entry::Ended(id) = &ended.entry else { return None };
    let instruction = protocol.instructions.at(id.as_str())?;
    if protocol.roles.is_called_by_itself(instruction) {
        return None;
    }
    let began = standing.iter().take(last).rfind(|stamped| stamped.entry == Entry::Began(id.clone()))?;
    let takes = protocol.instruction(instruction).timer_s?;
    (ended.at - began.at < TimeDelta::seconds(i64::from(takes))).then_some(instruction)
}
