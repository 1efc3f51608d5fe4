"""A long wind log in; the site's usual wind by hour and month out."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, IntArray, frozen
from scheduler.errors import Finding
from scheduler.field.wind.checking import BREAK_S
from scheduler.field.wind.clock import clock_stamps
from scheduler.field.wind.runs import CALM_UP_TO_M_PER_S
from scheduler.record import WindLog

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
          "September", "October", "November", "December")  # fmt: skip
# Common practice, no source: an hour of a month seen on fewer days is hardly usual.
FEW_DAYS = 7
_ROUNDING_M_PER_S = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class UsualWind:
    """Mean wind by month and local hour.

    Attributes
    ----------
    mean_m_per_s : array of shape (12, 24)
        Mean speed in month 1 to 12 and local hour 0 to 23, NaN where none is logged.
        [m/s]
    gust_m_per_s : array of shape (12, 24)
        Highest gust, NaN where none is logged. [m/s]
    calm_share : array of shape (12, 24)
        Part of the rows that are calm, NaN where none is logged.
    n_rows : array of shape (12, 24)
        Rows with a speed.
    n_days : array of shape (12, 24)
        Days that they come from.
    height_m : float or None
        Height that the speeds stand for. [m]
    time_zone : str
        Zone of the hours.
    findings : tuple of Finding
        Months that the log does not cover, and breaks in it.
    """

    mean_m_per_s: FloatArray
    gust_m_per_s: FloatArray
    calm_share: FloatArray
    n_rows: IntArray
    n_days: IntArray
    height_m: float | None
    time_zone: str
    findings: tuple[Finding, ...]


def usual_wind(log: WindLog, time_zone: str) -> UsualWind:
    """Mean wind by local hour and month.

    Parameters
    ----------
    log : WindLog
        Rows of weeks or years, in any order.
    time_zone : str
        Zone of the hours, such as `America/New_York`.

    Returns
    -------
    UsualWind
        Means and counts.

    Notes
    -----
    A row belongs to the hour of its middle; it is calm up to the limit for testing.
    Hours are what people on the site read from their clocks, so the sun stands an hour
    earlier in them under daylight time.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> rows = np.array(["2026-07-01T14:00", "2026-07-02T14:00"], "datetime64[s]")
    >>> none = np.full(2, np.nan)
    >>> log = WindLog(rows, 3600.0, np.array([2.0, 4.0]), none, none, 2.0, "m", "m.csv")
    >>> float(usual_wind(log, "America/New_York").mean_m_per_s[6, 10])
    3.0
    """
    known = np.isfinite(log.speed_m_per_s)
    half = np.timedelta64(round(log.interval_s / 2), "s")
    local = clock_stamps(log.start_utc[known] + half, "local", time_zone=time_zone)
    month = local.astype("datetime64[M]").astype(np.int64) % 12
    hour = local.astype("datetime64[h]").astype(np.int64) % 24
    cell = 24 * month + hour
    n_rows = np.bincount(cell, minlength=288)
    speed, gust = log.speed_m_per_s[known], log.gust_m_per_s[known]
    is_calm = (speed <= CALM_UP_TO_M_PER_S + _ROUNDING_M_PER_S).astype(np.float64)
    highest = np.full(288, -np.inf)
    has_gust = np.isfinite(gust)
    np.maximum.at(highest, cell[has_gust], gust[has_gust])
    # a day and hour fix the month, so one cell each
    day_hours = np.unique(local.astype("datetime64[h]").astype(np.int64))
    months = day_hours.astype("datetime64[h]").astype("datetime64[M]").astype(np.int64)
    n_days = np.bincount(24 * (months % 12) + day_hours % 24, minlength=288)
    return UsualWind(
        mean_m_per_s=_share(cell, speed, n_rows),
        gust_m_per_s=frozen(np.where(highest < 0, np.nan, highest).reshape(12, 24)),
        calm_share=_share(cell, is_calm, n_rows),
        n_rows=frozen(n_rows.reshape(12, 24), np.int64),
        n_days=frozen(n_days.reshape(12, 24), np.int64),
        height_m=log.height_m,
        time_zone=time_zone,
        findings=(*_thin(n_days.reshape(12, 24), log.where), *_breaks(log)),
    )


def _share(cell: IntArray, values: FloatArray, n_rows: IntArray) -> FloatArray:
    """Mean of the values of each month and hour."""
    total = np.bincount(cell, weights=values, minlength=288)
    mean = np.divide(total, n_rows, out=np.full(288, np.nan), where=n_rows > 0)
    return frozen(mean.reshape(12, 24))


def _thin(n_days: IntArray, where: str) -> tuple[Finding, ...]:
    best = n_days.max(axis=1)
    none = [MONTHS[i] for i in np.flatnonzero(best == 0)]
    few = [MONTHS[i] for i in np.flatnonzero((best > 0) & (best < FEW_DAYS))]
    findings = []
    if none:
        what = f"no wind is logged in {', '.join(none)}"
        fix = "the usual wind of these months is not known; log a whole year"
        findings.append(Finding("note", where, what, fix))
    if few:
        what = f"less than {FEW_DAYS} days are logged in {', '.join(few)}"
        fix = "the usual wind of these months is a few days' weather; log longer"
        findings.append(Finding("note", where, what, fix))
    return tuple(findings)


def _breaks(log: WindLog) -> Iterator[Finding]:
    """Say so when the logger was away: it may have seen chosen hours only."""
    start = np.sort(log.start_utc).astype("datetime64[s]").astype(np.int64)
    step_s = np.diff(start)
    long = step_s[step_s > BREAK_S]
    if not long.size:
        return
    many = "1 break" if long.size == 1 else f"{long.size} breaks"
    share = start.size * log.interval_s / (start[-1] - start[0] + log.interval_s)
    what = (
        f"{many} of more than {BREAK_S / 3600:g} hours, the longest of "
        f"{long.max() / 3600:.0f} hours; {100 * share:.0f} % of the time from first to "
        "last row is logged"
    )
    fix = (
        "a logger that was carried to the tests knows the wind of test hours; leave "
        "one standing to learn the usual wind"
    )
    yield Finding("note", log.where, what, fix)


def usual_by_hour_m_per_s(
    usual: UsualWind, months: Iterable[int] = range(1, 13)
) -> FloatArray:
    """Mean wind by local hour over some months.

    Parameters
    ----------
    usual : UsualWind
        Means by month and hour.
    months : iterable of int
        Months, 1 to 12.

    Returns
    -------
    array of shape (24,)
        Mean over all rows of these months, NaN for an hour without any. [m/s]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> rows = np.array(["2026-07-01T14:00"], "datetime64[s]")
    >>> none = np.full(1, np.nan)
    >>> log = WindLog(rows, 3600.0, np.array([2.0]), none, none, 2.0, "m", "m.csv")
    >>> float(usual_by_hour_m_per_s(usual_wind(log, "UTC"))[14])
    2.0
    """
    chosen = [month - 1 for month in months]
    count = usual.n_rows[chosen].sum(axis=0)
    total = np.nansum(usual.mean_m_per_s[chosen] * usual.n_rows[chosen], axis=0)
    return np.asarray(np.divide(total, count, out=np.full(24, np.nan), where=count > 0))
