"""Latitude and day in; radiation that arrives and stays, and hours of daylight, out.

Chapter 3 of FAO-56. A latitude and a day of the year broadcast against each other, so
days in rows and stations in columns need no loop. Radiation is per day.
"""

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray

SOLAR_CONSTANT_MJ_PER_M2_MIN = 0.0820  # FAO-56 p. 46
ALBEDO = 0.23  # of the short grass reference, FAO-56 p. 43
# Angstrom values where nothing is calibrated, FAO-56 p. 50
ANGSTROM_OVERCAST = 0.25
ANGSTROM_SUNSHINE = 0.50
STEFAN_BOLTZMANN_MJ_PER_M2_DAY = 4.903e-9  # per K^4, FAO-56 p. 51
KELVIN = 273.16  # as FAO-56 writes it
MM_PER_MJ_PER_M2 = 0.408  # one over the latent heat 2.45 MJ/kg, FAO-56 equation 20


def evaporation_equivalent_mm_per_day(
    energy_mj_per_m2_day: npt.ArrayLike,
) -> FloatArray:
    """Depth of water that an energy can evaporate in a day.

    Parameters
    ----------
    energy_mj_per_m2_day : float or array
        Energy. [MJ/m2/day]

    Returns
    -------
    array of the same shape
        Depth. [mm/day]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 44, equation 20.

    Examples
    --------
    >>> round(float(evaporation_equivalent_mm_per_day(32.2)), 1)
    13.1
    """
    return np.asarray(MM_PER_MJ_PER_M2 * np.asarray(energy_mj_per_m2_day))


def inverse_relative_distance(day_of_year: npt.ArrayLike) -> FloatArray:
    """Inverse relative distance of the Earth from the Sun, squared.

    Parameters
    ----------
    day_of_year : int or array
        1 for 1 January to 366. [-]

    Returns
    -------
    array of the same shape
        The factor dr, 0.967 to 1.033. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 46, equation 23.

    Examples
    --------
    >>> round(float(inverse_relative_distance(246)), 3)
    0.985
    """
    turn = 2.0 * np.pi / 365.0 * np.asarray(day_of_year, dtype=np.float64)
    return np.asarray(1.0 + 0.033 * np.cos(turn))


def solar_declination(day_of_year: npt.ArrayLike) -> FloatArray:
    """Declination of the sun.

    Parameters
    ----------
    day_of_year : int or array
        1 for 1 January to 366. [-]

    Returns
    -------
    array of the same shape
        Declination. [rad]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 46, equation 24.

    Examples
    --------
    >>> round(float(solar_declination(246)), 2)
    0.12
    """
    turn = 2.0 * np.pi / 365.0 * np.asarray(day_of_year, dtype=np.float64)
    return np.asarray(0.409 * np.sin(turn - 1.39))


def sunset_hour_angle(
    latitude_deg: npt.ArrayLike, day_of_year: npt.ArrayLike
) -> FloatArray:
    """Hour angle at which the sun sets.

    Parameters
    ----------
    latitude_deg : float or array
        Latitude, north positive. [deg]
    day_of_year : int or array
        1 for 1 January to 366; broadcast against the latitude. [-]

    Returns
    -------
    array of the broadcast shape
        Sunset hour angle, 0 to pi. [rad]

    Notes
    -----
    Beyond the polar circles the sun may not set or not rise; the angle is then pi or 0.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 46, equation 25.

    Examples
    --------
    >>> round(float(sunset_hour_angle(-20.0, 246)), 3)
    1.527
    """
    latitude = np.radians(np.asarray(latitude_deg, dtype=np.float64))
    swing = -np.tan(latitude) * np.tan(solar_declination(day_of_year))
    return np.asarray(np.arccos(np.clip(swing, -1.0, 1.0)))


