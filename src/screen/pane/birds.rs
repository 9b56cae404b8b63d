//! What stands over the birds that are kept, over one bird's case, and over what is written into it.

use crate::content::days::{day, due_line};
use crate::content::document::upper_first;
use crate::days::{cover, due};
use crate::finding::log::Outcome;
use crate::protocol::scale::TALK;
use crate::screen::model::{Model, Overlay};
use crate::screen::update::{Closing, Writing, sure_word};

/// What is asked, and what is told beside it.
pub fn words(model: &Model) -> (String, String) {
    if let Some(writing) = model.writing {
        return match writing {
            Writing::Sure(closing) => sure(model, closing),
            other => asked(other),
        };
    }
    match model.overlays.last() {
        Some(Overlay::Particulars) => (
            "What a vet will ask".into(),
            "What you write stands on the handover sheet; the last one only if you ask.".into(),
        ),
        Some(Overlay::Contacts) => (
            "Whom do you call?".into(),
            "Written down once, for every bird. It stays on this machine, and off the sheet.".into(),
        ),
        Some(Overlay::Flock) => {
            let all = model.flock.all;
            let shown = model.flock.cases.len();
            let more = if all > shown { format!(" The first {shown} are shown.") } else { String::new() };
            let birds = if all == 1 { "1 bird.".to_owned() } else { format!("{all} birds.") };
            ("The birds".into(), format!("{birds}{more} Those due a look come first; each keeps her number."))
        }
        Some(Overlay::Outcomes) => {
            ("How did it end?".into(), "A humane end is told in the plan, and needs a vet.".into())
        }
        Some(Overlay::Death) => (
            "Is she dead? Look twice, some minutes apart.".into(),
            "Dead: no breath, no blink when the edge of the eye is touched, limp. Stiff is sure. Warm and dry a cold or soaked bird first. Our own rule, no source.".into(),
        ),
        Some(Overlay::Parted) => (
            "Another window went on with this bird. With which do you go on?".into(),
            "Both are kept, each as a bird of its own. Nothing is lost.".into(),
        ),
        _ => {
            let bird = upper_first(&model.reader().say(&due::bird(model.protocol, &model.log, &model.days)));
            let need = model.reader().say(&cover::state(model.protocol, &model.log, &model.days, &model.verdict));
            let state = match &model.days.end {
                Some(end) if end.outcome.is_over() => {
                    format!("Closed {}. 8 opens her case again.", day(model.zone, end.at))
                }
                Some(end) => {
                    format!("{} {}. 8 opens her case again.", upper_first(end.outcome.words()), day(model.zone, end.at))
                }
                None if model.days.archived => "Put away: no look is called. 8 opens her case again.".into(),
                None => due_line(&model.due).map_or_else(|| "No look is due.".into(), |told| model.reader().say(&told)),
            };
            let talk = talk(model).map_or_else(String::new, |talk| format!("{talk} "));
            (format!("{bird}: {need}"), talk + &state)
        }
    }
}

/// Whom to talk to, where a humane end is advised for her and her case is not over.
fn talk(model: &Model) -> Option<&'static str> {
    model.verdict.humane.low.advice().filter(|_| model.days.over().is_none()).map(|_| TALK)
}

/// What is asked before a case is closed or put away.
fn sure(model: &Model, closing: Closing) -> (String, String) {
    let bird = upper_first(&model.reader().say(&due::bird(model.protocol, &model.log, &model.days)));
    let ask = match closing {
        Closing::Ended(Outcome::HumaneEnd) => format!("{bird}: her life was ended?"),
        Closing::Ended(_) => format!("{bird}: she died?"),
        Closing::Away => format!("{bird}: put her case away?"),
    };
    let then = match closing {
        Closing::Ended(_) => "closes her case. No look is called after it.",
        Closing::Away => "puts it out of sight. No look is called after it.",
    };
    (ask, format!("Type {} and press enter: it {then} Esc goes back.", sure_word(model, closing)))
}

/// What is asked where something is written.
pub fn asked(writing: Writing) -> (String, String) {
    let (ask, look) = match writing {
        Writing::Noted(what) => return (format!("{}?", upper_first(what.words())), what.ask().to_owned()),
        Writing::Contact(whom) => {
            let look = "Name and number, as you dial it. Nothing typed takes it out.";
            return (format!("{}?", upper_first(whom.words())), look.to_owned());
        }
        Writing::Name => ("What is she called?", "A name, a ring or a leg band."),
        Writing::VetSaid => (
            "What did the vet say?",
            "Drug, amount, how often; when eggs and meat are free again. Nothing typed takes the last word back.",
        ),
        // Asked with the bird before one: see above.
        Writing::Sure(_) => ("Type her name.", ""),
        Writing::Proved(_) => ("What proved right or wrong?", "For the next bird. Enter alone leaves it out."),
        Writing::Novice => ("Who practises?", "A name for the marks; they stay on this machine."),
        Writing::Letters => ("Which birds?", "Letters of the name, the kind, or how soon. Enter alone shows all."),
    };
    (ask.to_owned(), look.to_owned())
}

/// The birds that wait for a look, for the start: each with what was missed.
pub fn waiting(model: &Model) -> Vec<String> {
    let due = model.flock.waiting.birds.iter().filter(|waiting| waiting.at <= model.now);
    due.map(|waiting| {
        let missed = match waiting.missed {
            0 => String::new(),
            1 => ", 1 look missed".to_owned(),
            more => format!(", {more} looks missed"),
        };
        let at = day(model.zone, waiting.at);
        let what = if waiting.unexamined { "not examined to the end, since" } else { "look due since" };
        format!("{}: {what} {at}{missed}", upper_first(&model.reader().say(&waiting.bird)))
    })
    .collect()
}
