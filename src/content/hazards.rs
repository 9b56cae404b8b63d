//! What could go wrong with this bird: the hazards whose controls are at work on her, each with the harm of doing and of not doing;
//! and the whole list, with what keeps each away.

use super::document::{Item, Section, Tone, section};
use crate::content::old::caution;
use crate::finding::{Answer, Findings};
use crate::judge::Target;
use crate::protocol::Protocol;
use crate::protocol::hazard::{Control, Harmed, Hazard, Shown};
use crate::protocol::scale::Humane;
use crate::protocol::texts::{Country, Under};
use crate::prove::Exact;
use crate::sheet::{Sheet, Subject};
use crate::shipped;
use serde_json::{Value, json};

/// The hazards of this bird, of all that ship: one of whose controls stands in her verdict.
pub fn of_bird<'a>(
    protocol: &'a Protocol,
    findings: &'a Findings,
    verdict: &'a Exact,
) -> impl Iterator<Item = &'static Hazard> + 'a {
    among(shipped::hazards(), protocol, findings, verdict)
}

/// The same of a list by whose names the protocol goes.
pub fn among<'h: 'a, 'a>(
    hazards: &'h [Hazard],
    protocol: &'a Protocol,
    findings: &'a Findings,
    verdict: &'a Exact,
) -> impl Iterator<Item = &'h Hazard> + 'a {
    let hers = Hers { protocol, findings, verdict };
    let at_work = move |shown: &Shown| shown.controls.all().iter().any(|control| hers.at_work(control));
    hazards.iter().filter(move |hazard| hazard.shown.as_ref().is_some_and(&at_work))
}

/// Whether a paragraph is told of her; of a humane end only once that has come into question.
pub fn is_told(protocol: &Protocol, verdict: &Exact, id: &str) -> bool {
    let told = verdict.told.iter().map(|at| protocol.paragraph(*at)).find(|paragraph| paragraph.id == *id);
    told.is_some_and(|told| told.under != Under::HumaneEnd || verdict.humane.low > Humane::NotInQuestion)
}

/// What could go wrong with her, a line each.
pub fn hers(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<Section> {
    let items = of_bird(protocol, findings, verdict).map(|hazard| Item {
        lead: hazard.hazard.clone(),
        more: vec![both(hazard)],
        ..Item::default()
    });
    section("WHAT COULD GO WRONG WITH HER", Tone::Plain, items.collect())
}

/// Hazards for a program.
pub fn json<'h>(hazards: impl Iterator<Item = &'h Hazard>) -> Value {
    hazards
        .map(|hazard| {
            json!({
                "id": hazard.id, "hazard": hazard.hazard, "worst": hazard.worst.id(),
                "whom": hazard.whom.iter().map(|whom| whom.id()).collect::<Vec<_>>(),
                "harm_of_doing": hazard.doing, "harm_of_not_doing": hazard.not_doing,
                "source": hazard.source, "strength": hazard.strength,
            })
        })
        .collect()
}

/// The whole list, with the caution.
pub fn whole(protocol: &Protocol, country: &Country) -> Vec<Section> {
    let items = shipped::hazards().iter().map(|hazard| {
        let whom: Vec<&str> = hazard.whom.iter().copied().map(Harmed::words).collect();
        let mut more = vec![format!("Harms {}: {}.", whom.join(", "), hazard.worst.words()), both(hazard)];
        more.extend(hazard.shown.as_ref().map(|shown| controls(protocol, shown)));
        more.extend(hazard.code.iter().map(|code| format!("In the program itself: {} ({})", code.control, code.file)));
        more.push(format!("Tests: {}.", hazard.tests.join(", ")));
        more.push(format!("Rests on: {}.", crate::content::old::cite(protocol, &hazard.source, hazard.strength)));
        Item { lead: hazard.hazard.clone(), more, ..Item::default() }
    });
    let sections =
        [section("WHAT CAN GO WRONG, AND WHAT KEEPS IT AWAY", Tone::Plain, items.collect()), caution(country)];
    sections.into_iter().flatten().collect()
}

fn both(hazard: &Hazard) -> String {
    format!("Done: {} Not done: {}", hazard.doing, hazard.not_doing)
}

fn controls(protocol: &Protocol, shown: &Shown) -> String {
    let told: Vec<String> = shown.controls.all().iter().map(|control| control_words(protocol, control)).collect();
    let how = match &shown.controls {
        crate::protocol::hazard::Controls::Any(_) => "any of these alone keeps it away",
        crate::protocol::hazard::Controls::Each(all) if all.len() > 1 => "each of these is needed",
        crate::protocol::hazard::Controls::Each(_) => "this keeps it away",
    };
    let twin = if shown.no_vet { ", with no vet in reach" } else { "" };
    format!("Shown on {}{twin}; {how}: {}.", shown.bird, told.join("; "))
}

