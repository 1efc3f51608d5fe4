"""Complete weather days in, reference ET by the standardized equation out.

The only room that knows the ET library. The library takes swapped temperatures,
negative radiation and missing wind without a word, so this door checks first.
"""

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt
import refet.calcs

from scheduler.arrays import BoolArray, FloatArray, IntArray
from scheduler.errors import WeatherError

# What the door lets through, in the order of its arguments; outside, the equation has
# no meaning (bounds for nonsense, common practice, no source).
ALLOWED: dict[str, tuple[float, float]] = {
    "tmax_degc": (-60, 60),
    "tmin_degc": (-60, 60),
    "vapour_pressure_kpa": (0, 8),
    "radiation_mj_per_m2_day": (0, 50),
    "wind_2m_m_per_s": (0, 60),
    "latitude_deg": (-66, 66),
    "elevation_m": (-430, 5000),
    "day_of_year": (1, 366),
}
DAILY_INPUTS = tuple(ALLOWED)[:5]
# Elements at a time: so many stay in the cache of one core (`tests.bench eto`).
BLOCK = 16_384
# ASCE-EWRI (2005), table 1: constants of the daily equation for the two references.
SHORT = {"cn": 900.0, "cd": 0.34}
TALL = {"cn": 1600.0, "cd": 0.38}
# ASCE-EWRI (2005), equations 5 and 17.
KELVIN = 273.16
STEFAN_BOLTZMANN_MJ_PER_M2_DAY = 4.901e-9
# ASCE-EWRI (2005), equation 18: radiation over clear sky counts at least this much.
OVERCAST = 0.3


