//! A card of a course as it stands on the screen: what is done, what comes next, what never, and when it opens.

use crate::content::course::{CardAct, CardNever, CourseCard, Opens};
use crate::finding::Id;
use crate::finding::log::ticked;
use crate::phrase::{Text, course as phrase};
use crate::protocol::Protocol;
use crate::session::Session;
use crate::session::course::{current, first_open};
use crate::words::Reader;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

/// Where a line of a card stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineStanding {
    /// Ticked off.
    Done,
    /// The first that is not.
    Here,
    /// Not yet.
    Open,
}

/// A line of a card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardLine {
    /// The digit that ticks it.
    pub digit: usize,
    /// What is done.
    pub say: String,
    /// Whom to call, by name and number, where it is a call and the keeper wrote that down.
    pub call: Option<String>,
    /// When it was ticked off, by the reader's clock.
    pub at: Option<String>,
    /// Where it stands.
    pub standing: LineStanding,
    /// What is never done meanwhile.
    pub nevers: Vec<String>,
}

/// A card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardView {
    /// Its heading, and which of the cards it is.
    pub title: String,
    /// When it opens; nothing on one that is open.
    pub opens: Option<String>,
    /// What is read first.
    pub first: Option<String>,
    /// What is done.
    pub lines: Vec<CardLine>,
    /// What is never done.
    pub nevers: Vec<String>,
    /// What stands on every card.
    pub caution: String,
}

/// By what a card is known to be open, and its lines to be done.
#[derive(Clone, Copy, Debug)]
pub struct CardStanding<'a> {
    /// The protocol, by which lines have their names.
    pub protocol: &'a Protocol,
    /// What was ticked off, and when.
    pub ticked: &'a BTreeMap<Id, DateTime<Utc>>,
    /// The moment.
    pub now: DateTime<Utc>,
}

impl CardView {
    /// A card of some, as it stands now; nothing where there is no such card.
    pub fn of(cards: &[CourseCard], at: usize, standing: CardStanding, reader: Reader) -> Option<Self> {
        let CardStanding { protocol, ticked, now } = standing;
        let card = cards.get(at)?;
        let here = first_open(card, protocol, ticked);
        let nevers = |nevers: &[CardNever]| nevers.iter().map(|never| reader.say(&never.say)).collect();
        let line = |(nth, act): (usize, &CardAct)| {
            let when = ticked.get(&act.does.name(protocol));
            let standing = match (when, here) {
                (Some(_), _) => LineStanding::Done,
                (None, Some(here)) if here == nth => LineStanding::Here,
                (None, _) => LineStanding::Open,
            };
            CardLine {
                digit: nth + 1,
                say: reader.say(&act.say),
                call: act.call.as_ref().map(|call| reader.say(call)),
                at: when.map(|when| reader.say(&Text::clock_after(*when, Some(*when)))),
                standing,
                nevers: nevers(&act.nevers),
            }
        };
        let is_open = at <= current(cards, protocol, ticked) || card.opens_at.is_some_and(|at| at <= now);
        Some(Self {
            title: reader.phrase(&phrase::place(Text::from(card.of.heading()), at + 1, cards.len())),
            opens: (!is_open && card.opens != Opens::AtOnce).then(|| reader.phrase(&phrase::opens(card.opens.told()))),
            first: card.first.as_ref().map(|first| reader.say(first)),
            lines: card.acts.iter().enumerate().map(line).collect(),
            nevers: nevers(&card.nevers),
            caution: reader.phrase(&phrase::caution()),
        })
    }
}

/// The card that shows.
pub fn shown(session: &Session) -> Option<CardView> {
    let standing = CardStanding { protocol: session.protocol, ticked: &ticked(&session.log), now: session.now };
    CardView::of(&session.cards, session.card_at(&session.cards), standing, session.reader())
}
