//! Every name of a hazard is known, and every control it names stands in the protocol.

use super::{Back, Control, Hazard, Shown};
use crate::protocol::Protocol;
use crate::protocol::action::{Action, End};
use crate::protocol::fault::{Fault, Faults, nearest};
use crate::protocol::read::Placed;
use crate::protocol::rule::Rule;
use std::collections::BTreeSet;

pub(super) fn check(rows: &[Placed<Hazard>], protocol: &Protocol, birds: &[&str]) -> Result<(), Faults> {
    let mut faults = Vec::new();
    let mut before = BTreeSet::new();
    for placed in rows {
        let mut row = Row { placed, protocol, birds, faults: Vec::new() };
        if !before.insert(placed.item.id.as_str()) {
            row.fault(&placed.item.id, "this name is taken by a hazard above".to_owned(), None);
        }
        row.check();
        faults.extend(row.faults);
    }
    faults.sort();
    if faults.is_empty() { Ok(()) } else { Err(Faults(faults)) }
}

/// A row that is being checked.
struct Row<'a> {
    placed: &'a Placed<Hazard>,
    protocol: &'a Protocol,
    birds: &'a [&'a str],
    faults: Vec<Fault>,
}

impl<'a> Row<'a> {
    fn fault(&mut self, name: &str, what: String, nearest: Option<String>) {
        let fault = self.placed.fault(format!("hazard `{}`", self.placed.item.id), name, what);
        self.faults.push(Fault { nearest, ..fault });
    }

    fn known(&mut self, what: &str, name: &str, known: impl Iterator<Item = &'a str> + Clone) -> bool {
        let found = known.clone().any(|own| own == name);
        if !found {
            self.fault(name, format!("{what} `{name}` is not known"), nearest(name, known));
        }
        found
    }

    /// What is named is there, and what it is said to be.
    fn there(&mut self, name: &str, is: bool, what: impl FnOnce() -> String) {
        if !is {
            self.fault(name, what(), None);
        }
    }

    fn check(&mut self) {
        let row = &self.placed.item;
        for (field, text) in [("hazard", &row.hazard), ("doing", &row.doing), ("not_doing", &row.not_doing)] {
            self.there(field, !text.trim().is_empty(), || format!("field `{field}` says nothing"));
        }
        self.there("whom", !row.whom.is_empty(), || "name whom it harms".to_owned());
        self.there("tests", !row.tests.is_empty(), || "name a test that holds it: `binary::file::name`".to_owned());
        self.there(&row.id, row.shown.is_some() || !row.code.is_empty(), || {
            "nothing keeps it away; expected `shown: (bird: .., controls: .., comes_back: ..)` or `code`".to_owned()
        });
        self.known("source", &row.source, self.protocol.sources.iter().map(|source| source.id.as_str()));
        let unsourced = self.protocol.roles.unsourced().of(row.strength);
        let named = unsourced.map(|at| self.protocol.source_id(at));
        if let Some(name) = named.filter(|name| **name != *row.source) {
            self.fault("strength", format!("strength {:?} goes with source \"{name}\"", row.strength), None);
        }
        if let Some(shown) = &row.shown {
            self.shown(shown);
        }
    }

    fn shown(&mut self, shown: &Shown) {
        self.known("scripted bird", &shown.bird, self.birds.iter().copied());
        self.there("controls", !shown.controls.all().is_empty(), || "name at least one control".to_owned());
        self.there("comes_back", !shown.comes_back.is_empty(), || "say how the harm shows on her".to_owned());
        for control in shown.controls.all() {
            self.control(control);
        }
        for back in &shown.comes_back {
            self.back(back);
        }
    }

