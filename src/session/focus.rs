//! Where keys go: what each stands for hangs on what is asked, and on what lies on top.

use super::context::Context;
use super::draft::Draft;
use super::{Face, Session};
use crate::exam::Place;

impl Session<'_> {
    /// Where keys go.
    pub fn context(&self) -> Context {
        if self.line.is_some() {
            return Context::Typing;
        }
        if let Some(overlay) = self.overlays.last() {
            return overlay.lies().keys;
        }
        if self.practice.is_some() && !matches!(self.exam.place, Place::Instruction(..)) && self.draft.is_none() {
            return Context::Look;
        }
        match (self.shown(), &self.exam.place) {
            (Face::Verdict, _) | (Face::Exam, Place::Done) => Context::Verdict,
            (Face::Course, _) => Context::Course,
            (Face::Plan, _) => Context::Plan,
            (Face::Exam, Place::Instruction(..)) => Context::Instruction,
            (Face::Exam, Place::List(_)) => Context::List,
            (Face::Exam, Place::Ask(asked)) => match &self.draft {
                Some(Draft::Spill(_)) => Context::Adding,
                Some(Draft::Taps(_) | Draft::Vein(_)) => Context::Tapping,
                None if asked.question == self.protocol.roles.place && !self.protocol.views.is_empty() => Context::Body,
                None => Context::Ask,
            },
            (Face::Exam, Place::Wounds) => Context::Wounds,
        }
    }
}
