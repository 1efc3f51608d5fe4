"""Caught depths in, ranges of the measures out: this cell in this run.

Resampling cans asks what the same cell would have shown had it been caught everywhere.
It does not ask what another night would show.
"""

import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import Any

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray
from scheduler.errors import TooFewCansError
from scheduler.field.uniformity import MIN_CANS
from scheduler.tables import read_table

RESAMPLES = 10_000
SEED = 20240
NOMINAL = 0.95
# One dry can among wet ones accelerates so much that the correction points at a handful
# of resamples; further out than this percentile they are noise, so it is not followed.
FARTHEST_PCT = 0.5
RANGE_CAVEAT = (
    "this cell in this run; cans are taken as independent, and neighbouring cans are "
    "not, so the truth is somewhat wider"
)


@dataclass(frozen=True, slots=True)
class Range:
    """Low and high end, and how often such a range holds the truth."""

    low: float
    high: float
    level: float


@dataclass(frozen=True, slots=True)
class CellRanges:
    """Ranges of DU low quarter, CU and mean depth of one run."""

    du_lq: Range
    cu: Range
    mean: Range
    resamples: int
    seed: int


def _statistics(sample: npt.NDArray[np.floating[Any]]) -> npt.NDArray[np.floating[Any]]:
    """DU low quarter, CU and mean of rows of cans; shape (3, n_rows)."""
    n_cans = sample.shape[-1]
    ordered = np.sort(sample, axis=-1)
    mean = ordered.mean(axis=-1)
    weight = np.clip(n_cans / 4 - np.arange(n_cans), 0.0, 1.0).astype(sample.dtype)
    low = ordered @ weight / (n_cans / 4)
    deviation = np.abs(ordered - mean[..., None]).mean(axis=-1)
    safe = np.where(mean > 0, mean, 1.0)
    return np.stack([low / safe, 1.0 - deviation / safe, mean])


def _acceleration(depth_mm: FloatArray) -> FloatArray:
    """Jackknife acceleration of the three statistics; 0 where nothing varies."""
    n_cans = depth_mm.size
    kept = ~np.eye(n_cans, dtype=bool)
    left_out = np.broadcast_to(depth_mm, (n_cans, n_cans))[kept].reshape(n_cans, -1)
    pulled = _statistics(left_out)
    gap = pulled.mean(axis=1, keepdims=True) - pulled
    spread = (gap**2).sum(axis=1)
    return np.asarray(
        np.divide(
            (gap**3).sum(axis=1),
            6.0 * spread**1.5,
            out=np.zeros(3),
            where=spread > 1e-24,
        )
    )


def _percentiles(
    resampled: FloatArray, point: float, acceleration: float
) -> list[float]:
    """The two percentiles that bias correction and acceleration point at."""
    normal = NormalDist()
    below = (resampled < point).mean() + (resampled == point).mean() / 2
    if not 0.0 < below < 1.0:
        return [100 * (1 - NOMINAL) / 2, 100 * (1 + NOMINAL) / 2]
    bias = normal.inv_cdf(float(below))
    ends = []
    for tail in ((1 - NOMINAL) / 2, (1 + NOMINAL) / 2):
        shifted = bias + normal.inv_cdf(tail)
        pointed = 100 * normal.cdf(bias + shifted / (1 - acceleration * shifted))
        ends.append(min(max(pointed, FARTHEST_PCT), 100 - FARTHEST_PCT))
    return ends


def cell_ranges(
    depth_mm: FloatArray, *, resamples: int = RESAMPLES, seed: int = SEED
) -> CellRanges:
    """Ranges of DU low quarter, CU and mean depth by resampling the cans.

    Parameters
    ----------
    depth_mm : array of shape (n_cans,)
        Caught depth in each can. [mm]
    resamples : int
        How many resamples; one matrix serves all three statistics.
    seed : int
        Start of the random numbers; the same seed gives the same range.

    Returns
    -------
    CellRanges
        Three ranges, each with the level that simulation measures.

    Raises
    ------
    TooFewCansError
        If there are fewer than 4 cans.

    Notes
    -----
    Bias-corrected and accelerated bootstrap at a nominal 95 %. Its level is lower for
    so few cans; `range_level` says how high. Cans are taken as independent:
    neighbouring cans are alike, which makes the range too narrow.

    References
    ----------
    .. [1] Efron, 1987, Better bootstrap confidence intervals, J. Am. Stat. Assoc. 82,
       equations 2.3 and 6.6.

    Examples
    --------
    >>> even = cell_ranges(np.full(24, 10.0), resamples=100)
    >>> even.du_lq.low, even.du_lq.high
    (1.0, 1.0)
    """
    depth = np.asarray(depth_mm, dtype=np.float64)
    n_cans = depth.size
    if n_cans < MIN_CANS:
        raise TooFewCansError(n_cans, MIN_CANS)
    rng = np.random.default_rng(seed)
    # half the width is enough for a drawn statistic and twice as fast
    drawn = depth.astype(np.float32)[rng.integers(0, n_cans, (resamples, n_cans))]
    resampled = _statistics(drawn).astype(np.float64)
    point = _statistics(depth[None, :])[:, 0]
    acceleration = _acceleration(depth)
    found = []
    for i, name in enumerate(("du_lq", "cu", "mean")):
        if math.isclose(resampled[i].min(), resampled[i].max(), rel_tol=1e-6):
            low = high = float(point[i])
        else:
            ends = _percentiles(resampled[i], point[i], float(acceleration[i]))
            low, high = (float(end) for end in np.percentile(resampled[i], ends))
        found.append(Range(low, high, range_level(n_cans, name)))
    return CellRanges(found[0], found[1], found[2], resamples, seed)


def range_level(n_cans: int, measure: str = "du_lq") -> float:
    """How often a range of `cell_ranges` holds the truth, by simulation.

    Parameters
    ----------
    n_cans : int
        How many cans.
    measure : {'du_lq', 'cu', 'mean'}
        Which range.

    Returns
    -------
    float
        Share of simulated tests of independent cans whose range held the true value.

    References
    ----------
    Source: `python -m tests.bench coverage`.

    Examples
    --------
    >>> 0.8 < range_level(24) < 0.95
    True
    """
    rows = [row for row in read_table("range_level.csv") if row["measure"] == measure]
    counts = [float(row["n_cans"]) for row in rows]
    levels = [float(row["level"]) for row in rows]
    return float(np.interp(n_cans, counts, levels))
