//! The examination as a state machine: where it stands, what comes next, and how it resumes. It knows steps, not verdicts.
//!
//! Its whole state is the log of what a person did; everything else is worked out from that, so an examination cut off
//! at any moment goes on exactly there.

mod aside;
mod hands;
mod left;
mod look;
mod say;
mod timer;
mod told;

pub use aside::put_aside;
pub use hands::{Hands, hands};
pub use say::{
    answer, as_last_time, asks_after, began, cannot_tell_these, choose_sign, ended, graver_stands, none_of_the_rest,
    none_of_these, untold,
};
pub use timer::{Timer, asks_when_over, timer};
pub use told::taken_back;

use crate::bird::Kind;
use crate::finding::log::{self, Entry, Spot, Stamped};
use crate::finding::{About, Answer, Findings, Id};
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, ListAt, Step};
use crate::protocol::rule::{Instead, InstructionAt};
use crate::protocol::table::At;
use crate::sheet::{Doubt, Sheet, Subject, Truth};
use chrono::{DateTime, TimeDelta, Utc};
use look::Look;

/// Where the examination stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// An instruction fills the screen, since this moment.
    Instruction(InstructionAt, DateTime<Utc>),
    /// One question.
    Ask(Asked),
    /// Several questions on one screen.
    List(ListAt),
    /// "Is there a wound (more)?"
    Wounds,
    /// Every question has been asked, skipped or passed over.
    Done,
}

/// How far a step has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Progress {
    /// Questions of it still wait.
    Ahead,
    /// The place the examination stands at.
    Here,
    /// Nothing is left to ask.
    Done,
    /// Passed, with questions left open.
    LeftOpen,
}

/// An examination, seen at one moment.
#[derive(Clone, Debug)]
pub struct Exam<'p> {
    protocol: &'p Protocol,
    /// What has been found.
    pub findings: Findings,
    /// Where it stands.
    pub place: Place,
    /// Whether it was turned to out of order.
    pub turned: bool,
    /// The instruction that runs, also where a question that was turned to lies over it, and since when.
    pub running: Option<(InstructionAt, DateTime<Utc>)>,
    skipped: Vec<Spot>,
    /// The instruction that has just been carried out, and what is asked after it.
    followed: Option<Followed>,
    /// The instructions that have come on screen.
    shown: Vec<InstructionAt>,
    /// What is asked only once the clock of a step is over.
    when_over: Option<Spot>,
    /// The later look it stands in, if it does.
    look: Option<Look<'p>>,
    /// The findings laid out once. Whether a question applies knows no clock, so any moment will do.
    sheet: Sheet<'p>,
}

impl<'p> Exam<'p> {
    /// Works out the state from the log.
    pub fn from_log(protocol: &'p Protocol, log: &[Stamped]) -> Self {
        let standing = log::standing(log);
        let findings = log::findings(&standing);
        let skipped = standing.iter().filter_map(|stamped| match &stamped.entry {
            Entry::Skipped(spots) => Some(spots.clone()),
            _ => None,
        });
        let skipped = skipped.flatten().collect();
        // What was so a while ago is told from what was done last.
        let last = standing.last().map_or(DateTime::UNIX_EPOCH, |stamped| stamped.at);
        let sheet = Sheet::lay(protocol, &findings, last);
        let shown = standing.iter().filter_map(|stamped| match &stamped.entry {
            Entry::Began(id) => protocol.instructions.at(id.as_str()),
            _ => None,
        });
        let shown = shown.collect();
        let followed = Followed::of(protocol, &standing);
        let look = Look::of(protocol, &standing);
        let when_over = asks_when_over(protocol, log).map(|(_, spot)| spot);
        let (place, turned, running) = (Place::Done, false, None);
        let mut exam =
            Self { protocol, findings, place, turned, running, skipped, followed, shown, when_over, look, sheet };
        let turned = exam.turned_to(&standing);
        let running = exam.instruction(&standing);
        exam.turned = turned.is_some();
        exam.running = running.map(|(_, at, since)| (at, since));
        exam.place = match (running, turned) {
            // What is turned to while an instruction runs lies over it; answered, it leads back there.
            (Some((began, ..)), Some((at, place))) if at > began => place,
            (Some((_, at, since)), _) => Place::Instruction(at, since),
            (None, Some((_, place))) => place,
            (None, None) => exam.next(),
        };
        exam
    }

