"""A site, its tests and its log in; tests, checks and readings that are due out."""

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from scheduler.errors import Finding
from scheduler.field.due import tests_due
from scheduler.field.evidence import is_of_other_package
from scheduler.log import Entry, LeachingPot, Log, MeterReading, Repair, Respacing
from scheduler.proof.hardware import changed_on
from scheduler.record import CanTest, History
from scheduler.said import date_text, day_text
from scheduler.site import Site, Zone

Kind = Literal["test", "leaching check", "meter reading"]

# Leaching is checked weekly to monthly, and a meter is read weekly (common practice, no
# source); two days of grace, for a week-end.
CHECK_DAYS, METER_DAYS = 28, 9
# Meteorological seasons begin with these months.
SEASON_MONTHS = (3, 6, 9, 12)


@dataclass(frozen=True, slots=True)
class Due:
    """One thing to do: a test, a leaching check, or a reading of a meter.

    Attributes
    ----------
    kind : str
        What is to be done.
    of : str
        Id of the zone, or name of the meter; empty for a site without a meter.
    last : date or None
        When it was done last.
    finding : Finding
        Why it is due, and what to do.
    """

    kind: Kind
    of: str
    last: dt.date | None
    finding: Finding


def everything_due(site: Site, history: History, today: dt.date) -> tuple[Due, ...]:
    """Tests, leaching checks and meter readings that are missing or stale.

    Parameters
    ----------
    site : Site
        Zones, and how often they are tested.
    history : History
        Tests and the log; what is dated after today does not count.
    today : date
        The day to count from.

    Returns
    -------
    tuple of Due
        Tests, then checks, both in the order of the zones, then meters by name; at most
        one of a kind each.

    Notes
    -----
    A test is stale after a change of the hardware, a leaching check also after the
    block was moved or a season turned. Zones in soil, off or on fixed minutes need no
    check.

    References
    ----------
    .. [1] Univ. Florida AE194 (test at least once a year).
    .. [2] Common practice, no source: leaching weekly to monthly, a meter weekly.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> everything_due(site, History(), dt.date(2026, 6, 8))
    ()
    """
    return (
        *_tests(site, history, today),
        *_checks(site, history.log, today),
        *_readings(site, history.log, today),
    )


# --- tests ---------------------------------------------------------------------


def _tests(site: Site, history: History, today: dt.date) -> Iterator[Due]:
    stale = {one.where: one for one in tests_due(site, history.tests, today)}
    changes = Log(history.log.of(Repair))  # looked through for every zone
    tests: dict[str, list[CanTest]] = {}
    for test in history.tests:
        tests.setdefault(test.zone.casefold(), []).append(test)
    for zone in site.zones:
        own = _own_tests(zone, tests.get(zone.id.casefold(), ()), today)
        last = max((one.date for one in own), default=None)
        where = f"zone {zone.id}"
        finding = stale.get(where)
        change = None
        if last is not None and zone.watered not in ("off", "fixed minutes"):
            change = changed_on(zone, changes, last, today)
        if change is not None and last is not None:
            what = (
                f"was tested {date_text(last)}, and its hardware was changed "
                f"{day_text(change.date)} ({change.where}: {change.what})"
            )
            finding = Finding("warning", where, what, "test it again as it is now")
        if finding is not None:
            yield Due("test", zone.id, last, finding)


def _own_tests(zone: Zone, tests: Sequence[CanTest], today: dt.date) -> list[CanTest]:
    return [
        one for one in tests if one.date <= today and not is_of_other_package(one, zone)
    ]


# --- leaching checks -------------------------------------------------------------


def _checks(site: Site, log: Log, today: dt.date) -> Iterator[Due]:
    changes = log.of(Repair)
    told: dict[str, list[Entry]] = {}
    for one in (*log.of(LeachingPot), *log.of(Respacing)):
        told.setdefault(one.zone, []).append(one)
    for zone in site.zones:
        if zone.grown_in != "pots" or zone.watered in ("off", "fixed minutes"):
            continue
        own = Log((*told.get(zone.id, ()), *changes))
        dates = [c.date for c in own.leaching_checks(zone.id) if c.date <= today]
        last = max(dates, default=None)
        why = _why_check(zone, own, (last, today))
        if why is not None:
            level, what = why
            fix = "weigh or catch the leachate of six pots, the driest among them"
            finding = Finding(level, f"zone {zone.id}", what, fix)
            yield Due("leaching check", zone.id, last, finding)


def _why_check(
    zone: Zone, log: Log, days: tuple[dt.date | None, dt.date]
) -> tuple[Literal["note", "warning"], str] | None:
    last, today = days
    if last is None:
        return "note", "leaching was never checked"
    checked = f"leaching was checked {date_text(last)}"
    moved = [one for one in log.of(Respacing, zone.id) if last < one.date <= today]
    if moved:
        one = moved[-1]
        what = f"{checked}, and the block was moved {day_text(one.date)} ({one.where})"
        return "warning", what
    change = changed_on(zone, log, last, today)
    if change is not None:
        what = f"{checked}, and its hardware was changed {day_text(change.date)}"
        return "warning", f"{what} ({change.where})"
    if last < season_start(today):
        return "note", f"{checked}, and the season turned since"
    if (today - last).days > CHECK_DAYS:
        return "note", f"{checked}, {(today - last).days // 7} weeks ago"
    return None


def season_start(today: dt.date) -> dt.date:
    """First day of the meteorological season that a day lies in.

    Parameters
    ----------
    today : date
        The day.

    Returns
    -------
    date
        1 March, June, September or December.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> season_start(dt.date(2026, 1, 15))
    datetime.date(2025, 12, 1)
    """
    begun = [month for month in SEASON_MONTHS if month <= today.month]
    if begun:
        return dt.date(today.year, begun[-1], 1)
    return dt.date(today.year - 1, SEASON_MONTHS[-1], 1)


# --- meters ----------------------------------------------------------------------


def _readings(site: Site, log: Log, today: dt.date) -> Iterator[Due]:
    last: dict[str, MeterReading] = {}
    for one in log.of(MeterReading):
        if one.date <= today:
            last[one.meter] = one
    fix = "record SITE meter, each week on the same day"
    if not last and any(zone.watered != "off" for zone in site.zones):
        what = "no meter was read: what the plan says is not held against water"
        yield Due("meter reading", "", None, Finding("note", "log.csv", what, fix))
    for name in sorted(last):
        days = (today - last[name].date).days
        if days > METER_DAYS:
            what = (
                f"meter {name!r} was read {date_text(last[name].date)}, {days} days ago"
            )
            finding = Finding("note", last[name].where, what, fix)
            yield Due("meter reading", name, last[name].date, finding)
