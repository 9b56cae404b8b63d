//! Every scene as lines. What a drawing shows is said in the words beside it.

use super::line::{Saying, SpokenLine};
use crate::content::document::{Item, Section};
use crate::phrase::{Text, spoken as phrase};
use crate::render::speech;
use crate::view::Scene;
use crate::view::body::PictureView;
use crate::view::card::{CardLine, CardView, LineStanding};
use crate::view::choices::{ChoiceView, ChoicesView};
use crate::view::entering::{BloodView, BreathsView, EnteringView, PickView, PoolView, VeinView};
use crate::view::help::{HelpAsked, HelpView};
use crate::view::instruction::InstructionView;
use crate::view::question::{Answering, QuestionView, TypingView, WaitsView};
use crate::view::read::{DocumentView, ItemView, SectionView};
use crate::view::sums::{SumView, SumsView, ValuesView};
use crate::view::why::{ReasonView, WhyView};
use crate::words::Reader;

/// A scene as lines.
pub fn lines(scene: &Scene, reader: Reader) -> Vec<SpokenLine> {
    let mut told = Saying::new(reader);
    match scene {
        Scene::Question(asked) => question(asked, &mut told),
        Scene::Sums(SumsView::List { ask, choices }) => {
            told.add(ask);
            of_choices(choices, &mut told);
        }
        Scene::Sums(SumsView::Sum(sum)) => of_sum(sum, &mut told),
        Scene::Entering(EnteringView::Blood(entered)) => blood(entered, &mut told),
        Scene::Entering(EnteringView::Breaths(entered)) => breaths(entered, &mut told),
        Scene::Entering(EnteringView::Vein(entered)) => vein(entered, &mut told),
        Scene::Instruction(instruction) => instructs(instruction, &mut told),
        Scene::Card(card) => card.iter().for_each(|card| of_card(card, &mut told)),
        Scene::Document(document) => of_document(document, reader, &mut told),
        Scene::Why(why) => of_why(why, &mut told),
        Scene::Help(help) => of_help(help, &mut told),
    }
    told.done()
}

fn question(asked: &QuestionView, told: &mut Saying) {
    let QuestionView {
        spared,
        ask,
        look,
        terms,
        shown,
        asked_again: _,
        last_time,
        answered,
        waits,
        no_longer_weighs,
        echo,
        caution,
    } = asked;
    // With the key that takes it back it is one thought.
    told.as_one(echo.as_deref());
    told.all(spared);
    told.add(ask);
    told.all(shown);
    told.add(look);
    told.once(terms);
    told.all(last_time);
    told.all(no_longer_weighs);
    match answered {
        Answering::Typing(typing) => of_typing(typing, None, told),
        Answering::Choosing(choices) | Answering::OnHer(choices, PictureView { views: _, told: _ }) => {
            of_choices(choices, told);
        }
    }
    if let Some(WaitsView { left, due, more }) = waits {
        if let Some((key, left)) = left {
            told.say(&phrase::answer(Text::typed(key), Text::typed(left)));
        }
        if let Some((key, due)) = due {
            let due = due.join(" ");
            told.say(&phrase::answer(Text::typed(key), Text::typed(due)));
        }
        told.all(more);
    }
    told.all(caution);
}

fn of_choices(choices: &ChoicesView, told: &mut Saying) {
    let ChoicesView { lines, cannot_look, cannot_tell, more } = choices;
    for choice in lines {
        let ChoiceView { key, numbered: _, label, marked, faint: _ } = choice;
        answer(key, label, *marked, told);
    }
    if let Some(cannot) = cannot_look {
        answer("0", cannot, false, told);
    }
    if let Some((marked, cannot)) = cannot_tell {
        answer("0", cannot, *marked, told);
    }
    if let Some((key, more)) = more {
        answer(key, more, false, told);
    }
}

/// An answer is one thought, whatever it says.
fn answer(key: &str, says: &str, marked: bool, told: &mut Saying) {
    let line = phrase::answer(Text::typed(key), Text::typed(says));
    let line = if marked { phrase::marked(line) } else { line };
    told.whole(&line);
}

fn of_typing(typing: &TypingView, example: Option<&String>, told: &mut Saying) {
    let TypingView { label: _, before, after, read } = typing;
    let typed = format!("{before}{after}");
    if !typed.is_empty() {
        told.whole(&phrase::typed(Text::typed(typed)));
    }
    told.all(read.iter().chain(example));
    told.type_it();
}

fn of_sum(sum: &SumView, told: &mut Saying) {
    let SumView { about, values, answer, notes, fault, caution } = sum;
    told.add(about);
    told.all(answer);
    told.all(notes);
    told.all(fault);
    match values {
        ValuesView::Choosing(choices) => of_choices(choices, told),
        ValuesView::Typing(what, typing, example) => {
            told.add(what);
            of_typing(typing, example.as_ref(), told);
        }
    }
    told.add(caution);
}

