//! The night of a stable bird: the hours are those of a night, and no worse answer makes a bird stable.

use super::Checker;
use super::cond::Belongs;
use super::direction::Written;
use crate::protocol::Night;
use crate::protocol::cond::Cond;
use crate::protocol::item::Items;
use crate::protocol::question::Question;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use std::ops::RangeInclusive;

/// The hours at which a night may begin and end, and how long it may be at most. Hours.
const FROM: RangeInclusive<u8> = 18..=23;
const UNTIL: RangeInclusive<u8> = 1..=9;
const LONGEST: u8 = 10;

impl Checker {
    /// What has to be so before she is left in the dark: worse answers only ever take it away.
    pub(super) fn stable_when(
        &mut self,
        manifest: &Placed<raw::Manifest>,
        items: &Items,
        questions: &[Question],
    ) -> Option<Cond> {
        let of = Belongs { placed: manifest, item: "protocol", field: "stable_when" };
        let raw = &manifest.item.stable_when;
        let cond = self.cond(&of, raw, items)?;
        self.direction(&of, Written { raw, cond: &cond, items }, false, questions);
        Some(cond)
    }

    /// The dark hours, and what keeps her from being left alone in them.
    pub(super) fn night(&mut self, manifest: &Placed<raw::Manifest>) -> Option<Night> {
        let raw::Night { from_h, until_h, acts, source } = &manifest.item.night;
        let long = (24 - (*from_h).min(24)).saturating_add(*until_h);
        if !FROM.contains(from_h) || !UNTIL.contains(until_h) || long > LONGEST {
            let what = format!(
                "a night begins at {} to {} h, ends at {} to {} h, and is {LONGEST} hours long at most",
                FROM.start(),
                FROM.end(),
                UNTIL.start(),
                UNTIL.end()
            );
            self.faults.push(manifest.fault("protocol, field night".into(), "night:", what));
        }
        let source = self.known_source(manifest, "protocol, field night", Some(source));
        let acts = self.all_known(manifest, "protocol, field night", "acts", acts)?;
        Some(Night { from_h: *from_h, until_h: *until_h, acts: acts.into_iter().collect(), source })
    }
}
