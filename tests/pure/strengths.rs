//! The table of strengths: every family on every use, its bands against published lists, and that labels, sums, recipes, plans
//! and texts say nothing else.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, spliced};
use coopside::care::cupboard::Cupboard;
use coopside::care::label::strength::{Standing, printed};
use coopside::care::label::{Before, Given, Held, Ruled, on_behind, rule};
use coopside::care::{PlanStep, plan};
use coopside::judge::Target;
use coopside::phrase::Text;
use coopside::protocol::Protocol;
use coopside::protocol::strength::Family;
use coopside::protocol::substance::Ruling::{self, AskFirst, MayBeUsed, NotHere};
use coopside::prove::judge_bands;
use coopside::reckon::{Answer, Moment, ReckonError, reckon};
use coopside::typed::Household;
use coopside::unit::{Band, MilligramsPerLitre};
use coopside::words::{Reader, english};
use coopside::zone::Zone;
use coopside::{practice, shipped};
use proptest::prelude::*;
use std::fs;
use std::path::Path;

fn family(id: &str) -> &'static Family {
    PROTOCOL.family(id).unwrap_or_else(|| panic!("no family {id}"))
}

fn label(printed: &str, on: Option<&str>) -> Ruled<'static> {
    let on = on.map(|on| PROTOCOL.use_at(on).unwrap_or_else(|| panic!("no use {on}")));
    let held = Held { country: PROTOCOL.country("unset"), given: &Given::default(), on, before: None };
    rule(&PROTOCOL, printed, held)
}

