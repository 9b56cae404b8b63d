//! The one key table: behaviour, footer, help and the key page are all read from it.

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
    /// Control with a letter; only as a second way to something that has a plain key.
    Control(char),
}

impl Key {
    /// The key in print.
    pub fn show(self) -> String {
        match self {
            Self::Char(' ') => "space".into(),
            Self::Char(c) => c.to_string(),
            Self::Enter => "enter".into(),
            Self::Backspace => "backspace".into(),
            Self::Escape => "esc".into(),
            Self::Up => "up".into(),
            Self::Down => "down".into(),
            Self::Left => "left".into(),
            Self::Right => "right".into(),
            Self::PageUp => "page up".into(),
            Self::PageDown => "page down".into(),
            Self::Control(c) => format!("ctrl-{c}"),
        }
    }
}

/// Where a key works.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Context {
    /// Several signs on one screen.
    List,
    /// One question.
    Ask,
    /// "Is there a wound (more)?"
    Wounds,
    /// Something is being typed.
    Typing,
    /// Where a wound is, asked beside a drawing.
    Body,
    /// Blood is being added up.
    Adding,
    /// Breaths are being tapped, or a vein timed.
    Tapping,
    /// An instruction fills the screen.
    Instruction,
    /// The verdict.
    Verdict,
    /// The plan.
    Plan,
    /// The way through the steps.
    Map,
    /// Why.
    Why,
    /// The countries.
    Countries,
    /// The sums.
    Sums,
    /// What is in the house.
    House,
    /// The birds that are kept, or what can be done with one.
    Birds,
    /// A look at a practice bird.
    Look,
    /// The lessons, what can be done in one, and a verdict of one's own.
    Practice,
    /// What the law says; what all rests on.
    Page,
    /// Help.
    Help,
}

impl Context {
    /// Every context, in the order of the key page.
    pub const ALL: [Self; 20] = [
        Self::List,
        Self::Ask,
        Self::Body,
        Self::Wounds,
        Self::Typing,
        Self::Adding,
        Self::Tapping,
        Self::Instruction,
        Self::Verdict,
        Self::Plan,
        Self::Map,
        Self::Why,
        Self::Countries,
        Self::Sums,
        Self::House,
        Self::Birds,
        Self::Look,
        Self::Practice,
        Self::Page,
        Self::Help,
    ];

    /// Its name on the key page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::List => "A list of signs",
            Self::Ask => "A question",
            Self::Body => "Where is it? with her drawn",
            Self::Wounds => "Any wound?",
            Self::Typing => "Typing",
            Self::Adding => "Adding up blood",
            Self::Tapping => "Counting and timing",
            Self::Instruction => "An instruction",
            Self::Verdict => "Verdict",
            Self::Plan => "Plan",
            Self::Map => "The steps",
            Self::Why => "Why",
            Self::Countries => "The countries",
            Self::Sums => "The sums",
            Self::House => "In the house",
            Self::Birds => "The birds",
            Self::Look => "A look, in practice",
            Self::Practice => "Practice",
            Self::Page => "A page to read",
            Self::Help => "Help",
        }
    }
}

/// A way to move over the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Toward {
    /// Up.
    Up,
    /// Down.
    Down,
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
    /// Erases a letter.
    Erase,
    /// Opens the danger signs.
    Emergency,
    /// Opens the plan.
    Plan,
    /// Leaves a question open.
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
    /// A page on.
    PageDown,
    /// Answers with the row of this number.
    Answer,
    /// Answers "cannot tell".
    CannotTell,
    /// Opens help.
    Help,
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
    /// The keys, the first being the one that is shown.
    pub keys: &'static [Key],
    /// Where they work.
    pub contexts: &'static [Context],
    /// The key as the footer shows it.
    pub label: &'static str,
    /// What it does, in at most ten columns.
    pub hint: &'static str,
    /// What it does, in one sentence.
    pub about: &'static str,
    /// Where it is shown.
    pub show: Show,
}

impl Binding {
    /// All its keys in print.
    pub fn shown_keys(&self) -> String {
        match self.action {
            Action::Answer => self.label.to_owned(),
            _ => self.keys.iter().map(|key| key.show()).collect::<Vec<_>>().join(", "),
        }
    }
}

use Context::{
    Adding, Ask, Birds, Body, Countries, Help, House, Instruction, List, Look, Map, Page, Plan, Practice, Sums,
    Tapping, Typing, Verdict, Why, Wounds,
};
use Key::{Backspace, Char, Control, Down, Enter, Escape, Left, PageDown, PageUp, Right, Up};

const DIGITS: &[Key] =
    &[Char('1'), Char('2'), Char('3'), Char('4'), Char('5'), Char('6'), Char('7'), Char('8'), Char('9')];

