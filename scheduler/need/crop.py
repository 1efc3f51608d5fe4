"""Days, stages and weather of a stage in; crop coefficients by FAO-56 out."""

import datetime as dt
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from scheduler.arrays import DateArray, FloatArray, IntArray

# Bounds of the climate adjustment, FAO-56 p. 121 and p. 136
WIND_BOUNDS_M_PER_S = (1.0, 6.0)
RH_BOUNDS = (0.20, 0.80)
HEIGHT_BOUNDS_M = (0.1, 10.0)
LEAST_ADJUSTED_KC = 0.45
# Bounds of the adjusted depletion part, FAO-56 Table 22, footnote 2
DEPLETION_BOUNDS = (0.1, 0.8)
USUAL_ETC_MM_PER_DAY = 5.0


class Stages(NamedTuple):
    """Days of the four stages: initial, development, mid-season, late."""

    initial: int
    development: int
    mid: int
    late: int


def stage_curve_kc(
    day: npt.ArrayLike,
    stages: Stages,
    *,
    kc_initial: float,
    kc_mid: float,
    kc_end: float,
) -> FloatArray:
    """Crop coefficient on days of the season, from the four-stage curve.

    Parameters
    ----------
    day : int or array
        Day of the season; 1 is the first day. [-]
    stages : Stages
        Lengths of the four stages. [days]
    kc_initial, kc_mid, kc_end : float
        Coefficients of the initial stage, of mid-season and of the last day. [-]

    Returns
    -------
    array of the shape of `day`
        Crop coefficient; before the season the initial one, after it the last one. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 132, equation 66.

    Examples
    --------
    >>> kc = stage_curve_kc(
    ...     [20, 40, 70, 95], Stages(25, 25, 30, 20),
    ...     kc_initial=0.15, kc_mid=1.19, kc_end=0.35,
    ... )
    >>> kc.round(2).tolist()
    [0.15, 0.77, 1.19, 0.56]
    """
    corners = np.cumsum(stages)
    levels = (kc_initial, kc_mid, kc_mid, kc_end)
    return np.asarray(np.interp(np.asarray(day, dtype=np.float64), corners, levels))


def kc_climate_adjusted(
    kc_tab: npt.ArrayLike,
    *,
    wind_2m_m_per_s: npt.ArrayLike,
    rh_min: npt.ArrayLike,
    height_m: npt.ArrayLike,
) -> FloatArray:
    """Tabled crop coefficient, moved from the standard climate to this one.

    Parameters
    ----------
    kc_tab : float or array
        Coefficient of the table: mid-season, end of season, or basal. [-]
    wind_2m_m_per_s : float or array
        Mean wind at 2 m during the stage; counted within 1 to 6. [m/s]
    rh_min : float or array
        Mean lowest humidity during the stage, 0 to 1; counted within 0.2 to 0.8. [-]
    height_m : float or array
        Mean height of the plants during the stage; counted up to 10. [m]

    Returns
    -------
    array of the broadcast shape
        Adjusted coefficient. [-]

    Notes
    -----
    Tables are for 2 m/s and 45 %. Coefficients below 0.45 and plants below 0.1 m stay
    as they are.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 62 (p. 121), 65 (p. 125), 70 (p. 136).

    Examples
    --------
    >>> kc = kc_climate_adjusted(1.2, wind_2m_m_per_s=1.3, rh_min=0.75, height_m=2.0)
    >>> round(float(kc), 2)
    1.07
    """
    tabled = np.asarray(kc_tab, dtype=np.float64)
    height = np.asarray(height_m, dtype=np.float64)
    move = climate_term(wind_2m_m_per_s=wind_2m_m_per_s, rh_min=rh_min, height_m=height)
    counts = (tabled >= LEAST_ADJUSTED_KC) & (height >= HEIGHT_BOUNDS_M[0])
    return np.asarray(tabled + np.where(counts, move, 0.0))


def climate_term(
    *, wind_2m_m_per_s: npt.ArrayLike, rh_min: npt.ArrayLike, height_m: npt.ArrayLike
) -> FloatArray:
    """What dry air and wind add to the coefficient of plants of that height.

    Parameters
    ----------
    wind_2m_m_per_s : float or array
        Mean wind at 2 m; counted within 1 to 6. [m/s]
    rh_min : float or array
        Mean lowest humidity, 0 to 1; counted within 0.2 to 0.8. [-]
    height_m : float or array
        Height of the plants; counted within 0.1 to 10. [m]

    Returns
    -------
    array of the broadcast shape
        0 at 2 m/s and 45 %, negative in humid calm air. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, the term in brackets of equations 62, 65, 70, 72.

    Examples
    --------
    >>> float(climate_term(wind_2m_m_per_s=2.0, rh_min=0.45, height_m=2.0))
    0.0
    """
    wind = np.clip(np.asarray(wind_2m_m_per_s, dtype=np.float64), *WIND_BOUNDS_M_PER_S)
    dry_pct = 100.0 * np.clip(np.asarray(rh_min, dtype=np.float64), *RH_BOUNDS)
    tall = np.clip(np.asarray(height_m, dtype=np.float64), *HEIGHT_BOUNDS_M) / 3.0
    move = 0.04 * (wind - 2.0) - 0.004 * (dry_pct - 45.0)
    return np.asarray(move * tall**0.3)


def day_of_season(start: dt.date, dates: DateArray, *, every_year: bool) -> IntArray:
    """Day of the season of each date.

    Parameters
    ----------
    start : date
        First day of a season.
    dates : array of shape (n_days,)
        Days. [datetime64[D]]
    every_year : bool
        Whether a season begins on that day of every year, or of that one only.

    Returns
    -------
    array of shape (n_days,)
        1 on the first day; below 1 before a start that happens once. [-]

    Notes
    -----
    A season that starts on 29 February starts on 1 March of plain years.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> days = np.array(["2027-03-20", "2027-03-19"], "datetime64[D]")
    >>> day_of_season(dt.date(2026, 3, 20), days, every_year=True).tolist()
    [1, 365]
    """
    days = dates.astype("datetime64[D]")
    first = np.datetime64(start, "D")
    if not every_year:
        return np.asarray((days - first).astype(np.int64) + 1)
    into = first - first.astype("datetime64[M]").astype("datetime64[D]")
    month = int(start.month) - 1

    def begin(year: npt.NDArray[np.datetime64]) -> npt.NDArray[np.datetime64]:
        return np.asarray(
            (year.astype("datetime64[M]") + month).astype("datetime64[D]") + into
        )

    year = days.astype("datetime64[Y]")
    this, last = begin(year), begin(year - 1)
    began = np.where(this <= days, this, last)
    return np.asarray((days - began).astype(np.int64) + 1)


def depletion_part(
    table_part: npt.ArrayLike, *, etc_mm_per_day: npt.ArrayLike
) -> FloatArray:
    """Part of the available water that a crop uses without stress, at its use.

    Parameters
    ----------
    table_part : float or array
        Part of the table, which holds for 5 mm/day. [-]
    etc_mm_per_day : float or array
        Unstressed use. [mm/day]

    Returns
    -------
    array of the broadcast shape
        Lower where plants use much; within 0.1 to 0.8. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 162 and Table 22, footnote 2.

    Examples
    --------
    >>> round(float(depletion_part(0.4, etc_mm_per_day=8.0)), 2)
    0.28
    """
    use = np.asarray(etc_mm_per_day, dtype=np.float64)
    moved = np.asarray(table_part) + 0.04 * (USUAL_ETC_MM_PER_DAY - use)
    return np.asarray(np.clip(moved, *DEPLETION_BOUNDS))
