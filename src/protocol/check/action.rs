//! Actions: their lines and what changes them, what opens and ends them, and what is told where they are forbidden.

use super::Checker;
use super::cond::Belongs;
use crate::protocol::action::{Action, BanFit, End, Fit, Forbidden, Seen, Stance, Until};
use crate::protocol::cond::Cond;
use crate::protocol::item::Items;
use crate::protocol::raw;
use crate::protocol::read::Placed;

/// A field that was said and could not be read; its faults are told already. What was not said at all is no fault.
struct Unread;

/// The verb of an action that presses on her.
const PRESSES: &str = "press";

/// The action that is being checked, and where it stands.
#[derive(Clone, Copy)]
struct Act<'a> {
    placed: &'a Placed<raw::Action>,
    item: &'a str,
    items: &'a Items,
}

impl Checker {
    pub(super) fn action(&mut self, placed: &Placed<raw::Action>, items: &Items) -> Option<Action> {
        let raw = placed.item.clone();
        let item = format!("action `{}`", raw.id);
        let act = Act { placed, item: &item, items };
        for (field, text) in [("verb", &raw.verb), ("place", &raw.place), ("say", &raw.say)] {
            self.words(placed, &item, field, text);
        }
        let more = [("means", &raw.means), ("meanwhile", &raw.meanwhile)];
        for (field, text) in more.into_iter().filter(|(_, text)| !text.is_empty()) {
            self.words(placed, &item, field, text);
        }
        if !raw.how.is_empty() || raw.forbidden.is_none() {
            self.instructs(placed, &item, "how", &raw.how);
        }
        if !raw.on_card.is_empty() {
            self.instructs(placed, &item, "on_card", &raw.on_card);
        }
        if !raw.undoable.is_empty() {
            self.instructs(placed, &item, "undoable", &raw.undoable);
        }
        self.fits_a_phone(placed, &item, "say", &raw.say);
        let source = self.known_source(placed, &item, raw.source.as_deref());
        self.complete(act);
        let fits = raw.fits.into_iter().map(|fit| self.fit(act, fit)).collect::<Vec<_>>();
        for hands in &raw.hands {
            self.fits_a_phone(placed, &item, "hands", &hands.say);
        }
        let hands = raw.hands.into_iter().map(|hands| self.seen(act, "hands", &hands.when, hands.say));
        let hands = hands.collect::<Vec<_>>();
        let opens = raw.opens.map(|opens| self.seen(act, "opens", &opens.when, opens.say).ok_or(Unread));
        let worked = raw.worked.map(|worked| self.seen(act, "worked", &worked.when, worked.say).ok_or(Unread));
        let ends = raw.ends.map(|until| self.until(act, "ends", until).ok_or(Unread));
        let forbidden = raw.forbidden.map(|forbidden| self.forbidden(act, forbidden).ok_or(Unread));
        let before = self.all_known(placed, &item, "before", &raw.before)?;
        let replaces = self.all_known(placed, &item, "replaces", &raw.replaces)?;
        let done_like = raw.done_like.into_iter().collect::<Vec<_>>();
        let done_like = self.all_known(placed, &item, "done_like", &done_like)?.first().copied();
        Some(Action {
            id: raw.id.as_str().into(),
            verb: raw.verb,
            place: raw.place,
            means: raw.means,
            say: raw.say,
            how: raw.how,
            fits: fits.into_iter().collect::<Option<_>>()?,
            presses: raw.presses,
            opens: opens.transpose().ok()?,
            meanwhile: raw.meanwhile,
            worked: worked.transpose().ok()?,
            ends: ends.transpose().ok()?,
            undoable: raw.undoable,
            hands: hands.into_iter().collect::<Option<_>>()?,
            on_card: raw.on_card,
            phones: raw.phones,
            left_out: raw.left_out,
            before,
            keeps: raw.keeps,
            forbidden: forbidden.transpose().ok()?,
            air: raw.air,
            at_once: raw.at_once,
            in_doubt: raw.in_doubt,
            wound: raw.wound,
            part: raw.part,
            home: raw.home,
            replaces,
            done_like,
            source,
        })
    }