/// The table. Each row is needed once; nothing else in the program names a key.
#[rustfmt::skip]
pub const TABLE: &[Binding] = &[
    Binding { action: Action::GoOn, keys: &[Enter, Char(' ')], contexts: &[Instruction], label: "enter", hint: "done", about: "Goes on with the check; what you are doing, keep doing.", show: Show::Always },
    Binding { action: Action::Beside, keys: &[Char('o')], contexts: &[Instruction], label: "o", hint: "where?", about: "Asks where on her it bleeds; the clock runs on, and the answer leads back here.", show: Show::Always },
    Binding { action: Action::Accept, keys: &[Enter], contexts: &[Typing], label: "enter", hint: "take it", about: "Takes what was typed, as it was read.", show: Show::Always },
    Binding { action: Action::Tap, keys: &[Char(' '), Down, Up, PageDown, Char('j'), Char('k'), Char('n'), Char('m'), Char('f'), Char('d'), Char('s'), Char('a'), Char('t')], contexts: &[Tapping], label: "space", hint: "tap", about: "A breath; the first tap starts the time. For the vein: let go, and full again.", show: Show::Always },
    Binding { action: Action::Accept, keys: &[Enter], contexts: &[Tapping], label: "enter", hint: "take it", about: "Takes what was counted or timed; while it runs, a tap like any other.", show: Show::Always },
    Binding { action: Action::Over, keys: &[Char('1'), Char('2'), Char('3')], contexts: &[Tapping], label: "1-3", hint: "15/30/60 s", about: "Before the first tap: counts over 15, 30 or 60 seconds.", show: Show::Footer },
    Binding { action: Action::Choose, keys: &[Enter, Char(' ')], contexts: &[List, Ask, Body, Wounds, Map, Countries, Adding, Sums, House, Birds, Look, Practice], label: "enter", hint: "choose", about: "Chooses the line the cursor stands on.", show: Show::Help },
    Binding { action: Action::Back, keys: &[Char('b'), Left, Backspace], contexts: &[List, Ask, Wounds, Instruction, Look], label: "b", hint: "back", about: "Takes back the last answer.", show: Show::Always },
    Binding { action: Action::Back, keys: &[Char('b'), Backspace], contexts: &[Body], label: "b", hint: "back", about: "Takes back the last answer.", show: Show::Always },
    Binding { action: Action::Close, keys: &[Char('b'), Escape, Left, Backspace], contexts: &[Verdict, Plan, Map, Why, Help, Countries, Sums, House, Birds, Practice, Page, Adding, Tapping], label: "b", hint: "back", about: "Goes back to where you were; at the end, to the last question.", show: Show::Always },
    Binding { action: Action::Close, keys: &[Escape], contexts: &[Typing], label: "esc", hint: "back", about: "Leaves the typing; nothing is taken.", show: Show::Always },
    Binding { action: Action::Erase, keys: &[Backspace, Left], contexts: &[Typing], label: "backspace", hint: "erase", about: "Erases the last letter.", show: Show::Footer },
    Binding { action: Action::Emergency, keys: &[Char('e')], contexts: &[List, Ask, Body, Wounds, Instruction, Verdict, Plan, Map, Why, Help, Countries, Sums, House, Birds, Look, Practice, Page, Adding, Tapping], label: "e", hint: "emergency", about: "Opens the danger signs at any moment: bleeding, breath, fit, no response, bone or gut.", show: Show::Always },
    Binding { action: Action::Do, keys: &[Char('d')], contexts: &[Look], label: "d", hint: "do", about: "In practice: opens what you could do to her now, for good or ill.", show: Show::Always },
    Binding { action: Action::Judge, keys: &[Char('v')], contexts: &[Look], label: "v", hint: "my verdict", about: "In practice: gives your own verdict, before the program shows its own.", show: Show::Always },
    Binding { action: Action::Later, keys: &[Char('a')], contexts: &[Look], label: "a", hint: "5 min on", about: "In practice: lets five minutes pass.", show: Show::Footer },
    Binding { action: Action::Plan, keys: &[Char('d')], contexts: &[List, Ask, Body, Wounds, Instruction, Verdict], label: "d", hint: "plan", about: "Shows the whole plan so far: do, never, by when.", show: Show::Footer },
    Binding { action: Action::Clock, keys: &[Char('a')], contexts: &[Plan], label: "a", hint: "clock", about: "Starts the clock of the step the cursor stands on, or of the first that has one; again: ends it.", show: Show::Footer },
    Binding { action: Action::Clock, keys: &[Char('a')], contexts: &[List, Ask, Body, Wounds, Instruction, Verdict, Map, Why, Help, Countries, Sums, House, Birds, Page, Adding], label: "a", hint: "end clock", about: "Ends the clock of a step, its time up or not.", show: Show::Footer },
    Binding { action: Action::Skip, keys: &[Char('s')], contexts: &[List, Ask, Body, Wounds, Look], label: "s", hint: "skip", about: "Leaves this open and goes on. What is open is never counted as fine.", show: Show::Footer },
    Binding { action: Action::Hands, keys: &[Char('p')], contexts: &[List, Ask, Body, Wounds, Look], label: "p", hint: "rest her", about: "Puts the bird down to rest, with a timer.", show: Show::Footer },
    Binding { action: Action::Verdict, keys: &[Char('v')], contexts: &[List, Ask, Body, Wounds, Instruction, Plan], label: "v", hint: "verdict", about: "Shows the verdict so far.", show: Show::Footer },
    Binding { action: Action::More, keys: &[Char('n')], contexts: &[List, Ask, Body, Map, Countries, Sums, House, Birds, Look, Practice, Instruction, Verdict, Plan, Why, Help, Page], label: "n", hint: "more", about: "Shows the next lines.", show: Show::Footer },
    Binding { action: Action::Why, keys: &[Char('w')], contexts: &[List, Ask, Body, Wounds, Instruction, Verdict, Plan, Sums], label: "w", hint: "why", about: "Tells why, with both labels and the source.", show: Show::Footer },
    Binding { action: Action::Map, keys: &[Char('m')], contexts: &[List, Ask, Body, Wounds, Look, Verdict, Plan], label: "m", hint: "steps", about: "Shows the steps; any answer can be looked at and changed.", show: Show::Footer },
    Binding { action: Action::Law, keys: &[Char('l')], contexts: &[List, Ask, Body, Wounds, Verdict, Plan], label: "l", hint: "law", about: "Sets your country, and shows what its law limits.", show: Show::Footer },
    Binding { action: Action::Basis, keys: &[Char('r')], contexts: &[Verdict, Plan, Why, Help], label: "r", hint: "rests on", about: "Shows every source, how well it is known, and what is borrowed.", show: Show::Footer },
    Binding { action: Action::Sums, keys: &[Char('c')], contexts: &[List, Ask, Body, Wounds, Verdict, Plan], label: "c", hint: "sums", about: "Opens every sum by itself: blood, breaths, recipes, fluids, warmth and more.", show: Show::Footer },
    Binding { action: Action::House, keys: &[Char('i')], contexts: &[Verdict, Plan], label: "i", hint: "in house", about: "Says what is in the house, so that the plan uses it; checks a label; shows the kit.", show: Show::Footer },
    Binding { action: Action::House, keys: &[Char('i')], contexts: &[List, Ask, Body, Wounds], label: "i", hint: "in house", about: "Says what is in the house, so that the plan uses it; checks a label; shows the kit.", show: Show::Help },
    Binding { action: Action::Contacts, keys: &[Char('y')], contexts: &[List, Ask, Body, Wounds, Verdict, Plan], label: "y", hint: "whom", about: "Writes down whom you call: vet, emergency vet, animal-health authority; once, for every bird.", show: Show::Help },
    Binding { action: Action::Date, keys: &[Char('d')], contexts: &[House], label: "d", hint: "its date", about: "Types until when it counts, of the line the cursor stands on or that was put in last.", show: Show::Footer },
    Binding { action: Action::HandOver, keys: &[Char('s')], contexts: &[Verdict, Plan], label: "s", hint: "hand over", about: "Shows the sheet for a vet, a volunteer or the next shift.", show: Show::Footer },
    Binding { action: Action::HandOver, keys: &[Char('s')], contexts: &[Page], label: "s", hint: "write it", about: "On the handover sheet: writes it to a file that prints on one page.", show: Show::Footer },
    Binding { action: Action::Names, keys: &[Char('y')], contexts: &[Page], label: "y", hint: "names", about: "On the handover sheet: tells who keeps her and whom they call, or leaves it out again.", show: Show::Footer },
    Binding { action: Action::OnHer, keys: &[Char('o')], contexts: &[List, Ask, Body, Wounds, Verdict, Plan], label: "o", hint: "on her", about: "Shows her drawn, with her wounds, and where no liquid may go in.", show: Show::Help },
    Binding { action: Action::Telling, keys: &[Char('t')], contexts: &[List, Ask, Body, Wounds, Verdict], label: "t", hint: "telling", about: "Turns to the open question that would settle most now; the rest is asked after it.", show: Show::Help },
    Binding { action: Action::Resume, keys: &[Char('g')], contexts: &[List], label: "g", hint: "go on", about: "Goes on with the bird you left, exactly there.", show: Show::Footer },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[Verdict, Plan], label: "f", hint: "her case", about: "Opens her case: look again, her days, a vet's word, how it ended; before the first answer, all birds.", show: Show::Always },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[List], label: "f", hint: "birds", about: "Opens her case: look again, her days, a vet's word, how it ended; before the first answer, all birds.", show: Show::Footer },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[Ask, Body, Wounds], label: "f", hint: "her case", about: "Opens her case: look again, her days, a vet's word, how it ended; before the first answer, all birds.", show: Show::Help },
    Binding { action: Action::Birds, keys: &[Char('f')], contexts: &[Birds], label: "f", hint: "all birds", about: "From her case: opens the list of all birds; there, line 1 begins a new one.", show: Show::Always },
    Binding { action: Action::Up, keys: &[Up, Char('k')], contexts: &[List, Ask, Wounds, Map, Countries, Sums, House, Birds, Look, Practice, Adding, Instruction, Verdict, Plan, Why, Help, Page], label: "up", hint: "up", about: "Moves up.", show: Show::Help },
    Binding { action: Action::Across(Toward::Up), keys: &[Up, Char('k')], contexts: &[Body], label: "up", hint: "over her", about: "Moves over the drawing, upwards.", show: Show::Footer },
    Binding { action: Action::Across(Toward::Down), keys: &[Down, Char('j')], contexts: &[Body], label: "down", hint: "down", about: "Moves over the drawing, downwards.", show: Show::Help },
    Binding { action: Action::Across(Toward::Left), keys: &[Left], contexts: &[Body], label: "left", hint: "left", about: "Moves over the drawing, to the left.", show: Show::Help },
    Binding { action: Action::Across(Toward::Right), keys: &[Right], contexts: &[Body], label: "right", hint: "right", about: "Moves over the drawing, to the right.", show: Show::Help },
    Binding { action: Action::Down, keys: &[Down, Char('j')], contexts: &[List, Ask, Wounds, Map, Countries, Sums, House, Birds, Look, Practice, Adding, Instruction, Verdict, Plan, Why, Help, Page], label: "down", hint: "down", about: "Moves down.", show: Show::Help },
    Binding { action: Action::PageUp, keys: &[PageUp], contexts: &[Verdict, Plan, Why, Help, Page], label: "page up", hint: "page up", about: "A page back.", show: Show::Help },
    Binding { action: Action::PageDown, keys: &[PageDown, Char(' ')], contexts: &[Verdict, Plan, Why, Help, Page], label: "space", hint: "page", about: "A page on.", show: Show::Help },
    Binding { action: Action::Answer, keys: DIGITS, contexts: &[List, Ask, Body, Wounds, Map, Countries, Sums, House, Look, Practice, Adding], label: "1-9", hint: "answer", about: "Answers with the line of that number.", show: Show::Footer },
    Binding { action: Action::Answer, keys: DIGITS, contexts: &[Birds], label: "1-9", hint: "answer", about: "Takes the line of that number; in the list, the bird who bears it. After several figures enter opens her.", show: Show::Footer },
    Binding { action: Action::Answer, keys: DIGITS, contexts: &[Instruction], label: "1-9", hint: "steps", about: "The numbers are steps to take, in order; nothing is chosen here.", show: Show::Help },
    Binding { action: Action::CannotTell, keys: &[Char('0')], contexts: &[List, Ask, Body, Wounds, Look], label: "0", hint: "can't tell", about: "You looked and cannot tell: counted as the worst you could not rule out.", show: Show::Footer },
    Binding { action: Action::Help, keys: &[Char('h'), Char('?')], contexts: &[List, Ask, Body, Wounds, Instruction, Verdict, Plan, Map, Why, Countries, Sums, House, Birds, Look, Practice, Page, Adding, Tapping], label: "h", hint: "help", about: "Shows how to look, and every key that works here.", show: Show::Always },
    Binding { action: Action::Suspend, keys: &[Control('z')], contexts: &Context::ALL, label: "ctrl-z", hint: "aside", about: "Steps aside for the shell; `fg` brings it back.", show: Show::Help },
    Binding { action: Action::Leave, keys: &[Char('x'), Control('c')], contexts: &[List, Ask, Body, Wounds, Instruction, Verdict, Plan, Map, Why, Help, Countries, Sums, House, Birds, Look, Practice, Page, Adding, Tapping], label: "x", hint: "leave", about: "Leaves. Everything is kept; the next start offers to go on here.", show: Show::Always },
    Binding { action: Action::Leave, keys: &[Control('c')], contexts: &[Typing], label: "ctrl-c", hint: "leave", about: "Leaves. Everything is kept.", show: Show::Help },
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
pub fn page() -> String {
    let mut out = String::new();
    for context in Context::ALL {
        out.push_str(context.name());
        out.push('\n');
        for binding in of(context) {
            let keys = binding.shown_keys();
            let _ = writeln!(out, "  {keys:<24} {}", binding.about);
        }
        out.push('\n');
    }
    out
}
