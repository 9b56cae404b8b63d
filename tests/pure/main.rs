//! What needs neither screen, disk nor terminal: the judge's promises, the protocol, plans, sums, labels, texts, and the
//! arrows of the house.

#[path = "../common/mod.rs"]
mod common;

mod alone;
mod amounts;
mod cards;
mod catalogue;
mod counted;
mod course;
mod doubt;
mod evidence;
mod figures;
mod hazards;
mod heard;
mod input;
mod instructions;
mod judge;
mod label;
mod lately;
mod law;
mod limits;
mod mistyped;
mod moment;
mod neck;
mod night;
mod notation;
mod phone;
mod plans;
mod practice;
mod protocol;
mod pseudo;
mod reckon;
mod renamed;
mod review;
mod roles;
mod rooms;
mod scenarios;
mod slips;
mod speech;
mod strengths;
mod texts;
mod tidy;
mod trade;
mod words;
