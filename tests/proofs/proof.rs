//! The proofs held against spoiled protocols: every fault is caught, and the bird that is named really shows it.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, count, now};
use coopside::finding::{About, Findings, Statement};
use coopside::judge::{Verdict, judge, levels};
use coopside::protocol::Protocol;
use coopside::protocol::action::Air;
use coopside::protocol::cond::{AnswerSet, Cond, QuestionAt};
use coopside::protocol::question::Asked;
use coopside::protocol::rule::{ActionAt, Advice, Conflict, Exclusion, Rule};
use coopside::protocol::scale::{Humane, Need};
use coopside::prove::{Claim, Outcome, Rung, Witness, Work, answer_of, bands, prove, prove_one};
use coopside::sheet::{Cell, Sheet, Subject};
use coopside::unit::Band;
use std::collections::BTreeSet;

const ENOUGH: Work = Work(2000);

#[test]
fn the_shipped_protocol_is_proven() {
    let report = prove(&PROTOCOL, ENOUGH);
    for proof in &report.proofs {
        let holds = matches!(proof.outcome, Outcome::Proven | Outcome::Noted(_));
        assert!(holds, "{}: {:?}", proof.claim.words(), proof.outcome);
        assert!(proof.cases > 0, "{} looked at nothing", proof.claim.words());
    }
    assert!(report.holds());
}

/// At least ten protocols, each spoiled in another place, and all refuted by the claim that has to catch it.
fn all_caught(claim: Claim, spoiled: impl Iterator<Item = Protocol>) -> Vec<(Protocol, Vec<Witness>)> {
    let spoiled: Vec<Protocol> = spoiled.take(10).collect();
    assert_eq!(spoiled.len(), 10, "{} is spoiled in too few ways", claim.words());
    let caught = spoiled.into_iter().enumerate().map(|(number, protocol)| {
        let Outcome::Refuted(witnesses) = prove_one(&protocol, claim, ENOUGH).outcome else {
            panic!("{}: spoiled protocol {number} is not caught", claim.words());
        };
        (protocol, witnesses)
    });
    caught.collect()
}

fn spoil(with: impl FnOnce(&mut Protocol)) -> Protocol {
    let mut protocol = PROTOCOL.clone();
    with(&mut protocol);
    protocol
}

fn bird(protocol: &Protocol, said: &[(Asked, Cell)]) -> [Band<Rung>; 3] {
    bands(levels(protocol, &laid(protocol, said)))
}

/// A witness laid out again, from nothing but what it says of her.
fn laid<'p>(protocol: &'p Protocol, said: &[(Asked, Cell)]) -> Sheet<'p> {
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
    for (asked, cell) in said {
        sheet.suppose(*asked, *cell);
    }
    sheet.suppose_applies();
    sheet
}

/// A witness judged in full, by the answers she is told with.
fn judged(protocol: &Protocol, said: &[(Asked, Cell)]) -> Verdict {
    let mut findings = Findings::default();
    let wounds = said.iter().filter(|(asked, _)| asked.about != About::Bird).map(|(asked, _)| asked.about);
    for _ in wounds.collect::<BTreeSet<_>>() {
        findings.find_wound();
    }
    findings.look_over();
    for (asked, cell) in said {
        let question = protocol.ask(asked.question);
        // What was worked out is told by the graver answer it stands for: nobody can be asked to spill a set amount.
        let told = if let Cell::Worked(_, _, last) = *cell { Cell::Given(last) } else { *cell };
        let answer = answer_of(question, told).unwrap_or_else(|| panic!("`{}` has no such answer", question.id));
        findings.say(Statement { about: asked.about, question: question.id.clone(), answer }, now());
    }
    judge(protocol, &findings, now())
}

/// Every measure of a bird that a rule can hold against a value, by its two ends.
fn measures(sheet: &Sheet) -> Vec<(u64, u64)> {
    let ends = |low: u32, high: u32| (u64::from(low), u64::from(high));
    let shares = [
        sheet.skin_open(),
        sheet.blood_share(false),
        sheet.blood_share(true),
        sheet.blood_of_weight(),
        sheet.dryness(),
    ];
    let breaths = sheet.breath_rate().band;
    let shares = shares.into_iter().map(|reading| ends(reading.band.low.0, reading.band.high.0));
    shares.chain([ends(breaths.low.0, breaths.high.0)]).collect()
}

