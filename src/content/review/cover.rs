//! The first leaf of the packet: what it is, how it is filled in and sent back, what a form does and does not do; and the last.

use super::deadly::Soon;
use super::kept::Kept;
use super::{Packet, form};
use crate::content::booklet::{Ask, Begins, Chapter, Leaf};
use crate::content::document::{Item, Section, Tone, section};

/// How many words a minute a reader of dense text manages: common practice, no source.
const WORDS_A_MINUTE: usize = 200;
/// How long one decision takes, as a guess of ours. Seconds.
const DECISION_S: usize = 20;

/// The first leaf, for so many words to read.
pub fn cover(packet: &Packet, words: usize, kept: &Kept) -> Chapter {
    let (birds, rules) = (packet.birds.len(), packet.entries().count() - packet.birds.len());
    let minutes = words / WORDS_A_MINUTE;
    let deciding = (birds + rules) * DECISION_S / 60;
    let version = &packet.version;
    let what = [
        "Coopside is a program for keepers. It leads them through a check of a hurt hen, duck, goose, turkey, quail or guinea fowl, judges how bad it is and says what to do.".to_owned(),
        "No vet has reviewed any of it, and nobody has signed this packet. You are asked to judge it.".to_owned(),
        format!("It holds {birds} invented or published birds, chosen so that between them they show every rung of the three scales, and all {rules} rules of which a bird can die if they are wrong."),
        format!("Left out are {} rules that by that measure kill nobody within hours.", packet.others),
        format!("To read: about {minutes} minutes at {WORDS_A_MINUTE} words a minute. To decide: about {deciding} minutes more."),
    ];
    let scales = [
        "How soon, mildest first: none, care at home, vet within a day, vet within hours, vet at once.",
        "No vet in reach: the keeper says that no vet can see her within a day. Then the last three rungs are told as serious, grave and gravest.",
        "Humane end: not in question, may come into question, advised unless a vet can act in time, advised.",
        "Animal-health authority: no call, ask, call now.",
    ];
    let how = [
        "The gravest stands first: birds, then rules that speak of an end, then the deadliest. Stop whenever you like: what you marked counts, and a blank says nothing.",
        "Agree: let it stand as it is. Change: right in the main, and you say what is wrong. Reject: nobody should be told this.",
        "Judge what a lay person is told, alone with the bird: the order, the words, what is left out.",
        "B1 is a bird, R1 a rule. (B2) behind a line: it stands in full there. Capitals join the parts of a condition: AND, OR, NOT.",
        "[minutes] or [hours]: so soon it kills or maims, left out or, where it is forbidden, done.",
        "A finding was read in the source, read second-hand, is from memory, or common practice. Its advice is the source's own, or our inference. \"Borrowed\" names the birds or beasts a figure comes from.",
        "A keeper who cannot tell is held to the worst for need and for bans. That alone advises no treatment and no humane end.",
        "Where rules disagree a ban wins over an act, and the gravest rung over all others.",
    ];
    let back = [
        "By pen: fill in role and date, sign if you wish, and give all marked pages back to whoever gave you this.".to_owned(),
        "It asks for no opinion on any one bird in your care, and whatever you mark, no keeper is told that a vet stands behind it.".to_owned(),
        "On a screen: mark the boxes of the HTML, and print it. Whoever has the program copies your marks into the form that `coopside review --form ron` writes, and `coopside review --read FILE` takes it in.".to_owned(),
    ];
    let does = [
        format!("A form is told beside its items as \"a form says\", with role, date and protocol {version}."),
        "It holds for that version only, and is lost when its item changes.".to_owned(),
        "It alters no verdict and no caution: the program goes on saying that no vet has reviewed it.".to_owned(),
        "The program keeps a role and no name, on the machine where the form is read. Nothing is sent anywhere."
            .to_owned(),
    ];
    let missing = kept.missing(version);
    let sections = [
        section("WHAT THIS IS", Tone::Plain, what.map(Item::plain).to_vec()),
        section("THE THREE SCALES", Tone::Plain, scales.map(Item::plain).to_vec()),
        section("HOW TO FILL IT IN", Tone::Plain, how.map(Item::plain).to_vec()),
        section("HOW TO SEND IT BACK", Tone::Plain, back.map(Item::plain).to_vec()),
        section("WHAT A FORM DOES, AND DOES NOT", Tone::Plain, does.map(Item::plain).to_vec()),
        section("FORMS SAY IS MISSING", Tone::Plain, missing.into_iter().map(Item::plain).collect()),
    ];
    Chapter {
        id: "first".into(),
        heading: "READ THIS FIRST".into(),
        intro: Vec::new(),
        leaves: vec![Leaf {
            id: "signed".into(),
            mark: String::new(),
            heading: "For an avian vet with an evening to spare".into(),
            rung: "not signed by anybody yet".into(),
            sections: sections.into_iter().flatten().collect(),
            ask: Some(Ask::Blanks(vec!["Role (no name)", "Date", "Signature, if you wish"])),
        }],
        begins: Begins::OnAPage,
    }
}

/// The last leaf: what should stand in the packet and does not.
pub fn missing() -> Chapter {
    let text = "A sign that kills and is not asked for, an act that saves and is not told, a kind of bird it is wrong for: write it here.";
    let sections = vec![Section { heading: String::new(), tone: Tone::Plain, items: vec![Item::plain(text)] }];
    Chapter {
        id: "last".into(),
        heading: "LAST".into(),
        intro: Vec::new(),
        leaves: vec![Leaf {
            id: form::MISSING.into(),
            mark: String::new(),
            heading: "What is missing?".into(),
            rung: String::new(),
            sections,
            ask: Some(Ask::Blanks(vec!["Missing 1", "Missing 2", "Missing 3", "Missing 4"])),
        }],
        begins: Begins::Below,
    }
}

/// The heading over a part of the rules.
pub const fn heading(soon: Soon) -> &'static str {
    match soon {
        Soon::End => "RULES THAT SPEAK OF A HUMANE END",
        Soon::Minutes => "THE DEADLIEST RULES",
        Soon::Hours => "RULES DEADLY WITHIN HOURS",
    }
}

/// Why rules stand in a part of the packet.
pub const fn why(soon: Soon) -> &'static str {
    match soon {
        Soon::End => {
            "Here because each brings a humane end into question, or advises it. Of each part the firmest stands first."
        }
        Soon::Minutes => {
            "Here because each says \"vet at once\", or advises or forbids what kills or maims within minutes."
        }
        Soon::Hours => {
            "Here because each advises or forbids what kills or maims within hours, or calls the animal-health authority at once."
        }
    }
}
