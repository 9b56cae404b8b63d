//! What a protocol makes of a bird, as values in the clauses: rules in force, bans, what stands in the plan, what is asked.

use crate::protocol::action::{ActionAt, InDoubt};
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::AskedOf;
use crate::protocol::rule::{Looks, Rule, RuleAt, WatchAt};
use crate::protocol::scale::Need;
use crate::prove::clauses::{Bit, Clauses};
use crate::prove::envelope::reaches;
use crate::prove::form::{BIRD, Form};
use crate::prove::scales::{Rung, Scale};
use rustc_hash::FxHashMap;

/// An action at a column: the bird, or the wound it is done to.
type At = (ActionAt, usize);

/// What one protocol makes of a bird.
pub struct Effects {
    bans: FxHashMap<At, Bit>,
    plan: FxHashMap<At, Bit>,
    /// Effects by some rule and open to be done, whatever stands against it.
    wanted: FxHashMap<At, Bit>,
}

fn columns(form: &Form, rule: &Rule) -> std::ops::Range<usize> {
    if rule.per_wound { form.wounds() } else { BIRD..BIRD + 1 }
}

/// Some rule in force names it.
pub fn some_rule(form: &mut Form, clauses: &mut Clauses, names: impl Fn(&Rule) -> bool) -> Bit {
    let naming: Vec<RuleAt> =
        form.protocol().rules_enumerated().filter(|(_, rule)| names(rule)).map(|(at, _)| at).collect();
    let bits: Vec<Bit> = naming.into_iter().map(|at| form.in_force(clauses, at, true)).collect();
    clauses.any(&bits)
}

/// A sign to watch for is named.
pub fn watched(form: &mut Form, clauses: &mut Clauses, sign: WatchAt) -> Bit {
    some_rule(form, clauses, |rule| rule.watch.contains(&sign))
}

/// A need stands at exactly this rung.
pub fn exactly(form: &mut Form, clauses: &mut Clauses, need: Need) -> Bit {
    let rung = need as Rung;
    let at_least = if rung == 0 { Bit::Known(true) } else { reaches(form, clauses, Scale::Need, rung) };
    let above =
        if rung == Scale::Need.top() { Bit::Known(false) } else { reaches(form, clauses, Scale::Need, rung + 1) };
    clauses.all(&[at_least, above.not()])
}

/// Whether some look asked for is as soon and goes on as long.
pub fn covers(looks: &[Looks], wanted: Looks) -> bool {
    looks.iter().any(|own| own.every_min <= wanted.every_min && own.until_h >= wanted.until_h)
}

/// She is looked at as soon and as long as these looks are, by a rule or by her need.
pub fn looked_at(form: &mut Form, clauses: &mut Clauses, wanted: Looks) -> Bit {
    let by_rule = some_rule(form, clauses, |rule| covers(&rule.looks, wanted));
    let needs = form.protocol().looks_by_need.iter().filter(|(_, looks)| covers(looks, wanted)).map(|(need, _)| *need);
    let mut found = vec![by_rule];
    for need in needs {
        found.push(exactly(form, clauses, need));
    }
    clauses.any(&found)
}

/// A question is asked in the course of the examination: it applies, asking has not become pointless, and she may be touched.
pub fn asked(form: &mut Form, clauses: &mut Clauses, at: QuestionAt, column: usize) -> Bit {
    let protocol = form.protocol();
    let question = protocol.ask(at);
    let applies = form.applies(column, at, question.asked_of != AskedOf::Seen);
    let moot = question.moot.as_ref().map(|cond| form.holds(clauses, cond, column, false).not());
    let asked_if = question.asked_if.as_ref().map(|cond| form.holds(clauses, cond, column, true));
    let touched = question.touches.then(|| {
        let sure = form.holds(clauses, &protocol.spare_when, BIRD, false);
        let doubted = form.holds(clauses, &protocol.spare_in_doubt, BIRD, true);
        clauses.any(&[sure, doubted]).not()
    });
    let parts: Vec<Bit> =
        [Some(form.present(column)), Some(applies), moot, asked_if, touched].into_iter().flatten().collect();
    clauses.all(&parts)
}

impl Effects {
    /// Bans and plan of a protocol, in the order the judge works them out: what is told and seen, less what is forbidden or
    /// dragged along, less what waits for something to be seen, less what stands back for another.
    pub fn of(form: &mut Form, clauses: &mut Clauses) -> Self {
        let bans = Self::named(form, clauses, |rule| &rule.never, false);
        let mut wanted = Self::named(form, clauses, |rule| &rule.acts, true);
        let protocol = form.protocol();
        to_its_wounds(form, clauses, &mut wanted);
        for ((action, column), bit) in &mut wanted {
            if let Some(opens) = &protocol.action(*action).opens {
                let open = form.holds(clauses, &opens.when, *column, false);
                *bit = clauses.all(&[*bit, open]);
            }
        }
        let mut told = Self { bans, plan: FxHashMap::default(), wanted };
        let mut places: Vec<At> = told.wanted.keys().copied().collect();
        places.sort_unstable();
        for at in &places {
            let against = told.against(form, clauses, *at);
            let wanted = told.wanted_at(*at);
            let bit = clauses.all(&[wanted, against.not()]);
            told.plan.insert(*at, bit);
        }
        for conflict in &protocol.conflicts {
            let kept: Vec<At> = places.iter().copied().filter(|(action, _)| *action == conflict.keep).collect();
            for at in places.iter().filter(|(action, _)| *action == conflict.drop) {
                let keeps: Vec<Bit> =
                    kept.iter().filter(|keep| meet(keep.1, at.1)).map(|keep| told.planned_at(*keep)).collect();
                let kept = clauses.any(&keeps);
                let bit = clauses.all(&[told.planned_at(*at), kept.not()]);
                told.plan.insert(*at, bit);
            }
        }
        told
    }

