"""Water into pots and out of them in; leaching fractions and new minutes out."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.student import student_factor

# Spread of what one pot keeps over the mean of its like, and how many pots that
# counts for: pots that happen to agree prove little (common practice, no source).
POT_SPREAD, POT_SPREAD_DEGREES = 0.20, 4.0
LEVEL = 0.90

# 21.000000001 is 21 whole minutes, not 22
ROUND_OFF = 1e-9


def leaching_fraction(leachate_ml: float, retained_ml: float) -> float:
    """Part of the water into a pot that drains from it.

    Parameters
    ----------
    leachate_ml, retained_ml : float
        What drained, and what stayed. [mL]

    Returns
    -------
    float
        0 to 1. [-]

    Raises
    ------
    SchedulerError
        If one is negative, or both are 0.

    References
    ----------
    .. [1] Million and Yeager, UF/IFAS ENH1268: leachate over leachate and retained.

    Examples
    --------
    >>> leaching_fraction(150.0, 850.0)
    0.15
    """
    if not (leachate_ml >= 0 and retained_ml >= 0 and leachate_ml + retained_ml > 0):
        raise SchedulerError(
            f"{leachate_ml:g} mL drained and {retained_ml:g} mL stayed",
            "give volumes of 0 or more, not both 0",
        )
    return leachate_ml / (leachate_ml + retained_ml)


def pooled_leaching_fraction(in_ml: FloatArray, leachate_ml: FloatArray) -> float:
    """Leaching fraction of several pots, averaged by volume and not pot by pot.

    Parameters
    ----------
    in_ml, leachate_ml : array of shape (n_pots,)
        Water into each pot, and what drained from it. [mL]

    Returns
    -------
    float
        All that drained over all that came. [-]

    Raises
    ------
    SchedulerError
        If more drained than came, anything is negative, or nothing came.

    References
    ----------
    Source: definition (the water of the zone, not the mean of its pots).

    Examples
    --------
    >>> pooled_leaching_fraction(np.array([1000.0, 500.0]), np.array([400.0, 50.0]))
    0.3
    """
    came, drained = np.asarray(in_ml, float), np.asarray(leachate_ml, float)
    is_fair = came.shape == drained.shape and came.sum() > 0
    if not (is_fair and np.all((drained >= 0) & (drained <= came))):
        raise SchedulerError(
            "a pot drained more than it got, or a volume is missing",
            "give water in and out of each pot, out no more than in",
        )
    return float(drained.sum() / came.sum())


@lru_cache(maxsize=256)
def _student(degrees: float, level: float) -> float:
    """Student's factor, kept: checks of one size share it."""
    return student_factor(degrees, level)


@dataclass(frozen=True, slots=True)
class FractionRange:
    """A leaching fraction of several pots, and how well they tell it.

    Attributes
    ----------
    fraction : float
        Of all pots together, by volume. [-]
    low, high : float
        Where the fraction of the whole zone lies, 0 to 1. [-]
    level : float
        How sure that is.
    log_sd : float
        Standard error of what stays, as part of itself. [-]
    degrees : float
        Degrees of freedom of that error.
    student : float
        What the error was multiplied with for the range.
    """

    fraction: float
    low: float
    high: float
    level: float
    log_sd: float
    degrees: float
    student: float


def fraction_range(
    in_ml: FloatArray, leachate_ml: FloatArray, level: float = LEVEL
) -> FractionRange:
    """Leaching fraction by volume, with a range for the zone that the pots stand for.

    Parameters
    ----------
    in_ml, leachate_ml : array of shape (n_pots,)
        Water into each pot, and what drained from it. [mL]
    level : float
        How sure the range is to hold the zone's fraction.

    Returns
    -------
    FractionRange
        Range cut off at 0 and 1.

    Raises
    ------
    SchedulerError
        As `pooled_leaching_fraction`.

    Notes
    -----
    The part that stays is a ratio of two sums over the pots; its error comes from how
    far each pot is from that ratio, put together with a usual spread of 20 % that
    counts as four pots more, and Student's t on both. Pots count as drawn at random.

    References
    ----------
    .. [1] Cochran, 1977, Sampling Techniques, 3rd ed., equation 6.13 (from memory);
       the usual spread is common practice, no source.

    Examples
    --------
    >>> made = fraction_range(np.array([500.0, 500.0]), np.array([100.0, 100.0]))
    >>> round(made.low, 2), made.fraction, round(made.high, 2)
    (0.0, 0.2, 0.4)
    """
    came, drained = np.asarray(in_ml, float), np.asarray(leachate_ml, float)
    fraction = pooled_leaching_fraction(came, drained)
    stays = 1.0 - fraction
    more, usual = came.size - 1.0, (POT_SPREAD * stays) ** 2
    apart = (came - drained - stays * came) / came.mean()
    degrees = POT_SPREAD_DEGREES + more
    spread = (POT_SPREAD_DEGREES * usual + float((apart**2).sum())) / degrees
    error = math.sqrt(spread / came.size)
    student = _student(degrees, level)
    half = student * error
    low, high = max(0.0, fraction - half), min(1.0, fraction + half)
    log_sd = error / stays if stays > 0 else math.inf
    return FractionRange(fraction, low, high, level, log_sd, degrees, student)


