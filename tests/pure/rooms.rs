//! Each room of the house by itself, in one file: what a function gives by its own, without the judge.

mod bird;
mod care;
mod days;
mod exam;
mod finding;
mod handover;
mod measure;
mod practice;
mod protocol;
mod prove;
mod screen;
mod sheet;
mod typed;
mod zone;
