//! What finds room in a call: the gravest always, the rest as far as the words go, and each wound told or counted.

use super::Say;
use super::found::{Finding, Found, Wounds, measures};
use crate::judge::Reason;
use crate::phrase::{Text, phone as phrase};
use crate::protocol::cond::{QuestionAt, Threshold};
use crate::protocol::scale::Need;
use std::collections::VecDeque;
use std::mem::Discriminant;

/// What was said so far, and how many words are left.
pub struct Room<'s> {
    say: Say<'s>,
    left: usize,
    told: Vec<Text>,
    /// The same as it is heard.
    heard: Vec<String>,
    ends: Vec<Text>,
}

impl<'s> Room<'s> {
    /// So many words, of which some are said already and some are kept for the end.
    pub fn of(most: usize, begins: Vec<Text>, ends: Vec<Text>, say: Say<'s>) -> Self {
        let heard = begins.iter().map(say).collect();
        let room = Self { say, left: most, told: begins, heard, ends };
        let kept = room.words(&room.told) + room.words(&room.ends);
        Self { left: most.saturating_sub(kept), ..room }
    }

    /// How many words are read of these.
    fn words(&self, texts: &[Text]) -> usize {
        texts.iter().map(|text| (self.say)(text).split_whitespace().count()).sum()
    }

    /// Whether the very same words were said already.
    fn has(&self, told: &Text) -> bool {
        self.heard.contains(&(self.say)(told))
    }

    /// Says something once, where it finds room.
    pub fn take(&mut self, told: Text) -> bool {
        if self.has(&told) {
            return true;
        }
        let fits = self.words(std::slice::from_ref(&told)) <= self.left;
        if fits {
            self.take_again(told);
        }
        fits
    }

    /// Says something that was held against the room already, even if the same words were said of another wound.
    fn take_again(&mut self, told: Text) {
        self.left = self.left.saturating_sub(self.words(std::slice::from_ref(&told)));
        self.heard.push((self.say)(&told));
        self.told.push(told);
    }

    /// All that was said, with what is said at the end.
    pub fn end(self) -> Text {
        Text::row(self.told.into_iter().chain(self.ends))
    }
}

/// A call as it is put together.
pub struct Call<'c, 'a> {
    found: &'c Found<'a>,
    room: Room<'c>,
    /// Wounds not told yet, the worst first.
    wounds: VecDeque<Wounds>,
    /// Room kept to count them.
    kept: usize,
    /// Room kept to say that there is more.
    kept_for_more: usize,
    /// Room kept for what happened: a vet asks for it first.
    kept_for_story: usize,
    /// Sums that were told: of two lines of the same, the graver is enough.
    sums: Vec<Discriminant<Threshold>>,
    /// Whether something that needs a vet within hours found no room: nothing milder is told in its place, and that there is more is said.
    more: bool,
}

impl<'c, 'a> Call<'c, 'a> {
    /// Nothing of her said yet. While a wound is untold, room is kept to count it.
    pub fn of(found: &'c Found<'a>, mut room: Room<'c>) -> Self {
        let wounds: VecDeque<Wounds> = found.wounds().into();
        // The words that would count those that find no room.
        let counting = [phrase::and_more_wounds(found.findings.wounds()).into()];
        let kept = if wounds.is_empty() { 0 } else { room.words(&counting).min(room.left) };
        room.left -= kept;
        let kept_for_more = room.words(&[phrase::more().into()]).min(room.left);
        room.left -= kept_for_more;
        Self { found, room, wounds, kept, kept_for_more, kept_for_story: 0, sums: Vec::new(), more: false }
    }

    /// What somebody said shows.
    fn told_signs(&mut self) {
        let found = self.found;
        let shows = |at: &QuestionAt| found.protocol.ask(*at).shown_if.is_some();
        for told in found.other_signs().into_iter().filter(shows).filter_map(|at| found.sign(at)) {
            self.room.take(told);
        }
    }

