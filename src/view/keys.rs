//! The one key table: behaviour, footer, help and the key page are all read from it.

use crate::content::keys::KeyTold;
use crate::phrase::{Phrase, Text, keys as told};
use crate::session::context::Context;
use crate::session::line::Edit;
use crate::words::{self, Words};
use crate::zone::Zone;
use std::fmt::Write;

/// A key as this program knows it; the shell translates the terminal's own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Key {
    /// A printing key.
    Char(char),
    /// Enter.
    Enter,
    /// Backspace.
    Backspace,
    /// Escape.
    Escape,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
    /// To the beginning.
    Home,
    /// To the end.
    End,
    /// Delete.
    Delete,
    /// Tab.
    Tab,
    /// Tab with shift.
    BackTab,
    /// Control with a letter; only as a second way to something that has a plain key.
    Control(char),
}

impl Key {
    /// The key in print.
    pub fn show(self) -> Text {
        match self {
            Self::Char(' ') => told::space().into(),
            Self::Char(c) => Text::typed(String::from(c)),
            Self::Enter => told::enter().into(),
            Self::Backspace => told::backspace().into(),
            Self::Escape => told::escape().into(),
            Self::Up => told::up().into(),
            Self::Down => told::down().into(),
            Self::Left => told::left().into(),
            Self::Right => told::right().into(),
            Self::PageUp => told::page_up().into(),
            Self::PageDown => told::page_down().into(),
            Self::Home => told::home().into(),
            Self::End => told::end().into(),
            Self::Delete => told::delete().into(),
            Self::Tab => told::tab().into(),
            Self::BackTab => told::back_tab().into(),
            Self::Control(c) => told::control(Text::typed(String::from(c))).into(),
        }
    }
}

/// Why a key was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Untaken {
    /// What it would answer was not on screen yet.
    TooSoon,
    /// The screen is too small to show what it would answer.
    NotShown,
}

/// A way to move over the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Toward {
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// What a key does. The order here is the order of footer and help.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Action {
    /// Puts an instruction aside and goes on.
    GoOn,
    /// Goes on asking, where it is said that enough is known.
    AskOn,
    /// Ticks the next line of a card off.
    Tick,
    /// Turns to the next card.
    NextCard,
    /// Turns to the card before.
    CardBefore,
    /// Asks what an instruction lets ask while it runs.
    Beside,
    /// Takes what was typed, tapped or timed.
    Accept,
    /// A tap.
    Tap,
    /// Sets how long a count runs.
    Over,
    /// Chooses the row the cursor stands on.
    Choose,
    /// Takes back the last answer.
    Back,
    /// Leaves an overlay, the typing or a document.
    Close,
    /// Moves or erases in the line that is typed.
    Edit(Edit),
    /// Opens the danger signs.
    Emergency,
    /// Opens the plan.
    Plan,
    /// Says that nobody looked: the question stays open.
    Skip,
    /// Puts the bird down, or takes her up.
    Hands,
    /// Opens the verdict so far.
    Verdict,
    /// Tells why.
    Why,
    /// Opens the steps.
    Map,
    /// Opens the countries.
    Law,
    /// Opens what all of it rests on.
    Basis,
    /// Turns to the question that would settle most.
    Telling,
    /// Opens the sums.
    Sums,
    /// Opens what can be done to the practice bird.
    Do,
    /// Gives a verdict of one's own.
    Judge,
    /// Skips some time of a practice go.
    Later,
    /// Opens the handover sheet; there, writes it to a file.
    HandOver,
    /// Opens what is in the house.
    House,
    /// Opens her case, or the list of all birds.
    Birds,
    /// Shows her drawn, with her wounds.
    OnHer,
    /// Types the date of what was put in last.
    Date,
    /// Shows whom to call.
    Contacts,
    /// On the sheet: tells who keeps her, or not.
    Names,
    /// Starts the clock of a step, or ends it.
    Clock,
    /// Goes on with the bird that was left.
    Resume,
    /// Shows more.
    More,
    /// Moves the cursor up.
    Up,
    /// Moves the cursor down.
    Down,
    /// Moves the cursor over the drawing.
    Across(Toward),
    /// A page back.
    PageUp,
    /// To the first line.
    First,
    /// To the last line.
    Last,
    /// Answers with the row of this number.
    Answer,
    /// Answers "I looked: as always".
    AsAlways,
    /// Answers "cannot tell".
    CannotTell,
    /// Opens help.
    Help,
    /// Draws everything again.
    Redraw,
    /// Steps aside for the shell.
    Suspend,
    /// Leaves the program.
    Leave,
}