    /// What an action of its kind must say: how soon it harms to leave it out, what ends a state that lasts, and what shows that
    /// pressing or another warmth has worked.
    fn complete(&mut self, act: Act) {
        let action = &act.placed.item;
        let advised = !action.how.is_empty();
        let lasts = action.air.is_some() || action.may_keep().any(Stance::lasts);
        let comes_again = || act.items.rounds.iter().any(|round| round.item.with.contains(&action.id));
        let wants = [
            (
                advised && action.left_out.is_none(),
                "left_out",
                "how soon it kills or maims if it is left out: Minutes, Hours, Days or Slight",
            ),
            (
                advised && lasts && action.ends.is_none() && !self.lost.some && !comes_again(),
                "ends",
                "what ends it, or a round in which it comes again: it is a state that lasts",
            ),
            (advised && action.presses && action.worked.is_none(), "worked", "the answers that show it has worked"),
            (
                advised && action.presses && action.undoable.is_empty(),
                "undoable",
                "what to do where nobody else is there",
            ),
        ];
        let presses = action.verb == PRESSES && !action.presses;
        let wants = wants.into_iter().chain([(
            presses,
            "presses",
            "`presses: true`, and a line for each part of her that is not pressed firmly",
        )]);
        for (missing, field, what) in wants {
            if missing {
                let what = format!("no `{field}`; expected {what}");
                self.faults.push(act.placed.fault(act.item.to_owned(), &action.id, what));
            }
        }
    }

    /// Its lines where more is known of her.
    fn fit(&mut self, act: Act, fit: raw::Fit) -> Option<Fit> {
        let raw::Fit { when, in_doubt, say, how, on_card, pressing, keeps, source } = fit;
        if !on_card.is_empty() {
            self.instructs(act.placed, act.item, "fits", &on_card);
        }
        let source = source.map(|source| self.known_source(act.placed, act.item, Some(&source)));
        self.words(act.placed, act.item, "fits", &say);
        if !how.is_empty() {
            self.instructs(act.placed, act.item, "fits", &how);
        }
        self.fits_a_phone(act.placed, act.item, "fits", &say);
        if pressing.is_some() != act.placed.item.presses {
            let what = if act.placed.item.presses {
                "no `pressing`; expected Firmly, Lightly or Beside in every line of an action that presses"
            } else {
                "`pressing` belongs to an action that `presses`"
            };
            self.faults.push(act.placed.fault(format!("{}, field fits", act.item), &say, what.to_owned()));
        }
        Some(Fit {
            when: self.question_named(act, "fits", &when)?,
            in_doubt,
            say,
            how,
            on_card,
            pressing,
            keeps,
            source,
        })
    }

    /// Answers, and what to see, in words.
    fn seen(&mut self, act: Act, field: &'static str, when: &raw::Cond, say: String) -> Option<Seen> {
        self.words(act.placed, act.item, field, &say);
        Some(Seen { when: self.question_named(act, field, when)?, say })
    }

    /// A condition that some answer decides.
    fn question_named(&mut self, act: Act, field: &'static str, when: &raw::Cond) -> Option<Cond> {
        let when = self.cond(&Belongs { placed: act.placed, item: act.item, field }, when, act.items)?;
        if when.questions().is_empty() {
            let what = format!(
                "`{field}` names no question, so nothing anybody sees would decide it; expected a question and its answers: `question = answer`"
            );
            self.faults.push(act.placed.fault(format!("{}, field {field}", act.item), field, what));
        }
        Some(when)
    }

