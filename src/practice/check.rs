//! A scripted bird that has been checked: every name known, no answers that clash, nothing that cannot be reached, and the
//! verdict it expects is the one the protocol gives.

use super::scenario::{self, Lesson, Scenario, When};
use super::shown::what_shows;
use crate::finding::{About, Answer, Findings, Statement};
use crate::judge::Clash;
use crate::notes::Pairs;
use crate::protocol::Protocol;
use crate::protocol::fault::{Fault, Faults, nearest};
use crate::protocol::question::Asked;
use crate::prove::{Exact, judge_bands};
use crate::sheet::{Sheet, Truth};
use chrono::DateTime;

/// A scripted bird, read.
#[derive(Clone, Debug)]
pub struct Script {
    /// Its name: that of its file, or of the seed it was drawn with.
    pub name: String,
    /// As it was written.
    pub scenario: Scenario,
    /// What is true of her at the beginning.
    pub findings: Findings,
}

impl Script {
    /// Reads a scripted bird; what it expects is not held against the protocol yet.
    ///
    /// # Errors
    /// Every fault at once, with the line.
    pub fn read(protocol: &Protocol, name: &str, file: &str, text: &str) -> Result<Self, Faults> {
        let (scenario, mut findings) = scenario::read(protocol, file, text, DateTime::UNIX_EPOCH)?;
        what_shows(protocol, &mut findings);
        Ok(Self { name: name.to_owned(), scenario, findings })
    }

    /// How it teaches, if it does.
    pub fn lesson(&self) -> Option<&Lesson> {
        self.scenario.lesson.as_ref()
    }

    /// The bird's name, or the file's.
    pub fn bird(&self) -> &str {
        self.lesson().map_or(self.name.as_str(), |lesson| lesson.name.as_str())
    }

    /// What one is told on coming to her.
    pub fn opens(&self) -> &str {
        self.lesson().map_or(self.scenario.story.as_str(), |lesson| lesson.opens.as_str())
    }

    /// What is written of what one sees where a question points.
    pub fn told_of(&self, about: About, question: &str) -> Option<&str> {
        let lesson = self.lesson()?;
        let Pairs(pairs) = match about {
            About::Bird => &lesson.shows,
            About::Wound(number) => lesson.shows_wounds.get(number)?,
        };
        pairs.iter().find(|(of, _)| of == question).map(|(_, told)| told.as_str())
    }
}

/// Reads a scripted bird and holds all of it against the protocol.
///
/// # Errors
/// Every fault at once, with line and hint.
pub fn check(protocol: &Protocol, name: &str, file: &str, text: &str) -> Result<Script, Faults> {
    let script = Script::read(protocol, name, file, text)?;
    let mut desk = ScenarioCheck { protocol, file, text, faults: Vec::new() };
    desk.names(&script.scenario);
    if let Some(lesson) = script.lesson() {
        desk.lesson(&script, lesson);
    }
    desk.reachable(&script);
    desk.expected(&script);
    desk.faults.sort();
    if desk.faults.is_empty() { Ok(script) } else { Err(Faults(desk.faults)) }
}

struct ScenarioCheck<'a> {
    protocol: &'a Protocol,
    file: &'a str,
    text: &'a str,
    faults: Vec<Fault>,
}