/// Signs of the bird whose rules say "at least", turned into "exactly the mildest of these": worse would look better.
#[test]
fn a_flipped_comparison_is_caught_and_the_two_birds_show_it() {
    let flipped = PROTOCOL.rules.iter().enumerate().filter_map(|(at, rule)| {
        let Cond::Answer(question, set) = &rule.when else { return None };
        let count = PROTOCOL.ask(*question).choices.len();
        let (ordered, first) = (PROTOCOL.ask(*question).ordered, set.0.trailing_zeros());
        let raises = rule.need.is_some_and(|need| need > Need::Home);
        (ordered && raises && !rule.per_wound && usize::try_from(first).is_ok_and(|first| first + 1 < count)).then(
            || {
                spoil(|protocol| {
                    protocol.rules.retain(|other| other.id == rule.id || other.need < rule.need);
                    let at = protocol.rules.iter().position(|other| other.id == rule.id).unwrap_or(at);
                    (*protocol.rules)[at].when = Cond::Answer(*question, AnswerSet(1 << first));
                })
            },
        )
    });
    for (protocol, witnesses) in all_caught(Claim::WorseNeverMilder, flipped) {
        for witness in witnesses {
            let (mild, bad) = (bird(&protocol, &witness.said), bird(&protocol, &witness.other));
            assert!(mild.iter().zip(&bad).any(|(mild, bad)| mild.low > bad.low), "{}", witness.what);
        }
    }
}

/// A rule that is turned off by a worse sign of another question.
#[test]
fn an_exception_that_a_worse_sign_makes_is_caught() {
    let posture = PROTOCOL.question_at("posture").unwrap_or_else(|| panic!("no posture"));
    let apart = |rule: &&Rule| !rule.when.questions().contains(&posture);
    let grave = PROTOCOL.rules.iter().filter(|rule| rule.need == Some(Need::Now) && !rule.per_wound).filter(apart);
    let spoiled = grave.map(|rule| {
        spoil(|protocol| {
            protocol.rules.retain(|other| other.id == rule.id || other.need < Some(Need::Now));
            for own in protocol.rules.iter_mut().filter(|own| own.id == rule.id) {
                own.unless.push(Cond::Answer(posture, AnswerSet(1 << 3)));
            }
        })
    });
    all_caught(Claim::WorseNeverMilder, spoiled);
}

#[test]
fn a_rule_that_holds_of_no_bird_is_caught() {
    let never = |at: usize| spoil(|protocol| (*protocol.rules)[at].when = Cond::Any(Vec::new()));
    all_caught(Claim::RulesDecide, (0..10).map(|nth| never(nth * 7)));
    // A case dropped: the exception swallows the whole rule.
    let swallowed = |at: usize| {
        spoil(|protocol| {
            let when = (*protocol.rules)[at].when.clone();
            (*protocol.rules)[at].unless.push(when);
        })
    };
    all_caught(Claim::RulesDecide, (1..PROTOCOL.rules.len()).step_by(9).map(swallowed));
}

#[test]
fn answers_that_exclude_each_other_for_every_bird_are_caught() {
    let spoiled = PROTOCOL
        .enumerated()
        .filter(|(_, question)| !question.wound && question.applies.is_none() && !question.is_weight());
    let spoiled = spoiled.map(|(at, question)| {
        let first = Cond::Answer(at, AnswerSet(1));
        spoil(|protocol| {
            protocol.exclusions.push(Exclusion {
                id: question.id.clone(),
                one: first.clone(),
                other: first.clone(),
                say: "spoiled".into(),
            });
        })
    });
    all_caught(Claim::AnswersPossible, spoiled);
}

#[test]
fn a_rung_nobody_comes_to_is_caught() {
    // Rungs taken away from every rule that gives them (doubt about a higher one would still lead to a lower).
    let need = [Need::Home, Need::WithinADay, Need::WithinHours, Need::Now].map(|rung| {
        spoil(|protocol| {
            protocol.rules.iter_mut().filter(|rule| rule.need == Some(rung)).for_each(|rule| rule.need = None);
        })
    });
    let humane = [Humane::MayComeIntoQuestion, Humane::AdvisedUnlessVet, Humane::Advised].map(|rung| {
        spoil(|protocol| {
            protocol.rules.iter_mut().filter(|rule| rule.humane >= Some(rung)).for_each(|rule| rule.humane = None);
        })
    });
    let authority = [1, 2].map(|rung| {
        spoil(|protocol| {
            let is = |rule: &Rule| rule.authority.is_some_and(|own| own as u8 >= rung);
            protocol.rules.iter_mut().filter(|rule| is(rule)).for_each(|rule| rule.authority = None);
        })
    });
    let no_rules = spoil(|protocol| protocol.rules.clear());
    all_caught(Claim::RungsReached, need.into_iter().chain(humane).chain(authority).chain([no_rules]));
}

