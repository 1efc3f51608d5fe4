"""Runs of two packages in wind in; which is better at a wind, and how sure, out.

Uniformity falls with wind, so packages are compared on lines of DU against wind. The
day is what repeats: ten runs on one day are not ten days.
"""

import math
from dataclasses import dataclass
from functools import partial
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray, IntArray
from scheduler.errors import SchedulerError
from scheduler.field.student import student_factor, student_level
from scheduler.field.trial.clustered import (
    ClusteredFit,
    clustered_fit,
    group_sums,
)
from scheduler.field.trial.resampled import BOOTSTRAP_DAYS, DayBootstrap, day_bootstrap
from scheduler.field.trial.runs import PackageRuns, line_design, refuse_no_line
from scheduler.field.trial.settling import (
    LEAST_DAYS,
    NO_DIFFERENCE,
    days_needed,
)
from scheduler.field.trial.tie import ratio_range

Verdict = Literal["better", "worse", "not proven"]
Method = Literal["t on days"]
LEVEL = 0.95


@dataclass(frozen=True, slots=True)
class Comparison:
    """Package a against package b at one wind; differences are a less b.

    Attributes
    ----------
    wind_m_per_s : float
        Wind compared at. [m/s]
    du_a, du_b, difference, low, high : float
        DU of the lines there, their difference and its range; the ends are infinite
        where a package was tested on one day. [-]
    degrees : float
        Degrees of freedom of the difference.
    method : str
        Where the range comes from.
    bootstrap : DayBootstrap or None
        A second look at the range, from 8 days on.
    tie_wind_m_per_s, tie_low_m_per_s, tie_high_m_per_s : float
        Wind at which both lines are equal, and its range; may be unbounded. [m/s]
    verdict, why : str
        The answer, and the reason.
    hangs_on : str
        The one run that the answer hangs on; empty where it hangs on none.
    days_needed : int or None
        More days that would settle it; None when settled or out of reach.
    n_days : int
        Days with a run of either.
    is_small : bool
        The difference, proven or not, is too little to matter in the field.
    is_too_short : bool
        One of them has fewer days than a verdict needs at least.
    is_extrapolated : bool
        The wind is outside what one of them was tested in.
    is_confounded : bool
        They were never tested on the same day.
    """

    a: str
    b: str
    wind_m_per_s: float
    du_a: float
    du_b: float
    difference: float
    low: float
    high: float
    degrees: float
    method: Method
    bootstrap: DayBootstrap | None
    tie_wind_m_per_s: float | None
    tie_low_m_per_s: float
    tie_high_m_per_s: float
    verdict: Verdict
    why: str
    hangs_on: str
    days_needed: int | None
    n_days: int
    is_small: bool
    is_too_short: bool
    is_extrapolated: bool
    is_confounded: bool


def both_lines(a: PackageRuns, b: PackageRuns) -> ClusteredFit:
    """Both lines fitted together, their error taken from the days.

    Parameters
    ----------
    a, b : PackageRuns
        Runs of each.

    Returns
    -------
    ClusteredFit
        Coefficients: DU without wind and slope of a, the same of b.

    References
    ----------
    Source: definition; `clustered_fit` names its own.

    Examples
    --------
    >>> wind, day = np.array([1.0, 2.0, 1.0, 2.0]), np.array([1, 1, 2, 2])
    >>> a = PackageRuns("a", wind, 0.9 - 0.1 * wind, day)
    >>> both_lines(a, a).coefficients.round(3).tolist()
    [0.9, -0.1, 0.9, -0.1]
    """
    return clustered_fit(*group_sums(*_columns(a, b)))


def _columns(a: PackageRuns, b: PackageRuns) -> tuple[FloatArray, FloatArray, IntArray]:
    n_a, n_b = a.du_lq.size, b.du_lq.size
    design = np.zeros((n_a + n_b, 4))
    design[:n_a, :2], design[n_a:, 2:] = line_design(a), line_design(b)
    y = np.concatenate([a.du_lq, b.du_lq])
    return design, y, np.concatenate([a.day, b.day])


