//! How long judging takes, beside the same rules as straight lines of Rust, in two script engines, and (as files for
//! `rules.mjs`) in a general JSON rule engine. Every bird is checked to come out the same before anything is timed.

mod straight {
    include!(concat!(env!("OUT_DIR"), "/rules.rs"));
}

use chrono::DateTime;
use coopside::finding::Findings;
use coopside::judge::{judge, levels};
use coopside::protocol::Protocol;
use coopside::protocol::cond::{Cond, QuestionAt, Threshold};
use coopside::protocol::question::Asked;
use coopside::protocol::rule::Rule;
use coopside::prove::is_possible;
use coopside::sheet::{Cell, Sheet, Subject, Truth};
use serde_json::{Value, json};
use std::hint::black_box;
use std::time::{Duration, Instant};

const BIRDS: usize = 400;
/// What no answer is numbered: the question does not apply.
const NOT_ASKED: u8 = 99;

type Flat = ([u8; 128], [u64; 14], Vec<([u8; 128], [u64; 2])>);

fn main() {
    let protocol = Protocol::shipped().unwrap_or_else(|faults| panic!("{faults}"));
    let birds = drawn(&protocol);
    let flat: Vec<Flat> = birds.iter().map(|bird| flattened(&protocol, bird)).collect();
    let expected: Vec<[u8; 3]> = birds
        .iter()
        .map(|bird| {
            let levels = levels(&protocol, bird);
            [levels.need.low as u8, levels.humane.low as u8, levels.authority.low as u8]
        })
        .collect();
    for (flat, expected) in flat.iter().zip(&expected) {
        assert_eq!(straight::levels(&flat.0, &flat.1, &flat.2), *expected, "straight lines");
    }
    let packed = |levels: &[u8; 3]| i64::from(levels[0]) * 16 + i64::from(levels[1]) * 4 + i64::from(levels[2]);

    let ours = best(|| {
        birds.iter().for_each(|bird| {
            black_box(levels(&protocol, black_box(bird)));
        })
    });
    let lines = best(|| {
        flat.iter().for_each(|(a, m, w)| {
            black_box(straight::levels(black_box(a), m, w));
        })
    });
    told("levels of a bird that is laid out", ours, ours);
    told("straight lines of Rust, measures given", lines, ours);
    let worked = best(|| {
        birds.iter().zip(&flat).for_each(|(bird, (a, _, w))| {
            let m = measures(black_box(bird));
            black_box((0..bird.wounds()).map(|wound| time(bird, Subject::Wound(wound))[0]).sum::<u64>());
            black_box(straight::levels(black_box(a), &m, w));
        })
    });
    told("straight lines of Rust, measures worked out", worked, ours);

    let lua = mlua::Lua::new();
    let function: mlua::Function =
        lua.load(include_str!(concat!(env!("OUT_DIR"), "/rules.lua"))).eval().expect("Lua rules");
    let tables: Vec<(mlua::Table, mlua::Table, mlua::Table)> = flat.iter().map(|bird| in_lua(&lua, bird)).collect();
    for (bird, expected) in tables.iter().zip(&expected) {
        let found: i64 = function.call((&bird.0, &bird.1, &bird.2)).expect("Lua judges");
        assert_eq!(found, packed(expected), "Lua");
    }
    let time = best(|| {
        tables.iter().for_each(|bird| {
            black_box(function.call::<i64>((&bird.0, &bird.1, &bird.2)).ok());
        })
    });
    told("the same in LuaJIT, tables made before", time, ours);

    let engine = rhai::Engine::new();
    let ast = engine.compile(include_str!(concat!(env!("OUT_DIR"), "/rules.rhai"))).expect("Rhai rules");
    let arrays: Vec<[rhai::Dynamic; 3]> = flat.iter().map(in_rhai).collect();
    let call = |bird: &[rhai::Dynamic; 3]| {
        let mut scope = rhai::Scope::new();
        engine
            .call_fn::<i64>(&mut scope, &ast, "levels", (bird[0].clone(), bird[1].clone(), bird[2].clone()))
            .expect("Rhai judges")
    };
    for (bird, expected) in arrays.iter().zip(&expected) {
        assert_eq!(call(bird), packed(expected), "Rhai");
    }
    let time = best(|| {
        arrays.iter().for_each(|bird| {
            black_box(call(bird));
        })
    });
    told("the same in Rhai", time, ours);

    let findings: Vec<Findings> = (0..birds.len()).map(|_| Findings::default()).collect();
    let time = best(|| {
        findings.iter().for_each(|known| {
            black_box(judge(&protocol, known, DateTime::UNIX_EPOCH));
        })
    });
    told("a whole verdict of a bird nothing is known of", time, ours);
    if let Some(folder) = std::env::args().nth(1) {
        let rules: Vec<Value> = protocol.rules.iter().flat_map(|rule| in_json(&protocol, rule)).collect();
        let facts: Vec<Value> = flat.iter().map(|bird| facts(&protocol, bird)).collect();
        let told = json!({ "rules": rules, "birds": facts, "expected": expected, "ours_ns": ours.as_nanos() as u64 / BIRDS as u64 });
        std::fs::write(format!("{folder}/rules.json"), told.to_string()).expect("the rules are written");
    }
}