def minutes_for_target(minutes: float, *, leaching: float, target: float) -> float:
    """Minutes that bring a leaching fraction to its target.

    Parameters
    ----------
    minutes : float
        Minutes that gave the measured fraction. [min]
    leaching : float
        Measured fraction. [-]
    target : float
        Wanted fraction; 0 is what the plant uses and no more. [-]

    Returns
    -------
    float
        Minutes x (1 - leaching) / (1 - target). [min]

    Raises
    ------
    SchedulerError
        If a fraction is below 0, or 1 and more, or the minutes are negative.

    Notes
    -----
    What stayed in the pot is taken as its use. A pot that drained nothing may have
    been short, so that the result is then too low.

    References
    ----------
    Source: balance of water; Million and Yeager, UF/IFAS ENH1268, give the idea.

    Examples
    --------
    >>> round(minutes_for_target(60.0, leaching=0.4, target=0.15), 1)
    42.4
    """
    if not (minutes >= 0 and 0 <= leaching < 1 and 0 <= target < 1):
        raise SchedulerError(
            f"{minutes:g} min, leaching {leaching:g} and target {target:g}",
            "give minutes of 0 or more, fractions of 0 or more and below 1",
        )
    return minutes * (1.0 - leaching) / (1.0 - target)


@dataclass(frozen=True, slots=True)
class NewMinutes:
    """What a leaching check asks of the clock.

    Attributes
    ----------
    by_mean : float
        Minutes at which the pots together leach the target. [min]
    floor : float
        Minutes at which the driest pot gets just its use. [min]
    minutes : int
        The larger, in whole minutes, rounded up so that the floor holds. [min]
    is_held_by_driest : bool
        Whether the floor is the larger.
    is_floor_sure : bool
        False where the driest pot drained nothing: it may have been short already.
    """

    by_mean: float
    floor: float
    minutes: int
    is_held_by_driest: bool
    is_floor_sure: bool


def new_minutes(
    minutes: float, *, mean_leaching: float, driest_leaching: float, target: float
) -> NewMinutes:
    """Minutes after a leaching check, never below what the driest pot uses.

    Parameters
    ----------
    minutes : float
        Minutes of the check. [min]
    mean_leaching : float
        Fraction of all pots together, by volume. [-]
    driest_leaching : float
        Fraction of the pot that leached least. [-]
    target : float
        Wanted fraction of all pots together. [-]

    Returns
    -------
    NewMinutes
        Both minutes, and the whole ones for the clock.

    Raises
    ------
    SchedulerError
        As `minutes_for_target`; or if the driest pot leached more than the mean.

    References
    ----------
    Source: balance of water, for all pots and for the driest one.

    Examples
    --------
    >>> check = new_minutes(24.0, mean_leaching=0.38, driest_leaching=0.12, target=0.15)
    >>> round(check.by_mean, 1), round(check.floor, 1), check.minutes
    (17.5, 21.1, 22)
    """
    if driest_leaching > mean_leaching:
        raise SchedulerError(
            f"the driest pot leached {driest_leaching:g}, the mean {mean_leaching:g}",
            "give the smallest fraction of the pots as the driest",
        )
    by_mean = minutes_for_target(minutes, leaching=mean_leaching, target=target)
    floor = minutes_for_target(minutes, leaching=driest_leaching, target=0.0)
    whole = math.ceil(max(by_mean, floor) - ROUND_OFF)
    return NewMinutes(by_mean, floor, whole, floor > by_mean, driest_leaching > 0)


def measured_capture_factor(with_plant_ml: float, empty_ml: float) -> float:
    """Water that a pot gets with its plant over what it gets without.

    Parameters
    ----------
    with_plant_ml, empty_ml : float
        Water in a pot with its plant, and in an equal pot or can without. [mL]

    Returns
    -------
    float
        Usually 1 to 4. [-]

    Raises
    ------
    SchedulerError
        If the first is negative or the second not above 0.

    References
    ----------
    .. [1] Million and Yeager, 2015, HortScience 50: definition, and the range over 11
       species.

    Examples
    --------
    >>> measured_capture_factor(600.0, 250.0)
    2.4
    """
    if not (with_plant_ml >= 0 and empty_ml > 0):
        raise SchedulerError(
            f"{with_plant_ml:g} mL with the plant and {empty_ml:g} mL without",
            "give volumes, the one without plant above 0",
        )
    return with_plant_ml / empty_ml
