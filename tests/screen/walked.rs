//! How many keys and words it takes: every scripted bird and two hundred drawn ones are looked over by somebody who sees what is so
//! of them and presses no wrong key. No person took part.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::walk::Walk;
use crate::common::{PROTOCOL, count, long};
use coopside::exam::Place;
use coopside::finding::{About, Answer, Findings};
use coopside::practice::{self, DrawnTexts, Script, Wanted, draw};
use coopside::view::meaning::Meaning;
use coopside::view::rows::page;

/// What one look-over took.
#[derive(Clone, Copy, Debug, Default)]
struct Took {
    keys: usize,
    words: usize,
}

/// A bird looked over to the end.
struct Walked {
    /// Up to the first instruction; none where nothing calls for one.
    first: Option<Took>,
    /// Up to what cannot wait, or to "go now"; none where no vet is needed at once, or none is in reach.
    go: Option<Took>,
    /// Up to the end.
    end: Took,
    /// How much is wrong with her.
    wrong: usize,
}

fn truth(findings: &Findings, about: About, question: &str) -> Option<Answer> {
    findings.answer(about, question).map(|said| said.statement.answer.clone())
}

/// Answers what is asked as it is.
fn answer(walk: &mut Walk, findings: &Findings) {
    match walk.session.exam.place.clone() {
        Place::Done => {}
        Place::Instruction(..) => {
            // It is done as long as it takes.
            walk.wait(601).fine();
        }
        Place::Wounds => {
            let more = walk.session.exam.findings.wounds() < findings.wounds();
            walk.press(if more { "1" } else { "a" });
        }
        Place::List(list) => {
            let seen = walk.session.exam.signs(list).into_iter().find_map(|asked| {
                let question = PROTOCOL.ask(asked.question);
                let is = truth(findings, asked.about, question.id.as_str())?;
                let fine = question.first_answer();
                let new = Some(&is) != fine.as_ref() && walk.session.exam.said_now(asked) != Some(&is);
                let Answer::Choice(id) = is else { return None };
                (new && page_holds(walk, question.id.as_str(), id.as_str()))
                    .then(|| (question.id.to_string(), id.to_string()))
            });
            match seen {
                Some((question, id)) => walk.say(&question, &id),
                None => walk.press("a"),
            };
        }
        Place::Ask(asked) => {
            let question = PROTOCOL.ask(asked.question);
            match truth(findings, asked.about, question.id.as_str()) {
                Some(Answer::Choice(id)) if !question.is_weight() => walk.say(question.id.as_str(), id.as_str()),
                Some(Answer::CannotTell | Answer::Amount(_) | Answer::Figure(_) | Answer::Choice(_)) => walk.press("0"),
                None => walk.press("n"),
            };
        }
    }
}

/// Whether the page that shows has a line for this answer.
fn page_holds(walk: &Walk, question: &str, id: &str) -> bool {
    page(&walk.session).iter().any(|row| match &row.meaning {
        Meaning::Sign(asked, Answer::Choice(is)) => PROTOCOL.ask(asked.question).id == *question && *is == *id,
        _ => false,
    })
}

fn walked(findings: &Findings) -> Walked {
    let mut walk = Walk::new();
    let (mut first, mut go, mut took) = (None, None, Took::default());
    let mut shown = String::new();
    for _ in 0..150 {
        let frame = walk.frame(40, 20);
        if frame != shown {
            took.words += frame.split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric)).count();
            shown = frame;
        }
        let instructs = matches!(walk.session.exam.place, Place::Instruction(..));
        if instructs && first.is_none() {
            first = Some(took);
        }
        if walk.session.enough_told && go.is_none() {
            go = Some(took);
        }
        if walk.session.exam.place == Place::Done {
            let wrong = findings_wrong(findings);
            return Walked { first, go, end: took, wrong };
        }
        let before = walk.keys;
        answer(&mut walk, findings);
        took.keys += walk.keys - before;
    }
    panic!("it never ends; at {}", walk.asked())
}

fn findings_wrong(findings: &Findings) -> usize {
    let signs = PROTOCOL.questions.iter().filter(|question| {
        let is = truth(findings, About::Bird, question.id.as_str());
        question.shown_if.is_none() && question.as_always().is_some_and(|fine| is.is_some_and(|is| is != fine))
    });
    signs.count() + findings.wounds()
}

/// The middle and the most of some.
fn told(mut of: Vec<Took>) -> String {
    of.sort_unstable_by_key(|took| took.keys);
    let keys: Vec<usize> = of.iter().map(|took| took.keys).collect();
    let mut words: Vec<usize> = of.iter().map(|took| took.words).collect();
    words.sort_unstable();
    let (middle, last) = (of.len() / 2, of.len().saturating_sub(1));
    let at = |list: &[usize], at: usize| list.get(at).copied().unwrap_or(0);
    format!(
        "{} birds, keys {} to {}, middle {}; words {} to {}, middle {}",
        of.len(),
        at(&keys, 0),
        at(&keys, last),
        at(&keys, middle),
        at(&words, 0),
        at(&words, last),
        at(&words, middle)
    )
}

#[test]
fn keys_and_words_to_an_instruction_to_going_and_to_the_end_are_counted() {
    let read = |(name, text): (&str, &str)| {
        Script::read(&PROTOCOL, name, name, text).unwrap_or_else(|faults| panic!("\n{faults}")).findings
    };
    // In the long form every scripted bird and two hundred drawn ones.
    let drawn = (0..count(6, 200))
        .map(|seed| draw(&PROTOCOL, seed, Wanted::default()).unwrap_or_else(|error| panic!("{error:?}")));
    let mut birds: Vec<Findings> = practice::shipped().into_iter().step_by(count(24, 1)).map(read).collect();
    birds.extend(drawn.map(|drawn| drawn.said(DrawnTexts::default()).findings));
    let all: Vec<Walked> = birds.iter().map(walked).collect();
    let of = |pick: &dyn Fn(&Walked) -> Option<Took>| told(all.iter().filter_map(pick).collect());
    let counted = [
        format!("to the first instruction: {}", of(&|bird| bird.first)),
        format!("to what cannot wait before one goes: {}", of(&|bird| bird.go)),
        format!("to the end, nothing or one thing wrong: {}", of(&|bird| (bird.wrong <= 1).then_some(bird.end))),
        format!("to the end, more wrong: {}", of(&|bird| (bird.wrong > 1).then_some(bird.end))),
    ];
    println!("{}", counted.join("\n"));
    if !long() {
        insta::assert_snapshot!(counted.join("\n"));
    }
}
