//! Questions: step, answers, applicability, the measure they feed.

use super::Checker;
use super::cond::Belongs;
use super::direction::Written;
use crate::bird::{BUILDS, Build, Kind};
use crate::protocol::cond::{Cond, Measure};
use crate::protocol::fault::nearest;
use crate::protocol::item::Items;
use crate::protocol::question::{Again, AskedOf, Choice, Course, Question, Span, Wording};
use crate::protocol::raw::{self, Form};
use crate::protocol::read::Placed;
use crate::protocol::rule::Exclusion;
use crate::protocol::table::At;
use crate::unit::{Band, Grams, Minutes};

impl Checker {
    pub(super) fn questions(&mut self, items: &Items) -> Vec<Question> {
        let mut questions: Vec<Question> = Vec::with_capacity(items.questions.len());
        for placed in &items.questions {
            let question = self.question(placed, items);
            questions.push(question);
        }
        for (at, placed) in items.questions.iter().enumerate() {
            self.applicability(placed, at, &questions, items);
        }
        self.step_by_step(items);
        questions
    }

    fn question(&mut self, placed: &Placed<raw::Question>, items: &Items) -> Question {
        let raw = placed.item.clone();
        let item = format!("question `{}`", raw.id);
        self.calls(placed, &item, &raw.topic);
        self.asks_with(placed, &item, "ask", &raw.ask);
        self.instructs(placed, &item, "look", &raw.look);
        let source = self.known_source(placed, &item, raw.source.as_deref());
        let asks_after = raw.asks_after.as_deref().and_then(|of| self.known(placed, &item, "asks_after", of));
        let adds_to = raw.adds_to.as_deref().and_then(|to| self.known(placed, &item, "adds_to", to));
        let step = self.known_step(placed, &item, "step", &raw.step);
        let ordered = raw.form.is_ordered();
        let answers = raw.form.answers(&self.yes_no());
        let weight = matches!(placed.item.form, Form::Weight);
        if weight != (raw.gives == Some(Measure::Weight)) {
            let what = "the form `Weight` and `gives: Weight` go together".to_owned();
            self.faults.push(placed.fault(item.clone(), "form", what));
        }
        if !weight && !(2..=32).contains(&answers.len()) {
            let what = format!("{} answers; a question has 2 to 32", answers.len());
            self.faults.push(placed.fault(item.clone(), "form", what));
        }
        let choices = if weight { builds() } else { self.choices(placed, &item, answers, raw.gives) };
        let applies = raw
            .applies
            .as_ref()
            .and_then(|cond| self.cond(&Belongs { placed, item: &item, field: "applies" }, cond, items));
        let moot =
            raw.moot.as_ref().and_then(|cond| self.cond(&Belongs { placed, item: &item, field: "moot" }, cond, items));
        let question = Question {
            id: raw.id.as_str().into(),
            step: step.unwrap_or(At::new(0)),
            topic: raw.topic,
            ask: raw.ask,
            look: raw.look,
            wound: raw.wound,
            touches: raw.touches,
            ordered,
            choices,
            list: raw.list.and_then(|list| self.lists.get(&list).copied()),
            gives: raw.gives,
            for_kinds: self.wordings(placed, &item, &raw.for_kinds),
            applies,
            moot,
            asked_if: raw
                .asked_if
                .as_ref()
                .and_then(|cond| self.cond(&Belongs { placed, item: &item, field: "asked_if" }, cond, items)),
            again: raw.again.unwrap_or(if ordered { Again::WhileBad } else { Again::Never }),
            worked_out: raw.worked_out.and_then(|course| self.course(placed, &item, course, items)),
            asks_after,
            adds_to,
            asked_of: if raw.of_seen { AskedOf::Seen } else { AskedOf::InDoubtToo },
            shown_if: raw
                .shown_if
                .as_ref()
                .and_then(|cond| self.cond(&Belongs { placed, item: &item, field: "shown_if" }, cond, items)),
            source,
        };
        self.bands_grow(placed, &item, &question);
        self.no_reach(placed, &item, &question);
        self.is_worked_out(placed, &item, &question);
        self.adds_to(placed, &item, &question, items);
        if question.is_of_seen() && (question.applies.is_none() || question.wound) {
            let what = "what is asked `of_seen` is about the bird, and applies by what has to be seen first".to_owned();
            self.faults.push(placed.fault(item.clone(), "of_seen", what));
        }
        question
    }