/// Where a key is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Show {
    /// In the footer however narrow it is.
    Always,
    /// In the footer while there is room.
    Footer,
    /// Only in help.
    Help,
}

/// One row of the table.
#[derive(Clone, Copy, Debug)]
pub struct Binding {
    /// What happens.
    pub action: Action,
    /// The keys, the first being the one that is shown where none is handier.
    pub keys: &'static [Key],
    /// Where they work.
    pub contexts: &'static [Context],
    /// What it does, in at most ten columns.
    pub hint: fn() -> Phrase,
    /// What it does, in one sentence.
    pub about: fn() -> Phrase,
    /// Where it is shown.
    pub show: Show,
}

impl Binding {
    /// The key as the footer shows it.
    pub fn label(&self) -> Text {
        match self.action {
            Action::Answer => told::figures().into(),
            Action::Over => told::figures_over().into(),
            _ => self.keys.first().map_or_else(Text::default, |key| key.show()),
        }
    }

    /// All its keys in print.
    pub fn shown_keys(&self) -> Text {
        match self.action {
            Action::Answer => self.label(),
            _ => Text::list(self.keys.iter().map(|key| key.show())),
        }
    }
}

use Context::{
    Adding, Ask, Birds, Body, Countries, Course, Help, House, Instruction, List, Look, Map, Page, Plan, Practice, Sums,
    Tapping, Typing, Verdict, Why, Wounds,
};
use Key::{Backspace, Char, Control, Delete, Down, End, Enter, Escape, Home, Left, PageDown, PageUp, Right, Up};

const DIGITS: &[Key] =
    &[Char('1'), Char('2'), Char('3'), Char('4'), Char('5'), Char('6'), Char('7'), Char('8'), Char('9')];