    /// The instruction that was begun last and has not ended, with its place in the log.
    fn instruction(&self, standing: &[&Stamped]) -> Option<(usize, InstructionAt, DateTime<Utc>)> {
        let mut begun: Vec<(usize, &Id, DateTime<Utc>)> = Vec::new();
        for (place, stamped) in standing.iter().enumerate() {
            match &stamped.entry {
                Entry::Began(id) => begun.push((place, id, stamped.at)),
                Entry::Ended(id) => begun.retain(|(_, before, _)| *before != id),
                _ => {}
            }
        }
        let known = |(place, id, at): (usize, &Id, DateTime<Utc>)| {
            self.protocol.instructions.at(id.as_str()).map(|instruction| (place, instruction, at))
        };
        begun.into_iter().rev().find_map(known)
    }

    /// What was turned to out of order and where in the log, while it has not been dealt with since.
    fn turned_to(&self, standing: &[&Stamped]) -> Option<(usize, Place)> {
        let turned = |stamped: &&Stamped| matches!(stamped.entry, Entry::Went(_) | Entry::Opened(_) | Entry::Turned(_));
        let last = standing.iter().rposition(turned)?;
        // A look begins with what matters now, not where the last one was left.
        if standing.iter().skip(last).any(|after| matches!(after.entry, Entry::LookBegan(_))) {
            return None;
        }
        let entry = &standing.get(last)?.entry;
        let (place, spots) = match entry {
            Entry::Went(Some(spot)) | Entry::Turned(spot) => (self.place_at(spot)?, vec![spot.clone()]),
            Entry::Opened(name) => {
                let signs = self.protocol.lists.at(name.as_str())?;
                let spots = self.signs(signs).into_iter().map(|asked| self.spot(asked));
                (Place::List(signs), spots.collect())
            }
            _ => return None,
        };
        let dealt_with = standing.iter().skip(last + 1).any(|stamped| match &stamped.entry {
            // A list that was opened stays until it is left: there may be a second sign.
            Entry::Said(_) if matches!(entry, Entry::Opened(_)) => false,
            Entry::Said(statements) => statements
                .iter()
                .any(|said| spots.iter().any(|spot| spot.about == said.about && spot.question == said.question)),
            Entry::FoundWound | Entry::LookedOver => place == Place::Wounds,
            Entry::Skipped(skipped) => skipped.iter().any(|spot| spots.contains(spot)),
            _ => false,
        });
        (!dealt_with && !spots.is_empty()).then_some((last, place))
    }

    /// The place a spot of the log stands for.
    fn place_at(&self, spot: &Spot) -> Option<Place> {
        if Some(spot) == self.wounds_spot().as_ref() {
            return Some(Place::Wounds);
        }
        let question = self.protocol.question_at(spot.question.as_str())?;
        Some(Place::Ask(Asked { about: spot.about, question }))
    }

    fn place_of(&self, asked: Asked) -> Place {
        self.protocol.ask(asked.question).list.map_or(Place::Ask(asked), Place::List)
    }

    /// Whether every question has been asked, skipped or passed over, whatever is turned to just now.
    pub fn is_through(&self) -> bool {
        self.next() == Place::Done
    }

    /// The first place that still waits, in head-to-tail order.
    fn next(&self) -> Place {
        let danger_signs = Place::List(self.protocol.roles.danger_signs);
        let mut wounds_done = false;
        for (at, question) in self.protocol.enumerated() {
            if !question.wound {
                let asked = Asked::of_bird(at);
                if self.waits(asked) {
                    let place = self.begun_list(question.step).map_or_else(|| self.place_of(asked), Place::List);
                    // A wound that has been found is asked about to its end before the rest goes on; the danger signs come first.
                    // A later look first sees how she is.
                    let of_wound = || self.wound_found().filter(|_| place != danger_signs && !self.is_look());
                    return of_wound().unwrap_or(place);
                }
            } else if !wounds_done {
                if let Some(place) = self.next_wound() {
                    return place;
                }
                wounds_done = true;
            }
        }
        Place::Done
    }

