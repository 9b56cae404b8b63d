//! Words used in many sentences: the rungs of the scales, the grades, how well something is known, a wound by its number.

pub use crate::judge::{advice, need};
use crate::phrase::{Phrase, Text, birds, terms};
use crate::protocol::scale::{Authority, Humane, Severity, System};
use crate::protocol::source::Strength;
use crate::protocol::whom::Whom;
pub use crate::reckon::kinds::{build, kind};

/// Whether a humane end has come into question.
pub const fn humane(rung: Humane) -> Phrase {
    match rung {
        Humane::NotInQuestion => terms::humane_not(),
        Humane::MayComeIntoQuestion => terms::humane_may(),
        Humane::AdvisedUnlessVet => terms::humane_unless(),
        Humane::Advised => terms::humane_advised(),
    }
}

/// Whether the animal-health authority is asked or called.
pub const fn authority(rung: Authority) -> Phrase {
    match rung {
        Authority::None => terms::authority_none(),
        Authority::Ask => terms::authority_ask(),
        Authority::CallNow => terms::authority_call(),
    }
}

/// Whom to call, by what they are.
pub const fn whom(whom: Whom) -> Phrase {
    match whom {
        Whom::Vet => birds::vet(),
        Whom::EmergencyVet => birds::emergency_vet(),
        Whom::Authority => birds::authority(),
    }
}

/// A part of the bird's workings.
pub const fn system(system: System) -> Phrase {
    match system {
        System::Breath => terms::breath(),
        System::Blood => terms::blood(),
        System::Nerves => terms::nerves(),
        System::Head => terms::head(),
        System::Limbs => terms::limbs(),
        System::Skin => terms::skin(),
        System::Belly => terms::belly(),
    }
}

/// How badly one of them is hurt.
pub const fn severity(grade: Severity) -> Phrase {
    match grade {
        Severity::Nothing => terms::severity_nothing(),
        Severity::Slight => terms::severity_slight(),
        Severity::Serious => terms::severity_serious(),
        Severity::Grave => terms::severity_grave(),
    }
}

/// How a figure or sign came to us.
pub const fn strength(strength: Strength) -> Phrase {
    match strength {
        Strength::Read => terms::read(),
        Strength::SecondHand => terms::second_hand(),
        Strength::Memory => terms::memory(),
        Strength::Practice => terms::practice(),
        Strength::Proposal => terms::proposal(),
    }
}

/// What it rests on, and whose figures they are where they were borrowed.
pub fn rests_on(source: impl Into<Text>, borrowed: Option<&str>) -> Phrase {
    terms::rests_on(source, borrowed.map_or_else(Text::default, |kind| terms::borrowed(Text::quoted(kind)).into()))
}

/// Something said of some wounds, by their places in the order they were found; of all the bird where there is none.
pub fn of_wounds(wounds: &[usize], line: impl Into<Text>) -> Text {
    match wounds {
        [] => line.into(),
        some => {
            let numbers = Text::list(some.iter().map(|wound| number(*wound)));
            terms::whose(numbers, some.len(), line).into()
        }
    }
}

/// The number people count a wound by.
pub fn number(wound: usize) -> Text {
    Text::typed((wound + 1).to_string())
}
