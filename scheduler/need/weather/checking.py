"""A station's daily table in; the same table without what cannot be true out."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.errors import Finding
from scheduler.need import air, sun
from scheduler.need.weather.days import LIMITS, RH_FIELDS, day_of_year, place_of, seen
from scheduler.record import DailySeries

# Daily values that change by nature; equal to the last digit for a week means a sensor
# or a logger that hangs (common practice, no source).
CHANGING = ("tmax_degc", "tmin_degc", "radiation_mj_per_m2_day", "wind_m_per_s")
STUCK_DAYS = 7


class _Refusal(NamedTuple):
    """Days on which some fields cannot be true."""

    fields: tuple[str, ...]
    wrong: BoolArray
    why: str
    fix: str


def checked(series: DailySeries) -> tuple[DailySeries, tuple[Finding, ...]]:
    """Weather without the values that cannot be true.

    Parameters
    ----------
    series : DailySeries
        Days as read from the file.

    Returns
    -------
    series : DailySeries
        The same days; impossible values are NaN, humidity just above 100 % is 100 %.
    findings : tuple of Finding
        One per quantity and reason, at the file line of the first such day.

    Notes
    -----
    A value that hangs for a week, and days that are missing, are reported but kept.
    Nothing is ever turned into zero.

    References
    ----------
    Source: bounds are common practice, no source; radiation against the sun's path:
    Allen et al., 1998, FAO-56, equations 21 and 34.

    Examples
    --------
    >>> from scheduler.record import DailySeries
    >>> day, none = np.array(["2026-07-06"], dtype="datetime64[D]"), np.array([np.nan])
    >>> windy = DailySeries(
    ...     "mast", "weather/mast.csv", False, 2.0, 50.8, 100.0, day,
    ...     *[none] * 9, np.array([469.0]), none, none, line=(2,),
    ... )
    >>> print(checked(windy)[1][0].where)
    weather/mast.csv:2: wind
    """
    values = {name: np.array(getattr(series, name), dtype=float) for name in LIMITS}
    findings = list(_gaps(series))
    # the generator sees each correction before it makes its next comparison
    for refusal in _refusals(series, values):
        if refusal.wrong.any():
            findings.append(_refusal_finding(series, values, refusal))
            for name in refusal.fields:
                values[name][refusal.wrong] = np.nan
    findings += _stuck(series, values)
    for name in RH_FIELDS:
        values[name] = np.minimum(values[name], 1.0)
    kept: dict[str, Any] = {name: frozen(array) for name, array in values.items()}
    return replace(series, **kept), tuple(findings)


def _refusals(
    series: DailySeries, values: Mapping[str, FloatArray]
) -> Iterator[_Refusal]:
    for name, limit in LIMITS.items():
        one = values[name]
        bounds = f"outside {seen(name, limit.low)} to {seen(name, limit.high)}"
        wrong = (one < limit.low) | (one > limit.high)
        yield _Refusal((name,), wrong, bounds, f"check {limit.look_at}")
    yield from _contradictions(values)
    yield from _against_the_sun(series, values)


def _contradictions(values: Mapping[str, FloatArray]) -> Iterator[_Refusal]:
    swapped = "check whether the two columns are swapped"
    yield _Refusal(
        ("tmin_degc", "tmax_degc"),
        values["tmin_degc"] > values["tmax_degc"],
        "above the highest of that day",
        swapped,
    )
    yield _Refusal(
        ("rh_min", "rh_max"),
        values["rh_min"] > values["rh_max"],
        "above the highest of that day",
        swapped,
    )
    yield _Refusal(
        ("dew_point_degc",),
        values["dew_point_degc"] > values["tmax_degc"],
        "above the highest temperature of that day",
        "check the dew point column and its unit",
    )
    most = air.saturation_vapour_pressure_kpa(values["tmax_degc"])
    yield _Refusal(
        ("vapour_pressure_kpa",),
        values["vapour_pressure_kpa"] > 1.05 * most,
        "more than the air of that day can hold",
        "check the unit: kPa, not hPa",
    )


def _against_the_sun(
    series: DailySeries, values: Mapping[str, FloatArray]
) -> Iterator[_Refusal]:
    day = day_of_year(series.date)
    above = sun.extraterrestrial_radiation_mj_per_m2_day(series.latitude_deg, day)
    yield _Refusal(
        ("radiation_mj_per_m2_day",),
        values["radiation_mj_per_m2_day"] > above,
        "more than arrives above the atmosphere on that day",
        "check the unit, the dates and the latitude of the station",
    )
    light = sun.daylight_h(series.latitude_deg, day)
    # recorders count a little twilight
    yield _Refusal(
        ("sunshine_h",),
        values["sunshine_h"] > light + 0.5,
        "longer than that day is",
        "check the dates and the latitude of the station",
    )


def _refusal_finding(
    series: DailySeries, values: Mapping[str, FloatArray], refusal: _Refusal
) -> Finding:
    name, days = refusal.fields[0], np.flatnonzero(refusal.wrong)
    value = float(values[name][days[0]])
    more = f" (and {days.size - 1} more days)" if days.size > 1 else ""
    return Finding(
        "warning",
        place_of(series, int(days[0]), LIMITS[name].label),
        f"{seen(name, value)} on {series.date[days[0]]}{more} is {refusal.why}; "
        "read as not measured",
        refusal.fix,
    )


def _stuck(series: DailySeries, values: Mapping[str, FloatArray]) -> Iterator[Finding]:
    for name in CHANGING:
        start, length = _longest_run(values[name])
        if length >= STUCK_DAYS:
            yield Finding(
                "warning",
                place_of(series, start, LIMITS[name].label),
                f"{seen(name, float(values[name][start]))} on {length} days in a row "
                f"from {series.date[start]}; kept as it is",
                "look at the sensor; empty the cells if it hung",
            )


def _longest_run(values: FloatArray) -> tuple[int, int]:
    """Start and length of the longest run of equal values; NaN equals nothing."""
    breaks = np.flatnonzero(values[1:] != values[:-1]) + 1
    starts = np.concatenate(([0], breaks))
    length = np.diff(np.concatenate((starts, [values.size])))
    if values.size == 0:
        return 0, 0
    best = int(np.argmax(length))
    return int(starts[best]), int(length[best])


def _gaps(series: DailySeries) -> Iterator[Finding]:
    step = np.diff(series.date.astype("datetime64[D]")).astype(np.int64)
    holes = np.flatnonzero(step > 1)
    if holes.size:
        first = series.date[holes[0]] + np.timedelta64(1, "D")
        yield Finding(
            "warning",
            place_of(series, int(holes[0]) + 1, "date"),
            f"{int((step - 1).sum())} days are missing, the first is {first}; "
            "they count as unknown, not as zero",
            "add the days if the station has them",
        )
