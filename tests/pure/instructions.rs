//! What fills the screen when seconds count is short: whatever is known of her, whichever line of an act or a ban fits.

use crate::common::{PROTOCOL, now};
use coopside::care::cupboard::Cupboard;
use coopside::care::{PlanStep, plan};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::protocol::action::Harm;
use coopside::protocol::rule::{ActionAt, Instruction};
use coopside::prove::judge;
use coopside::zone::Zone;

/// The most words before anything else, and in all; the most acts and bans.
const FIRST: usize = 30;
const IN_ALL: usize = 60;
const ACTS: usize = 3;
const BANS: usize = 2;

fn words(text: &str) -> usize {
    text.split_whitespace().count()
}

/// The most words an act is told in, for any bird.
fn act(at: ActionAt) -> usize {
    let action = PROTOCOL.action(at);
    let fits = action.fits.iter().map(|fit| words(&fit.say));
    fits.chain([words(&action.say)]).max().unwrap_or(0)
}

/// The most words a ban is told in, with what stands before it.
fn ban(at: ActionAt) -> usize {
    let action = PROTOCOL.action(at);
    let fits = action.forbidden.iter().flat_map(|ban| &ban.fits).filter_map(|fit| fit.say.as_deref());
    fits.chain([action.never()]).map(words).max().unwrap_or(0) + words("Never:")
}

/// What is read before anything else, and all of it.
fn counted(instruction: &Instruction) -> (usize, usize) {
    let acts = |most: usize| instruction.acts.iter().take(most).map(|at| act(*at)).sum::<usize>();
    let first = words(&instruction.title) + acts(ACTS);
    let bans: usize = instruction.never.iter().map(|at| ban(*at)).sum();
    (first, first + bans + words(&instruction.after))
}

#[test]
fn no_instruction_is_longer_than_a_frightened_person_takes_in() {
    let mut over = Vec::new();
    let mut most = (0, 0);
    for instruction in &PROTOCOL.instructions {
        let (first, in_all) = counted(instruction);
        most = (most.0.max(first), most.1.max(in_all));
        let (acts, bans) = (instruction.acts.len(), instruction.never.len());
        if first > FIRST || in_all > IN_ALL || acts > ACTS || bans > BANS {
            over.push(format!("{}: {first} words first, {in_all} in all, {acts} acts, {bans} bans", instruction.id));
        }
    }
    println!("{} instructions, at most {most:?} words", PROTOCOL.instructions.len());
    assert!(over.is_empty(), "{}", over.join("\n"));
}

/// Each ban of an instruction guards one of its acts, or what a hand would do first in its place.
#[test]
fn no_instruction_forbids_without_saying_what_to_do() {
    for instruction in &PROTOCOL.instructions {
        assert!(!instruction.acts.is_empty(), "{}", instruction.id);
        let both = instruction.acts.iter().find(|act| instruction.never.contains(act));
        assert!(both.is_none(), "{}: told and forbidden", instruction.id);
    }
}

/// Whoever turns from the instruction of a sign to what to do reads there what the instruction told, or what stands in its place.
#[test]
fn what_fills_the_screen_is_told_by_the_plan_too() {
    let mut held = 0;
    for question in PROTOCOL.questions.iter().filter(|question| question.shown_if.is_some()) {
        let Some(instruct) = question.choices.iter().find_map(|choice| choice.instruct) else { continue };
        let Some(sign) = question.choices.iter().find(|choice| choice.instruct.is_some()) else { continue };
        let answer = Answer::Choice(sign.id.clone());
        let mut findings = Findings::default();
        findings.say(Statement { about: About::Bird, question: question.id.clone(), answer }, now());
        let verdict = judge(&PROTOCOL, &findings, now());
        let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), Zone::UTC);
        let told: Vec<ActionAt> = plan.steps.iter().filter_map(PlanStep::act).map(|target| target.action).collect();
        let in_its_place =
            |act: ActionAt| PROTOCOL.conflicts.iter().any(|pair| pair.drop == act && told.contains(&pair.keep));
        // Who is phoned stands in the plan as a step of its own; a bird is set down before anything is done with her.
        let of_her = |act: &&ActionAt| {
            let action = PROTOCOL.action(**act);
            action.phones.is_none() && action.left_out.is_some_and(|harm| harm <= Harm::Hours)
        };
        for act in PROTOCOL.instruction(instruct).acts.iter().filter(of_her) {
            held += 1;
            let waits = plan.waiting.iter().any(|waiting| waiting.target.action == *act);
            let found = told.contains(act) || in_its_place(*act) || waits || PROTOCOL.action(*act).id == *"put_down";
            assert!(found, "{}: `{}` is told by its instruction alone", question.id, PROTOCOL.action(*act).id);
        }
    }
    assert!(held >= 16, "{held}");
}
