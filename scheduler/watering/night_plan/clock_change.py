"""Runs by the wall clock and a time zone in; the moments they mean out."""

import datetime as dt
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray
from scheduler.field.wind.offsets import zone_of


@dataclass(frozen=True, slots=True)
class Moments:
    """One run in moments that every calendar understands.

    Attributes
    ----------
    start, end : datetime
        Aware, in the zone of the site; the minutes between them in UTC are those of
        the run.
    said : str
        What the clock does to the start: empty, or `comes twice that night, the first
        is meant`, or `is skipped that night`.
    """

    start: dt.datetime
    end: dt.datetime
    said: str = ""

    @property
    def start_utc(self) -> dt.datetime:
        """Start in UTC."""
        return self.start.astimezone(dt.UTC)

    @property
    def end_utc(self) -> dt.datetime:
        """End in UTC."""
        return self.end.astimezone(dt.UTC)


def moments_of(start: dt.datetime, minutes: float, time_zone: str) -> Moments:
    """The moments of a run that starts by the wall clock.

    Parameters
    ----------
    start : datetime
        What the clock on the wall shows, no zone attached.
    minutes : float
        How long water runs. [min]
    time_zone : str
        Zone of the site, such as `America/New_York`.

    Returns
    -------
    Moments
        Of an hour that comes twice the first; a time that is skipped counts on from
        the evening, so it lies as much after the change as it was meant to.

    Raises
    ------
    SchedulerError
        If there is no such zone.

    References
    ----------
    Source: definition (IANA time zone database; Python's fold 0).

    Examples
    --------
    >>> run = moments_of(dt.datetime(2026, 3, 8, 1, 50), 30, "America/New_York")
    >>> run.end_utc - run.start_utc, f"{run.end:%H:%M}"
    (datetime.timedelta(seconds=1800), '03:20')
    """
    zone = zone_of(time_zone)
    wall = start.replace(tzinfo=zone, fold=0)
    utc = wall.astimezone(dt.UTC)
    begin = utc.astimezone(zone)
    end = (utc + dt.timedelta(minutes=minutes)).astimezone(zone)
    said = ""
    if begin.replace(tzinfo=None, fold=0) != start:
        said = "is skipped that night"
    elif wall.utcoffset() != wall.replace(fold=1).utcoffset():
        said = "comes twice that night, the first is meant"
    return Moments(begin, end, said)


@dataclass(frozen=True, slots=True, eq=False)
class ChangedNight:
    """A night in which the clocks change.

    Attributes
    ----------
    hours : float
        Hours of that date's day and night, from noon to noon. [h]
    skipped, repeated : array of shape (n_minutes,)
        Minutes that the wall clock never shows, and those that it shows twice.
    """

    hours: float
    skipped: BoolArray
    repeated: BoolArray


def changed_night(
    date: dt.date, first_min: int, n_minutes: int, time_zone: str
) -> ChangedNight | None:
    """What a change of the clocks does to a night.

    Parameters
    ----------
    date : date
        Day on whose evening the night begins.
    first_min : int
        Minute of that day at which its count begins. [min]
    n_minutes : int
        Minutes of the night.
    time_zone : str
        Zone of the site.

    Returns
    -------
    ChangedNight or None
        None where the clocks stand still.

    Raises
    ------
    SchedulerError
        If there is no such zone.

    References
    ----------
    Source: definition (IANA time zone database).

    Examples
    --------
    >>> changed = changed_night(dt.date(2026, 3, 7), 1320, 390, "America/New_York")
    >>> changed.hours, int(changed.skipped.sum()), int(changed.skipped.argmax())
    (23.0, 60, 240)
    """
    zone = zone_of(time_zone)
    midnight = dt.datetime.combine(date, dt.time())

    def utc(minute: int) -> dt.datetime:
        wall = midnight + dt.timedelta(minutes=minute)
        return wall.replace(tzinfo=zone).astimezone(dt.UTC)

    real = utc(first_min + n_minutes) - utc(first_min)
    missing = n_minutes - round(real.total_seconds() / 60)
    if missing == 0:
        return None
    walls = [
        midnight + dt.timedelta(minutes=first_min + minute)
        for minute in range(n_minutes)
    ]
    said = [moments_of(wall, 0, time_zone).said for wall in walls]
    noon = 12 * 60
    length = utc(noon + 24 * 60) - utc(noon)
    return ChangedNight(
        length.total_seconds() / 3600,
        np.array(["skipped" in one for one in said], dtype=bool),
        np.array(["twice" in one for one in said], dtype=bool),
    )