    fn rule(&mut self, name: &str) -> Option<&'a Rule> {
        self.known("rule", name, self.protocol.rules.iter().map(|rule| rule.id.as_str()));
        self.protocol.rules.iter().find(|rule| rule.id == *name)
    }

    fn action(&mut self, name: &str) -> Option<&'a Action> {
        self.known("action", name, self.protocol.actions.iter().map(|action| action.id.as_str()));
        self.protocol.actions.iter().find(|action| action.id == *name)
    }

    fn control(&mut self, control: &Control) {
        let protocol = self.protocol;
        let is = |at: &_, name: &str| protocol.action(*at).id == *name;
        match control {
            Control::Rule(rule) => {
                self.rule(rule);
            }
            Control::Act(rule, action) => {
                self.action(action);
                let advises = self.rule(rule).is_none_or(|rule| rule.acts.iter().any(|at| is(at, action)));
                self.there(action, advises, || format!("rule `{rule}` does not advise `{action}`"));
            }
            Control::Exceptions(rule) => {
                let has = self.rule(rule).is_none_or(|rule| !rule.unless.is_empty());
                self.there(rule, has, || format!("rule `{rule}` has no exceptions"));
            }
            Control::Looks(rule) => {
                let has = self.rule(rule).is_none_or(|rule| !rule.looks.is_empty());
                self.there(rule, has, || format!("rule `{rule}` asks for no looks"));
            }
            Control::Ban(action) | Control::End(action) => {
                self.action(action);
                let forbids = protocol.rules.iter().any(|rule| rule.never.iter().any(|at| is(at, action)));
                self.there(action, forbids, || format!("no rule forbids `{action}`"));
                if let Control::End(_) = control {
                    self.ends(action);
                }
            }
            Control::Instruction(question, answer) => self.instruction(question, answer),
            Control::Conflict(keep, drop) => {
                let stands = |other: &crate::protocol::rule::Conflict| is(&other.keep, keep) && is(&other.drop, drop);
                let stands = protocol.conflicts.iter().any(stands);
                self.pair(keep, drop, stands, "conflict");
            }
            Control::RulesOut(never, drop) => {
                let stands = |other: &crate::protocol::rule::RulesOut| is(&other.never, never) && is(&other.drop, drop);
                let stands = protocol.rules_out.iter().any(stands);
                self.pair(never, drop, stands, "line under rules_out");
            }
            Control::Before(first, then) => {
                let stands = protocol.actions.iter().filter(|action| action.id == **first);
                let stands = stands.flat_map(|action| &action.before).any(|at| is(at, then));
                self.pair(first, then, stands, "line under before");
            }
            Control::Opens(action) => {
                let has = self.action(action).is_none_or(|action| action.opens.is_some());
                self.there(action, has, || format!("`{action}` waits for nothing"));
            }
            Control::Fits(action) => {
                let has = self.action(action).is_none_or(|action| !action.fits.is_empty());
                self.there(action, has, || format!("`{action}` has one line for every bird"));
            }
            Control::Paragraph(name) => {
                self.known("paragraph", name, protocol.paragraphs.iter().map(|told| told.id.as_str()));
            }
            Control::Substance(name) => {
                self.known("substance", name, protocol.substances.iter().map(|substance| substance.id.as_str()));
            }
        }
    }

    /// A ban that some answer ends, as far as its own words say.
    fn ends(&mut self, action: &str) {
        let Some(ban) = self.action(action).and_then(|action| action.forbidden.as_ref()) else { return };
        let untils = std::iter::once(&ban.until).chain(ban.fits.iter().filter_map(|fit| fit.until.as_ref()));
        let tested = { untils }.any(|until| matches!(until.alone, End::Test { .. }));
        self.there(action, tested, || format!("no test ends the ban on `{action}`"));
    }

    fn pair(&mut self, one: &str, other: &str, stands: bool, what: &str) {
        let known = [one, other].map(|name| self.action(name).is_some());
        self.there(other, stands || known.contains(&false), || format!("there is no {what} of `{one}` and `{other}`"));
    }

    fn instruction(&mut self, question: &str, answer: &str) {
        let protocol = self.protocol;
        if !self.known("question", question, protocol.questions.iter().map(|question| question.id.as_str())) {
            return;
        }
        let choices = protocol.question(question).map_or(&[][..], |question| &question.choices);
        if self.known("answer", answer, choices.iter().map(|choice| choice.id.as_str())) {
            let fills = choices.iter().any(|choice| choice.id == *answer && choice.instruct.is_some());
            self.there(answer, fills, || format!("answer `{answer}` to `{question}` fills no screen"));
        }
    }

    fn back(&mut self, back: &Back) {
        let protocol = self.protocol;
        match back {
            Back::Told(action)
            | Back::NotTold(action)
            | Back::NotForbidden(action)
            | Back::Endless(action)
            | Back::PressedHarder(action, _) => {
                self.action(action);
            }
            Back::NotBefore(one, other) => {
                self.action(one);
                self.action(other);
            }
            Back::NotShown(name) => {
                self.known("instruction", name, protocol.instructions.iter().map(|told| told.id.as_str()));
            }
            Back::NotWatched(name) => {
                self.known("watch sign", name, protocol.watches.iter().map(|watch| watch.id.as_str()));
            }
            Back::NotRead(name) => {
                self.known("paragraph", name, protocol.paragraphs.iter().map(|told| told.id.as_str()));
            }
            Back::NeedBelow(_)
            | Back::HumaneBelow(_)
            | Back::HumaneAbove(_)
            | Back::AuthorityBelow(_)
            | Back::NotLookedAtWithin(_)
            | Back::NotRefused(_) => {}
        }
    }
}
