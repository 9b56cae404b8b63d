//! The evidence table against the protocol: no fact is left open, every name is known, every source is used, and no item
//! claims to know a thing better than we do.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use coopside::protocol::evidence::{Fact, Fate};
use coopside::protocol::rule::Advice;
use coopside::protocol::source::Strength;
use coopside::protocol::sum::SumOf;
use coopside::shipped;
use std::collections::BTreeSet;
use std::sync::LazyLock;

fn facts() -> Vec<Fact> {
    shipped::facts().unwrap_or_else(|faults| panic!("\n{faults}"))
}

/// What the protocol carries outside its lists of items, by the names of its fields: `spare_when`, `grades` and their like.
static FIELDS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let whole = serde_json::to_value(&*PROTOCOL).unwrap_or_else(|error| panic!("{error}"));
    whole.as_object().into_iter().flat_map(|fields| fields.keys().cloned()).collect()
});

/// The sums that carry figures, each by its name.
static SUM_NAMES: LazyLock<Vec<String>> =
    LazyLock::new(|| SumOf::ALL.iter().map(|sum| format!("sum_{}", sum.id())).collect());

fn items() -> BTreeSet<&'static str> {
    let protocol = &*PROTOCOL;
    let mut items: BTreeSet<&str> = FIELDS.iter().map(String::as_str).collect();
    items.extend(SUM_NAMES.iter().map(String::as_str));
    items.extend(protocol.questions.iter().map(|item| item.id.as_str()));
    items.extend(protocol.rules.iter().map(|item| item.id.as_str()));
    items.extend(protocol.actions.iter().map(|item| item.id.as_str()));
    items.extend(protocol.watches.iter().map(|item| item.id.as_str()));
    items.extend(protocol.instructions.iter().map(|item| item.id.as_str()));
    items.extend(protocol.paragraphs.iter().map(|item| item.id.as_str()));
    items.extend(protocol.countries.iter().map(|item| item.id.as_str()));
    items.extend(protocol.scores.iter().map(|item| item.id.as_str()));
    items.extend(protocol.supplies.iter().map(|item| item.id.as_str()));
    items.extend(protocol.rounds.iter().map(|item| item.id.as_str()));
    items.extend(protocol.substances.iter().map(|item| item.id.as_str()));
    items.extend(protocol.families.iter().map(|item| item.id.as_str()));
    items
}

#[test]
fn no_fact_is_left_open() {
    let facts = facts();
    let covered = facts.iter().filter(|fact| matches!(fact.fate, Fate::Covered(_))).count();
    println!("{} facts: {covered} covered, {} declined, 0 open", facts.len(), facts.len() - covered);
    assert!(facts.len() >= 230 && covered >= 130, "{covered} of {}", facts.len());
    for fact in &facts {
        let settled = match &fact.fate {
            Fate::Covered(by) => !by.is_empty(),
            Fate::Declined(because) => because.split_whitespace().count() >= 3,
        };
        assert!(settled && !fact.from.is_empty() && !fact.fact.is_empty(), "{}", fact.id);
    }
    // The rules and thresholds of the collection are numbered without a gap, but for two numbers never given.
    let have: BTreeSet<&str> = facts.iter().map(|fact| fact.id.as_str()).collect();
    assert_eq!(have.len(), facts.len(), "an id stands twice");
    for number in (1..=123).filter(|number| ![42, 43].contains(number)) {
        assert!(have.contains(format!("E{number:03}").as_str()), "E{number:03} has no row");
    }
}

#[test]
fn every_name_in_the_table_is_known() {
    let items = items();
    for fact in facts() {
        for source in &fact.from {
            assert!(PROTOCOL.source(source).is_some(), "{}: no source `{source}`", fact.id);
        }
        if let Fate::Covered(by) = &fact.fate {
            for item in by {
                assert!(items.contains(item.as_str()), "{}: nothing is called `{item}`", fact.id);
            }
        }
    }
}

