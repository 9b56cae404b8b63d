//! Actions, and what names them: signs to watch for, instructions, conflicts, and what a forbidden action drags along.

use super::cond::Belongs;
use super::{Desk, find};
use crate::protocol::fault::nearest;
use crate::protocol::raw;
use crate::protocol::read::{Items, Placed};
use crate::protocol::rule::{Action, ActionAt, Conflict, End, Forbidden, Instruction, RulesOut, Until, Watch, WatchAt};

impl Desk {
    pub(super) fn action(&mut self, placed: &Placed<raw::Action>, items: &Items) -> Option<Action> {
        let raw::Action {
            id,
            verb,
            place,
            means,
            say,
            how,
            forbidden,
            air,
            at_once,
            wound,
            part,
            home,
            replaces,
            done_like,
            source,
        } = placed.item.clone();
        let item = format!("action `{id}`");
        for (field, text) in [("verb", &verb), ("place", &place), ("say", &say)] {
            self.words(placed, &item, field, text);
        }
        if !how.is_empty() || forbidden.is_none() {
            self.words(placed, &item, "how", &how);
        }
        let forbidden = match forbidden {
            Some(forbidden) => Some(self.forbidden(placed, &item, forbidden, items)?),
            None => None,
        };
        if let Some(forbidden) = &forbidden {
            if let Some(say) = &forbidden.say {
                self.words(placed, &item, "say", say);
            }
            self.words(placed, &item, "why", &forbidden.why);
            self.words(placed, &item, "instead", &forbidden.instead);
        }
        self.fits_a_phone(placed, &item, &say);
        self.known_source(placed, &item, &source);
        let replaces = self.known_actions(placed, &item, "replaces", &replaces)?;
        let done_like = done_like.into_iter().collect::<Vec<_>>();
        let done_like = self.known_actions(placed, &item, "done_like", &done_like)?.first().copied();
        Some(Action {
            id: id.as_str().into(),
            verb,
            place,
            means,
            say,
            how,
            forbidden,
            air,
            at_once,
            wound,
            part,
            home,
            replaces,
            done_like,
            source: source.as_str().into(),
        })
    }

    /// What is told of a ban, its end among it.
    fn forbidden(
        &mut self,
        placed: &Placed<raw::Action>,
        item: &str,
        forbidden: raw::Forbidden,
        items: &Items,
    ) -> Option<Forbidden> {
        let raw::Forbidden { say, why, instead, until } = forbidden;
        let until = match until {
            raw::Until::Vet { or } => Until { vet: true, alone: self.end(placed, item, *or, items)? },
            other => Until { vet: false, alone: self.end(placed, item, other, items)? },
        };
        Some(Forbidden { say, why, instead, until })
    }

    /// An end that holds where no vet can be reached.
    fn end(&mut self, placed: &Placed<raw::Action>, item: &str, end: raw::Until, items: &Items) -> Option<End> {
        match end {
            raw::Until::Test { when, say } => {
                self.words(placed, item, "until", &say);
                let when = self.cond(&Belongs { placed, item, field: "until" }, &when, items)?;
                if when.questions().is_empty() {
                    let what = "a test that ends a ban names a question and its answers".to_owned();
                    self.faults.push(placed.fault(format!("{item}, field until"), "until", what));
                }
                Some(End::Test { when, say })
            }
            raw::Until::Lives { because } => {
                self.words(placed, item, "until", &because);
                Some(End::Lives { because })
            }
            raw::Until::Vet { .. } => {
                let what =
                    "where no vet can be reached a vet's word ends nothing; expected a test or `Lives`".to_owned();
                self.faults.push(placed.fault(format!("{item}, field until"), "until", what));
                None
            }
        }
    }

    /// A line of "do now" has at most eight words, and is not cut on a phone.
    pub(super) fn fits_a_phone<T>(&mut self, placed: &Placed<T>, item: &str, say: &str) {
        let count = say.split_whitespace().count();
        if count > 8 {
            let what = format!("field `say` has {count} words; a line of \"do now\" has at most eight");
            self.faults.push(placed.fault(item.to_owned(), say, what));
        }
        if say.chars().count() > 36 {
            let what = "field `say` is longer than 36 characters; it would be cut on a phone".to_owned();
            self.faults.push(placed.fault(item.to_owned(), say, what));
        }
    }

    pub(super) fn watch(&mut self, placed: &Placed<raw::Watch>) -> Watch {
        let raw::Watch { id, say, told_by, source } = placed.item.clone();
        let item = format!("watch sign `{id}`");
        if told_by.is_empty() {
            let what = "name the questions that tell of it at a later look".to_owned();
            self.faults.push(placed.fault(item.clone(), "told_by", what));
        }
        let told_by = self.known_questions(placed, &item, "told_by", &told_by);
        self.words(placed, &item, "say", &say);
        self.known_source(placed, &item, &source);
        Watch { id: id.as_str().into(), say, told_by, source: source.as_str().into() }
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
        self.known_source(placed, &item, &raw.source);
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
            source: raw.source.as_str().into(),
        })
    }

    /// What comes where an instruction has not helped ends some time: nobody is led round in a ring.
    pub(super) fn rings(&mut self, items: &Items) {
        let again = |id: &str| items.instructions.iter().find(|one| one.item.id == id)?.item.again.as_deref();
        for placed in &items.instructions {
            let first = placed.item.id.as_str();
            let mut chain = std::iter::successors(again(first), |id| again(id)).take(items.instructions.len());
            if chain.any(|id| id == first) {
                let what = "`again` leads back to where it began: nobody would ever come out".to_owned();
                self.faults.push(placed.fault(format!("instruction `{first}`"), "again", what));
            }
        }
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