def comparison(
    a: PackageRuns, b: PackageRuns, *, wind_m_per_s: float, level: float = LEVEL
) -> Comparison:
    """Which of two packages is more uniform at a wind, and how sure that is.

    Parameters
    ----------
    a, b : PackageRuns
        Runs of each, of at least two different winds.
    wind_m_per_s : float
        Wind to compare at, such as that of the irrigation hours. [m/s]
    level : float
        Two-sided level of the ranges.

    Returns
    -------
    Comparison
        Difference a less b with its range, the wind at which they tie, and a verdict;
        "not proven" is an answer.

    Raises
    ------
    SchedulerError
        If a package has fewer than two runs, or all its runs in one wind.

    Notes
    -----
    Straight lines of DU against wind, fitted together. The variance is the
    cluster-robust one over days with the bias-reducing adjustment, and the degrees of
    freedom are Satterthwaite's: few days give wide ranges. This t on days gives the
    range for any number of days. From 8 days on the days are resampled as well, but
    that range is only shown beside it: `python -m tests.bench trial_truth` measures
    both, and the resampled one is too narrow up to 12 days (87 to 93 % at a nominal
    95 %, against 93 % and more). Each package needs three days, and a verdict must also
    stand with any single run left out. Packages never tested on the same day are
    confounded with their days, which no arithmetic can undo.

    References
    ----------
    .. [1] Bell and McCaffrey, 2002, Bias reduction in standard errors for linear
       regression with multi-stage samples, Survey Methodology 28.
    .. [2] Fieller, 1954, Some problems in interval estimation, J. R. Stat. Soc. B 16
       (range of the tie, a ratio).

    Examples
    --------
    >>> wind, day = np.array([1.0, 2.0, 3.0] * 4), np.repeat(np.arange(4), 3)
    >>> a = PackageRuns("a", wind, 0.85 - 0.03 * wind, day)
    >>> b = PackageRuns("b", wind, 0.75 - 0.01 * wind, day)
    >>> found = comparison(a, b, wind_m_per_s=2.0)
    >>> found.verdict, round(found.difference, 3), round(found.tie_wind_m_per_s, 2)
    ('better', 0.06, 5.0)
    """
    for one in (a, b):
        refuse_no_line(one)
    contrast = np.array([1.0, wind_m_per_s, -1.0, -wind_m_per_s])
    fit = both_lines(a, b)
    difference, degrees = float(fit.value(contrast)), float(fit.degrees(contrast))
    error = math.sqrt(float(fit.variance(contrast)))
    if min(a.n_days, b.n_days) < 2:
        error = math.inf  # one day does not know how days differ
    half = student_factor(degrees, level) * error
    verdict, why, hangs_on = _verdict((a, b), contrast, (difference, half), level)
    tie, tie_low, tie_high = _tie((a, b), fit, level)
    n_days = np.unique(np.concatenate([a.day, b.day])).size
    more = None
    if verdict == "not proven":
        more = _more_days((a, b), (difference, error, degrees), n_days, level)
    return Comparison(
        a=a.package,
        b=b.package,
        wind_m_per_s=wind_m_per_s,
        du_a=float(fit.coefficients[:2] @ contrast[:2]),
        du_b=float(-fit.coefficients[2:] @ contrast[2:]),
        difference=difference,
        low=difference - half,
        high=difference + half,
        degrees=degrees,
        method="t on days",
        bootstrap=_second_look((a, b), wind_m_per_s, n_days, level),
        tie_wind_m_per_s=tie,
        tie_low_m_per_s=tie_low,
        tie_high_m_per_s=tie_high,
        verdict=verdict,
        why=why,
        hangs_on=hangs_on,
        days_needed=more,
        n_days=n_days,
        is_small=abs(difference) < NO_DIFFERENCE,
        is_too_short=min(a.n_days, b.n_days) < LEAST_DAYS,
        is_extrapolated=any(one.is_outside(wind_m_per_s) for one in (a, b)),
        is_confounded=not np.intersect1d(a.day, b.day).size,
    )


def _second_look(
    pair: tuple[PackageRuns, PackageRuns],
    wind_m_per_s: float,
    n_days: int,
    level: float,
) -> DayBootstrap | None:
    if n_days < BOOTSTRAP_DAYS:
        return None
    try:
        return day_bootstrap(*pair, wind_m_per_s=wind_m_per_s, level=level)
    except SchedulerError:
        return None  # no resample had a line for both


