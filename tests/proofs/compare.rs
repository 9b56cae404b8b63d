//! A club's own protocol held against the shipped one by what both mean: whatever is milder is told with a bird who shows it.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, count, now};
use coopside::content::differences;
use coopside::finding::{About, Findings};
use coopside::judge::{Verdict, of_sheet};
use coopside::protocol::Protocol;
use coopside::protocol::action::Harm;
use coopside::protocol::cond::{AnswerSet, Cond, Threshold};
use coopside::protocol::question::Asked;
use coopside::protocol::rule::{Advice, Rule};
use coopside::protocol::scale::{Authority, Humane, Need};
use coopside::protocol::source::Strength;
use coopside::prove::{Comparison, Loss, MOST_SHOWN, Scale, Shown, Sort, Work, compare};
use coopside::sheet::{Cell, Sheet};
use coopside::unit::{Grams, Minutes, Permille, TenthsPerMinute};
use coopside::words::english;

const ENOUGH: Work = Work(2000);

fn spoil(with: impl FnOnce(&mut Protocol)) -> Protocol {
    let mut protocol = PROTOCOL.clone();
    with(&mut protocol);
    protocol
}

fn rule(protocol: &mut Protocol, is: impl Fn(&Rule) -> bool) -> &mut Rule {
    protocol.rules.iter_mut().find(|rule| is(rule)).unwrap_or_else(|| panic!("no such rule"))
}

/// What she was told to have, laid out anew for one protocol, so long before she is judged.
fn laid<'p>(protocol: &'p Protocol, said: &[(Asked, Cell)], minutes: u32) -> Sheet<'p> {
    let mut findings = Findings::default();
    let wounds = said.iter().filter_map(|(asked, _)| match asked.about {
        About::Wound(number) => Some(number + 1),
        About::Bird => None,
    });
    for _ in 0..wounds.max().unwrap_or(0) {
        findings.find_wound();
    }
    findings.look_over();
    let mut sheet = Sheet::lay(protocol, &findings, now());
    sheet.suppose_at(now() - chrono::TimeDelta::minutes(i64::from(minutes)));
    for (asked, cell) in said {
        sheet.suppose(*asked, *cell);
    }
    sheet.suppose_applies();
    sheet
}

/// Judges a shown bird by the real judge once more, from nothing but what is told of her, and looks for what she is said to lose.
fn holds_true(own: &Protocol, shown: &Shown) {
    assert!(!shown.losses.is_empty(), "{shown:?}");
    let there = of_sheet(&PROTOCOL, &laid(&PROTOCOL, &shown.said, shown.minutes), now());
    let here = of_sheet(own, &laid(own, &shown.own_said, shown.minutes), now());
    let low = |verdict: &Verdict, scale| match scale {
        Scale::Need => verdict.need.low as u8,
        Scale::Humane => verdict.humane.low as u8,
        Scale::Authority => verdict.authority.low as u8,
    };
    let bans = |protocol: &Protocol, verdict: &Verdict, id: &str| {
        verdict.never.iter().any(|never| protocol.action(never.target.action).id == *id)
    };
    let tells = |protocol: &Protocol, verdict: &Verdict, id: &str| {
        verdict.acts.iter().any(|act| protocol.action(act.target.action).id == *id)
    };
    for loss in &shown.losses {
        let is_so = match loss {
            Loss::Lower(scale, theirs, ours) => {
                theirs > ours && low(&there, *scale) == *theirs && low(&here, *scale) == *ours
            }
            Loss::Harsher(theirs, ours) => {
                theirs < ours && low(&there, Scale::Humane) == *theirs && low(&here, Scale::Humane) == *ours
            }
            Loss::Ban(id) => bans(&PROTOCOL, &there, id.as_str()) && !bans(own, &here, id.as_str()),
            Loss::MayNotBe(id) => tells(own, &here, id.as_str()) && !tells(&PROTOCOL, &there, id.as_str()),
            Loss::Missing(id) => tells(&PROTOCOL, &there, id.as_str()) && !tells(own, &here, id.as_str()),
            Loss::Slept => !there.steady && here.steady,
            Loss::Watch(_) | Loss::Looks(..) | Loss::NotAsked(_) | Loss::NotFirst(_) | Loss::NotShown(_) => true,
        };
        assert!(is_so, "{loss:?} is told of a bird who does not show it: {:?}", shown.bird);
    }
}

/// The comparison of a spoiled copy, every bird in it judged again.
fn compared(own: &Protocol) -> Comparison {
    let found = compare(&PROTOCOL, own, ENOUGH);
    for shown in &found.shown {
        holds_true(own, shown);
    }
    assert!(found.undecided.is_empty(), "{:?}", found.undecided);
    found
}

