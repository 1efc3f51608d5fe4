"""Runs of nights in; valves that are open together, with their flow, out."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from scheduler.site import WEEKDAYS, Site
from scheduler.supply import minutes_between
from scheduler.watering.night_plan.result import NightWindow, PlannedRun


@dataclass(frozen=True, slots=True)
class Stretch:
    """Minutes of a night in which the same valves are open.

    Attributes
    ----------
    start, end : datetime
        On the clock of the site, no zone attached.
    zones : tuple of str
        In the order in which they began.
    flow_l_per_min : float
        Of all zones whose flow is known. [l_per_min]
    unknown : tuple of str
        Zones whose flow is not known.
    """

    start: dt.datetime
    end: dt.datetime
    zones: tuple[str, ...]
    flow_l_per_min: float
    unknown: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NotedHours:
    """Part of a night in which water must not run, or in which energy has its price.

    Attributes
    ----------
    start, end : datetime
        On the clock of the site; may reach beyond the night.
    reason : str
        Spraying, people, frost stand-by, restriction; `energy price` for a period.
    zones : tuple of str
        None named: all zones.
    price_money_per_kwh : float or None
        Of a period of the tariff. [money_per_kwh]
    """

    start: dt.datetime
    end: dt.datetime
    reason: str
    zones: tuple[str, ...] = ()
    price_money_per_kwh: float | None = None


def stretches(runs: Iterable[PlannedRun]) -> tuple[Stretch, ...]:
    """What is open together, minute by minute, told in stretches.

    Parameters
    ----------
    runs : iterable of PlannedRun
        Of one night, or of several.

    Returns
    -------
    tuple of Stretch
        By start; minutes without water are left out.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> day = dt.date(2026, 6, 8)
    >>> ten, half, eleven = (dt.datetime(2026, 6, 8, *at) for at in
    ...                      ((22, 0), (22, 30), (23, 0)))
    >>> runs = (PlannedRun("Z1", day, ten, eleven, 100.0),
    ...         PlannedRun("Z2", day, half, eleven, 60.0))
    >>> [(one.zones, one.flow_l_per_min) for one in stretches(runs)]
    [(('Z1',), 100.0), (('Z1', 'Z2'), 160.0)]
    """
    ordered = sorted(runs, key=lambda one: (one.start, one.zone))
    marks = sorted({mark for one in ordered for mark in (one.start, one.end)})
    found = []
    for start, end in pairwise(marks):
        on = [one for one in ordered if one.start <= start and end <= one.end]
        if on:
            flow = sum(one.flow_l_per_min or 0.0 for one in on)
            unknown = tuple(one.zone for one in on if one.flow_l_per_min is None)
            names = tuple(one.zone for one in on)
            found.append(Stretch(start, end, names, flow, unknown))
    return tuple(found)


def noted_hours(site: Site, window: NightWindow) -> tuple[NotedHours, ...]:
    """Blocked hours and energy periods that reach into a night.

    Parameters
    ----------
    site : Site
        For its blocked hours and its tariff.
    window : NightWindow
        The night.

    Returns
    -------
    tuple of NotedHours
        By start; days of both are calendar days. Blocked hours that end where the night
        begins, or begin where it ends, are the reason why it does, and count.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import BlockedHours, Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> spray = BlockedHours(start=dt.time(21), end=dt.time(23), days=("mon",),
    ...                      reason="spraying")
    >>> site = Site(name="a", units="us", place=place, blocked_hours=(spray,))
    >>> night = NightWindow(dt.date(2026, 6, 8), dt.datetime(2026, 6, 8, 22),
    ...                     dt.datetime(2026, 6, 9, 4), 360, 0, None, None, (), 0.0)
    >>> [(f"{one.start:%H:%M}", f"{one.end:%H:%M}") for one in noted_hours(site, night)]
    [('21:00', '23:00')]
    """
    found = [
        NotedHours(start, end, one.reason, one.zones)
        for one in site.blocked_hours
        for start, end in _near(window, (one.start, one.end), one.days)
    ]
    periods = site.tariff.period if site.tariff else ()
    found += [
        NotedHours(start, end, "energy price", (), one.price_money_per_kwh)
        for one in periods
        for start, end in _near(window, (one.start, one.end), one.days)
        if start < window.end and end > window.start
    ]
    return tuple(sorted(found, key=lambda one: (one.start, one.end, one.reason)))


def _near(
    window: NightWindow, hours: tuple[dt.time, dt.time], days: Sequence[str]
) -> list[tuple[dt.datetime, dt.datetime]]:
    """Hours of some calendar days that reach into the night, or up to it."""
    found = []
    for later in (-1, 0, 1):
        day = window.night + dt.timedelta(days=later)
        if WEEKDAYS[day.weekday()] not in days:
            continue
        start = dt.datetime.combine(day, hours[0])
        end = start + dt.timedelta(minutes=minutes_between(*hours))
        if start <= window.end and end >= window.start:
            found.append((start, end))
    return found
