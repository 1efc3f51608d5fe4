"""Windows of watering and wind logs in; the usual wind of the irrigation hours out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.wind import UsualWind, usual_by_hour_m_per_s, usual_wind
from scheduler.field.wind.hours import FEW_DAYS
from scheduler.field.wind_during import SiteWind
from scheduler.record import WindLog
from scheduler.site import Site


@dataclass(frozen=True, slots=True)
class IrrigationWind:
    """Usual wind while water runs; `mean_m_per_s` is None where it is not known.

    Attributes
    ----------
    mean_m_per_s : float or None
        Mean over the hours that may be watered in. [m/s]
    source : str
        Where it comes from.
    height_m : float or None
        Height that it stands for. [m]
    why : str
        Why it is not known.
    """

    mean_m_per_s: float | None = None
    source: str = ""
    height_m: float | None = None
    why: str = ""


def irrigation_wind(site: Site, logs: Sequence[WindLog]) -> IrrigationWind:
    """Mean wind of the hours of watering, of the log that saw the most of them.

    Parameters
    ----------
    site : Site
        For its windows and time zone.
    logs : sequence of WindLog
        Checked logs.

    Returns
    -------
    IrrigationWind
        The mean over months in which every hour was logged on a week of days or more.

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
    weight = _hours(site)
    if not weight.any():
        return IrrigationWind(why="the site has no [[window]]")
    usual = [(usual_wind(log, site.place.time_zone), log) for log in logs]
    seen = [(one, log, _months(one, weight)) for one, log in usual]
    seen = [one for one in seen if one[2]]
    if not seen:
        why = (
            f"no wind log covers the hours of watering on {FEW_DAYS} days of a month"
            if logs
            else "the site has no [[wind_log]]"
        )
        return IrrigationWind(why=why)
    best, log, months = max(seen, key=lambda one: len(one[2]))
    by_hour = usual_by_hour_m_per_s(best, months)
    watered = weight > 0
    mean = float(by_hour[watered] @ weight[watered] / weight.sum())
    source = f"irrigation hours in {len(months)} months of the log {log.name}"
    return IrrigationWind(mean, source, log.height_m)


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


def _hours(site: Site) -> FloatArray:
    """Minutes a week that each hour of the day may be watered in."""
    weight = np.zeros(24)
    for window in site.windows:
        first = window.start.hour * 60 + window.start.minute
        minute = (first + np.arange(window.minutes)) % (24 * 60)
        weight += np.bincount(minute // 60, minlength=24) * len(window.days)
    return weight


def _months(usual: UsualWind, weight: FloatArray) -> list[int]:
    """Months in which every irrigation hour was logged on a week of days or more."""
    n_days = usual.n_days[:, weight > 0]
    return [int(i) + 1 for i in np.flatnonzero((n_days >= FEW_DAYS).all(axis=1))]
