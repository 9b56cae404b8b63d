//! What besides the signs is written down of a bird: what each is called, and how it is asked.

use crate::finding::particular::Particular;
use crate::phrase::{Phrase, particulars as says};

/// What it is called.
pub const fn name(of: Particular) -> Phrase {
    match of {
        Particular::Breed => says::breed(),
        Particular::Age => says::age(),
        Particular::Sex => says::sex(),
        Particular::Laying => says::laying(),
        Particular::Flock => says::flock(),
        Particular::Vaccines => says::vaccines(),
        Particular::Witness => says::witness(),
        Particular::Given => says::given(),
        Particular::Done => says::done(),
        Particular::NotDone => says::not_done(),
        Particular::EggsWithheld => says::eggs_withheld(),
        Particular::Wants => says::wants(),
        Particular::Photos => says::photos(),
        Particular::Intake => says::intake(),
        Particular::Keeper => says::keeper(),
    }
}

/// How it is asked, with an example.
pub const fn ask(of: Particular) -> Phrase {
    match of {
        Particular::Breed => says::ask_breed(),
        Particular::Age => says::ask_age(),
        Particular::Sex => says::ask_sex(),
        Particular::Laying => says::ask_laying(),
        Particular::Flock => says::ask_flock(),
        Particular::Vaccines => says::ask_vaccines(),
        Particular::Witness => says::ask_witness(),
        Particular::Given => says::ask_given(),
        Particular::Done => says::ask_done(),
        Particular::NotDone => says::ask_not_done(),
        Particular::EggsWithheld => says::ask_eggs_withheld(),
        Particular::Wants => says::ask_wants(),
        Particular::Photos => says::ask_photos(),
        Particular::Intake => says::ask_intake(),
        Particular::Keeper => says::ask_keeper(),
    }
}
