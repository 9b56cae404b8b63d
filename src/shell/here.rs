//! Which zone this machine stands in.

use crate::zone::Zone;
use chrono::{Local, Utc};
use std::path::Path;

/// Where systems keep the rules of their zones, which are newer than those this program was built with.
const KEPT: [&str; 3] = ["/usr/share/zoneinfo", "/usr/lib/zoneinfo", "/etc/zoneinfo"];

/// The zone named by `TZ`, else the system's, else its distance from UTC as it is now.
pub fn here() -> Zone {
    let told = std::env::var("TZ").ok().and_then(|name| zone(name.trim_start_matches(':')));
    let found = told.or_else(|| iana_time_zone::get_timezone().ok().and_then(|name| zone(&name)));
    let now = Utc::now();
    let offset = *now.with_timezone(&Local).offset();
    // A name that disagrees with the system's own clock (an odd `TZ`) is not believed.
    found.filter(|zone| zone.offset(now) == offset).unwrap_or(Zone::Fixed(offset))
}

/// The zone with this name, by the system's own rules where it keeps them.
fn zone(name: &str) -> Option<Zone> {
    // A name that the program knows is no path to anywhere else.
    let known = Zone::named(name)?;
    let rules = KEPT.iter().find_map(|folder| std::fs::read(Path::new(folder).join(name)).ok());
    rules.and_then(|rules| Zone::read(&rules)).or(Some(known))
}
