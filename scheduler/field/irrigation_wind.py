"""A site's night windows and wind logs in; the wind of the irrigation hours out."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from scheduler.arrays import FloatArray, IntArray, frozen
from scheduler.errors import Finding, WeatherError
from scheduler.field.wind import (
    UsualWind,
    at_height,
    height_factor,
    usual_by_hour_m_per_s,
    usual_wind,
)
from scheduler.field.wind.hours import FEW_DAYS
from scheduler.field.wind.log import LOG_HEIGHTS_M
from scheduler.field.wind_during import SiteWind, WindDuring
from scheduler.record import WindLog
from scheduler.site import Site, Window

# Winds are compared at this height: the limits for testing and the equation that
# carries winds of masts down are made for it (FAO-56, equation 47). [m]
HEIGHT_M = 2.0


def _no_months() -> FloatArray:
    return frozen(np.full(12, np.nan))


def _no_days() -> IntArray:
    return frozen(np.zeros(12), np.int64)


@dataclass(frozen=True, slots=True, eq=False)
class IrrigationWind:
    """Usual wind while water runs; `mean_m_per_s` is None where it is not known.

    Attributes
    ----------
    mean_m_per_s : float or None
        Mean over the months that the log covers. [m/s]
    source : str
        Where it comes from.
    why : str
        Why it is not known.
    by_month_m_per_s : array of shape (12,)
        Mean of each month, NaN where the log does not cover it. [m/s]
    n_days : array of shape (12,)
        Days of each month on which the least logged of these hours was logged.
    log : str
        Name of the log.
    sensor_height_m, height_m : float or None
        Height of the sensor, and the one that the wind stands for. [m]
    findings : tuple of Finding
        What must be said of it.
    """

    mean_m_per_s: float | None = None
    source: str = ""
    why: str = ""
    by_month_m_per_s: FloatArray = field(default_factory=_no_months)
    n_days: IntArray = field(default_factory=_no_days)
    log: str = ""
    sensor_height_m: float | None = None
    height_m: float | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def n_months(self) -> int:
        """Months that the log covers."""
        return int(np.isfinite(self.by_month_m_per_s).sum())


def at_two_metres(log: WindLog) -> tuple[WindLog, tuple[Finding, ...]]:
    """A log brought to 2 m, and what must be said of that.

    Parameters
    ----------
    log : WindLog
        Rows at the height of the sensor.

    Returns
    -------
    tuple of WindLog and findings
        The log as it is, and a warning, where the height is unknown or beyond the
        equation.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equation 47.

    Examples
    --------
    >>> hour, none = np.array(["2026-05-12T10"], "datetime64[s]"), np.array([np.nan])
    >>> mast = WindLog(hour, 3600.0, np.array([4.0]), none, none, 10.0, "mast", "a.csv")
    >>> log, said = at_two_metres(mast)
    >>> log.speed_m_per_s.round(2).tolist(), said[0].level
    ([2.99], 'note')
    """
    try:
        carried = at_height(log, height_m=HEIGHT_M)
    except WeatherError as problem:
        return log, (problem.finding(f"{log.where}: height_m", "warning"),)
    return carried, carried.findings[len(log.findings) :]


def run_wind_at_two_metres(wind: WindDuring | None) -> float | None:
    """Mean wind of a run at 2 m.

    Parameters
    ----------
    wind : WindDuring or None
        Wind during the run.

    Returns
    -------
    float or None
        As it is where the height is unknown or beyond the equation; None where the
        wind is not known. [m/s]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equation 47.

    Examples
    --------
    >>> round(run_wind_at_two_metres(WindDuring(4.0, height_m=10.0)), 2)
    2.99
    """
    if wind is None or wind.mean_m_per_s is None:
        return None
    height = wind.height_m
    low, high = LOG_HEIGHTS_M
    if height is None or height == HEIGHT_M or not low <= height <= high:
        return wind.mean_m_per_s
    return wind.mean_m_per_s * height_factor(height, to_m=HEIGHT_M)


def watered_minutes(windows: Sequence[Window]) -> FloatArray:
    """Minutes a week that each hour of the day may be watered in.

    Parameters
    ----------
    windows : sequence of Window
        Night windows; they may cross midnight.

    Returns
    -------
    array of shape (24,)
        Minutes, by local hour. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> night = Window(start=dt.time(23, 0), end=dt.time(0, 30), days=("mon",))
    >>> watered_minutes([night])[[22, 23, 0, 1]].tolist()
    [0.0, 60.0, 30.0, 0.0]
    """
    minutes = np.zeros(24)
    for window in windows:
        first = window.start.hour * 60 + window.start.minute
        minute = (first + np.arange(window.minutes)) % (24 * 60)
        minutes += np.bincount(minute // 60, minlength=24) * len(window.days)
    return minutes


def wind_of_hours(
    log: WindLog, usual: UsualWind, windows: Sequence[Window]
) -> IrrigationWind | None:
    """Usual wind of one log in the hours of watering.

    Parameters
    ----------
    log : WindLog
        The log as read, for its name and height.
    usual : UsualWind
        Its usual wind, at the height to be used.
    windows : sequence of Window
        Night windows.

    Returns
    -------
    IrrigationWind or None
        None where there is no window, or no month in which every hour of watering
        was logged on a week of days.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> rows = np.array(["2026-07-01T01:00"], "datetime64[s]")
    >>> none = np.full(1, np.nan)
    >>> log = WindLog(rows, 3600.0, np.array([2.0]), none, none, 2.0, "m", "m.csv")
    >>> wind_of_hours(log, usual_wind(log, "UTC"), []) is None
    True
    """
    minutes = watered_minutes(windows)
    watered = minutes > 0
    if not watered.any():
        return None
    n_days = usual.n_days[:, watered].min(axis=1)
    months = np.flatnonzero(n_days >= FEW_DAYS)
    if not months.size:
        return None
    weight = minutes[watered] / minutes.sum()
    by_month = np.full(12, np.nan)
    by_month[months] = usual.mean_m_per_s[np.ix_(months, watered)] @ weight
    whole = usual_by_hour_m_per_s(usual, (months + 1).tolist())[watered] @ weight
    return IrrigationWind(
        mean_m_per_s=float(whole),
        source=_source(log, usual, months.size),
        by_month_m_per_s=frozen(by_month),
        n_days=frozen(n_days, np.int64),
        log=log.name,
        sensor_height_m=log.height_m,
        height_m=usual.height_m,
        findings=usual.findings,
    )


def _source(log: WindLog, usual: UsualWind, n_months: int) -> str:
    months = "1 month" if n_months == 1 else f"{n_months} months"
    source = f"irrigation hours in {months} of the log {log.name}"
    if log.height_m is None:
        return f"{source}, at a height not stated"
    if log.height_m != usual.height_m:
        return f"{source}, brought from {log.height_m:g} to {usual.height_m:g} m"
    return f"{source}, at {log.height_m:g} m"


def irrigation_wind(site: Site, logs: Sequence[WindLog]) -> IrrigationWind:
    """Mean wind of the hours of watering, of the log that knows most months of them.

    Parameters
    ----------
    site : Site
        For its windows and time zone.
    logs : sequence of WindLog
        Checked logs.

    Returns
    -------
    IrrigationWind
        The mean over months in which every hour was logged on a week of days or more,
        brought to 2 m where the height of the sensor is known.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> irrigation_wind(Site(name="a", units="us", place=place), ()).why
    'the site has no [[window]]'
    """
    if not watered_minutes(site.windows).any():
        return IrrigationWind(why="the site has no [[window]]")
    if not logs:
        return IrrigationWind(why="the site has no [[wind_log]]")
    found = []
    for log in logs:
        carried, said = at_two_metres(log)
        usual = usual_wind(carried, site.place.time_zone)
        one = wind_of_hours(log, usual, site.windows)
        if one is not None:
            found.append(replace(one, findings=(*said, *one.findings)))
    if not found:
        why = f"no wind log covers the hours of watering on {FEW_DAYS} days of a month"
        return IrrigationWind(why=why)
    return max(found, key=lambda one: one.n_months)


def site_wind(site: Site, logs: Sequence[WindLog]) -> SiteWind:
    """The logs of a site with the usual wind of its irrigation hours.

    Parameters
    ----------
    site : Site
        For its windows, time zone and units.
    logs : sequence of WindLog
        Checked logs.

    Returns
    -------
    SiteWind
        What `wind_during` and the choice of runs ask.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site_wind(Site(name="a", units="us", place=place), ()).usual_m_per_s is None
    True
    """
    usual = irrigation_wind(site, logs)
    return SiteWind(
        tuple(logs),
        site.place.time_zone,
        site.units,
        usual.mean_m_per_s,
        usual.source or usual.why,
    )