    /// What is told of a ban, its end among it.
    fn forbidden(&mut self, act: Act, forbidden: raw::Forbidden) -> Option<Forbidden> {
        let raw::Forbidden { say, why, instead, until, broken, beside, bars, fits } = forbidden;
        if let Some(say) = &say {
            self.words(act.placed, act.item, "say", say);
        }
        self.instructs(act.placed, act.item, "why", &why);
        self.instructs(act.placed, act.item, "instead", &instead);
        self.bars(act, &bars);
        let beside = self.all_known(act.placed, act.item, "beside", &beside);
        let until = self.until(act, "until", until);
        let fits = fits.into_iter().map(|fit| self.ban_fit(act, fit)).collect::<Vec<_>>();
        Some(Forbidden {
            say,
            why,
            instead,
            until: until?,
            broken,
            beside: beside?,
            bars,
            fits: fits.into_iter().collect::<Option<_>>()?,
        })
    }

    fn ban_fit(&mut self, act: Act, fit: raw::BanFit) -> Option<BanFit> {
        let raw::BanFit { when, in_doubt, say, why, instead, until } = fit;
        if let Some(say) = &say {
            self.words(act.placed, act.item, "fits", say);
            self.fits_a_phone(act.placed, act.item, "fits", say);
        }
        self.words(act.placed, act.item, "fits", &why);
        self.words(act.placed, act.item, "fits", &instead);
        let until = until.map(|until| self.until(act, "fits", until));
        let when = self.question_named(act, "fits", &when)?;
        let until = match until {
            Some(known) => Some(known?),
            None => None,
        };
        Some(BanFit { when, in_doubt, say, why, instead, until })
    }

    /// Whatever brings her into a state that a ban bars goes with it.
    fn bars(&mut self, act: Act, bars: &[Stance]) {
        if self.lost.some {
            // What drops it may be what could not be read.
            return;
        }
        let ban = &act.placed.item.id;
        let goes = |other: &raw::Action| {
            other.id == *ban
                || act.items.rules_out.iter().any(|out| out.item.never == *ban && out.item.drop == other.id)
        };
        let left = act.items.actions.iter().map(|placed| &placed.item).filter(|other| {
            !other.how.is_empty() && other.may_keep().any(|stance| bars.contains(&stance)) && !goes(other)
        });
        for other in left {
            let what = format!(
                "where `{ban}` is forbidden `{}` would still be told; expected (never: \"{ban}\", drop: \"{}\") under `rules_out`",
                other.id, other.id
            );
            self.faults.push(act.placed.fault(format!("{}, field bars", act.item), &other.id, what));
        }
    }

    /// What ends a ban or a state that lasts.
    fn until(&mut self, act: Act, field: &'static str, until: raw::Until) -> Option<Until> {
        match until {
            raw::Until::Vet { or } => Some(Until { vet: true, alone: self.end(act, field, *or)? }),
            other => Some(Until { vet: false, alone: self.end(act, field, other)? }),
        }
    }

    /// What is told of an end: of a ban, in short sentences.
    fn end_says(&mut self, act: Act, field: &str, text: &str) {
        if field == "until" {
            self.instructs(act.placed, act.item, field, text);
        } else {
            self.words(act.placed, act.item, field, text);
        }
    }

    /// An end that holds where no vet can be reached.
    fn end(&mut self, act: Act, field: &'static str, end: raw::Until) -> Option<End> {
        match end {
            raw::Until::Test { when, say, card } => {
                if let Some(card) = &card {
                    self.instructs(act.placed, act.item, field, &card.ask);
                }
                self.end_says(act, field, &say);
                Some(End::Test { when: self.question_named(act, field, &when)?, say, card })
            }
            raw::Until::Lives { because } => {
                self.end_says(act, field, &because);
                Some(End::Lives { because })
            }
            raw::Until::Vet { .. } => {
                let what =
                    "where no vet can be reached a vet's word ends nothing; expected a test or `Lives`".to_owned();
                self.faults.push(act.placed.fault(format!("{}, field {field}", act.item), field, what));
                None
            }
        }
    }
}