fn text(printed: &str, on: Option<&str>) -> String {
    let ruled = label(printed, on);
    let told = coopside::content::label::sections(&PROTOCOL, PROTOCOL.country("unset"), &ruled, false);
    let told = coopside::render::text::sections(&Reader::english(Zone::UTC, PROTOCOL.no_country()).sections(told));
    // Where a line breaks means nothing here.
    told.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn sum(name: &str, values: &[(&str, &str)]) -> Result<Answer, ReckonError> {
    let values: Vec<_> = values.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
    let now = chrono::DateTime::UNIX_EPOCH;
    reckon(name, &values, &Moment { protocol: &PROTOCOL, now, zone: Zone::UTC, household: Household::Unknown })
}

fn line(answer: &Result<Answer, ReckonError>, what: &str) -> String {
    let answer = answer.as_ref().unwrap_or_else(|error| panic!("{}", english(error.told())));
    let found = answer.lines.iter().find(|line| english(line.what.clone()) == what);
    found.map(|line| english(line.told.clone())).unwrap_or_default()
}

const USES: [&str; 7] = ["wound", "hole", "burn", "skin", "nail", "feather", "eye"];

/// Each family on each use, in the order of [`USES`], with the name it is asked for by on a label.
///
/// Sources: disinfectants on open wounds, nothing that lathers, "nothing you would not put in an eye" (Vet Times 2015, horses,
/// read); rabbits' eyes harmed by skin disinfectants (Am J Ophthalmol 97:221, abstract read); nothing runs into a hole over an
/// air sac (Duerr and Gage, page 14, read); caustic styptic never on skin, feather or follicle (lay page, read), on nail and beak
/// with flour (Burge Bird Services, read); honey on wounds (dressings of military dogs, read); silver sulfadiazine as a thin film
/// (WSAVA 2017, read). Whole skin, and what stops no blood: common practice, no source.
const RULED: &[(&str, &str, [Ruling; 7])] = &[
    ("povidone_iodine", "povidone-iodine", [MayBeUsed, NotHere, NotHere, NotHere, NotHere, NotHere, NotHere]),
    ("chlorhexidine", "chlorhexidine", [MayBeUsed, NotHere, NotHere, NotHere, NotHere, NotHere, NotHere]),
    ("salt_water", "sodium chloride", [MayBeUsed, AskFirst, MayBeUsed, NotHere, MayBeUsed, MayBeUsed, AskFirst]),
    ("wound_honey", "medical honey", [MayBeUsed, NotHere, AskFirst, NotHere, NotHere, NotHere, NotHere]),
    ("styptic", "silver nitrate", [NotHere, NotHere, NotHere, NotHere, MayBeUsed, NotHere, NotHere]),
    ("starch", "cornstarch", [NotHere, NotHere, NotHere, NotHere, MayBeUsed, MayBeUsed, NotHere]),
    ("silver_cream", "silver sulfadiazine", [AskFirst, NotHere, AskFirst, NotHere, NotHere, NotHere, NotHere]),
    ("plain_iodine", "iodine", [NotHere; 7]),
];

#[test]
fn every_family_is_ruled_on_every_use() {
    let ids: Vec<&str> = PROTOCOL.uses.iter().map(|one| one.id.as_str()).collect();
    assert_eq!(ids, USES);
    assert_eq!(PROTOCOL.families.len(), RULED.len(), "a family that is not told here, or one that is gone");
    for (id, name, rulings) in RULED {
        let told: Vec<Ruling> = family(id).on.iter().map(|on| on.ruling).collect();
        assert_eq!(told, rulings, "{id}");
        for (on, expected) in USES.iter().zip(rulings) {
            let found = label(name, Some(on));
            assert_eq!(found.ruling, *expected, "{name} on {on}: {found:?}");
            let typed = format!("{name}, on: {on}");
            let (ingredients, at) = on_behind(&PROTOCOL, &typed);
            assert_eq!((ingredients, at), (*name, PROTOCOL.use_at(on)), "typed behind the ingredients");
        }
    }
    // A use nobody knows is no use: it rules as what nobody knows.
    let (all, on) = on_behind(&PROTOCOL, "silver nitrate, on: claws");
    assert_eq!((all, on), ("silver nitrate, on: claws", None));
    assert!(label(all, None).ruling >= Ruling::Unknown);
}

/// Bands against published figures. Chlorhexidine 0.05 % (Vet Times 2015, read; dogs, Vet Surg 17:291, abstract read; below it
/// germs live on, Vet Surg 17:182, abstract read), 1 part to 40 of 2 % = 0.0488 % counts (second-hand); povidone-iodine 0.05 %
/// (Vet Times), 0.1 and 1 % (dogs, Vet Surg 17:291), 0.1 to 1 % (surgery texts, from memory); salt 0.9 % (Vet Times).
#[test]
fn the_bands_are_the_published_ones() {
    let percent = |ten_thousandths: u64| MilligramsPerLitre(ten_thousandths);
    for (id, low, high, make, counts) in [
        ("chlorhexidine", 500, 500, 500, &[488, 500][..]),
        ("povidone_iodine", 500, 10_000, 1_000, &[500, 1_000, 10_000]),
        ("salt_water", 9_000, 9_000, 9_000, &[9_000, 8_550]),
    ] {
        let wanted = family(id).wanted().unwrap_or_else(|| panic!("{id} has no strength"));
        assert_eq!(wanted.published, Band { low: percent(low), high: percent(high) }, "{id}");
        assert_eq!(wanted.make, percent(make), "{id}");
        assert!(counts.iter().all(|one| wanted.right.holds(&percent(*one))), "{id}");
    }
    let others: Vec<(&str, u64)> = PROTOCOL
        .families
        .iter()
        .flat_map(|family| family.others.iter().map(|(at, _)| (family.id.as_str(), at.0)))
        .collect();
    // Am J Ophthalmol 97:221 (abstract read): scrubs of 7.5 % povidone-iodine and 4 % chlorhexidine, a tincture of 2 % iodine.
    assert_eq!(others, [("povidone_iodine", 75_000), ("chlorhexidine", 40_000), ("plain_iodine", 20_000)]);
}

/// Names for honey made for wounds: sterilised by gamma rays (J Pharm Pharmacol, Waikato, abstract read), of manuka
/// (Leptospermum) or another flower; of honeys on sale 18 of 29 held germs (Vet J 199:110, abstract read). The names
/// themselves: common practice, no source.
#[test]
fn honey_made_for_wounds_is_known_by_what_is_printed_beside_it() {
    for printed in [
        "medical manuka honey",
        "medical grade Leptospermum honey",
        "medical-grade Leptospermum scoparium honey",
        "100 % medical grade manuka honey",
        "Honey (medical grade)",
        "manuka honey, medical grade",
        "sterile manuka honey",
        "gamma-irradiated honey",
        "Medizinischer Honig",
        "miel de grado médico",
        "miel médical",
        "miele di grado medico",
        "medische honing",
    ] {
        assert_eq!(label(printed, None).ruling, MayBeUsed, "{printed}: {:?}", label(printed, None));
        assert_eq!(label(printed, Some("wound")).ruling, MayBeUsed, "{printed}");
        assert_eq!(label(printed, Some("eye")).ruling, NotHere, "{printed}");
    }
    for printed in [
        "honey",
        "organic forest honey",
        "raw honey",
        "manuka honey",
        "Leptospermum scoparium mel",
        "organic manuka honey",
        "Waldhonig",
        "honey, sterile water",
        "honey\nmedical grade glycerol",
        "honey, medical grade gauze",
        "sterile water, honey",
        "medical honey, calendula",
    ] {
        assert!(label(printed, None).ruling >= Ruling::Unknown, "{printed}: {:?}", label(printed, None));
        assert!(label(printed, Some("wound")).ruling >= Ruling::Unknown, "{printed}");
    }
    assert!(text("manuka honey", None).contains("sterile or medical grade"));
}

/// What may go on one place only is not put away for all; asked for that place it is ruled for it.
#[test]
fn a_styptic_is_told_for_the_nail_and_forbidden_elsewhere() {
    let told = text("silver nitrate", None);
    assert!(told.contains("ONLY on a nail or beak tip. NOT elsewhere.") && !told.contains("Put it away"), "{told}");
    let at = |what: &str| told.find(what).unwrap_or_else(|| panic!("no {what} in {told}"));
    assert!(at("An open wound: not") < at("A nail or beak tip: may be used"), "the strictest first: {told}");
    let nail = text("silver nitrate", Some("nail"));
    assert!(nail.contains("MAY BE USED on a nail or beak tip") && nail.contains("no vet has reviewed it"), "{nail}");
    let eye = text("silver nitrate", Some("eye"));
    assert!(eye.contains("NOT on an eye") && eye.contains("It may go on: a nail or beak tip"), "{eye}");
    assert!(text("zinc oxide", None).contains("Put it away"));
    assert!(text("hydrocortisone", Some("nail")).contains("NEVER on a bird."));
}

/// What is printed is held against the table, whatever unit it is printed in. Arithmetic: 10 mg/ml is 1 %.
#[test]
fn a_printed_strength_is_held_against_the_table() {
    for (label, milligrams) in [
        ("povidone-iodine 10 %", 100_000),
        ("povidone iodine 100 mg/ml", 100_000),
        ("chlorhexidine 40mg/ml", 40_000),
        ("chlorhexidine digluconate 20 g/l", 20_000),
        ("silver sulfadiazine 10 mg/g", 10_000),
        ("sodium chloride 0,9 g/100 ml", 9_000),
        ("sodium chloride 9 mg per ml", 9_000),
        ("chlorhexidine 500 ppm", 500),
        ("chlorhexidine 4 percent", 40_000),
    ] {
        assert_eq!(printed(label), Ok(Some(MilligramsPerLitre(milligrams))), "{label}");
    }
    assert_eq!(printed("glycerol"), Ok(None));
    for (product, standing, ruling) in [
        ("povidone-iodine 10 %", Standing::Stock, MayBeUsed),
        ("povidone-iodine 1 %", Standing::AsPublished, MayBeUsed),
        ("povidone-iodine 0.01 %", Standing::TooWeak, MayBeUsed),
        ("povidone-iodine 75 mg/ml", Standing::Stock, NotHere),
        ("chlorhexidine 2 %", Standing::Stock, MayBeUsed),
        ("chlorhexidine 40 mg/ml", Standing::Stock, NotHere),
        ("chlorhexidine 0.05 %", Standing::AsPublished, MayBeUsed),
        ("chlorhexidine 0.01 %", Standing::TooWeak, MayBeUsed),
        ("chlorhexidine", Standing::Untold, MayBeUsed),
        ("sodium chloride 9 mg/ml", Standing::AsPublished, MayBeUsed),
        ("sodium chloride 3 %", Standing::TooStrong, NotHere),
        ("sodium chloride 0.45 %", Standing::TooWeak, MayBeUsed),
    ] {
        let ruled = label(product, None);
        let part = ruled.parts.first().unwrap_or_else(|| panic!("{product}"));
        assert_eq!(part.strength.map(|(_, standing)| standing), Some(standing), "{product}");
        assert_eq!(ruled.ruling, ruling, "{product}");
    }
    let stock = text("povidone-iodine 10 %", None);
    assert!(stock.contains("thin it to 0.1 % first") && stock.contains("stock=10% target=0.1% make=500ml"), "{stock}");
    assert!(text("chlorhexidine 40 mg/ml", Some("wound")).contains("as a rule a scrub with soap"));
    assert!(text("chlorhexidine 0.01 %", None).contains("too weak to help. Published is 0.05 %"));
}

/// A strong name, a weak mix and a scrub are told by sums and recipes with the same words; the amounts stay what they are.
/// Arithmetic: 25 mL of 20 % in 500 mL is 5 g in 500 to 525 mL, 0.952 to 1 %.
#[test]
fn sums_and_recipes_rest_on_the_same_table() {
    let mix =
        |stock, target, name| sum("solution", &[("stock", stock), ("target", target), ("make", "1 l"), ("name", name)]);
    let scrub = mix("4%", "0.05%", "chlorhexidine");
    let told = line(&scrub, "for a wound");
    assert!(told.starts_with("NOT: ") && told.contains("as a rule a scrub with soap: not for wounds"), "{scrub:?}");
    assert_eq!(line(&scrub, "its strength"), "as is published: 0.05 %");
    assert_eq!((line(&scrub, "stock"), line(&scrub, "boiled, cooled water")), ("12.5 mL".into(), "987.5 mL".into()));
    let notes = scrub.map(|answer| english(Text::row(answer.notes))).unwrap_or_default();
    assert!(!notes.to_lowercase().contains("iodine") && notes.contains("Never near eye or ear"), "{notes}");
    for (stock, target, name, told) in [
        ("2%", "0.05%", "Chlorhexidin", "as is published: 0.05 %"),
        ("2%", "0.5%", "chlorhexidine", "STRONGER than the 0.05 % that is published for wounds: make it weaker"),
        ("2%", "0.01%", "chlorhexidine digluconate", "too weak to help: published is 0.05 %"),
        ("10%", "0.1%", "povidone-iodine", "as is published: 0.05 to 1 %"),
        ("10%", "2%", "PVP-Jod", "STRONGER than the 0.05 to 1 %"),
        ("10%", "0.01%", "povidone", "too weak to help: published is 0.05 to 1 %"),
        ("5%", "3%", "salt", "STRONGER than the 0.9 %"),
        ("2%", "0.1%", "iodine", "NOT: Iodine as it comes burns flesh"),
        ("2%", "0.1%", "silver nitrate", "NOT: A styptic"),
        ("2%", "0.1%", "pool disinfectant", "NOT: Most disinfectants"),
        (
            "2%",
            "0.05%",
            "a brand nobody knows",
            "UNCHECKED: for wounds povidone-iodine is 0.05 to 1 %, chlorhexidine is 0.05 %",
        ),
    ] {
        let found = line(&mix(stock, target, name), "for a wound");
        assert!(found.contains(told), "{name} {stock} to {target}: {found}");
    }
    // A bottle nobody named may be the scrub it is as strong as.
    let unnamed = sum("solution", &[("stock", "7.5%"), ("target", "0.1%"), ("make", "1 l")]);
    assert!(
        unnamed.is_ok_and(|answer| english(Text::row(answer.notes)).contains("Iodine of 7.5 % is as a rule a scrub"))
    );
    let recipe = |text: &str| sum("recipe", &[("recipe", text)]);
    let strong = recipe("25 ml of 20 % chlorhexidine in 500 ml");
    assert!(line(&strong, "for a wound").starts_with("STRONGER than the 0.05 %"), "{strong:?}");
    assert_eq!(line(&strong, "true strength, the stock"), "0.952 to 1 %");
    assert!(line(&recipe("1 ml of 2 % chlorhexidine in 1 l"), "for a wound").starts_with("too weak to help"));
    assert!(line(&recipe("25 ml of 2 % chlorhexidine in 1 l"), "for a wound").starts_with("as is published"));
    assert!(line(&recipe("12 ml of 4 % chlorhexidine in 1 l"), "for a wound").contains("scrub with soap"));
    assert!(line(&recipe("5 ml of 10 % in 500 ml"), "for a wound").starts_with("UNCHECKED"));
    let two = "5 ml of 10 % povidone-iodine + 5 ml of 2 % chlorhexidine in 500 ml";
    assert!(line(&recipe(two), "for a wound").contains("two stocks in one"));
    assert!(
        recipe("5 ml of 7.5 % iodine scrub in 1 l").is_err_and(|error| english(error.told()).contains("is refused"))
    );
}

/// What is never thinned for a wound: soap scrubs, iodine in alcohol, dips; peroxide, bleach, what is made for floors
/// (Vet Times 2015 and a page on flushing wounds, read; tars and bleach: common practice, no source).
#[test]
fn what_harms_however_thin_is_refused_by_its_name() {
    for name in [
        "surgical SCRUB",
        "iodine soap",
        "Detergent",
        "dog shampoo",
        "Iodine tincture",
        "chlorhexidine in alcohol",
        "surgical spirit",
        "teat dip",
        "udder wash",
        "dairy iodine",
        "sheep dip",
        "hydrogen peroxide",
        "bleach",
        "sodium hypochlorite",
        "phenol",
        "pine disinfectant",
        "tea tree oil",
        "creosote",
    ] {
        let found = sum("solution", &[("stock", "7.5%"), ("target", "1%"), ("make", "1 l"), ("name", name)]);
        assert!(found.is_err_and(|error| english(error.told()).contains("is refused")), "{name}");
    }
}

fn act_of(step: &PlanStep) -> Option<Target> {
    match step {
        PlanStep::Act(target, _) => Some(*target),
        PlanStep::Phone(_) => None,
    }
}

/// For every scripted bird: nothing her plan does with a supply goes on a wound on which the table forbids it, and the label of
/// that supply is ruled as her plan has it.
#[test]
fn no_plan_puts_a_thing_where_the_table_forbids_it() {
    let everything = "saline; povidone_iodine 10 %; chlorhexidine 2 %; silver_cream; honey; styptic; cornflour";
    let cupboards = ["", "chlorhexidine 2 %", "honey", "styptic", everything]
        .map(|list| Cupboard::read(&PROTOCOL, list).unwrap_or_else(|error| panic!("{error:?}")));
    let named: Vec<(String, &Family)> = PROTOCOL
        .substances
        .iter()
        .filter_map(|one| Some((one.names.first()?.join(" "), PROTOCOL.family_of(one)?)))
        .collect();
    let mut held = 0;
    for bird in shipped::scenarios() {
        let now = chrono::DateTime::UNIX_EPOCH;
        let read = practice::read(&PROTOCOL, &bird.name, &bird.text, now);
        let findings = read.unwrap_or_else(|faults| panic!("{}: {faults}", bird.name)).1;
        let verdict = judge_bands(&PROTOCOL, &findings, now);
        for cupboard in &cupboards {
            let plan = plan(&PROTOCOL, &verdict, cupboard, coopside::zone::Zone::UTC);
            let before = Before { findings: &findings, verdict: &verdict, plan: &plan };
            for target in plan.steps.iter().filter_map(act_of) {
                let acts = |name: &str| {
                    PROTOCOL
                        .substances
                        .iter()
                        .any(|one| one.act == Some(target.action) && one.names.iter().any(|n| n.join(" ") == name))
                };
                for (name, family) in named.iter().filter(|(name, _)| acts(name)) {
                    let given = Given::default();
                    let held_against =
                        Held { country: PROTOCOL.country("unset"), given: &given, on: None, before: Some(before) };
                    let ruled = rule(&PROTOCOL, name, held_against);
                    let general =
                        PROTOCOL.substances.iter().find(|one| family.of.contains(&one.id)).map(|one| one.ruling);
                    let expected = if general == Some(AskFirst) { AskFirst } else { MayBeUsed };
                    assert_eq!(ruled.ruling, expected, "{}: {name} for {:?}", bird.name, target.wound);
                    held += 1;
                }
            }
        }
    }
    assert!(held > 50, "{held} only");
}

/// The numbers with a percent sign in a text, and salt by the litre, as milligrams a litre.
fn figures(text: &str) -> Vec<u64> {
    let number = |before: &str| -> Option<u64> {
        let told = before.trim_end();
        let from = told.rfind(|c: char| !(c.is_ascii_digit() || c == '.')).map_or(0, |at| at + 1);
        let number: f64 = told.get(from..)?.parse().ok()?;
        format!("{:.0}", number * 10_000.0).parse().ok()
    };
    let percents = text.match_indices('%').filter_map(|(at, _)| number(&text[..at]));
    let salt = ["g of salt", "g in a litre", "g a litre", "g in 1 litre"];
    let salts = salt.into_iter().flat_map(|unit| text.match_indices(unit).filter_map(|(at, _)| number(&text[..at])));
    percents.chain(salts.map(|ten_thousand_grams| ten_thousand_grams / 10)).collect()
}

fn told_by(family: &Family) -> Vec<u64> {
    let wanted = family.on.iter().filter_map(|on| on.wanted.as_ref());
    let wanted = wanted.flat_map(|w| [w.published.low, w.published.high, w.make]);
    wanted.chain(family.others.iter().chain(&family.at_most).map(|(at, _)| *at)).map(|at| at.0).collect()
}

/// Every text in quotes of a file, with the line it begins on; comments left out.
fn quoted(text: &str) -> Vec<(usize, String)> {
    let kept = text.lines().map(|line| if line.trim_start().starts_with("//") { "" } else { line });
    let (mut found, mut line) = (Vec::new(), 1);
    for (at, piece) in kept.collect::<Vec<_>>().join("\n").split('"').enumerate() {
        if at % 2 == 1 {
            found.push((line, piece.split_whitespace().collect::<Vec<_>>().join(" ")));
        }
        line += piece.matches('\n').count();
    }
    found
}

/// Every strength that a protocol's texts tell is one of the table's; what does not name its family is one of some family's.
fn strangers(files: &[coopside::protocol::File], protocol: &Protocol) -> Vec<String> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.name != "sources.ron") {
        // A share in a condition is one of her blood, her water or her skin.
        let told = |(_, text): &(usize, String)| ![">=", "<"].iter().any(|sign| text.contains(sign));
        for (line, text) in quoted(&file.text).into_iter().filter(told) {
            let named: Vec<&Family> =
                protocol.known_in(&text).iter().filter_map(|read| protocol.family_of(read.substance)).collect();
            // Within the table a text is about its own family, whatever else it names.
            let all = if named.is_empty() || file.name == "strengths.ron" {
                protocol.families.iter().collect()
            } else {
                named
            };
            let known: Vec<u64> = all.iter().flat_map(|family| told_by(family)).collect();
            let strange = figures(&text).into_iter().filter(|figure| !known.contains(figure));
            found.extend(strange.map(|figure| format!("{}:{line}: {figure} mg a litre in {text:?}", file.name)));
        }
    }
    found
}

