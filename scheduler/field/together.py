"""Runs of one test in, what several waterings together give out.

Several waterings are more even than one: where the night makes a place dry, the next
night may make it wet. One run cannot show that, so what it says of a season's water is
an upper bound.
"""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.nights import NightRanges, night_ranges
from scheduler.field.ranges import RESAMPLES, Range, cell_ranges
from scheduler.field.uniformity import MIN_CANS, Uniformity, uniformity
from scheduler.record import CanRun


@dataclass(frozen=True, slots=True)
class Together:
    """Catches summed by position over runs, beside those of one run.

    `measured` is of the sum, at the positions that every run caught; `one_run_du_lq`
    is the mean over the runs of each run's own DU at those positions. `du_lq` is the
    range of the sum had these runs been caught everywhere; `nights` holds the ranges
    on other nights. Both are None where nobody asked for ranges. Runs of one day say
    less of nights than as many days would: `n_days` counts the days.
    """

    measured: Uniformity
    n_runs: int
    one_run_du_lq: float
    du_lq: Range | None
    nights: NightRanges | None
    n_days: int = 1

    @property
    def is_upper_bound(self) -> bool:
        """Whether the water that unevenness costs in a season is an upper bound."""
        return self.n_runs == 1


def together(
    depth_mm: FloatArray, *, resamples: int | None = RESAMPLES, n_days: int = 1
) -> Together | None:
    """Several waterings together, by position.

    Parameters
    ----------
    depth_mm : array of shape (n_runs, n_positions)
        Depth a minute of each run where each can stood, NaN where none was read, so
        that a long run counts no more than a short one. [mm]
    resamples : int or None
        How many resamples; None leaves the ranges out.
    n_days : int
        On how many days the runs were.

    Returns
    -------
    Together or None
        None where the runs share fewer than 4 positions, or one of them is dry there.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> mirrored = np.array([[1.0, 2.0, 3.0, 4.0], [4.0, 3.0, 2.0, 1.0]])
    >>> found = together(mirrored, resamples=None)
    >>> found.one_run_du_lq, found.measured.du_lq
    (0.4, 1.0)
    """
    depth = np.asarray(depth_mm, dtype=np.float64)
    whole = depth[:, np.isfinite(depth).all(axis=0)]
    if whole.shape[1] < MIN_CANS or (whole.mean(axis=1) <= 0).any():
        return None
    measured = uniformity(whole.sum(axis=0))
    each = [uniformity(one).du_lq for one in whole]
    of_cell = nights = None
    if resamples is not None:
        of_cell = cell_ranges(whole.sum(axis=0), resamples=resamples).du_lq
        nights = night_ranges(whole, resamples=resamples)
    one_run = float(np.mean(each))
    return Together(measured, len(whole), one_run, of_cell, nights, n_days)


def runs_together(
    caught: Sequence[tuple[CanRun, FloatArray]],
    *,
    date: dt.date,
    resamples: int | None = RESAMPLES,
) -> Together | None:
    """Runs of one test together, each with its map of depths.

    Parameters
    ----------
    caught : sequence of (CanRun, array of shape (n_rows, n_columns))
        Runs with the depth where each can stood, NaN where none was read. [mm]
    date : date
        Day of a run that does not say when it started.
    resamples : int or None
        How many resamples; None leaves the ranges out.

    Returns
    -------
    Together or None
        None without a run, on different grids, or as `together`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> runs_together([], date=dt.date(2026, 5, 12)) is None
    True
    """
    if len({depth.shape for _, depth in caught}) != 1:
        return None
    # by the minute, so that a long run counts no more than a short one
    by_run = [depth / (run.minutes or 1.0) for run, depth in caught]
    days = {run.start.date() if run.start else date for run, _ in caught}
    flat = np.reshape(by_run, (len(by_run), -1))
    return together(flat, resamples=resamples, n_days=len(days))
