//! How a protocol is read: names spelled alike in every language, and faults that say what was meant.

mod fault {
    use coopside::protocol::fault::{Fault, nearest};

    #[test]
    fn a_slip_of_the_finger_finds_the_name_that_was_meant() {
        assert_eq!(nearest("eyeld", ["eyelid", "comb"]).as_deref(), Some("eyelid"));
        assert_eq!(nearest("zebra", ["eyelid", "comb"]), None);
    }

    #[test]
    fn a_fault_says_where_what_and_what_next() {
        let fault = Fault {
            file: "rules.ron".into(),
            line: 12,
            item: "rule pale".into(),
            what: "question `eyeld` is not known".into(),
            nearest: Some("eyelid".into()),
        };
        assert_eq!(fault.to_string(), "rules.ron:12: rule pale: question `eyeld` is not known; did you mean `eyelid`?");
    }
}

mod spelling {
    use coopside::protocol::spelling::spelled;
    use std::collections::BTreeSet;

    /// The names of the INN in Latin, English, French, Spanish (WHO lists print these side by side) and, as labels print them, in
    /// German, Italian, Swedish and Turkish; from memory.
    #[test]
    fn a_name_is_spelled_the_same_in_every_language() {
        for names in [
            &["hydrocortisonum", "hydrocortisone", "hidrocortisona", "Hydrocortison", "idrocortisone", "hidrokortizon"]
                [..],
            &["dexamethasonum", "dexamethasone", "dexaméthasone", "dexametasona", "Dexamethason", "desametasone"],
            &[
                "chlorhexidinum",
                "chlorhexidine",
                "clorhexidina",
                "Chlorhexidin",
                "clorexidina",
                "klorhexidin",
                "klorheksidin",
            ],
            &["lidocainum", "lidocaine", "lidocaïne", "lidocaína", "Lidocain", "lidokain"],
            &["ibuprofenum", "ibuprofen", "ibuprofène", "ibuprofeno"],
        ] {
            let spelled: BTreeSet<String> = names.iter().map(|name| spelled(name)).collect();
            assert_eq!(spelled.len(), 1, "{spelled:?}");
        }
    }
}