    /// What only adds to another answer is of the same subject as that, and decides nothing by itself.
    fn adds_to(&mut self, placed: &Placed<raw::Question>, item: &str, question: &Question, items: &Items) {
        let Some(at) = question.adds_to else { return };
        let Some(added_to) = items.questions.get(at.nth()).map(|other| &other.item) else { return };
        let to = &added_to.id;
        let instructs = question.choices.iter().any(|choice| choice.instruct.is_some());
        let decides = question.ordered || question.gives.is_some() || question.list.is_some() || instructs;
        // It applies by what it adds to, which is asked before: so it is not asked of what nobody knows to be hurt.
        let applies = question.applies.iter().flat_map(Cond::questions).any(|read| read == at);
        if decides || !applies || added_to.wound != question.wound || added_to.adds_to.is_some() {
            let what = format!(
                "what adds to `{to}` has answers without an order, neither `gives`, `list` nor `instruct`, `wound` as `{to}` has it, and `applies` by it; and `{to}` adds to nothing"
            );
            self.faults.push(placed.fault(item.to_owned(), "adds_to", what));
        }
    }

    /// What an answer is worked out from. What was so once is a literal, or any of several, about the same subject.
    fn course(
        &mut self,
        placed: &Placed<raw::Question>,
        item: &str,
        course: raw::Course,
        items: &Items,
    ) -> Option<Course> {
        let (so, within) = match course {
            raw::Course::WeightGone => return Some(Course::WeightGone),
            raw::Course::WoundGrown => return Some(Course::WoundGrown),
            raw::Course::Was { so, within_min } => (so, Minutes(within_min)),
        };
        let plain = |so: &Cond| match so {
            Cond::Answer(..) => true,
            Cond::Any(parts) => parts.iter().all(|part| matches!(part, Cond::Answer(..))),
            _ => false,
        };
        let so = self.cond(&Belongs { placed, item, field: "worked_out" }, &so, items)?;
        if !plain(&so) {
            let what = "what was so once is one question's answers, or `Any` of several such".to_owned();
            self.faults.push(placed.fault(item.to_owned(), "worked_out", what));
        }
        Some(Course::Was { so, within })
    }

    /// What is worked out is asked of nobody: its answers are the steps of what it is worked out from, it applies always, and
    /// stands on no list.
    fn is_worked_out(&mut self, placed: &Placed<raw::Question>, item: &str, question: &Question) {
        let Some(course) = &question.worked_out else { return };
        let (steps, wound) = course.shape();
        let wound = wound.unwrap_or(question.wound);
        let asked = question.list.is_some() || question.applies.is_some() || question.gives.is_some();
        if asked || !question.ordered || question.wound != wound || question.choices.len() != steps {
            let course = course.id();
            let what = format!(
                "worked out of `{course}` it is ordered, has {steps} answers, `wound: {wound}`, and neither `applies`, `list` nor `gives`"
            );
            self.faults.push(placed.fault(item.to_owned(), "worked_out", what));
        }
    }

