//! In what a protocol of one's own says less than the shipped one, or otherwise: each difference as a phrase.

use super::terms;
use crate::care::end_of_ban;
use crate::finding::Id;
use crate::phrase::{Phrase, Text, differences as says};
use crate::protocol::Protocol;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::{Differs, Loss, Pairing, Rung, Rungs, Scale, Sort, Sought};

/// Which sort of thing differs.
pub const fn sort(sort: Sort) -> Phrase {
    match sort {
        Sort::Question => says::question(),
        Sort::Answer => says::answer(),
        Sort::Rule => says::rule(),
        Sort::Action => says::action(),
        Sort::Ban => says::ban(),
        Sort::Conflict => says::conflict(),
        Sort::RulingOut => says::ruling_out(),
        Sort::Instruction => says::instruction(),
        Sort::Protocol => says::protocol(),
        Sort::Exclusion => says::exclusion(),
    }
}

fn key(id: &Id) -> Text {
    Text::typed(id.as_str())
}

/// What differs.
pub fn what(differs: &Differs) -> Phrase {
    match differs {
        Differs::Lacking => says::lacking(),
        Differs::NobodyAsked => says::nobody_asked(),
        Differs::Gone => says::gone(),
        Differs::OnlyOwn => says::only_yours(),
        Differs::NotCompared => says::not_compared(),
        Differs::AnswerLacking(id) => says::answer_lacking(key(id)),
        Differs::AnswerOnlyOwn(id) => says::answer_only_yours(key(id)),
        Differs::AnswerMoved { say, own, shipped } => says::answer_moved(Text::quoted(say), key(own), key(shipped)),
        Differs::AnswerReads { answer, own, shipped } => {
            says::answer_reads(key(answer), Text::quoted(own), Text::quoted(shipped))
        }
        Differs::Order => says::order(),
        Differs::NoOrder => says::no_order(),
        Differs::AskedOtherwise => says::asked_otherwise(),
        Differs::LessFar(of, Pairing { own, shipped }) => {
            says::less_far(scale(*of), rung(*of, *own), rung(*of, *shipped))
        }
        Differs::NotBorrowed(kind) => says::not_borrowed(Text::quoted(kind)),
        Differs::Claims(Pairing { own, shipped }) => says::claims(terms::strength(*own), terms::strength(*shipped)),
        Differs::AdviceOf(source) => says::advice_of(key(source)),
        Differs::BanNotKept(action) => says::ban_not_kept(key(action)),
        Differs::ForbidsNot(action) => says::forbids_not(key(action)),
        Differs::TellsNotToDo(action) => says::tells_not_to_do(key(action)),
        Differs::TellsNot(action) => says::tells_not(key(action)),
        Differs::Later => says::later(),
        Differs::LessGrave(system, grade) => says::less_grave(terms::system(*system), terms::severity(*grade)),
        Differs::ReasonOtherwise => says::reason_otherwise(),
        Differs::NotAtOnce => says::not_at_once(),
        Differs::LaterInPlan => says::later_in_plan(),
        Differs::LeftOut => says::left_out(),
        Differs::NoBan => says::no_ban(),
        Differs::ToldOtherwise => says::told_otherwise(),
        Differs::Ends(ends) => says::ends(end_of_ban(&ends.own, false), end_of_ban(&ends.shipped, false)),
        Differs::BarsLess => says::bars_less(),
        Differs::Broken => says::broken(),
        Differs::StandsNotBack(action) => says::stands_not_back(key(action)),
        Differs::GoesNot(action) => says::goes_not(key(action)),
        Differs::NoPhone => says::no_phone(),
        Differs::AsksNothing => says::asks_nothing(),
        Differs::Held(Pairing { own, shipped }) => {
            says::held(Text::typed(own.to_string()), Text::typed(shipped.to_string()))
        }
        Differs::Night => says::night(),
        Differs::WithheldOtherwise => says::withheld_otherwise(),
    }
}

/// In what one's own says less of a bird.
pub fn loss(shipped: &Protocol, loss: &Loss) -> Phrase {
    let action = |id: &Id| shipped.actions.iter().find(|action| action.id == *id);
    let say = |id: &Id| named(id, action(id).map(|action| action.say.as_str()));
    let topic = |id: &Id| named(id, shipped.question(id.as_str()).map(|question| question.topic.as_str()));
    match loss {
        Loss::Lower(of, there, here) => says::lower(scale(*of), rung(*of, *here), rung(*of, *there)),
        Loss::Harsher(there, here) => says::harsher(rung(Scale::Humane, *here), rung(Scale::Humane, *there)),
        Loss::Ban(id) => says::ban_lost(named(id, action(id).map(super::super::protocol::action::Action::never))),
        Loss::MayNotBe(id) => says::may_not_be(say(id)),
        Loss::Missing(id) => says::missing(say(id)),
        Loss::Watch(id) => {
            let sign = shipped.watches.iter().find(|watch| watch.id == *id);
            says::watch(named(id, sign.map(|watch| watch.say.as_str())))
        }
        Loss::Looks(every, until) => says::looks(Text::typed(every.to_string()), Text::typed(until.to_string())),
        Loss::Slept => says::slept(),
        Loss::NotAsked(id) => says::not_asked(topic(id)),
        Loss::NotFirst(id) => says::not_first(topic(id)),
        Loss::NotShown(id) => says::not_shown(named(id, None)),
    }
}

/// A thing by its key and, where it is known, what it says.
fn named(id: &Id, say: Option<&str>) -> Phrase {
    say.map_or_else(|| says::key_alone(key(id)), |say| says::key(key(id), Text::quoted(say)))
}

/// A scale by its name.
pub const fn scale(scale: Scale) -> Phrase {
    match scale {
        Scale::Need => says::need(),
        Scale::Humane => says::humane(),
        Scale::Authority => says::authority(),
    }
}

/// A rung of a scale.
pub fn rung(scale: Scale, rung: Rung) -> Text {
    let at = usize::from(rung);
    let phrase = match scale {
        Scale::Need => Need::ALL.get(at).map(|rung| terms::need(*rung, false)),
        Scale::Humane => Humane::ALL.get(at).copied().map(terms::humane),
        Scale::Authority => Authority::ALL.get(at).copied().map(terms::authority),
    };
    phrase.map_or_else(Text::default, Text::from)
}

/// At least where a bird stands.
pub fn rungs(Rungs { need, humane, authority }: Rungs) -> Phrase {
    says::rungs(terms::need(need, false), terms::humane(humane), terms::authority(authority))
}

/// What was looked for and not decided.
pub fn sought(sought: &Sought) -> Phrase {
    match sought {
        Sought::Leads(of, rule) => says::sought_leads(scale(*of), key(rule)),
        Sought::Advises(rule) => says::sought_advises(key(rule)),
        Sought::Ban(action) => says::sought_ban(key(action)),
        Sought::MayNotBe(action) => says::sought_may_not_be(key(action)),
        Sought::HasToBe(action) => says::sought_has_to_be(key(action)),
        Sought::Sign(sign) => says::sought_sign(key(sign)),
        Sought::Looks(every, until) => {
            says::sought_looks(Text::typed(every.to_string()), Text::typed(until.to_string()))
        }
        Sought::Night => says::sought_night(),
        Sought::Asked(question) => says::sought_asked(key(question)),
        Sought::CallsUp(question) => says::sought_calls_up(key(question)),
    }
}