/// A copy spoiled in one place is told with a bird who loses this.
fn shown_by(what: &str, own: &Protocol, is: impl Fn(&Loss) -> bool) {
    let found = compared(own);
    let shown = found.shown.iter().any(|shown| shown.losses.iter().any(&is));
    assert!(shown, "{what}: {:#?}", found.shown.iter().map(|shown| (&shown.losses, &shown.bird)).collect::<Vec<_>>());
}

/// A copy spoiled in one place has this told of it as a difference of data.
fn told_as_data(what: &str, own: &Protocol, sort: &str, words: &str) {
    let found = compared(own);
    let told =
        found.weaker.iter().any(|one| one.sort.id() == sort && english(differences::what(&one.what)).contains(words));
    assert!(told, "{what}: {:#?}", found.weaker);
}

fn is_lower(scale: Scale) -> impl Fn(&Loss) -> bool {
    move |loss| matches!(loss, Loss::Lower(of, ..) if *of == scale)
}

#[test]
fn the_shipped_protocol_is_nowhere_milder_than_itself() {
    let found = compared(&PROTOCOL.clone());
    assert!(found.nothing_milder() && found.otherwise.is_empty(), "{found:#?}");
    assert!(found.cases > PROTOCOL.rules.len(), "{} cases", found.cases);
}

/// Every rule that brings a scale to its top, each made milder by itself: told with a bird, or no bird there is can tell.
#[test]
fn a_rung_lowered_is_shown() {
    let tops = PROTOCOL.rules.iter().enumerate().filter(|(_, rule)| rule.need == Some(Need::Now));
    let mut shown = 0;
    let tops: Vec<usize> = tops.map(|(at, _)| at).collect();
    for at in tops.iter().step_by(count(9, 1)) {
        let found = compared(&spoil(|own| (*own.rules)[*at].need = Some(Need::Home)));
        shown += usize::from(found.shown.iter().any(|shown| shown.losses.iter().any(is_lower(Scale::Need))));
    }
    assert!(shown * 2 > tops.len() / count(9, 1), "{shown} of {} are shown", tops.len());
    let call = spoil(|own| {
        for rule in own.rules.iter_mut().filter(|rule| rule.authority == Some(Authority::CallNow)) {
            rule.authority = Some(Authority::Ask);
        }
    });
    shown_by("authority", &call, is_lower(Scale::Authority));
    let humane = spoil(|own| {
        own.rules.iter_mut().filter(|rule| rule.humane.is_some()).for_each(|rule| rule.humane = None);
    });
    shown_by("humane end", &humane, is_lower(Scale::Humane));
}

/// A sign of danger that is no longer asked first, or no longer at all, or calls nothing up.
#[test]
fn a_sign_of_danger_taken_off_is_shown() {
    let danger = |at: &usize| PROTOCOL.is_danger_sign(&(*PROTOCOL.questions)[*at]);
    let danger: Vec<usize> = (0..PROTOCOL.questions.len()).filter(danger).collect();
    assert!(!danger.is_empty());
    for at in danger {
        let id = (*PROTOCOL.questions)[at].id.clone();
        let off = spoil(|own| (*own.questions)[at].list = None);
        shown_by("off the list", &off, |loss| *loss == Loss::NotFirst(id.clone()));
        let moot = spoil(|own| (*own.questions)[at].moot = Some(Cond::Always));
        shown_by("made moot", &moot, |loss| *loss == Loss::NotAsked(id.clone()));
        let mute = spoil(|own| (*own.questions)[at].choices.iter_mut().for_each(|choice| choice.instruct = None));
        shown_by("calls nothing up", &mute, |loss| *loss == Loss::NotShown(id.clone()));
    }
}

/// Some rule that sends for a vet at once by a sign alone holds of hens only.
#[test]
fn a_narrowed_condition_is_shown() {
    let hen = Cond::Answer(PROTOCOL.roles.kind.question, AnswerSet(1));
    let now =
        PROTOCOL.rules.iter().enumerate().filter(|(_, rule)| rule.need == Some(Need::Now) && rule.unless.is_empty());
    let mut shown = 0;
    for (at, _) in now.step_by(7) {
        let own = spoil(|own| (*own.rules)[at].when = Cond::All(vec![(*own.rules)[at].when.clone(), hen.clone()]));
        let found = compared(&own);
        shown += usize::from(found.shown.iter().any(|one| one.losses.iter().any(is_lower(Scale::Need))));
    }
    assert!(shown >= 5, "{shown} narrowed rules are shown");
}

