//! How a course is laid out on cards: what harms soonest first, acts in the order of doing, a ban beside the act it is broken by.

use super::{CardAct, CardNever, CardOf, CourseCard, Does, Opens};
use crate::care::contacts::{Contacts, needed};
use crate::care::course::{BanEnd, CourseBan, CourseTest, DAY, Stage, StagePlan, StagedPlan};
use crate::care::timetable::Look;
use crate::care::{Plan, PlanStep};
use crate::content::document;
use crate::content::plan::going_on;
use crate::content::together::{Said, of_some, together};
use crate::judge::Target;
use crate::phrase::{Phrase, Text, course as phrase};
use crate::protocol::Protocol;
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::Authority;
use crate::protocol::texts::{OnCard, Under};
use crate::protocol::whom::Whom;
use crate::prove::Exact;
use crate::words::Reader;
use chrono::{DateTime, Utc};
use std::slice;

/// Lays out cards for one bird.
pub struct CardLayout<'a> {
    pub protocol: &'a Protocol,
    pub verdict: &'a Exact,
    pub plan: &'a Plan,
    pub contacts: &'a Contacts,
    pub course: &'a StagedPlan,
    pub reader: Reader<'a>,
}

/// A ban that has not found its card yet.
pub(super) struct Loose {
    pub(super) never: CardNever,
    /// Whether it has to stand on this stage's cards.
    must: bool,
}

