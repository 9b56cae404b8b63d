//! The law of a country as JSON: what it limits, and what is not known of it.

use crate::protocol::Protocol;
use crate::protocol::texts::{Country, Law, LawOn};
use serde_json::{Value, json};

/// The laws on some matters, and what is not known of them with the strictest that holds meanwhile.
pub(super) fn law(protocol: &Protocol, country: &Country, matters: &[LawOn]) -> (Value, Value) {
    let of = |law: &Law| {
        json!({
            "on": law.on, "limits": law.limits, "say": law.say, "law": law.law, "dated": law.dated,
            "source": protocol.source_id(law.source), "strength": law.strength,
        })
    };
    let laws = country.laws.iter().filter(|law| matters.contains(&law.on)).map(of);
    let gaps = country.gaps.iter().filter(|gap| matters.contains(&gap.on)).map(|gap| {
        let holds: Vec<_> = gap.holds.iter().map(of).collect();
        json!({ "on": gap.on, "what": gap.what, "looked_for_in": gap.looked, "holds": holds })
    });
    (laws.collect(), gaps.collect())
}