#[test]
fn a_measure_that_shrinks_is_caught() {
    let feeds = ["blood_lost", "breath_count", "dryness", "size"];
    let spoiled = feeds.iter().flat_map(|id| {
        let at = PROTOCOL.question_at(id).map_or(0, coopside::protocol::table::At::nth);
        (1..(*PROTOCOL.questions)[at].choices.len()).map(move |choice| {
            spoil(|protocol| {
                let choices = &mut (*protocol.questions)[at].choices;
                choices[choice].worth = Some(Band { low: 0, high: 0 });
                choices[choice - 1].worth = Some(Band { low: 900, high: 90_000 });
            })
        })
    });
    for (protocol, witnesses) in all_caught(Claim::MeasuresGrow, spoiled) {
        for witness in witnesses {
            let Some(at) = witness.item.as_ref().and_then(|item| protocol.question_at(item.as_str())) else { continue };
            let mut sheet = laid(&protocol, &witness.said);
            // The claim speaks of what is measured, whatever makes the question be asked.
            witness.said.iter().for_each(|(asked, _)| sheet.suppose_asked(*asked));
            let before = measures(&sheet);
            let about = if protocol.ask(at).wound { About::Wound(0) } else { About::Bird };
            let Cell::Given(here) = sheet.cell(about.into(), at) else { continue };
            sheet.suppose(Asked { about, question: at }, Cell::Given(here + 1));
            let worse = measures(&sheet);
            let shrinks = |(before, worse): (&(u64, u64), &(u64, u64))| worse.0 < before.0 || worse.1 < before.1;
            assert!(before.iter().zip(&worse).any(shrinks), "{}", witness.what);
        }
    }
}

#[test]
fn an_answer_nothing_hangs_on_is_caught() {
    let twice = PROTOCOL.questions.iter().enumerate().filter(|(_, question)| {
        // What only tells another answer more fully is told to people: by its nature nothing hangs on it.
        let told = question.adds_to.is_some();
        !told && !question.is_weight() && question.id != PROTOCOL.kind_question().id && question.figure().is_none()
    });
    let spoiled = twice.map(|(at, question)| {
        spoil(|protocol| {
            // All that is said of this question is taken out: no answer makes a difference any more.
            let gone = PROTOCOL.question_at(question.id.as_str());
            let forget = |cond: &mut Cond| forget(cond, gone);
            for rule in protocol.rules.iter_mut() {
                forget(&mut rule.when);
                rule.unless.iter_mut().for_each(forget);
            }
            for other in protocol.questions.iter_mut() {
                other.applies.iter_mut().chain(&mut other.moot).chain(&mut other.asked_if).for_each(forget);
            }
            protocol.paragraphs.iter_mut().for_each(|paragraph| forget(&mut paragraph.when));
            [
                &mut protocol.spare_when,
                &mut protocol.spare_in_doubt,
                &mut protocol.stable_when,
                &mut protocol.frail_when,
                &mut protocol.bleeds_when,
            ]
            .into_iter()
            .for_each(forget);
            for action in protocol.actions.iter_mut() {
                action.fits.iter_mut().for_each(|fit| forget(&mut fit.when));
                action.hands.iter_mut().for_each(|hands| forget(&mut hands.when));
                let bans = action.forbidden.iter_mut().flat_map(|forbidden| &mut forbidden.fits);
                bans.for_each(|fit| forget(&mut fit.when));
            }
            protocol.scores.clear();
            for choice in &mut (*protocol.questions)[at].choices {
                choice.instruct = None;
                choice.worth = None;
            }
            (*protocol.questions)[at].gives = None;
        })
    });
    all_caught(Claim::AnswersMatter, spoiled);
}

fn forget(cond: &mut Cond, gone: Option<QuestionAt>) {
    match cond {
        Cond::Answer(at, _) if Some(*at) == gone => *cond = Cond::Any(Vec::new()),
        Cond::All(parts) | Cond::Any(parts) | Cond::Count(_, parts) => {
            for part in parts {
                forget(part, gone);
            }
        }
        Cond::Not(part) | Cond::SomeWound(part) => forget(part, gone),
        Cond::Always | Cond::Answer(..) | Cond::AtLeast(_) | Cond::Under(_) => {}
    }
}