# --- the verdict -------------------------------------------------------------


def _sign(low: float, high: float) -> Verdict:
    if low > 0:
        return "better"
    return "worse" if high < 0 else "not proven"


def _verdict(
    pair: tuple[PackageRuns, PackageRuns],
    contrast: FloatArray,
    found: tuple[float, float],
    level: float,
) -> tuple[Verdict, str, str]:
    """The answer, the reason, and the one run that it hangs on."""
    few = [one for one in pair if one.n_days < LEAST_DAYS]
    if few:
        days = "1 day" if few[0].n_days == 1 else f"{few[0].n_days} days"
        why = f"{few[0].package} was tested on {days}; {LEAST_DAYS} are the least"
        return "not proven", why, ""
    difference, half = found
    verdict = _sign(difference - half, difference + half)
    turned = _turning_runs(pair, contrast, verdict, level)
    if verdict == "not proven":
        why = "the range of the difference holds zero"
        # many such runs only say that it is close; one alone may be a bad run
        return verdict, why, turned[0] if len(turned) == 1 else ""
    if turned:
        return "not proven", f"it hangs on one run, {turned[0]}", turned[0]
    return verdict, "the range of the difference leaves out zero", ""


def _turning_runs(
    pair: tuple[PackageRuns, PackageRuns],
    contrast: FloatArray,
    verdict: Verdict,
    level: float,
) -> list[str]:
    """Runs without which the answer would be another; all fits in one go."""
    design, y, day = _columns(*pair)
    squares, cross = group_sums(design, y, day)
    place = np.unique(day, return_inverse=True)[1]
    runs = [(one, run) for one in pair for run in range(one.du_lq.size)]
    less = [one.without(run) for one, run in runs]
    kept = np.array([one.has_line and one.n_days > 1 for one in less])
    rows = np.flatnonzero(kept)
    squares = np.repeat(squares[None], rows.size, axis=0)
    cross = np.repeat(cross[None], rows.size, axis=0)
    each = np.arange(rows.size), place[rows]
    squares[each] -= design[rows, :, None] * design[rows, None, :]
    cross[each] -= design[rows] * y[rows, None]
    fit = clustered_fit(squares, cross)
    signs = map(
        partial(_quick_sign, level=level),
        fit.value(contrast).tolist(),
        fit.variance(contrast).tolist(),
        fit.degrees(contrast).tolist(),
    )
    return [
        runs[row][0].name_of(runs[row][1])
        for row, sign in zip(rows, signs, strict=True)
        if sign != verdict
    ]


def _quick_sign(
    difference: float, variance: float, degrees: float, *, level: float
) -> Verdict:
    if not difference:
        return "not proven"
    if variance and student_level(difference / math.sqrt(variance), degrees) <= level:
        return "not proven"
    return "better" if difference > 0 else "worse"


def _more_days(
    pair: tuple[PackageRuns, PackageRuns],
    found: tuple[float, float, float],
    n_days: int,
    level: float,
) -> int | None:
    fewest = min(one.n_days for one in pair)
    if fewest < LEAST_DAYS:
        return LEAST_DAYS - fewest
    difference, error, degrees = found
    return days_needed(difference, error, degrees, n_days=n_days, level=level)


def _tie(
    pair: tuple[PackageRuns, PackageRuns], fit: ClusteredFit, level: float
) -> tuple[float | None, float, float]:
    """Wind at which both lines are equal, with its range; may be unbounded."""
    offset, slope = np.array([1.0, 0.0, -1.0, 0.0]), np.array([0.0, 1.0, 0.0, -1.0])
    top, bottom = -float(fit.value(offset)), float(fit.value(slope))
    if min(one.n_days for one in pair) < 2:
        return (top / bottom if bottom else None), -math.inf, math.inf
    pulls = np.stack([-fit.pulls @ offset, fit.pulls @ slope])
    degrees = min(float(fit.degrees(offset)), float(fit.degrees(slope)))
    return ratio_range(top, bottom, pulls @ pulls.T, student_factor(degrees, level))
