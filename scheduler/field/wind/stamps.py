"""Stamps of intervals in; their starts in UTC, and the choice to make, out."""

import datetime as dt
from collections.abc import Sequence
from typing import Literal

import numpy as np
import numpy.typing as npt

from scheduler.arrays import DateArray
from scheduler.errors import Finding
from scheduler.field.wind.clock import ClockReading, read_clock
from scheduler.field.wind.offsets import zone_of, zone_offsets

Mark = Literal["start", "end"]


def clock_findings(
    reading: ClockReading,
    stamps: npt.ArrayLike,
    *,
    time_zone: str,
    where: Sequence[str],
) -> tuple[Finding, ...]:
    """Say which stamps have no moment or two, and the choice to make.

    Parameters
    ----------
    reading : ClockReading
        What became of the stamps.
    stamps : array of shape (n,)
        The stamps. [datetime64[s]]
    time_zone : str
        Zone of the site.
    where : sequence of str
        Place of each stamp, as the user knows it.

    Returns
    -------
    tuple of Finding
        At most one stop for repeated stamps and one for stamps that never were.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> night = np.array(["2013-03-10T02:30"], dtype="datetime64[s]")
    >>> reading = read_clock(night, "local", time_zone="America/New_York")
    >>> said = clock_findings(
    ...     reading, night, time_zone="America/New_York", where=["wind/mast.csv:7"]
    ... )
    >>> said[0].where
    'wind/mast.csv:7'
    """
    stamp = np.atleast_1d(np.asarray(stamps, dtype="datetime64[s]"))
    findings = []
    for wrong, said in ((reading.is_repeated, _repeated), (reading.is_skipped, _never)):
        rows = np.flatnonzero(wrong)
        if rows.size:
            what, fix = said(stamp[rows[0]], time_zone)
            more = f" ({rows.size - 1} more like this)" if rows.size > 1 else ""
            findings.append(Finding("stop", where[int(rows[0])], what + more, fix))
    return tuple(findings)


def _repeated(stamp: np.datetime64, time_zone: str) -> tuple[str, str]:
    offsets = zone_offsets(np.array([int(stamp.astype(np.int64))]), zone_of(time_zone))
    # the change is within a day of the stamp, and two days around it were sampled
    passes = [_signed(int(one)) for one in offsets.ahead_s[:2]]
    seen = str(stamp.astype("datetime64[m]"))
    what = (
        f"{seen.replace('T', ' ')} came twice in {time_zone}, at offset {passes[0]} "
        f"and again at {passes[1]}"
    )
    fix = (
        f"write {seen}{passes[0]} or {seen}{passes[1]}, or state the clock as "
        "standard or utc if it does not follow daylight time"
    )
    return what, fix


def _never(stamp: np.datetime64, time_zone: str) -> tuple[str, str]:
    seen = str(stamp.astype("datetime64[m]")).replace("T", " ")
    what = (
        f"{seen} never was in {time_zone}, where clocks went forward over it: "
        "this clock does not observe daylight time"
    )
    return what, "state the clock as standard, or as a fixed offset such as -05:00"


def _signed(seconds: int) -> str:
    minutes = abs(seconds) // 60
    return f"{'-' if seconds < 0 else '+'}{minutes // 60:02d}:{minutes % 60:02d}"


def stamps_to_utc(
    stamps: npt.ArrayLike,
    clock: str,
    *,
    time_zone: str,
    mark: Mark,
    interval_s: float,
    where: str = "log",
) -> tuple[DateArray, tuple[Finding, ...]]:
    """Starts in UTC of the intervals that stamps without offset mark.

    Parameters
    ----------
    stamps : array of shape (n,)
        Wall clock readings in the order of the file. [datetime64[s]]
    clock : str
        `local`, `standard`, `utc`, or a fixed offset such as `+01:00`.
    time_zone : str
        Zone of the site.
    mark : {'start', 'end'}
        Which end of its interval a stamp marks.
    interval_s : float
        Length of an interval; 0 for single moments. [s]
    where : str
        Place of the stamps in findings.

    Returns
    -------
    utc : array of shape (n,)
        Interval starts, NaT where a stamp is refused. [datetime64[s]]
    findings : tuple of Finding
        A stop for refused stamps, with the choice to make.

    References
    ----------
    Source: definition (IANA time zone database).

    Examples
    --------
    >>> utc, said = stamps_to_utc(
    ...     ["2013-11-03T01:30"], "local", time_zone="America/New_York", mark="start",
    ...     interval_s=0,
    ... )
    >>> str(utc[0]), said[0].level
    ('NaT', 'stop')
    """
    stamp = np.atleast_1d(np.asarray(stamps, dtype="datetime64[s]"))
    reading = read_clock(stamp, clock, time_zone=time_zone, step_s=interval_s)
    places = [where] * stamp.size
    said = clock_findings(reading, stamp, time_zone=time_zone, where=places)
    return interval_starts(reading.utc, mark, interval_s), said


def interval_starts(utc: DateArray, mark: Mark, interval_s: float) -> DateArray:
    """Starts of intervals, from the moments that mark them.

    Parameters
    ----------
    utc : array of shape (n,)
        The moments. [datetime64[s]]
    mark : {'start', 'end'}
        Which end of its interval a moment marks.
    interval_s : float
        Length of an interval. [s]

    Returns
    -------
    array of shape (n,)
        The starts. [datetime64[s]]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> interval_starts(np.array(["2013-07-01T06:10:00"], "datetime64[s]"), "end", 300)
    array(['2013-07-01T06:05:00'], dtype='datetime64[s]')
    """
    if mark == "start":
        return utc
    return np.asarray(utc - np.timedelta64(round(interval_s), "s"))


def utc_of(
    moment: dt.datetime, *, time_zone: str, where: str
) -> tuple[np.datetime64 | None, tuple[Finding, ...]]:
    """Moment of a date and time as somebody wrote it, local unless it has an offset.

    Parameters
    ----------
    moment : datetime
        With an offset, or local time of the site.
    time_zone : str
        Zone of the site.
    where : str
        Place of the moment in findings.

    Returns
    -------
    utc : datetime64[s] or None
        None when the clock showed that time twice, or never.
    findings : tuple of Finding
        A stop with the choice to make.

    References
    ----------
    Source: definition (IANA time zone database).

    Examples
    --------
    >>> morning = dt.datetime(2026, 5, 12, 6, 10)
    >>> utc_of(morning, time_zone="America/New_York", where="test.toml: start")[0]
    np.datetime64('2026-05-12T10:10:00')
    """
    if moment.utcoffset() is not None:
        plain = moment.astimezone(dt.UTC).replace(tzinfo=None)
        return np.datetime64(plain, "s"), ()
    stamp = np.array([np.datetime64(moment.replace(tzinfo=None), "s")])
    utc, said = stamps_to_utc(
        stamp, "local", time_zone=time_zone, mark="start", interval_s=0, where=where
    )
    return (None if np.isnat(utc[0]) else utc[0]), said