#[test]
fn conflicts_that_cannot_be_settled_are_caught() {
    let itself = PROTOCOL.actions.placed().take(3).map(|(action, _)| {
        spoil(|protocol| protocol.conflicts.push(Conflict { keep: action, drop: action, because: String::new() }))
    });
    let turned = (0..3).map(|at| {
        let Conflict { keep, drop, .. } = (*PROTOCOL.conflicts)[at];
        spoil(|protocol| protocol.conflicts.push(Conflict { keep: drop, drop: keep, because: String::new() }))
    });
    let both = PROTOCOL.rules.iter().enumerate().filter(|(_, rule)| !rule.acts.is_empty()).take(3).map(|(at, _)| {
        spoil(|protocol| {
            let acts = (*protocol.rules)[at].acts.clone();
            (*protocol.rules)[at].never.extend(acts);
        })
    });
    // Every instruction's own actions forbidden by the first rule of all: nothing is left to do.
    let nothing_left = PROTOCOL
        .instructions
        .iter()
        .map(|instruction| spoil(|protocol| (*protocol.rules)[0].never.extend(instruction.acts.iter().copied())));
    all_caught(Claim::NoConflict, itself.chain(turned).chain(both).chain(nothing_left));
}

/// A danger sign that no longer sends for a vet: its own rules made milder, or excused by another sign.
#[test]
fn a_danger_sign_without_a_vet_is_caught_and_the_bird_shows_it() {
    let danger: Vec<QuestionAt> =
        PROTOCOL.enumerated().filter(|(_, question)| PROTOCOL.is_danger_sign(question)).map(|(at, _)| at).collect();
    let of = |rule: &Rule, at: QuestionAt| rule.need == Some(Need::Now) && rule.when.questions().contains(&at);
    let milder = danger.clone().into_iter().map(|at| {
        spoil(|protocol| {
            protocol.rules.iter_mut().filter(|rule| of(rule, at)).for_each(|rule| rule.need = Some(Need::WithinHours));
        })
    });
    let alert = PROTOCOL.question_at("posture").unwrap_or_else(|| panic!("no posture"));
    let excused = danger.clone().into_iter().map(|at| {
        spoil(|protocol| {
            let excuse = Cond::Answer(alert, AnswerSet(1));
            protocol.rules.iter_mut().filter(|rule| of(rule, at)).for_each(|rule| rule.unless.push(excuse.clone()));
        })
    });
    for (protocol, witnesses) in all_caught(Claim::DangerIsNow, milder.chain(excused)) {
        for witness in witnesses {
            let [need, ..] = bird(&protocol, &witness.said);
            assert!(need.low < Need::Now as Rung, "{}", witness.what);
            let item = witness.item.as_ref().and_then(|item| protocol.question_at(item.as_str()));
            let shown = |(asked, cell): &(Asked, Cell)| Some(asked.question) == item && *cell != Cell::Given(0);
            assert!(witness.said.iter().any(shown), "{}", witness.what);
        }
    }
}

/// Warming and cooling the same bird: every settled conflict of air taken away is missed by some bird, and the judge shows it.
#[test]
fn air_of_two_warmths_is_caught_and_the_plan_shows_it() {
    let aired = |at: ActionAt| PROTOCOL.action(at).air;
    let settled: Vec<usize> = (0..PROTOCOL.conflicts.len())
        .filter(|at| {
            let Conflict { keep, drop, .. } = &(*PROTOCOL.conflicts)[*at];
            aired(*keep).is_some() && aired(*drop).is_some() && aired(*keep) != aired(*drop)
        })
        .collect();
    let mut caught = 0;
    for at in settled {
        let protocol = spoil(|protocol| {
            protocol.conflicts.remove(at);
        });
        let Outcome::Refuted(witnesses) = prove_one(&protocol, Claim::NoConflict, ENOUGH).outcome else { continue };
        for witness in witnesses {
            let verdict = judged(&protocol, &witness.said);
            let airs: BTreeSet<&str> =
                verdict.acts.iter().filter_map(|act| protocol.action(act.target.action).air).map(Air::id).collect();
            assert!(airs.len() > 1, "{}: {airs:?}", witness.what);
            caught += 1;
        }
    }
    assert!(caught >= 3, "only {caught} of the conflicts of air are needed");
}

#[test]
fn an_inference_that_advises_an_end_is_caught() {
    let spoiled = (0..10).map(|nth| {
        spoil(|protocol| {
            (*protocol.rules)[nth * 11].humane = Some(Humane::AdvisedUnlessVet);
            (*protocol.rules)[nth * 11].advice = Advice::Ours;
        })
    });
    all_caught(Claim::NoInferenceAdvises, spoiled);
}