    /// The finding of the gravest reason, before all else.
    pub fn gravest(&mut self) {
        // What was seen and brings her need comes before what could not be told, however grave that may be.
        let need = Some(self.found.verdict.need.low);
        if self.found.reasons().all(|reason| self.found.protocol.rule(reason.rule).need < need) {
            // Her need follows from what somebody said shows, and nobody has looked at yet.
            self.told_signs();
        }
        let brings = |reason: &&Reason| !reason.is_doubt() && self.found.protocol.rule(reason.rule).need >= need;
        let seen = self.found.reasons().find(brings);
        let Some(gravest) = seen.or_else(|| self.found.reasons().next()) else { return self.keep_for_story() };
        let story: Vec<Text> = self.found.protocol.said_first.iter().map(|at| self.found.story(*at)).collect();
        let behind = self.found.behind(gravest);
        // Of a humane end alone a rule says what becomes of such a bird: the signs say more to a vet, who makes that out.
        let of_end = self.found.protocol.rule(gravest.rule).need.is_none();
        let signs_tell = of_end && self.signs_tell(gravest, &behind);
        let mut told = false;
        for finding in behind {
            match finding {
                Finding::Words(_) if signs_tell => {}
                // What happened finds its room beside a wound told at length.
                Finding::Wound(number) => {
                    told |= self.wound(number, self.room.words(&story));
                    // In its fewest words rather than not at all.
                    if !told {
                        self.wound_briefly(number);
                    }
                }
                finding if signs_tell || !told => told |= self.say(finding),
                Finding::Sign(_) | Finding::Words(_) | Finding::Story(_) => {}
            }
        }
        // A sum that could not be told is not told as if it had been: what is known of it is still to come.
        if self.found.is_seen(gravest) {
            self.note(gravest);
        }
        self.keep_for_story();
    }

    /// Keeps room for what happened, whatever else is told before it.
    fn keep_for_story(&mut self) {
        let happened: Vec<Text> =
            self.found.protocol.said_first.iter().take(1).map(|at| self.found.story(*at)).collect();
        self.kept_for_story = self.room.words(&happened).min(self.room.left);
        self.room.left -= self.kept_for_story;
    }

    /// What happened, and when.
    pub fn story(&mut self) {
        self.room.left += std::mem::take(&mut self.kept_for_story);
        for at in &self.found.protocol.said_first {
            self.room.take(self.found.story(*at));
        }
    }

    /// What the other reasons rest on that are of at least this need, or ask for an authority, gravest first: so many signs, then the
    /// worst wound, then the rest.
    pub fn reasons(&mut self, first_signs: usize, need: Need) {
        let found = self.found;
        let mut signs = 0;
        let her_need = found.verdict.need.low;
        // Signs that are as urgent come before a wound that is not.
        let grave = need.max(Need::WithinHours.min(her_need));
        // What could not be told is said where it is the gravest; here it would push out what was seen.
        let urgent = |reason: &&Reason| {
            let rule = found.protocol.rule(reason.rule);
            rule.need.unwrap_or(Need::None) >= need || rule.authority.is_some()
        };
        for reason in found.reasons().filter(urgent).filter(|reason| found.is_seen(reason)) {
            if signs >= first_signs {
                self.worst_wound(grave);
            }
            let brings = found.protocol.rule(reason.rule).need;
            let is_grave = brings >= Some(Need::WithinHours);
            if self.more && !is_grave {
                continue;
            }
            let again = measures(found.protocol.rule(reason.rule)).iter().any(|sum| self.sums.contains(sum));
            let behind = found.behind(reason);
            let signs_tell = self.signs_tell(reason, &behind);
            for finding in behind {
                match finding {
                    Finding::Words(_) if again || signs_tell => {}
                    Finding::Wound(number) => {
                        self.worst_wound(grave);
                        // Another that brings her need is named too, in as few words as may be: a spurt is not left uncounted.
                        if is_grave && brings >= Some(her_need) {
                            self.wound_briefly(number);
                        }
                    }
                    Finding::Sign(_) | Finding::Words(_) | Finding::Story(_) => {
                        signs += usize::from(matches!(finding, Finding::Sign(_)));
                        let told = self.say(finding);
                        self.more |= !told && is_grave;
                    }
                }
            }
            self.note(reason);
        }
        self.worst_wound(grave);
    }

    /// The other wounds, and how many found no room.
    pub fn wounds(&mut self) {
        while let Some(next) = self.wounds.pop_front() {
            // The last one may take the words kept for counting.
            if self.wounds.is_empty() {
                self.room.left += std::mem::take(&mut self.kept);
            }
            if !self.tell(&next, 0) {
                self.wounds.push_front(next);
                break;
            }
        }
        self.room.left += std::mem::take(&mut self.kept);
        let untold: usize = self.wounds.iter().map(|wounds| wounds.numbers.len()).sum();
        if untold > 0 {
            let told = untold < self.found.findings.wounds();
            let rest = if told { phrase::and_more_wounds(untold) } else { phrase::besides_wounds(untold) };
            self.room.take(rest.into());
        }
    }

