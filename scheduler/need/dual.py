"""Basal coefficient, wet ground and ETo in; evaporation coefficient day by day out.

FAO-56 chapter 7: plants use Kcb, and the ground between them evaporates Ke until its
skin is dry. Order of a day as in examples 31 and 35: water early, then evaporation.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray, frozen
from scheduler.need.crop import climate_term

# depth of the soil that dries by evaporation, FAO-56 p. 144: 0.10 to 0.15 m [m]
EVAPORATION_DEPTH_M = 0.10
# basal coefficient of dry bare ground, FAO-56 p. 149
BARE_KCB = 0.15
HIGHEST_COVER = 0.99
MM_PER_M = 1000.0


def kc_max(
    kcb: npt.ArrayLike,
    *,
    wind_2m_m_per_s: npt.ArrayLike,
    rh_min: npt.ArrayLike,
    height_m: npt.ArrayLike,
) -> FloatArray:
    """Most that wet ground and plants together can use.

    Parameters
    ----------
    kcb : float or array
        Basal coefficient. [-]
    wind_2m_m_per_s : float or array
        Mean wind at 2 m. [m/s]
    rh_min : float or array
        Mean lowest humidity, 0 to 1. [-]
    height_m : float or array
        Height of the plants. [m]

    Returns
    -------
    array of the broadcast shape
        Upper limit of Kcb + Ke, about 1.05 to 1.30. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 143, equation 72.

    Examples
    --------
    >>> most = kc_max(0.9, wind_2m_m_per_s=3.0, rh_min=0.2, height_m=1.0)
    >>> round(float(most), 2)
    1.3
    """
    air = climate_term(
        wind_2m_m_per_s=wind_2m_m_per_s, rh_min=rh_min, height_m=height_m
    )
    basal = np.asarray(kcb, dtype=np.float64)
    return np.asarray(np.maximum(1.2 + air, basal + 0.05))


def cover_fraction(
    kcb: npt.ArrayLike, *, most: npt.ArrayLike, height_m: npt.ArrayLike
) -> FloatArray:
    """Share of the ground under leaves, as the basal coefficient tells it.

    Parameters
    ----------
    kcb : float or array
        Basal coefficient. [-]
    most : float or array
        Kc max. [-]
    height_m : float or array
        Height of the plants. [m]

    Returns
    -------
    array of the broadcast shape
        0 to 0.99. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 149, equation 76.

    Examples
    --------
    >>> round(float(cover_fraction(0.9, most=1.3, height_m=1.0)), 2)
    0.53
    """
    above = np.maximum(np.asarray(kcb, dtype=np.float64) - BARE_KCB, 0.0)
    reach = np.maximum(np.asarray(most, dtype=np.float64) - BARE_KCB, 1e-9)
    tall = 1.0 + 0.5 * np.asarray(height_m, dtype=np.float64)
    return np.asarray(np.clip((above / reach) ** tall, 0.0, HIGHEST_COVER))


def total_evaporable_mm(field_capacity: float, wilting_point: float) -> float:
    """Water that can evaporate from the skin of the soil in all, TEW.

    Parameters
    ----------
    field_capacity, wilting_point : float
        Water by volume, 0 to 1. [-]

    Returns
    -------
    float
        Depth in the top 0.10 m. [mm]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 144, equation 73.

    Examples
    --------
    >>> round(total_evaporable_mm(0.23, 0.10), 1)
    18.0
    """
    return MM_PER_M * (field_capacity - 0.5 * wilting_point) * EVAPORATION_DEPTH_M


def evaporation_reduction(
    depletion_mm: npt.ArrayLike, *, total_mm: float, readily_mm: float
) -> FloatArray:
    """How freely the skin of the soil still evaporates, Kr.

    Parameters
    ----------
    depletion_mm : float or array
        Depth that has evaporated from it since it was wet. [mm]
    total_mm, readily_mm : float
        Evaporable water: in all, and at the full rate. [mm]

    Returns
    -------
    array of the same shape
        1 while wet, 0 when dry. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 146, equation 74.

    Examples
    --------
    >>> round(float(evaporation_reduction(14.5, total_mm=20.0, readily_mm=9.0)), 2)
    0.5
    """
    left = total_mm - np.asarray(depletion_mm, dtype=np.float64)
    return np.asarray(np.clip(left / (total_mm - readily_mm), 0.0, 1.0))


def evaporation_coefficient(
    reduction: npt.ArrayLike,
    *,
    most: npt.ArrayLike,
    kcb: npt.ArrayLike,
    wet_and_bare: npt.ArrayLike,
) -> FloatArray:
    """Evaporation from the ground over reference ET, Ke.

    Parameters
    ----------
    reduction : float or array
        Kr. [-]
    most : float or array
        Kc max. [-]
    kcb : float or array
        Basal coefficient. [-]
    wet_and_bare : float or array
        Share of the ground that is wetted and not under leaves. [-]

    Returns
    -------
    array of the broadcast shape
        0 to most - kcb. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 142, equation 71.

    Examples
    --------
    >>> ke = evaporation_coefficient(1.0, most=1.3, kcb=0.9, wet_and_bare=0.3)
    >>> round(float(ke), 2)
    0.39
    """
    top = np.asarray(most, dtype=np.float64)
    room = np.maximum(top - np.asarray(kcb, dtype=np.float64), 0.0)
    by_area = np.asarray(wet_and_bare, dtype=np.float64) * top
    free = np.asarray(reduction, dtype=np.float64) * room
    return np.asarray(np.minimum(free, by_area))


@dataclass(frozen=True, slots=True, eq=False)
class Skin:
    """What the ground between plants is made of, and what shields it.

    Attributes
    ----------
    total_mm, readily_mm : float
        Evaporable water, TEW and REW. [mm]
    """

    total_mm: float
    readily_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class SkinDays:
    """The skin of the soil day by day; all arrays are of shape (n_days,).

    Attributes
    ----------
    reduction, ke : array
        Kr and Ke. [-]
    depletion_mm : array
        Depth gone from the skin at the end of each day. [mm]
    drained_mm : array
        Water that passed it. [mm]
    """

    reduction: FloatArray
    ke: FloatArray
    depletion_mm: FloatArray
    drained_mm: FloatArray


def skin_day(
    depletion_mm: float,
    water_mm: float,
    skin: Skin,
    limits: tuple[float, float, float],
    eto_mm: float,
) -> tuple[float, float, float, float]:
    """One day of the skin: water early, the excess drains, then it evaporates.

    Parameters
    ----------
    depletion_mm : float
        At the end of the day before. [mm]
    water_mm : float
        Rain, and watering over the share that it wets. [mm]
    skin : Skin
        Evaporable water.
    limits : tuple of three floats
        Kc max, Kcb, and the share of the ground that is wetted and bare. [-]
    eto_mm : float
        Reference ET of the day. [mm]

    Returns
    -------
    tuple of four floats
        Kr, Ke, depletion at the end [mm], drained. [mm]

    Notes
    -----
    What roots take from the skin is left out, as in examples 31 and 35.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 152, equations 77 to 79.

    Examples
    --------
    >>> kr, ke, end, gone = skin_day(
    ...     0.0, 30.0, Skin(20.0, 9.0), (1.2, 0.15, 1.0), 4.5)
    >>> round(ke, 2), round(end, 3), gone
    (1.05, 4.725, 30.0)
    """
    most, kcb, bare = limits
    early = max(depletion_mm - water_mm, 0.0)
    drained = max(water_mm - depletion_mm, 0.0)
    left = (skin.total_mm - early) / (skin.total_mm - skin.readily_mm)
    reduction = min(max(left, 0.0), 1.0)
    ke = min(reduction * max(most - kcb, 0.0), bare * most)
    end = min(early + ke * eto_mm / max(bare, 1e-9), skin.total_mm)
    return reduction, ke, end, drained


def skin_days(
    start_mm: float,
    *,
    water_mm: FloatArray,
    skin: Skin,
    limits: tuple[FloatArray, FloatArray, FloatArray],
    eto_mm_per_day: FloatArray,
) -> SkinDays:
    """The skin of the soil through days whose water is known.

    Parameters
    ----------
    start_mm : float
        Depth gone before the first day. [mm]
    water_mm : array of shape (n_days,)
        Rain, and watering over the share that it wets. [mm]
    skin : Skin
        Evaporable water.
    limits : tuple of three arrays of shape (n_days,)
        Kc max, Kcb, and the share of the ground that is wetted and bare. [-]
    eto_mm_per_day : array of shape (n_days,)
        Reference ET. [mm/day]

    Returns
    -------
    SkinDays
        Every day.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 71 to 79, as example 35 (p. 154).

    Examples
    --------
    >>> one = np.ones(2)
    >>> days = skin_days(0.0, water_mm=0 * one, skin=Skin(20.0, 9.0),
    ...                  limits=(1.2 * one, 0.15 * one, one), eto_mm_per_day=4.5 * one)
    >>> days.depletion_mm.round(3).tolist()
    [4.725, 9.45]
    """
    most, kcb, bare = (one.tolist() for one in limits)
    rows, gone = [], start_mm
    for d, water in enumerate(water_mm.tolist()):
        row = skin_day(
            gone, water, skin, (most[d], kcb[d], bare[d]), float(eto_mm_per_day[d])
        )
        gone = row[2]
        rows.append(row)
    reduction, ke, end, drained = (
        frozen(one) for one in np.array(rows, dtype=np.float64).reshape(-1, 4).T
    )
    return SkinDays(reduction, ke, end, drained)
