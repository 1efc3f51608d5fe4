"""Runs of one package and a wind in; the DU to expect there, with a range, out."""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.field.student import student_factor
from scheduler.field.trial.clustered import clustered_fit, group_sums
from scheduler.field.trial.runs import PackageRuns, line_design, refuse_no_line
from scheduler.field.trial.settling import LEAST_DAYS


@dataclass(frozen=True, slots=True)
class ExpectedDu:
    """DU of a package in one wind, on the mean of many nights.

    Attributes
    ----------
    wind_m_per_s : float
        The wind. [m/s]
    du_lq : float
        DU of the line there, kept within 0 to 1. [-]
    low, high : float or None
        Range of that line; None where it was tested on fewer than three days. [-]
    is_extrapolated : bool
        The wind is outside those that were tested.
    is_cut : bool
        The line left 0 to 1 in that wind, so it cannot be trusted there.
    """

    wind_m_per_s: float
    du_lq: float
    low: float | None
    high: float | None
    is_extrapolated: bool
    is_cut: bool


def expected_du(
    runs: PackageRuns, *, wind_m_per_s: float, level: float = 0.95
) -> ExpectedDu:
    """DU to be expected of a package in a wind.

    Parameters
    ----------
    runs : PackageRuns
        Runs in at least two different winds.
    wind_m_per_s : float
        Wind, such as the usual one of the irrigation hours. [m/s]
    level : float
        Two-sided level of the range.

    Returns
    -------
    ExpectedDu
        The line at that wind, with the t on days.

    Raises
    ------
    SchedulerError
        If there are fewer than two runs, or all in one wind.

    Notes
    -----
    A straight line has at the mean wind the mean of its values, so the mean wind of
    the hours is enough. The range is of the line, not of a single night. It needs
    three days: on two days of unlike winds it held the truth in 86 % of simulated
    trials, at a nominal 95 %.

    References
    ----------
    Source: definition; `clustered_fit` names its own.

    Examples
    --------
    >>> wind, day = np.array([1.0, 3.0, 1.0, 3.0]), np.array([1, 1, 2, 2])
    >>> runs = PackageRuns("a", wind, 0.9 - 0.05 * wind, day)
    >>> found = expected_du(runs, wind_m_per_s=4.0)
    >>> round(found.du_lq, 3), found.is_extrapolated
    (0.7, True)
    """
    refuse_no_line(runs)
    fit = clustered_fit(*group_sums(line_design(runs), runs.du_lq, runs.day))
    contrast = np.array([1.0, wind_m_per_s])
    found = float(fit.value(contrast))
    ends: tuple[float | None, float | None] = (None, None)
    if runs.n_days >= LEAST_DAYS:
        half = student_factor(float(fit.degrees(contrast)), level)
        half *= math.sqrt(float(fit.variance(contrast)))
        ends = (_within(found - half), _within(found + half))
    return ExpectedDu(
        wind_m_per_s=wind_m_per_s,
        du_lq=_within(found),
        low=ends[0],
        high=ends[1],
        is_extrapolated=runs.is_outside(wind_m_per_s),
        is_cut=not 0 <= found <= 1,
    )


def _within(du: float) -> float:
    return min(max(du, 0.0), 1.0)
