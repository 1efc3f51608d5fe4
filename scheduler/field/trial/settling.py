"""A difference and its error in; how many more days of runs would settle it out."""

import math

from scheduler.field.student import student_factor

# Fewer days than this tell nothing of how days differ (common practice, no source).
LEAST_DAYS = 3
# Differences below this are no difference in the field (common practice, no source).
NO_DIFFERENCE = 0.01
MOST_DAYS = 200
# Chance that the trial so lengthened proves a difference as large as the one seen.
POWER = 0.8


def days_needed(
    difference: float,
    error: float,
    degrees: float,
    *,
    n_days: int,
    level: float = 0.95,
) -> int | None:
    """More days of such runs that would settle a difference.

    Parameters
    ----------
    difference : float
        Difference that was seen, taken as the true one. [-]
    error : float
        Its standard error. [-]
    degrees : float
        Degrees of freedom of the error, at least 1.
    n_days : int
        Days so far, at least 1.
    level : float
        Two-sided level of the range.

    Returns
    -------
    int or None
        At least 1; None where the difference is too small to matter or more than
        200 days would be needed.

    Notes
    -----
    The error falls with the root of the days, the degrees of freedom grow with them,
    and the difference seen is proven in 80 % of such trials. Runs on the same day
    are not more days.

    References
    ----------
    .. [1] Snedecor and Cochran, Statistical Methods: size of sample from level and
       power (from memory).

    Examples
    --------
    >>> days_needed(0.04, 0.02, 5.0, n_days=6)
    9
    """
    if abs(difference) < NO_DIFFERENCE or not math.isfinite(error):
        return None

    def proves(days: int) -> bool:
        more = max(degrees * days / n_days, 1.0)
        factor = student_factor(more, level) + student_factor(more, 2 * POWER - 1)
        return factor * error * math.sqrt(n_days / days) <= abs(difference)

    low, high = n_days, n_days + MOST_DAYS
    if not proves(high):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if proves(middle) else (middle, high)
    return high - n_days
