"""Reads a calendar with a parser of its own (the package `icalendar`) and holds it against RFC 5545 and against its first telling.

Usage: looks.py FIRST.ics SECOND.ics CANCELLED
FIRST and SECOND are two tellings; CANCELLED is how many looks must be cancelled in the second.
"""

import sys
from datetime import timedelta, timezone
from pathlib import Path

from icalendar import Calendar


def events(path):
    calendar = Calendar.from_ical(Path(path).read_bytes())
    assert calendar["VERSION"] == "2.0" and "PRODID" in calendar, "RFC 5545, 3.6: both are required"
    found = {}
    for event in calendar.walk("VEVENT"):
        for name in ("UID", "DTSTAMP", "DTSTART", "SUMMARY", "DESCRIPTION", "SEQUENCE", "STATUS"):
            assert name in event, f"{name} is missing"
        uid = str(event["UID"])
        assert uid not in found, f"{uid} stands twice"
        start = event.decoded("DTSTART")
        assert start.tzinfo is not None and start.utcoffset() == timedelta(0), "instants are told in UTC"
        alarms = event.walk("VALARM")
        cancelled = event["STATUS"] == "CANCELLED"
        assert len(alarms) == (0 if cancelled else 1), "a look rings, one that is cancelled does not"
        for alarm in alarms:
            assert alarm["ACTION"] == "DISPLAY" and "DESCRIPTION" in alarm
            assert alarm.decoded("TRIGGER") == timedelta(minutes=-5)
        assert "no vet has reviewed it" in str(event["DESCRIPTION"]), "the caution stands on everything"
        found[uid] = (int(event["SEQUENCE"]), cancelled, start.astimezone(timezone.utc))
    assert not calendar.errors, calendar.errors
    return found


first, second = events(sys.argv[1]), events(sys.argv[2])
assert first, "no look at all: this shows nothing"
assert not any(cancelled for _, cancelled, _ in first.values())
gone = {uid for uid, (_, cancelled, _) in second.items() if cancelled}
assert bool(gone) == (int(sys.argv[3]) > 0) and len(gone) >= int(sys.argv[3]), f"{len(gone)} cancelled"
for uid, (sequence, cancelled, start) in second.items():
    assert uid in first, f"{uid} is a new name"
    assert sequence == first[uid][0] + cancelled and start == first[uid][2]
print(f"{len(first)} looks, {len(gone)} of them cancelled at the second telling: read alike by another parser")
