//! Whether enough is known to act: a vet is needed at once and can be reached, nothing bleeds, and no authority holds her back. The
//! rest can wait; it is told as not looked at.

use crate::care::{Plan, PlanStep};
use crate::finding::log::{Entry, Stamped, standing};
use crate::finding::{About, Findings, Id};
use crate::protocol::Protocol;
use crate::protocol::rule::{ActionAt, Instruction};
use crate::protocol::scale::{Authority, Need};
use crate::prove::Exact;
use crate::sheet::{Sheet, Subject};

/// Whether enough is known, whatever is still to be done before one goes.
pub fn is_enough(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan, log: &[Stamped]) -> bool {
    let needed = verdict.need.low == Need::Now && !plan.no_vet && !plan.ends();
    // While nobody has called, no bird is moved.
    let held_back = verdict.authority.low >= Authority::CallNow;
    let said = |about, id: &Id| findings.answer(about, id.as_str()).is_some();
    let signs = protocol.list(protocol.roles.danger_signs);
    let signs_told = signs.into_iter().all(|sign| said(About::Bird, &protocol.ask(sign).id));
    let others_told = said(About::Bird, &protocol.ask(protocol.roles.others).id);
    needed && !held_back && signs_told && others_told && !wants_a_hand(protocol, findings, verdict, (plan, log))
}

/// Whether a hand is still wanted on her: she bleeds, or nobody can tell, and no cloth has been fixed that holds without one. Where
/// she is known to ooze and nobody is told to press, hands stay off her anyway.
fn wants_a_hand(protocol: &Protocol, findings: &Findings, verdict: &Exact, of: (&Plan, &[Stamped])) -> bool {
    let (plan, log) = of;
    let sheet = Sheet::lay(protocol, findings, verdict.judged_at);
    let fixed = &protocol.instruction(protocol.roles.cloth_fixed).id;
    let is_fixed = standing(log).iter().any(|stamped| matches!(&stamped.entry, Entry::Ended(id) if id == fixed));
    let pressed = plan.steps.iter().filter_map(PlanStep::act).any(|target| protocol.action(target.action).presses);
    let left_alone = !pressed && sheet.surely(&protocol.bleeds_when, Subject::Bird);
    !is_fixed && !left_alone && sheet.in_doubt_too(&protocol.bleeds_when, Subject::Bird)
}

/// Whether an instruction of this sort that was carried out told this to do.
pub fn carried_out(protocol: &Protocol, log: &[Stamped], act: ActionAt, of: fn(&Instruction) -> bool) -> bool {
    let ended = |stamped: &&Stamped| match &stamped.entry {
        Entry::Ended(id) => protocol.instructions.at(id.as_str()),
        _ => None,
    };
    let instructions = standing(log).into_iter().filter_map(|stamped| ended(&stamped));
    instructions
        .map(|at| protocol.instruction(at))
        .any(|instruction| of(instruction) && instruction.acts.contains(&act))
}
