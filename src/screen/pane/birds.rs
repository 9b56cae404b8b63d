//! What stands over the birds that are kept, over one bird's case, and over what is written into it.

use crate::days::{due, since_vet};
use crate::handover::days::due_line;
use crate::handover::document::upper_first;
use crate::judge::brief;
use crate::screen::model::{Model, Overlay};
use crate::screen::update::Writing;

/// What is asked, and what is told beside it.
pub fn words(model: &Model) -> (String, String) {
    if let Some(writing) = model.writing {
        return asked(writing);
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
            ("The birds".into(), format!("{birds}{more} Those due a look come first, from line 4 on."))
        }
        Some(Overlay::Outcomes) => {
            ("How did it end?".into(), "A humane end is told in the plan, and needs a vet.".into())
        }
        Some(Overlay::Parted) => (
            "Another window went on with this bird. With which do you go on?".into(),
            "Both are kept, each as a bird of its own. Nothing is lost.".into(),
        ),
        _ => {
            let bird = upper_first(&due::bird(model.protocol, &model.log, &model.days));
            let vet = since_vet(model.protocol, &model.log, &model.days);
            let vet = vet.map_or_else(String::new, |vet| format!("; {}", vet.words()));
            let need = brief(model.verdict.need) + &vet;
            let state = match &model.days.end {
                Some(end) => end.outcome.words().to_owned(),
                None => due_line(&model.due, model.zone).unwrap_or_else(|| "No look is due.".into()),
            };
            (format!("{bird}: {need}"), state)
        }
    }
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
        Writing::Proved(_) => ("What proved right or wrong?", "For the next bird. Enter alone leaves it out."),
        Writing::Novice => ("Who practises?", "A name for the marks; they stay on this machine."),
        Writing::Letters => ("Which birds?", "Letters of the name, the kind, or how soon. Enter alone shows all."),
    };
    (ask.to_owned(), look.to_owned())
}

/// The birds that wait for a look, for the start: each with what was missed.
pub fn waiting(model: &Model) -> Vec<String> {
    let due = model.flock.waiting.iter().filter(|waiting| waiting.at <= model.now);
    due.map(|waiting| {
        let missed = match waiting.missed {
            0 => String::new(),
            1 => ", 1 look missed".to_owned(),
            more => format!(", {more} looks missed"),
        };
        let at = crate::handover::days::day(model.zone, waiting.at);
        format!("{}: look due since {at}{missed}", upper_first(&waiting.bird))
    })
    .collect()
}
