"""Runs of one package in wind in; its line of DU against wind with a band out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.field.trial import PackageRuns, expected_du
from scheduler.field.trial.clustered import clustered_fit, group_sums
from scheduler.field.trial.runs import line_design, refuse_no_line

LEVEL = 0.95
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
    The range at each wind is that of `trial.expected_du`: the day is what repeats. With
    fewer than three days there is none. It says how well the line is known, not where
    the next run will lie.

    References
    ----------
    Source: definition; `trial.clustered_fit` names its own.

    Examples
    --------
    >>> wind, day = np.array([1.0, 2.0, 3.0] * 3), np.repeat(np.arange(3), 3)
    >>> line = wind_line(PackageRuns("a", wind, 0.85 - 0.03 * wind, day))
    >>> round(line.at(2.0), 3), round(line.slope_per_m_per_s, 3)
    (0.79, -0.03)
    """
    refuse_no_line(runs)
    fit = clustered_fit(*group_sums(line_design(runs), runs.du_lq, runs.day))
    intercept, slope = (float(fit.value(np.array(one))) for one in ((1.0, 0), (0, 1.0)))
    tested = float(runs.wind_m_per_s.min()), float(runs.wind_m_per_s.max())
    ends = [*tested, tested[0] if with_m_per_s is None else with_m_per_s]
    at = np.linspace(min(ends), max(ends), POINTS)
    found = [expected_du(runs, wind_m_per_s=float(one), level=level) for one in at]
    low = np.array([one.low for one in found if one.low is not None])
    high = np.array([one.high for one in found if one.high is not None])
    return WindLine(
        package=runs.package,
        wind_m_per_s=frozen(at),
        du_lq=frozen(intercept + slope * at),
        low=frozen(low) if low.size else None,
        high=frozen(high) if high.size else None,
        tested_low_m_per_s=tested[0],
        tested_high_m_per_s=tested[1],
        intercept=intercept,
        slope_per_m_per_s=slope,
        level=level,
    )
