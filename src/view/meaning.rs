//! What choosing a line means.

use crate::finding::figure::FigureOf;
use crate::finding::log::Outcome;
use crate::finding::{Answer, Id};
use crate::ledger::CaseId;
use crate::protocol::question::{Asked, ListAt, Step};
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::supply::SupplyAt;
use crate::protocol::table::At;
use crate::session::writing::Writing;

/// What choosing a row means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Answers a question.
    Answer(Asked, Answer),
    /// Says that a sign of a list is seen, by the answer it is.
    Sign(Asked, Answer),
    /// Says that none of the rest of a list is there.
    NoneOfTheRest(ListAt),
    /// Nothing of this page of a list is there: the next one is shown.
    NextPage(ListAt),
    /// Goes back from a list that is all answered.
    LeaveList,
    /// Starts typing a weight or a wound's lines.
    Type,
    /// Starts entering a figure with keys of its own.
    Enter(FigureOf),
    /// Takes a row of what is being added up.
    Pick(usize),
    /// Opens a sum.
    Sum(usize),
    /// Types a value of the open sum.
    Value(usize),
    /// Shows the open sum's answer in full.
    InFull,
    /// Finds one more wound.
    FoundWound,
    /// Ends the look-over.
    LookedOver,
    /// Leaves the look-over open.
    LeaveWounds,
    /// Opens the questions of a step.
    Step(At<Step>),
    /// Turns to a question.
    GoTo(Asked),
    /// Sets the country.
    Country(Id),
    /// Puts a supply in the house, or takes it out.
    Supply(SupplyAt),
    /// Shows what to have in the house, and why.
    Kit,
    /// Shows whom to call.
    Contacts,
    /// Checks a product's label.
    Label,
    /// Turns to "any more wounds?".
    GoToWounds,
    /// Answers the rest of a list as it was answered last time.
    AsLastTime(ListAt),
    /// Does something with a bird's case, or the list of all.
    Case(Doing),
    /// Does something in practice.
    Practice(Practising),
}

/// What was seen of the signs of death.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DeathSeen {
    /// She is stiff all over.
    Stiff,
    /// No breath, no blink, limp, at two looks.
    Twice,
    /// The same at one look.
    Once,
    /// She is cold or soaked.
    Cold,
    /// One of the signs is not there, or cannot be told.
    Doubt,
}

/// What a row of a case, or of the list of all, stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Looks at her again.
    Look,
    /// Goes on with the look that was left.
    GoOn,
    /// Shows her days.
    Days,
    /// Writes something down.
    Write(Writing),
    /// Tells how it ended.
    End,
    /// Closes her case so, once it is sure.
    Close(Outcome),
    /// Says what was seen of the signs of death.
    Death(DeathSeen),
    /// Nothing: the line takes no key now.
    NotNow,
    /// Puts her out of sight, or brings her back.
    PutAway,
    /// Shows the handover sheet.
    HandOver,
    /// Shows what a vet will ask.
    Particulars,
    /// Shows all birds.
    All,
    /// Begins with another bird.
    NewBird,
    /// Shows closed birds too, or no longer.
    ShowClosed,
    /// Opens a bird's case.
    Open(CaseId),
    /// Goes on with this window's own.
    Keep,
}

/// What a row of practice stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Practising {
    /// Writes who practises.
    Who,
    /// Turns reading aloud on or off.
    Aloud,
    /// Shows the group's goes.
    Group,
    /// Begins a lesson.
    Lesson(usize),
    /// Begins with a bird drawn by chance.
    Drawn,
    /// Begins an examination of a real bird by two people.
    Pair,
    /// Does something to the bird.
    Do(ActionAt),
    /// Goes on without doing anything more.
    GoOn,
    /// Gives a verdict.
    Judge,
    /// Gives one scale of it.
    Need(Need),
    /// Gives one scale of it.
    Humane(Humane),
    /// Gives one scale of it.
    Authority(Authority),
    /// Ends one of the two examinations of a pair.
    HandOver,
}