    /// What else is not as it should be.
    pub fn other_signs(&mut self) {
        if self.more {
            return;
        }
        // All that is grave was told, so the words kept to say that there is more are free.
        self.room.left += std::mem::take(&mut self.kept_for_more);
        for at in self.found.other_signs() {
            self.say(Finding::Sign(at));
        }
    }

    /// That there is more, where something that needs a vet within hours found no room.
    pub fn rest(&mut self) {
        if self.more {
            self.room.take_again(phrase::more().into());
        }
    }

    /// Something else, where all wounds and all that is urgent were told and it finds room.
    pub fn take(&mut self, told: Option<Text>) {
        if let Some(told) = told.filter(|_| self.wounds.is_empty() && !self.more) {
            self.room.take(told);
        }
    }

    /// The whole call.
    pub fn end(self) -> Text {
        self.room.end()
    }

    /// Whether the signs behind a reason say more in fewer words than its rule makes of them. Of a sum they say nothing.
    fn signs_tell(&self, reason: &Reason, behind: &[Finding]) -> bool {
        measures(self.found.protocol.rule(reason.rule)).is_empty()
            && behind.iter().any(|finding| !matches!(finding, Finding::Words(_)))
    }

    fn say(&mut self, finding: Finding) -> bool {
        let told = match finding {
            Finding::Sign(at) => self.found.sign(at),
            Finding::Story(at) => Some(self.found.story(at)),
            Finding::Words(words) => Some(words),
            Finding::Wound(number) => return self.wound(number, 0),
        };
        told.is_some_and(|told| self.room.take(told))
    }

    fn note(&mut self, reason: &Reason) {
        self.sums.extend(measures(self.found.protocol.rule(reason.rule)));
    }

    /// The wounds alike to this one, where they are not told yet. Whether they are told now.
    fn wound(&mut self, number: usize, beside: usize) -> bool {
        self.untold(number, |call, wounds| call.tell(wounds, beside) || call.tell(wounds, 0))
    }

    /// The same in their fewest words.
    fn wound_briefly(&mut self, number: usize) {
        self.untold(number, |call, wounds| {
            let told = wounds.say(wounds.fewest());
            // The last of them needs no count.
            let kept = if call.wounds.is_empty() { std::mem::take(&mut call.kept) } else { 0 };
            call.room.left += kept;
            // The same words of another wound would pass for that one: it is counted at the end.
            let takes = !call.room.has(&told) && call.room.take(told);
            if !takes {
                call.room.left -= kept;
                call.kept += kept;
            }
            takes
        });
    }

    /// Tells the wounds alike to this one in a way that may find no room; they stay untold then. Whether they are told now.
    fn untold(&mut self, number: usize, tell: impl FnOnce(&mut Self, &Wounds) -> bool) -> bool {
        let Some(place) = self.wounds.iter().position(|wounds| wounds.numbers.contains(&number)) else { return true };
        let Some(wounds) = self.wounds.remove(place) else { return true };
        let told = tell(self, &wounds);
        if !told {
            self.wounds.insert(place, wounds);
        }
        told
    }

    /// The worst wound, while none is told, where it brings a need of at least this: a bruise does not push out a sign that does.
    fn worst_wound(&mut self, need: Need) {
        let worst = self.wounds.front().and_then(|wounds| wounds.numbers.first().copied());
        let none_told = self.wounds.len() == self.found.wounds().len();
        let Some(worst) = worst.filter(|worst| none_told && self.found.brings(*worst, need)) else { return };
        if !self.wound(worst, 0) {
            // What happened gives way to the worst of her wounds.
            self.room.left += std::mem::take(&mut self.kept_for_story);
            self.wound(worst, 0);
        }
    }

    /// Tells wounds with as many features as find room beside what is to come; never without the worst of them.
    fn tell(&mut self, wounds: &Wounds, beside: usize) -> bool {
        let mut features = wounds.fewest()..=wounds.most();
        let fits = |features: &usize| {
            let needed = self.room.words(&[wounds.say(*features)]) + beside;
            needed <= self.room.left
        };
        let Some(most) = features.rfind(fits) else { return false };
        self.room.take_again(wounds.say(most));
        true
    }
}
