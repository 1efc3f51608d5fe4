"""Runs of one package in wind in; its line of DU against wind with a band out."""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import SchedulerError
from scheduler.field.student import student_factor
from scheduler.field.trial import LEAST_DAYS, LEVEL, PackageRuns

POINTS = 49


@dataclass(frozen=True, slots=True, eq=False)
class WindLine:
    """A straight line of DU against wind, for drawing.

    Attributes
    ----------
    wind_m_per_s, du_lq : array of shape (n_points,)
        The line. [m/s], [-]
    low, high : array of shape (n_points,) or None
        Range of the line at each wind by itself, kept within 0 and 1; None with too
        few days to tell.
    tested_low_m_per_s, tested_high_m_per_s : float
        Winds that were tested; the line is drawn on beyond them. [m/s]
    intercept, slope_per_m_per_s : float
        DU without wind, and what one m/s adds to it.
    level : float
        Two-sided level of the range.
    """

    package: str
    wind_m_per_s: FloatArray
    du_lq: FloatArray
    low: FloatArray | None
    high: FloatArray | None
    tested_low_m_per_s: float
    tested_high_m_per_s: float
    intercept: float
    slope_per_m_per_s: float
    level: float

    def at(self, wind_m_per_s: float) -> float:
        """DU on the line."""
        return self.intercept + self.slope_per_m_per_s * wind_m_per_s

    def is_outside(self, wind_m_per_s: float) -> bool:
        """Whether nobody tested in that wind."""
        return not self.tested_low_m_per_s <= wind_m_per_s <= self.tested_high_m_per_s


def wind_line(
    runs: PackageRuns, *, with_m_per_s: float | None = None, level: float = LEVEL
) -> WindLine:
    """Line of DU against wind of one package, with the range of the line.

    Parameters
    ----------
    runs : PackageRuns
        Runs in at least two different winds.
    with_m_per_s : float, optional
        A wind that the line is drawn out to, such as that of the irrigation hours.
        [m/s]
    level : float
        Two-sided level of the range at each wind.

    Returns
    -------
    WindLine
        The least-squares line, as `trial.comparison` draws it for this package.

    Raises
    ------
    SchedulerError
        If there are fewer than two runs, or all in one wind.

    Notes
    -----
    The day is what repeats: the variance is the cluster-robust one over days with the
    bias-reducing adjustment, Student's factor has Satterthwaite's degrees of freedom
    at each wind. With fewer than three days there is no range. It says how well the
    line is known, not where the next run will lie.

    References
    ----------
    .. [1] Bell and McCaffrey, 2002, Bias reduction in standard errors for linear
       regression with multi-stage samples, Survey Methodology 28.

    Examples
    --------
    >>> wind, day = np.array([1.0, 2.0, 3.0] * 3), np.repeat(np.arange(3), 3)
    >>> line = wind_line(PackageRuns("a", wind, 0.85 - 0.03 * wind, day))
    >>> round(line.at(2.0), 3), round(line.slope_per_m_per_s, 3)
    (0.79, -0.03)
    """
    wind = runs.wind_m_per_s
    if wind.size < 2 or np.ptp(wind) < 1e-9:
        raise SchedulerError(
            f"package {runs.package}: {wind.size} runs give no line of DU against wind",
            "test it in at least two different winds",
        )
    design = np.column_stack([np.ones(wind.size), wind])
    bread = np.linalg.inv(design.T @ design)
    intercept, slope = bread @ design.T @ runs.du_lq
    ends = [float(wind.min()), float(wind.max())]
    if with_m_per_s is not None:
        ends.append(with_m_per_s)
    at = np.linspace(min(ends), max(ends), POINTS)
    line = intercept + slope * at
    low = high = None
    if np.unique(runs.day).size >= LEAST_DAYS:
        half = _half_width(runs, design, bread, at, level)
        low = frozen(np.clip(line - half, 0.0, 1.0))
        high = frozen(np.clip(line + half, 0.0, 1.0))
    return WindLine(
        package=runs.package,
        wind_m_per_s=frozen(at),
        du_lq=frozen(line),
        low=low,
        high=high,
        tested_low_m_per_s=ends[0],
        tested_high_m_per_s=ends[1],
        intercept=float(intercept),
        slope_per_m_per_s=float(slope),
        level=level,
    )


def _half_width(
    runs: PackageRuns,
    design: FloatArray,
    bread: FloatArray,
    at: FloatArray,
    level: float,
) -> FloatArray:
    """Half of the range of the line at each wind."""
    maker = np.eye(runs.du_lq.size) - design @ bread @ design.T
    left = maker @ runs.du_lq
    pulls, makers = [], []
    for number in np.unique(runs.day):
        own = runs.day == number
        values, vectors = np.linalg.eigh(maker[np.ix_(own, own)])
        # directions that the day fits by itself say nothing of it
        root = np.where(values > 1e-10, 1 / np.sqrt(np.maximum(values, 1e-10)), 0.0)
        lever = (vectors * root) @ vectors.T @ design[own] @ bread
        pulls.append(left[own] @ lever)
        makers.append(maker[:, own] @ lever)
    contrast = np.column_stack([np.ones(at.size), at])
    variance = ((np.array(pulls) @ contrast.T) ** 2).sum(axis=0)
    half = [
        student_factor(_degrees(np.array(makers) @ one), level) * math.sqrt(spread)
        for one, spread in zip(contrast, variance, strict=True)
    ]
    return np.array(half)


def _degrees(parts: FloatArray) -> float:
    """Satterthwaite degrees of freedom, at least 1."""
    inner = parts @ parts.T
    square = float((inner**2).sum())
    return max(float(np.trace(inner)) ** 2 / square if square > 0 else 1.0, 1.0)
