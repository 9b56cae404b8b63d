//! The cards that stand apart from the stages, wherever they are in force: a humane end, and the call of the authority.

use super::layout::{CardLayout, Loose, OnCards};
use super::{CardAct, CardNever, CardOf, CourseCard, Does, Opens};
use crate::care::PlanStep;
use crate::care::course::{BanEnd, CourseBan};
use crate::content::document;
use crate::content::plan::going_on;
use crate::judge::Reason;
use crate::phrase::{Text, course as phrase};
use crate::protocol::scale::{Authority, Humane};
use crate::protocol::texts::{OnCard, Under};
use std::slice;

impl CardLayout<'_> {
    /// The humane end: said gently, what may be done, by whom, and what never.
    pub(super) fn humane(&self, rung: Humane) -> CourseCard {
        let mut card = Self::card(CardOf::Humane(rung), Opens::AtOnce, None);
        let mut first = Vec::new();
        let told = document::all_told(self.protocol, self.verdict);
        for (at, paragraph) in told.filter(|(_, paragraph)| paragraph.under == Under::HumaneEnd) {
            match &paragraph.card {
                Some(OnCard::Say(text)) => first.push(Text::quoted(text)),
                Some(OnCard::Do(text)) => {
                    card.acts.push(CardAct::plain(Does::Told(at), Text::quoted(text)));
                }
                Some(OnCard::Never(text)) => card.nevers.push(CardNever {
                    target: None,
                    say: phrase::never(going_on(text)).into(),
                    end: BanEnd::Lives,
                    until: Text::default(),
                }),
                None => {}
            }
        }
        first.push(match rung {
            Humane::NotInQuestion | Humane::MayComeIntoQuestion if self.verdict.end_is_unseen(self.protocol) => {
                phrase::humane_unseen().into()
            }
            Humane::NotInQuestion | Humane::MayComeIntoQuestion => phrase::humane_may().into(),
            Humane::AdvisedUnlessVet => phrase::humane_unless().into(),
            Humane::Advised => phrase::humane_advised().into(),
        });
        card.first = Some(Text::row(first));
        card.words = self.words(&card);
        card
    }

    /// The call of the authority.
    pub(super) fn authority(&self, rung: Authority) -> CourseCard {
        let mut card = Self::card(CardOf::Authority(rung), Opens::AtOnce, None);
        card.first = Some(match rung {
            Authority::None | Authority::Ask => phrase::authority_ask().into(),
            Authority::CallNow => phrase::authority_call().into(),
        });
        let asks =
            |because: &[Reason]| because.iter().any(|reason| self.protocol.rule(reason.rule).authority.is_some());
        let steps = self.plan.steps.iter().filter(|step| match step {
            PlanStep::Act(_, because) => asks(because),
            PlanStep::Phone(_) => false,
        });
        let mut loose: Vec<Loose> = self
            .course
            .stages
            .iter()
            .flat_map(|stage| {
                let bans: Vec<CourseBan> = stage.bans.iter().filter(|ban| asks(&ban.because)).cloned().collect();
                self.loose(&bans, true, &OnCards::default())
            })
            .collect();
        let mut cards = vec![card];
        for step in steps {
            if !self.place(&mut cards, self.step(step), &mut loose, false) {
                break;
            }
        }
        let mut card = cards.pop().unwrap_or_else(|| Self::card(CardOf::Authority(rung), Opens::AtOnce, None));
        for ban in loose {
            if self.takes(&card, None, slice::from_ref(&ban.never.say)) {
                card.nevers.push(ban.never);
            }
        }
        card.words = self.words(&card);
        card
    }
}
