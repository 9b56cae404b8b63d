//! Writes the shipped rules out as straight-line Rust, Lua and Rhai, as a person would who had no judge: one line a rule,
//! the gravest first.

#[path = "src/lines.rs"]
mod lines;

use coopside::protocol::Protocol;
use std::path::PathBuf;
use std::{env, fs};

fn main() {
    println!("cargo::rerun-if-changed=src/lines.rs");
    println!("cargo::rerun-if-changed=../../assets/protocol");
    let protocol = Protocol::shipped().unwrap_or_else(|faults| panic!("{faults}"));
    let out = PathBuf::from(env::var("OUT_DIR").unwrap_or_default());
    for (name, tongue) in [("rules.rs", lines::RUST), ("rules.lua", lines::LUA), ("rules.rhai", lines::RHAI)] {
        fs::write(out.join(name), lines::written(&protocol, tongue)).unwrap_or_else(|error| panic!("{error}"));
    }
}
