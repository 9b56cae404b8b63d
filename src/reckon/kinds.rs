//! What kinds of birds and their builds are called.

use crate::bird::{BuildOf, Kind};
use crate::phrase::{Phrase, kinds as says};

/// A kind of bird.
pub const fn kind(of: Kind) -> Phrase {
    match of {
        Kind::Hen => says::hen(),
        Kind::Cock => says::cock(),
        Kind::Bantam => says::bantam(),
        Kind::Chick => says::chick(),
        Kind::Duck => says::duck(),
        Kind::Goose => says::goose(),
        Kind::Turkey => says::turkey(),
        Kind::Quail => says::quail(),
        Kind::GuineaFowl => says::guinea_fowl(),
    }
}

/// A build within a kind.
pub const fn build(of: BuildOf) -> Phrase {
    match of {
        BuildOf::LightHen => says::light_hen(),
        BuildOf::HeavyHen => says::heavy_hen(),
        BuildOf::LightCock => says::light_cock(),
        BuildOf::HeavyCock => says::heavy_cock(),
        BuildOf::TinyBantam => says::tiny_bantam(),
        BuildOf::LargeBantam => says::large_bantam(),
        BuildOf::SmallDuck => says::small_duck(),
        BuildOf::FarmDuck => says::farm_duck(),
        BuildOf::MuscovyDuck => says::muscovy_duck(),
        BuildOf::MuscovyDrake => says::muscovy_drake(),
        BuildOf::LightGoose => says::light_goose(),
        BuildOf::MiddleGoose => says::middle_goose(),
        BuildOf::HeavyGoose => says::heavy_goose(),
        BuildOf::TurkeyHen => says::turkey_hen(),
        BuildOf::TurkeyStag => says::turkey_stag(),
        BuildOf::SmallQuail => says::small_quail(),
        BuildOf::LargeQuail => says::large_quail(),
        BuildOf::QuailChick => says::quail_chick(),
        BuildOf::ChickNew => says::chick_new(),
        BuildOf::ChickSmall => says::chick_small(),
        BuildOf::ChickBig => says::chick_big(),
    }
}