impl CardLayout<'_> {
    /// Every card, in the order they open.
    pub fn cards(&self) -> Vec<CourseCard> {
        let mut cards = Vec::new();
        let mut told = OnCards::default();
        for (at, stage) in self.course.stages.iter().enumerate() {
            cards.extend(self.stage(stage, self.course.stages.get(at + 1..).unwrap_or_default(), &mut told));
        }
        cards.extend(self.plan.humane.map(|rung| self.humane(rung)));
        let authority = self.verdict.authority.low;
        cards.extend((authority > Authority::None).then(|| self.authority(authority)));
        cards
    }

    /// The cards of a stage: what must stand on it, then what comes next as far as there is room.
    fn stage(&self, stage: &StagePlan, after: &[StagePlan], told: &mut OnCards) -> Vec<CourseCard> {
        let mut loose = self.loose(&stage.bans, true, told);
        let acts = self.acts(stage).filter(|act| !told.has(act)).chain(self.tests(stage)).collect::<Vec<_>>();
        if stage.stage == Stage::Now {
            // The first card holds what comes next, too, where there is room: nobody turns a page without need.
            let next = after.iter().take(1).flat_map(|next| self.loose(&next.bans, false, told));
            loose.extend(next);
        } else {
            // What harms in days alone is mostly done in the first hours.
            loose.extend(after.iter().flat_map(|later| self.loose(&later.bans, false, told)));
        }
        let (mut cards, mut loose) = self.laid(stage.stage, acts, loose);
        if stage.stage == Stage::Now {
            self.fill(&mut cards, after, &mut loose, told);
        } else if cards.last().is_some_and(|card| !card.acts.is_empty()) {
            self.fill_bans(&mut cards, loose);
        }
        self.share(&mut cards);
        told.add(&cards);
        cards.retain(|card| stage.stage == Stage::Now || !card.acts.is_empty() || !card.nevers.is_empty());
        let count = cards.len();
        for (number, card) in (1..).zip(&mut cards) {
            card.number = (number, count);
            if number == 1 && stage.stage == Stage::Now && card.acts.is_empty() {
                card.first = Some(phrase::nothing().into());
            }
            card.words = self.words(card);
        }
        cards
    }

    /// What must stand, on as few cards as hold it; what may follow is given back.
    fn laid(&self, stage: Stage, acts: Vec<CardAct>, mut loose: Vec<Loose>) -> (Vec<CourseCard>, Vec<Loose>) {
        let mut cards = vec![self.opening(stage)];
        for act in acts {
            self.place(&mut cards, act, &mut loose, true);
        }
        for ban in loose.extract_if(.., |ban| ban.must).collect::<Vec<_>>() {
            self.place_ban(&mut cards, ban.never);
        }
        (cards, loose)
    }

    /// A card of bans alone is never ticked off, so that nobody comes by it: as long as another has acts to spare, each card gets
    /// one. Their order stays.
    fn share(&self, cards: &mut Vec<CourseCard>) {
        let bare: Vec<usize> = (0..cards.len()).filter(|at| is_bare(cards, *at)).collect();
        for at in bare {
            let spare = |from: &usize| cards.get(*from).is_some_and(|card| card.acts.len() > 1);
            let before = (0..at).rev().filter(spare).map(|from| handed_on(cards, from, at));
            let after = (at + 1..cards.len()).filter(spare).map(|from| handed_back(cards, from, at));
            let shared = before.chain(after).find(|shared| shared.iter().all(|card| self.holds(card)));
            if let Some(shared) = shared {
                *cards = shared;
            }
        }
    }

    /// Whether a card holds no more than it may.
    fn holds(&self, card: &CourseCard) -> bool {
        let most = card.of.budget();
        let few = card.acts.len() <= most.acts && card.bans() <= most.bans;
        few && self.words(card) <= most.words && self.rows(card) <= PHONE_ROWS
    }

    /// What is done in a stage: its steps, and what else belongs to it.
    fn acts<'s>(&'s self, stage: &'s StagePlan) -> impl Iterator<Item = CardAct> + 's {
        stage
            .acts
            .iter()
            .map(|act| self.step(&act.step))
            .chain(self.meanwhile(stage.stage))
            .chain(self.told(stage.stage))
    }

    /// Fills the first card with what comes next, in the order of doing, until something does not fit.
    fn fill(&self, cards: &mut Vec<CourseCard>, after: &[StagePlan], loose: &mut Vec<Loose>, told: &OnCards) {
        for next in after {
            // What harms in days alone waits for its stage, unless nothing at all would stand here.
            let soon = matches!(next.stage, Stage::UntilSeen | Stage::NextHours);
            let bare = || cards.iter().all(|card| card.acts.is_empty());
            if !(soon || bare()) {
                continue;
            }
            for act in self.acts(next).filter(|act| !told.has(act)) {
                if !self.place(cards, act, loose, false) {
                    return;
                }
            }
        }
        self.fill_bans(cards, std::mem::take(loose));
    }

    /// Fills the last card with bans while there is room.
    fn fill_bans(&self, cards: &mut [CourseCard], loose: Vec<Loose>) {
        let Some(card) = cards.last_mut() else { return };
        for ban in loose {
            if self.takes(card, None, slice::from_ref(&ban.never.say)) {
                card.nevers.push(ban.never);
            }
        }
    }

    /// Puts an act on the last card with the bans it is broken by; on a new card where it must stand and does not fit.
    pub(super) fn place(
        &self,
        cards: &mut Vec<CourseCard>,
        mut act: CardAct,
        loose: &mut Vec<Loose>,
        must: bool,
    ) -> bool {
        let action = match act.does {
            Does::Act(target) => Some(target.action),
            Does::Phone(_) | Does::Test(_) | Does::Look(_) | Does::Told(_) => None,
        };
        let said = |act: &CardAct| act.nevers.iter().map(|never| never.say.clone()).collect::<Vec<Text>>();
        let Some(last) = cards.last() else { return false };
        if !self.takes(last, Some(&act), &said(&act)) {
            if !must {
                return false;
            }
            let next = Self::card(last.of, last.opens, last.opens_at);
            cards.push(next);
        }
        let Some(card) = cards.last_mut() else { return false };
        if let Some(action) = action {
            // A ban that found its room alone moves to the act it is broken by.
            act.nevers.extend(card.nevers.extract_if(.., |never| self.is_beside(never, action)));
            for ban in std::mem::take(loose) {
                let beside: Vec<Text> = said(&act).into_iter().chain([ban.never.say.clone()]).collect();
                if self.is_beside(&ban.never, action) && self.takes(card, Some(&act), &beside) {
                    act.nevers.push(ban.never);
                } else {
                    loose.push(ban);
                }
            }
        }
        card.acts.push(act);
        true
    }

    /// Whether a ban is broken while an act is done.
    fn is_beside(&self, never: &CardNever, action: ActionAt) -> bool {
        let forbidden = never.target.and_then(|target| self.protocol.action(target.action).forbidden.as_ref());
        forbidden.is_some_and(|ban| ban.beside.contains(&action))
    }

    /// Puts a ban on the first card that has room for it, else on a new one.
    fn place_ban(&self, cards: &mut Vec<CourseCard>, ban: CardNever) {
        let room = cards.iter().position(|card| self.takes(card, None, slice::from_ref(&ban.say)));
        if let Some(card) = room.and_then(|at| cards.get_mut(at)) {
            card.nevers.push(ban);
        } else if let Some(last) = cards.last() {
            let mut next = Self::card(last.of, last.opens, last.opens_at);
            next.nevers.push(ban);
            cards.push(next);
        }
    }

    /// Whether a card has room for an act, where there is one, and some bans. Whom to call takes rows and no words.
    pub(super) fn takes(&self, card: &CourseCard, act: Option<&CardAct>, bans: &[Text]) -> bool {
        let most = card.of.budget();
        let say = act.map(|act| &act.say);
        let call = act.and_then(|act| act.call.as_ref());
        let words = say.into_iter().chain(bans).map(|text| self.count(text)).sum::<usize>();
        let rows = say.into_iter().chain(call).chain(bans).map(|text| self.rows_of(text)).sum::<usize>();
        card.acts.len() + usize::from(act.is_some()) <= most.acts
            && card.bans() + bans.len() <= most.bans
            && self.words(card) + words <= most.words
            && self.rows(card) + rows <= PHONE_ROWS
    }

    /// How many rows a card takes on a phone, its heading and caution apart.
    fn rows(&self, card: &CourseCard) -> usize {
        let acts = card.acts.iter().flat_map(|act| [Some(&act.say), act.call.as_ref()]).flatten();
        let nevers = card.all_nevers().map(|never| &never.say);
        card.first.iter().chain(acts).chain(nevers).map(|text| self.rows_of(text)).sum()
    }

    /// How many rows a text takes on a phone, broken as the screen breaks it.
    fn rows_of(&self, text: &Text) -> usize {
        textwrap::wrap(&self.reader.say(text), PHONE_LETTERS).len()
    }

    pub(super) const fn card(of: CardOf, opens: Opens, opens_at: Option<DateTime<Utc>>) -> CourseCard {
        CourseCard { of, number: (1, 1), opens, opens_at, first: None, acts: Vec::new(), nevers: Vec::new(), words: 0 }
    }

    /// An empty card of a stage.
    fn opening(&self, stage: Stage) -> CourseCard {
        let opens = self.opens(stage);
        // The day after begins as long after the last answer as a day lasts: nobody is woken at midnight.
        let at = (opens == Opens::Tomorrow).then(|| self.verdict.answered_at + DAY);
        Self::card(CardOf::Stage(stage), opens, at)
    }

    const fn opens(&self, stage: Stage) -> Opens {
        match (stage, self.plan.seen) {
            (Stage::Now, _) => Opens::AtOnce,
            (Stage::UntilSeen | Stage::NextHours | Stage::Today, _) => Opens::Ticked,
            (Stage::Days, true) => Opens::Back,
            (Stage::Days, false) => Opens::Tomorrow,
        }
    }

    /// A step as a line of a card.
    pub(super) fn step(&self, step: &PlanStep) -> CardAct {
        let does = match step {
            PlanStep::Act(target, _) => Does::Act(*target),
            PlanStep::Phone(phone) => Does::Phone(*phone),
        };
        let say = step.say(self.protocol, self.verdict, self.plan);
        let fitting = &self.verdict.fitting;
        let (more, target) = match step {
            PlanStep::Act(target, _) => (fitting.on_card(self.protocol, *target), *target),
            PlanStep::Phone(_) => ("", Target { action: self.protocol.roles.phone, wound: None }),
        };
        let hands = fitting.hands(self.protocol, target).map(Text::quoted);
        let say = [say, Text::quoted(more)].into_iter().chain(hands);
        CardAct { call: self.call(step), ..CardAct::plain(does, Text::row(say)) }
    }

    /// Whom a step phones, by name and number as the keeper wrote it down: of two vets the one who is asked for first.
    fn call(&self, step: &PlanStep) -> Option<Text> {
        let whom = match step {
            PlanStep::Act(target, _) => self.protocol.action(target.action).phones?,
            PlanStep::Phone(_) => Whom::Vet,
        };
        let said = match whom {
            Whom::Authority => self.contacts.of(whom),
            Whom::Vet | Whom::EmergencyVet => {
                let asked = needed(self.verdict).into_iter().chain([Whom::Vet, Whom::EmergencyVet]);
                asked.filter(|whom| *whom != Whom::Authority).find_map(|whom| self.contacts.of(whom))
            }
        };
        said.map(Text::typed)
    }

    /// What is done meanwhile where an act waits for an answer: before a vet sees her, or in the next hours.
    fn meanwhile(&self, stage: Stage) -> Vec<CardAct> {
        if !matches!(stage, Stage::UntilSeen | Stage::NextHours) {
            return Vec::new();
        }
        let waits = self.plan.waiting.iter().map(|waiting| waiting.target);
        let mut acts: Vec<CardAct> = Vec::new();
        for target in waits.chain(self.plan.later.iter().map(|(target, _)| *target)) {
            let say = self.protocol.action(target.action).meanwhile.as_str();
            let act = CardAct::plain(Does::Act(target), Text::quoted(say));
            if !say.is_empty() && !acts.iter().any(|before| before.say == act.say) {
                acts.push(act);
            }
        }
        acts
    }

    /// How she travels, what people who touch her do, and what to listen for in the days after.
    fn told(&self, stage: Stage) -> impl Iterator<Item = CardAct> {
        let under = match stage {
            Stage::Now | Stage::Today => [].as_slice(),
            Stage::UntilSeen => &[Under::People, Under::OnTheWay],
            Stage::NextHours => &[Under::People],
            Stage::Days => &[Under::DaysAfter],
        };
        let told = document::all_told(self.protocol, self.verdict).filter(|(_, told)| under.contains(&told.under));
        told.filter_map(|(at, paragraph)| match &paragraph.card {
            Some(OnCard::Do(say)) => Some(CardAct::plain(Does::Told(at), Text::quoted(say))),
            Some(OnCard::Say(_) | OnCard::Never(_)) | None => None,
        })
    }

    /// The tests that come due in a stage, and its first look.
    fn tests(&self, stage: &StagePlan) -> Vec<CardAct> {
        let hours = matches!(stage.stage, Stage::UntilSeen | Stage::NextHours);
        let timed = |does, say: Phrase, at| CardAct { at: Some(at), ..CardAct::plain(does, say.into()) };
        let looks = if stage.stage == Stage::UntilSeen { phrase::look_unseen } else { phrase::look };
        let look = self.plan.looks.first().filter(|_| hours);
        let look =
            look.map(|look| timed(Does::Look(look.at), looks(self.clock(look.at), self.looked_at(look)), look.at));
        let tests = self.course.tests.iter().filter(|test| test.stage == stage.stage);
        let test = |test: &CourseTest| {
            // Whoever is on the way to a vet offers nothing.
            let told = if test.stage == Stage::UntilSeen { phrase::at_unseen } else { phrase::at };
            timed(Does::Test(test.target), told(self.clock(test.at), Text::quoted(&test.ask)), test.at)
        };
        look.into_iter().chain(tests.map(test)).collect()
    }

    /// A moment; the weekday is told where it is another day than the judgement's.
    fn clock(&self, at: DateTime<Utc>) -> Text {
        Text::clock_after(at, Some(self.verdict.judged_at))
    }

    /// What is looked at, in few words.
    fn looked_at(&self, look: &Look) -> Text {
        let rounds = look.rounds.iter().map(|at| Text::quoted(&self.protocol.round(*at).topic));
        Text::list(rounds.chain([phrase::look_worse().into()]))
    }

    /// Bans that have no card yet, those of several wounds once.
    pub(super) fn loose(&self, bans: &[CourseBan], must: bool, told: &OnCards) -> Vec<Loose> {
        let said = together(bans.iter().map(|ban| (ban.target, ban)), |target| {
            let own = bans.iter().find(|ban| ban.target == target);
            own.map(|ban| (self.verdict.fitting.never(self.protocol, target), ban.end, &ban.until))
        });
        let loose = |said: Said<&CourseBan>| {
            let ban = *said.of_each.first()?;
            let never = CardNever {
                target: Some(ban.target),
                say: of_some(self.verdict, &said.wounds, self.never(ban)),
                end: ban.end,
                until: crate::care::end_of_ban(&ban.until, self.plan.no_vet).into(),
            };
            let covers = said.of_each.iter().map(|ban| ban.target).collect();
            Some((Loose { never, must }, covers))
        };
        let found = said.into_iter().filter_map(loose);
        found.filter(|(_, covers): &(Loose, Vec<Target>)| !told.bans(covers)).map(|(ban, _)| ban).collect()
    }

    /// A ban in the words of a card: what a test can end is not yet, what only a vet may do is told so.
    fn never(&self, ban: &CourseBan) -> Text {
        let act = going_on(self.verdict.fitting.never(self.protocol, ban.target));
        match ban.end {
            BanEnd::Vet => phrase::vet_only(act).into(),
            BanEnd::Lives | BanEnd::Test => phrase::never(act).into(),
        }
    }

    /// How many words a text is read as.
    fn count(&self, text: &Text) -> usize {
        self.reader.say(text).split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric)).count()
    }

    /// How many words stand on a card.
    pub(super) fn words(&self, card: &CourseCard) -> usize {
        let acts = card.acts.iter().map(|act| self.count(&act.say)).sum::<usize>();
        let nevers = card.all_nevers().map(|never| self.count(&never.say)).sum::<usize>();
        card.first.iter().map(|first| self.count(first)).sum::<usize>() + acts + nevers
    }
}

