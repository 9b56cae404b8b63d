//! The night of a stable bird: the hours are those of a night, and no worse answer makes a bird stable.

use super::Checker;
use super::cond::Belongs;
use super::direction::Written;
use crate::protocol::NightHours;
use crate::protocol::cond::Cond;
use crate::protocol::item::Items;
use crate::protocol::question::Question;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use std::ops::RangeInclusive;

/// The hours at which a night may begin and end: ten hours at the very most.
const FROM: RangeInclusive<u32> = 21..=23;
const UNTIL: RangeInclusive<u32> = 4..=7;

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
    pub(super) fn night(&mut self, manifest: &Placed<raw::Manifest>) -> Option<NightHours> {
        let raw::Night { from_h, until_h, acts, source } = &manifest.item.night;
        self.between(manifest, "from_h", u32::from(*from_h), FROM);
        self.between(manifest, "until_h", u32::from(*until_h), UNTIL);
        let source = self.known_source(manifest, "protocol", Some(source));
        let acts = self.all_known(manifest, "protocol", "acts", acts)?;
        Some(NightHours { from_h: *from_h, until_h: *until_h, acts: acts.into_iter().collect(), source })
    }

    /// A number of the protocol itself is within its bounds.
    pub(super) fn between(
        &mut self,
        manifest: &Placed<raw::Manifest>,
        field: &str,
        value: u32,
        bounds: RangeInclusive<u32>,
    ) {
        if !bounds.contains(&value) {
            let what = format!("expected {} to {}", bounds.start(), bounds.end());
            self.faults.push(manifest.fault(format!("protocol, field {field}"), field, what));
        }
    }
}
