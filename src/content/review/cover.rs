//! The first leaf of the packet: what it is, how it is filled in and sent back, what a form does and does not do; and the last.

use super::deadly::Soon;
use super::kept::Kept;
use super::{Packet, form};
use crate::content::booklet::{Ask, Begins, Chapter, Leaf};
use crate::content::document::{Item, Section, Tone, section};
use crate::phrase::{Phrase, Text, review as phrase};

/// How many words a minute a reader of dense text manages: common practice, no source.
const WORDS_A_MINUTE: usize = 200;
/// How long one decision takes, as a guess of ours. Seconds.
const DECISION_S: usize = 20;

/// The first leaf, for so many words to read.
pub fn cover(packet: &Packet, words: usize, kept: &Kept) -> Chapter<Text> {
    let missing = kept.missing(&packet.version).into_iter().map(Item::plain).collect();
    let sections = [
        told(phrase::heading_what(), what(packet, words)),
        told(phrase::heading_scales(), scales()),
        told(phrase::heading_how(), how()),
        told(phrase::heading_back(), back()),
        told(phrase::heading_does(), does(&packet.version)),
        section(phrase::heading_missing(), Tone::Plain, missing),
    ];
    let blanks = [phrase::role(), phrase::date(), phrase::signature()].map(Text::from);
    Chapter {
        id: "first".into(),
        heading: phrase::first().into(),
        intro: Vec::new(),
        leaves: vec![Leaf {
            id: "signed".into(),
            mark: String::new(),
            heading: phrase::for_a_vet().into(),
            rung: phrase::not_signed().into(),
            sections: sections.into_iter().flatten().collect(),
            ask: Some(Ask::Blanks(blanks.to_vec())),
        }],
        begins: Begins::OnAPage,
    }
}

fn told(heading: impl Into<Text>, lines: impl IntoIterator<Item = Phrase>) -> Option<Section<Text>> {
    section(heading, Tone::Plain, lines.into_iter().map(Item::plain).collect())
}

fn what(packet: &Packet, words: usize) -> [Phrase; 5] {
    let (birds, rules) = (packet.birds.len(), packet.entries().count() - packet.birds.len());
    let deciding = (birds + rules) * DECISION_S / 60;
    [
        phrase::what_program(),
        phrase::what_asked(),
        phrase::what_holds(birds, rules),
        phrase::what_left_out(packet.others),
        phrase::what_time(words / WORDS_A_MINUTE, WORDS_A_MINUTE, deciding),
    ]
}

const fn scales() -> [Phrase; 4] {
    [phrase::scale_need(), phrase::scale_no_vet(), phrase::scale_humane(), phrase::scale_authority()]
}

const fn how() -> [Phrase; 8] {
    [
        phrase::how_order(),
        phrase::how_marks(),
        phrase::how_judge(),
        phrase::how_names(),
        phrase::how_soon(),
        phrase::how_known(),
        phrase::how_doubt(),
        phrase::how_disagree(),
    ]
}

const fn back() -> [Phrase; 3] {
    [phrase::back_pen(), phrase::back_opinion(), phrase::back_screen()]
}

fn does(version: &str) -> [Phrase; 4] {
    [phrase::does_tell(Text::typed(version)), phrase::does_hold(), phrase::does_alter(), phrase::does_keep()]
}

/// How many lines there are to write on what is missing.
const MISSING_LINES: u8 = 4;

/// The last leaf: what should stand in the packet and does not.
pub fn missing() -> Chapter<Text> {
    let blanks = (1..=MISSING_LINES).map(|number| phrase::missing_line(number).into());
    Chapter {
        id: "last".into(),
        heading: phrase::last().into(),
        intro: Vec::new(),
        leaves: vec![Leaf {
            id: form::MISSING.into(),
            mark: String::new(),
            heading: phrase::missing().into(),
            rung: Text::default(),
            sections: told(Text::default(), [phrase::missing_what()]).into_iter().collect(),
            ask: Some(Ask::Blanks(blanks.collect())),
        }],
        begins: Begins::Below,
    }
}

/// The heading over a part of the rules.
pub const fn heading(soon: Soon) -> Phrase {
    match soon {
        Soon::End => phrase::heading_end(),
        Soon::Minutes => phrase::heading_minutes(),
        Soon::Hours => phrase::heading_hours(),
    }
}

/// Why rules stand in a part of the packet.
pub const fn why(soon: Soon) -> Phrase {
    match soon {
        Soon::End => phrase::why_end(),
        Soon::Minutes => phrase::why_minutes(),
        Soon::Hours => phrase::why_hours(),
    }
}
