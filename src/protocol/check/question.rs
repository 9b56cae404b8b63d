//! Questions: step, answers, applicability, the measure they feed.

use super::Desk;
use super::cond::{Belongs, wound_questions};
use crate::bird::Kind;
use crate::protocol::KIND;
use crate::protocol::cond::Cond;
use crate::protocol::fault::{Fault, nearest};
use crate::protocol::question::{Choice, Question, Wording};
use crate::protocol::raw::{self, Form, Measure, Span};
use crate::protocol::read::{Items, Placed};
use crate::protocol::rule::Exclusion;

impl Desk {
    pub(super) fn questions(&mut self, items: &Items) -> Vec<Question> {
        let mut questions: Vec<Question> = Vec::with_capacity(items.questions.len());
        for placed in &items.questions {
            let question = self.question(placed, items);
            questions.push(question);
        }
        for (at, placed) in items.questions.iter().enumerate() {
            self.applicability(placed, at, &questions);
        }
        self.kinds(items);
        questions
    }

    fn question(&mut self, placed: &Placed<raw::Question>, items: &Items) -> Question {
        let raw = placed.item.clone();
        let item = format!("question `{}`", raw.id);
        for (field, text) in [("topic", &raw.topic), ("ask", &raw.ask), ("look", &raw.look)] {
            self.words(placed, &item, field, text);
        }
        self.known_source(placed, &item, &raw.source);
        if !self.names.steps.contains_key(&raw.step) {
            let near = nearest(&raw.step, self.names.steps.keys().map(String::as_str));
            self.unknown(placed, &item, "step", "step", &raw.step, near);
        }
        let (ordered, answers) = match raw.form {
            Form::Ordered(answers) => (true, answers),
            Form::Unordered(answers) => (false, answers),
            Form::Weight => (false, Vec::new()),
        };
        if !matches!(placed.item.form, Form::Weight) && !(2..=32).contains(&answers.len()) {
            let what = format!("{} answers; a question has 2 to 32", answers.len());
            self.faults.push(placed.fault(item.clone(), "form", what));
        }
        let choices = self.choices(placed, &item, answers, raw.gives);
        self.areas_grow(placed, &item, ordered, &choices);
        let applies = raw
            .applies
            .as_ref()
            .and_then(|cond| self.cond(&Belongs { placed, item: &item, field: "applies" }, cond, items));
        let moot =
            raw.moot.as_ref().and_then(|cond| self.cond(&Belongs { placed, item: &item, field: "moot" }, cond, items));
        Question {
            id: raw.id.as_str().into(),
            step: self.names.steps.get(&raw.step).copied().unwrap_or_default(),
            topic: raw.topic,
            ask: raw.ask,
            look: raw.look,
            wound: raw.wound,
            touches: raw.touches,
            ordered,
            choices,
            list: raw.list.as_deref().map(Into::into),
            gives: raw.gives,
            for_kinds: self.wordings(placed, &item, &raw.for_kinds),
            applies,
            moot,
            source: raw.source.as_str().into(),
        }
    }

    /// Other words for some kinds; each names kinds the program knows.
    fn wordings(&mut self, placed: &Placed<raw::Question>, item: &str, raw: &[raw::Wording]) -> Vec<Wording> {
        let mut wordings = Vec::with_capacity(raw.len());
        for wording in raw {
            for text in wording.ask.iter().chain(&wording.look) {
                self.words(placed, item, "for_kinds", text);
            }
            let mut kinds = Vec::with_capacity(wording.kinds.len());
            for name in &wording.kinds {
                if let Some(kind) = Kind::from_id(name) {
                    kinds.push(kind);
                } else {
                    let near = nearest(name, Kind::ALL.map(Kind::id));
                    self.unknown(placed, item, "for_kinds", "kind", name, near);
                }
            }
            let listed = placed.item.list.is_some() && wording.ask.is_some();
            if kinds.is_empty() || (wording.ask.is_none() && wording.look.is_none()) || listed {
                let what = "other words are for some kinds, give `ask` or `look`, and no `ask` for a sign on a list"
                    .to_owned();
                self.faults.push(placed.fault(format!("{item}, field for_kinds"), "for_kinds", what));
            }
            wordings.push(Wording { kinds, ask: wording.ask.clone(), look: wording.look.clone() });
        }
        wordings
    }