    /// By action and column: some rule that names it is in force, and where it has to be seen, was seen.
    fn named<'p>(
        form: &mut Form<'_, 'p>,
        clauses: &mut Clauses,
        named: impl Fn(&'p Rule) -> &'p [ActionAt],
        seen: bool,
    ) -> FxHashMap<At, Bit> {
        let protocol = form.protocol();
        let mut found: FxHashMap<At, Vec<Bit>> = FxHashMap::default();
        for (at, rule) in form.protocol().rules_enumerated() {
            for column in columns(form, rule) {
                if named(rule).is_empty() {
                    continue;
                }
                let force = form.stands(clauses, at, column, true);
                let surely = if seen { form.holds(clauses, &rule.when, column, false) } else { Bit::Known(true) };
                let both = clauses.all(&[force, surely]);
                for action in named(rule) {
                    let about = protocol.action(*action);
                    let bit = if seen && about.in_doubt == InDoubt::Told { force } else { both };
                    found.entry((*action, if about.wound { column } else { BIRD })).or_default().push(bit);
                }
            }
        }
        let mut found: FxHashMap<At, Bit> = found.into_iter().map(|(at, bits)| (at, clauses.any(&bits))).collect();
        // What is said of the whole bird is said once, but for what has a line of its own by the place of a wound.
        let whole: FxHashMap<ActionAt, Bit> =
            found.iter().filter(|((_, column), _)| *column == BIRD).map(|((action, _), bit)| (*action, *bit)).collect();
        for ((action, column), bit) in &mut found {
            if *column != BIRD
                && protocol.action(*action).fits.is_empty()
                && let Some(whole) = whole.get(action)
            {
                *bit = clauses.all(&[*bit, whole.not()]);
            }
        }
        found
    }

    /// A ban stands against an action at a column, or drags it along.
    fn against(&self, form: &Form, clauses: &mut Clauses, (action, column): At) -> Bit {
        let out = &form.protocol().rules_out;
        let dragging: Vec<ActionAt> =
            std::iter::once(action).chain(out.iter().filter(|out| out.drop == action).map(|out| out.never)).collect();
        let bans = self.bans.iter().filter(|((never, at), _)| dragging.contains(never) && meet(*at, column));
        let mut bits: Vec<Bit> = bans.map(|(_, bit)| *bit).collect();
        bits.sort_unstable();
        clauses.any(&bits)
    }

    fn wanted_at(&self, at: At) -> Bit {
        self.wanted.get(&at).copied().unwrap_or(Bit::Known(false))
    }

    fn planned_at(&self, at: At) -> Bit {
        self.plan.get(&at).copied().unwrap_or(Bit::Known(false))
    }

    /// An action is forbidden, of the bird or of some wound.
    pub fn forbidden(&self, clauses: &mut Clauses, action: ActionAt) -> Bit {
        any_column(&self.bans, clauses, action)
    }

    /// An action stands in the plan, for the bird or for some wound.
    pub fn planned(&self, clauses: &mut Clauses, action: ActionAt) -> Bit {
        any_column(&self.plan, clauses, action)
    }

    /// An action stands in no plan, because of a ban or because it stands back for another.
    pub fn barred(&self, form: &Form, clauses: &mut Clauses, action: ActionAt) -> Bit {
        let wanted = any_column(&self.wanted, clauses, action);
        let mut barred = vec![wanted];
        for column in 0..form.columns_in_all() {
            barred.push(self.against(form, clauses, (action, column)));
        }
        let barred = clauses.any(&barred);
        let planned = self.planned(clauses, action);
        clauses.all(&[barred, planned.not()])
    }
}

fn any_column(of: &FxHashMap<At, Bit>, clauses: &mut Clauses, action: ActionAt) -> Bit {
    let mut bits: Vec<Bit> = of.iter().filter(|((at, _), _)| *at == action).map(|(_, bit)| *bit).collect();
    bits.sort_unstable();
    clauses.any(&bits)
}

/// What was said of a place not known yet is said of the wounds alone, by the same action or by one that stands in for it.
fn to_its_wounds(form: &Form, clauses: &mut Clauses, wanted: &mut FxHashMap<At, Bit>) {
    let protocol = form.protocol();
    let stands_in = |one: ActionAt, whole: ActionAt| one == whole || protocol.action(one).replaces.contains(&whole);
    let placeless: Vec<ActionAt> = wanted
        .keys()
        .filter(|(action, column)| *column == BIRD && protocol.action(*action).wound)
        .map(|(action, _)| *action)
        .collect();
    for action in placeless {
        let of_wounds = wanted.iter().filter(|((one, column), _)| *column != BIRD && stands_in(*one, action));
        let mut bits: Vec<Bit> = of_wounds.map(|(_, bit)| *bit).collect();
        bits.sort_unstable();
        let of_wounds = clauses.any(&bits);
        if let Some(bit) = wanted.get_mut(&(action, BIRD)) {
            *bit = clauses.all(&[*bit, of_wounds.not()]);
        }
    }
}

/// Whether what is said of one column reaches the other: the same wound, or one of them is the whole bird.
const fn meet(one: usize, other: usize) -> bool {
    one == other || one == BIRD || other == BIRD
}
