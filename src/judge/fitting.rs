//! Which of its lines an action has for this bird and each of her wounds, and which reason a ban.

use super::verdict::Target;
use crate::protocol::Protocol;
use crate::protocol::action::{Action, Asks, BanFit, Fit, Pressing, Stance, Until};
use crate::protocol::cond::Cond;
use crate::sheet::{Sheet, Subject};
use std::collections::BTreeMap;

/// The lines chosen; where nothing is chosen, the action's own stand.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fitting {
    acts: BTreeMap<Target, usize>,
    bans: BTreeMap<Target, usize>,
    hands: BTreeMap<Target, usize>,
}

impl Fitting {
    /// Chooses the lines of every action, whether it is advised now or only an instruction could call it up.
    pub(super) fn of(protocol: &Protocol, sheet: &Sheet) -> Self {
        let mut chosen = Self::default();
        for (at, action) in protocol.actions_enumerated() {
            let wounds = if action.wound { sheet.wounds() } else { 0 };
            for wound in std::iter::once(None).chain((0..wounds).map(Some)) {
                let target = Target { action: at, wound };
                let line = action.fits.iter().position(|fit| holds(sheet, &fit.when, fit.in_doubt, target.subject()));
                chosen.acts.extend(line.map(|line| (target, line)));
                let hands = action.hands.iter().position(|hands| sheet.surely(&hands.when, target.subject()));
                chosen.hands.extend(hands.map(|hands| (target, hands)));
                let bans = action.forbidden.iter().flat_map(|told| &told.fits);
                let ban = { bans }.position(|fit| holds(sheet, &fit.when, fit.in_doubt, target.subject()));
                chosen.bans.extend(ban.map(|ban| (target, ban)));
            }
        }
        chosen
    }

    fn line<'p>(&self, protocol: &'p Protocol, target: Target) -> Option<&'p Fit> {
        protocol.action(target.action).fits.get(*self.acts.get(&target)?)
    }

    fn ban<'p>(&self, protocol: &'p Protocol, target: Target) -> Option<&'p BanFit> {
        protocol.action(target.action).forbidden.as_ref()?.fits.get(*self.bans.get(&target)?)
    }

    /// What to do, in a line.
    pub fn say<'p>(&self, protocol: &'p Protocol, target: Target) -> &'p str {
        self.line(protocol, target).map_or(&protocol.action(target.action).say, |line| &line.say)
    }

    /// What stands on a card behind the line that fits.
    pub fn on_card<'p>(&self, protocol: &'p Protocol, target: Target) -> &'p str {
        self.line(protocol, target).map_or(&protocol.action(target.action).on_card, |line| &line.on_card)
    }

    /// Who does what, where it is known who is there.
    pub fn hands<'p>(&self, protocol: &'p Protocol, target: Target) -> Option<&'p str> {
        let hands = protocol.action(target.action).hands.get(*self.hands.get(&target)?)?;
        Some(&hands.say)
    }

    /// How it is done.
    pub fn how<'p>(&self, protocol: &'p Protocol, target: Target) -> &'p str {
        let own: &Action = protocol.action(target.action);
        self.line(protocol, target).map(|line| &line.how).filter(|how| !how.is_empty()).unwrap_or(&own.how)
    }

    /// How hard one presses, where its line says so.
    pub fn pressing(&self, protocol: &Protocol, target: Target) -> Option<Pressing> {
        self.line(protocol, target)?.pressing
    }

    /// The state it keeps her in.
    pub fn keeps<'p>(&self, protocol: &'p Protocol, target: Target) -> &'p [Stance] {
        let own = &protocol.action(target.action).keeps;
        self.line(protocol, target).and_then(|line| line.keeps.as_ref()).unwrap_or(own)
    }

    /// What ends the ban on it; nothing for what no rule forbids.
    pub fn until<'p>(&self, protocol: &'p Protocol, target: Target) -> Option<&'p Until> {
        let own = &protocol.action(target.action).forbidden.as_ref()?.until;
        Some(self.ban(protocol, target).and_then(|ban| ban.until.as_ref()).unwrap_or(own))
    }

    /// What it asks of the state she is in.
    pub fn asks<'p>(&self, protocol: &'p Protocol, target: Target) -> Asks<'p> {
        Asks { air: protocol.action(target.action).air, keeps: self.keeps(protocol, target) }
    }

    /// What must never be done, in a line.
    pub fn never<'p>(&self, protocol: &'p Protocol, target: Target) -> &'p str {
        let own = || protocol.action(target.action).never();
        self.ban(protocol, target).and_then(|ban| ban.say.as_deref()).unwrap_or_else(own)
    }

    /// Why it must not be done, and what to do instead; nothing for what no rule forbids.
    pub fn why_not<'p>(&self, protocol: &'p Protocol, target: Target) -> Option<(&'p str, &'p str)> {
        let own = protocol.action(target.action).forbidden.as_ref()?;
        let ban = self.ban(protocol, target);
        Some(ban.map_or((&own.why, &own.instead), |ban| (&ban.why, &ban.instead)))
    }
}

/// Whether a line is told: some of them also where somebody looked and could not tell.
fn holds(sheet: &Sheet, when: &Cond, in_doubt: bool, subject: Subject) -> bool {
    if in_doubt { sheet.in_doubt_too(when, subject) } else { sheet.surely(when, subject) }
}
