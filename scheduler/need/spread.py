"""Sums of one week over the years in; one cool and one hot week in ten out.

The week to come is one more year, not the mean of those measured: the range is that of
a prediction. Of a few years no tenth can be counted off, so the sums are taken as
bell-shaped and get Student's t, which is wide for three years and settles by ten.
"""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.student import student_factor

# With two years t is so wide that the range would say nothing (3.08 x 1.22 spreads).
LEAST_YEARS = 3
# one in ten below, one in ten above
TWO_SIDED = 0.8


@dataclass(frozen=True, slots=True)
class Spread:
    """How the same week differs from year to year.

    Attributes
    ----------
    low_mm, high_mm : float
        Reference ET that one week in ten stays below, and one in ten passes. [mm]
    n_years : int
        Years that it rests on.
    source : str
        The station.
    """

    low_mm: float
    high_mm: float
    n_years: int
    source: str = ""


def week_spread(sums_mm: FloatArray, source: str = "") -> Spread:
    """Range that holds the next year's sum of that week eight times in ten.

    Parameters
    ----------
    sums_mm : array of shape (n_years,)
        Reference ET of the same dates in each year; three years or more. [mm]
    source : str
        The station they come from.

    Returns
    -------
    Spread
        mean -/+ t(0.9, n - 1) x s x sqrt(1 + 1/n), never below 0.

    Raises
    ------
    SchedulerError
        If there are fewer than three years.

    References
    ----------
    .. [1] Prediction of one more observation, as in general textbooks of statistics
       (from memory).

    Examples
    --------
    >>> found = week_spread(np.array([30.0, 34.0, 38.0]))
    >>> round(found.low_mm, 2), round(found.high_mm, 2)
    (25.29, 42.71)
    """
    n = sums_mm.size
    if n < LEAST_YEARS:
        raise SchedulerError(
            f"{n} years tell no spread between years", "give three years or more"
        )
    mean, deviation = float(sums_mm.mean()), float(np.std(sums_mm, ddof=1))
    half = student_factor(n - 1, TWO_SIDED) * deviation * math.sqrt(1.0 + 1.0 / n)
    return Spread(max(mean - half, 0.0), mean + half, n, source)
