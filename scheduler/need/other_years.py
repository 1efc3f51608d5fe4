"""One station's measured days in; what other years had on the asked days out.

Years are counted from the asked day, so that a week over New Year belongs to one of
them. 29 February counts as 28 February.
"""

import numpy as np

from scheduler.arrays import DateArray, FloatArray, IntArray
from scheduler.need.reference_et import ReferenceET
from scheduler.need.weather import day_of_year

PLAIN_YEAR_DAYS = 365
# Days on either side that count as "those days" of other years (common practice, no
# source): a week smooths single days and stays within the season.
WINDOW_DAYS = 3
# Of the seven days of a window, or of a week, at least so many must be known, else the
# year does not count (common practice, no source).
LEAST_OF_WINDOW = 4
MOST_MISSING = 2


def day_of_plain_year(date: DateArray) -> IntArray:
    """Day 1 to 365 of a year without 29 February, which counts as 28 February.

    Parameters
    ----------
    date : array of shape (n_days,)
        Days. [datetime64[D]]

    Returns
    -------
    array of shape (n_days,)
        1 for 1 January. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> leap = np.array(["2028-02-28", "2028-02-29", "2028-03-01"], "datetime64[D]")
    >>> day_of_plain_year(leap).tolist()
    [59, 59, 60]
    """
    day, year = day_of_year(date), _year(date)
    is_leap = (year % 4 == 0) & ((year % 100 != 0) | (year % 400 == 0))
    return np.asarray(day - (is_leap & (day >= 60)))


def own_average_eto_mm_per_day(
    one: ReferenceET, asked: DateArray, *, least_years: int = 1
) -> FloatArray:
    """Mean over other years of the days within 3 days of the asked ones.

    Parameters
    ----------
    one : ReferenceET
        Measured days.
    asked : array of shape (n_days,)
        Days to answer for. [datetime64[D]]
    least_years : int
        With fewer years the answer is NaN; from 2 on, a year counts only if four of
        its seven days are known.

    Returns
    -------
    array of shape (n_days,)
        Reference ET, each year weighing the same; NaN where too few years are known.
        [mm/day]

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> days = np.arange("2024-06-01", "2025-07-01", dtype="datetime64[D]")
    >>> county = ReferenceET("county", False, days, np.full(days.size, 5.0),
    ...                      ("stated",) * days.size, np.zeros(days.size), "")
    >>> asked = np.array(["2026-06-08"], "datetime64[D]")
    >>> own_average_eto_mm_per_day(county, asked, least_years=2).tolist()
    [5.0]
    """
    near = np.arange(-WINDOW_DAYS, WINDOW_DAYS + 1)
    window = _of_other_years(one, asked, near)
    least = LEAST_OF_WINDOW if least_years > 1 else 1
    each_year = _mean_known(window, least)
    return _mean_known(np.moveaxis(each_year, 0, -1), least_years)


def other_years_sums_mm(one: ReferenceET, asked: DateArray) -> FloatArray:
    """Sum of reference ET over the same dates in each other year.

    Parameters
    ----------
    one : ReferenceET
        Measured days.
    asked : array of shape (n_days,)
        The days whose dates are meant. [datetime64[D]]

    Returns
    -------
    array of shape (n_years,)
        One sum a year; a year that lacks up to two days has its mean in their place,
        one that lacks more is left out. [mm]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> days = np.arange("2024-06-01", "2025-07-01", dtype="datetime64[D]")
    >>> county = ReferenceET("county", False, days, np.full(days.size, 5.0),
    ...                      ("stated",) * days.size, np.zeros(days.size), "")
    >>> asked = np.arange("2026-06-08", "2026-06-15", dtype="datetime64[D]")
    >>> other_years_sums_mm(county, asked).tolist()
    [35.0, 35.0]
    """
    same = _of_other_years(one, asked, np.zeros(1, dtype=np.int64))[:, :, 0]
    least = max(asked.size - MOST_MISSING, 1)
    mean = _mean_known(same, least)
    return np.asarray(mean[np.isfinite(mean)] * asked.size)


def _year(date: DateArray) -> IntArray:
    return np.asarray(date.astype("datetime64[Y]").astype(np.int64) + 1970)


def _plain_serial(date: DateArray) -> IntArray:
    return np.asarray(_year(date) * PLAIN_YEAR_DAYS + day_of_plain_year(date))


def _of_other_years(
    one: ReferenceET, asked: DateArray, offsets: IntArray
) -> FloatArray:
    """ETo of shape (n_years, n_asked, n_offsets); NaN where the station knows none."""
    known = np.isfinite(one.eto_mm_per_day)
    if not known.any() or not asked.size:
        return np.full((0, asked.size, offsets.size), np.nan)
    serial, wanted = _plain_serial(one.date[known]), _plain_serial(asked)
    first, n_days = int(serial.min()), int(np.ptp(serial)) + 1
    place = serial - first
    count = np.bincount(place, minlength=n_days)
    total = np.bincount(place, weights=one.eto_mm_per_day[known], minlength=n_days)
    by_day = np.where(count > 0, total / np.maximum(count, 1), np.nan)
    newest = -((int(serial.max()) - int(wanted.min())) // PLAIN_YEAR_DAYS) - 1
    oldest = (int(wanted.max()) - first) // PLAIN_YEAR_DAYS + 1
    ago = np.array([year for year in range(newest, oldest + 1) if year != 0])
    at = wanted[None, :, None] + offsets - first
    at = at - PLAIN_YEAR_DAYS * ago[:, None, None]
    inside = (at >= 0) & (at < n_days)
    return np.where(inside, by_day[np.clip(at, 0, n_days - 1)], np.nan)


def _mean_known(values: FloatArray, least: int) -> FloatArray:
    """Mean over the last axis of what is known; NaN where that is too little."""
    known = np.isfinite(values)
    count = known.sum(axis=-1)
    total = np.where(known, values, 0.0).sum(axis=-1)
    enough = (count >= least) & (count > 0)
    return np.asarray(np.where(enough, total / np.maximum(count, 1), np.nan))