#[test]
fn every_source_is_used() {
    let protocol = &*PROTOCOL;
    let mut used: BTreeSet<String> =
        protocol.questions.iter().map(|item| PROTOCOL.source_id(item.source).to_string()).collect();
    used.extend(protocol.actions.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    let fits = protocol.actions.iter().flat_map(|item| &item.fits);
    used.extend(fits.filter_map(|fit| fit.source).map(|at| PROTOCOL.source_id(at).to_string()));
    used.extend(protocol.watches.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(protocol.instructions.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(protocol.paragraphs.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(protocol.scores.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(protocol.supplies.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(protocol.ways.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(protocol.rounds.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(protocol.substances.iter().map(|item| PROTOCOL.source_id(item.source).to_string()));
    used.extend(
        protocol
            .families
            .iter()
            .flat_map(|family| &family.rests)
            .map(|rest| PROTOCOL.source_id(rest.source).to_string()),
    );
    used.extend(
        protocol
            .countries
            .iter()
            .flat_map(|country| &country.laws)
            .map(|law| PROTOCOL.source_id(law.source).to_string()),
    );
    used.extend(
        protocol.sums.iter().flat_map(|sum| &sum.rests).map(|rest| PROTOCOL.source_id(rest.source).to_string()),
    );
    used.extend(facts().into_iter().flat_map(|fact| fact.from));
    for rule in &protocol.rules {
        used.insert(PROTOCOL.source_id(rule.source).to_string());
        if let Advice::Says(source) = &rule.advice {
            used.insert(PROTOCOL.source_id(*source).to_string());
        }
    }
    let unused: Vec<&str> =
        protocol.sources.iter().map(|source| source.id.as_str()).filter(|id| !used.contains(*id)).collect();
    assert!(unused.is_empty(), "no one uses {unused:?}");
}

/// Every source a rule, paragraph or law rests on has a row of evidence that names it.
#[test]
fn nothing_rests_on_a_source_the_table_does_not_know() {
    let known: BTreeSet<String> = facts().into_iter().flat_map(|fact| fact.from).collect();
    let rules = PROTOCOL.rules.iter().map(|rule| (rule.id.as_str(), PROTOCOL.source_id(rule.source).as_str()));
    let paragraphs =
        PROTOCOL.paragraphs.iter().map(|told| (told.id.as_str(), PROTOCOL.source_id(told.source).as_str()));
    let laws = PROTOCOL.countries.iter().flat_map(|country| {
        country.laws.iter().map(|law| (country.id.as_str(), PROTOCOL.source_id(law.source).as_str()))
    });
    let ways =
        PROTOCOL.ways.iter().map(|way| (PROTOCOL.action(way.act).id.as_str(), PROTOCOL.source_id(way.source).as_str()));
    let rounds = PROTOCOL.rounds.iter().map(|round| (round.id.as_str(), PROTOCOL.source_id(round.source).as_str()));
    let supplies =
        PROTOCOL.supplies.iter().map(|supply| (supply.id.as_str(), PROTOCOL.source_id(supply.source).as_str()));
    let substances =
        PROTOCOL.substances.iter().map(|item| (item.id.as_str(), PROTOCOL.source_id(item.source).as_str()));
    let families = PROTOCOL.families.iter().flat_map(|family| {
        family.rests.iter().map(|rest| (family.id.as_str(), PROTOCOL.source_id(rest.source).as_str()))
    });
    let substances = substances.chain(families);
    let all = rules.chain(paragraphs).chain(laws).chain(substances).chain(ways).chain(rounds).chain(supplies);
    let without: Vec<_> = all.filter(|(_, source)| !known.contains(*source)).collect();
    assert!(without.is_empty(), "{without:?}");
}

/// A rule, paragraph or law may say that a thing was read, second-hand or remembered only as the table says it.
#[test]
fn no_item_claims_to_know_better_than_the_table() {
    let facts = facts();
    let best = |source: &str| -> Option<Strength> {
        let of = facts.iter().filter(|fact| fact.from.iter().any(|from| from == source));
        of.map(|fact| fact.strength).min_by_key(|strength| rank(*strength))
    };
    let rules =
        PROTOCOL.rules.iter().map(|rule| (rule.id.as_str(), PROTOCOL.source_id(rule.source).as_str(), rule.strength));
    let paragraphs = PROTOCOL
        .paragraphs
        .iter()
        .map(|told| (told.id.as_str(), PROTOCOL.source_id(told.source).as_str(), told.strength));
    let laws = PROTOCOL.countries.iter().flat_map(|country| {
        country.laws.iter().map(|law| (country.id.as_str(), PROTOCOL.source_id(law.source).as_str(), law.strength))
    });
    let ways = PROTOCOL
        .ways
        .iter()
        .map(|way| (PROTOCOL.action(way.act).id.as_str(), PROTOCOL.source_id(way.source).as_str(), way.strength));
    let rounds = PROTOCOL
        .rounds
        .iter()
        .map(|round| (round.id.as_str(), PROTOCOL.source_id(round.source).as_str(), round.strength));
    let claims: Vec<String> = rules
        .chain(paragraphs)
        .chain(laws)
        .chain(ways)
        .chain(rounds)
        .chain(
            PROTOCOL
                .substances
                .iter()
                .map(|item| (item.id.as_str(), PROTOCOL.source_id(item.source).as_str(), item.strength)),
        )
        .chain(PROTOCOL.families.iter().flat_map(|family| {
            family
                .rests
                .iter()
                .map(|rest| (family.id.as_str(), PROTOCOL.source_id(rest.source).as_str(), rest.strength))
        }))
        .chain(shipped::hazards().iter().map(|item| (item.id.as_str(), item.source.as_str(), item.strength)))
        .filter(|(_, source, strength)| best(source).is_some_and(|best| rank(*strength) < rank(best)))
        .map(|(item, source, strength)| format!("{item} says {strength:?} of {source}, the table {:?}", best(source)))
        .collect();
    assert!(claims.is_empty(), "{claims:#?}");
}

const fn rank(strength: Strength) -> u8 {
    match strength {
        Strength::Read => 0,
        Strength::SecondHand => 1,
        Strength::Memory => 2,
        Strength::Practice => 3,
        Strength::Proposal => 4,
    }
}

/// Whoever carries a published fact names its source: at least one of the items does.
#[test]
fn what_carries_a_fact_names_where_it_comes_from() {
    let protocol = &*PROTOCOL;
    let cites = |item: &str| -> Vec<String> {
        let mut cited = Vec::new();
        let sums = protocol.sums.iter().filter(|told| item.strip_prefix("sum_") == Some(told.sum.id()));
        cited.extend(sums.flat_map(|told| &told.rests).map(|rest| PROTOCOL.source_id(rest.source).to_string()));
        for rule in protocol.rules.iter().filter(|rule| rule.id == *item) {
            cited.push(PROTOCOL.source_id(rule.source).to_string());
            if let Advice::Says(source) = &rule.advice {
                cited.push(PROTOCOL.source_id(*source).to_string());
            }
        }
        cited.extend(
            protocol.questions.iter().filter(|q| q.id == *item).map(|q| PROTOCOL.source_id(q.source).to_string()),
        );
        cited.extend(
            protocol.actions.iter().filter(|a| a.id == *item).map(|a| PROTOCOL.source_id(a.source).to_string()),
        );
        let fits = protocol.actions.iter().filter(|a| a.id == *item).flat_map(|a| &a.fits);
        cited.extend(fits.filter_map(|fit| fit.source).map(|at| PROTOCOL.source_id(at).to_string()));
        cited.extend(
            protocol.watches.iter().filter(|w| w.id == *item).map(|w| PROTOCOL.source_id(w.source).to_string()),
        );
        cited.extend(
            protocol.instructions.iter().filter(|i| i.id == *item).map(|i| PROTOCOL.source_id(i.source).to_string()),
        );
        cited.extend(
            protocol.paragraphs.iter().filter(|p| p.id == *item).map(|p| PROTOCOL.source_id(p.source).to_string()),
        );
        cited
            .extend(protocol.scores.iter().filter(|s| s.id == *item).map(|s| PROTOCOL.source_id(s.source).to_string()));
        cited.extend(
            protocol.supplies.iter().filter(|s| s.id == *item).map(|s| PROTOCOL.source_id(s.source).to_string()),
        );
        cited
            .extend(protocol.rounds.iter().filter(|r| r.id == *item).map(|r| PROTOCOL.source_id(r.source).to_string()));
        cited.extend(
            protocol.substances.iter().filter(|s| s.id == *item).map(|s| PROTOCOL.source_id(s.source).to_string()),
        );
        let family = protocol.families.iter().filter(|family| family.id == *item);
        cited.extend(
            family.flat_map(|family| family.rests.iter().map(|rest| PROTOCOL.source_id(rest.source).to_string())),
        );
        let country = protocol.countries.iter().filter(|country| country.id == *item);
        cited.extend(
            country.flat_map(|country| country.laws.iter().map(|law| PROTOCOL.source_id(law.source).to_string())),
        );
        cited
    };
    let mut silent = Vec::new();
    for fact in facts() {
        let Fate::Covered(by) = &fact.fate else { continue };
        // Common practice and our own sums have nobody to name; what stands beside the items is told in its own place.
        let unsourced = matches!(fact.strength, Strength::Practice | Strength::Proposal);
        let beside = unsourced || by.iter().any(|item| FIELDS.contains(item));
        if !beside && !by.iter().flat_map(|item| cites(item)).any(|cited| fact.from.contains(&cited)) {
            silent.push(format!("{} ({}) by {}", fact.id, fact.from.join(", "), by.join(", ")));
        }
    }
    assert!(silent.is_empty(), "\n{}", silent.join("\n"));
}
