//! Looks as an iCalendar file (RFC 5545): names that stay the same, changes that replace, and what is no longer due cancelled.

use crate::care::timetable::Look;
use crate::content::document::caution_text;
use crate::phrase::{Text, calendar as phrase};
use crate::protocol::Protocol;
use crate::words::Reader;
use chrono::{DateTime, DurationRound, TimeDelta, Utc};
use icalendar::{Alarm, Calendar, Component, Event, EventLike, EventStatus, Property};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Who wrote the file.
pub const PRODID: &str = "-//Coopside//Looks//EN";
/// How long a look takes in the calendar.
const LONG: TimeDelta = TimeDelta::minutes(10);
/// How long before a look the alarm rings: time to wash hands and light a lamp.
const BEFORE: TimeDelta = TimeDelta::minutes(5);
/// How far ahead looks are put in the calendar.
pub const AHEAD: TimeDelta = TimeDelta::days(14);

/// A look that shall stand in the calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reminder {
    /// Its name, the same every time it is told.
    pub uid: String,
    /// When.
    pub at: DateTime<Utc>,
    /// What stands in the calendar.
    pub summary: String,
    /// What to look for.
    pub description: String,
}

/// What was told of a look the last time.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EventBefore {
    at: DateTime<Utc>,
    sequence: u32,
    summary: String,
    description: String,
    cancelled: bool,
}

/// What the calendar was told so far, by the looks' names.
pub type Memory = BTreeMap<String, EventBefore>;

/// The reminder of a look. It says what bird and when, and not how ill she is: calendars are seen by others.
pub fn reminder(protocol: &Protocol, case: &str, bird: &Text, look: &Look, reader: Reader) -> Reminder {
    let signs = look.signs.then(|| phrase::all_signs().into());
    let rounds = look.rounds.iter().map(|round| Text::quoted(&protocol.round(*round).topic));
    let what = Text::list_ended(signs.into_iter().chain(rounds));
    let caution = caution_text(reader.country);
    Reminder {
        uid: format!("{case}-{}@coopside", look.at.format("%Y%m%dT%H%MZ")),
        at: look.at,
        summary: reader.phrase(&phrase::look(bird.clone())),
        description: reader.phrase(&phrase::look_for(what, caution)),
    }
}

/// The reminder of a bird that was not examined to the end: that is due at once, so its alarm rings as soon as it is read.
pub fn examination(case: &str, bird: &Text, now: DateTime<Utc>, reader: Reader) -> Reminder {
    let soon = now + BEFORE + TimeDelta::minutes(1);
    Reminder {
        uid: format!("{case}-examination@coopside"),
        at: soon.duration_trunc(TimeDelta::minutes(1)).unwrap_or(soon),
        summary: reader.phrase(&phrase::examine(bird.clone())),
        description: reader.phrase(&phrase::how(caution_text(reader.country))),
    }
}

/// The calendar, and what it has been told with it. What was told before and is no longer due is cancelled; what has gone by
/// is left as it is.
pub fn calendar(reminders: &[Reminder], before: &Memory, now: DateTime<Utc>) -> (String, Memory) {
    let mut memory: Memory =
        before.iter().filter(|(_, told)| told.at >= now).map(|(uid, told)| (uid.clone(), told.clone())).collect();
    for (uid, told) in &mut memory {
        if !told.cancelled && !reminders.iter().any(|reminder| reminder.uid == *uid) {
            told.cancelled = true;
            told.sequence += 1;
        }
    }
    for reminder in reminders {
        let told = before.get(&reminder.uid);
        let fresh = EventBefore {
            at: reminder.at,
            sequence: 0,
            summary: reminder.summary.clone(),
            description: reminder.description.clone(),
            cancelled: false,
        };
        let told = match told {
            None => fresh,
            Some(same) if EventBefore { sequence: same.sequence, ..fresh.clone() } == *same => same.clone(),
            Some(other) => EventBefore { sequence: other.sequence + 1, ..fresh },
        };
        memory.insert(reminder.uid.clone(), told);
    }
    let mut calendar = Calendar::empty();
    for (key, value) in [("VERSION", "2.0"), ("PRODID", PRODID), ("CALSCALE", "GREGORIAN"), ("METHOD", "PUBLISH")] {
        calendar.append_property(Property::new(key, value).done());
    }
    for (uid, told) in &memory {
        calendar.push(event(uid, told, now));
    }
    (calendar.to_string(), memory)
}

fn event(uid: &str, told: &EventBefore, now: DateTime<Utc>) -> Event {
    let mut event = Event::new();
    event
        .uid(uid)
        .timestamp(now)
        .last_modified(now)
        .sequence(told.sequence)
        .starts(told.at)
        .ends(told.at + LONG)
        .summary(&told.summary)
        .description(&told.description)
        .status(if told.cancelled { EventStatus::Cancelled } else { EventStatus::Confirmed })
        .add_property("TRANSP", "TRANSPARENT");
    if !told.cancelled {
        let mut alarm = Alarm::display(&told.summary, -BEFORE);
        alarm.uid(&format!("alarm-{uid}")).timestamp(now);
        event.alarm(alarm);
    }
    event.done()
}
