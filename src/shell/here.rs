//! Which zone this machine stands in.

use crate::zone::Zone;
use chrono::{Local, Utc};

/// The zone named by `TZ`, else the system's, else its distance from UTC as it is now.
pub fn here() -> Zone {
    let told = std::env::var("TZ").ok().and_then(|name| Zone::named(name.trim_start_matches(':')));
    let found = told.or_else(|| iana_time_zone::get_timezone().ok().and_then(|name| Zone::named(&name)));
    let now = Utc::now();
    let offset = *now.with_timezone(&Local).offset();
    // A name that disagrees with the system's own clock (an odd `TZ`) is not believed.
    found.filter(|zone| zone.offset(now) == offset).unwrap_or(Zone::Fixed(offset))
}
