"""Temperatures, humidity and wind as measured in; vapour pressure and wind at 2 m out.

Chapter 3 of FAO-56, every function for single values and for arrays of any shape.
The two quantities that have no everyday unit, slope and psychrometric constant, are in
kPa per degree.
"""

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray
from scheduler.errors import WeatherError

# FAO-56 p. 63: wind close to the ground never falls below this, even when a sensor
# stands still. [m/s]
LOWEST_WIND_M_PER_S = 0.5
# Heights between which the logarithmic profile over short grass is used (common
# practice, no source): below, the mast stands inside the crop; above, in other air.
WIND_HEIGHTS_M = (0.5, 50.0)


def atmospheric_pressure_kpa(elevation_m: npt.ArrayLike) -> FloatArray:
    """Mean pressure of the air at an elevation.

    Parameters
    ----------
    elevation_m : float or array
        Elevation above sea level. [m]

    Returns
    -------
    array of the same shape
        Pressure. [kPa]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 31, equation 7.

    Examples
    --------
    >>> round(float(atmospheric_pressure_kpa(1800.0)), 1)
    81.8
    """
    height = np.asarray(elevation_m, dtype=np.float64)
    return np.asarray(101.3 * ((293.0 - 0.0065 * height) / 293.0) ** 5.26)


def psychrometric_constant(pressure_kpa: npt.ArrayLike) -> FloatArray:
    """Psychrometric constant of the air.

    Parameters
    ----------
    pressure_kpa : float or array
        Pressure of the air. [kPa]

    Returns
    -------
    array of the same shape
        The constant gamma. [kPa/degC]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 32, equation 8.

    Examples
    --------
    >>> round(float(psychrometric_constant(81.8)), 3)
    0.054
    """
    return np.asarray(0.665e-3 * np.asarray(pressure_kpa, dtype=np.float64))


def saturation_vapour_pressure_kpa(temperature_degc: npt.ArrayLike) -> FloatArray:
    """Vapour pressure of air that can hold no more water.

    Parameters
    ----------
    temperature_degc : float or array
        Temperature of the air. [degC]

    Returns
    -------
    array of the same shape
        Saturation vapour pressure e0. [kPa]

    Notes
    -----
    Of the dew point it is the actual vapour pressure (equation 14).

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 36, equation 11; p. 37, equation 14.

    Examples
    --------
    >>> round(float(saturation_vapour_pressure_kpa(24.5)), 3)
    3.075
    """
    warmth = np.asarray(temperature_degc, dtype=np.float64)
    return np.asarray(0.6108 * np.exp(17.27 * warmth / (warmth + 237.3)))


def mean_saturation_vapour_pressure_kpa(
    tmax_degc: npt.ArrayLike, tmin_degc: npt.ArrayLike
) -> FloatArray:
    """Saturation vapour pressure of a day: the mean of its two extremes.

    Parameters
    ----------
    tmax_degc, tmin_degc : float or array
        Highest and lowest temperature of the day. [degC]

    Returns
    -------
    array of the same shape
        Mean saturation vapour pressure es. [kPa]

    Notes
    -----
    The value at the mean temperature would be too low, because the curve is bent.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 36, equation 12.

    Examples
    --------
    >>> round(float(mean_saturation_vapour_pressure_kpa(24.5, 15.0)), 2)
    2.39
    """
    top = saturation_vapour_pressure_kpa(tmax_degc)
    return np.asarray((top + saturation_vapour_pressure_kpa(tmin_degc)) / 2.0)


def vapour_pressure_slope(temperature_degc: npt.ArrayLike) -> FloatArray:
    """Slope of the saturation vapour pressure curve.

    Parameters
    ----------
    temperature_degc : float or array
        Mean temperature of the air. [degC]

    Returns
    -------
    array of the same shape
        The slope delta. [kPa/degC]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 37, equation 13.

    Examples
    --------
    >>> round(float(vapour_pressure_slope(16.9)), 3)
    0.122
    """
    warmth = np.asarray(temperature_degc, dtype=np.float64)
    held = saturation_vapour_pressure_kpa(warmth)
    return np.asarray(4098.0 * held / (warmth + 237.3) ** 2)


