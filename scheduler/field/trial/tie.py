"""Two numbers with their variances in; the ratio with its range out."""

import math

from scheduler.arrays import FloatArray


def ratio_range(
    top: float, bottom: float, covariance: FloatArray, factor: float
) -> tuple[float | None, float, float]:
    """A ratio of two uncertain numbers, with Fieller's range.

    Parameters
    ----------
    top, bottom : float
        The two numbers.
    covariance : array of shape (2, 2)
        Their variances and covariance.
    factor : float
        Student's factor of the level.

    Returns
    -------
    tuple of float or None
        The ratio, None where the bottom is 0, and the ends of its range; infinite
        where the bottom may be 0, which is an answer.

    Notes
    -----
    The range holds every r for which top - r bottom cannot be told from 0.

    References
    ----------
    .. [1] Fieller, 1954, Some problems in interval estimation, J. R. Stat. Soc. B 16.

    Examples
    --------
    >>> import numpy as np
    >>> ratio, low, high = ratio_range(10.0, 5.0, np.diag([1.0, 0.25]), 2.0)
    >>> ratio, round(low, 4), round(high, 4)
    (2.0, 1.5, 2.6667)
    """
    ratio = top / bottom if bottom else None
    (top_var, both), (_, bottom_var) = covariance.tolist()
    square = factor * factor
    lead = bottom * bottom - square * bottom_var
    middle = top * bottom - square * both
    last = top * top - square * top_var
    inside = middle * middle - lead * last
    if lead <= 0 or inside < 0:
        return ratio, -math.inf, math.inf
    root = math.sqrt(inside)
    return ratio, (middle - root) / lead, (middle + root) / lead
