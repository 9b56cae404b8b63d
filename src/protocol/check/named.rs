//! What names actions: signs to watch for, instructions, conflicts, and what a forbidden action drags along.

use super::{Desk, find};
use crate::protocol::action::ActionAt;
use crate::protocol::fault::nearest;
use crate::protocol::limits::LONGEST_TIMER;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::rule::{Conflict, Instruction, RulesOut, Watch, WatchAt};

impl Desk {
    pub(super) fn watch(&mut self, placed: &Placed<raw::Watch>) -> Watch {
        let raw::Watch { id, say, told_by, source } = placed.item.clone();
        let item = format!("watch sign `{id}`");
        if told_by.is_empty() {
            let what = "name the questions that tell of it at a later look".to_owned();
            self.faults.push(placed.fault(item.clone(), "told_by", what));
        }
        let told_by = self.known_questions(placed, &item, "told_by", &told_by);
        self.words(placed, &item, "say", &say);
        let source = self.known_source(placed, &item, source.as_deref());
        Watch { id: id.as_str().into(), say, told_by, source }
    }

    pub(super) fn instruction(&mut self, placed: &Placed<raw::Instruction>) -> Option<Instruction> {
        let raw = placed.item.clone();
        let item = format!("instruction `{}`", raw.id);
        self.words(placed, &item, "title", &raw.title);
        if let Some(then) = raw.then.as_deref().filter(|then| !self.names.questions.contains_key(*then)) {
            let near = nearest(then, self.names.questions.keys().map(String::as_str));
            self.unknown(placed, &item, "then", "question", then, near);
        }
        let again = raw.again.as_deref().and_then(|again| self.known_instruction(placed, &item, "again", again));
        if let Some(beside) = raw.beside.as_deref().filter(|beside| !self.names.questions.contains_key(*beside)) {
            let near = nearest(beside, self.names.questions.keys().map(String::as_str));
            self.unknown(placed, &item, "beside", "question", beside, near);
        }
        if raw.then.is_some() && again.is_none() {
            let what = "`then` asks what has come of it; `again` has to say what comes if it has not helped".to_owned();
            self.faults.push(placed.fault(item.clone(), "then", what));
        }
        if raw.timer_s.is_some_and(|seconds| !(1..=LONGEST_TIMER).contains(&seconds)) {
            let what = format!("a timer runs for 1 to {LONGEST_TIMER} s");
            self.faults.push(placed.fault(format!("{item}, field timer_s"), "timer_s", what));
        }
        let source = self.known_source(placed, &item, raw.source.as_deref());
        Some(Instruction {
            id: raw.id.as_str().into(),
            acts: self.known_actions(placed, &item, "acts", &raw.acts)?,
            never: self.known_actions(placed, &item, "never", &raw.never)?,
            title: raw.title,
            timer_s: raw.timer_s,
            after: raw.after,
            then: raw.then.as_deref().map(Into::into),
            again,
            beside: raw.beside.as_deref().map(Into::into),
            once: raw.once,
            phones: raw.phones,
            source,
        })
    }

    pub(super) fn conflict(&mut self, placed: &Placed<raw::Conflict>) -> Option<Conflict> {
        let raw::Conflict { keep, drop, because } = placed.item.clone();
        let item = format!("conflict `{keep}` with `{drop}`");
        if !because.is_empty() {
            self.words(placed, &item, "because", &because);
        }
        let keep = self.known_action(placed, &item, "keep", &keep);
        let drop = self.known_action(placed, &item, "drop", &drop);
        Some(Conflict { keep: keep?, drop: drop?, because })
    }

    pub(super) fn ruled_out(&mut self, placed: &Placed<raw::RulesOut>) -> Option<RulesOut> {
        let raw::RulesOut { never, drop, because } = placed.item.clone();
        let item = format!("`{never}` rules out `{drop}`");
        self.words(placed, &item, "because", &because);
        let never = self.known_action(placed, &item, "never", &never);
        let drop = self.known_action(placed, &item, "drop", &drop);
        Some(RulesOut { never: never?, drop: drop?, because })
    }

    pub(super) fn known_action<T>(
        &mut self,
        placed: &Placed<T>,
        item: &str,
        field: &str,
        name: &str,
    ) -> Option<ActionAt> {
        let at = find(&self.names.actions, name).map(ActionAt);
        if at.is_none() {
            let near = nearest(name, self.names.actions.keys().map(String::as_str));
            self.unknown(placed, item, field, "action", name, near);
        }
        at
    }

    pub(super) fn known_actions<T>(
        &mut self,
        placed: &Placed<T>,
        item: &str,
        field: &str,
        names: &[String],
    ) -> Option<Vec<ActionAt>> {
        // Look every name up before giving up on the list, so that each unknown one is reported.
        let found: Vec<_> = names.iter().map(|name| self.known_action(placed, item, field, name)).collect();
        found.into_iter().collect()
    }

    pub(super) fn known_watch<T>(&mut self, placed: &Placed<T>, item: &str, name: &str) -> Option<WatchAt> {
        let at = find(&self.names.watches, name).map(WatchAt);
        if at.is_none() {
            let near = nearest(name, self.names.watches.keys().map(String::as_str));
            self.unknown(placed, item, "watch", "watch sign", name, near);
        }
        at
    }
}
