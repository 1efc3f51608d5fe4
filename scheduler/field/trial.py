"""Runs of two packages in wind in, which is better at a wind, and how sure, out.

Uniformity falls with wind, so packages are compared on lines of DU against wind. The
day is what repeats: runs of one day share its wind direction, pressure and helpers, and
ten runs on one day are not ten days.
"""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray, IntArray
from scheduler.errors import SchedulerError
from scheduler.field.student import student_factor

Verdict = Literal["better", "worse", "not proven"]
LEVEL = 0.95
# Fewer days than this tell nothing of how days differ (common practice, no source).
LEAST_DAYS = 3
# Differences below this are no difference in the field (common practice, no source).
NO_DIFFERENCE = 0.01
MOST_DAYS = 200


@dataclass(frozen=True, slots=True, eq=False)
class PackageRuns:
    """Runs of one package.

    Attributes
    ----------
    wind_m_per_s : array of shape (n_runs,)
        Mean wind over each run. [m/s]
    du_lq : array of shape (n_runs,)
        Uniformity of each run. [-]
    day : array of shape (n_runs,)
        Number of the day of each run; the same number means the same day.
    """

    package: str
    wind_m_per_s: FloatArray
    du_lq: FloatArray
    day: IntArray


@dataclass(frozen=True, slots=True)
class Comparison:
    """Package a against package b at one wind; differences are a less b."""

    a: str
    b: str
    wind_m_per_s: float
    du_a: float
    du_b: float
    difference: float
    low: float
    high: float
    degrees: float
    tie_wind_m_per_s: float | None
    tie_low_m_per_s: float
    tie_high_m_per_s: float
    verdict: Verdict
    why: str
    days_needed: int | None
    n_days: int
    is_extrapolated: bool
    is_confounded: bool


@dataclass(frozen=True, slots=True, eq=False)
class _Fit:
    """Two lines fitted together: coefficients a0, a1, b0, b1."""

    coefficients: FloatArray
    pulls: FloatArray  # (n_days, 4): what each day does to the coefficients
    residuals: FloatArray  # (n_days, n_runs, 4): for the degrees of freedom

    def variance(self, contrast: FloatArray) -> float:
        return float(((self.pulls @ contrast) ** 2).sum())

    def degrees(self, contrast: FloatArray) -> float:
        """Satterthwaite degrees of freedom of a contrast, at least 1."""
        parts = self.residuals @ contrast
        inner = parts @ parts.T
        square = float((inner**2).sum())
        found = float(np.trace(inner)) ** 2 / square if square > 0 else 1.0
        return max(found, 1.0)


def _design(a: PackageRuns, b: PackageRuns) -> tuple[FloatArray, FloatArray, IntArray]:
    n_a, n_b = a.du_lq.size, b.du_lq.size
    x = np.zeros((n_a + n_b, 4))
    x[:n_a, 0], x[:n_a, 1] = 1.0, a.wind_m_per_s
    x[n_a:, 2], x[n_a:, 3] = 1.0, b.wind_m_per_s
    return x, np.concatenate([a.du_lq, b.du_lq]), np.concatenate([a.day, b.day])


def _fit(a: PackageRuns, b: PackageRuns) -> _Fit:
    """Both lines by least squares, with what each day does to them."""
    x, y, day = _design(a, b)
    bread = np.linalg.pinv(x.T @ x)
    coefficients = bread @ x.T @ y
    left = y - x @ coefficients
    maker = np.eye(y.size) - x @ bread @ x.T
    pulls, residuals = [], []
    for number in np.unique(day):
        own = day == number
        block = maker[np.ix_(own, own)]
        values, vectors = np.linalg.eigh(block)
        # directions that the day fits by itself say nothing of it
        root = np.where(values > 1e-10, 1 / np.sqrt(np.maximum(values, 1e-10)), 0.0)
        adjust = (vectors * root) @ vectors.T
        lever = adjust @ x[own] @ bread
        pulls.append(left[own] @ lever)
        residuals.append(maker[:, own] @ lever)
    return _Fit(coefficients, np.array(pulls), np.array(residuals))


