//! What names actions: signs to watch for, instructions, conflicts, and what a forbidden action drags along.

use super::Checker;
use super::cond::Belongs;
use crate::protocol::item::Items;
use crate::protocol::limits::LONGEST_TIMER;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::rule::{Conflict, Instead, Instruction, RulesOut, Watch};

impl Checker {
    pub(super) fn watch(&mut self, placed: &Placed<raw::Watch>) -> Watch {
        let raw::Watch { id, say, told_by, source } = placed.item.clone();
        let item = format!("watch sign `{id}`");
        if told_by.is_empty() {
            let what = "name the questions that tell of it at a later look".to_owned();
            self.faults.push(placed.fault(item.clone(), "told_by", what));
        }
        let told_by = self.all_known(placed, &item, "told_by", &told_by).unwrap_or_default();
        self.words(placed, &item, "say", &say);
        let source = self.known_source(placed, &item, source.as_deref());
        Watch { id: id.as_str().into(), say, told_by, source }
    }

    pub(super) fn instruction(&mut self, placed: &Placed<raw::Instruction>, items: &Items) -> Option<Instruction> {
        let raw = placed.item.clone();
        let item = format!("instruction `{}`", raw.id);
        self.instructs(placed, &item, "title", &raw.title);
        if !raw.after.is_empty() {
            self.instructs(placed, &item, "after", &raw.after);
        }
        let then = raw.then.as_deref().and_then(|then| self.known(placed, &item, "then", then));
        let again = raw.again.as_deref().and_then(|again| self.known(placed, &item, "again", again));
        let beside = raw.beside.as_deref().and_then(|beside| self.known(placed, &item, "beside", beside));
        if raw.then.is_some() && again.is_none() {
            let what = "`then` asks what has come of it; `again` has to say what comes if it has not helped".to_owned();
            self.faults.push(placed.fault(item.clone(), "then", what));
        }
        if raw.timer_s.is_some_and(|seconds| !(1..=LONGEST_TIMER).contains(&seconds)) {
            let what = format!("a timer runs for 1 to {LONGEST_TIMER} s");
            self.faults.push(placed.fault(format!("{item}, field timer_s"), "timer_s", what));
        }
        let source = self.known_source(placed, &item, raw.source.as_deref());
        let instead = raw.instead.iter().filter_map(|instead| self.instead(placed, &item, instead, items)).collect();
        Some(Instruction {
            id: raw.id.as_str().into(),
            acts: self.all_known(placed, &item, "acts", &raw.acts)?,
            never: self.all_known(placed, &item, "never", &raw.never)?,
            title: raw.title,
            timer_s: raw.timer_s,
            after: raw.after,
            then,
            again,
            beside,
            instead,
            once: raw.once,
            phones: raw.phones,
            source,
        })
    }

    /// What comes in an instruction's place; nothing takes the place of that again.
    fn instead(
        &mut self,
        placed: &Placed<raw::Instruction>,
        item: &str,
        instead: &raw::Instead,
        items: &Items,
    ) -> Option<Instead> {
        let raw::Instead { when, by } = instead;
        let when = self.cond(&Belongs { placed, item, field: "instead" }, when, items);
        Some(Instead { when: when?, by: self.known(placed, item, "instead", by)? })
    }

    pub(super) fn conflict(&mut self, placed: &Placed<raw::Conflict>) -> Option<Conflict> {
        let raw::Conflict { keep, drop, because } = placed.item.clone();
        let item = format!("conflict `{keep}` with `{drop}`");
        if !because.is_empty() {
            self.words(placed, &item, "because", &because);
        }
        let keep = self.known(placed, &item, "keep", &keep);
        let drop = self.known(placed, &item, "drop", &drop);
        Some(Conflict { keep: keep?, drop: drop?, because })
    }

    pub(super) fn ruled_out(&mut self, placed: &Placed<raw::RulesOut>) -> Option<RulesOut> {
        let raw::RulesOut { never, drop, because } = placed.item.clone();
        let item = format!("`{never}` rules out `{drop}`");
        self.words(placed, &item, "because", &because);
        let never = self.known(placed, &item, "never", &never);
        let drop = self.known(placed, &item, "drop", &drop);
        Some(RulesOut { never: never?, drop: drop?, because })
    }
}
