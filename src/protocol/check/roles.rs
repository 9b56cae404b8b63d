//! Roles: every name the program asks for is known and has the form that is expected of it.

use super::Checker;
use crate::bird::Kind;
use crate::finding::Id;
use crate::protocol::cond::{Measure, QuestionAt};
use crate::protocol::fault::{Fault, nearest};
use crate::protocol::item::{Items, is_name};
use crate::protocol::question::{ListAt, Question, Reach, Step};
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::roles::{KindAsked, Roles, SideAsked, Unsourced};
use crate::protocol::rule::ActionAt;
use crate::protocol::strength::Family;
use crate::protocol::table::At;
use crate::protocol::texts::Country;

/// How the roles are named in faults.
const ITEM: &str = "roles";

/// Of what a question has to be asked.
#[derive(Clone, Copy)]
enum Of {
    Bird,
    Wound,
}

impl Checker {
    /// The roles, where every name in them is known and fits. Each that does not is told.
    pub(super) fn roles(&mut self, items: &Items, questions: &[Question]) -> Option<Roles> {
        let Some(placed) = &items.roles else {
            if !self.lost.some {
                self.faults.push(no_roles());
            }
            return None;
        };
        let raw = placed.item.clone();
        let kind = self.kind_asked(placed, &raw.kind, questions);
        let reach = self.reach_asked(placed, &raw.reach, questions);
        let [happened, when] = [("happened", &raw.happened), ("when", &raw.when)]
            .map(|(field, name)| self.asks(placed, field, name, Of::Bird, questions));
        self.is_when(placed, when, questions);
        let place = self.asks(placed, "place", &raw.place, Of::Wound, questions);
        let side = self.side_asked(placed, &raw.side, questions);
        let background = self.all_ask(placed, "background", &raw.background, Of::Bird, questions);
        let story = self.all_ask(placed, "story", &raw.story, Of::Bird, questions);
        let of_wounds = self.all_ask(placed, "of_wounds", &raw.of_wounds, Of::Wound, questions);
        let yes_no = self.yes_and_no(placed, &raw);
        let danger_signs = self.danger_signs(placed, &raw.danger_signs, items);
        let told_steps = self.told_steps(placed, &raw.told_steps);
        let rest = self.known(placed, ITEM, "rest", &raw.rest);
        let authority = self.known(placed, ITEM, "authority", &raw.authority);
        let go = self.known(placed, ITEM, "go", &raw.go);
        let cloth_fixed = self.known(placed, ITEM, "cloth_fixed", &raw.cloth_fixed);
        let others = self.asks(placed, "others", &raw.others, Of::Bird, questions);
        let phone_any = self.known(placed, ITEM, "phone_any", &raw.phone_any);
        let phone = self.known(placed, ITEM, "phone", &raw.phone);
        let by_mouth = self.by_mouth(placed, &raw.by_mouth, items);
        let salt_water = self.salt_water(placed, &raw.salt_water, items);
        self.no_country(placed, &raw, items);
        let [common_practice, our_proposal] =
            [("common_practice", &raw.common_practice), ("our_proposal", &raw.our_proposal)]
                .map(|(field, name)| self.known(placed, ITEM, field, name));
        let (yes, no) = yes_no?;
        Some(Roles {
            kind: kind?,
            reach: reach?,
            happened: happened?,
            when: when?,
            place: place?,
            side: side?,
            background: background?,
            story: story?,
            of_wounds: of_wounds?,
            yes,
            no,
            danger_signs: danger_signs?,
            told_steps: told_steps?,
            rest: rest?,
            authority: authority?,
            go: go?,
            cloth_fixed: cloth_fixed?,
            others: others?,
            phone_any: phone_any?,
            phone: phone?,
            by_mouth: by_mouth?,
            salt_water: salt_water?,
            common_practice: common_practice?,
            our_proposal: our_proposal?,
        })
    }

    /// The sources that are none, where the roles name them.
    pub(super) fn unsourced(&self) -> Option<Unsourced> {
        let roles = self.roles.as_ref()?;
        let of = |name: &str| self.names.sources.get(name).copied();
        Some(Unsourced { common_practice: of(&roles.common_practice)?, our_proposal: of(&roles.our_proposal)? })
    }

    /// The question a role names, asked of what it has to be asked of.
    fn asks(
        &mut self,
        placed: &Placed<raw::Roles>,
        field: &str,
        name: &str,
        of: Of,
        questions: &[Question],
    ) -> Option<QuestionAt> {
        let at = self.known(placed, ITEM, field, name)?;
        let wound = questions.get(at.nth())?.wound;
        let expected = match (of, wound) {
            (Of::Bird, false) | (Of::Wound, true) => return Some(at),
            (Of::Bird, true) => "asked of each wound; expected a question about the bird",
            (Of::Wound, false) => "asked of the bird; expected one with `wound: true`",
        };
        self.misfit(placed, field, name, format!("`{name}` is {expected}"));
        None
    }