#[test]
fn an_exception_that_is_no_longer_asked_is_caught() {
    let with = PROTOCOL.rules.iter().filter(|rule| rule.humane.is_some() && !rule.unless.is_empty());
    let asked: Vec<QuestionAt> = with.flat_map(|rule| rule.unless.iter().flat_map(Cond::questions)).collect();
    let firsts = PROTOCOL.enumerated().filter(|(_, question)| !question.wound && question.ordered).map(|(at, _)| at);
    let spoiled = firsts.flat_map(|first| {
        let asked = asked.clone();
        asked.into_iter().map(move |at| {
            spoil(|protocol| (*protocol.questions)[at.nth()].moot = Some(Cond::Answer(first, AnswerSet(1))))
        })
    });
    for (protocol, witnesses) in all_caught(Claim::ExceptionsAsked, spoiled) {
        for witness in witnesses {
            let asked = witness.item.as_ref().and_then(|item| protocol.question_at(item.as_str()));
            let asked = asked.unwrap_or_else(|| panic!("{} names no question", witness.what));
            let sheet = laid(&protocol, &witness.said);
            let moot = protocol.ask(asked).moot.as_ref();
            assert!(moot.is_some_and(|moot| sheet.surely(moot, Subject::Bird)), "{}", witness.what);
            let stands = |rule: &&Rule| {
                rule.humane.is_some()
                    && rule.unless.iter().any(|cond| cond.questions().contains(&asked))
                    && sheet.in_doubt_too(&rule.when, Subject::Bird)
            };
            assert!(protocol.rules.iter().any(|rule| stands(&rule)), "{}", witness.what);
        }
    }
}

#[test]
fn a_never_without_an_instead_is_caught() {
    let never: std::collections::BTreeSet<ActionAt> =
        PROTOCOL.rules.iter().flat_map(|rule| rule.never.clone()).collect();
    let spoiled = never.into_iter().map(|at| spoil(|protocol| (*protocol.actions)[at.nth()].forbidden = None));
    all_caught(Claim::NeverHasInstead, spoiled);
}

/// An action nobody is told of is noted; the shipped protocol has none.
#[test]
fn an_action_nothing_advises_or_forbids_is_noted() {
    let notes = |protocol: &Protocol| match prove_one(protocol, Claim::NeverHasInstead, ENOUGH).outcome {
        Outcome::Noted(notes) => notes,
        Outcome::Proven => Vec::new(),
        other => panic!("{other:?}"),
    };
    assert_eq!(notes(&PROTOCOL), Vec::<String>::new());
    let at = (*PROTOCOL.rules).iter().find_map(|rule| rule.acts.first().copied());
    let at = at.unwrap_or_else(|| panic!("no rule advises anything"));
    let spoiled = spoil(|protocol| {
        for rule in protocol.rules.iter_mut() {
            rule.acts.retain(|act| *act != at);
            rule.never.retain(|act| *act != at);
        }
        for instruction in protocol.instructions.iter_mut() {
            instruction.acts.retain(|act| *act != at);
            instruction.never.retain(|act| *act != at);
        }
    });
    let id = &PROTOCOL.action(at).id;
    assert_eq!(notes(&spoiled), [format!("action `{id}` is neither advised nor forbidden by any rule or instruction")]);
}

/// Work that does not suffice is said; nothing is claimed.
#[test]
fn a_budget_that_runs_out_is_told() {
    let outcome = prove_one(&PROTOCOL, Claim::WorseNeverMilder, Work(0)).outcome;
    assert_eq!(outcome, Outcome::GivenUp);
}

/// Every rule there many times over (2,000 rules, 10,000 in the long form), under names of their own: each claim ends, and one
/// that took too much says so.
#[test]
fn thousands_of_rules_are_proven_or_given_up_in_words() {
    let rules = count(2_000, 10_000);
    let protocol = spoil(|protocol| {
        let copies = (1..=rules / PROTOCOL.rules.len()).flat_map(|nth| {
            PROTOCOL
                .rules
                .iter()
                .map(move |rule| Rule { id: format!("{}_{nth}", rule.id).as_str().into(), ..rule.clone() })
        });
        protocol.rules.extend(copies);
    });
    assert!(protocol.rules.len() >= rules);
    for claim in Claim::ALL {
        let proof = prove_one(&protocol, claim, ENOUGH);
        let ended = matches!(proof.outcome, Outcome::Proven | Outcome::Noted(_) | Outcome::GivenUp);
        assert!(ended, "{}: refuted, though every rule only stands there again", claim.words());
    }
}
