"""Stamps of a logger and its clock in; moments in UTC, where there is one, out."""

from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np
import numpy.typing as npt

from scheduler.arrays import BoolArray, DateArray, IntArray
from scheduler.errors import SchedulerError
from scheduler.field.wind.offsets import (
    DAY_S,
    Offsets,
    fixed_ahead_s,
    standard_ahead_s,
    zone_of,
    zone_offsets,
)


@dataclass(frozen=True, slots=True, eq=False)
class ClockReading:
    """Moments that stamps stand for.

    Attributes
    ----------
    utc : array of shape (n,)
        The moments; NaT where a stamp has none or two. [datetime64[s]]
    is_repeated : array of shape (n,)
        The clock showed this stamp twice and nothing tells which is meant.
    is_skipped : array of shape (n,)
        The clock never showed this stamp.
    """

    utc: DateArray
    is_repeated: BoolArray
    is_skipped: BoolArray


def read_clock(
    stamps: npt.ArrayLike, clock: str, *, time_zone: str, step_s: float = 0.0
) -> ClockReading:
    """Moments that stamps without offset stand for.

    Parameters
    ----------
    stamps : array of shape (n,)
        Wall clock readings in the order of the file. [datetime64[s]]
    clock : str
        `local`, `standard` (local without daylight time), `utc`, or a fixed offset
        such as `+01:00`.
    time_zone : str
        Zone of the site, such as `America/New_York`.
    step_s : float
        Usual seconds between rows; 0 when the stamps are no series.

    Returns
    -------
    ClockReading
        The moments, NaT where they cannot be known.

    Raises
    ------
    SchedulerError
        If the clock or the zone is not known.

    Notes
    -----
    A repeated hour is settled only where both passes are there in order: one step back
    within the hour, and exactly one row's time between the rows on its two sides.

    References
    ----------
    Source: definition (IANA time zone database).

    Examples
    --------
    >>> read_clock(["2013-07-01T06:10"], "local", time_zone="America/New_York").utc
    array(['2013-07-01T10:10:00'], dtype='datetime64[s]')
    """
    stamp = np.atleast_1d(np.asarray(stamps, dtype="datetime64[s]"))
    zone, is_known = zone_of(time_zone), ~np.isnat(stamp)
    seconds = np.where(is_known, stamp.astype(np.int64), 0)
    repeated = skipped = np.zeros(stamp.size, dtype=np.bool_)
    if clock == "local":
        offsets = zone_offsets(seconds[is_known], zone)
        utc_s, repeated, skipped = _local(seconds, offsets, step_s)
    else:
        utc_s = seconds - _unchanging_ahead_s(clock, seconds, zone)
    utc = utc_s.astype("datetime64[s]")
    utc[~is_known | repeated | skipped] = np.datetime64("NaT")
    return ClockReading(utc, repeated & is_known, skipped & is_known)


def _unchanging_ahead_s(clock: str, seconds: IntArray, zone: ZoneInfo) -> IntArray:
    """Offset of a clock that does not follow daylight time."""
    fixed = fixed_ahead_s(clock)
    if fixed is not None:
        return np.full(seconds.size, fixed, dtype=np.int64)
    if clock == "standard":
        return standard_ahead_s(seconds, zone)
    raise SchedulerError(
        f"clock {clock!r} is not known",
        "write local, standard, utc, or a fixed offset such as +01:00",
    )


def _local(
    seconds: IntArray, offsets: Offsets, step_s: float
) -> tuple[IntArray, BoolArray, BoolArray]:
    """Moments of local stamps, those that came twice, and those that never were."""
    # a day is longer than any offset: the rule before and the rule after a change
    before, after = offsets.at(seconds - DAY_S), offsets.at(seconds + DAY_S)
    early, late = seconds - before, seconds - after
    fits_early, fits_late = offsets.at(early) == before, offsets.at(late) == after
    repeated = fits_early & fits_late & (early != late)
    settled, is_late = _both_passes(seconds, (early, late), repeated, step_s)
    utc_s = np.where(fits_early & ~is_late, early, late)
    return utc_s, repeated & ~settled, ~fits_early & ~fits_late


def _both_passes(
    seconds: IntArray,
    passes: tuple[IntArray, IntArray],
    repeated: BoolArray,
    step_s: float,
) -> tuple[BoolArray, BoolArray]:
    """Repeated stamps that the order of the rows settles, and those of the second pass.

    A log that begins with its newest row is read from its end.
    """
    early, late = passes
    settled, is_late = np.zeros_like(repeated), np.zeros_like(repeated)
    rows = np.flatnonzero(repeated)
    if rows.size < 2 or step_s <= 0:
        return settled, is_late
    newest_first = seconds[-1] < seconds[0]
    for group in np.split(rows, np.flatnonzero(np.diff(rows) > 1) + 1):
        block = group[::-1] if newest_first else group
        back = np.flatnonzero(np.diff(seconds[block]) <= 0)
        if back.size != 1:
            continue
        first, second = block[: back[0] + 1], block[back[0] + 1 :]
        if late[second[0]] - early[first[-1]] == step_s:
            settled[block] = True
            is_late[second] = True
    return settled, is_late


def clock_stamps(utc: npt.ArrayLike, clock: str, *, time_zone: str) -> DateArray:
    """What a clock shows at given moments.

    Parameters
    ----------
    utc : array of shape (n,)
        Moments. [datetime64[s]]
    clock : str
        `local`, `standard`, `utc`, or a fixed offset.
    time_zone : str
        Zone of the site.

    Returns
    -------
    array of shape (n,)
        Wall clock readings. [datetime64[s]]

    Raises
    ------
    SchedulerError
        If the clock or the zone is not known.

    References
    ----------
    Source: definition (IANA time zone database).

    Examples
    --------
    >>> clock_stamps(["2013-11-03T06:30"], "local", time_zone="America/New_York")
    array(['2013-11-03T01:30:00'], dtype='datetime64[s]')
    """
    moments = np.atleast_1d(np.asarray(utc, dtype="datetime64[s]"))
    seconds, zone = moments.astype(np.int64), zone_of(time_zone)
    if clock == "local":
        ahead = zone_offsets(seconds, zone).at(seconds)
    else:
        ahead = _unchanging_ahead_s(clock, seconds, zone)
    return np.asarray((seconds + ahead).astype("datetime64[s]"))