def _at(wind_m_per_s: float) -> FloatArray:
    return np.array([1.0, wind_m_per_s, -1.0, -wind_m_per_s])


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
    freedom are Satterthwaite's: few days give wide ranges. A verdict must also stand
    with any single run left out. Packages never tested on the same day are confounded
    with their days, which no arithmetic can undo.

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
        _refuse_no_line(one)
    contrast = _at(wind_m_per_s)
    fit = _fit(a, b)
    difference = float(fit.coefficients @ contrast)
    degrees = fit.degrees(contrast)
    half = student_factor(degrees, level) * math.sqrt(fit.variance(contrast))
    n_days = np.unique(np.concatenate([a.day, b.day])).size
    verdict, why = _verdict(a, b, contrast, (difference, half), n_days, level)
    tie, tie_low, tie_high = _tie(fit, level)
    return Comparison(
        a=a.package,
        b=b.package,
        wind_m_per_s=wind_m_per_s,
        du_a=float(fit.coefficients[0] + fit.coefficients[1] * wind_m_per_s),
        du_b=float(fit.coefficients[2] + fit.coefficients[3] * wind_m_per_s),
        difference=difference,
        low=difference - half,
        high=difference + half,
        degrees=degrees,
        tie_wind_m_per_s=tie,
        tie_low_m_per_s=tie_low,
        tie_high_m_per_s=tie_high,
        verdict=verdict,
        why=why,
        days_needed=_days_needed(verdict, difference, half, n_days),
        n_days=n_days,
        is_extrapolated=any(_is_outside(one, wind_m_per_s) for one in (a, b)),
        is_confounded=not np.intersect1d(a.day, b.day).size,
    )


def _refuse_no_line(runs: PackageRuns) -> None:
    if runs.du_lq.size < 2 or np.ptp(runs.wind_m_per_s) < 1e-9:
        raise SchedulerError(
            f"package {runs.package}: {runs.du_lq.size} runs give no line of DU "
            "against wind",
            "test it in at least two different winds",
        )


def _is_outside(runs: PackageRuns, wind_m_per_s: float) -> bool:
    low, high = runs.wind_m_per_s.min(), runs.wind_m_per_s.max()
    return not low <= wind_m_per_s <= high


def _sign(difference: float, half: float) -> Verdict:
    if difference - half > 0:
        return "better"
    return "worse" if difference + half < 0 else "not proven"


def _verdict(
    a: PackageRuns,
    b: PackageRuns,
    contrast: FloatArray,
    found: tuple[float, float],
    n_days: int,
    level: float,
) -> tuple[Verdict, str]:
    if n_days < LEAST_DAYS:
        return "not proven", f"tested on {n_days} days; {LEAST_DAYS} are the least"
    verdict = _sign(*found)
    if verdict == "not proven":
        return verdict, "the range of the difference holds zero"
    for one, other, is_a in ((a, b, True), (b, a, False)):
        for i in range(one.du_lq.size):
            less = _without(one, i)
            if less is None:
                continue
            pair = (less, other) if is_a else (other, less)
            if _verdict_of(pair, contrast, level) != verdict:
                return "not proven", f"it rests on one run of package {one.package}"
    return verdict, "the range of the difference leaves out zero"


def _without(runs: PackageRuns, i: int) -> PackageRuns | None:
    wind = np.delete(runs.wind_m_per_s, i)
    if wind.size < 2 or np.ptp(wind) < 1e-9:
        return None
    return PackageRuns(
        runs.package, wind, np.delete(runs.du_lq, i), np.delete(runs.day, i)
    )


def _verdict_of(
    pair: tuple[PackageRuns, PackageRuns], contrast: FloatArray, level: float
) -> Verdict:
    fit = _fit(*pair)
    half = student_factor(fit.degrees(contrast), level)
    half *= math.sqrt(fit.variance(contrast))
    return _sign(float(fit.coefficients @ contrast), half)


def _tie(fit: _Fit, level: float) -> tuple[float | None, float, float]:
    """Wind at which both are equal, with Fieller's range; may be unbounded."""
    offset, slope = np.array([1.0, 0, -1, 0]), np.array([0.0, 1, 0, -1])
    d0, d1 = float(fit.coefficients @ offset), float(fit.coefficients @ slope)
    t = student_factor(min(fit.degrees(offset), fit.degrees(slope)), level)
    p0, p1 = fit.pulls @ offset, fit.pulls @ slope
    lead = d1 * d1 - t * t * float(p1 @ p1)
    middle = d0 * d1 - t * t * float(p0 @ p1)
    last = d0 * d0 - t * t * float(p0 @ p0)
    tie = -d0 / d1 if d1 else None
    inside = middle * middle - lead * last
    if lead <= 0 or inside < 0:  # the slopes may be equal: no bound on the tie
        return tie, -math.inf, math.inf
    root = math.sqrt(inside)
    return tie, (-middle - root) / lead, (-middle + root) / lead


def _days_needed(
    verdict: Verdict, difference: float, half: float, n_days: int
) -> int | None:
    """More days of such runs that would settle it; None when settled or hopeless."""
    if verdict != "not proven" or abs(difference) < NO_DIFFERENCE:
        return None
    if n_days < LEAST_DAYS:
        return LEAST_DAYS - n_days
    wanted = math.ceil(n_days * (half / abs(difference)) ** 2)
    return max(1, wanted - n_days) if wanted - n_days <= MOST_DAYS else None
