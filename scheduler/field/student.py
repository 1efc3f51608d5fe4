"""Degrees of freedom and a level or a ratio in, Student's t the other way round out.

Written out because the general library for it costs most of a second to load, and
degrees of freedom between whole numbers are needed.
"""

import math

import numpy as np

from scheduler.errors import SchedulerError

# Gauss-Legendre points on -1 to 1; 64 of them are exact to 1e-10 for one degree and up.
POINTS, WEIGHTS = np.polynomial.legendre.leggauss(64)


def _whole(degrees: float) -> float:
    """Area below cos(angle)^(degrees - 1) from 0 to a right angle."""
    log_half = math.lgamma(degrees / 2) - math.lgamma((degrees + 1) / 2)
    return math.sqrt(math.pi) / 2 * math.exp(log_half)


def _inside(angle: float, degrees: float) -> float:
    """Probability between -t and t, t = sqrt(degrees) tan(angle)."""
    middle = np.cos(angle / 2 * (POINTS + 1)) ** (degrees - 1)
    area = float(angle / 2 * (WEIGHTS * middle).sum())
    return area / _whole(degrees)


def student_factor(degrees: float, level: float = 0.95) -> float:
    """Factor that a standard error is multiplied with for a range of that level.

    Parameters
    ----------
    degrees : float
        Degrees of freedom, at least 1; need not be whole.
    level : float
        Two-sided level, above 0 and below 1.

    Returns
    -------
    float
        The factor, at least 0.

    Raises
    ------
    SchedulerError
        If a number is outside its bounds.

    References
    ----------
    .. [1] Student, 1908, The probable error of a mean, Biometrika 6; the substitution
       t = sqrt(n) tan(angle) makes the integral smooth.

    Examples
    --------
    >>> round(student_factor(4), 3)
    2.776
    """
    if not (degrees >= 1 and 0 < level < 1):
        raise SchedulerError(
            f"{degrees:g} degrees of freedom at level {level:g}",
            "give at least 1, and a level between 0 and 1",
        )
    low, high, angle = 0.0, math.pi / 2, math.pi / 4
    for _ in range(60):
        gap = _inside(angle, degrees) - level
        low, high = (low, angle) if gap > 0 else (angle, high)
        # Newton's step, or the middle where that leaves the bracket
        slope = math.cos(angle) ** (degrees - 1) / _whole(degrees)
        after = angle - gap / slope if slope else low
        if not low < after < high:
            after = (low + high) / 2
        angle, moved = after, abs(after - angle)
        if moved < 1e-14:
            break
    return math.sqrt(degrees) * math.tan(angle)


def student_level(ratio: float, degrees: float) -> float:
    """Level of the widest range that still leaves out zero.

    Parameters
    ----------
    ratio : float
        A number over its standard error; its sign does not matter.
    degrees : float
        Degrees of freedom, at least 1; need not be whole.

    Returns
    -------
    float
        Two-sided level, 0 to 1: one less the chance of so large a ratio by luck.

    Raises
    ------
    SchedulerError
        If there is less than one degree of freedom.

    References
    ----------
    .. [1] Student, 1908, The probable error of a mean, Biometrika 6.

    Examples
    --------
    >>> round(student_level(2.776, 4), 3)
    0.95
    """
    if not degrees >= 1:
        raise SchedulerError(f"{degrees:g} degrees of freedom", "give at least 1")
    return _inside(math.atan(abs(ratio) / math.sqrt(degrees)), degrees)
