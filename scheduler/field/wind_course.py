"""A site's wind logs in; the usual course of a day's wind, and its calm hours, out."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, IntArray, frozen
from scheduler.errors import Finding
from scheduler.field.irrigation_wind import (
    IrrigationWind,
    at_two_metres,
    watered_minutes,
    wind_of_hours,
)
from scheduler.field.wind import UsualWind, usual_by_hour_m_per_s, usual_wind
from scheduler.field.wind.hours import FEW_DAYS
from scheduler.record import WindLog
from scheduler.site import Site

# Hours looked for where the site has no night window (common practice, no source).
CALM_HOURS = 6
# Common practice, no source: wind is highest in the early afternoon and drops at about
# five. First and last hour that still count as that.
EARLY_AFTERNOON = (12, 14)
DROPS_AT = (16, 17)
FIVE = 17


@dataclass(frozen=True, slots=True)
class TradeRule:
    """What the trade says of a day's wind, against one log.

    Attributes
    ----------
    highest_hour : int
        Hour with the highest mean.
    drops_after_hour : int
        Hour after which the mean falls most.
    at_five : float
        Mean of the hour that begins at 17:00, over that of the highest hour.
    is_highest_early, is_dropping_at_five : bool
        Whether the log bears out each half of the rule.
    """

    highest_hour: int
    drops_after_hour: int
    at_five: float
    is_highest_early: bool
    is_dropping_at_five: bool


@dataclass(frozen=True, slots=True, eq=False)
class WindCourse:
    """Usual wind of one log by hour, over the months that it covers.

    Attributes
    ----------
    log : str
        Name of the log.
    usual : UsualWind
        By month and hour, brought to 2 m where the sensor's height is known.
    sensor_height_m : float or None
        Height of the sensor, which gusts stand for: means alone can be brought down.
        [m]
    gust_m_per_s : array of shape (12, 24)
        Highest gust at the height of the sensor. [m/s]
    by_hour_m_per_s, gust_by_hour_m_per_s, calm_by_hour : array of shape (24,)
        Mean, highest gust [m/s] and calm share over all rows of an hour.
    n_days : array of shape (12,)
        Days of each month with any wind.
    is_enough : bool
        Whether every hour was logged on a week of days of some month.
    calm_start, calm_hours : int or None
        First hour and number of the calmest hours in a row.
    calm_mean_m_per_s : float or None
        Mean over them. [m/s]
    night : IrrigationWind or None
        The hours of watering.
    trade : TradeRule or None
        None where some hour has no wind.
    findings : tuple of Finding
        What must be said of the log.
    """

    log: str
    usual: UsualWind
    sensor_height_m: float | None
    gust_m_per_s: FloatArray
    by_hour_m_per_s: FloatArray
    gust_by_hour_m_per_s: FloatArray
    calm_by_hour: FloatArray
    n_days: IntArray
    is_enough: bool
    calm_start: int | None
    calm_hours: int | None
    calm_mean_m_per_s: float | None
    night: IrrigationWind | None
    trade: TradeRule | None
    findings: tuple[Finding, ...]


def calmest_hours(by_hour_m_per_s: FloatArray, n_hours: int) -> tuple[int, float]:
    """Calmest hours in a row, across midnight if need be.

    Parameters
    ----------
    by_hour_m_per_s : array of shape (24,)
        Mean wind by hour, all known. [m/s]
    n_hours : int
        How many, 1 to 24.

    Returns
    -------
    tuple of int and float
        First hour, the earliest of equals, and the mean. [m/s]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> calmest_hours(np.array([1.0, 2.0] + [5.0] * 21 + [0.5]), 2)
    (23, 0.75)
    """
    twice = np.concatenate([by_hour_m_per_s, by_hour_m_per_s[: n_hours - 1]])
    means = np.convolve(twice, np.full(n_hours, 1 / n_hours), mode="valid")
    start = int(np.argmin(means.round(9)))
    return start, float(means[start])


def trade_rule(by_hour_m_per_s: FloatArray) -> TradeRule:
    """What the trade says of a day's wind, against the hours of a log.

    Parameters
    ----------
    by_hour_m_per_s : array of shape (24,)
        Mean wind by hour on the clock of the site, all known. [m/s]

    Returns
    -------
    TradeRule
        Both halves of the rule, borne out or not.

    Notes
    -----
    Early afternoon is taken as the hours that begin at 12:00 to 14:00, and the drop
    at five as the largest fall after the hour that begins at 16:00 or 17:00. Under
    daylight time the sun stands an hour earlier than the clock says.

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> wind = np.array([1.0] * 8 + [2.0, 3, 3, 3, 4, 5, 4, 4, 4, 2] + [1.5] * 6)
    >>> found = trade_rule(wind)
    >>> found.highest_hour, found.drops_after_hour, found.is_dropping_at_five
    (13, 16, True)
    """
    highest = int(np.argmax(by_hour_m_per_s))
    drop = int(np.argmin(np.roll(by_hour_m_per_s, -1) - by_hour_m_per_s))
    most = float(by_hour_m_per_s[highest])
    return TradeRule(
        highest_hour=highest,
        drops_after_hour=drop,
        at_five=float(by_hour_m_per_s[FIVE]) / most if most else 1.0,
        is_highest_early=EARLY_AFTERNOON[0] <= highest <= EARLY_AFTERNOON[1],
        is_dropping_at_five=DROPS_AT[0] <= drop <= DROPS_AT[1],
    )


def wind_courses(site: Site, logs: Sequence[WindLog]) -> tuple[WindCourse, ...]:
    """Usual wind of each of a site's logs.

    Parameters
    ----------
    site : Site
        For its clock and night windows.
    logs : sequence of WindLog
        Checked logs.

    Returns
    -------
    tuple of WindCourse
        In the order of the logs; one that knows too little says so.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> wind_courses(Site(name="a", units="us", place=place), [])
    ()
    """
    return tuple(_course(site, log) for log in logs)


def _course(site: Site, log: WindLog) -> WindCourse:
    carried, said = at_two_metres(log)
    zone = site.place.time_zone
    usual = usual_wind(carried, zone)
    gust = usual_wind(log, zone).gust_m_per_s
    by_hour = usual_by_hour_m_per_s(usual)
    is_whole = bool(np.isfinite(by_hour).all())
    n_hours = _night_hours(site)
    start, mean = calmest_hours(by_hour, n_hours) if is_whole else (None, None)
    enough = bool((usual.n_days.max(axis=0) >= FEW_DAYS).all())
    return WindCourse(
        log=log.name,
        usual=usual,
        sensor_height_m=log.height_m,
        gust_m_per_s=gust,
        by_hour_m_per_s=frozen(by_hour),
        gust_by_hour_m_per_s=_highest(gust),
        calm_by_hour=_weighted(usual.calm_share, usual.n_rows),
        n_days=frozen(usual.n_days.max(axis=1), np.int64),
        is_enough=enough,
        calm_start=start,
        calm_hours=n_hours if is_whole else None,
        calm_mean_m_per_s=mean,
        night=wind_of_hours(log, usual, site.windows),
        trade=trade_rule(by_hour) if is_whole else None,
        findings=(*said, *usual.findings),
    )


def _night_hours(site: Site) -> int:
    """Whole hours that the site may water in, as many as are looked for."""
    minutes = watered_minutes(site.windows)
    longest = minutes.max()
    return math.ceil(float(minutes.sum() / longest)) if longest else CALM_HOURS


def _highest(gust: FloatArray) -> FloatArray:
    highest = np.where(np.isfinite(gust), gust, -np.inf).max(axis=0)
    return frozen(np.where(np.isfinite(highest), highest, np.nan))


def _weighted(share: FloatArray, n_rows: IntArray) -> FloatArray:
    count = n_rows.sum(axis=0)
    total = np.nansum(share * n_rows, axis=0)
    return frozen(np.divide(total, count, out=np.full(24, np.nan), where=count > 0))