    fn all_ask(
        &mut self,
        placed: &Placed<raw::Roles>,
        field: &str,
        names: &[String],
        of: Of,
        questions: &[Question],
    ) -> Option<Vec<QuestionAt>> {
        // Each is looked up before giving up, so that every one that does not fit is told.
        let all: Vec<_> = names.iter().map(|name| self.asks(placed, field, name, of, questions)).collect();
        all.into_iter().collect()
    }

    /// Every answer stands for one kind, and every kind the program knows has an answer.
    fn kind_asked(
        &mut self,
        placed: &Placed<raw::Roles>,
        raw: &raw::Kinds,
        questions: &[Question],
    ) -> Option<KindAsked> {
        let name = &raw.question;
        let at = self.asks(placed, "kind", name, Of::Bird, questions)?;
        let question = questions.get(at.nth())?;
        let mut fits = true;
        for (answer, _) in &raw.answers {
            fits &= self.known_answer(placed, "kind", question, answer);
        }
        if question.ordered || question.applies.is_some() {
            let what = format!("`{name}` tells what bird she is; expected `form: Unordered(..)` and no `applies`");
            self.misfit(placed, "kind", name, what);
            fits = false;
        }
        let mut kinds = Vec::with_capacity(question.choices.len());
        for choice in &question.choices {
            let mut told = raw.answers.iter().filter(|(answer, _)| choice.id == **answer);
            match (told.next(), told.next()) {
                (Some((_, kind)), None) => kinds.push(*kind),
                (first, _) => {
                    let how = if first.is_some() { "twice" } else { "nowhere" };
                    let what = format!("answer `{}` of `{name}` stands {how}; expected one kind of it", choice.id);
                    self.misfit(placed, "kind", choice.id.as_str(), what);
                    fits = false;
                }
            }
        }
        for kind in Kind::ALL.iter().filter(|kind| !raw.answers.iter().any(|(_, told)| told == *kind)) {
            let what = format!("no answer of `{name}` stands for {kind:?}; expected one at least");
            self.misfit(placed, "kind", name, what);
            fits = false;
        }
        fits.then_some(KindAsked { question: at, kinds })
    }

    /// Every answer about a vet's reach says which it stands for, the soonest first and the last one nobody.
    fn reach_asked(&mut self, placed: &Placed<raw::Roles>, name: &str, questions: &[Question]) -> Option<QuestionAt> {
        let at = self.asks(placed, "reach", name, Of::Bird, questions)?;
        let question = questions.get(at.nth())?;
        let told: Vec<Reach> = question.choices.iter().filter_map(|choice| choice.reach).collect();
        let whole = told.len() == question.choices.len() && told.is_sorted() && told.last() == Some(&Reach::Nobody);
        if !whole {
            let what = format!(
                "each answer of `{name}` says `reach: Now`, `Hours`, `Day` or `Nobody`, the soonest first and the last `Nobody`"
            );
            self.misfit(placed, "reach", name, what);
        }
        whole.then_some(at)
    }

    /// What tells when it happened gives the time since.
    fn is_when(&mut self, placed: &Placed<raw::Roles>, when: Option<QuestionAt>, questions: &[Question]) {
        let Some(question) = when.and_then(|at| questions.get(at.nth())) else { return };
        if question.gives != Some(Measure::TimeSince) {
            let name = question.id.as_str();
            let what = format!("`{name}` tells no time; expected a question with `gives: TimeSince`");
            self.misfit(placed, "when", name, what);
        }
    }

    /// A side is one of two answers, for the drawing.
    fn side_asked(
        &mut self,
        placed: &Placed<raw::Roles>,
        raw: &raw::Sides,
        questions: &[Question],
    ) -> Option<SideAsked> {
        let raw::Sides { question: name, left, right } = raw;
        let at = self.asks(placed, "side", name, Of::Wound, questions)?;
        let question = questions.get(at.nth())?;
        let known = [left, right].map(|answer| self.known_answer(placed, "side", question, answer));
        let two = question.choices.len() == 2 && left != right;
        if !two {
            let what = format!("`{name}` has to have two answers, one for her left and one for her right");
            self.misfit(placed, "side", name, what);
        }
        let side = SideAsked { question: at, left: left.as_str().into(), right: right.as_str().into() };
        (two && known == [true, true]).then_some(side)
    }

