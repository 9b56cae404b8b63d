//! A few whole frames, to be read as pictures when they change: `INSTA_UPDATE=always cargo test --test screen frames`.

use crate::common::walk::Walk;

fn frame(keys: &str, columns: u16, rows: u16) -> String {
    let mut walk = Walk::new();
    walk.size = (columns, rows);
    let (keys, to) = keys.split_once(" to ").unwrap_or((keys, ""));
    walk.press(keys);
    if !to.is_empty() {
        walk.to(to);
    }
    walk.frame(columns, rows)
}

#[test]
fn the_first_screen_on_a_phone() {
    insta::assert_snapshot!(frame("", 40, 20));
}

#[test]
fn the_first_instruction_on_a_phone() {
    insta::assert_snapshot!(frame("1", 40, 20));
}

#[test]
fn a_question_beside_its_summary() {
    insta::assert_snapshot!(frame("aaa1n1 3 4 1 a 1 a a a a to eyelid", 100, 30));
}

#[test]
fn a_question_below_its_summary() {
    insta::assert_snapshot!(frame("aaa1n1 3 4 1 a 1 a a a a to eyelid", 60, 24));
}

#[test]
fn the_verdict_so_far() {
    insta::assert_snapshot!(frame("2 <enter> aaa1n1 4 3 a 1 2 v", 80, 30));
}

#[test]
fn the_plan_so_far() {
    insta::assert_snapshot!(frame("2 <enter> aaa1n1 4 3 a 1 2 d d", 80, 40));
}
