//! What is proven of every bird, held against other ways of finding out, and against spoiled protocols.

#[path = "../common/mod.rs"]
mod common;

mod alike;
mod compare;
mod proof;
mod prove;
mod unknown;
