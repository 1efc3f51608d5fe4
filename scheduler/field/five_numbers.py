"""Caught depths in, the five numbers of a box and the driest quarter's mean out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.uniformity import low_quarter_uniformity


@dataclass(frozen=True, slots=True)
class FiveNumbers:
    """What a box shows of one run, in the unit of the depths.

    Attributes
    ----------
    low, quarter, middle, three_quarters, high : float
        Smallest, first quartile, median, third quartile, largest.
    mean : float
        Mean of all.
    driest_quarter_mean : float
        Mean of the driest quarter; over the mean it is the DU low quarter.
    n_cans : int
        How many cans.
    """

    low: float
    quarter: float
    middle: float
    three_quarters: float
    high: float
    mean: float
    driest_quarter_mean: float
    n_cans: int


def five_numbers(depth_mm: FloatArray) -> FiveNumbers:
    """Smallest, quartiles, largest, mean, and the mean of the driest quarter.

    Parameters
    ----------
    depth_mm : array of shape (n_cans,)
        Caught depth in each can. [mm]

    Returns
    -------
    FiveNumbers
        All in the unit of the depths; whiskers reach the driest and the wettest can,
        none is set apart as an outlier.

    Raises
    ------
    TooFewCansError
        If there are fewer than 4 cans.
    ReadingsError
        If a depth is negative or not finite, or no water was caught.

    Notes
    -----
    Quartiles lie on straight lines between the ordered cans, at (n - 1) p. The
    first quartile is a can's depth that a quarter stays below, so it is above the mean
    of the driest quarter, from which the DU is made.

    References
    ----------
    .. [1] Tukey, 1977, Exploratory Data Analysis, chapter 2 (five-number summary).
    .. [2] Hyndman and Fan, 1996, Sample quantiles in statistical packages, The American
       Statistician 50(4), definition 7.

    Examples
    --------
    >>> found = five_numbers(np.array([8.0, 9.0, 10.0, 11.0, 12.0]))
    >>> found.quarter, found.middle, found.three_quarters
    (9.0, 10.0, 11.0)
    >>> round(found.driest_quarter_mean, 2)
    8.2
    """
    uniformity = float(low_quarter_uniformity(depth_mm))
    quarter, middle, three_quarters = np.quantile(depth_mm, (0.25, 0.5, 0.75))
    mean = float(depth_mm.mean())
    return FiveNumbers(
        low=float(depth_mm.min()),
        quarter=float(quarter),
        middle=float(middle),
        three_quarters=float(three_quarters),
        high=float(depth_mm.max()),
        mean=mean,
        driest_quarter_mean=uniformity * mean,
        n_cans=int(depth_mm.size),
    )
