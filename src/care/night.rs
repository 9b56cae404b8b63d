//! The night of a stable bird: which hours are dark, by the clock of her zone, and from when to when she was stable.

use crate::protocol::NightHours as Hours;
use crate::unit::Band;
use crate::zone::Zone;
use chrono::{DateTime, Days, NaiveDate, TimeDelta, Timelike, Utc};

/// So long after it was begun heat or a wrap is looked at by night, too. Our own figure.
pub const NEW: TimeDelta = TimeDelta::hours(24);

/// Whether somebody looks at her by night.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ByNight {
    /// She is looked at whenever it is time.
    Watched,
    /// She is stable, but for what was begun of late: nobody wakes her.
    LeftAlone,
}

/// One night.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct NightSpan {
    /// When the dark begins: one look last thing.
    pub from: DateTime<Utc>,
    /// When it ends: one look at dawn.
    pub until: DateTime<Utc>,
}

/// The dark hours, and whose clock they go by.
#[derive(Clone, Copy, Debug)]
pub struct Dark<'p> {
    /// The hours.
    pub hours: &'p Hours,
    /// Her zone.
    pub zone: Zone,
}

impl Dark<'_> {
    /// The night a moment falls into; its two edges are not in it.
    pub fn night(self, at: DateTime<Utc>) -> Option<NightSpan> {
        let local = self.zone.local(at);
        let day = local.date_naive();
        let evening =
            if local.hour() >= u32::from(self.hours.from_h) { day } else { day.checked_sub_days(Days::new(1))? };
        let morning = evening.checked_add_days(Days::new(1))?;
        let from = self.clock(evening, self.hours.from_h)?.low;
        let until = self.clock(morning, self.hours.until_h)?.high;
        (from < at && at < until).then_some(NightSpan { from, until })
    }

    /// The instants an hour of a day may stand for.
    fn clock(self, day: NaiveDate, hour: u8) -> Option<Band<DateTime<Utc>>> {
        self.zone.instants(day.and_hms_opt(u32::from(hour), 0, 0)?)
    }
}

/// How long a night is by the clock.
pub fn length(hours: &Hours) -> TimeDelta {
    TimeDelta::hours(24 - i64::from(hours.from_h) + i64::from(hours.until_h))
}

/// The stretches in which she was stable. What was so at a look is so until the next one says otherwise; what has gone by does not
/// change: nothing is missed that was not promised.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Calm(Vec<Stretch>);

/// A stretch in which she was stable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stretch {
    /// The look at which it was found.
    found: DateTime<Utc>,
    from: DateTime<Utc>,
    /// When a look found otherwise; nothing as long as none has.
    until: Option<DateTime<Utc>>,
}

impl Calm {
    /// What comes of it at a look at this moment: `from` is when she is stable from, where she is.
    #[must_use]
    pub fn renewed(&self, from: Option<DateTime<Utc>>, at: DateTime<Utc>) -> Self {
        let mut stretches = self.0.clone();
        let goes_on =
            |stretch: &Stretch| stretch.until.is_none() && from.is_some_and(|from| from <= at.max(stretch.from));
        if stretches.last().is_some_and(goes_on) {
            return Self(stretches);
        }
        // One that had not begun yet is none.
        stretches.retain(|stretch| stretch.until.is_some() || stretch.from < at);
        if let Some(open) = stretches.last_mut().filter(|stretch| stretch.until.is_none()) {
            open.until = Some(at);
        }
        stretches.extend(from.map(|from| Stretch { found: at, from, until: None }));
        Self(stretches)
    }

    /// Whether it was known before a moment that she would be stable for some of the night that begins then.
    pub fn foreseen(&self, night: NightSpan, by: DateTime<Utc>) -> bool {
        let within =
            |stretch: &&Stretch| stretch.from < night.until && stretch.until.is_none_or(|until| night.from < until);
        self.0.iter().filter(within).any(|stretch| stretch.found <= by)
    }

    /// Whether she was stable then.
    pub fn holds(&self, at: DateTime<Utc>) -> bool {
        self.0.iter().any(|stretch| stretch.from <= at && stretch.until.is_none_or(|until| at < until))
    }
}
