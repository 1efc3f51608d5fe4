"""Rows of a wind logger in; the same rows at another height out."""

from dataclasses import replace
from math import log

import numpy as np

from scheduler.arrays import frozen
from scheduler.errors import Finding, WeatherError
from scheduler.record import WindLog
from scheduler.units import shown

# Heights between which the logarithmic profile over short grass is used (common
# practice, no source): below, the mast stands inside the crop; above, in other air.
LOG_HEIGHTS_M = (0.5, 50.0)


def height_factor(from_m: float, *, to_m: float) -> float:
    """Wind at one height over wind at another, above short grass.

    Parameters
    ----------
    from_m, to_m : float
        Heights above the ground, 0.5 to 50. [m]

    Returns
    -------
    float
        The factor; below 1 on the way down. [-]

    Raises
    ------
    WeatherError
        If a height is outside 0.5 to 50 m: the profile has no meaning there.

    Notes
    -----
    ln(67.8 to - 5.42) / ln(67.8 from - 5.42), which for 2 m is the published equation
    (its 4.87 is ln(67.8 x 2 - 5.42)). Behind hedges and houses the profile fails.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 56, equation 47.

    Examples
    --------
    >>> round(height_factor(10.0, to_m=2.0), 3)
    0.748
    """
    low, high = LOG_HEIGHTS_M
    for height in (from_m, to_m):
        if not low <= height <= high:
            raise WeatherError(
                f"wind height {height:g} m is outside {low:g} to {high:g} m",
                "enter height_m as the height of the sensor above the ground",
            )
    return log(67.8 * to_m - 5.42) / log(67.8 * from_m - 5.42)


def at_height(log_rows: WindLog, *, height_m: float) -> WindLog:
    """The log as a sensor at another height would have written it.

    Parameters
    ----------
    log_rows : WindLog
        Rows at the height of the sensor.
    height_m : float
        Height that is asked for, 0.5 to 50. [m]

    Returns
    -------
    WindLog
        Mean speeds at the new height, and a finding that says so. The same rows and a
        warning when the height of the sensor is not known.

    Raises
    ------
    WeatherError
        If a height is outside 0.5 to 50 m.

    Notes
    -----
    The profile holds for means only, so a gust has no value at the new height.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 56, equation 47.

    Examples
    --------
    >>> hour, none = np.array(["2026-05-12T10"], "datetime64[s]"), np.array([np.nan])
    >>> mast = WindLog(hour, 3600.0, np.array([3.2]), none, none, 10.0, "mast", "a.csv")
    >>> at_height(mast, height_m=2.0).speed_m_per_s.round(1)
    array([2.4])
    """
    sensor = log_rows.height_m
    if sensor is None:
        said = Finding(
            "warning",
            f"{log_rows.where}: height_m",
            "the height of the wind sensor is not known; its speeds are used as they "
            f"are for {height_m:g} m",
            "measure the height of the sensor above the ground and state height_m",
        )
        return replace(log_rows, findings=(*log_rows.findings, said))
    if sensor == height_m:
        return log_rows
    factor = height_factor(sensor, to_m=height_m)
    said = Finding(
        "note",
        f"{log_rows.where}: height_m",
        f"wind measured at {sensor:g} m was brought to {height_m:g} m: times "
        f"{shown(factor, '', 'metric', digits=3)} (FAO-56, equation 47); gusts were "
        "left out",
        "log the wind at the height of the sprinklers to do without",
    )
    return replace(
        log_rows,
        speed_m_per_s=frozen(log_rows.speed_m_per_s * factor),
        gust_m_per_s=frozen(np.full(log_rows.speed_m_per_s.size, np.nan)),
        height_m=height_m,
        findings=(*log_rows.findings, said),
    )
