"""Wind logs and the minutes of the nights in; what a litre costs in each minute out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.bell import low_half_from_low_quarter
from scheduler.field.irrigation_wind import at_two_metres
from scheduler.field.wind import usual_by_hour_m_per_s, usual_wind
from scheduler.record import WindLog
from scheduler.site import Zone
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.timetable.minute_cost import extra_water, litre_cost

# Where nothing is known of a package in wind, a minute calmer by 1 m/s is worth so much
# of its water: enough to choose between minutes, too little to move anything else
# (common practice, no source: water in the calm).
CALM_WORTH = 0.001
# no package waters less evenly (keeps a line drawn too far from dividing by 0)
_LEAST_DU = 0.05


@dataclass(frozen=True, slots=True)
class DuLine:
    """DU of one package against wind, as tests found it.

    Attributes
    ----------
    at_calm : float
        DU low quarter without wind. [-]
    per_m_per_s : float
        Change with each metre a second, usually below 0. [-]
    """

    at_calm: float
    per_m_per_s: float


@dataclass(frozen=True, slots=True, eq=False)
class NightWind:
    """Usual wind of the minutes of the night.

    Attributes
    ----------
    by_minute_m_per_s : array of shape (n_minutes,) or None
        None where no log knows all these hours. [m/s]
    source : str
        Where it comes from, or why it is not known.
    """

    by_minute_m_per_s: FloatArray | None
    source: str


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
                return NightWind(wind, f"usual wind by hour of {when}, log {log.name}")
    return NightWind(None, "no wind log knows these hours" if logs else "no wind log")


def minute_cost(
    zone: Zone,
    wind: NightWind,
    hours: NightHours,
    lines: Mapping[str, DuLine],
) -> FloatArray:
    """Cost of a litre for one zone in each minute of the night.

    Parameters
    ----------
    zone : Zone
        For its rule and its package.
    wind : NightWind
        Usual wind of the minutes.
    hours : NightHours
        For the number of minutes.
    lines : mapping of str to DuLine
        DU against wind by package id, where it was tested. `plan` passes what the
        trials found, once: the hours chosen here give the wind that the zone's runs
        are chosen by, so a second pass would chase itself.

    Returns
    -------
    array of shape (n_minutes,)
        1 and the extra water of the zone's rule over that at the mean wind of the
        night; the rate is taken as the same at any wind. [-]

    References
    ----------
    Source: definition, as `extra_water`.

    Examples
    --------
    >>> import datetime as dt
    >>> hours = NightHours((dt.date(2026, 6, 8),), 1320, np.ones((1, 2), dtype=bool))
    >>> bay = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off",
    ...            package="p", rule="low quarter")
    >>> wind = NightWind(np.array([1.0, 3.0]), "typed")
    >>> minute_cost(bay, wind, hours, {"p": DuLine(0.9, -0.1)}).round(3).tolist()
    [0.875, 1.167]
    """
    speed = wind.by_minute_m_per_s
    if speed is None:
        return np.ones(hours.is_open.shape[1])
    line = lines.get(zone.package or "")
    if line is None or zone.chosen_rule == "average":
        return 1.0 + CALM_WORTH * speed
    du = np.clip(line.at_calm + line.per_m_per_s * speed, _LEAST_DU, 1.0)
    ref = float(np.clip(line.at_calm + line.per_m_per_s * speed.mean(), _LEAST_DU, 1.0))
    if zone.chosen_rule == "low half":
        du = np.array([low_half_from_low_quarter(float(one)) for one in du])
        ref = low_half_from_low_quarter(ref)
    extra = extra_water(
        1.0 / du, np.ones_like(du), ref_factor=1.0 / ref, ref_rate_mm_per_h=1.0
    )
    return litre_cost(extra)
