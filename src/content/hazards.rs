//! What could go wrong with this bird: the hazards whose controls are at work on her, each with the harm of doing and of not doing;
//! and the whole list, with what keeps each away.

use super::document::{Item, Section, Tone, caution, section};
use super::why;
use crate::finding::{Answer, Findings};
use crate::judge::Target;
use crate::phrase::{Phrase, Text, hazards as phrase};
use crate::protocol::Protocol;
use crate::protocol::hazard::{Control, Controls, Harmed, Hazard, Shown, Worst};
use crate::protocol::scale::Humane;
use crate::protocol::source::Strength;
use crate::protocol::texts::{Country, Under};
use crate::prove::Exact;
use crate::sheet::{Sheet, Subject};
use crate::shipped;

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
pub fn hers(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<Section<Text>> {
    let items = of_bird(protocol, findings, verdict).map(|hazard| Item {
        lead: Text::quoted(&hazard.hazard),
        more: vec![both(hazard).into()],
        ..Item::default()
    });
    section(phrase::heading_hers(), Tone::Plain, items.collect())
}

/// A hazard, as it is told to a program.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HazardTold<T = String> {
    /// Its name.
    pub id: String,
    /// What can go wrong.
    pub hazard: T,
    /// The harm of doing.
    pub doing: T,
    /// The harm of not doing.
    pub not_doing: T,
    /// Whom it harms.
    pub whom: Vec<Harmed>,
    /// The worst it can do.
    pub worst: Worst,
    /// Where it comes from.
    pub source: String,
    /// How well that is known.
    pub strength: Strength,
}

/// A hazard, before anybody says it.
pub fn told(hazard: &Hazard) -> HazardTold<Text> {
    HazardTold {
        id: hazard.id.clone(),
        hazard: Text::quoted(&hazard.hazard),
        doing: Text::quoted(&hazard.doing),
        not_doing: Text::quoted(&hazard.not_doing),
        whom: hazard.whom.clone(),
        worst: hazard.worst,
        source: hazard.source.clone(),
        strength: hazard.strength,
    }
}

/// The whole list, with the caution.
pub fn whole(protocol: &Protocol, country: &Country) -> Vec<Section<Text>> {
    let items = shipped::hazards().iter().map(|hazard| Item {
        lead: Text::quoted(&hazard.hazard),
        more: of_hazard(protocol, hazard),
        ..Item::default()
    });
    let sections = [section(phrase::heading_all(), Tone::Plain, items.collect()), caution(country)];
    sections.into_iter().flatten().collect()
}

/// Whom it harms and how, what keeps it away, and what it rests on.
fn of_hazard(protocol: &Protocol, hazard: &Hazard) -> Vec<Text> {
    let whom = Text::list(hazard.whom.iter().copied().map(harmed));
    let shown = hazard.shown.as_ref().map(|shown| controls(protocol, shown));
    let code = hazard.code.iter().map(|code| phrase::in_code(Text::quoted(&code.control), Text::typed(&code.file)));
    let source = protocol.sources.at(&hazard.source);
    let source =
        source.map_or_else(|| Text::typed(&hazard.source), |source| why::cite(protocol, source, hazard.strength));
    let tests = phrase::tests(Text::list(hazard.tests.iter().map(Text::typed)));
    let first = [phrase::harms(whom, worst(hazard.worst)), both(hazard)].into_iter().chain(shown);
    first.chain(code).chain([tests, phrase::rests_on(source)]).map(Text::from).collect()
}

/// Whom a hazard harms.
const fn harmed(whom: Harmed) -> Phrase {
    match whom {
        Harmed::Bird => phrase::bird(),
        Harmed::Flock => phrase::flock(),
        Harmed::People => phrase::people(),
        Harmed::Eaters => phrase::eaters(),
    }
}

/// The worst it can do.
const fn worst(worst: Worst) -> Phrase {
    match worst {
        Worst::Kills => phrase::kills(),
        Worst::Maims => phrase::maims(),
        Worst::Misleads => phrase::misleads(),
    }
}

fn both(hazard: &Hazard) -> Phrase {
    phrase::both(Text::quoted(&hazard.doing), Text::quoted(&hazard.not_doing))
}

fn controls(protocol: &Protocol, shown: &Shown) -> Phrase {
    let how = match &shown.controls {
        Controls::Any(_) => phrase::any(),
        Controls::Each(all) if all.len() > 1 => phrase::each(),
        Controls::Each(_) => phrase::alone(),
    };
    let told = Text::clauses(shown.controls.all().iter().map(|control| control_told(protocol, control)));
    let bird = Text::typed(&shown.bird);
    if shown.no_vet { phrase::shown_no_vet(bird, how, told) } else { phrase::shown(bird, how, told) }
}

fn control_told(protocol: &Protocol, control: &Control) -> Phrase {
    let id = |id: &String| Text::typed(id);
    let say = |id: &String| {
        let action = protocol.actions.iter().find(|action| action.id == **id);
        match action {
            None => Text::typed(id),
            Some(action) => phrase::act(Text::typed(id), Text::quoted(action.say.trim_end_matches('.'))).into(),
        }
    };
    match control {
        Control::Rule(rule) => phrase::rule(id(rule)),
        Control::Act(rule, action) => phrase::advises(id(rule), say(action)),
        Control::Ban(action) => phrase::ban(say(action)),
        Control::End(action) => phrase::end(say(action)),
        Control::Exceptions(rule) => phrase::exceptions(id(rule)),
        Control::Looks(rule) => phrase::looks(id(rule)),
        Control::Instruction(question, answer) => phrase::instruction(id(answer), id(question)),
        Control::Conflict(keep, drop) => phrase::conflict(say(keep), say(drop)),
        Control::RulesOut(never, drop) => phrase::rules_out(say(never), say(drop)),
        Control::Opens(action) => phrase::opens(say(action)),
        Control::Fits(action) => phrase::fits(say(action)),
        Control::Before(first, then) => phrase::before(say(first), say(then)),
        Control::Paragraph(paragraph) => phrase::paragraph(id(paragraph)),
        Control::Substance(substance) => phrase::substance(id(substance)),
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