#[test]
fn no_text_tells_a_strength_the_table_does_not() {
    assert_eq!(figures("Salt of 0.9 %, 9 g of salt in 1 litre"), [9_000, 9_000]);
    let files = shipped::files();
    let all = strangers(&files, &PROTOCOL);
    assert!(all.is_empty(), "{}", all.join("\n"));
    let told: usize = files.iter().flat_map(|file| quoted(&file.text)).map(|(_, text)| figures(&text).len()).sum();
    assert!(told >= 15, "only {told} figures were found");
    // A figure that strays is found, wherever it stands.
    for (name, from, to) in [
        ("supplies.ron", "Thinned to 0.05 %", "Thinned to 0.5 %"),
        ("substances.ron", "Salt water of 0.9 %", "Salt water of 0.7 %"),
        ("actions.ron", "9 g of salt in 1 litre", "19 g of salt in 1 litre"),
        ("strengths.ron", "0.05 % for wounds; nothing", "0.04 % for wounds; nothing"),
    ] {
        let mut files = shipped::files();
        for file in files.iter_mut().filter(|file| file.name == name) {
            let Some(text) = spliced(&file.text, from, to) else { panic!("{name}: no {from}") };
            file.text = text;
        }
        assert_eq!(strangers(&files, &PROTOCOL).len(), 1, "{name}: {to}");
    }
}

