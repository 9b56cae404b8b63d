//! The screen walked through key by key, and the days after, without a terminal.

#[path = "../common/mod.rs"]
mod common;

mod body;
mod cards;
mod case;
mod clocks;
mod course;
mod days;
mod enough;
mod frames;
mod hammer;
mod keys;
mod lesson;
mod list;
mod named;
mod numbers;
mod reach;
mod screen;
mod seen;
mod spoken;
mod told;
mod verdict;
mod walked;