/// The table. Each row is needed once; nothing else in the program names a key.
#[rustfmt::skip]
pub const TABLE: &[Binding] = &[
    Binding { action: Action::GoOn, keys: &[Enter], contexts: &[Instruction], hint: told::hint_done, about: told::does_go_on, show: Show::Always },
    Binding { action: Action::AskOn, keys: &[Char('q')], contexts: &[Instruction], hint: told::hint_ask_on, about: told::does_ask_on, show: Show::Always },
    Binding { action: Action::Tick, keys: &[Enter], contexts: &[Course], hint: told::hint_done, about: told::does_tick, show: Show::Always },
    Binding { action: Action::NextCard, keys: &[Char(' '), Right, PageDown], contexts: &[Course], hint: told::hint_next_card, about: told::does_next_card, show: Show::Always },
    Binding { action: Action::CardBefore, keys: &[PageUp, Up, Char('k')], contexts: &[Course], hint: told::hint_card_before, about: told::does_card_before, show: Show::Help },
    Binding { action: Action::Beside, keys: &[Char('o')], contexts: &[Instruction], hint: told::hint_where, about: told::does_beside, show: Show::Always },
    Binding { action: Action::Accept, keys: &[Enter], contexts: &[Typing], hint: told::hint_take_it, about: told::does_accept_typing, show: Show::Always },
    Binding { action: Action::Tap, keys: &[Char(' '), Down, Up, PageDown, Char('j'), Char('k'), Char('n'), Char('m'), Char('f'), Char('d'), Char('s'), Char('a'), Char('t')], contexts: &[Tapping], hint: told::hint_tap, about: told::does_tap, show: Show::Always },
    Binding { action: Action::Accept, keys: &[Enter], contexts: &[Tapping], hint: told::hint_take_it, about: told::does_accept_tapping, show: Show::Always },
    Binding { action: Action::Over, keys: &[Char('1'), Char('2'), Char('3')], contexts: &[Tapping], hint: told::hint_over, about: told::does_over, show: Show::Footer },
    Binding { action: Action::Choose, keys: &[Enter], contexts: &[List, Ask, Body, Wounds, Map, Countries, Adding, Sums, House, Birds, Look, Practice], hint: told::hint_choose, about: told::does_choose, show: Show::Help },
    Binding { action: Action::Back, keys: &[Char('b'), Escape, Backspace], contexts: &[List, Ask, Wounds, Instruction, Look], hint: told::hint_back, about: told::does_back, show: Show::Always },
    Binding { action: Action::Back, keys: &[Char('b'), Escape, Backspace], contexts: &[Body], hint: told::hint_back, about: told::does_back, show: Show::Always },
    Binding { action: Action::Close, keys: &[Char('b'), Escape, Left, Backspace, Char('h'), Char('?')], contexts: &[Help], hint: told::hint_back, about: told::does_close_verdict, show: Show::Always },
    Binding { action: Action::Close, keys: &[Char('b'), Escape, Left, Backspace], contexts: &[Course, Verdict, Plan, Map, Why, Countries, Sums, House, Birds, Practice, Page, Adding, Tapping], hint: told::hint_back, about: told::does_close_verdict, show: Show::Always },
    Binding { action: Action::Close, keys: &[Escape], contexts: &[Typing], hint: told::hint_back, about: told::does_close_typing, show: Show::Always },
    Binding { action: Action::Edit(Edit::Erase), keys: &[Backspace, Control('h')], contexts: &[Typing], hint: told::hint_erase, about: told::does_erase, show: Show::Footer },
    Binding { action: Action::Edit(Edit::Back), keys: &[Left, Control('b')], contexts: &[Typing], hint: told::hint_left, about: told::does_line_back, show: Show::Help },
    Binding { action: Action::Edit(Edit::On), keys: &[Right, Control('f')], contexts: &[Typing], hint: told::hint_right, about: told::does_line_on, show: Show::Help },
    Binding { action: Action::Edit(Edit::Start), keys: &[Home, Control('a')], contexts: &[Typing], hint: told::hint_line_start, about: told::does_line_start, show: Show::Help },
    Binding { action: Action::Edit(Edit::End), keys: &[End, Control('e')], contexts: &[Typing], hint: told::hint_line_end, about: told::does_line_end, show: Show::Help },
    Binding { action: Action::Edit(Edit::EraseAfter), keys: &[Delete, Control('d')], contexts: &[Typing], hint: told::hint_erase, about: told::does_erase_after, show: Show::Help },
    Binding { action: Action::Edit(Edit::EraseWord), keys: &[Control('w')], contexts: &[Typing], hint: told::hint_erase, about: told::does_erase_word, show: Show::Help },
    Binding { action: Action::Edit(Edit::EraseAll), keys: &[Control('u')], contexts: &[Typing], hint: told::hint_erase, about: told::does_erase_all, show: Show::Help },
    Binding { action: Action::Emergency, keys: &[Char('e')], contexts: &[Course, List, Ask, Body, Wounds, Instruction, Verdict, Plan, Map, Why, Help, Countries, Sums, House, Birds, Look, Practice, Page, Adding, Tapping], hint: told::hint_emergency, about: told::does_emergency, show: Show::Always },
    Binding { action: Action::Do, keys: &[Char('d')], contexts: &[Look], hint: told::hint_do, about: told::does_do, show: Show::Always },
    Binding { action: Action::Judge, keys: &[Char('v')], contexts: &[Look], hint: told::hint_my_verdict, about: told::does_judge, show: Show::Always },
    Binding { action: Action::Later, keys: &[Char('t')], contexts: &[Look], hint: told::hint_later, about: told::does_later, show: Show::Footer },
    Binding { action: Action::Plan, keys: &[Char('d')], contexts: &[Course], hint: told::hint_whole_plan, about: told::does_whole_plan, show: Show::Footer },
    Binding { action: Action::Plan, keys: &[Char('d')], contexts: &[List, Ask, Body, Wounds, Instruction, Verdict], hint: told::hint_plan, about: told::does_plan, show: Show::Footer },
    Binding { action: Action::Clock, keys: &[Char('t')], contexts: &[Plan], hint: told::hint_clock, about: told::does_clock_plan, show: Show::Footer },
    Binding { action: Action::Clock, keys: &[Char('t')], contexts: &[Course, List, Ask, Body, Wounds, Instruction, Verdict, Map, Why, Help, Countries, Sums, House, Birds, Page, Adding], hint: told::hint_end_clock, about: told::does_clock_list, show: Show::Footer },
    Binding { action: Action::Skip, keys: &[Char('n')], contexts: &[List, Ask, Body, Wounds, Look], hint: told::hint_skip, about: told::does_skip, show: Show::Always },
    Binding { action: Action::Hands, keys: &[Char('p')], contexts: &[List, Ask, Body, Wounds, Look], hint: told::hint_rest_her, about: told::does_hands, show: Show::Footer },
    Binding { action: Action::Verdict, keys: &[Char('v')], contexts: &[Course, List, Ask, Body, Wounds, Instruction, Plan], hint: told::hint_verdict, about: told::does_verdict, show: Show::Footer },
    Binding { action: Action::More, keys: &[Char(' '), PageDown], contexts: &[List, Ask, Body, Map, Countries, Sums, House, Birds, Look, Practice, Instruction, Verdict, Plan, Why, Help, Page], hint: told::hint_more, about: told::does_more, show: Show::Footer },
    Binding { action: Action::Why, keys: &[Char('w')], contexts: &[Course, List, Ask, Body, Wounds, Instruction, Verdict, Plan, Sums], hint: told::hint_why, about: told::does_why, show: Show::Footer },
    Binding { action: Action::Map, keys: &[Char('m')], contexts: &[Course, List, Ask, Body, Wounds, Look, Verdict, Plan], hint: told::hint_steps, about: told::does_map, show: Show::Footer },
    Binding { action: Action::Law, keys: &[Char('l')], contexts: &[Course, List, Ask, Body, Wounds, Verdict, Plan], hint: told::hint_law, about: told::does_law, show: Show::Footer },
    Binding { action: Action::Basis, keys: &[Char('r')], contexts: &[Course, Verdict, Plan, Why, Help], hint: told::hint_rests_on, about: told::does_basis, show: Show::Footer },
    Binding { action: Action::Sums, keys: &[Char('c')], contexts: &[Course, List, Ask, Body, Wounds, Verdict, Plan], hint: told::hint_sums, about: told::does_sums, show: Show::Footer },
    Binding { action: Action::House, keys: &[Char('i')], contexts: &[Course, Verdict, Plan], hint: told::hint_in_house, about: told::does_house, show: Show::Footer },
    Binding { action: Action::House, keys: &[Char('i')], contexts: &[List, Ask, Body, Wounds], hint: told::hint_in_house, about: told::does_house, show: Show::Help },
    Binding { action: Action::Contacts, keys: &[Char('y')], contexts: &[Course, List, Ask, Body, Wounds, Verdict, Plan], hint: told::hint_whom, about: told::does_contacts, show: Show::Help },
    Binding { action: Action::Date, keys: &[Char('d')], contexts: &[House], hint: told::hint_its_date, about: told::does_date, show: Show::Footer },
    Binding { action: Action::HandOver, keys: &[Char('s')], contexts: &[Course, Verdict, Plan], hint: told::hint_hand_over, about: told::does_hand_over_verdict, show: Show::Footer },
    Binding { action: Action::HandOver, keys: &[Char('s')], contexts: &[Page], hint: told::hint_write_it, about: told::does_hand_over_page, show: Show::Footer },
    Binding { action: Action::Names, keys: &[Char('y')], contexts: &[Page], hint: told::hint_names, about: told::does_names, show: Show::Footer },
    Binding { action: Action::OnHer, keys: &[Char('o')], contexts: &[Course, List, Ask, Body, Wounds, Verdict, Plan], hint: told::hint_on_her, about: told::does_on_her, show: Show::Help },
    Binding { action: Action::Telling, keys: &[Char('u')], contexts: &[List, Ask, Body, Wounds, Verdict], hint: told::hint_telling, about: told::does_telling, show: Show::Help },
    Binding { action: Action::Resume, keys: &[Char('g')], contexts: &[List], hint: told::hint_go_on, about: told::does_resume, show: Show::Footer },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[Verdict, Plan], hint: told::hint_her_case, about: told::does_birds_verdict, show: Show::Always },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[Course], hint: told::hint_her_case, about: told::does_birds_verdict, show: Show::Footer },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[List], hint: told::hint_birds, about: told::does_birds_verdict, show: Show::Footer },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[Ask, Body, Wounds], hint: told::hint_her_case, about: told::does_birds_verdict, show: Show::Help },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[Birds], hint: told::hint_all_birds, about: told::does_birds_birds, show: Show::Always },
    Binding { action: Action::Up, keys: &[Up, Char('k')], contexts: &[List, Ask, Body, Wounds, Map, Countries, Sums, House, Birds, Look, Practice, Adding, Instruction, Verdict, Plan, Why, Help, Page], hint: told::hint_up, about: told::does_up, show: Show::Help },
    Binding { action: Action::Across(Toward::Left), keys: &[Left], contexts: &[Body], hint: told::hint_over_her, about: told::does_across_left, show: Show::Footer },
    Binding { action: Action::Across(Toward::Right), keys: &[Right], contexts: &[Body], hint: told::hint_right, about: told::does_across_right, show: Show::Help },
    Binding { action: Action::Down, keys: &[Down, Char('j')], contexts: &[List, Ask, Body, Wounds, Map, Countries, Sums, House, Birds, Look, Practice, Adding, Instruction, Verdict, Plan, Why, Help, Page], hint: told::hint_down, about: told::does_down, show: Show::Help },
    Binding { action: Action::PageUp, keys: &[PageUp], contexts: &[List, Ask, Body, Map, Countries, Sums, House, Birds, Look, Practice, Instruction, Verdict, Plan, Why, Help, Page], hint: told::hint_page_up, about: told::does_page_up, show: Show::Help },
    Binding { action: Action::First, keys: &[Home], contexts: &[List, Ask, Body, Wounds, Map, Countries, Sums, House, Birds, Look, Practice, Instruction, Verdict, Plan, Why, Help, Page], hint: told::hint_first, about: told::does_first, show: Show::Help },
    Binding { action: Action::Last, keys: &[End], contexts: &[List, Ask, Body, Wounds, Map, Countries, Sums, House, Birds, Look, Practice, Instruction, Verdict, Plan, Why, Help, Page], hint: told::hint_last, about: told::does_last, show: Show::Help },
    Binding { action: Action::Answer, keys: DIGITS, contexts: &[List, Ask, Body, Wounds, Map, Countries, Sums, House, Look, Practice, Adding], hint: told::hint_answer, about: told::does_answer_list, show: Show::Footer },
    Binding { action: Action::Answer, keys: DIGITS, contexts: &[Course], hint: told::hint_tick_another, about: told::does_tick_another, show: Show::Footer },
    Binding { action: Action::Answer, keys: DIGITS, contexts: &[Birds], hint: told::hint_answer, about: told::does_answer_birds, show: Show::Footer },
    Binding { action: Action::Answer, keys: DIGITS, contexts: &[Instruction], hint: told::hint_steps, about: told::does_answer_instruction, show: Show::Help },
    Binding { action: Action::AsAlways, keys: &[Char('a')], contexts: &[List, Ask, Wounds, Look], hint: told::hint_as_always, about: told::does_as_always, show: Show::Footer },
    Binding { action: Action::CannotTell, keys: &[Char('0')], contexts: &[List, Ask, Body, Wounds, Look], hint: told::hint_cannot_tell, about: told::does_cannot_tell, show: Show::Footer },
    Binding { action: Action::Help, keys: &[Char('h'), Char('?')], contexts: &[Course, List, Ask, Body, Wounds, Instruction, Verdict, Plan, Map, Why, Countries, Sums, House, Birds, Look, Practice, Page, Adding, Tapping], hint: told::hint_help, about: told::does_help, show: Show::Always },
    Binding { action: Action::Redraw, keys: &[Control('l')], contexts: &Context::ALL, hint: told::hint_redraw, about: told::does_redraw, show: Show::Help },
    Binding { action: Action::Suspend, keys: &[Control('z')], contexts: &Context::ALL, hint: told::hint_aside, about: told::does_suspend, show: Show::Help },
    Binding { action: Action::Leave, keys: &[Char('x'), Control('c')], contexts: &[Course, List, Ask, Body, Wounds, Instruction, Verdict, Plan, Map, Why, Help, Countries, Sums, House, Birds, Look, Practice, Page, Adding, Tapping], hint: told::hint_leave, about: told::does_leave_list, show: Show::Always },
    Binding { action: Action::Leave, keys: &[Control('c')], contexts: &[Typing], hint: told::hint_leave, about: told::does_leave_typing, show: Show::Help },
];

