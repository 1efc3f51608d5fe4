"""A week's nights and its clock's time zone in; calendar events out (RFC 5545).

One event a zone and night, from its first start to the end of its last cycle, in UTC.
Its name is made of site, zone and night, so that a later import replaces it; waterings
that an issued week told and the plan no longer has are cancelled.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from scheduler.errors import Finding
from scheduler.reports.handed.told import Known, Walk, day_text
from scheduler.reports.machine import FORMAT
from scheduler.reports.paper import plain
from scheduler.units import System, shown
from scheduler.watering.night_plan import moments_of

if TYPE_CHECKING:
    from scheduler.watering.night_plan import PlannedRun
    from scheduler.week_plan import WeekPlan

Json = dict[str, Any]
MOST_OCTETS = 75
EPOCH = dt.datetime(1970, 1, 1, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Event:
    """One zone's watering of one night.

    Attributes
    ----------
    uid : str
        The same for this site, zone and night, whenever it is made.
    zone : str
        Id of the zone.
    night : date
        Day on whose evening the night begins.
    start, end : datetime
        In UTC.
    summary, description : str
        What a calendar shows.
    is_cancelled : bool
        Told before, and no longer watered.
    """

    uid: str
    zone: str
    night: dt.date
    start: dt.datetime
    end: dt.datetime
    summary: str
    description: str
    is_cancelled: bool = False


def in_utc(local: dt.datetime, zone: ZoneInfo) -> dt.datetime:
    """A time on the clock of the site in UTC.

    An hour that the clock passes twice is taken the first time; one that it leaves out
    is taken as if the clock had not been moved yet.

    Examples
    --------
    >>> york = ZoneInfo("America/New_York")
    >>> str(in_utc(dt.datetime(2026, 6, 8, 22), york))
    '2026-06-09 02:00:00+00:00'
    >>> str(in_utc(dt.datetime(2026, 11, 1, 1, 30), york))
    '2026-11-01 05:30:00+00:00'
    """
    return moments_of(local, 0, zone.key).start_utc


def week_events(
    plan: WeekPlan, units: System, known: Known | None = None
) -> tuple[Event, ...]:
    """Every watering of the week, and those that are called off, by start."""
    known = known or Known()
    zone = ZoneInfo(plan.site.place.time_zone)
    nights: dict[tuple[str, dt.date], list[PlannedRun]] = {}
    for run in plan.night.runs if plan.night else ():
        nights.setdefault((run.zone, run.night), []).append(run)
    events = [_event(plan, runs, zone, units) for runs in nights.values()]
    events += _called_off(plan, known, zone, {(e.zone, e.night) for e in events})
    return tuple(sorted(events, key=lambda one: (one.start, one.zone)))


def event_uid(plan: WeekPlan, zone: str, night: dt.date) -> str:
    """Name of an event: it tells the night, and holds nothing that must be escaped."""
    named = f"{plan.site.name}\n{zone.casefold()}\n{night.isoformat()}"
    mark = hashlib.sha256(named.encode()).hexdigest()[:20]
    return f"{night:%Y%m%d}-{mark}@lowquarter"


def _named(plan: WeekPlan, zone_id: str) -> str:
    zone = plan.site.zone(zone_id)
    return plain(f"{zone_id} {zone.name}") if zone else plain(zone_id)


def _event(
    plan: WeekPlan, runs: list[PlannedRun], zone: ZoneInfo, units: System
) -> Event:
    first, last = runs[0], runs[-1]
    # a cycle keeps its minutes on a night on which the clock is moved
    end = moments_of(last.start, last.minutes, zone.key).end_utc
    planned = next(one for one in plan.zones if one.zone.id == first.zone)
    cycles = ", ".join(f"{one.start:%H:%M}-{one.end:%H:%M}" for one in runs)
    rate = first.flow_l_per_min
    flow = "not known" if rate is None else shown(rate, "l_per_min", units)
    said = f"Night of {day_text(first.night)}: {cycles}. Flow {flow}."
    walk = Walk.of(plan.site)
    if walk.is_many:
        clock, station = walk.clock_of(first.zone), walk.order[first.zone][1]
        said += f" Clock {plain(clock)}, station {station}."
    return Event(
        uid=event_uid(plan, first.zone, first.night),
        zone=first.zone,
        night=first.night,
        start=in_utc(first.start, zone),
        end=end,
        summary=f"Water {_named(plan, first.zone)}: {planned.minutes_per_day} min",
        description=said,
    )


def _called_off(
    plan: WeekPlan, known: Known, zone: ZoneInfo, kept: set[tuple[str, dt.date]]
) -> Iterator[Event]:
    """Waterings of issued weeks on nights of this one that the plan no longer has."""
    nights = set(plan.zones[0].dates) if plan.zones else set()
    told = {
        (planned.zone.id, day)
        for week in known.issued
        for one in week.zones
        for planned in plan.zones
        for day in one.days
        if planned.zone.id.casefold() == one.zone.casefold()
        and planned.status != "blocked"
        and one.minutes_per_day
    }
    for name, night in sorted(told - kept):
        if night not in nights:
            continue
        start = in_utc(dt.datetime.combine(night, dt.time(22)), zone)
        yield Event(
            uid=event_uid(plan, name, night),
            zone=name,
            night=night,
            start=start,
            end=start + MINUTE,
            summary=f"No water {_named(plan, name)}",
            description=f"Night of {day_text(night)}: no longer planned.",
            is_cancelled=True,
        )


def clock_change_findings(plan: WeekPlan) -> tuple[Finding, ...]:
    """Nights on which the clock is moved while water is planned."""
    zone = ZoneInfo(plan.site.place.time_zone)
    found = []
    for window in plan.night.summary.windows if plan.night else ():
        before = window.start.replace(tzinfo=zone).utcoffset()
        after = window.end.replace(tzinfo=zone).utcoffset()
        if before is None or after is None or before == after:
            continue
        how = (
            "forward: an hour is left out"
            if after > before
            else ("back: an hour comes twice")
        )
        what = f"the clock is moved on the night of {day_text(window.night)} ({how})"
        fix = (
            "look at what the clock runs that night; events keep their minutes, and an "
            "hour that comes twice is taken the first time"
        )
        found.append(Finding("warning", "calendar", what, fix))
    return tuple(found)


# --- the file ----------------------------------------------------------------


def calendar_ics(plan: WeekPlan, events: Iterable[Event], made: dt.datetime) -> str:
    """The calendar file: RFC 5545 lines, folded, in UTC.

    Parameters
    ----------
    plan : WeekPlan
        For the site.
    events : iterable of Event
        As `week_events` gives them.
    made : datetime
        With a time zone; the sequence number is its minute, so that of two files the
        later one counts.
    """
    stamp = made.astimezone(dt.UTC)
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//lowquarter//week//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
    ]
    sequence = (stamp - EPOCH) // MINUTE
    for one in events:
        lines += [
            "BEGIN:VEVENT",
            f"UID:{one.uid}",
            f"DTSTAMP:{_utc(stamp)}",
            f"SEQUENCE:{sequence}",
            f"DTSTART:{_utc(one.start)}",
            f"DTEND:{_utc(one.end)}",
            f"SUMMARY:{escaped(one.summary)}",
            f"DESCRIPTION:{escaped(one.description)}",
            f"LOCATION:{escaped(plain(plan.site.name))}",
            f"STATUS:{'CANCELLED' if one.is_cancelled else 'CONFIRMED'}",
            "TRANSP:TRANSPARENT",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in folded(line))


def _utc(moment: dt.datetime) -> str:
    return f"{moment:%Y%m%dT%H%M%SZ}"


def escaped(text: str) -> str:
    r"""A text as RFC 5545 (3.3.11) writes it.

    Examples
    --------
    >>> print(escaped("a, b; c" + chr(92)))
    a\, b\; c\\
    """
    for mark in ("\\", ";", ","):
        text = text.replace(mark, f"\\{mark}")
    return text.replace("\n", "\\n")


def folded(line: str) -> list[str]:
    """A line in parts of 75 octets at most, later ones begun with a space (3.1).

    A letter of several octets is never cut in two.
    """
    parts, octets = [""], 0
    for letter in line:
        size = len(letter.encode("utf-8"))
        if octets + size > MOST_OCTETS:
            parts.append(" ")
            octets = 1
        parts[-1] += letter
        octets += size
    return parts


# --- in words ----------------------------------------------------------------


def calendar_text(plan: WeekPlan, events: Iterable[Event]) -> str:
    """Events by the clock of the site, with UTC beside."""
    zone = ZoneInfo(plan.site.place.time_zone)
    lines = [f"{plain(plan.site.name)}: calendar of the week, {zone.key}"]
    for one in events:
        start, end = (at.astimezone(zone) for at in (one.start, one.end))
        when = f"{day_text(start.date())} {start:%H:%M}–{end:%H:%M}"
        if one.is_cancelled:
            when = f"{day_text(one.night)} called off"
        lines.append(f"{when:<24}  {one.summary}  ({one.start:%H:%M} UTC)")
    if len(lines) == 1:
        lines.append("no watering")
    return "\n".join(lines) + "\n"


def calendar_json(plan: WeekPlan, events: Iterable[Event]) -> Json:
    """Events with their names and times in UTC."""
    return {
        "format": FORMAT,
        "report": "calendar",
        "site": plan.site.name,
        "events": [
            {
                "uid": one.uid,
                "zone": one.zone,
                "night": one.night.isoformat(),
                "start": one.start.isoformat(),
                "end": one.end.isoformat(),
                "summary": one.summary,
                "is_cancelled": one.is_cancelled,
            }
            for one in events
        ],
    }