    /// What the answers of a question asked for one sign are called: two names. What says them is prose.
    fn yes_and_no(&mut self, placed: &Placed<raw::Roles>, raw: &raw::Roles) -> Option<(Id, Id)> {
        self.words(placed, ITEM, "not_seen", &raw.not_seen);
        if raw.yes == raw.no || !is_name(&raw.yes) || !is_name(&raw.no) {
            let what = format!("`{}` and `{}` are no two names of letters, digits and `_`", raw.yes, raw.no);
            self.misfit(placed, "yes", &raw.yes, what);
            return None;
        }
        Some((raw.yes.as_str().into(), raw.no.as_str().into()))
    }

    /// The list asked first has signs on it.
    fn danger_signs(&mut self, placed: &Placed<raw::Roles>, name: &str, items: &Items) -> Option<ListAt> {
        let Some(at) = self.lists.get(name).copied() else {
            let near = nearest(name, self.lists.keys().map(String::as_str));
            self.unknown(placed, ITEM, "danger_signs", "list", name, near);
            return None;
        };
        if !items.questions.iter().any(|question| question.item.list.as_deref() == Some(name)) {
            let what = format!("no question stands on `{name}`; expected the list that is asked before anything else");
            self.misfit(placed, "danger_signs", name, what);
        }
        Some(at)
    }

    fn told_steps(&mut self, placed: &Placed<raw::Roles>, names: &[String]) -> Option<Vec<At<Step>>> {
        let steps: Vec<_> = names.iter().map(|name| self.known_step(placed, ITEM, "told_steps", name)).collect();
        steps.into_iter().collect()
    }

    /// What is given by mouth can be forbidden: while it is, no amount of fluid is told.
    fn by_mouth(&mut self, placed: &Placed<raw::Roles>, name: &str, items: &Items) -> Option<ActionAt> {
        let at = self.known(placed, ITEM, "by_mouth", name)?;
        if items.actions.iter().any(|action| action.item.id == name && action.item.forbidden.is_none()) {
            let what =
                format!("`{name}` is never forbidden; expected an action with `forbidden: (why: .., instead: ..)`");
            self.misfit(placed, "by_mouth", name, what);
        }
        Some(at)
    }

    /// The sums of salt rest on a strength that is wanted.
    fn salt_water(&mut self, placed: &Placed<raw::Roles>, name: &str, items: &Items) -> Option<At<Family>> {
        let families = || items.families.iter().map(|family| &family.item);
        let at = self.known(placed, ITEM, "salt_water", name)?;
        let wanted = families().any(|family| family.id == name && family.on.iter().any(|on| on.wanted.is_some()));
        if !wanted {
            let what =
                format!("no strength of `{name}` is wanted: the sums of salt rest on it; expected `wanted: (..)`");
            self.misfit(placed, "salt_water", name, what);
        }
        Some(at)
    }

    /// The country that stands for none is the first; what is told of kitchens is told of countries, of each once.
    fn no_country(&mut self, placed: &Placed<raw::Roles>, raw: &raw::Roles, items: &Items) {
        let countries = || items.countries.iter().map(|country| country.item.id.as_str());
        let name = &raw.no_country;
        if self.known::<Country, _>(placed, ITEM, "no_country", name).is_some() && countries().next() != Some(name) {
            let what = format!("the first country must be `{name}`: what holds while none is set");
            self.misfit(placed, "no_country", name, what);
        }
        for (name, _) in &raw.kitchens {
            let known = self.known::<Country, _>(placed, ITEM, "kitchens", name).is_some();
            if known && raw.kitchens.iter().filter(|(other, _)| other == name).count() > 1 {
                self.misfit(placed, "kitchens", name, format!("`{name}` stands twice; expected one kitchen of it"));
            }
        }
    }

    fn known_answer(&mut self, placed: &Placed<raw::Roles>, field: &str, question: &Question, name: &str) -> bool {
        let answers = || question.choices.iter().map(|choice| choice.id.as_str());
        let known = answers().any(|answer| answer == name);
        if !known {
            let what = format!("question `{}` has no answer `{name}`", question.id);
            let fault = placed.fault(format!("{ITEM}, field {field}"), name, what);
            self.faults.push(Fault { nearest: nearest(name, answers()), ..fault });
        }
        known
    }

    /// A role whose item has another form than the program needs.
    fn misfit(&mut self, placed: &Placed<raw::Roles>, field: &str, name: &str, what: String) {
        self.faults.push(placed.fault(format!("{ITEM}, field {field}"), name, what));
    }
}

pub(super) fn no_roles() -> Fault {
    let what = "no file holds `roles: (kind: (question: .., answers: [..]), reach: .., ..)`: the program asks there which question, list or action is which".to_owned();
    Fault { file: "roles.ron".into(), line: 0, item: String::new(), what, nearest: None }
}