def extraterrestrial_radiation_mj_per_m2_day(
    latitude_deg: npt.ArrayLike, day_of_year: npt.ArrayLike
) -> FloatArray:
    """Radiation that arrives above the atmosphere in a day.

    Parameters
    ----------
    latitude_deg : float or array
        Latitude, north positive. [deg]
    day_of_year : int or array
        1 for 1 January to 366; broadcast against the latitude. [-]

    Returns
    -------
    array of the broadcast shape
        Extraterrestrial radiation Ra. [MJ/m2/day]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 46, equation 21.

    Examples
    --------
    >>> round(float(extraterrestrial_radiation_mj_per_m2_day(-20.0, 246)), 1)
    32.2
    """
    latitude = np.radians(np.asarray(latitude_deg, dtype=np.float64))
    declination = solar_declination(day_of_year)
    sunset = sunset_hour_angle(latitude_deg, day_of_year)
    path = sunset * np.sin(latitude) * np.sin(declination)
    path = path + np.cos(latitude) * np.cos(declination) * np.sin(sunset)
    day_min = 24.0 * 60.0
    reach = day_min / np.pi * SOLAR_CONSTANT_MJ_PER_M2_MIN
    return np.asarray(reach * inverse_relative_distance(day_of_year) * path)


def daylight_h(latitude_deg: npt.ArrayLike, day_of_year: npt.ArrayLike) -> FloatArray:
    """Hours from sunrise to sunset.

    Parameters
    ----------
    latitude_deg : float or array
        Latitude, north positive. [deg]
    day_of_year : int or array
        1 for 1 January to 366; broadcast against the latitude. [-]

    Returns
    -------
    array of the broadcast shape
        Daylight N. [h]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 48, equation 34.

    Examples
    --------
    >>> round(float(daylight_h(-20.0, 246)), 1)
    11.7
    """
    return np.asarray(24.0 / np.pi * sunset_hour_angle(latitude_deg, day_of_year))


def clear_sky_radiation_mj_per_m2_day(
    extraterrestrial_mj_per_m2_day: npt.ArrayLike, *, elevation_m: npt.ArrayLike
) -> FloatArray:
    """Radiation at the ground under a clear sky.

    Parameters
    ----------
    extraterrestrial_mj_per_m2_day : float or array
        Radiation above the atmosphere. [MJ/m2/day]
    elevation_m : float or array
        Elevation above sea level. [m]

    Returns
    -------
    array of the broadcast shape
        Clear-sky radiation Rso. [MJ/m2/day]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 51, equation 37.

    Examples
    --------
    >>> clear = clear_sky_radiation_mj_per_m2_day(40.55, elevation_m=200.0)
    >>> round(float(clear), 2)
    30.57
    """
    passing = 0.75 + 2e-5 * np.asarray(elevation_m, dtype=np.float64)
    return np.asarray(passing * np.asarray(extraterrestrial_mj_per_m2_day))


def sunshine_radiation_mj_per_m2_day(
    sunshine_h: npt.ArrayLike,
    *,
    daylight_h: npt.ArrayLike,
    extraterrestrial_mj_per_m2_day: npt.ArrayLike,
) -> FloatArray:
    """Radiation at the ground from hours of bright sunshine.

    Parameters
    ----------
    sunshine_h : float or array
        Hours of bright sunshine. [h]
    daylight_h : float or array
        Hours of daylight. [h]
    extraterrestrial_mj_per_m2_day : float or array
        Radiation above the atmosphere. [MJ/m2/day]

    Returns
    -------
    array of the broadcast shape
        Global radiation Rs. [MJ/m2/day]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 50, equation 35, with as 0.25 and bs 0.50.

    Examples
    --------
    >>> rs = sunshine_radiation_mj_per_m2_day(
    ...     7.1, daylight_h=10.9, extraterrestrial_mj_per_m2_day=25.1
    ... )
    >>> round(float(rs), 1)
    14.4
    """
    bright = np.asarray(sunshine_h, dtype=np.float64) / np.asarray(daylight_h)
    part = ANGSTROM_OVERCAST + ANGSTROM_SUNSHINE * bright
    return np.asarray(part * np.asarray(extraterrestrial_mj_per_m2_day))


