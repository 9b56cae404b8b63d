//! Which question, list or action is which, and what the sums rest on: every name is known and fits, or the protocol does not
//! load and says where, what was expected and the nearest name.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, spliced};
use crate::protocol::{faults, refused};
use coopside::bird::Kind;
use coopside::finding::Answer;
use coopside::protocol::sum::SumOf;
use coopside::protocol::{File, Protocol};
use coopside::shipped;

const ROLES: &str = "roles.ron";

/// The faults where one file is changed by hand.
fn changed(name: &str, change: impl Fn(&str) -> String) -> String {
    let mut files = shipped::files();
    for file in files.iter_mut().filter(|file| file.name == name) {
        file.text = change(&file.text);
    }
    Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string())
}

/// Every role with a letter too much: the one of that name in the files' own words is told.
#[test]
fn a_role_that_names_nothing_is_refused_with_the_nearest_name() {
    for (role, name) in [
        ("kind: (question", "kind"),
        ("reach", "reach"),
        ("happened", "happened"),
        ("when", "when"),
        ("place", "place"),
        ("side: (question", "side"),
        ("danger_signs", "danger"),
        ("rest", "rest"),
        ("authority", "authority"),
        ("phone_any", "phone_any"),
        ("phone", "phone_other"),
        ("by_mouth", "by_mouth"),
        ("salt_water", "salt_water"),
        ("no_country", "unset"),
        ("common_practice", "PRACTICE"),
        ("our_proposal", "OURS"),
    ] {
        let (from, to) = (format!("{role}: \"{name}\""), format!("{role}: \"{name}x\""));
        let told = faults(ROLES, &from, &to);
        let field = role.split(':').next().unwrap_or(role);
        let fault = told.iter().find(|fault| fault.contains(&format!("roles, field {field}: ")));
        let fault = fault.unwrap_or_else(|| panic!("{role}: {told:#?}"));
        assert!(fault.starts_with("roles.ron:"), "{fault}");
        assert!(fault.contains(&format!("`{name}x` is not known; did you mean `{name}`?")), "{fault}");
    }
    for (field, name) in
        [("background", "egg_stop"), ("story", "happened"), ("of_wounds", "what"), ("told_steps", "story")]
    {
        let change = |text: &str| {
            let (before, after) = text.split_once(&format!("{field}: [")).unwrap_or_else(|| panic!("no {field}"));
            format!("{before}{field}: [{}", after.replacen(&format!("\"{name}\""), &format!("\"{name}x\""), 1))
        };
        let told = changed(ROLES, change);
        assert!(told.contains(&format!("roles, field {field}: ")) && told.contains(&format!("`{name}`?")), "{told}");
    }
    refused(ROLES, "(\"uk\", Elsewhere)", "(\"ux\", Elsewhere)", "roles, field kitchens: country `ux` is not known");
}

#[test]
fn a_role_of_another_form_is_refused() {
    let of = |from: &str, to: &str, expected: &str| refused(ROLES, from, to, expected);
    of("reach: \"reach\"", "reach: \"place\"", "`place` is asked of each wound; expected a question about the bird");
    of("reach: \"reach\"", "reach: \"happened\"", "each answer of `happened` says `reach: Now`");
    of("place: \"place\"", "place: \"eyelid\"", "`eyelid` is asked of the bird; expected one with `wound: true`");
    of("when: \"when\"", "when: \"happened\"", "`happened` tells no time; expected a question with `gives: TimeSince`");
    of(
        "question: \"side\", left: \"left\"",
        "question: \"side\", left: \"right\"",
        "one for her left and one for her right",
    );
    of("question: \"side\", left", "question: \"what\", left", "question `what` has no answer `left`");
    of("question: \"kind\"", "question: \"eyelid\"", "expected `form: Unordered(..)`");
    of("(\"hen\", Hen), ", "", "answer `hen` of `kind` stands nowhere; expected one kind of it");
    of("(\"hen\", Hen), ", "(\"hen\", Hen), (\"hen\", Cock), ", "answer `hen` of `kind` stands twice");
    of("(\"hen\", Hen), ", "(\"hen\", Cock), ", "no answer of `kind` stands for Hen; expected one at least");
    of(
        "by_mouth: \"by_mouth\"",
        "by_mouth: \"gloves\"",
        "`gloves` is never forbidden; expected an action with `forbidden",
    );
    of("yes: \"yes\"", "yes: \"no\"", "`no` and `no` are no two names");
    of("not_seen: \"no\"", "not_seen: \"\"", "field `not_seen` is empty");
    of("no_country: \"unset\"", "no_country: \"uk\"", "the first country must be `uk`");
    of("(\"uk\", Elsewhere), ", "(\"uk\", Elsewhere), (\"uk\", Elsewhere), ", "`uk` stands twice");
    of("our_proposal: \"OURS\"", "our_proposal: \"PRACTICE\"", "strength Proposal goes with source \"PRACTICE\"");
}