fn blood(entered: &BloodView, told: &mut Saying) {
    let BloodView { ask, look, pick, before, seen, sum } = entered;
    told.all(before);
    told.all(seen);
    if let Some((with_this, sum)) = sum {
        told.all(with_this);
        told.add(sum);
    }
    told.add(ask);
    told.all(look);
    match pick {
        PickView::Choosing(choices) => of_choices(choices, told),
        PickView::Full(full) => {
            for (at, (_, says)) in (1..).zip(full) {
                answer(&format!("{at}"), says, false, told);
            }
        }
        PickView::Width(choices, PoolView { width_cm: _, told: sizes }) => {
            told.add(sizes);
            of_choices(choices, told);
        }
        PickView::Typing(typing, example) => of_typing(typing, Some(example), told),
    }
}

fn breaths(entered: &BreathsView, told: &mut Saying) {
    let BreathsView { ask, look, counted, heading, over, no_breath, counts, sum, held, once_more } = entered;
    told.add(ask);
    told.add(look);
    if over.is_none() {
        // The count runs: nothing is said into it.
        told.all_ticks(counted);
        told.tick(heading);
        told.say(&phrase::tap());
    } else {
        told.add(heading);
    }
    told.all(over);
    told.all(no_breath);
    told.all(counts);
    told.all(sum);
    told.all(held);
    told.all(once_more);
}

fn vein(entered: &VeinView, told: &mut Saying) {
    let VeinView { ask, look, seconds, meaning, heading } = entered;
    told.add(ask);
    told.add(look);
    told.all_ticks(seconds);
    told.all(meaning);
    told.add(heading);
}

fn instructs(instruction: &InstructionView, told: &mut Saying) {
    let InstructionView { title, timer, acts, numbers, nevers, after, not_looked } = instruction;
    told.heading(title);
    told.all_ticks(timer);
    for (number, (say, how)) in (1_u32..).zip(acts) {
        told.say(&crate::phrase::speech::act(number, Text::typed(say)));
        told.add(how);
    }
    told.all(numbers);
    told.all(nevers);
    told.all(after);
    told.all(not_looked.iter().map(|(in_full, _)| in_full));
}

fn of_card(card: &CardView, told: &mut Saying) {
    let CardView { title, opens, first, lines, nevers, caution } = card;
    told.add(title);
    told.all(opens);
    told.all(first);
    for line in lines {
        let CardLine { digit, say, call, at, standing, nevers } = line;
        let line = phrase::answer(Text::typed(digit.to_string()), Text::typed(say));
        told.whole(&match (standing, at) {
            (LineStanding::Done, Some(at)) => phrase::done_at(line, Text::typed(at)),
            (LineStanding::Done, None) => phrase::done(line),
            (LineStanding::Here | LineStanding::Open, _) => line,
        });
        told.all(call);
        told.all(nevers);
    }
    told.all(nevers);
    told.add(caution);
}

fn of_document(document: &DocumentView, reader: Reader, told: &mut Saying) {
    let DocumentView { sections, need: _, folds_after: _ } = document;
    for section in sections {
        // The table under its heading tells each figure that is drawn.
        let SectionView { heading, tone, graph: _, items } = section;
        let mut clocks = Vec::new();
        let item = |item: &ItemView| {
            let ItemView { lead, more, timed, picture: _ } = item;
            clocks.extend(timed.clone());
            Item { lead: lead.clone(), more: more.clone(), ..Item::default() }
        };
        let items = items.iter().map(item).collect();
        let section = Section { heading: heading.clone(), tone: *tone, items };
        told.ready(speech::lines(&[section], reader));
        told.all_ticks(&clocks);
    }
}

fn of_why(why: &WhyView, told: &mut Saying) {
    let WhyView { title, told: lines, reasons, caution } = why;
    told.heading(title);
    told.all(lines);
    for ReasonView { headline, leads_to, labels } in reasons {
        told.add(headline);
        told.all(leads_to);
        told.all(labels);
    }
    told.add(caution);
}

fn of_help(help: &HelpView, told: &mut Saying) {
    // Marks stand beside lines that are drawn: here words stand in their place.
    let HelpView { asked, heading, keys, marks_heading: _, marks: _, caution } = help;
    if let Some(HelpAsked { ask, look, signs, terms }) = asked {
        told.add(ask);
        told.add(look);
        told.all(signs);
        told.all(terms);
    }
    told.heading(heading);
    for (keys, does) in keys {
        told.whole(&phrase::answer(Text::typed(keys), Text::typed(does)));
    }
    told.add(caution);
}
