"""Rows of a wind log in; the wind of one day by the clock on the wall out."""

import datetime as dt
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.field.wind.clock import clock_stamps
from scheduler.record import WindLog


@dataclass(frozen=True, slots=True, eq=False)
class DayWind:
    """Wind of one day, row by row.

    Attributes
    ----------
    minute : array of shape (n_rows,)
        Start of each row in minutes after local midnight, ascending. [min]
    interval_min : float
        Length of a row; where the next one starts later there is a gap. [min]
    speed_m_per_s, gust_m_per_s : array of shape (n_rows,)
        Mean speed, and highest gust; a gust is NaN where none is logged. [m/s]
    height_m : float or None
        Height that the speeds stand for. [m]
    log : str
        Name of the logger.
    """

    date: dt.date
    minute: FloatArray
    interval_min: float
    speed_m_per_s: FloatArray
    gust_m_per_s: FloatArray
    height_m: float | None
    log: str


def day_wind(log: WindLog, day: dt.date, *, time_zone: str) -> DayWind | None:
    """Rows of a log that begin on one local day.

    Parameters
    ----------
    log : WindLog
        Rows in any order.
    day : date
        The local day.
    time_zone : str
        Zone of the site, such as `America/New_York`.

    Returns
    -------
    DayWind or None
        Rows with a speed; None where there is none on that day.

    Notes
    -----
    The clock on the wall: on the night it is put back, two hours carry the same
    minutes, and the later row stands on the earlier one.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> rows = np.array(["2026-05-12T10:10", "2026-05-12T10:15"], "datetime64[s]")
    >>> none = np.full(2, np.nan)
    >>> mast = WindLog(rows, 300.0, np.array([2.0, 3.0]), none, none, 2.0, "m", "m.csv")
    >>> found = day_wind(mast, dt.date(2026, 5, 12), time_zone="America/New_York")
    >>> found.minute.tolist()
    [370.0, 375.0]
    """
    local = clock_stamps(log.start_utc, "local", time_zone=time_zone)
    midnight = np.datetime64(day, "s")
    minute = (local - midnight).astype("timedelta64[s]").astype(np.float64) / 60.0
    here = (minute >= 0) & (minute < 24 * 60) & np.isfinite(log.speed_m_per_s)
    if not here.any():
        return None
    order = np.flatnonzero(here)[np.argsort(minute[here], kind="stable")]
    return DayWind(
        date=day,
        minute=frozen(minute[order]),
        interval_min=log.interval_s / 60.0,
        speed_m_per_s=frozen(log.speed_m_per_s[order]),
        gust_m_per_s=frozen(log.gust_m_per_s[order]),
        height_m=log.height_m,
        log=log.name,
    )