/// Every measure some rule holds against a value, and the value raised: a quarter, or to the next it may be.
#[test]
fn a_higher_threshold_is_shown() {
    fn raised(cond: &mut Cond, one: Threshold, to: Threshold) {
        match cond {
            Cond::AtLeast(of) if *of == one => *of = to,
            Cond::All(parts) | Cond::Any(parts) | Cond::Count(_, parts) => {
                for part in parts.iter_mut() {
                    raised(part, one, to);
                }
            }
            Cond::Not(part) | Cond::SomeWound(part) => raised(part, one, to),
            Cond::Always | Cond::Answer(..) | Cond::AtLeast(_) | Cond::Under(_) => {}
        }
    }
    let raise = |one: Threshold, to: Threshold| {
        spoil(|own| own.rules.iter_mut().for_each(|rule| raised(&mut rule.when, one, to)))
    };
    let cases = [
        (Threshold::TimeSince(Minutes(24 * 60)), Threshold::TimeSince(Minutes(30 * 60))),
        (Threshold::SkinOpen(Permille(50)), Threshold::SkinOpen(Permille(90))),
        (Threshold::BreathRate(TenthsPerMinute(1000)), Threshold::BreathRate(TenthsPerMinute(1100))),
        (Threshold::BloodOfWeight(Permille(10)), Threshold::BloodOfWeight(Permille(13))),
        (Threshold::Dryness(Permille(70)), Threshold::Dryness(Permille(100))),
    ];
    for (one, to) in cases {
        let own = raise(one, to);
        assert!(
            own.rules.iter().zip(&PROTOCOL.rules).any(|(ours, theirs)| ours.when != theirs.when),
            "{one:?} is used nowhere"
        );
        let found = compared(&own);
        assert!(!found.shown.is_empty(), "{one:?} raised to {to:?} is not shown");
        println!("{one:?}: {:?} {:?} after {}", found.shown[0].losses, found.shown[0].bird, found.shown[0].minutes);
    }
}

/// A rule that reads her weight, and reads it a tenth higher: a bird whose weight lies between shows it.
#[test]
fn a_weight_between_two_thresholds_is_shown() {
    let at = PROTOCOL
        .rules
        .iter()
        .position(|rule| rule.need == Some(Need::Now) && !rule.per_wound && rule.unless.is_empty());
    let at = at.unwrap_or_else(|| panic!("no rule"));
    let reading = |grams: u32| {
        spoil(|own| {
            let heavy = Cond::AtLeast(Threshold::Weight(Grams(grams)));
            (*own.rules)[at].when = Cond::All(vec![(*own.rules)[at].when.clone(), heavy]);
        })
    };
    let (base, own) = (reading(3_000), reading(3_300));
    let found = compare(&base, &own, ENOUGH);
    let lower = found.shown.iter().find(|shown| shown.losses.iter().any(is_lower(Scale::Need)));
    let weight = lower.and_then(|shown| {
        shown.said.iter().find_map(|(_, cell)| match cell {
            Cell::Amount(grams) => Some(*grams),
            _ => None,
        })
    });
    assert!(weight.is_some_and(|grams| (3_000..3_300).contains(&grams)), "{weight:?} {:?}", found.undecided);
}

/// Of every act, ban and sign that some rule names: dropped everywhere, it is missed by a bird.
#[test]
fn what_is_dropped_is_shown() {
    for (at, action) in PROTOCOL.actions_enumerated().step_by(count(5, 1)) {
        let told = PROTOCOL.rules.iter().any(|rule| rule.acts.contains(&at));
        if told && (action.at_once || matches!(action.left_out, Some(Harm::Minutes | Harm::Hours))) {
            let own = spoil(|own| own.rules.iter_mut().for_each(|rule| rule.acts.retain(|act| *act != at)));
            shown_by("act", &own, |loss| *loss == Loss::Missing(action.id.clone()));
        }
        if PROTOCOL.rules.iter().any(|rule| rule.never.contains(&at)) {
            let own = spoil(|own| own.rules.iter_mut().for_each(|rule| rule.never.retain(|act| *act != at)));
            shown_by("ban", &own, |loss| *loss == Loss::Ban(action.id.clone()));
        }
    }
    let own = spoil(|own| own.rules.iter_mut().for_each(|rule| rule.watch.clear()));
    shown_by("watch", &own, |loss| matches!(loss, Loss::Watch(_)));
    let own = spoil(|own| {
        let sign = own.rules.iter().flat_map(|rule| &rule.watch).next().copied();
        own.rules.iter_mut().for_each(|rule| rule.watch.retain(|watch| Some(*watch) != sign));
    });
    shown_by("one sign", &own, |loss| matches!(loss, Loss::Watch(_)));
}