#[test]
fn every_role_is_needed() {
    let files: Vec<File> = shipped::files().into_iter().filter(|file| file.name != ROLES).collect();
    let told = Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string());
    assert!(told.contains("no file holds `roles: (kind: (question: .., answers: [..]), reach: .., ..)`"), "{told}");
    let Some(roles) = shipped::files().into_iter().find(|file| file.name == ROLES) else { panic!("no {ROLES}") };
    let is_field = |line: &str| line.starts_with("    ") && line.ends_with("\",") && !line.contains('(');
    let lines = roles.text.lines().filter(|line| is_field(line)).count();
    assert!(lines > 10, "{lines}");
    for line in roles.text.lines().filter(|line| is_field(line)) {
        let field = line.trim().split(':').next().unwrap_or_default();
        let told = changed(ROLES, |text| text.replacen(line, "", 1));
        assert!(told.contains(field), "{line}: {told}");
    }
}

/// Several answers may stand for one kind.
#[test]
fn two_answers_may_be_one_kind() {
    let mut files = shipped::files();
    for (name, from, to) in [
        ("questions/watch.ron", "(id: \"hen\", say", "(id: \"pullet\", say: \"pullet\"), (id: \"hen\", say"),
        (ROLES, "(\"hen\", Hen)", "(\"hen\", Hen), (\"pullet\", Hen)"),
    ] {
        for file in files.iter_mut().filter(|file| file.name == name) {
            let Some(text) = spliced(&file.text, from, to) else { panic!("{name}: {from}") };
            file.text = text;
        }
    }
    let protocol = Protocol::load(&files).unwrap_or_else(|faults| panic!("\n{faults}"));
    for (answer, kind) in [("pullet", Kind::Hen), ("hen", Kind::Hen), ("cock", Kind::Cock)] {
        assert_eq!(protocol.kind_of(&Answer::Choice(answer.into())), Some(kind), "{answer}");
    }
}

#[test]
fn what_a_sum_rests_on_is_told_once_and_of_every_sum() {
    for sum in SumOf::ALL {
        assert!(!PROTOCOL.rests_of(sum).is_empty(), "{}", sum.id());
        let (from, gone) = (format!("sum: \"{}\"", sum.id()), format!("sum: \"{}x\"", sum.id()));
        let told = faults("sums.ron", &from, &gone).join("\n");
        assert!(told.contains(&format!("`{}x` is not known", sum.id())), "{told}");
        assert!(told.contains(&format!("nothing tells what the sum `{}` rests on", sum.id())), "{told}");
    }
    let of = |from: &str, to: &str, expected: &str| refused("sums.ron", from, to, expected);
    of("sum: \"breaths\"", "sum: \"breth\"", "did you mean `breaths`?");
    of("sum: \"breaths\"", "sum: \"blood\"", "what this sum rests on is told twice");
    of("\"blood1961\"", "\"blood1916\"", "source `blood1916` is not known");
    of("(source: \"blood1961\"", "(source: \"blood1961\", strength: Proposal", "goes with source \"OURS\"");
    let told = changed("sums.ron", |_| "(sums: [(sum: \"time\", rests: [])])".to_owned());
    assert!(told.contains("a sum rests on something: name it"), "{told}");
}