def vapour_pressure_from_extremes_kpa(
    tmax_degc: npt.ArrayLike,
    tmin_degc: npt.ArrayLike,
    *,
    rh_max: npt.ArrayLike,
    rh_min: npt.ArrayLike,
) -> FloatArray:
    """Actual vapour pressure from the highest and the lowest relative humidity.

    Parameters
    ----------
    tmax_degc, tmin_degc : float or array
        Highest and lowest temperature of the day. [degC]
    rh_max, rh_min : float or array
        Highest and lowest relative humidity, 0 to 1. [-]

    Returns
    -------
    array of the same shape
        Actual vapour pressure ea. [kPa]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 38, equation 17.

    Examples
    --------
    >>> ea = vapour_pressure_from_extremes_kpa(25.0, 18.0, rh_max=0.82, rh_min=0.54)
    >>> round(float(ea), 2)
    1.7
    """
    dawn = saturation_vapour_pressure_kpa(tmin_degc) * np.asarray(rh_max)
    noon = saturation_vapour_pressure_kpa(tmax_degc) * np.asarray(rh_min)
    return np.asarray((dawn + noon) / 2.0)


def vapour_pressure_from_rh_max_kpa(
    tmin_degc: npt.ArrayLike, *, rh_max: npt.ArrayLike
) -> FloatArray:
    """Actual vapour pressure from the highest relative humidity alone.

    Parameters
    ----------
    tmin_degc : float or array
        Lowest temperature of the day. [degC]
    rh_max : float or array
        Highest relative humidity, 0 to 1. [-]

    Returns
    -------
    array of the same shape
        Actual vapour pressure ea. [kPa]

    Notes
    -----
    For sensors whose lowest humidity cannot be trusted.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 39, equation 18.

    Examples
    --------
    >>> round(float(vapour_pressure_from_rh_max_kpa(18.0, rh_max=0.82)), 2)
    1.69
    """
    return np.asarray(saturation_vapour_pressure_kpa(tmin_degc) * np.asarray(rh_max))


def vapour_pressure_from_rh_mean_kpa(
    tmax_degc: npt.ArrayLike, tmin_degc: npt.ArrayLike, *, rh_mean: npt.ArrayLike
) -> FloatArray:
    """Actual vapour pressure from the mean relative humidity.

    Parameters
    ----------
    tmax_degc, tmin_degc : float or array
        Highest and lowest temperature of the day. [degC]
    rh_mean : float or array
        Mean relative humidity, 0 to 1. [-]

    Returns
    -------
    array of the same shape
        Actual vapour pressure ea. [kPa]

    Notes
    -----
    Less good than the two extremes: it comes out too high on dry days.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 39, equation 19.

    Examples
    --------
    >>> ea = vapour_pressure_from_rh_mean_kpa(25.0, 18.0, rh_mean=0.68)
    >>> round(float(ea), 2)
    1.78
    """
    held = mean_saturation_vapour_pressure_kpa(tmax_degc, tmin_degc)
    return np.asarray(held * np.asarray(rh_mean))


def wind_height_factor(height_m: npt.ArrayLike) -> FloatArray:
    """Wind at 2 m over wind at another height.

    Parameters
    ----------
    height_m : float or array
        Height of the sensor above short grass, 0.5 to 50. [m]

    Returns
    -------
    array of the same shape
        The factor; 1 at 2 m, below 1 for higher masts. [-]

    Raises
    ------
    WeatherError
        If the height is outside 0.5 to 50 m: the logarithmic profile has no meaning.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 56, equation 47.

    Examples
    --------
    >>> round(float(wind_height_factor(10.0)), 2)
    0.75
    """
    height = np.asarray(height_m, dtype=np.float64)
    low, high = WIND_HEIGHTS_M
    wrong = ~((height >= low) & (height <= high))
    if np.any(wrong):
        raise WeatherError(
            f"wind height {np.atleast_1d(height[wrong])[0]:g} m is outside "
            f"{low:g} to {high:g} m",
            "enter wind_height_m as the height of the sensor above the ground",
        )
    return np.asarray(4.87 / np.log(67.8 * height - 5.42))


def wind_at_2m_m_per_s(
    wind_m_per_s: npt.ArrayLike, *, height_m: npt.ArrayLike
) -> FloatArray:
    """Wind speed at 2 m above short grass.

    Parameters
    ----------
    wind_m_per_s : float or array
        Mean wind speed at the height of the sensor. [m/s]
    height_m : float or array
        Height of the sensor above the ground, 0.5 to 50. [m]

    Returns
    -------
    array of the same shape
        Wind speed at 2 m. [m/s]

    Raises
    ------
    WeatherError
        If the height is outside 0.5 to 50 m.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 56, equation 47.

    Examples
    --------
    >>> round(float(wind_at_2m_m_per_s(3.2, height_m=10.0)), 1)
    2.4
    """
    return np.asarray(np.asarray(wind_m_per_s) * wind_height_factor(height_m))
