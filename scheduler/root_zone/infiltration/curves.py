"""Constants of the ground in; intake curves, in cumulative infiltration, out.

Every curve answers in cumulative infiltration: how fast ground that has already taken
in F mm takes in more. A later cycle therefore starts wetter and runs off sooner. The
ground is not taken to recover between cycles, which is strict by an amount that nobody
measured.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray

MIN_PER_H = 60.0
# halvings of a bracket: more than a double can hold
HALVINGS = 60


class Curve(Protocol):
    """How ground takes in water; depths in mm, time in hours since ponding at zero."""

    def infiltrated_mm(self, ponded_h: npt.ArrayLike) -> FloatArray:
        """Cumulative infiltration after so many hours under standing water, in mm."""

    def ponded_h(self, infiltrated_mm: npt.ArrayLike) -> FloatArray:
        """Hours under standing water that bring so much infiltration, in h."""

    def room_mm(self, rate_mm_per_h: npt.ArrayLike) -> FloatArray:
        """Infiltration at which the capacity has fallen to a rate, in mm."""


def solved(
    function: Callable[[FloatArray], FloatArray], low: FloatArray, high: FloatArray
) -> FloatArray:
    """Where a rising function crosses zero, by halving; vectorised."""
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        is_above = function(middle) > 0
        low, high = np.where(is_above, low, middle), np.where(is_above, middle, high)
    return np.asarray(0.5 * (low + high))


@dataclass(frozen=True, slots=True)
class Steady:
    """Intake that never changes: strict at the start, kind to a late cycle.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> float(Steady(6.0).infiltrated_mm(0.5))
    3.0
    """

    rate_mm_per_h: float

    def infiltrated_mm(self, ponded_h: npt.ArrayLike) -> FloatArray:
        """Cumulative infiltration, in mm."""
        return self.rate_mm_per_h * np.asarray(ponded_h, dtype=np.float64)

    def ponded_h(self, infiltrated_mm: npt.ArrayLike) -> FloatArray:
        """Hours of ponding, in h."""
        return np.asarray(infiltrated_mm, dtype=np.float64) / self.rate_mm_per_h

    def room_mm(self, rate_mm_per_h: npt.ArrayLike) -> FloatArray:
        """None above the steady rate, without end below it, in mm."""
        rate = np.asarray(rate_mm_per_h, dtype=np.float64)
        return np.where(rate > self.rate_mm_per_h, 0.0, np.inf)


@dataclass(frozen=True, slots=True)
class Horton:
    """Intake that falls from a first to a last rate, by the same share every hour.

    References
    ----------
    .. [1] Horton's equation f = fc + (f0 - fc) exp(-bt), as used by Hung and Krinik,
       1995, for the longest run without runoff.

    Examples
    --------
    >>> soil = Horton(75.0, 10.0, 2.0)
    >>> round(float(soil.room_mm(40.0)), 2)
    21.37
    """

    initial_mm_per_h: float
    final_mm_per_h: float
    decay_per_h: float

    @property
    def _drop(self) -> float:
        return self.initial_mm_per_h - self.final_mm_per_h

    def infiltrated_mm(self, ponded_h: npt.ArrayLike) -> FloatArray:
        """Cumulative infiltration, in mm."""
        time = np.asarray(ponded_h, dtype=np.float64)
        early = self._drop / self.decay_per_h * -np.expm1(-self.decay_per_h * time)
        return np.asarray(self.final_mm_per_h * time + early)

    def ponded_h(self, infiltrated_mm: npt.ArrayLike) -> FloatArray:
        """Hours of ponding, by halving between the two steady rates, in h."""
        depth = np.asarray(infiltrated_mm, dtype=np.float64)
        return solved(
            lambda time: self.infiltrated_mm(time) - depth,
            depth / self.initial_mm_per_h,
            depth / self.final_mm_per_h,
        )

    def room_mm(self, rate_mm_per_h: npt.ArrayLike) -> FloatArray:
        """Infiltration at which the capacity has fallen to a rate, in mm."""
        rate = np.asarray(rate_mm_per_h, dtype=np.float64)
        above = np.clip(rate - self.final_mm_per_h, 0.0, self._drop)
        with np.errstate(divide="ignore"):
            time = -np.log(above / self._drop) / self.decay_per_h
        return np.where(above > 0, self.infiltrated_mm(np.where(above > 0, time, 0.0)),
                        np.inf)  # fmt: skip


@dataclass(frozen=True, slots=True)
class GreenAmpt:
    """Intake of a sharp wetting front.

    Attributes
    ----------
    conductivity_mm_per_h : float
        Hydraulic conductivity behind the front. [mm/h]
    front_mm : float
        Suction at the front times the water that the soil still lacks. [mm]

    References
    ----------
    .. [1] Green and Ampt; ponding by Mein and Larson. Chow, Maidment and Mays, 1988,
       Applied Hydrology, sections 4.3 and 4.4 (numbers from memory).

    Examples
    --------
    >>> silt_loam = GreenAmpt(6.5, 167.0 * 0.3402)
    >>> round(float(silt_loam.infiltrated_mm(1.0)), 1)
    31.7
    """

    conductivity_mm_per_h: float
    front_mm: float

    def ponded_h(self, infiltrated_mm: npt.ArrayLike) -> FloatArray:
        """Hours of ponding, in h."""
        depth = np.asarray(infiltrated_mm, dtype=np.float64)
        lag = self.front_mm * np.log1p(depth / self.front_mm)
        return np.asarray((depth - lag) / self.conductivity_mm_per_h)

    def infiltrated_mm(self, ponded_h: npt.ArrayLike) -> FloatArray:
        """Cumulative infiltration, halved below the sum of its two limits, in mm."""
        time = np.asarray(ponded_h, dtype=np.float64)
        steady = self.conductivity_mm_per_h * time
        most = steady + np.sqrt(2.0 * self.front_mm * steady)
        return solved(lambda depth: self.ponded_h(depth) - time, steady, most)

    def room_mm(self, rate_mm_per_h: npt.ArrayLike) -> FloatArray:
        """Infiltration at which the capacity has fallen to a rate, in mm."""
        rate = np.asarray(rate_mm_per_h, dtype=np.float64)
        above = rate - self.conductivity_mm_per_h
        with np.errstate(divide="ignore"):
            room = self.conductivity_mm_per_h * self.front_mm / above
        return np.where(above > 0, room, np.inf)


@dataclass(frozen=True, slots=True)
class Kostiakov:
    """Intake as a power of time, with a steady part and a part taken in at once.

    Attributes
    ----------
    first_hour_mm : float
        Depth of the power term after one hour. [mm]
    exponent : float
        Above 0, below 1. [-]
    steady_mm_per_h : float
        Steady part. [mm/h]
    at_once_mm : float
        Depth taken in at once: the constant of the intake families. [mm]

    References
    ----------
    .. [1] Kostiakov F = k t^a, modified F = k t^a + f0 t, from memory.
    .. [2] SCS, National Engineering Handbook, section 15 (families), from memory.

    Examples
    --------
    >>> round(float(intake_family(0.5).infiltrated_mm(1.0)), 2)
    32.57
    """

    first_hour_mm: float
    exponent: float
    steady_mm_per_h: float = 0.0
    at_once_mm: float = 0.0

    def infiltrated_mm(self, ponded_h: npt.ArrayLike) -> FloatArray:
        """Cumulative infiltration, in mm."""
        time = np.asarray(ponded_h, dtype=np.float64)
        power = self.first_hour_mm * time**self.exponent
        return np.asarray(power + self.steady_mm_per_h * time + self.at_once_mm)

    def ponded_h(self, infiltrated_mm: npt.ArrayLike) -> FloatArray:
        """Hours of ponding; none while the depth taken in at once lasts, in h."""
        depth = np.asarray(infiltrated_mm, dtype=np.float64)
        slow = np.maximum(depth - self.at_once_mm, 0.0)
        longest = (slow / self.first_hour_mm) ** (1.0 / self.exponent)
        if self.steady_mm_per_h == 0.0:
            return np.asarray(longest)
        return solved(
            lambda time: self.infiltrated_mm(time) - self.at_once_mm - slow,
            np.zeros_like(longest),
            longest,
        )

    def room_mm(self, rate_mm_per_h: npt.ArrayLike) -> FloatArray:
        """Infiltration at which the capacity has fallen to a rate, in mm."""
        above = np.asarray(rate_mm_per_h, dtype=np.float64) - self.steady_mm_per_h
        with np.errstate(divide="ignore"):
            share = np.maximum(above, 0.0) / (self.exponent * self.first_hour_mm)
            time = share ** (1.0 / (self.exponent - 1.0))
        return np.where(above > 0, self.infiltrated_mm(np.where(above > 0, time, 0.0)),
                        np.inf)  # fmt: skip


# SCS intake families F = a T^b + 7.0 (T in minutes, F in mm), from memory, unverified
FAMILIES: dict[float, tuple[float, float]] = {
    0.1: (0.6198, 0.661),
    0.5: (1.196, 0.748),
    1.0: (1.786, 0.785),
}
FAMILY_AT_ONCE_MM = 7.0


def intake_family(family: float) -> Kostiakov:
    """Curve of one of the known intake families.

    Parameters
    ----------
    family : float
        0.1, 0.5 or 1.0. [-]

    Returns
    -------
    Kostiakov
        The curve.

    Raises
    ------
    KeyError
        For another family: none is interpolated.

    References
    ----------
    .. [1] SCS, National Engineering Handbook, section 15, chapters 4 and 5, from
       memory, unverified.

    Examples
    --------
    >>> round(intake_family(1.0).first_hour_mm, 1)
    44.4
    """
    a, b = FAMILIES[family]
    return Kostiakov(a * MIN_PER_H**b, b, 0.0, FAMILY_AT_ONCE_MM)