    fn choices(
        &mut self,
        placed: &Placed<raw::Question>,
        item: &str,
        answers: Vec<raw::Answer>,
        gives: Option<Measure>,
    ) -> Vec<Choice> {
        let mut choices: Vec<Choice> = Vec::with_capacity(answers.len());
        for answer in answers {
            self.words(placed, item, "say", &answer.say);
            if choices.iter().any(|before| before.id == *answer.id) {
                let what = format!("answer `{}` stands twice", answer.id);
                self.faults.push(placed.fault(item.to_owned(), &answer.id, what));
            }
            let fits = match (gives, answer.band) {
                (Some(Measure::TimeSince), Some(Span::Hours(low, high)))
                | (Some(Measure::WoundArea), Some(Span::SquareMillimetres(low, high))) => low <= high,
                (None | Some(Measure::Weight), None) => true,
                _ => false,
            };
            if !fits {
                let what = format!(
                    "answer `{}`: `band` is needed, low before high, where the question gives TimeSince (Hours) or WoundArea (SquareMillimetres), and nowhere else",
                    answer.id
                );
                self.faults.push(placed.fault(item.to_owned(), &answer.id, what));
            }
            let instruct = answer.instruct.and_then(|name| self.known_instruction(placed, item, &name));
            choices.push(Choice { id: answer.id.as_str().into(), say: answer.say, band: answer.band, instruct });
        }
        choices
    }

    /// A worse size may not stand for a smaller area.
    fn areas_grow(&mut self, placed: &Placed<raw::Question>, item: &str, ordered: bool, choices: &[Choice]) {
        let areas: Vec<_> = choices.iter().filter_map(Choice::area).map(|area| (area.low, area.high)).collect();
        let grows = areas.is_sorted_by(|one, next| one.0 <= next.0 && one.1 <= next.1);
        if ordered && !grows {
            let what = "the areas must grow from each answer to the next".to_owned();
            self.faults.push(placed.fault(item.to_owned(), "band", what));
        }
    }

    /// Applicability may only look back, may only widen as answers get worse, and stays with its own subject.
    fn applicability(&mut self, placed: &Placed<raw::Question>, at: usize, questions: &[Question]) {
        let Some(question) = questions.get(at) else {
            return;
        };
        let item = format!("question `{}`", question.id);
        for (field, cond) in [("applies", &question.applies), ("moot", &question.moot)] {
            let Some(cond) = cond else { continue };
            let of = Belongs { placed, item: &item, field };
            if field == "applies" {
                self.direction(&of, cond, true, questions);
            }
            let mut measures = false;
            cond.walk(&mut |part| measures |= matches!(part, Cond::AtLeast(_) | Cond::Under(_) | Cond::SomeWound(_)));
            if measures {
                let what = "whether a question is asked may rest on answers only, not on measures or wounds".to_owned();
                self.faults.push(placed.fault(format!("{item}, field {field}"), field, what));
            }
            for read in cond.questions() {
                if usize::from(read.0) >= at {
                    let name = questions.get(usize::from(read.0)).map_or("?", |q| q.id.as_str());
                    let what = format!("`{name}` is asked later; a question may only depend on those before it");
                    self.faults.push(placed.fault(format!("{item}, field {field}"), name, what));
                }
            }
            if !question.wound && !wound_questions(cond, questions).is_empty() {
                let what = "a question about the bird cannot depend on one about a wound".to_owned();
                self.faults.push(placed.fault(format!("{item}, field {field}"), field, what));
            }
        }
    }

    /// The kinds that can be answered are the kinds the program knows, no more and no fewer.
    fn kinds(&mut self, items: &Items) {
        let Some(placed) = items.questions.iter().find(|placed| placed.item.id == KIND) else {
            self.faults.push(Fault {
                file: "questions".into(),
                line: 0,
                item: String::new(),
                what: format!("no question `{KIND}`: weight and applicability rest on it"),
                nearest: None,
            });
            return;
        };
        let (Form::Unordered(answers) | Form::Ordered(answers)) = &placed.item.form else {
            return;
        };
        let told: Vec<&str> = answers.iter().map(|answer| answer.id.as_str()).collect();
        if told != Kind::ALL.map(Kind::id) {
            let what = format!("the answers must be the kinds {}, in this order", Kind::ALL.map(Kind::id).join(", "));
            self.faults.push(placed.fault(format!("question `{KIND}`"), "form", what));
        }
    }

    pub(super) fn exclusion(&mut self, placed: &Placed<raw::Exclusion>, items: &Items) -> Option<Exclusion> {
        let raw::Exclusion { id, one, other, say } = placed.item.clone();
        let item = format!("exclusion `{id}`");
        self.words(placed, &item, "say", &say);
        let mut side = |(question, answer): (String, String), field: &str| -> Option<Cond> {
            self.cond(&Belongs { placed, item: &item, field }, &raw::Cond::Is(question, answer), items)
        };
        let (one, other) = (side(one, "one"), side(other, "other"));
        Some(Exclusion { id: id.as_str().into(), one: one?, other: other?, say })
    }
}
