//! What is ruled of a product's ingredients, as a page and as JSON.

use super::document::{self, Item, Section, Tone, section};
use super::{terms, why};
use crate::care::label::strength::Standing;
use crate::care::label::{Because, By, EXAMPLE, Missing, OnUse, Part, Ruled};
use crate::phrase::{Phrase, Quantity, Text, label, percent_strength};
use crate::protocol::Protocol;
use crate::protocol::strength::Family;
use crate::protocol::substance::Ruling;
use crate::protocol::texts::{Country, LawOn};
use crate::unit::{Band, MilligramsPerLitre};

/// The ruling on the whole, then on each part, the strictest first; and what holds of eggs and meat.
pub fn sections(protocol: &Protocol, country: &Country, ruled: &Ruled, of_a_bird: bool) -> Vec<Section<Text>> {
    let (lead, more) = whole(protocol, ruled, of_a_bird);
    let whole = Item { lead, more: vec![more.into()], ..Item::default() };
    let by_vet = given(ruled);
    let eggs = super::law::limits(country, &[LawOn::EggsAndMeat]);
    let tone = match ruled.ruling {
        Ruling::Never | Ruling::NotHere => Tone::Never,
        Ruling::Carrier | Ruling::MayBeUsed | Ruling::AsTheVetWrote | Ruling::AskFirst | Ruling::Unknown => Tone::Plain,
    };
    let in_it = ruled.parts.iter().map(|part| item(protocol, part, ruled.ruling)).collect();
    let sections = [
        section(label::heading_product(), tone, std::iter::once(whole).chain(by_vet).collect()),
        section(label::heading_on_what(), Tone::Plain, on_what(protocol, ruled, of_a_bird)),
        section(label::heading_in_it(), Tone::Plain, in_it),
        section(label::heading_eggs(), Tone::Plain, eggs),
        document::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// The ruling on the whole, and what to do next. What may go on some place only is not put away for all.
fn whole(protocol: &Protocol, ruled: &Ruled, of_a_bird: bool) -> (Text, Phrase) {
    if ruled.given.is_whole() {
        let (lead, more) = given_verdict(ruled.ruling);
        return (lead.into(), more);
    }
    let general = next(ruled.ruling, of_a_bird);
    let name = |at| Text::quoted(protocol.use_name(at));
    let open = ruled.uses.iter().filter(|on| on.ruling == Ruling::MayBeUsed).map(|on| name(on.at));
    let open = Some(Text::list(open)).filter(|open| !open.is_empty());
    let (lead, more) = match (ruled.ruling, ruled.on.map(name), open) {
        (Ruling::NotHere, None, Some(open)) if !of_a_bird => (label::only_on(open), label::elsewhere_already()),
        (Ruling::NotHere, Some(on), None) => (label::not_on(on), general),
        (Ruling::NotHere, Some(on), Some(open)) => (label::not_on(on), label::leave_off_there(open)),
        (Ruling::MayBeUsed, Some(on), _) => (label::may_be_used_on(on), general),
        _ => (verdict(ruled.ruling), general),
    };
    (lead.into(), more)
}

/// On what it may be put and on what not, the strictest first; nothing where that is the same everywhere.
fn on_what(protocol: &Protocol, ruled: &Ruled, of_a_bird: bool) -> Vec<Item<Text>> {
    let same = ruled.uses.windows(2).all(|pair| matches!(pair, [one, next] if one.ruling == next.ruling));
    if same || of_a_bird || ruled.on.is_some() || ruled.given.is_whole() {
        return Vec::new();
    }
    let line = |on: &OnUse| {
        let name = Text::opening(Text::quoted(protocol.use_name(on.at)));
        let ruling = if on.ruling == Ruling::NotHere { label::not() } else { words(on.ruling) };
        Item::plain(match on.say.map(str::trim_end).filter(|say| !say.is_empty()) {
            Some(say) => label::on_place(name, ruling, Text::quoted(say)),
            None => label::on_place_alone(name, ruling),
        })
    };
    ruled.uses.iter().map(line).collect()
}

/// What the printed strength means by the table; nothing where it is not to be used anyway, or why it is refused is told.
pub fn strength(part: &Part) -> Option<Phrase> {
    let (family, (printed, standing)) = (part.family?, part.strength?);
    let wanted = family.wanted().filter(|_| part.because.is_none() && part.ruling <= Ruling::AskFirst)?;
    let percent = |strength: MilligramsPerLitre| Text::from(Quantity::strength(Band::exactly(strength)).signed());
    let published = Text::from(Quantity::strength(wanted.published).signed());
    let sum = sum(family, printed, wanted.make);
    let (make, printed) = (percent(wanted.make), printed.map(percent).unwrap_or_default());
    Some(match standing {
        Standing::Stock => label::stock(printed, make, published, sum),
        Standing::AsPublished => label::as_published(printed, published),
        Standing::TooStrong => label::too_strong(published, Text::quoted(&wanted.strong)),
        Standing::TooWeak => label::too_weak(printed, Text::quoted(&wanted.weak), published),
        Standing::Untold => label::no_strength(make, published),
    })
}

/// How the sum is asked for, as it is typed.
fn sum(family: &Family, stock: Option<MilligramsPerLitre>, target: MilligramsPerLitre) -> Text {
    let typed = |strength: MilligramsPerLitre| format!("{}%", percent_strength(strength));
    let (stock, target) = (stock.map(typed).unwrap_or_default(), typed(target));
    Text::typed(format!("stock={stock} target={target} make=500ml name={}", family.name))
}

/// A part as it is printed.
pub fn printed(part: &Part) -> Text {
    part.printed.as_ref().map_or_else(|| label::the_whole().into(), Text::typed)
}

fn item(protocol: &Protocol, part: &Part, whole: Ruling) -> Item<Text> {
    let Some(read) = part.read_as else {
        return Item::with(label::unknown(printed(part)), label::unknown_why(), &[]);
    };
    let substance = read.substance;
    // What is in the same bottle as worse is not used, however it is thinned: nothing of its own use is told.
    let spoilt = part.ruling < whole && whole > Ruling::AskFirst;
    let ruling = if spoilt && part.ruling > Ruling::Carrier { label::spoilt() } else { words(part.ruling) };
    let (name, ruling) = (Text::quoted(&substance.name), Text::opening(ruling));
    let lead = match read.by {
        By::Name => label::read_as(printed(part), name, ruling),
        By::Stem => label::read_by_stem(printed(part), name, ruling),
        By::Likeness => label::read_by_likeness(printed(part), name, ruling),
    };
    let rests = why::cite(protocol, substance.source, substance.strength);
    let rests = terms::rests_on(rests, substance.borrowed.as_deref());
    // What is said against a drug from the house is not said against a vet's.
    let say = part.say.filter(|_| part.ruling != Ruling::AsTheVetWrote && !spoilt);
    let note = part.family.filter(|family| say.is_some() && !family.note.is_empty());
    let more = part
        .because
        .iter()
        .map(because)
        .chain(say.map(Text::quoted))
        .chain(strength(part).filter(|_| !spoilt).map(Text::from))
        .chain(note.map(|family| Text::quoted(&family.note)))
        .collect();
    let table = part.family.into_iter().flat_map(|family| &family.rests).map(|rest| super::sum::rests(protocol, rest));
    let asked = std::iter::once(rests.into()).chain(table).collect();
    Item { lead: lead.into(), more, asked, ..Item::default() }
}

/// Why a part is not for her, or for which of her wounds it is.
pub fn because(because: &Because) -> Text {
    match because {
        Because::NoSuchStrength => label::because_no_such_strength().into(),
        Because::Refused(why) | Because::Forbidden(why) => Text::quoted(*why),
        Because::NotHerWound => label::because_not_her_wound().into(),
        Because::NotPlanned => label::because_not_planned().into(),
        Because::Only(wounds) => {
            let numbers = wounds.iter().map(|wound| terms::number(*wound));
            let all = numbers.reduce(|before, last| label::because_and(before, last).into());
            label::because_one_wound(all.unwrap_or_default()).into()
        }
        Because::Barred => label::because_barred().into(),
    }
}

/// A ruling in a few words.
pub const fn words(ruling: Ruling) -> Phrase {
    match ruling {
        Ruling::Carrier => label::carrier(),
        Ruling::MayBeUsed => label::may_be_used(),
        Ruling::AsTheVetWrote => label::as_vet_wrote(),
        Ruling::AskFirst => label::ask_first(),
        Ruling::Unknown => label::is_unknown(),
        Ruling::NotHere => label::not_here(),
        Ruling::Never => label::never(),
    }
}

const fn verdict(ruling: Ruling) -> Phrase {
    match ruling {
        Ruling::Never => label::verdict_never(),
        Ruling::NotHere => label::verdict_not_here(),
        Ruling::Carrier | Ruling::Unknown => label::verdict_unknown(),
        Ruling::AskFirst => label::verdict_ask_first(),
        Ruling::AsTheVetWrote => label::verdict_as_vet_wrote(),
        Ruling::MayBeUsed => label::verdict_may_be_used(),
    }
}

/// What is said of a product that a vet gave for this bird. Nothing is judged of a dose.
const fn given_verdict(ruling: Ruling) -> (Phrase, Phrase) {
    match ruling {
        Ruling::Never | Ruling::NotHere => (label::phone_the_vet(), label::harms_whoever_gave()),
        Ruling::Unknown => (label::phone_the_vet(), label::cannot_be_right()),
        Ruling::Carrier | Ruling::MayBeUsed | Ruling::AsTheVetWrote | Ruling::AskFirst => {
            (label::verdict_as_vet_wrote(), label::judges_no_dose())
        }
    }
}

/// Who gave it, when and for which bird; or what of it is not told, and that it is a leftover then.
fn given(ruled: &Ruled) -> Option<Item<Text>> {
    let told = &ruled.given;
    if let (Some(vet), Some(on), Some(bird)) = (&told.vet, told.on, &told.bird) {
        let [vet, on, bird] = [vet.clone(), on.to_string(), bird.clone()].map(Text::typed);
        return Some(Item::with(label::given_by(vet, on, bird), label::another_bird(), &[]));
    }
    let how = label::write_who(Text::typed(EXAMPLE));
    let drug = ruled.parts.iter().any(|part| part.read_as.is_some_and(|read| read.substance.by_vet));
    if told.is_told() {
        let missing = Text::list(told.missing().into_iter().map(missing));
        return Some(Item::with(label::leftover(missing), how, &[]));
    }
    drug.then(|| Item::with(label::from_the_house(), how, &[]))
}

/// What is not told of the vet who gave it.
pub const fn missing(missing: Missing) -> Phrase {
    match missing {
        Missing::Vet => label::missing_vet(),
        Missing::Day => label::missing_day(),
        Missing::Bird => label::missing_bird(),
    }
}

const fn next(ruling: Ruling, of_a_bird: bool) -> Phrase {
    match (ruling, of_a_bird) {
        (Ruling::Never | Ruling::NotHere, _) => label::next_put_away(),
        (Ruling::AskFirst, _) => label::next_ask_first(),
        (Ruling::AsTheVetWrote, _) => label::next_as_vet_wrote(),
        (Ruling::Carrier | Ruling::Unknown, _) => label::next_unknown(),
        (Ruling::MayBeUsed, true) => label::next_as_her_plan(),
        (Ruling::MayBeUsed, false) => label::next_only_where(),
    }
}
