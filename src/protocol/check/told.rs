//! Paragraphs, words explained, scores and grades: known names, plain texts.

use super::Checker;
use super::cond::Belongs;
use super::direction::Written;
use crate::protocol::cond::QuestionAt;
use crate::protocol::fault::nearest;
use crate::protocol::item::Items;
use crate::protocol::question::Question;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::scale::System;
use crate::protocol::table;
use crate::protocol::texts::{Grades, Paragraph, Score, Term};

impl Checker {
    pub(super) fn paragraph(
        &mut self,
        placed: &Placed<raw::Paragraph>,
        items: &Items,
        questions: &[Question],
    ) -> Option<Paragraph> {
        let raw = placed.item.clone();
        let item = format!("paragraph `{}`", raw.id);
        self.words(placed, &item, "title", &raw.title);
        for line in &raw.lines {
            self.words(placed, &item, "lines", line);
        }
        if let Some(card) = &raw.card {
            self.instructs(placed, &item, "card", card.text());
        }
        let stands_for = match &raw.in_place_of {
            Some(other) => Some(self.known(placed, &item, "in_place_of", other)?),
            None => None,
        };
        let basis = self.basis(placed, &item, raw.source.as_deref(), raw.strength, raw.borrowed.clone());
        let of = Belongs { placed, item: &item, field: "when" };
        let when = self.cond(&of, &raw.when, items)?;
        let parts = self.parts(Written { raw: &raw.when, cond: &when, items }, true);
        if let Some((part, near)) = parts.iter().find_map(|part| Some((part, part.wound_question(questions)?))) {
            let what = "a paragraph is about the bird; put what is about a wound in `some wound (..)`".to_owned();
            self.complain_of(&of, part, near.as_str(), what);
        }
        Some(Paragraph {
            id: raw.id.as_str().into(),
            under: raw.under,
            when,
            title: raw.title,
            lines: raw.lines,
            card: raw.card,
            in_place_of: stands_for,
            unless_authority: raw.unless_authority,
            keeps: raw.keeps,
            air: raw.air,
            source: basis.source,
            strength: basis.strength,
            borrowed: basis.borrowed,
        })
    }

    pub(super) fn term(&mut self, placed: &Placed<raw::Term>) -> Term {
        let raw::Term { term, means } = placed.item.clone();
        self.words(placed, &format!("term `{term}`"), "term", &term);
        self.words(placed, &format!("term `{term}`"), "means", &means);
        Term { term: term.to_lowercase(), means }
    }

    pub(super) fn score(&mut self, placed: &Placed<raw::Score>, questions: &[Question]) -> Score {
        let raw::Score { id, name, of, say, source } = placed.item.clone();
        let item = format!("score `{id}`");
        for (field, text) in [("name", &name), ("say", &say)] {
            self.words(placed, &item, field, text);
        }
        let source = self.known_source(placed, &item, source.as_deref());
        if of.is_empty() {
            self.faults.push(placed.fault(item.clone(), "of", "a score needs at least one question".to_owned()));
        }
        let mut at = Vec::with_capacity(of.len());
        for name in &of {
            let of = |question: &Question| question.id == **name && question.ordered && !question.wound;
            if let Some((found, _)) = table::placed(questions).find(|(_, question)| of(question)) {
                at.push(found);
            } else {
                let near = nearest(name, self.names.questions.keys().map(String::as_str));
                self.unknown(placed, &item, "of", "ordered question about the bird", name, near);
            }
        }
        Score { id: id.as_str().into(), name, of: at, say, source }
    }

    /// The questions, of the bird or of a wound, whose answers are said on the phone.
    pub(super) fn said(
        &mut self,
        manifest: &Placed<raw::Manifest>,
        (field, wound): (&str, bool),
        names: &[String],
        questions: &[Question],
    ) -> Vec<QuestionAt> {
        let mut at = Vec::new();
        for name in names {
            let of = |question: &Question| question.id == **name && question.wound == wound;
            if let Some((found, _)) = table::placed(questions).find(|(_, question)| of(question)) {
                at.push(found);
            } else {
                let near = nearest(name, self.names.questions.keys().map(String::as_str));
                let sort = if wound { "question about a wound" } else { "question about the bird" };
                self.unknown(manifest, "protocol", field, sort, name, near);
            }
        }
        at
    }

    pub(super) fn grades(&mut self, items: &Items) -> Vec<Grades> {
        let grades: Vec<Grades> = items
            .grades
            .iter()
            .map(|placed| {
                let raw::Grades { system, slight, serious, grave } = placed.item.clone();
                for (field, text) in [("slight", &slight), ("serious", &serious), ("grave", &grave)] {
                    self.words(placed, &format!("grades of {system:?}"), field, text);
                }
                Grades { system, words: [slight, serious, grave] }
            })
            .collect();
        for system in System::ALL {
            if !self.lost.some && grades.iter().filter(|grades| grades.system == system).count() != 1 {
                let what = format!("the grades of {system:?} must be told once");
                if let Some(manifest) = &items.manifest {
                    self.faults.push(manifest.fault("grades".into(), "protocol", what));
                }
            }
        }
        grades
    }
}
