//! The checked protocol as JSON, so that an independent program can work out scales, actions and conflicts by itself: its
//! schema is `assets/schema/protocol-1.json`, its meaning stands in DEVELOPERS.md. Texts told beside a verdict are not in it.

use super::{measuring, reckon};
use crate::bird::Kind;
use crate::care;
use crate::content::answers;
use crate::phrase::{Text, document};
use crate::protocol::Protocol;
use crate::protocol::action::{Action, Air, End, Forbidden, InDoubt, Seen, Until};
use crate::protocol::cond::{AnswerSet, Cond, Measure, QuestionAt, Threshold};
use crate::protocol::question::{Choice, Course, Question, Reach};
use crate::protocol::rule::{ActionAt, Advice, Rule};
use crate::protocol::source::Source;
use crate::protocol::strength::{Family, Wanted};
use crate::protocol::table::At;
use crate::protocol::whom::Whom;
use crate::unit::{Band, Grams, MilligramsPerLitre, Minutes, Permille, TenthsPerMinute};
use crate::words::{Reader, english};
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.protocol/1";

/// Everything that scales, actions and conflicts rest on.
pub fn protocol(protocol: &Protocol, reader: Reader) -> Value {
    let say = |text: Text| reader.say(&text);
    let tell = Tell { protocol, say: &say };
    let actions = |actions: &[ActionAt]| actions.iter().map(|at| tell.action(*at)).collect::<Vec<_>>();
    json!({
        "schema": SCHEMA,
        "caution": reader.phrase(&document::caution(Text::default())).trim_end(),
        "reviewed_by_a_veterinarian": false,
        "version": protocol.version,
        "fingerprint": protocol.fingerprint,
        "kind_question": tell.question(protocol.roles.kind.question),
        "measuring": measuring::whole(),
        "frail_when": tell.cond(&protocol.frail_when),
        "bleeds_when": tell.cond(&protocol.bleeds_when),
        "spare_when": tell.cond(&protocol.spare_when),
        "spare_in_doubt": tell.cond(&protocol.spare_in_doubt),
        "stable_when": tell.cond(&protocol.stable_when),
        "night": {
            "from_h": protocol.night.from_h, "until_h": protocol.night.until_h,
            "acts": protocol.night.acts.iter().map(|act| tell.action(*act)).collect::<Vec<_>>(),
            "source": protocol.source_id(protocol.night.source),
        },
        "steps": protocol.steps.iter().map(|step| json!({
            "id": step.id, "name": step.name, "hands_on": step.hands_on,
        })).collect::<Vec<_>>(),
        "questions": protocol.enumerated().map(|(at, question)| tell.whole_question(at, question)).collect::<Vec<_>>(),
        "exclusions": protocol.exclusions.iter().map(|exclusion| json!({
            "id": exclusion.id, "one": tell.cond(&exclusion.one), "other": tell.cond(&exclusion.other), "say": exclusion.say,
        })).collect::<Vec<_>>(),
        "rules": protocol.rules.iter().map(|rule| tell.rule(rule)).collect::<Vec<_>>(),
        "actions": protocol.actions.iter().map(|action| tell.whole_action(action)).collect::<Vec<_>>(),
        "conflicts": protocol.conflicts.iter().map(|conflict| json!({
            "keep": tell.action(conflict.keep), "drop": tell.action(conflict.drop), "because": conflict.because,
        })).collect::<Vec<_>>(),
        "rules_out": protocol.rules_out.iter().map(|out| json!({
            "never": tell.action(out.never), "drop": tell.action(out.drop), "because": out.because,
        })).collect::<Vec<_>>(),
        "uses": protocol.uses.iter().map(|one| json!({
            "id": one.id, "name": one.name,
            "told_by": one.told_by.iter().map(|(question, answers)| json!({ "question": question, "one_of": answers })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "strengths": protocol.families.iter().map(|family| tell.family(family)).collect::<Vec<_>>(),
        "instructions": protocol.instructions.iter().map(|instruction| json!({
            "id": instruction.id, "acts": actions(&instruction.acts), "never": actions(&instruction.never),
            "once": instruction.once, "then": instruction.then.map(|at| &protocol.ask(at).id), "again": instruction.again.map(|at| &protocol.instruction(at).id),
            "beside": instruction.beside.map(|at| &protocol.ask(at).id),
            "instead": instruction.instead.iter().map(|instead| json!({
                "when": tell.cond(&instead.when), "by": protocol.instruction(instead.by).id,
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
    })
}

/// A rule with every word of what it advises and forbids, and what it rests on: all a reader of the rule is told, by name. In the
/// program's own words. Forms that were filled in are held against it letter for letter: written otherwise, none would stand any more.
pub fn rule_whole(protocol: &Protocol, rule: &Rule) -> String {
    let tell = Tell { protocol, say: &|text| english(text) };
    let actions =
        |actions: &[ActionAt]| actions.iter().map(|at| tell.whole_action(protocol.action(*at))).collect::<Vec<_>>();
    let source = |at: At<Source>| {
        let Source { cite, at, .. } = protocol.sources.of(at);
        json!([cite, at])
    };
    let stays = rule.stays.iter().map(|(at, why)| json!([tell.action(*at), why]));
    json!({
        "rule": tell.rule(rule),
        "acts": actions(&rule.acts), "never": actions(&rule.never),
        "stays": stays.collect::<Vec<_>>(), "by": rule.by, "looks": rule.looks,
        "watch": rule.watch.iter().map(|at| &protocol.watch(*at).say).collect::<Vec<_>>(),
        "sources": [source(rule.source), match rule.advice { Advice::Says(said) => Some(source(said)), Advice::Ours => None }],
    })
    .to_string()
}

struct Tell<'p> {
    protocol: &'p Protocol,
    /// Says what the protocol itself has no words for.
    say: &'p dyn Fn(Text) -> String,
}

impl Tell<'_> {
    fn question(&self, at: QuestionAt) -> String {
        self.protocol.ask(at).id.to_string()
    }

    fn action(&self, at: ActionAt) -> String {
        self.protocol.action(at).id.to_string()
    }

    fn family(&self, family: &Family) -> Value {
        let band = |band: Band<MilligramsPerLitre>| [band.low.0, band.high.0];
        let wanted = |wanted: &Wanted| {
            json!({
                "published_mg_per_l": band(wanted.published), "right_mg_per_l": band(wanted.right), "made_mg_per_l": wanted.make.0,
                "if_stronger": wanted.strong, "if_weaker": wanted.weak,
            })
        };
        let on = self.protocol.uses.iter().zip(&family.on).map(|(one, on)| {
            json!({ "on": one.id, "ruling": on.ruling, "say": on.say, "wanted": on.wanted.as_ref().map(wanted) })
        });
        let bottle = |(at, say): &(MilligramsPerLitre, String)| json!({ "mg_per_l": at.0, "say": say });
        json!({
            "id": family.id, "name": family.name, "substances": family.of, "thinned": family.thinned,
            "on": on.collect::<Vec<_>>(), "other_bottles": family.others.iter().map(bottle).collect::<Vec<_>>(),
            "at_most": family.at_most.as_ref().map(bottle), "note": family.note,
            "rests_on": reckon::rests(self.protocol, &family.rests),
        })
    }

    fn whole_action(&self, action: &Action) -> Value {
        let before = action.before.iter().map(|at| self.action(*at)).collect::<Vec<_>>();
        let fits = action.fits.iter().map(
            |fit| json!({ "when": self.cond(&fit.when), "in_doubt": fit.in_doubt, "say": fit.say, "how": fit.how, "on_card": fit.on_card, "pressing": fit.pressing, "source": fit.source.map(|at| self.protocol.source_id(at)) }),
        );
        json!({
            "id": action.id, "say": action.say, "at_once": action.at_once, "of_a_wound": action.wound,
            "air": action.air.map(Air::id), "source": self.protocol.source_id(action.source), "told_in_doubt": action.in_doubt == InDoubt::Told,
            "fits": fits.collect::<Vec<_>>(),
            "opens": action.opens.as_ref().map(|seen| self.seen(seen)),
            "worked": action.worked.as_ref().map(|seen| self.seen(seen)),
            "ends": action.ends.as_ref().map(|ends| self.until(ends, &(self.say)(care::end_of_act(ends, false).into()))),
            "alone": action.undoable,
            "hands": action.hands.iter().map(|hands| json!({ "when": self.cond(&hands.when), "say": hands.say })).collect::<Vec<_>>(), "on_card": action.on_card, "phones": action.phones.map(Whom::id), "harm_if_left_out": action.left_out, "before": before, "keeps": action.keeps,
            "never": action.forbidden.as_ref().map(|ban| self.ban(ban)),
        })
    }

    fn ban(&self, ban: &Forbidden) -> Value {
        let fits = ban.fits.iter();
        let fits = fits.map(|fit| {
            let until =
                fit.until.as_ref().map(|until| self.until(until, &(self.say)(care::end_of_ban(until, false).into())));
            json!({ "when": self.cond(&fit.when), "in_doubt": fit.in_doubt, "say": fit.say, "why": fit.why, "instead": fit.instead, "until": until })
        });
        json!({
            "why": ban.why, "instead": ban.instead, "until": self.until(&ban.until, &(self.say)(care::end_of_ban(&ban.until, false).into())),
            "harm_if_done": ban.broken, "beside": ban.beside.iter().map(|at| self.action(*at)).collect::<Vec<_>>(), "bars": ban.bars, "fits": fits.collect::<Vec<_>>(),
        })
    }

    fn whole_question(&self, at: QuestionAt, question: &Question) -> Value {
        let asked = &self.protocol.roles.kind;
        let kind = |choice: u8| asked.of(choice).filter(|_| at == asked.question).map(Kind::id);
        json!({
            "id": question.id,
            "step": self.protocol.steps.of(question.step).id,
            "ask": question.ask,
            "of_a_wound": question.wound,
            "touches": question.touches,
            "ordered": question.ordered,
            "typed_weight": question.is_weight(),
            "takes_a_figure": question.figure().is_some(),
            "gives": question.gives.map(Measure::id),
            "list": question.list.map(|list| &self.protocol.sign_list(list).id),
            "applies": question.applies.as_ref().map(|cond| self.cond(cond)),
            "pointless_when": question.moot.as_ref().map(|cond| self.cond(cond)),
            "asked_if": question.asked_if.as_ref().map(|cond| self.cond(cond)),
            "worked_out": question.worked_out.as_ref().map(Course::id),
            "answers": (0u8..).zip(&question.choices).map(|(place, choice)| json!({
                "id": choice.id, "say": (self.say)(answers::choice(question, choice)), "often": choice.often, "kinds": choice.kinds.iter().map(|kind| kind.id()).collect::<Vec<_>>(),
                "worth": choice.worth.or_else(|| build(question, choice)).map(|band| [band.low, band.high]), "instruct": choice.instruct.map(|at| &self.protocol.instruction(at).id), "reach": choice.reach.map(Reach::id), "stands_for_kind": kind(place),
            })).collect::<Vec<_>>(),
        })
    }

    fn rule(&self, rule: &Rule) -> Value {
        let actions = |actions: &[ActionAt]| actions.iter().map(|at| self.action(*at)).collect::<Vec<_>>();
        json!({
            "id": rule.id,
            "of_a_wound": rule.per_wound,
            "when": self.cond(&rule.when),
            "unless": rule.unless.iter().map(|cond| self.cond(cond)).collect::<Vec<_>>(),
            "need": rule.need, "humane_end": rule.humane, "authority_call": rule.authority,
            "severity": rule.severity,
            "acts": actions(&rule.acts), "never": actions(&rule.never),
            "reason": rule.reason,
            "finding": { "source": self.protocol.source_id(rule.source), "strength": rule.strength },
            "advice": match &rule.advice {
                Advice::Says(source) => json!({ "source": self.protocol.source_id(*source), "ours_unreviewed": false }),
                Advice::Ours => json!({ "source": null, "ours_unreviewed": true }),
            },
            "borrowed_from": rule.borrowed,
        })
    }

    fn seen(&self, seen: &Seen) -> Value {
        json!({ "when": self.cond(&seen.when), "say": seen.say })
    }

    fn until(&self, until: &Until, say: &str) -> Value {
        let (test, because) = match &until.alone {
            End::Test { when, .. } => (Some(self.cond(when)), None),
            End::Lives { because } => (None, Some(because)),
        };
        json!({ "say": say, "a_vet_says_so": until.vet, "test": test, "as_long_as_she_lives": because })
    }

    fn cond(&self, cond: &Cond) -> Value {
        let each = |parts: &[Cond]| parts.iter().map(|part| self.cond(part)).collect::<Vec<_>>();
        match cond {
            Cond::Always => json!({ "always": true }),
            Cond::Answer(at, set) => json!({ "question": self.question(*at), "one_of": self.answers(*at, *set) }),
            Cond::All(parts) => json!({ "all": each(parts) }),
            Cond::Any(parts) => json!({ "any": each(parts) }),
            Cond::Not(part) => json!({ "not": self.cond(part) }),
            Cond::Count(least, parts) => json!({ "at_least": least, "of": each(parts) }),
            Cond::SomeWound(part) => json!({ "some_wound": self.cond(part) }),
            Cond::AtLeast(threshold) => json!({ "measure_at_least": measure(*threshold) }),
            Cond::Under(threshold) => json!({ "measure_under": measure(*threshold) }),
        }
    }

    fn answers(&self, at: QuestionAt, set: AnswerSet) -> Vec<String> {
        let choices = (0u8..).zip(&self.protocol.ask(at).choices);
        choices.filter(|(at, _)| set.holds(*at)).map(|(_, choice)| choice.id.to_string()).collect()
    }
}

/// What a build weighs, in grams: the answers in place of a typed weight stand for that.
fn build(question: &Question, choice: &Choice) -> Option<Band<u64>> {
    let Band { low, high } = question.build(choice)?.weight;
    Some(Band { low: u64::from(low.0), high: u64::from(high.0) })
}

fn measure(threshold: Threshold) -> Value {
    let (name, value, unit) = match threshold {
        Threshold::Weight(Grams(value)) => (Measure::Weight, value, "g"),
        Threshold::TimeSince(Minutes(value)) => (Measure::TimeSince, value, "min"),
        Threshold::SkinOpen(Permille(value)) => (Measure::SkinOpen, value, "thousandths"),
        Threshold::BloodLost(Permille(value)) => (Measure::BloodLost, value, "thousandths"),
        Threshold::BloodOfWeight(Permille(value)) => (Measure::BloodOfWeight, value, "thousandths"),
        Threshold::BreathRate(TenthsPerMinute(value)) => (Measure::BreathRate, value, "tenths a minute"),
        Threshold::Dryness(Permille(value)) => (Measure::Dryness, value, "thousandths"),
    };
    json!({ "measure": name.id(), "value": value, "unit": unit })
}