/// The rows a card may take on the smallest screen beside its heading, when it opens and the caution; and the letters of a row
/// behind the mark of a ban.
const PHONE_ROWS: usize = 11;
const PHONE_LETTERS: usize = 35;

/// Whether a card has bans and nothing that is done.
fn is_bare(cards: &[CourseCard], at: usize) -> bool {
    cards.get(at).is_some_and(|card| card.acts.is_empty())
}

/// The cards with the last act of each handed to the next, from one card to another behind it.
fn handed_on(cards: &[CourseCard], from: usize, to: usize) -> Vec<CourseCard> {
    let mut cards = cards.to_vec();
    for at in (from..to).rev() {
        let act = cards.get_mut(at).and_then(|card| card.acts.pop());
        if let (Some(act), Some(next)) = (act, cards.get_mut(at + 1)) {
            next.acts.insert(0, act);
        }
    }
    cards
}

/// The cards with the first act of each handed to the one before, from one card to another before it.
fn handed_back(cards: &[CourseCard], from: usize, to: usize) -> Vec<CourseCard> {
    let mut cards = cards.to_vec();
    for at in to..from {
        let next = cards.get_mut(at + 1).filter(|card| !card.acts.is_empty()).map(|card| card.acts.remove(0));
        if let (Some(act), Some(card)) = (next, cards.get_mut(at)) {
            card.acts.push(act);
        }
    }
    cards
}

/// What stands on a card already, so that nothing stands on two.
#[derive(Default)]
pub(super) struct OnCards {
    acts: Vec<Does>,
    bans: Vec<Target>,
}

impl OnCards {
    fn has(&self, act: &CardAct) -> bool {
        self.acts.contains(&act.does)
    }

    fn bans(&self, covers: &[Target]) -> bool {
        covers.iter().any(|target| self.bans.contains(target))
    }

    fn add(&mut self, cards: &[CourseCard]) {
        self.acts.extend(cards.iter().flat_map(|card| &card.acts).map(|act| act.does.clone()));
        self.bans.extend(cards.iter().flat_map(CourseCard::all_nevers).filter_map(|never| never.target));
    }
}