fn best(mut run: impl FnMut()) -> Duration {
    run();
    (0..7)
        .map(|_| {
            let began = Instant::now();
            run();
            began.elapsed()
        })
        .min()
        .unwrap_or_default()
}

fn told(what: &str, time: Duration, ours: Duration) {
    let each = time.as_secs_f64() * 1e6 / BIRDS as f64;
    println!("{what:<46} {each:9.2} us a bird   {:8.2} x ours", time.as_secs_f64() / ours.as_secs_f64());
}

/// Possible birds of whom everything is known, with a fixed seed.
fn drawn(protocol: &Protocol) -> Vec<Sheet<'_>> {
    let mut rng = fastrand::Rng::with_seed(7);
    let blank = Sheet::lay(protocol, &Findings::default(), DateTime::UNIX_EPOCH);
    let mut found = Vec::new();
    while found.len() < BIRDS {
        let mut bird = blank.clone();
        (0..rng.usize(0..3)).for_each(|_| {
            bird.suppose_wound();
        });
        bird.suppose_looked_over();
        for (at, question) in protocol.enumerated() {
            for about in bird.abouts(question) {
                let offered: Vec<u8> = (0..question.choices.len() as u8)
                    .filter(|choice| question.is_offered(*choice, bird.kind()))
                    .collect();
                // Most signs of most birds are fine.
                let fine = question.ordered && rng.u8(0..10) < 8;
                let choice = if fine { offered.first() } else { offered.get(rng.usize(0..offered.len().max(1))) };
                bird.suppose(
                    Asked { about, question: at },
                    choice.map_or(Cell::CannotTell, |choice| Cell::Given(*choice)),
                );
            }
        }
        bird.suppose_applies();
        if is_possible(protocol, &blank, &bird) {
            found.push(bird);
        }
    }
    found
}

fn flattened(protocol: &Protocol, bird: &Sheet) -> Flat {
    let place = |subject: Subject, at: QuestionAt| match bird.cell(subject, at) {
        Cell::Given(choice) if bird.applies(subject, at) != Truth::No => choice,
        _ => NOT_ASKED,
    };
    let column = |subject: Subject, wound: bool| {
        let mut column = [NOT_ASKED; 128];
        for (at, question) in protocol.enumerated().filter(|(_, question)| question.wound == wound) {
            let _ = question;
            column[at.nth()] = place(subject, at);
        }
        column
    };
    let wounds = (0..bird.wounds()).map(|wound| {
        let wound = Subject::Wound(wound);
        (column(wound, true), time(bird, wound))
    });
    (column(Subject::Bird, false), measures(bird), wounds.collect())
}

/// Every measure of the bird herself, low and high.
fn measures(bird: &Sheet) -> [u64; 14] {
    let frail = bird.frail() == Truth::Yes;
    let weight = bird.weight().band;
    let breaths = bird.breath_rate().band;
    let shares = [bird.skin_open(), bird.blood_share(frail), bird.blood_of_weight()]
        .map(|reading| ends(reading.band.low.0, reading.band.high.0));
    let dryness = bird.dryness().band;
    let all = [
        ends(weight.low.0, weight.high.0),
        time(bird, Subject::Bird),
        shares[0],
        shares[1],
        shares[2],
        ends(breaths.low.0, breaths.high.0),
        ends(dryness.low.0, dryness.high.0),
    ];
    let mut measures = [0; 14];
    measures.iter_mut().zip(all.as_flattened()).for_each(|(into, from)| *into = *from);
    measures
}

fn time(bird: &Sheet, subject: Subject) -> [u64; 2] {
    let band = bird.time_since(subject).band;
    ends(band.low.0, band.high.0)
}

fn ends(low: u32, high: u32) -> [u64; 2] {
    [u64::from(low), u64::from(high)]
}

fn in_lua(lua: &mlua::Lua, (a, m, ws): &Flat) -> (mlua::Table, mlua::Table, mlua::Table) {
    let table = |values: Vec<i64>| lua.create_sequence_from(values).expect("a table");
    let bytes = |column: &[u8]| table(column.iter().map(|value| i64::from(*value)).collect());
    let whole = |column: &[u64]| table(column.iter().map(|value| *value as i64).collect());
    let wounds: Vec<mlua::Table> =
        ws.iter().map(|(w, t)| lua.create_sequence_from([bytes(w), whole(t)]).expect("a table")).collect();
    (bytes(a), whole(m), lua.create_sequence_from(wounds).expect("a table"))
}

fn in_rhai((a, m, ws): &Flat) -> [rhai::Dynamic; 3] {
    let bytes = |column: &[u8]| {
        rhai::Dynamic::from_array(column.iter().map(|value| i64::from(*value).into()).collect()).into_shared()
    };
    let whole = |column: &[u64]| {
        rhai::Dynamic::from_array(column.iter().map(|value| (*value as i64).into()).collect()).into_shared()
    };
    let wounds = ws.iter().map(|(w, t)| rhai::Dynamic::from_array(vec![bytes(w), whole(t)])).collect::<rhai::Array>();
    [bytes(a), whole(m), rhai::Dynamic::from_array(wounds).into_shared()]
}