impl ScenarioCheck<'_> {
    /// A fault at the first place after `field:` that names `name`; where it names none, at the field.
    fn fault(&mut self, field: &str, name: &str, what: String, nearest: Option<String>) {
        let from = self.text.find(&format!("{field}:")).unwrap_or(0);
        let quoted = format!("\"{name}\"");
        let after = self.text.get(from..).and_then(|rest| rest.find(&quoted)).map_or(0, |at| at);
        let line = 1 + self.text.get(..from + after).map_or(0, |before| before.matches('\n').count());
        let item = if name.is_empty() { field.to_owned() } else { format!("{field}, `{name}`") };
        self.faults.push(Fault { file: self.file.into(), line, item, what, nearest });
    }

    fn known<'n>(&mut self, field: &str, name: &str, what: &str, known: impl Iterator<Item = &'n str> + Clone) {
        if !known.clone().any(|own| own == name) {
            self.fault(field, name, format!("there is no such {what}"), nearest(name, known));
        }
    }

    fn action(&mut self, field: &str, name: &str) {
        let protocol = self.protocol;
        self.known(field, name, "action", protocol.actions.iter().map(|action| action.id.as_str()));
    }

    fn names(&mut self, scenario: &Scenario) {
        let protocol = self.protocol;
        if scenario.story.trim().is_empty() {
            self.fault("story", "", "a bird needs a story: what a person sees and tells".into(), None);
        }
        if scenario.source.trim().is_empty() {
            self.fault("source", "", "say where the case comes from, or \"invented\"".into(), None);
        }
        for rule in &scenario.expect.rules {
            self.known("rules", rule, "rule", protocol.rules.iter().map(|rule| rule.id.as_str()));
        }
        let expect = &scenario.expect;
        for (field, names) in [("never", &expect.never), ("allowed", &expect.allowed), ("acts", &expect.acts)] {
            for name in names {
                self.action(field, name);
            }
        }
    }

    fn lesson(&mut self, script: &Script, lesson: &Lesson) {
        let protocol = self.protocol;
        for (field, text) in
            [("name", &lesson.name), ("opens", &lesson.opens), ("trains", &lesson.trains), ("truth", &lesson.truth)]
        {
            if text.trim().is_empty() {
                self.fault(field, "", "nothing is said here".into(), None);
            }
        }
        if lesson.teaches.is_empty() {
            self.fault(
                "teaches",
                "",
                "a lesson ends with what a mentor says: add (say: \"..\", source: \"..\")".into(),
                None,
            );
        }
        for teaching in &lesson.teaches {
            let sources = protocol.sources.iter().map(|source| source.id.as_str());
            self.known("teaches", &teaching.source, "source", sources);
        }
        lesson.tempts.iter().for_each(|action| self.action("tempts", action));
        if lesson.shows_wounds.len() > script.findings.wounds() {
            self.fault("shows_wounds", "", format!("she has only {} wounds", script.findings.wounds()), None);
        }
        let of_bird = lesson.shows.0.iter().map(|(question, _)| (About::Bird, question));
        let of_wounds = lesson.shows_wounds.iter().enumerate();
        let of_wounds = of_wounds.flat_map(|(at, pairs)| pairs.0.iter().map(move |(q, _)| (About::Wound(at), q)));
        for (about, question) in of_bird.chain(of_wounds) {
            let field = if about == About::Bird { "shows" } else { "shows_wounds" };
            let names = protocol.questions.iter().filter(|q| q.wound == (about != About::Bird)).map(|q| q.id.as_str());
            self.known(field, question, "question", names);
            if protocol.question(question).is_some() && script.findings.answer(about, question).is_none() {
                let what = "nobody comes to see this: she has no answer to that question".into();
                self.fault(field, question, what, None);
            }
        }
        for turn in &lesson.turns {
            turn.unless.iter().for_each(|action| self.action("turns", action));
            if let When::Did(action) = &turn.when {
                self.action("turns", action);
            }
            self.turn(script, turn);
        }
    }

    /// A turn must change something that is asked, to an answer there is, and to a bird that can be.
    fn turn(&mut self, script: &Script, turn: &scenario::Turn) {
        let (Some(question), Some(becomes)) = (&turn.question, &turn.becomes) else {
            if turn.question.is_some() || turn.becomes.is_some() {
                let name = turn.question.as_deref().unwrap_or_default();
                self.fault("turns", name, "`question` and `becomes` go together".into(), None);
            }
            return;
        };
        let about = turn.wound.map_or(About::Bird, |number| About::Wound(number.saturating_sub(1)));
        if turn.wound.is_some_and(|number| number == 0 || number > script.findings.wounds()) {
            self.fault("turns", question, format!("she has only {} wounds", script.findings.wounds()), None);
            return;
        }
        let protocol = self.protocol;
        let Some(at) = protocol.question_at(question) else {
            self.known("turns", question, "question", protocol.questions.iter().map(|q| q.id.as_str()));
            return;
        };
        let answers = protocol.ask(at).choices.iter().map(|choice| choice.id.as_str());
        self.known("turns", becomes, "answer", answers);
        let mut turned = script.findings.clone();
        let answer = Answer::Choice(becomes.as_str().into());
        turned.say(Statement { about, question: question.as_str().into(), answer }, DateTime::UNIX_EPOCH);
        let verdict = judge_bands(protocol, &turned, DateTime::UNIX_EPOCH);
        for clash in &verdict.clashes {
            self.fault("turns", question, format!("then her answers clash: {}", told(clash)), None);
        }
    }

    /// What is answered must be asked at all.
    fn reachable(&mut self, script: &Script) {
        let protocol = self.protocol;
        let sheet = Sheet::lay(protocol, &script.findings, DateTime::UNIX_EPOCH);
        let of_bird = script.scenario.answers.0.iter().map(|(question, _)| (About::Bird, question));
        let of_wounds = script.scenario.wounds.iter().enumerate();
        let of_wounds = of_wounds.flat_map(|(at, pairs)| pairs.0.iter().map(move |(q, _)| (About::Wound(at), q)));
        for (about, name) in of_bird.chain(of_wounds) {
            let Some(question) = protocol.question_at(name) else { continue };
            let asked = Asked { about, question };
            if sheet.applies(asked.about.into(), asked.question) == Truth::No {
                let what = "nobody is ever asked this of such a bird, so it cannot be found".into();
                self.fault(if about == About::Bird { "answers" } else { "wounds" }, name, what, None);
            }
        }
    }

    fn expected(&mut self, script: &Script) {
        let now = DateTime::UNIX_EPOCH;
        let verdict = judge_bands(self.protocol, &script.findings, now);
        for clash in &verdict.clashes {
            self.fault("answers", "", format!("her answers clash: {}", told(clash)), None);
        }
        if !verdict.clashes.is_empty() {
            return;
        }
        for (field, what) in misses(self.protocol, &script.scenario, &verdict) {
            self.fault(field, "", what, None);
        }
        if script.lesson().is_some() && verdict.need.low != verdict.need.high {
            let what = format!(
                "a lesson needs one right answer, and her need is open between {:?} and {:?}; answer more, or set well_otherwise",
                verdict.need.low, verdict.need.high
            );
            self.fault("answers", "", what, None);
        }
        let twin = scenario::without_vet(self.protocol, &script.scenario, &script.findings, now);
        let twin = twin.map(|twin| judge_bands(self.protocol, &twin, now));
        for what in twin_misses(&script.scenario, &verdict, twin.as_ref()) {
            self.fault("no_vet", "", what, None);
        }
    }
}

