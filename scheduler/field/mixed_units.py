"""Readings of one run in; those in another unit, and all in one unit, out."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.unit_table import ML_PER_US_FL_OZ, MM_PER_INCH

SmallUnit = Literal["us_fl_oz", "imp_fl_oz", "in"]
# What the small readings can be, in the unit of the large ones (mL, mL, mm). The
# imperial ounce is 1/160 gallon of 4.54609 L: exact by definition.
LARGE_PER_SMALL: dict[SmallUnit, float] = {
    "us_fl_oz": ML_PER_US_FL_OZ,
    "imp_fl_oz": 4546.09 / 160,
    "in": MM_PER_INCH,
}
UNIT_NAMES: dict[SmallUnit, str] = {
    "us_fl_oz": "US fl oz",
    "imp_fl_oz": "imperial fl oz",
    "in": "inches",
}
# Millilitres among fluid ounces: 29.6 times as much; the two readers caught unlike.
_RATIO = (20.0, 45.0)
_GAP = 8.0
_LEAST = 4


@dataclass(frozen=True, slots=True, eq=False)
class MixedUnits:
    """Two clusters of readings that stand as far apart as two units.

    Attributes
    ----------
    is_small : array, shape of the readings
        The readings of the lower cluster.
    ratio : float
        Mean of the upper over mean of the lower cluster. [-]
    units : tuple of str
        What the small readings can be in, the usual one first.
    """

    is_small: BoolArray
    ratio: float
    units: tuple[SmallUnit, ...]


def mixed_units(reading: FloatArray, unit: str) -> MixedUnits | None:
    """Find readings that look as if typed in another unit than the rest.

    Parameters
    ----------
    reading : array of any shape
        Readings as typed, NaN where there is none. [unit of `unit`]
    unit : {'ml', 'fl_oz', 'mm', 'in'}
        The unit they are said to be in.

    Returns
    -------
    MixedUnits or None
        None where the readings form no two clusters. Small readings in whole
        numbers are taken as they are: a dry can reads 2 mL, two readers 1.9 oz.

    References
    ----------
    Source: definition (a US fluid ounce is 29.57 mL, an inch 25.4 mm).

    Examples
    --------
    >>> found = mixed_units(np.array([52, 47, 61, 55, 1.9, 1.7, 2.1, 1.6]), "ml")
    >>> found.is_small.sum(), found.units
    (np.int64(4), ('us_fl_oz', 'imp_fl_oz'))
    """
    with np.errstate(invalid="ignore"):
        caught = np.sort(reading[reading > 0])
    if caught.size < 2 * _LEAST:
        return None
    steps = caught[1:] / caught[:-1]
    cut = int(steps.argmax()) + 1
    low, high = caught[:cut], caught[cut:]
    ratio = float(high.mean() / low.mean())
    is_apart = steps.max() >= _GAP and _RATIO[0] <= ratio <= _RATIO[1]
    if not is_apart or min(low.size, high.size) < _LEAST or not (low % 1).any():
        return None
    with np.errstate(invalid="ignore"):
        is_small = frozen((reading > 0) & (reading <= low[-1]), np.bool_)
    of_volume: tuple[SmallUnit, ...] = ("us_fl_oz", "imp_fl_oz")
    return MixedUnits(is_small, ratio, ("in",) if unit in ("mm", "in") else of_volume)


def in_one_unit(
    reading: FloatArray, found: MixedUnits, small_unit: SmallUnit
) -> FloatArray:
    """Turn all readings into the unit of the large ones.

    Parameters
    ----------
    reading : array of any shape
        Readings as typed. [two units]
    found : MixedUnits
        Which of them are the small ones.
    small_unit : {'us_fl_oz', 'imp_fl_oz', 'in'}
        What the small ones are in.

    Returns
    -------
    array, shape of the readings
        Readings in mL, or in mm where the small ones are inches.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> typed = np.array([52, 47, 61, 55, 1.9, 1.7, 2.1, 1.6])
    >>> found = mixed_units(typed, "ml")
    >>> in_one_unit(typed, found, "us_fl_oz")[4:].round(1)
    array([56.2, 50.3, 62.1, 47.3])
    """
    return frozen(np.where(found.is_small, reading * LARGE_PER_SMALL[small_unit],
                           reading))  # fmt: skip