/// The rules of one bird and up to two wounds for an engine that knows facts, `all`, `any` and `not`.
fn in_json(protocol: &Protocol, rule: &Rule) -> Vec<Value> {
    let rungs = [
        ("need", rule.need.map_or(0, |rung| rung as u8), 4),
        ("humane", rule.humane.map_or(0, |rung| rung as u8), 1),
        ("authority", rule.authority.map_or(0, |rung| rung as u8), 1),
    ];
    let wounds: Vec<Option<usize>> = if rule.per_wound { vec![Some(0), Some(1)] } else { vec![None] };
    let mut found = Vec::new();
    for wound in wounds {
        for (scale, rung, most) in rungs.into_iter().filter(|(_, rung, _)| *rung > 0) {
            let mut tell = |rung: u8, in_doubt: bool| {
                let mut parts = vec![cond(protocol, &rule.when, wound, in_doubt)];
                parts.extend(rule.unless.iter().map(|part| json!({ "not": cond(protocol, part, wound, !in_doubt) })));
                found.push(
                    json!({ "conditions": { "all": parts }, "event": { "type": scale, "params": { "rung": rung } } }),
                );
            };
            tell(rung, rung <= most);
            if rung > most {
                tell(most, true);
            }
        }
    }
    found
}

fn cond(protocol: &Protocol, of: &Cond, wound: Option<usize>, counts: bool) -> Value {
    let each = |parts: &[Cond]| parts.iter().map(|part| cond(protocol, part, wound, counts)).collect::<Vec<_>>();
    match of {
        Cond::Always => json!({ "all": [] }),
        Cond::Answer(at, set) => {
            let question = protocol.ask(*at);
            let fact = if question.wound { format!("w{}_{}", wound.unwrap_or(0), at.0) } else { format!("b_{}", at.0) };
            let answers: Vec<u32> = (0..32).filter(|answer| set.0 >> answer & 1 == 1).collect();
            json!({ "fact": fact, "operator": "in", "value": answers })
        }
        Cond::All(parts) => json!({ "all": each(parts) }),
        Cond::Any(parts) => json!({ "any": each(parts) }),
        Cond::Not(part) => json!({ "not": cond(protocol, part, wound, !counts) }),
        Cond::Count(least, parts) => {
            let parts = each(parts);
            let sets = (0u32..1 << parts.len()).filter(|set| set.count_ones() as usize == *least);
            let all = sets.map(|set| json!({ "all": (0..parts.len()).filter(|at| set >> at & 1 == 1).map(|at| parts[at].clone()).collect::<Vec<_>>() }));
            json!({ "any": all.collect::<Vec<_>>() })
        }
        Cond::SomeWound(part) => {
            json!({ "any": [cond(protocol, part, Some(0), counts), cond(protocol, part, Some(1), counts)] })
        }
        Cond::AtLeast(threshold) => reaches(*threshold, wound, counts),
        Cond::Under(threshold) => json!({ "not": reaches(*threshold, wound, !counts) }),
    }
}

fn reaches(threshold: Threshold, wound: Option<usize>, counts: bool) -> Value {
    let (dial, value) = match threshold {
        Threshold::Weight(value) => (0, value.0),
        Threshold::TimeSince(value) => (1, value.0),
        Threshold::SkinOpen(value) => (2, value.0),
        Threshold::BloodLost(value) => (3, value.0),
        Threshold::BloodOfWeight(value) => (4, value.0),
        Threshold::BreathRate(value) => (5, value.0),
        Threshold::Dryness(value) => (6, value.0),
    };
    let end = usize::from(counts);
    let fact = match wound {
        Some(wound) if dial == 1 => format!("t{wound}_{end}"),
        _ => format!("m_{}", 2 * dial + end),
    };
    json!({ "fact": fact, "operator": "greaterThanInclusive", "value": value })
}

fn facts(protocol: &Protocol, (a, m, ws): &Flat) -> Value {
    let mut facts = serde_json::Map::new();
    for (at, question) in protocol.enumerated() {
        let at = at.nth();
        if !question.wound {
            facts.insert(format!("b_{at}"), a[at].into());
        } else {
            (0..2).for_each(|wound| {
                facts.insert(format!("w{wound}_{at}"), ws.get(wound).map_or(NOT_ASKED, |(w, _)| w[at]).into());
            });
        }
    }
    m.iter().enumerate().for_each(|(at, value)| {
        facts.insert(format!("m_{at}"), (*value).into());
    });
    (0..2).for_each(|wound| {
        (0..2).for_each(|end| {
            facts.insert(format!("t{wound}_{end}"), ws.get(wound).map_or(0, |(_, t)| t[end]).into());
        })
    });
    facts.into()
}
