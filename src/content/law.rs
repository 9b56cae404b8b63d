//! What the law limits: the lines that touch a verdict, and a country's page.

use super::document::{Item, Section, Tone, section, upper_first};
use crate::care::Plan;
use crate::protocol::Protocol;
use crate::protocol::scale::{Authority, Need};
use crate::protocol::texts::{Country, Gap, Law, LawOn};
use crate::prove::Exact;
use serde_json::{Value, json};

/// What the law limits in some matters; where none was found that is told, and what holds meanwhile.
pub fn limits(country: &Country, matters: &[LawOn]) -> Vec<Item> {
    let told = |law: &Law| Item::with(&law.say, format!("{}, {} ({}).", law.law, law.dated, law.strength.words()), &[]);
    let of =
        |matter: &LawOn| country.on(*matter).map(told).chain(country.gaps_on(*matter).map(unknown)).collect::<Vec<_>>();
    matters.iter().flat_map(of).collect()
}

/// What is not known of a law, and the strictest that holds in its place.
fn unknown(gap: &Gap) -> Item {
    let holds: Vec<&str> = gap.holds.iter().map(|law| law.say.as_str()).collect();
    let lead = format!("Not known here: {}. What is strictest elsewhere holds: {}", gap.what, holds.join(" "));
    Item::with(lead, format!("Looked for in {}; not found. Ask locally.", gap.looked), &[])
}

/// The same as JSON: the laws, and what is not known of them.
pub fn json(protocol: &Protocol, country: &Country, matters: &[LawOn]) -> (Value, Value) {
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

/// Why no number to call ships, and where it is found.
const NUMBER: &str = "No number to call stands here: they change. Look up your country's animal-health authority today, or ask \
    any vet for it, and write it down with your own numbers.";

/// All that ships of a country's law, for the page where it is chosen.
pub fn page(country: &Country) -> Vec<Section> {
    let all = |heading: &str, matter| section(heading, Tone::Plain, limits(country, &[matter]));
    let sections = [
        section("WHOSE LAW", Tone::Plain, vec![Item::plain(upper_first(&country.name))]),
        all("LIMITS ON A HUMANE END (a limit is never advice)", LawOn::HumaneEnd),
        all("WHO MAY TREAT", LawOn::Treating),
        all("EGGS AND MEAT AFTER MEDICINE", LawOn::EggsAndMeat),
        section("REPORTING", Tone::Plain, [limits(country, &[LawOn::Reporting]), vec![Item::plain(NUMBER)]].concat()),
        all("A DEAD BIRD", LawOn::Disposal),
        crate::content::old::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// The matters of law a verdict touches; what limits a humane end stands with that text, and what bars eggs and meat with
/// the products that bar them.
pub fn matters(verdict: &Exact, plan: &Plan) -> Vec<LawOn> {
    let treated = verdict.need.low >= Need::WithinADay;
    let reported = verdict.authority.low >= Authority::Ask;
    let matters = [
        (LawOn::Reporting, reported),
        (LawOn::Treating, treated),
        (LawOn::EggsAndMeat, treated && plan.withheld.is_empty()),
    ];
    matters.into_iter().filter(|(_, touched)| *touched).map(|(matter, _)| matter).collect()
}