    /// The list of a step on which something was said in this sitting and something still waits: it is gone through before what
    /// its answers call for is asked.
    fn begun_list(&self, step: At<Step>) -> Option<ListAt> {
        let lists = self.protocol.questions.iter().filter(|question| question.step == step).filter_map(|q| q.list);
        lists.into_iter().find(|list| {
            let signs = self.signs(*list);
            signs.iter().any(|sign| self.waits(*sign)) && signs.iter().any(|sign| self.said_now(*sign).is_some())
        })
    }

    fn next_wound(&self) -> Option<Place> {
        let skipped = self.wounds_spot().is_some_and(|spot| self.skipped.contains(&spot));
        // A later look asks of the wounds that are known; the steps lead to more.
        let over = self.findings.looked_over() || skipped || self.is_look();
        self.wound_found().or_else(|| (!over).then_some(Place::Wounds))
    }

    /// What turns to the first place of a step that still waits; none where nothing of it does.
    pub fn first_waiting(&self, step: At<Step>) -> Option<Entry> {
        let of_wounds = self.protocol.questions.iter().any(|question| question.wound && question.step == step);
        let asked = self.questions_of(step).find(|asked| self.waits(*asked));
        match asked {
            Some(asked) => Some(match self.protocol.ask(asked.question).list {
                Some(list) => Entry::Opened(self.protocol.sign_list(list).id.clone()),
                None => Entry::Went(Some(self.spot(asked))),
            }),
            None if of_wounds && self.next_wound() == Some(Place::Wounds) => Some(Entry::Went(self.wounds_spot())),
            None => None,
        }
    }

    /// The first question that waits about a wound already found.
    fn wound_found(&self) -> Option<Place> {
        for wound in 0..self.findings.wounds() {
            for (at, _) in self.protocol.enumerated().filter(|(_, question)| question.wound) {
                let asked = Asked { about: About::Wound(wound), question: at };
                if self.waits(asked) {
                    return Some(self.place_of(asked));
                }
            }
        }
        None
    }

    /// The spot that stands for "any more wounds?": a question about wounds, asked of the bird.
    pub fn wounds_spot(&self) -> Option<Spot> {
        let first = self.protocol.questions.iter().find(|question| question.wound)?;
        Some(Spot { about: About::Bird, question: first.id.clone() })
    }

    /// Whether a question has no answer yet, may apply, and has not become pointless.
    fn is_wanted(&self, asked: Asked) -> bool {
        self.sheet.is_open(asked) && !self.sheet.is_moot(asked)
    }

    /// Whether it is asked at all of this bird, what could not be told counted as so.
    fn is_asked(&self, asked: Asked) -> bool {
        let asked_if = self.protocol.ask(asked.question).asked_if.as_ref();
        asked_if.is_none_or(|cond| self.sheet.in_doubt_too(cond, asked.about.into()))
    }

    fn waits(&self, asked: Asked) -> bool {
        let question = self.protocol.ask(asked.question);
        // Which leg it is, is asked only where a leg is known to be hurt; how it goes on, only where it was seen.
        let of_known = question.adds_to.is_some() || question.is_of_seen();
        self.waits_under(if of_known { Doubt::CountsAsUnmet } else { Doubt::CountsAsMet }, asked)
    }

    /// Whether it would wait only because what it asks about could not be told.
    fn waits_in_doubt(&self, asked: Asked) -> bool {
        let of_seen = self.protocol.ask(asked.question).is_of_seen();
        of_seen && !self.waits(asked) && self.waits_under(Doubt::CountsAsMet, asked)
    }

    fn waits_under(&self, doubt: Doubt, asked: Asked) -> bool {
        let question = self.protocol.ask(asked.question);
        if question.worked_out.is_some() || self.is_beside(asked) {
            return false;
        }
        // What only may apply, because the question before it was skipped, is left open with it.
        let applies = self.sheet.applies_under(doubt, asked.about.into(), asked.question) == Truth::Yes;
        // What needs a touch is passed over for a bird that may not bear it; it stays open, and the steps still lead there.
        let spared = || question.touches && self.spares_her();
        if !self.is_asked(asked) || self.when_over == Some(self.spot(asked)) {
            return false;
        }
        let wanted = match &self.look {
            None => self.is_wanted(asked) && !self.was_skipped(asked),
            Some(look) => look.wants(&self.spot(asked), asked) && !self.sheet.is_moot(asked),
        };
        applies && wanted && !spared()
    }

