//! What the law limits: the lines that touch a verdict, and a country's page.

use super::document::{self, Item, Section, Tone, section};
use super::terms;
use crate::care::Plan;
use crate::phrase::{Phrase, Text, law as phrase};
use crate::protocol::scale::{Authority, Need};
use crate::protocol::texts::{Country, Gap, Law, LawOn};
use crate::prove::Exact;

/// What the law limits in some matters; where none was found that is told, and what holds meanwhile.
pub fn limits(country: &Country, matters: &[LawOn]) -> Vec<Item<Text>> {
    let of =
        |matter: &LawOn| country.on(*matter).map(told).chain(country.gaps_on(*matter).map(unknown)).collect::<Vec<_>>();
    matters.iter().flat_map(of).collect()
}

/// What a law says, and which one it is.
fn told(law: &Law) -> Item<Text> {
    let cited = phrase::cited(Text::quoted(&law.law), Text::quoted(&law.dated), terms::strength(law.strength));
    Item::with(Text::quoted(&law.say), cited, &[])
}

/// What is not known of a law, and the strictest that holds in its place.
fn unknown(gap: &Gap) -> Item<Text> {
    let holds = Text::row(gap.holds.iter().map(|law| Text::quoted(&law.say)));
    let lead = phrase::not_known(Text::quoted(&gap.what), holds);
    Item::with(lead, phrase::looked_for(Text::quoted(&gap.looked)), &[])
}

/// All that ships of a country's law, for the page where it is chosen.
pub fn page(country: &Country) -> Vec<Section<Text>> {
    let all = |heading: Phrase, matter| section(heading, Tone::Plain, limits(country, &[matter]));
    let name = Item::plain(Text::opening(Text::quoted(&country.name)));
    let reporting = [limits(country, &[LawOn::Reporting]), vec![Item::plain(phrase::no_number())]].concat();
    let sections = [
        section(phrase::heading_whose(), Tone::Plain, vec![name]),
        all(phrase::heading_humane(), LawOn::HumaneEnd),
        all(phrase::heading_treating(), LawOn::Treating),
        all(phrase::heading_eggs(), LawOn::EggsAndMeat),
        section(phrase::heading_reporting(), Tone::Plain, reporting),
        all(phrase::heading_dead(), LawOn::Disposal),
        document::caution(country),
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
