"""Texture, slope and cover in, the highest sprinkler rate that USDA printed out."""

import math
from dataclasses import dataclass

from scheduler.site import Soil
from scheduler.tables import is_from_memory, soil_row
from scheduler.trace import Trace, entered

# upper ends of the slope classes of the USDA table, and its column names
SLOPE_CLASSES = ((0.05, "0_5"), (0.08, "5_8"), (0.12, "8_12"), (math.inf, "12plus"))
USDA_SOURCE = "USDA maximum precipitation rates, reprinted in Landscape Management 2018"


@dataclass(frozen=True, slots=True)
class RateLimit:
    """Highest sprinkler rate for a soil: a limit on the rate, not on a run's length.

    Attributes
    ----------
    max_mm_per_h : float
        The rate. [mm/h]
    is_from_memory : bool
        Whether nobody has checked the value against its publication.
    trace : Trace
        Texture, slope and cover it was read for.
    """

    max_mm_per_h: float
    is_from_memory: bool
    trace: Trace


def usda_rate_limit(soil: Soil) -> RateLimit | None:
    """Highest sprinkler rate by texture, slope and cover.

    Parameters
    ----------
    soil : Soil
        With texture; no slope is taken as level.

    Returns
    -------
    RateLimit or None
        None without a texture.

    Notes
    -----
    A slope on a boundary belongs to the steeper class. The classes of texture were
    matched to the table's soil groups here.

    References
    ----------
    .. [1] USDA table of maximum precipitation rates, as reprinted in Landscape
       Management, 19 March 2018; slopes of 12 % and over from memory, unverified.

    Examples
    --------
    >>> from scheduler.site import Soil
    >>> loam = Soil(texture="silt loam", slope=0.06, cover="bare")
    >>> usda_rate_limit(loam).max_mm_per_h
    10.16
    """
    if soil.texture is None:
        return None
    slope = soil.slope or 0.0
    band = next(name for upper, name in SLOPE_CLASSES if slope < upper)
    row = soil_row(soil.texture)
    column = f"max_rate_{band}_{soil.cover}_mm_per_h"
    is_unchecked = is_from_memory(row, column)
    trace = Trace(
        "usda_max_rate_mm_per_h",
        float(row[column]),
        f"table value for {soil.texture} (soil group: {row['max_rate_group']}), slope "
        f"{slope:.0%}, {soil.cover}",
        f"{USDA_SOURCE}{', from memory, unverified' if is_unchecked else ''}",
        (entered("texture", soil.texture, "[zone.soil]"),),
        "" if soil.slope is not None else "no slope entered: taken as level",
    )
    return RateLimit(float(row[column]), is_unchecked, trace)


def usda_max_rate_mm_per_h(soil: Soil) -> float | None:
    """Highest sprinkler rate by texture, slope and cover, the number alone.

    Parameters
    ----------
    soil : Soil
        With texture; no slope is taken as level.

    Returns
    -------
    float or None
        The rate; None without a texture. [mm/h]

    References
    ----------
    .. [1] As `usda_rate_limit`.

    Examples
    --------
    >>> from scheduler.site import Soil
    >>> usda_max_rate_mm_per_h(Soil(texture="sand", slope=0.02, cover="cover"))
    50.8
    """
    limit = usda_rate_limit(soil)
    return None if limit is None else limit.max_mm_per_h