    /// Whether it is asked through a key while an instruction runs, and by itself never.
    fn is_beside(&self, asked: Asked) -> bool {
        self.protocol.instructions.iter().any(|instruction| instruction.beside == Some(asked.question))
    }

    /// The question that one key asks while the instruction runs, where it is known to apply.
    pub fn asks_beside(&self) -> Option<Asked> {
        let (running, _) = self.running?;
        let asked = Asked::of_bird(self.protocol.instruction(running).beside?);
        let applies = self.sheet.applies_under(Doubt::CountsAsUnmet, asked.about.into(), asked.question);
        (applies == Truth::Yes).then_some(asked)
    }

    /// What is passed over before the next place because what it asks about could not be told: nor can it.
    pub fn untold(&self) -> Vec<Asked> {
        let asked = self.protocol.enumerated().map(|(at, _)| Asked::of_bird(at));
        let before = asked.take_while(|asked| self.protocol.ask(asked.question).wound || !self.waits(*asked));
        before.filter(|asked| self.waits_in_doubt(*asked)).collect()
    }

    /// Whether a question may be turned to now: no bird is touched that may not bear it, and none is taken in the hand before
    /// she has been looked at from where one stands.
    pub fn may_be_asked(&self, asked: Asked) -> bool {
        let question = self.protocol.ask(asked.question);
        let in_hand = self.protocol.steps.of(question.step).hands_on;
        let too_early = in_hand && !self.may_take_in_hand();
        // Nobody is led to how a sign goes on that nobody has seen.
        let unseen = self.waits_in_doubt(asked);
        let spared = question.touches && self.spares_her();
        self.is_wanted(asked) && !too_early && !unseen && !spared
    }

    /// Whether the look-over for wounds may be turned to now.
    pub fn may_look_for_wounds(&self) -> bool {
        !self.findings.looked_over() && self.may_take_in_hand() && !self.spares_her()
    }

    fn may_take_in_hand(&self) -> bool {
        self.wants_hands() || self.place == Place::Done
    }

    /// The signs of a list that may apply to this bird; what has become pointless is not among them, unless it was answered.
    pub fn signs(&self, list: ListAt) -> Vec<Asked> {
        let asked = self.protocol.list(list).into_iter().map(Asked::of_bird);
        let stands = |asked: &Asked| !self.sheet.is_moot(*asked) || self.said_now(*asked).is_some();
        asked
            .filter(|asked| self.sheet.applies(asked.about.into(), asked.question) != Truth::No && stands(asked))
            .collect()
    }

    /// The instruction that fits her where this one is called up, by what was told of her before.
    pub fn fitting(&self, instruction: InstructionAt, about: About) -> InstructionAt {
        let fits = |instead: &&Instead| self.sheet.surely(&instead.when, about.into());
        self.protocol.instruction(instruction).instead.iter().find(fits).map_or(instruction, |instead| instead.by)
    }

    /// What stands as answer to a question.
    pub fn standing(&self, asked: Asked) -> Option<&Answer> {
        let id = &self.protocol.ask(asked.question).id;
        self.findings.answer(asked.about, id.as_str()).map(|said| &said.statement.answer)
    }

    /// The step the examination stands in; none once it is done.
    pub fn step(&self) -> Option<At<Step>> {
        let question = match &self.place {
            Place::Ask(asked) => Some(self.protocol.ask(asked.question)),
            Place::List(list) => self.protocol.questions.iter().find(|q| q.list == Some(*list)),
            Place::Wounds => self.protocol.questions.iter().find(|q| q.wound),
            Place::Instruction(..) | Place::Done => None,
        };
        question.map(|question| question.step)
    }