/// No code carries a strength of its own: the table has them all. Left are a drink's salts, and examples of how one is typed.
#[test]
fn no_code_carries_a_strength() {
    let mut found = Vec::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap_or_else(|error| panic!("{error}")).flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{error}"));
            for (line, text) in quoted(&text) {
                let low = text.to_lowercase();
                let names = ["iod", "chlorhex", "salt", "wound"].iter().any(|name| low.contains(name));
                let example = text.starts_with('\'') || text.contains("for example");
                let drink = text.contains("as her drink") || text.contains("only water of poultry");
                // A citation says "in 100".
                let cited = text.replace(" in 100", " %");
                let known: Vec<u64> = PROTOCOL.families.iter().flat_map(told_by).collect();
                let all_known = text.contains(" in 100") && figures(&cited).iter().all(|figure| known.contains(figure));
                if names && !example && !drink && !all_known && !figures(&cited).is_empty() {
                    found.push(format!("{}:{line}: {text}", path.display()));
                }
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// Her own drinking comes first, and nobody drips water into her beak: what runs in runs into the windpipe (Duerr and Gage, page
/// 9, read, ducklings drink by themselves from a dish; the open windpipe: common practice, no source).
#[test]
fn fluids_begin_with_her_own_drinking() {
    let told = sum("fluids", &[("state", "awake"), ("weight", "2 kg"), ("dry", "8%")]);
    let home = line(&told, "at home");
    assert!(home.contains("dish") && home.contains("by herself") && home.contains("never pour"), "{home}");
    let whole = told.map(|answer| {
        let lines = answer.lines.into_iter().flat_map(|line| [line.what, line.told]);
        english(Text::row(lines.chain(answer.notes)))
    });
    let whole = whole.unwrap_or_default();
    assert!(!whole.contains("side of the beak") && !whole.contains("swallow each"), "{whole}");
    let trained = sum("fluids", &[("state", "awake"), ("weight", "2 kg"), ("dry", "8%"), ("hand", "trained")]);
    assert!(line(&trained, "TRAINED HAND, first by tube").contains("mL"));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(crate::common::count(800, 2000)) })]

    /// What may be used on some place is never guessed there: a slip of the pen makes nothing usable.
    #[test]
    fn a_slip_makes_nothing_usable_there(pick in any::<usize>(), at in any::<usize>(), letter in "[a-z]", on in prop::sample::select(USES.to_vec())) {
        let names: Vec<String> = PROTOCOL.substances.iter().filter(|one| one.ruling >= AskFirst)
            .flat_map(|one| one.names.iter().map(|name| name.join(" "))).collect();
        let mut letters: Vec<char> = names[pick % names.len()].chars().collect();
        let at = at % letters.len();
        letters[at] = letter.chars().next().unwrap_or('a');
        let slipped: String = letters.into_iter().collect();
        let exact = |ruled: &Ruled| ruled.parts.iter().all(|part| part.read_as.is_some_and(|read| read.by == coopside::care::label::By::Name));
        let ruled = label(&slipped, Some(on));
        prop_assert!(exact(&ruled) || ruled.ruling >= AskFirst, "{slipped} on {on}: {ruled:?}");
    }

    /// What is never used is never used anywhere, and what nobody knows stays unknown on every place.
    #[test]
    fn a_use_makes_nothing_harmful_usable(pick in any::<usize>(), on in prop::sample::select(USES.to_vec()), word in "[a-z]{4,12}") {
        let never: Vec<String> = PROTOCOL.substances.iter().filter(|one| one.ruling == Ruling::Never)
            .flat_map(|one| one.names.iter().map(|name| name.join(" "))).collect();
        prop_assert_eq!(label(&never[pick % never.len()], Some(on)).ruling, Ruling::Never);
        let unknown = label(&word, None);
        prop_assume!(unknown.ruling == Ruling::Unknown && unknown.parts.iter().all(|part| part.read_as.is_none()));
        prop_assert_eq!(label(&word, Some(on)).ruling, Ruling::Unknown, "{}", word);
    }
}
