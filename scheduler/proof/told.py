"""Issued weeks, the clock as found and the log in; minutes of each night out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.issued import IssuedWeek, IssuedZone
from scheduler.log import Log, Override, Watering
from scheduler.noun import WEEKDAYS
from scheduler.record import History
from scheduler.site import Site, Zone
from scheduler.watering.clock import as_found_min

NOT_RECORDED = "not recorded"
AS_FOUND = "clock as found"
LOGGED = "log"


@dataclass(frozen=True, slots=True, eq=False)
class ToldNights:
    """What the clock was told for a zone, night by night, and what the log says.

    Attributes
    ----------
    nights : tuple of date
        Days on whose evening each night begins.
    told_min : array of shape (n_nights,)
        As issued, else as found; NaN where nobody wrote it down. [min]
    ran_min : array of shape (n_nights,)
        The same with overrides, waterings and skips of the log in it. [min]
    sources : tuple of str
        What the minutes rest on, each once.
    """

    zone: str
    nights: tuple[dt.date, ...]
    told_min: FloatArray
    ran_min: FloatArray
    sources: tuple[str, ...]


def told_nights(
    zone: Zone, site: Site, history: History, nights: Sequence[dt.date]
) -> ToldNights:
    """Minutes of each night, as told and as logged.

    Parameters
    ----------
    zone : Zone
        With the clock as found.
    site : Site
        For the clock's percent adjust.
    history : History
        Issued weeks and the log.
    nights : sequence of date
        Any nights.

    Returns
    -------
    ToldNights
        One number a night.

    Notes
    -----
    The clock goes on with the week it was told last; before the first one it runs as
    found. An override holds until the next issued week. A logged watering or skip
    stands for its night, whatever was told.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import AsFound, Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> bay = Zone(id="Z1", name="bay", area_m2=1.0, grown_in="soil", watered="off",
    ...            as_found=AsFound(minutes=20.0, days=("mon",)))
    >>> days = [dt.date(2026, 6, 8), dt.date(2026, 6, 9)]
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> told_nights(bay, site, History(), days).told_min.tolist()
    [20.0, 0.0]
    """
    weeks = _weeks_of(zone, history.issued)
    overrides = history.log.of(Override, zone.id)
    told, ran = np.full((2, len(nights)), np.nan)
    sources: dict[str, None] = {}
    for i, night in enumerate(nights):
        told[i], source, since = _told(zone, site, weeks, night)
        sources[source] = None
        ran[i] = _overridden(overrides, night, since, told[i])
    for i, minutes in _logged(zone, history.log, nights).items():
        ran[i] = minutes
        sources[LOGGED] = None
    return ToldNights(zone.id, tuple(nights), frozen(told), frozen(ran), tuple(sources))


_Week = tuple[IssuedWeek, IssuedZone]


def _weeks_of(zone: Zone, issued: Sequence[IssuedWeek]) -> list[_Week]:
    """Weeks that tell the zone's minutes, the newest and its last revision first."""
    wanted = zone.id.casefold()
    told = [
        (w, one) for w in issued for one in w.zones if one.zone.casefold() == wanted
    ]
    return sorted(told, key=lambda pair: pair[0].order, reverse=True)


def _told(
    zone: Zone, site: Site, weeks: Sequence[_Week], night: dt.date
) -> tuple[float, str, dt.date]:
    """Minutes, what they rest on, and the first night for which they were told."""
    for week, one in weeks:
        if week.start <= night:
            is_on = night.weekday() in {day.weekday() for day in one.days}
            minutes = one.minutes_per_day if is_on else 0.0
            return minutes, f"issued week {week.name}", week.start
    name = WEEKDAYS[night.weekday()]
    if zone.as_found is not None:
        minutes = as_found_min(zone, site.controller_of(zone).percent_adjust)
        on = minutes if name in zone.as_found.days else 0.0
        return on, AS_FOUND, dt.date.min
    if zone.fixed_minutes is not None:
        on = zone.fixed_minutes if name in zone.days else 0.0
        return on, "fixed minutes", dt.date.min
    if zone.watered == "off":
        return 0.0, "off", dt.date.min
    return np.nan, NOT_RECORDED, dt.date.min


def _overridden(
    overrides: Sequence[Override], night: dt.date, since: dt.date, told: float
) -> float:
    held = [one for one in overrides if since <= one.date <= night]
    if not held:
        return told
    # on nights without water an override has nothing to change, but on its own
    return held[-1].minutes if told != 0 or held[-1].date == night else told


def _logged(zone: Zone, log: Log, nights: Sequence[dt.date]) -> dict[int, float]:
    """Minutes by place in the nights, of those that somebody wrote down."""
    place = {night: i for i, night in enumerate(nights)}
    found: dict[int, float] = {}
    for one in log.of(Watering, zone.id):
        if one.date in place:
            at = place[one.date]
            found[at] = found.get(at, 0.0) + (0.0 if one.is_skipped else one.minutes)
    return found