def penman_monteith_eto_mm_per_day(  # noqa: PLR0913 (the equation has eight inputs)
    *,
    tmax_degc: npt.ArrayLike,
    tmin_degc: npt.ArrayLike,
    vapour_pressure_kpa: npt.ArrayLike,
    radiation_mj_per_m2_day: npt.ArrayLike,
    wind_2m_m_per_s: npt.ArrayLike,
    latitude_deg: npt.ArrayLike,
    elevation_m: npt.ArrayLike,
    day_of_year: npt.ArrayLike,
    is_tall: bool = False,
) -> FloatArray:
    """Reference ET by the standardized Penman-Monteith equation, daily.

    Parameters
    ----------
    tmax_degc, tmin_degc : float or array
        Highest and lowest temperature, `(n_days,)` or `(n_days, n_stations)`. [degC]
    vapour_pressure_kpa : float or array
        Actual vapour pressure. [kPa]
    radiation_mj_per_m2_day : float or array
        Global radiation. [MJ/m2/day]
    wind_2m_m_per_s : float or array
        Wind at 2 m. [m/s]
    latitude_deg : float or array
        One value, or `(n_stations,)`. [deg]
    elevation_m : float or array
        One value, or `(n_stations,)`. [m]
    day_of_year : int or array
        `(n_days,)`, 1 for 1 January. [-]
    is_tall : bool
        Alfalfa instead of short grass.

    Returns
    -------
    array of the broadcast shape
        Reference ET, at least 0. [mm/day]

    Raises
    ------
    WeatherError
        If a value is missing or impossible, or tmax is below tmin; names the day.

    Notes
    -----
    Soil heat flux of a day is 0. Radiation over clear-sky radiation is kept in 0.3 to 1
    as ASCE-EWRI does (FAO-56 has no lower end; on very overcast days it gives a little
    less). Nights with dew can make the equation negative; that counts as 0.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 24, equation 6.
    .. [2] ASCE-EWRI, 2005, The ASCE standardized reference evapotranspiration
       equation, equation 1 with table 1.

    Examples
    --------
    >>> eto = penman_monteith_eto_mm_per_day(
    ...     tmax_degc=21.5, tmin_degc=12.3, vapour_pressure_kpa=1.409,
    ...     radiation_mj_per_m2_day=22.07, wind_2m_m_per_s=2.078,
    ...     latitude_deg=50.8, elevation_m=100, day_of_year=187,
    ... )
    >>> round(float(eto), 1)
    3.9
    """
    given = (
        tmax_degc, tmin_degc, vapour_pressure_kpa, radiation_mj_per_m2_day,
        wind_2m_m_per_s, latitude_deg, elevation_m, day_of_year,
    )  # fmt: skip
    inputs, shape = _aligned(dict(zip(ALLOWED, given, strict=True)))
    eto = np.empty(np.atleast_1d(np.empty(shape)).shape)
    table = _clear_sky(inputs)
    rows = max(1, BLOCK // max(1, eto[:1].size))
    for start in range(0, len(eto), rows):
        part = slice(start, start + rows)
        block = {
            name: one if len(one) == 1 else one[part] for name, one in inputs.items()
        }
        _refuse_impossible(block, start)
        if table is None:
            places = (block["latitude_deg"], block["elevation_m"])
            clear = _clear_sky_mj_per_m2_day(block["day_of_year"], *places)
        else:
            clear = table[0][table[1] if len(table[1]) == 1 else table[1][part]]
        np.maximum(_block_eto(block, clear, is_tall), 0.0, out=eto[part])
    return eto.reshape(shape)


def _aligned(
    given: Mapping[str, npt.ArrayLike],
) -> tuple[dict[str, FloatArray], tuple[int, ...]]:
    """Float arrays that broadcast with days in rows, and the shape of the answer."""
    inputs = {name: np.asarray(one, dtype=np.float64) for name, one in given.items()}
    day = inputs["day_of_year"]
    if day.ndim == 1 and any(one.ndim > 1 for one in inputs.values()):
        inputs["day_of_year"] = day[:, None]
    shape = np.broadcast_shapes(*(one.shape for one in inputs.values()))
    # full rank, so that slicing rows is the same for every input
    ndim = max(1, len(shape))
    for name, one in inputs.items():
        inputs[name] = one.reshape((1,) * (ndim - one.ndim) + one.shape)
    return inputs, shape


def _clear_sky(inputs: Mapping[str, FloatArray]) -> tuple[FloatArray, IntArray] | None:
    """Clear-sky radiation by day of year (rows) and station, with the row of each day.

    The sun's path is half of the work and the same each year. None where it does not
    pay: places that differ from day to day.
    """
    day, places = inputs["day_of_year"], (inputs["latitude_deg"], inputs["elevation_m"])
    if day.size != len(day) or any(len(one) != 1 for one in places):
        return None
    days, row = np.unique(day.ravel(), return_inverse=True)
    days = days.reshape((-1,) + (1,) * (day.ndim - 1))
    return _clear_sky_mj_per_m2_day(days, *places), row


def _clear_sky_mj_per_m2_day(
    day: FloatArray, latitude_deg: FloatArray, elevation_m: FloatArray
) -> FloatArray:
    above = refet.calcs.ra_daily(lat=np.radians(latitude_deg), doy=day, method="asce")
    return np.asarray(refet.calcs.rso_simple(ra=above, elev=elevation_m))


def _block_eto(
    block: Mapping[str, FloatArray], clear: FloatArray, is_tall: bool
) -> FloatArray:
    """The library's equation on terms laid out for one pass through the cache.

    Its own powers and copies cost twice the rest; the constants are its (and ASCE's).
    """
    tmax, tmin = block["tmax_degc"], block["tmin_degc"]
    vapour = block["vapour_pressure_kpa"]
    radiation = block["radiation_mj_per_m2_day"]
    mean = (tmax + tmin) * 0.5
    top, low = tmax + KELVIN, tmin + KELVIN
    top *= top
    low *= low
    glow = STEFAN_BOLTZMANN_MJ_PER_M2_DAY * 0.5 * (top * top + low * low)
    cloud = 1.35 * np.clip(radiation / clear, OVERCAST, 1.0) - 0.35
    lost = glow * cloud * (0.34 - 0.14 * np.sqrt(vapour))
    saturated = refet.calcs.sat_vapor_pressure(tmax)
    saturated += refet.calcs.sat_vapor_pressure(tmin)
    warmth = mean + 237.3
    eto = refet.calcs.etsz(
        rn=refet.calcs.rn_daily(rs=radiation, rnl=lost),
        g=0.0,
        tmean=mean,
        u2=block["wind_2m_m_per_s"],
        vpd=refet.calcs.vpd(es=0.5 * saturated, ea=vapour),
        es_slope=2503.0 * np.exp(17.27 * mean / warmth) / (warmth * warmth),
        psy=0.000665 * refet.calcs.air_pressure(block["elevation_m"], method="asce"),
        **(TALL if is_tall else SHORT),
    )
    return np.asarray(eto)


def _refuse_impossible(block: Mapping[str, FloatArray], start: int) -> None:
    for name, (low, high) in ALLOWED.items():
        values = block[name]
        # one comparison for good data; NaN fails it too
        if not (values.min() >= low and values.max() <= high):
            wrong = ~((values >= low) & (values <= high))
            raise _day_error(block, start, name, wrong, f"outside {low:g} to {high:g}")
    swapped = block["tmax_degc"] < block["tmin_degc"]
    if swapped.any():
        raise _day_error(block, start, "tmax_degc", swapped, "below tmin_degc")


def _day_error(
    block: Mapping[str, FloatArray], start: int, name: str, wrong: BoolArray, why: str
) -> WeatherError:
    shape = np.broadcast_shapes(*(one.shape for one in block.values()))
    where = tuple(np.argwhere(np.broadcast_to(wrong, shape))[0])
    value = float(np.broadcast_to(block[name], shape)[where])
    day = float(np.broadcast_to(block["day_of_year"], shape)[where])
    station = f", station {where[1] + 1}" if len(where) > 1 else ""
    what = "is missing" if np.isnan(value) else f"is {value:g}, {why}"
    return WeatherError(
        f"{name} {what}",
        "measure it, fill it in, or leave the day out",
        f"day {start + int(where[0]) + 1}{station} (day of year {day:g})",
    )