fn control_words(protocol: &Protocol, control: &Control) -> String {
    let say = |id: &str| {
        let action = protocol.actions.iter().find(|action| action.id == *id);
        action.map_or_else(|| id.to_owned(), |action| format!("`{id}` ({})", action.say.trim_end_matches('.')))
    };
    match control {
        Control::Rule(rule) => format!("rule `{rule}`"),
        Control::Act(rule, action) => format!("rule `{rule}` advises {}", say(action)),
        Control::Ban(action) => format!("the ban on {}", say(action)),
        Control::End(action) => format!("the end of the ban on {}", say(action)),
        Control::Exceptions(rule) => format!("the exceptions of rule `{rule}`"),
        Control::Looks(rule) => format!("the looks of rule `{rule}`"),
        Control::Instruction(question, answer) => format!("what fills the screen at `{answer}` to `{question}`"),
        Control::Conflict(keep, drop) => format!("{} drops {}", say(keep), say(drop)),
        Control::RulesOut(never, drop) => format!("the ban on {} drags along {}", say(never), say(drop)),
        Control::Opens(action) => format!("what {} waits for", say(action)),
        Control::Fits(action) => format!("the lines of {} by place and state", say(action)),
        Control::Before(first, then) => format!("{} comes before {}", say(first), say(then)),
        Control::Paragraph(paragraph) => format!("paragraph `{paragraph}`"),
        Control::Substance(substance) => format!("`{substance}` is known on labels"),
    }
}

/// A bird and what was judged of her.
#[derive(Clone, Copy)]
struct Hers<'a> {
    protocol: &'a Protocol,
    findings: &'a Findings,
    verdict: &'a Exact,
}

impl Hers<'_> {
    /// Whether a control is at work on her.
    fn at_work(&self, control: &Control) -> bool {
        let verdict = self.verdict;
        let acts = || verdict.acts.iter().map(|act| act.target);
        let named = |target: Target, id: &str| self.protocol.action(target.action).id == *id;
        let advised = |id: &str| acts().any(|target| named(target, id));
        let never = |id: &str| verdict.never.iter().any(|never| named(never.target, id));
        let dropped = |id: &str| verdict.dropped.iter().any(|dropped| named(dropped.target, id));
        match control {
            Control::Rule(rule) | Control::Act(rule, _) | Control::Looks(rule) => {
                verdict.reasons.iter().any(|reason| self.protocol.rule(reason.rule).id == *rule.as_str())
            }
            Control::Exceptions(rule) => self.held_back(rule),
            Control::Ban(action) | Control::End(action) => never(action),
            Control::Instruction(question, answer) => self.answered(question, answer),
            Control::Conflict(keep, drop) => advised(keep) && dropped(drop),
            Control::RulesOut(ban, drop) => never(ban) && dropped(drop),
            Control::Opens(action) => verdict.later.iter().any(|later| named(later.target, action)),
            Control::Fits(action) => acts()
                .filter(|target| named(*target, action))
                .any(|target| verdict.fitting.say(self.protocol, target) != self.protocol.action(target.action).say),
            Control::Before(first, then) => advised(first) && advised(then),
            Control::Paragraph(paragraph) => is_told(self.protocol, verdict, paragraph),
            Control::Substance(_) => false,
        }
    }

    /// Whether a rule is not in force although its condition is met: then its exceptions are at work.
    fn held_back(&self, id: &str) -> bool {
        let Some(rule) = self.protocol.rules.iter().find(|rule| rule.id == *id) else { return false };
        let in_force = self.verdict.reasons.iter().any(|reason| self.protocol.rule(reason.rule).id == *id);
        let sheet = Sheet::lay(self.protocol, self.findings, self.verdict.judged_at);
        let wounds = if rule.per_wound { self.verdict.wounds } else { 0 };
        let subjects = (0..wounds).map(Subject::Wound).chain((!rule.per_wound).then_some(Subject::Bird));
        !in_force && { subjects }.any(|subject| sheet.surely(&rule.when, subject))
    }

    fn answered(&self, question: &str, answer: &str) -> bool {
        self.findings.said().iter().any(|said| {
            let statement = &said.statement;
            statement.question == *question && statement.answer == Answer::Choice(answer.into())
        })
    }
}
