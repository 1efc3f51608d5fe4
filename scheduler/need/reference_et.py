"""Filled-in weather in; reference ET (short grass) and its method per day out."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
import numpy.typing as npt

from scheduler.arrays import BoolArray, DateArray, FloatArray, frozen
from scheduler.errors import Finding
from scheduler.need import sun
from scheduler.need.penman_monteith import DAILY_INPUTS, penman_monteith_eto_mm_per_day
from scheduler.need.weather import Weather, day_of_year
from scheduler.record import Origin

Method = Literal["stated", "penman-monteith", "hargreaves", "missing"]
FromTemperature = Literal["penman-monteith", "hargreaves"]

# More apart, the station's ETo is not ours (common practice, no source; alfalfa
# reference is 10 to 25 % above grass).
STATED_MARGIN = 0.15
COMPARED_DAYS = 7


@dataclass(frozen=True, slots=True, eq=False)
class ReferenceET:
    """Reference ET of one station, day by day.

    Attributes
    ----------
    date : array of shape (n_days,)
        Days, ascending; gaps stay gaps. [datetime64[D]]
    eto_mm_per_day : array of shape (n_days,)
        Reference ET of short grass; NaN only where `method` is "missing". [mm/day]
    method : tuple of str
        How each day was found.
    rain_mm : array of shape (n_days,)
        Rain of the station, NaN where unknown. [mm]
    trace_note : str
        Methods and guesses in one sentence.
    origin : Origin
        How far away, which reference the station reports, when a forecast was issued.
    """

    name: str
    is_typical_year: bool
    date: DateArray
    eto_mm_per_day: FloatArray
    method: tuple[Method, ...]
    rain_mm: FloatArray
    trace_note: str
    origin: Origin = field(default_factory=Origin)

    @property
    def is_measured(self) -> bool:
        """Whether its days happened: neither a typical year nor a forecast."""
        return not self.is_typical_year and self.origin.issued is None


def hargreaves_eto_mm_per_day(
    *,
    tmax_degc: npt.ArrayLike,
    tmin_degc: npt.ArrayLike,
    latitude_deg: npt.ArrayLike,
    day_of_year: npt.ArrayLike,
) -> FloatArray:
    """Reference ET from temperatures alone, the last resort.

    Parameters
    ----------
    tmax_degc, tmin_degc : float or array
        Highest and lowest temperature, tmax at least tmin. [degC]
    latitude_deg : float or array
        Latitude, north positive. [deg]
    day_of_year : int or array
        1 for 1 January; broadcast against the rest. [-]

    Returns
    -------
    array of the broadcast shape
        Reference ET, at least 0. [mm/day]

    Notes
    -----
    FAO-56 wants it calibrated against Penman-Monteith; it is too high in humid air and
    too low in wind. Penman-Monteith with filled-in humidity, radiation and wind is the
    normal route even when only temperatures were measured.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 64, equation 52.

    Examples
    --------
    >>> eto = hargreaves_eto_mm_per_day(
    ...     tmax_degc=26.6, tmin_degc=14.8, latitude_deg=45.72, day_of_year=196
    ... )
    >>> round(float(eto), 1)
    5.0
    """
    top, low = np.asarray(tmax_degc, dtype=np.float64), np.asarray(tmin_degc)
    above = sun.extraterrestrial_radiation_mj_per_m2_day(latitude_deg, day_of_year)
    reach = sun.evaporation_equivalent_mm_per_day(above)
    eto = 0.0023 * ((top + low) / 2.0 + 17.8) * np.sqrt(top - low) * reach
    return np.asarray(np.maximum(eto, 0.0))


def reference_et(
    weather: Weather, *, from_temperature: FromTemperature = "penman-monteith"
) -> tuple[ReferenceET, tuple[Finding, ...]]:
    """Reference ET of every day, by the best way that day allows.

    Parameters
    ----------
    weather : Weather
        Days as filled in.
    from_temperature : {'penman-monteith', 'hargreaves'}
        What to do on days of which only the temperatures were measured.

    Returns
    -------
    eto : ReferenceET
        One value a day; "missing" where nothing is known, never 0.
    findings : tuple of Finding
        Missing days, days on which the station's own ETo was taken, and a station
        whose ETo does not agree with its weather.

    Notes
    -----
    Order: Penman-Monteith from measured weather; else the ETo that the station states
    (its weather was measured, ours would be guessed); else Penman-Monteith with the
    guesses, which `filled` reported. Hargreaves is used only when asked for.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapters 3 and 4.

    Examples
    --------
    >>> day, none = np.array(["2026-07-06"], dtype="datetime64[D]"), np.array([np.nan])
    >>> stated = Weather(
    ...     "county", "weather/county.csv", False, 50.8, 100.0, day, none, none, none,
    ...     none, none, none, np.array([5.2]), {},
    ...     np.array([False]), np.array([False]),
    ... )
    >>> eto, findings = reference_et(stated)
    >>> eto.method, float(eto.eto_mm_per_day[0])
    (('stated',), 5.2)
    """
    measured = np.stack([getattr(weather, name) for name in DAILY_INPUTS])
    is_whole = np.isfinite(measured).all(axis=0)
    is_stated = np.isfinite(weather.stated_eto_mm_per_day)
    is_stated &= ~is_whole | weather.guessed
    wants_rough = from_temperature == "hargreaves"
    is_rough = is_whole & weather.only_temperature & np.bool_(wants_rough)
    own = _own_eto(weather, is_whole, is_rough)
    eto = np.where(is_stated, weather.stated_eto_mm_per_day, own)
    choices = (is_stated, is_rough, is_whole)
    ways = ("stated", "hargreaves", "penman-monteith")
    method: list[Method] = np.select(choices, ways, "missing").tolist()
    result = ReferenceET(
        name=weather.name,
        is_typical_year=weather.is_typical_year,
        date=weather.date,
        eto_mm_per_day=frozen(eto),
        method=tuple(method),
        rain_mm=weather.rain_mm,
        trace_note=_trace_note(weather, method),
    )
    return result, (
        *_method_findings(weather, method),
        *_disagreement(weather, np.where(weather.guessed, np.nan, own)),
    )


def _own_eto(weather: Weather, is_whole: BoolArray, is_rough: BoolArray) -> FloatArray:
    day, eto = day_of_year(weather.date), np.full(weather.date.shape, np.nan)
    eto[is_whole] = penman_monteith_eto_mm_per_day(
        tmax_degc=weather.tmax_degc[is_whole],
        tmin_degc=weather.tmin_degc[is_whole],
        vapour_pressure_kpa=weather.vapour_pressure_kpa[is_whole],
        radiation_mj_per_m2_day=weather.radiation_mj_per_m2_day[is_whole],
        wind_2m_m_per_s=weather.wind_2m_m_per_s[is_whole],
        latitude_deg=weather.latitude_deg,
        elevation_m=weather.elevation_m,
        day_of_year=day[is_whole],
    )
    eto[is_rough] = hargreaves_eto_mm_per_day(
        tmax_degc=weather.tmax_degc[is_rough],
        tmin_degc=weather.tmin_degc[is_rough],
        latitude_deg=weather.latitude_deg,
        day_of_year=day[is_rough],
    )
    return eto


def _trace_note(weather: Weather, method: list[Method]) -> str:
    ways = [f"{one} on {method.count(one)} days" for one in sorted(set(method))]
    used = {rule: int(days.sum()) for rule, days in weather.filled.items()}
    return "; ".join(ways + [f"{rule} on {n} days" for rule, n in used.items() if n])


def _method_findings(weather: Weather, method: list[Method]) -> Iterator[Finding]:
    where, n_days = f"{weather.where}: ETo", len(method)
    if "missing" in method:
        yield Finding(
            "warning",
            where,
            f"{method.count('missing')} of {n_days} days have neither ETo nor both "
            f"temperatures, the first is {weather.date[method.index('missing')]}; "
            "they count as unknown",
            "fill in the temperatures or the ETo of those days",
        )
    if "stated" in method and np.isfinite(weather.tmax_degc).any():
        yield Finding(
            "note",
            where,
            f"on {method.count('stated')} of {n_days} days the ETo of the station is "
            "used, because its weather is not complete; first on "
            f"{weather.date[method.index('stated')]}",
            "add the missing weather columns to have it computed",
        )


def _disagreement(weather: Weather, own: FloatArray) -> tuple[Finding, ...]:
    stated = weather.stated_eto_mm_per_day
    both = np.isfinite(stated) & np.isfinite(own)
    if both.sum() < COMPARED_DAYS or own[both].sum() <= 0:
        return ()
    ratio = float(stated[both].sum() / own[both].sum())
    if abs(ratio - 1.0) <= STATED_MARGIN:
        return ()
    return (
        Finding(
            "warning",
            f"{weather.where}: ETo",
            f"the station's ETo is {100 * ratio:.0f} % of what its weather gives on "
            f"{both.sum()} days; the weather is used",
            "check the unit, and whether it is for alfalfa (ETr) instead of grass",
        ),
    )
