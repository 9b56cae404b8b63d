//! What the law limits: the lines that touch a verdict, and a country's page.

use super::document::{self, Item, Section, Tone, section, upper_first};
use crate::care::Plan;
use crate::judge::Verdict;
use crate::protocol::raw::LawOn;
use crate::protocol::scale::{Authority, Need};
use crate::protocol::told::Country;

/// What the law limits in a matter.
pub fn limits(country: &Country, matters: &[LawOn]) -> Vec<Item> {
    let told = matters.iter().flat_map(|matter| country.on(*matter));
    told.map(|law| Item::with(&law.say, format!("{}, {} ({}).", law.law, law.dated, law.strength.words()), &[]))
        .collect()
}

/// All that ships of a country's law, for the page where it is chosen.
pub fn page(country: &Country) -> Vec<Section> {
    let all = |heading: &str, matter| section(heading, Tone::Plain, limits(country, &[matter]));
    let sections = [
        section("WHOSE LAW", Tone::Plain, vec![Item::plain(upper_first(&country.name))]),
        all("LIMITS ON A HUMANE END (a limit is never advice)", LawOn::HumaneEnd),
        all("WHO MAY TREAT", LawOn::Treating),
        all("EGGS AND MEAT AFTER MEDICINE", LawOn::EggsAndMeat),
        all("REPORTING", LawOn::Reporting),
        all("A DEAD BIRD", LawOn::Disposal),
        document::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// The matters of law a verdict touches; what limits a humane end stands with that text, and what bars eggs and meat with
/// the products that bar them.
pub fn matters(verdict: &Verdict, plan: &Plan) -> Vec<LawOn> {
    let treated = verdict.need.low >= Need::WithinADay;
    let reported = verdict.authority.low >= Authority::Ask;
    let matters = [
        (LawOn::Reporting, reported),
        (LawOn::Treating, treated),
        (LawOn::EggsAndMeat, treated && plan.withheld.is_empty()),
    ];
    matters.into_iter().filter(|(_, touched)| *touched).map(|(matter, _)| matter).collect()
}