def temperature_radiation_mj_per_m2_day(
    tmax_degc: npt.ArrayLike,
    tmin_degc: npt.ArrayLike,
    *,
    extraterrestrial_mj_per_m2_day: npt.ArrayLike,
    krs: float,
) -> FloatArray:
    """Radiation at the ground from the day's span of temperature.

    Parameters
    ----------
    tmax_degc, tmin_degc : float or array
        Highest and lowest temperature of the day. [degC]
    extraterrestrial_mj_per_m2_day : float or array
        Radiation above the atmosphere. [MJ/m2/day]
    krs : float
        0.16 inland, 0.19 at a coast. [-]

    Returns
    -------
    array of the broadcast shape
        Global radiation Rs; the caller caps it at the clear-sky value. [MJ/m2/day]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 60, equation 50.

    Examples
    --------
    >>> rs = temperature_radiation_mj_per_m2_day(
    ...     26.6, 14.8, extraterrestrial_mj_per_m2_day=40.6, krs=0.16
    ... )
    >>> round(float(rs), 1)
    22.3
    """
    span = np.asarray(tmax_degc, dtype=np.float64) - np.asarray(tmin_degc)
    part = krs * np.sqrt(span)
    return np.asarray(part * np.asarray(extraterrestrial_mj_per_m2_day))


def net_shortwave_mj_per_m2_day(radiation_mj_per_m2_day: npt.ArrayLike) -> FloatArray:
    """Radiation that the reference grass keeps.

    Parameters
    ----------
    radiation_mj_per_m2_day : float or array
        Global radiation. [MJ/m2/day]

    Returns
    -------
    array of the same shape
        Net shortwave radiation Rns. [MJ/m2/day]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 51, equation 38, with albedo 0.23.

    Examples
    --------
    >>> round(float(net_shortwave_mj_per_m2_day(20.0)), 1)
    15.4
    """
    return np.asarray((1.0 - ALBEDO) * np.asarray(radiation_mj_per_m2_day))


def net_longwave_mj_per_m2_day(
    tmax_degc: npt.ArrayLike,
    tmin_degc: npt.ArrayLike,
    *,
    vapour_pressure_kpa: npt.ArrayLike,
    radiation_mj_per_m2_day: npt.ArrayLike,
    clear_sky_mj_per_m2_day: npt.ArrayLike,
) -> FloatArray:
    """Heat that the grass loses to the sky.

    Parameters
    ----------
    tmax_degc, tmin_degc : float or array
        Highest and lowest temperature of the day. [degC]
    vapour_pressure_kpa : float or array
        Actual vapour pressure. [kPa]
    radiation_mj_per_m2_day : float or array
        Global radiation. [MJ/m2/day]
    clear_sky_mj_per_m2_day : float or array
        Global radiation under a clear sky, above 0. [MJ/m2/day]

    Returns
    -------
    array of the broadcast shape
        Net outgoing longwave radiation Rnl. [MJ/m2/day]

    Notes
    -----
    Radiation over clear-sky radiation counts at most as 1. ASCE-EWRI (2005) also keeps
    it above 0.3; FAO-56, which this function follows, does not.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 52, equation 39.

    Examples
    --------
    >>> rnl = net_longwave_mj_per_m2_day(
    ...     25.1, 19.1, vapour_pressure_kpa=2.1,
    ...     radiation_mj_per_m2_day=14.5, clear_sky_mj_per_m2_day=18.8,
    ... )
    >>> round(float(rnl), 1)
    3.5
    """
    # squared twice: a fourth power costs numpy ten times as much
    top = (np.asarray(tmax_degc, dtype=np.float64) + KELVIN) ** 2
    low = (np.asarray(tmin_degc, dtype=np.float64) + KELVIN) ** 2
    glow = (top * top + low * low) / 2.0
    humid = 0.34 - 0.14 * np.sqrt(np.asarray(vapour_pressure_kpa, dtype=np.float64))
    bright = np.asarray(radiation_mj_per_m2_day, dtype=np.float64) / np.asarray(
        clear_sky_mj_per_m2_day
    )
    cloud = 1.35 * np.minimum(bright, 1.0) - 0.35
    return np.asarray(STEFAN_BOLTZMANN_MJ_PER_M2_DAY * glow * humid * cloud)