/// A conflict or a ruling-out that is gone: some of them are shown by a bird, each is told at least as data.
#[test]
fn a_conflict_or_a_ruling_out_that_is_gone_is_told() {
    let (mut shown, mut told) = (0, 0);
    let mut look = |own: &Protocol, drop: &str| {
        let found = compared(own);
        let by_bird = found.shown.iter().any(|one| one.losses.contains(&Loss::MayNotBe(drop.into())));
        let as_data =
            found.weaker.iter().any(|one| matches!(one.sort, Sort::Conflict | Sort::RulingOut) && one.id == *drop);
        assert!(by_bird || as_data, "`{drop}` is not told: {found:#?}");
        shown += usize::from(by_bird);
        told += 1;
    };
    for at in (0..PROTOCOL.conflicts.len()).step_by(count(6, 1)) {
        let own = spoil(|own| drop(own.conflicts.remove(at)));
        look(&own, PROTOCOL.action((*PROTOCOL.conflicts)[at].drop).id.as_str());
    }
    for at in (0..PROTOCOL.rules_out.len()).step_by(count(6, 1)) {
        let own = spoil(|own| drop(own.rules_out.remove(at)));
        look(&own, PROTOCOL.action((*PROTOCOL.rules_out)[at].drop).id.as_str());
    }
    println!("{shown} of {told} by a bird");
    assert!(shown * 3 > told, "only {shown} of {told} are shown by a bird");
}

/// Two answers of an ordered question change their words, or their places.
#[test]
fn swapped_answers_are_told_with_a_bird() {
    let asked = PROTOCOL.questions.iter().position(|question| question.id == *"bleeding_rate").or_else(|| {
        PROTOCOL.questions.iter().position(|question| question.ordered && !question.wound && question.choices.len() > 2)
    });
    let at = asked.unwrap_or_else(|| panic!("no such question"));
    let last = (*PROTOCOL.questions)[at].choices.len() - 1;
    let words = spoil(|own| {
        let [first, worst] =
            [(*own.questions)[at].choices[0].say.clone(), (*own.questions)[at].choices[last].say.clone()];
        (*own.questions)[at].choices[0].say = worst;
        (*own.questions)[at].choices[last].say = first;
    });
    told_as_data("words", &words, "answer", "the words \"");
    assert!(!compared(&words).shown.is_empty(), "whoever goes by the words is judged milder");
    let places = spoil(|own| (*own.questions)[at].choices.swap(0, last));
    told_as_data("places", &places, "question", "another order");
    assert!(!compared(&places).shown.is_empty(), "the worst is judged as the finest");
}

/// An exception to a humane end dropped: it is advised where the shipped protocol does not advise it.
#[test]
fn a_dropped_exception_of_a_humane_end_is_shown() {
    let own = spoil(|own| {
        let advised = own.rules.iter_mut().filter(|rule| rule.humane.is_some_and(Humane::is_advised));
        advised.for_each(|rule| rule.unless.clear());
    });
    let excepted = |rule: &&Rule| rule.humane.is_some_and(Humane::is_advised) && !rule.unless.is_empty();
    assert!(PROTOCOL.rules.iter().any(|rule| excepted(&rule)), "no humane end has an exception");
    shown_by("exception", &own, |loss| matches!(loss, Loss::Harsher(..)));
}

/// Looks at half the pace, by a rule and by a need.
#[test]
fn later_looks_are_shown() {
    let slower = spoil(|own| {
        own.rules.iter_mut().flat_map(|rule| &mut rule.looks).for_each(|looks| looks.every_min *= 2);
    });
    shown_by("rules", &slower, |loss| matches!(loss, Loss::Looks(..)));
    let none = spoil(|own| own.looks_by_need.clear());
    shown_by("need", &none, |loss| matches!(loss, Loss::Looks(..)));
}

/// A bird whom one's own protocol leaves in the dark for a night, and the shipped one does not; longer nights are told as data.
#[test]
fn a_night_that_is_slept_through_is_shown() {
    let own = spoil(|own| own.stable_when = Cond::Always);
    shown_by("night", &own, |loss| matches!(loss, Loss::Slept));
    let longer = spoil(|own| own.night.until_h += 1);
    told_as_data("hours", &longer, "protocol", "dark hours");
    let fewer = spoil(|own| own.night.acts.clear());
    told_as_data("acts", &fewer, "protocol", "dark hours");
}

