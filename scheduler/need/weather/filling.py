"""Checked days in; complete weather days with every guess flagged out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from scheduler.arrays import BoolArray, DateArray, FloatArray, frozen
from scheduler.errors import Finding, Level, WeatherError
from scheduler.need import air, sun
from scheduler.need.weather.days import day_of_year, place_of
from scheduler.record import DailySeries
from scheduler.site import Place

# FAO-56 p. 58: the dew point of arid sites lies 2 to 3 degrees below the lowest
# temperature; the careful end. [degC]
ARID_OFFSET_DEGC = 2.0
KRS_INLAND = 0.16  # FAO-56 p. 60
KRS_COAST = 0.19  # FAO-56 p. 60
DEFAULT_WIND_M_PER_S = 2.0  # FAO-56 p. 63: mean of 2,000 stations
# A clear day reads within about 5 % of the clear-sky value; a sensor above that is out
# of calibration (ASCE-EWRI 2005, appendix D, from memory).
CLEAR_SKY_MARGIN = 1.05


@dataclass(frozen=True, slots=True, eq=False)
class Weather:
    """Weather days of one station, complete wherever the temperatures are known.

    Attributes
    ----------
    date : array of shape (n_days,)
        Days, ascending; gaps stay gaps. [datetime64[D]]
    vapour_pressure_kpa, radiation_mj_per_m2_day, wind_2m_m_per_s : array (n_days,)
        Measured, or by a rule of FAO-56; NaN on days without temperatures.
    stated_eto_mm_per_day : array of shape (n_days,)
        Reference ET that the station itself reports, NaN where none.
    filled : mapping of str to array of shape (n_days,)
        `quantity: rule` and the days on which that rule stood in for a measurement.
    guessed : array of shape (n_days,)
        Days on which humidity, radiation or wind is a guess, not a measurement.
    only_temperature : array of shape (n_days,)
        Days on which all three are guesses.
    """

    name: str
    where: str
    is_typical_year: bool
    latitude_deg: float
    elevation_m: float
    date: DateArray
    tmax_degc: FloatArray
    tmin_degc: FloatArray
    vapour_pressure_kpa: FloatArray
    radiation_mj_per_m2_day: FloatArray
    wind_2m_m_per_s: FloatArray
    rain_mm: FloatArray
    stated_eto_mm_per_day: FloatArray
    filled: Mapping[str, BoolArray]
    guessed: BoolArray
    only_temperature: BoolArray


class _Rung(NamedTuple):
    """One way to know a quantity; `level` is None for a measurement."""

    rule: str
    values: FloatArray
    level: Level | None = None


class _Climb(NamedTuple):
    """A quantity from the first rung that knows it, day by day."""

    values: FloatArray
    used: dict[str, BoolArray]
    level: dict[str, Level]


def _climbed(rungs: Sequence[_Rung]) -> _Climb:
    values = np.full_like(rungs[0].values, np.nan)
    climb = _Climb(values, {}, {})
    for rung in rungs:
        takes = np.isnan(values) & np.isfinite(rung.values)
        values[takes] = rung.values[takes]
        if rung.level is not None:
            climb.used[rung.rule] = takes
            climb.level[rung.rule] = rung.level
    return climb


def filled(series: DailySeries, place: Place) -> tuple[Weather, tuple[Finding, ...]]:
    """Weather with the rules of FAO-56 in place of what was not measured.

    Parameters
    ----------
    series : DailySeries
        Checked days, see `checked`.
    place : Place
        Whether the site is coastal or arid.

    Returns
    -------
    weather : Weather
        The same days; complete where both temperatures are known.
    findings : tuple of Finding
        One per quantity: how many days, the first of them, and what would replace it.

    Notes
    -----
    Humidity: measured vapour pressure, dew point, both extremes of humidity, the
    highest, the mean, else the dew point is the lowest temperature (minus 2 degC in
    arid places). Radiation: measured, from sunshine hours, else from the span of
    temperature, never above a clear sky. Wind: brought to 2 m, never below 0.5 m/s,
    else 2 m/s. Guesses on days for which the station states ETo itself are not
    reported: the stated value is used there.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 3, equations 14, 17-19, 35, 47, 48, 50.

    Examples
    --------
    >>> from scheduler.record import DailySeries
    >>> day, none = np.array(["2026-07-15"], dtype="datetime64[D]"), np.array([np.nan])
    >>> warm = [np.array([26.6]), np.array([14.8])]
    >>> lyon = DailySeries(
    ...     "only temperatures", "t.csv", False, None, 45.7167, 200.0, day, *warm,
    ...     *[none] * 10,
    ... )
    >>> home = Place(
    ...     latitude_deg=45.7, longitude_deg=4.8, elevation_m=200.0, time_zone="UTC"
    ... )
    >>> weather, findings = filled(lyon, home)
    >>> round(float(weather.vapour_pressure_kpa[0]), 2), len(findings)
    (1.68, 3)
    """
    has_temperature = np.isfinite(series.tmax_degc) & np.isfinite(series.tmin_degc)
    wind, findings = _wind(series, has_temperature)
    climbs = {
        "humidity": _humidity(series, place),
        "radiation": _radiation(series, place),
        "wind": wind,
    }
    guesses = np.zeros(series.date.shape, dtype=np.int64)
    used: dict[str, BoolArray] = {}
    for quantity, climb in climbs.items():
        findings += _fill_findings(series, quantity, climb, has_temperature)
        for rule, days in climb.used.items():
            used[f"{quantity}: {rule}"] = frozen(days & has_temperature, np.bool_)
            if climb.level[rule] == "warning":
                guesses += days & has_temperature
    weather = Weather(
        name=series.name,
        where=series.where,
        is_typical_year=series.is_typical_year,
        latitude_deg=series.latitude_deg,
        elevation_m=series.elevation_m,
        date=series.date,
        tmax_degc=series.tmax_degc,
        tmin_degc=series.tmin_degc,
        vapour_pressure_kpa=frozen(climbs["humidity"].values),
        radiation_mj_per_m2_day=frozen(climbs["radiation"].values),
        wind_2m_m_per_s=frozen(wind.values),
        rain_mm=series.rain_mm,
        stated_eto_mm_per_day=series.eto_mm_per_day,
        filled=used,
        guessed=frozen(guesses > 0, np.bool_),
        only_temperature=frozen(guesses == len(climbs), np.bool_),
    )
    return weather, tuple(findings)


def _humidity(series: DailySeries, place: Place) -> _Climb:
    tmax, tmin = series.tmax_degc, series.tmin_degc
    offset = ARID_OFFSET_DEGC if place.is_arid else 0.0
    less = f" minus {ARID_OFFSET_DEGC:g} °C" if place.is_arid else ""
    return _climbed([
        _Rung("measured", series.vapour_pressure_kpa),
        _Rung("dew point", air.saturation_vapour_pressure_kpa(series.dew_point_degc)),
        _Rung(
            "highest and lowest humidity",
            air.vapour_pressure_from_extremes_kpa(
                tmax, tmin, rh_max=series.rh_max, rh_min=series.rh_min
            ),
        ),
        _Rung(
            "highest humidity alone (FAO-56 equation 18)",
            air.vapour_pressure_from_rh_max_kpa(tmin, rh_max=series.rh_max),
            "note",
        ),
        _Rung(
            "mean humidity alone (FAO-56 equation 19)",
            air.vapour_pressure_from_rh_mean_kpa(tmax, tmin, rh_mean=series.rh_mean),
            "note",
        ),
        _Rung(
            f"lowest temperature{less} taken as dew point (FAO-56 equation 48)",
            air.saturation_vapour_pressure_kpa(tmin - offset),
            "warning",
        ),
    ])  # fmt: skip


def _radiation(series: DailySeries, place: Place) -> _Climb:
    day = day_of_year(series.date)
    above = sun.extraterrestrial_radiation_mj_per_m2_day(series.latitude_deg, day)
    clear = sun.clear_sky_radiation_mj_per_m2_day(above, elevation_m=series.elevation_m)
    most, measured = CLEAR_SKY_MARGIN * clear, series.radiation_mj_per_m2_day
    light = sun.daylight_h(series.latitude_deg, day)
    sunny = sun.sunshine_radiation_mj_per_m2_day(
        np.minimum(series.sunshine_h, light),
        daylight_h=light,
        extraterrestrial_mj_per_m2_day=above,
    )
    krs = KRS_COAST if place.is_coastal else KRS_INLAND
    warm = sun.temperature_radiation_mj_per_m2_day(
        series.tmax_degc,
        series.tmin_degc,
        extraterrestrial_mj_per_m2_day=above,
        krs=krs,
    )
    return _climbed([
        _Rung(
            "measured, held at 5 % above a clear sky",
            np.where(measured > most, most, np.nan),
            "note",
        ),
        _Rung("measured", measured),
        _Rung("sunshine hours (FAO-56 equation 35)", np.minimum(sunny, clear), "note"),
        _Rung(
            f"span of temperature (FAO-56 equation 50, kRs {krs:g})",
            np.minimum(warm, clear),
            "warning",
        ),
    ])  # fmt: skip


def _wind(
    series: DailySeries, has_temperature: BoolArray
) -> tuple[_Climb, list[Finding]]:
    factor, findings = _wind_factor(series)
    at_2m = factor * series.wind_m_per_s
    low, calm = air.LOWEST_WIND_M_PER_S, at_2m < air.LOWEST_WIND_M_PER_S
    climb = _climbed([
        _Rung(
            f"measured, held at {low:g} m/s (FAO-56 page 63)",
            np.where(calm, low, np.nan),
            "note",
        ),
        _Rung("measured", at_2m),
        _Rung(
            f"{DEFAULT_WIND_M_PER_S:g} m/s, the mean of many stations (FAO-56 page 63)",
            np.where(has_temperature, DEFAULT_WIND_M_PER_S, np.nan),
            "warning",
        ),
    ])  # fmt: skip
    return climb, findings


def _wind_factor(series: DailySeries) -> tuple[float, list[Finding]]:
    where = f"{series.where}: wind"
    fix = f"give wind_height_m for station {series.name!r} in site.toml"
    if not np.isfinite(series.wind_m_per_s).any():
        return 1.0, []
    if series.wind_height_m is None:
        what = "the height of the wind sensor is not known; taken as 2 m"
        return 1.0, [Finding("warning", where, what, fix)]
    try:
        return float(air.wind_height_factor(series.wind_height_m)), []
    except WeatherError as error:
        what = f"{error.what}; taken as 2 m"
        return 1.0, [Finding("warning", where, what, fix)]


_BETTER = {
    "humidity": "add dew point, or highest and lowest relative humidity, to the file",
    "radiation": "add measured solar radiation to the file, or check the sensor",
    "wind": "add measured wind to the file, or check the sensor",
}


def _fill_findings(
    series: DailySeries, quantity: str, climb: _Climb, has_temperature: BoolArray
) -> list[Finding]:
    """At most one finding: how often each rule stood in, and since when."""
    is_stated = np.isfinite(series.eto_mm_per_day)
    parts: list[str] = []
    levels: set[Level] = set()
    first: list[int] = []
    for rule, days in climb.used.items():
        level = climb.level[rule]
        # where the station states ETo, that value is used instead of a guess
        counts = days & has_temperature & ~(is_stated & (level == "warning"))
        if counts.any():
            levels.add(level)
            first.append(int(np.argmax(counts)))
            parts.append(f"on {counts.sum()} of {counts.size} days {rule}")
    if not parts:
        return []
    since = min(first)
    return [
        Finding(
            "warning" if "warning" in levels else "note",
            place_of(series, since, quantity),
            f"{'; '.join(parts)}; first on {series.date[since]}",
            _BETTER[quantity],
        )
    ]
