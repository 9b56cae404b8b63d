//! What a measure means, in words: the line that was crossed, how a rate stands, what a window is for.

use crate::measure::blood;
use crate::measure::breath::Against;
use crate::measure::elapsed::Window;
use crate::measure::fluid::Unsafe;
use crate::measure::skin;
use crate::measure::trend::Step;
use crate::phrase::{Phrase, measure};

/// The line a loss of blood has crossed; never a licence. Without a vet's clock where no vet can be reached: how grave it is
/// stands with the need.
pub const fn blood(line: blood::Line, no_vet: bool) -> Phrase {
    use blood::Line;
    match (line, no_vet) {
        (Line::Little, _) => measure::blood_little(),
        (Line::SixThousandths, false) => measure::blood_six_thousandths(),
        (Line::Tenth, false) => measure::blood_tenth(),
        (Line::Hundredth, false) => measure::blood_hundredth(),
        (Line::Fifth, false) => measure::blood_fifth(),
        (Line::ThreeTenths, false) => measure::blood_three_tenths(),
        (Line::Half, false) => measure::blood_half(),
        (Line::SixThousandths, true) => measure::blood_six_thousandths_alone(),
        (Line::Tenth, true) => measure::blood_tenth_alone(),
        (Line::Hundredth, true) => measure::blood_hundredth_alone(),
        (Line::Fifth, true) => measure::blood_fifth_alone(),
        (Line::ThreeTenths, true) => measure::blood_three_tenths_alone(),
        (Line::Half, true) => measure::blood_half_alone(),
    }
}

/// The line that open skin has crossed.
pub const fn skin(line: skin::Line) -> Phrase {
    use skin::Line;
    match line {
        Line::Little => measure::skin_little(),
        Line::Two => measure::skin_two(),
        Line::Five => measure::skin_five(),
        Line::Ten => measure::skin_ten(),
    }
}

/// How a rate of breath stands to what is published; never "fine", for a number alone clears no bird.
pub const fn breaths(against: Against) -> Phrase {
    match against {
        Against::Slower => measure::breaths_slower(),
        Against::Within => measure::breaths_within(),
        Against::Faster => measure::breaths_faster(),
        Against::Edge => measure::breaths_edge(),
    }
}

/// What a loss of weight calls for; without a vet's clock where no vet can be reached.
pub const fn weight(step: Step, no_vet: bool) -> Phrase {
    match (step, no_vet) {
        (Step::Noise, _) => measure::weight_noise(),
        (Step::Some, _) => measure::weight_some(),
        (Step::Twentieth, _) => measure::weight_twentieth(),
        (Step::Tenth, false) => measure::weight_tenth(),
        (Step::Fifteen, false) => measure::weight_fifteen(),
        (Step::Fifth, false) => measure::weight_fifth(),
        (Step::Tenth, true) => measure::weight_tenth_alone(),
        (Step::Fifteen, true) => measure::weight_fifteen_alone(),
        (Step::Fifth, true) => measure::weight_fifth_alone(),
    }
}

/// Why nothing may go by mouth, in everyday words.
pub const fn mouth(why: Unsafe) -> Phrase {
    match why {
        Unsafe::Cold => measure::mouth_cold(),
        Unsafe::Limp => measure::mouth_limp(),
        Unsafe::Fitting => measure::mouth_fitting(),
        Unsafe::Breathless => measure::mouth_breathless(),
        Unsafe::HeadDown => measure::mouth_head_down(),
        Unsafe::CropFull => measure::mouth_crop_full(),
        Unsafe::NeckHurt => measure::mouth_neck_hurt(),
        Unsafe::OnHerSide => measure::mouth_on_her_side(),
    }
}

/// What a window of hours is for.
pub const fn window(window: Window) -> Phrase {
    match window {
        Window::Closing => measure::window_closing(),
        Window::Bite => measure::window_bite(),
        Window::Nerves => measure::window_nerves(),
    }
}