/// What no bird can show is told as a difference of data.
#[test]
fn what_no_bird_shows_is_told_as_data() {
    let own = spoil(|own| rule(own, |rule| rule.borrowed.is_some()).borrowed = None);
    told_as_data("borrowed", &own, "rule", "borrowed from");
    let own = spoil(|own| rule(own, |rule| rule.strength == Strength::Memory).strength = Strength::Read);
    told_as_data("strength", &own, "rule", "claims");
    let says = PROTOCOL.sources.placed().next().map(|(at, _)| Advice::Says(at));
    let says = says.unwrap_or_else(|| panic!("no source"));
    let own = spoil(|own| rule(own, |rule| matches!(rule.advice, Advice::Ours)).advice = says);
    told_as_data("advice", &own, "rule", "its own inference");
    let own = spoil(|own| {
        let ban = own.actions.iter_mut().filter_map(|action| action.forbidden.as_mut()).find(|ban| ban.until.vet);
        ban.unwrap_or_else(|| panic!("no ban ends by a vet's word")).until.vet = false;
    });
    told_as_data("end of a ban", &own, "ban", "ends otherwise");
    let own = spoil(|own| own.hold_s *= 2);
    told_as_data("time in the hand", &own, "protocol", "may be held");
    let own = spoil(|own| rule(own, |rule| !rule.stays.is_empty()).stays.clear());
    told_as_data("a ban that stays", &own, "rule", "until a vet's word");
}

/// An answer that is not in one's own: she tells it nothing by it, and it says the least that can be.
#[test]
fn an_answer_or_a_question_gone_is_told_and_shown() {
    let (at, question) = PROTOCOL
        .questions
        .iter()
        .enumerate()
        .find(|(_, question)| PROTOCOL.is_danger_sign(question))
        .unwrap_or_else(|| panic!("no list"));
    let last = question.choices.len() - 1;
    let own = spoil(|own| (*own.questions)[at].choices[last].id = "other".into());
    let renamed = compared(&own);
    assert!(
        renamed.shown.iter().all(|shown| !shown.losses.iter().any(is_lower(Scale::Need))),
        "the words are the same"
    );
    let own = spoil(|own| {
        (*own.questions)[at].choices[last].id = "other".into();
        (*own.questions)[at].choices[last].say = "something else".into();
    });
    told_as_data("answer", &own, "answer", "is not among the answers of yours");
    shown_by("answer", &own, is_lower(Scale::Need));
    let own = spoil(|own| (*own.questions)[at].id = "other_question".into());
    told_as_data("question", &own, "question", "is not in yours");
    shown_by("question", &own, is_lower(Scale::Need));
}

/// A club that is only stricter, or says the same in other words, is told of nothing milder.
#[test]
fn who_is_only_stricter_is_nowhere_milder() {
    let own = spoil(|own| {
        own.rules
            .iter_mut()
            .filter(|rule| rule.need == Some(Need::WithinADay))
            .for_each(|rule| rule.need = Some(Need::Now));
        own.rules
            .iter_mut()
            .flat_map(|rule| &mut rule.looks)
            .for_each(|looks| looks.every_min = looks.every_min.div_ceil(2));
        own.hold_s /= 2;
    });
    let found = compared(&own);
    assert!(found.nothing_milder(), "{found:#?}");
    let own = spoil(|own| {
        own.rules.iter_mut().for_each(|rule| rule.reason.push_str(" indeed"));
        own.questions.iter_mut().for_each(|question| question.ask.push_str(" Look well."));
        own.questions
            .iter_mut()
            .flat_map(|question| &mut question.choices)
            .for_each(|choice| choice.say.push_str(", so it seems"));
        own.actions.iter_mut().for_each(|action| action.say.push('!'));
    });
    let found = compared(&own);
    assert!(found.nothing_milder() && found.otherwise.len() > PROTOCOL.questions.len(), "{found:#?}");
}

/// The bird is made as healthy as can be, and what does not differ costs nothing: told as counts, not as time.
#[test]
fn a_bird_that_shows_it_has_little_besides() {
    let found = compared(&spoil(|own| {
        own.rules.iter_mut().filter(|rule| rule.need == Some(Need::Now)).for_each(|rule| rule.need = Some(Need::Home));
    }));
    assert!(found.ended_early || found.shown.len() > 5, "{} birds", found.shown.len());
    assert!(found.shown.len() <= MOST_SHOWN);
    let signs = |shown: &Shown| shown.bird.len();
    let least = found.shown.iter().map(signs).min().unwrap_or(usize::MAX);
    assert!(least < 16, "the plainest bird has {least} things told of her");
}