/// What a key does in a context, and which of its keys was pressed (from 0).
pub fn resolve(context: Context, key: Key) -> Option<(Action, usize)> {
    // With the shift lock on, a letter still means what it says; what is typed keeps its capitals.
    let key = match key {
        Char(c) => Char(c.to_ascii_lowercase()),
        key => key,
    };
    TABLE
        .iter()
        .filter(|binding| binding.contexts.contains(&context))
        .find_map(|binding| binding.keys.iter().position(|bound| *bound == key).map(|at| (binding.action, at)))
}

/// The rows that work in a context, in the order of the table.
pub fn of(context: Context) -> impl Iterator<Item = &'static Binding> {
    TABLE.iter().filter(move |binding| binding.contexts.contains(&context))
}

/// The key page: every context with its keys, as plain text.
pub fn page(words: &Words) -> String {
    let say = |text: &Text| words::say(words, Zone::UTC, text);
    let mut out = String::new();
    for context in Context::ALL {
        let _ = writeln!(out, "{}", say(&context.name().into()));
        for binding in of(context) {
            let keys = say(&binding.shown_keys());
            let _ = writeln!(out, "  {keys:<24} {}", say(&(binding.about)().into()));
        }
        out.push('\n');
    }
    out
}

/// The same, key by key, for whoever writes it out.
pub fn told() -> Vec<KeyTold> {
    let keys = Context::ALL.into_iter().flat_map(|context| {
        of(context).map(move |binding| KeyTold {
            place: context.name(),
            keys: binding.keys.iter().map(|key| key.show()).collect(),
            does: (binding.about)(),
        })
    });
    keys.collect()
}
