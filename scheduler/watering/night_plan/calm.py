"""Wind logs and the minutes of the nights in; what a litre costs in each minute out."""

from collections.abc import Mapping, Sequence

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.irrigation_wind import at_two_metres
from scheduler.field.package_wind import PackageWind
from scheduler.field.wind import usual_by_hour_m_per_s, usual_wind
from scheduler.record import WindLog
from scheduler.watering.night_plan.in_wind import zone_in_wind
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.night_plan.result import NightWind, WateredZone
from scheduler.watering.timetable.minute_cost import litre_cost

# Where nothing is known of a package in wind, or its rule loses nothing, a minute
# calmer by 1 m/s is worth so much of its water: enough to choose between minutes, too
# little to move anything else (common practice, no source: water in the calm).
CALM_WORTH = 0.001


def night_wind(logs: Sequence[WindLog], hours: NightHours, time_zone: str) -> NightWind:
    """Usual wind of each minute of the night, in the month of the first one.

    Parameters
    ----------
    logs : sequence of WindLog
        Checked logs; the first that knows all the hours is used.
    hours : NightHours
        The nights.
    time_zone : str
        Zone of the site.

    Returns
    -------
    NightWind
        Brought to 2 m where the height is known.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> hours = NightHours((dt.date(2026, 6, 8),), 1320, np.ones((1, 390), dtype=bool))
    >>> night_wind((), hours, "America/New_York").source
    'no wind log'
    """
    minute = hours.first_min + np.arange(hours.is_open.shape[1])
    hour = minute // 60 % 24
    month = hours.dates[0].month if hours.dates else 1
    for log in logs:
        usual = usual_wind(at_two_metres(log)[0], time_zone)
        for months, when in (((month,), "this month"), (range(1, 13), "all months")):
            wind = usual_by_hour_m_per_s(usual, months)[hour]
            if np.isfinite(wind).all():
                source = f"usual wind by hour of {when}, log {log.name}"
                return NightWind(wind, source, hours.first_min)
    return NightWind(None, "no wind log knows these hours" if logs else "no wind log")


def minute_cost(
    one: WateredZone,
    wind: NightWind,
    lines: Mapping[str, PackageWind],
    price_over_mean: FloatArray,
) -> FloatArray:
    """Cost of a litre for one zone in each minute of the nights.

    Parameters
    ----------
    one : WateredZone
        For its rule, its package and the catch that its week was planned with.
    wind : NightWind
        Usual wind of the minutes.
    lines : mapping of str to PackageWind
        DU and rate against wind by package id, where the tests tell. `plan` feeds the
        hours chosen here back into the minutes once, so nothing chases itself.
    price_over_mean : array of shape (n_nights, n_minutes)
        Price of a litre over its mean; ones where water alone counts. [-]

    Returns
    -------
    array of shape (n_nights, n_minutes)
        1 and the extra water of the zone's rule over that of its week, times the
        price. [-]

    References
    ----------
    Source: definition, as `extra_water`.
    """
    speed = wind.by_minute_m_per_s
    if speed is None:
        return price_over_mean
    line = lines.get(one.zone.package or "")
    extra = np.zeros_like(speed)
    if line is not None:
        extra = zone_in_wind(one, line, float(speed.mean())).extra(speed)
    if np.ptp(extra) < CALM_WORTH * CALM_WORTH:
        extra = extra + CALM_WORTH * speed
    return litre_cost(extra, price_over_mean)