/// What came out other than it must: the field of `expect`, and what the protocol gives.
fn misses(protocol: &Protocol, scenario: &Scenario, verdict: &Exact) -> Vec<(&'static str, String)> {
    let expect = &scenario.expect;
    let mut misses = Vec::new();
    let mut check = |holds: bool, field: &'static str, what: String| {
        if !holds {
            misses.push((field, what));
        }
    };
    check(
        verdict.need.low >= expect.need_at_least,
        "need_at_least",
        format!("the protocol gives at least {:?}", verdict.need.low),
    );
    check(
        verdict.need.high <= expect.need_at_most,
        "need_at_most",
        format!("the protocol gives at most {:?}", verdict.need.high),
    );
    check(verdict.humane.low == expect.humane, "humane", format!("the protocol gives {:?}", verdict.humane.low));
    check(
        verdict.authority.low == expect.authority,
        "authority",
        format!("the protocol gives {:?}", verdict.authority.low),
    );
    let rules: Vec<&str> = verdict.reasons.iter().map(|reason| protocol.rule(reason.rule).id.as_str()).collect();
    // What has no such name is told already.
    let is_rule = |name: &&String| protocol.rules.iter().any(|rule| rule.id == *name.as_str());
    let is_action = |name: &&String| protocol.actions.iter().any(|action| action.id == *name.as_str());
    for rule in expect.rules.iter().filter(is_rule) {
        check(rules.contains(&rule.as_str()), "rules", format!("rule `{rule}` is not in force"));
    }
    let nevers: Vec<&str> =
        verdict.never.iter().map(|never| protocol.action(never.target.action).id.as_str()).collect();
    for action in expect.never.iter().filter(is_action) {
        check(nevers.contains(&action.as_str()), "never", format!("`{action}` is not forbidden"));
    }
    for action in &expect.allowed {
        check(!nevers.contains(&action.as_str()), "allowed", format!("`{action}` is forbidden"));
    }
    let acts: Vec<&str> = verdict.acts.iter().map(|act| protocol.action(act.target.action).id.as_str()).collect();
    for action in expect.acts.iter().filter(is_action) {
        check(acts.contains(&action.as_str()), "acts", format!("`{action}` is not advised"));
    }
    misses
}

/// What is wrong with the same bird where no vet can be reached.
fn twin_misses(scenario: &Scenario, verdict: &Exact, twin: Option<&Exact>) -> Vec<String> {
    let (twin, rungs) = match (twin, &scenario.no_vet) {
        (Some(twin), Some(rungs)) => (twin, rungs),
        (None, None) => return Vec::new(),
        (Some(twin), None) => {
            return vec![format!(
                "say what the same bird gets without a vet; the protocol gives no_vet: (need_at_least: {:?}, need_at_most: {:?}, humane: {:?})",
                twin.need.low, twin.need.high, twin.humane.low
            )];
        }
        (None, Some(_)) => {
            return vec!["no vet can be reached as it is, or `reach` is open: leave `no_vet` out".into()];
        }
    };
    let holds = [
        (twin.need.low >= rungs.need_at_least, format!("the protocol gives at least {:?}", twin.need.low)),
        (twin.need.high <= rungs.need_at_most, format!("the protocol gives at most {:?}", twin.need.high)),
        (twin.humane.low == rungs.humane, format!("the protocol gives humane end {:?}", twin.humane.low)),
        // Who cannot reach a vet is never told less.
        (twin.need.low >= verdict.need.low, "needs less without a vet than with one".to_owned()),
        (twin.humane.low >= verdict.humane.low, "gets a milder rung of humane end without a vet".to_owned()),
    ];
    holds.into_iter().filter(|(holds, _)| !holds).map(|(_, what)| what).collect()
}

/// What of her answers cannot all be true, for whoever writes her down.
fn told(clash: &Clash) -> &str {
    match clash {
        Clash::Told(said) => said,
        Clash::Misweighed => "her kind, and her weight or build",
    }
}
