"""What a day's values are called, can be, and where they stand in the file."""

from typing import NamedTuple

import numpy as np

from scheduler.arrays import DateArray, IntArray
from scheduler.record import DailySeries
from scheduler.units import shown, split_suffix


class Limit(NamedTuple):
    """What a daily value can be at all, and what to look at when it is not."""

    label: str
    low: float
    high: float
    look_at: str


# Bounds for nonsense, not for rare weather (common practice, no source).
LIMITS: dict[str, Limit] = {
    "tmax_degc": Limit("highest temperature", -60, 60, "the unit, °C or °F"),
    "tmin_degc": Limit("lowest temperature", -60, 60, "the unit, °C or °F"),
    "rh_max": Limit("highest humidity", 0.01, 1.05, "the unit: 1 to 100 %"),
    "rh_min": Limit("lowest humidity", 0.01, 1.05, "the unit: 1 to 100 %"),
    "rh_mean": Limit("mean humidity", 0.01, 1.05, "the unit: 1 to 100 %"),
    "dew_point_degc": Limit("dew point", -60, 40, "the unit, °C or °F"),
    "vapour_pressure_kpa": Limit("vapour pressure", 0.001, 8, "the unit: kPa, not hPa"),
    "radiation_mj_per_m2_day": Limit("radiation", 0, 45, "the unit of the column"),
    "sunshine_h": Limit("sunshine", 0, 24, "the column: hours of bright sun"),
    "wind_m_per_s": Limit("wind", 0, 30, "the unit: m/s, km/h or mph"),
    "rain_mm": Limit("rain", 0, 500, "the unit, mm or inches"),
    "eto_mm_per_day": Limit("ETo", 0, 20, "the unit, mm or inches"),
}
RH_FIELDS = ("rh_max", "rh_min", "rh_mean")


def day_of_year(date: DateArray) -> IntArray:
    """Number of each day in its year.

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
    >>> day_of_year(np.array(["2026-02-01"], dtype="datetime64[D]")).tolist()
    [32]
    """
    day = date.astype("datetime64[D]")
    first = day.astype("datetime64[Y]").astype("datetime64[D]")
    return np.asarray((day - first).astype(np.int64) + 1)


def place_of(series: DailySeries, index: int, what: str) -> str:
    """Place of a day in the file, as the user knows it.

    Parameters
    ----------
    series : DailySeries
        The station.
    index : int
        Position of the day in the series.
    what : str
        Name of the column.

    Returns
    -------
    str
        Such as `weather/mast.csv:14: wind`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.record import DailySeries
    >>> day, none = np.array(["2026-07-06"], "datetime64[D]"), np.array([np.nan])
    >>> mast = DailySeries("mast", "weather/mast.csv", False, 2.0, 50.8, 100.0, day,
    ...                    *[none] * 12, line=(14,))
    >>> place_of(mast, 0, "wind")
    'weather/mast.csv:14: wind'
    """
    if series.line:
        return f"{series.where}:{series.line[index]}: {what}"
    return f"{series.where}: {what}"


def seen(name: str, value: float) -> str:
    """Write a value as both kinds of users know it.

    Parameters
    ----------
    name : str
        Field of `DailySeries`.
    value : float
        Its value, in the unit of the field.

    Returns
    -------
    str
        Metric, with US units behind it where they differ.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> seen("wind_m_per_s", 30.0)
    '30.0 m/s (67.1 mph)'
    """
    if name in RH_FIELDS:
        return f"{100 * value:.0f} %"
    suffix = split_suffix(name)[1]
    metric, us = shown(value, suffix, "metric"), shown(value, suffix, "us")
    return metric if metric == us else f"{metric} ({us})"