    /// How far every step has come, in order.
    pub fn progress(&self) -> Vec<Progress> {
        let here = self.step();
        self.protocol
            .steps
            .placed()
            .map(|(step, _)| {
                let (waiting, open) = self.questions_of(step).fold((false, false), |(waiting, open), asked| {
                    let open_too = || self.is_wanted(asked) && self.is_asked(asked) && !self.is_beside(asked);
                    (waiting || self.waits(asked), open || open_too())
                });
                let wounds = self.protocol.questions.iter().any(|q| q.wound && q.step == step);
                let wounds_open = wounds && !self.findings.looked_over();
                let wounds_wait = wounds && matches!(self.next_wound(), Some(Place::Wounds));
                match (here == Some(step), waiting || wounds_wait, open || wounds_open) {
                    (true, ..) => Progress::Here,
                    (_, true, _) => Progress::Ahead,
                    (_, _, true) => Progress::LeftOpen,
                    (..) => Progress::Done,
                }
            })
            .collect()
    }

    /// Every question of a step, asked of the bird or of each wound found.
    pub fn questions_of(&self, step: At<Step>) -> impl Iterator<Item = Asked> + '_ {
        let of_step = self.protocol.enumerated().filter(move |(_, question)| question.step == step);
        of_step.flat_map(|(at, question)| {
            let abouts = if question.wound {
                (0..self.findings.wounds()).map(About::Wound).collect()
            } else {
                vec![About::Bird]
            };
            abouts.into_iter().map(move |about| Asked { about, question: at })
        })
    }

    /// The spot of a question, for the log.
    pub fn spot(&self, asked: Asked) -> Spot {
        Spot { about: asked.about, question: self.protocol.ask(asked.question).id.clone() }
    }

    /// The bird's kind, once it was told.
    pub fn kind(&self) -> Option<Kind> {
        self.sheet.kind()
    }

    /// Whether she is so small that she is held in a fist rather than by her wings.
    pub fn fits_a_fist(&self) -> bool {
        matches!(self.kind(), Some(Kind::Chick | Kind::Quail))
    }

    /// Whether the bird should not be handled more than she must. Of the signs that tell it from afar, one that could not be
    /// told counts as seen; an eyelid not to be judged by lamplight does not end the look.
    pub fn spares_her(&self) -> bool {
        let Protocol { spare_when, spare_in_doubt, .. } = self.protocol;
        self.sheet.surely(spare_when, Subject::Bird) || self.sheet.in_doubt_too(spare_in_doubt, Subject::Bird)
    }

    /// Whether a question was skipped.
    pub fn was_skipped(&self, asked: Asked) -> bool {
        self.skipped.contains(&self.spot(asked))
    }

    /// Whether the place is one for which the bird has to be held.
    pub fn wants_hands(&self) -> bool {
        self.step().is_some_and(|step| self.protocol.steps.of(step).hands_on)
    }
}

/// The instruction that ended last, when it began, and what was turned to after it, while that has not been answered.
#[derive(Clone, Debug)]
struct Followed {
    did: InstructionAt,
    began: DateTime<Utc>,
    asks: Spot,
}

impl Followed {
    fn of(protocol: &Protocol, standing: &[&Stamped]) -> Option<Self> {
        let ended = standing.iter().rposition(|stamped| matches!(stamped.entry, Entry::Ended(_)))?;
        let mut after = standing.iter().skip(ended).map(|stamped| &stamped.entry);
        let (Some(Entry::Ended(did)), Some(Entry::Turned(asks))) = (after.next(), after.next()) else { return None };
        let answered = after.any(|entry| matches!(entry, Entry::Said(_)));
        let began = standing.iter().take(ended).rfind(|stamped| stamped.entry == Entry::Began(did.clone()))?.at;
        let did = protocol.instructions.at(did.as_str())?;
        (!answered).then(|| Self { did, began, asks: asks.clone() })
    }

    /// Whether it has been carried out by now: half a minute's pressing has not failed. The last moments are not waited for.
    fn is_done(&self, protocol: &Protocol, now: DateTime<Utc>) -> bool {
        let timer_s = protocol.instruction(self.did).timer_s.unwrap_or(0);
        now - self.began >= TimeDelta::seconds(i64::from(timer_s) * 4 / 5)
    }
}
