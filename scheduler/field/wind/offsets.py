"""A clock and a time zone in; its distance to UTC at any moment out."""

import datetime as dt
import re
from dataclasses import dataclass
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import numpy as np

from scheduler.arrays import IntArray
from scheduler.errors import SchedulerError

DAY_S = 86_400
_EPOCH = dt.datetime(1970, 1, 1, tzinfo=dt.UTC)
# Moments that datetime can hold with a day to spare; later ones keep the last offset.
_FIRST_S, _LAST_S = -62_000_000_000, 253_000_000_000
# Clocks are at most 14 hours from UTC (Line Islands); 15 is refused as a slip.
_MOST_HOURS = 14
_FIXED = re.compile(r"(?:utc|gmt)?\s*([-+−])(\d{1,2})(?::?(\d\d))?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Offsets:
    """Seconds that local clocks are ahead of UTC, from each moment on.

    Attributes
    ----------
    since_s : array of shape (n_changes,)
        Moments of a change in seconds since 1970, ascending.
    ahead_s : array of shape (n_changes + 1,)
        Offset before the first change, and after each.
    """

    since_s: IntArray
    ahead_s: IntArray

    def at(self, utc_s: IntArray) -> IntArray:
        """Offset at moments in seconds since 1970."""
        return np.asarray(
            self.ahead_s[np.searchsorted(self.since_s, utc_s, side="right")]
        )


def zone_of(time_zone: str) -> ZoneInfo:
    """Time zone of that name.

    Parameters
    ----------
    time_zone : str
        Name in the time zone database, such as `America/New_York`.

    Returns
    -------
    ZoneInfo
        The zone.

    Raises
    ------
    SchedulerError
        If there is no such zone.

    References
    ----------
    Source: definition (IANA time zone database).

    Examples
    --------
    >>> zone_of("America/New_York").key
    'America/New_York'
    """
    try:
        return ZoneInfo(time_zone)
    except (ZoneInfoNotFoundError, ValueError, OSError) as problem:
        raise SchedulerError(
            f"time zone {time_zone!r} is not known",
            "write it like America/New_York or Europe/Berlin",
        ) from problem


def zone_offsets(around_s: IntArray, zone: ZoneInfo) -> Offsets:
    """Offsets of a zone, exact to the second within two days of given moments.

    Parameters
    ----------
    around_s : array of shape (n,)
        Moments in seconds since 1970; a wall clock will do.
    zone : ZoneInfo
        The zone.

    Returns
    -------
    Offsets
        Its changes.

    Notes
    -----
    Offsets are sampled each day and a change is bisected, so two changes within one day
    would go unseen; no zone has had them.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> noon = np.array([1_383_480_000])  # 3 November 2013, 12:00 UTC
    >>> zone_offsets(noon, zone_of("America/New_York")).ahead_s // 3600
    array([-4, -5])
    """
    days = np.unique(around_s // DAY_S)
    sampled = np.unique(days[:, np.newaxis] + np.arange(-2, 3)) * DAY_S
    ahead = [_ahead_s(zone, int(one)) for one in sampled]
    since, kept = [], ahead[:1] or [0]
    for i in range(1, len(ahead)):
        if ahead[i] != ahead[i - 1]:
            since.append(_change_s(zone, int(sampled[i - 1]), int(sampled[i])))
            kept.append(ahead[i])
    return Offsets(np.array(since, dtype=np.int64), np.array(kept, dtype=np.int64))


def _ahead_s(zone: ZoneInfo, utc_s: int) -> int:
    seconds = min(max(utc_s, _FIRST_S), _LAST_S)
    there = (_EPOCH + dt.timedelta(seconds=seconds)).astimezone(zone)
    return int((there.utcoffset() or dt.timedelta()).total_seconds())


def _change_s(zone: ZoneInfo, low: int, high: int) -> int:
    """First second at which the offset is that of the later moment."""
    new = _ahead_s(zone, high)
    while high - low > 1:
        middle = (low + high) // 2
        if _ahead_s(zone, middle) == new:
            high = middle
        else:
            low = middle
    return high


def standard_ahead_s(stamp_s: IntArray, zone: ZoneInfo) -> IntArray:
    """Offset of a clock that stays on the zone's standard time all year.

    Parameters
    ----------
    stamp_s : array of shape (n,)
        Moments or wall clock readings in seconds since 1970.
    zone : ZoneInfo
        The zone.

    Returns
    -------
    array of shape (n,)
        Seconds ahead of UTC.

    Notes
    -----
    The smaller of the offsets of January and July: daylight time is always ahead.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> july = np.array([1_373_000_000])
    >>> standard_ahead_s(july, zone_of("America/New_York")) // 3600
    array([-5])
    """
    years = stamp_s.astype("datetime64[s]").astype("datetime64[Y]").astype(np.int64)
    unique, place = np.unique(years, return_inverse=True)
    ahead = []
    for year in unique:
        january = int(np.datetime64(int(year), "Y").astype("datetime64[s]").astype(int))
        july = january + 181 * DAY_S
        ahead.append(min(_ahead_s(zone, january), _ahead_s(zone, july)))
    return np.array(ahead, dtype=np.int64)[place]


def fixed_ahead_s(clock: str) -> int | None:
    """Offset of a clock written like `+01:00`, or None if it is not written so.

    Parameters
    ----------
    clock : str
        What was declared.

    Returns
    -------
    int or None
        Seconds ahead of UTC; 0 for `utc`.

    References
    ----------
    Source: definition (ISO 8601).

    Examples
    --------
    >>> fixed_ahead_s("-05:30"), fixed_ahead_s("utc"), fixed_ahead_s("local")
    (-19800, 0, None)
    """
    if clock.strip().casefold() in ("utc", "gmt", "z"):
        return 0
    found = _FIXED.match(clock.strip())
    if found is None:
        return None
    hours, minutes = int(found[2]), int(found[3] or 0)
    if minutes >= 60 or hours * 60 + minutes > _MOST_HOURS * 60:
        return None
    size = 3600 * hours + 60 * minutes
    return size if found[1] == "+" else -size