    /// Other words for some kinds; each names kinds the program knows.
    fn wordings(&mut self, placed: &Placed<raw::Question>, item: &str, raw: &[raw::Wording]) -> Vec<Wording> {
        let mut wordings = Vec::with_capacity(raw.len());
        for wording in raw {
            if let Some(ask) = &wording.ask {
                self.asks_with(placed, item, "for_kinds", ask);
            }
            if let Some(look) = &wording.look {
                self.instructs(placed, item, "for_kinds", look);
            }
            let kinds = self.kinds_named(placed, item, &wording.kinds);
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
        let shares = shares(&answers, placed.item.form.is_ordered());
        for (answer, often) in answers.into_iter().zip(shares) {
            self.answers_with(placed, item, &answer.say);
            if choices.iter().any(|before| before.id == *answer.id) {
                let what = format!("answer `{}` stands twice", answer.id);
                self.faults.push(placed.fault(item.to_owned(), &answer.id, what));
            }
            if !fits(gives, answer.band) {
                let what = format!(
                    "answer `{}`: `band` is needed, low before high, where the question gives TimeSince (Hours), WoundArea (SquareMillimetres), BloodLost (Microlitres), BreathRate (PerMinute), Dryness (Percent) or Refill (TenthsOfSecond), and nowhere else",
                    answer.id
                );
                self.faults.push(placed.fault(item.to_owned(), &answer.id, what));
            }
            if often == 0 || often > 1000 {
                let what = format!("answer `{}`: `often` is a share against the others, from 1 to 1000", answer.id);
                self.faults.push(placed.fault(item.to_owned(), &answer.id, what));
            }
            let known = |name: String| self.known(placed, item, "instruct", &name);
            let instruct = answer.instruct.and_then(known);
            choices.push(Choice {
                id: answer.id.as_str().into(),
                say: answer.say,
                often,
                worth: answer.band.map(Span::worth),
                kinds: Vec::new(),
                instruct,
                reach: answer.reach,
            });
        }
        choices
    }

    /// A worse answer may not stand for less; a figure is told apart by the high ends, so those differ.
    fn bands_grow(&mut self, placed: &Placed<raw::Question>, item: &str, question: &Question) {
        let worth: Vec<Band<u64>> = question.choices.iter().filter_map(|choice| choice.worth).collect();
        let grows = worth.is_sorted_by(|one, next| one.low <= next.low && one.high <= next.high);
        let apart = worth.is_sorted_by(|one, next| one.high < next.high);
        if let (Some(of), Some(last)) = (question.figure(), worth.last())
            && last.high < of.most()
        {
            let what = format!(
                "the last answer stands for every figure above it too: its `band` must reach {} (in its smallest unit)",
                of.most()
            );
            self.faults.push(placed.fault(format!("{item}, field band"), "band", what));
        }
        if question.ordered && !grows || question.figure().is_some() && !(question.ordered && apart) {
            let what = "the bands must grow from each answer to the next".to_owned();
            self.faults.push(placed.fault(item.to_owned(), "band", what));
        }
    }

    /// Only the answers about a vet's reach say how soon that is.
    fn no_reach(&mut self, placed: &Placed<raw::Question>, item: &str, question: &Question) {
        let Some(roles) = &self.roles else { return };
        if question.id != *roles.reach && question.choices.iter().any(|choice| choice.reach.is_some()) {
            let what = format!("only `{}` asks how soon a vet can see her; leave `reach` out here", roles.reach);
            self.faults.push(placed.fault(format!("{item}, field reach"), "reach", what));
        }
    }

    fn kinds_named(&mut self, placed: &Placed<raw::Question>, item: &str, names: &[String]) -> Vec<Kind> {
        let mut kinds = Vec::with_capacity(names.len());
        for name in names {
            if let Some(kind) = Kind::from_id(name) {
                kinds.push(kind);
            } else {
                let near = nearest(name, Kind::ALL.map(Kind::id));
                self.unknown(placed, item, "kinds", "kind", name, near);
            }
        }
        kinds
    }

    /// Applicability may only look back, may only widen as answers get worse, and stays with its own subject.
    fn applicability(&mut self, placed: &Placed<raw::Question>, at: usize, questions: &[Question], items: &Items) {
        let Some(question) = questions.get(at) else {
            return;
        };
        let item = format!("question `{}`", question.id);
        if question.applies.is_some() && matches!(question.gives, Some(Measure::Weight | Measure::TimeSince)) {
            let what =
                "weight and time since the injury count for every bird; such a question has no `applies`".to_owned();
            self.faults.push(placed.fault(format!("{item}, field applies"), "applies", what));
        }
        let raw = &placed.item;
        let conds = [
            ("applies", &raw.applies, &question.applies),
            ("moot", &raw.moot, &question.moot),
            ("asked_if", &raw.asked_if, &question.asked_if),
        ];
        for (field, raw, cond) in conds {
            let (Some(raw), Some(cond)) = (raw, cond) else { continue };
            let (of, written) = (Belongs { placed, item: &item, field }, Written { raw, cond, items });
            if field == "applies" {
                self.direction(&of, written, true, questions);
            }
            self.rests_on_answers(&of, written);
            self.looks_back(&of, written, at, questions);
        }
    }

    /// Whether a question is asked rests on answers alone.
    fn rests_on_answers(&mut self, of: &Belongs<raw::Question>, written: Written) {
        let parts = self.parts(written, true);
        if let Some((part, near)) = parts.iter().find_map(|part| Some((part, part.beyond_answers()?))) {
            let what = "whether a question is asked may rest on answers only, not on measures or wounds".to_owned();
            self.complain_of(of, part, near, what);
        }
    }

    /// A question depends on those before it, and one about the bird on none about a wound.
    fn looks_back(&mut self, of: &Belongs<raw::Question>, written: Written, at: usize, questions: &[Question]) {
        for part in self.parts(written, true) {
            let (Cond::Answer(read, _), Some(question)) = (part.cond, part.question(questions)) else { continue };
            if read.nth() >= at {
                let what = format!("`{}` is asked later; a question may only depend on those before it", question.id);
                self.complain_of(of, &part, question.id.as_str(), what);
            }
            if !of.placed.item.wound && part.wound_question(questions).is_some() {
                let what = "a question about the bird cannot depend on one about a wound".to_owned();
                self.complain_of(of, &part, question.id.as_str(), what);
            }
        }
    }

    pub(super) fn exclusion(&mut self, placed: &Placed<raw::Exclusion>, items: &Items) -> Option<Exclusion> {
        let raw::Exclusion { id, one, other, say } = placed.item.clone();
        let item = format!("exclusion `{id}`");
        self.words(placed, &item, "say", &say);
        let mut side = |cond: &raw::Cond, field: &str| -> Option<Cond> {
            let cond = self.cond(&Belongs { placed, item: &item, field }, cond, items)?;
            // The other may be that something of her is not so: what shows, and is found nowhere.
            let is_answer = matches!(cond, Cond::Answer(..)) || (field == "other" && matches!(cond, Cond::Not(_)));
            if !is_answer {
                let what = "what cannot both be true are two answers, each such as `posture = upright`".to_owned();
                self.faults.push(placed.fault(format!("{item}, field {field}"), field, what));
            }
            Some(cond)
        };
        let (one, other) = (side(&one, "one"), side(&other, "other"));
        Some(Exclusion { id: id.as_str().into(), one: one?, other: other?, say })
    }
}

/// How often each answer is given. Where none of a question in order says so, the worse the rarer: shares of ours, for the hint what
/// to ask next and for drawn birds alone.
fn shares(answers: &[raw::Answer], ordered: bool) -> Vec<u32> {
    let usual: &[u32] = match answers.len() {
        2 => &[85, 15],
        3 => &[72, 19, 9],
        4 => &[68, 18, 9, 5],
        5 => &[62, 18, 10, 6, 4],
        _ => &[],
    };
    let silent = ordered && answers.iter().all(|answer| answer.often.is_none());
    let usual = usual.iter().copied().filter(|_| silent).chain(std::iter::repeat(1));
    answers.iter().zip(usual).map(|(answer, usual)| answer.often.unwrap_or(usual)).collect()
}

/// The builds a bird may be gone by without a scale; what they are called stands in the catalogue.
fn builds() -> Vec<Choice> {
    let grams = |band: Band<Grams>| Band { low: u64::from(band.low.0), high: u64::from(band.high.0) };
    let choice = |build: &Build| Choice {
        id: build.id().into(),
        say: String::new(),
        often: 1,
        worth: Some(grams(build.weight)),
        kinds: build.kinds.to_vec(),
        instruct: None,
        reach: None,
    };
    BUILDS.iter().map(choice).collect()
}

/// Whether an answer's band is in the unit of what its question gives, low before high.
const fn fits(gives: Option<Measure>, band: Option<Span>) -> bool {
    match (gives, band) {
        (Some(Measure::TimeSince), Some(Span::Hours(low, high)))
        | (Some(Measure::WoundArea), Some(Span::SquareMillimetres(low, high)))
        | (Some(Measure::BloodLost), Some(Span::Microlitres(low, high)))
        | (Some(Measure::BreathRate), Some(Span::PerMinute(low, high)))
        | (Some(Measure::Dryness), Some(Span::Percent(low, high)))
        | (Some(Measure::Refill), Some(Span::TenthsOfSecond(low, high))) => low <= high,
        (None, None) => true,
        _ => false,
    }
}
