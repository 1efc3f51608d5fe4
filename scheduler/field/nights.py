"""Runs on one grid in, ranges out of this zone on another night.

Positions and runs are crossed: each can keeps its place in every run. So positions are
drawn jointly for all runs, and the nights, which are few, get Student's t. Drawing cans
anew inside each run would take a dry corner for chance and give far too narrow a range.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray
from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.ranges import (
    RESAMPLES,
    SEED,
    STATED,
    Range,
    centre_and_spread,
    range_factors,
    range_from,
    resampled_measures,
)
from scheduler.field.student import student_factor
from scheduler.field.uniformity import MIN_CANS
from scheduler.tables import read_table

Depths = npt.NDArray[np.floating[Any]]  # resamples keep half the width
COARSE = 2_000  # enough to show; one chunk


@dataclass(frozen=True, slots=True)
class NightRanges:
    """What another night would show, from some runs on one grid.

    `du_lq` is the mean over the runs of each run's DU: what one watering on another
    night is expected to have. `pooled_du_lq` is that of the catches summed by position:
    what as many waterings on other nights are expected to have, taken together. The
    ranges are None for one run: another night is then not known.
    """

    n_runs: int
    n_positions: int
    du_lq: float
    pooled_du_lq: float
    one_night: Range | None
    as_many_nights: Range | None
    resamples: int


@dataclass(frozen=True, slots=True, eq=False)
class _Drawn:
    """One measure of many joint resamples, and the noise in how its runs differ."""

    measure: FloatArray
    run_noise: FloatArray


def _low(depth: Depths) -> FloatArray:
    """DU of rows of cans, shape (..., n_cans)."""
    return np.asarray(resampled_measures(depth)[0], dtype=np.float64)


def _influence(by_position: Depths) -> FloatArray:
    """How much each run pulls the pooled DU, times the number of runs.

    Takes (..., n_runs, n_positions). The derivative of the pooled DU by the weight of
    a run: its catch where the sum is driest, less its share of the sum.
    """
    n_runs, n_cans = by_position.shape[-2:]
    pooled = by_position.sum(axis=-2)
    order = np.argsort(pooled, axis=-1)[..., None, :]
    weight = np.clip(n_cans / 4 - np.arange(n_cans), 0.0, 1.0) / (n_cans / 4)
    ordered = np.take_along_axis(by_position, order, axis=-1)
    dry = ordered @ weight.astype(by_position.dtype)
    mean = pooled.mean(axis=-1)[..., None]
    pull = dry - _low(pooled)[..., None] * by_position.mean(axis=-1)
    return np.asarray(n_runs * pull / np.where(mean > 0, mean, 1.0), dtype=np.float64)


def _chunks(
    depth: FloatArray, resamples: int, seed: int
) -> Iterator[tuple[_Drawn, _Drawn]]:
    """Joint resamples of positions: of one night, and of all runs summed."""
    rng = np.random.default_rng(seed)
    half = depth.astype(np.float32)
    runs, pulls = _low(depth), _influence(depth)
    for start in range(0, resamples, COARSE):
        size = min(COARSE, resamples - start)
        places = rng.integers(0, depth.shape[1], (size, depth.shape[1]))
        drawn = np.moveaxis(half[:, places], 0, 1)
        one = _low(drawn)
        pull = _influence(drawn)
        yield (
            _Drawn(one.mean(axis=1), (one - runs).var(axis=1, ddof=1)),
            _Drawn(_low(drawn.sum(axis=1)), (pull - pulls).var(axis=1, ddof=1)),
        )


def _range(
    point: float, by_run: FloatArray, parts: list[_Drawn], n_cans: int, measure: str
) -> Range:
    """Spread of the positions and of the nights, put together.

    The runs differ by the night and by the noise of their cans; that noise is in the
    positions already and is taken off.
    """
    drawn = np.concatenate([one.measure for one in parts])
    noise = float(np.concatenate([one.run_noise for one in parts]).mean())
    nights = max(float(by_run.var(ddof=1)) - noise, 0.0) / by_run.size
    centre, spread = centre_and_spread(point, drawn)
    level = another_night_level(by_run.size, measure)
    if spread == 0.0 and nights == 0.0:
        return Range(point, point, level)
    night = student_factor(by_run.size - 1, STATED) * math.sqrt(nights)
    night /= max(1.0 - point, 1e-5)
    factors = range_factors(n_cans)
    low = math.hypot(factors.low * spread, night)
    high = math.hypot(factors.high * spread, night)
    return range_from(point, (centre + low, centre - high), level)


def _checked(depth_mm: FloatArray) -> FloatArray:
    """Runs by the positions that all of them caught, over the mean of all."""
    depth = np.asarray(depth_mm, dtype=np.float64)
    whole = depth[:, np.isfinite(depth).all(axis=0)]
    if whole.shape[1] < MIN_CANS:
        raise TooFewCansError(whole.shape[1], MIN_CANS)
    if (whole < 0).any() or (whole.mean(axis=1) <= 0).any():
        raise ReadingsError(
            "a run caught no water, or less than none", "leave the run out"
        )
    return np.asarray(whole / whole.mean())


def night_ranges_step_by_step(
    depth_mm: FloatArray, *, resamples: int = RESAMPLES, seed: int = SEED
) -> Iterator[NightRanges]:
    """Ranges of another night, a coarse answer first and better ones after it.

    Parameters
    ----------
    depth_mm : array of shape (n_runs, n_positions)
        Depth a minute of each run where each can stood, NaN where none was read;
        positions that a run lacks are left out of all. [mm]
    resamples : int
        How many in the last answer; each chunk of 2,000 gives one.
    seed : int
        Start of the random numbers; the same seed gives the same ranges.

    Yields
    ------
    NightRanges
        After each chunk, from all chunks so far.

    Raises
    ------
    TooFewCansError
        If the runs share fewer than 4 positions.
    ReadingsError
        If a run caught nothing, or a depth is negative.

    References
    ----------
    As `night_ranges`.

    Examples
    --------
    >>> two = np.array([[4.0, 5.0, 6.0, 5.0], [5.0, 5.0, 6.0, 4.0]])
    >>> [one.resamples for one in night_ranges_step_by_step(two, resamples=5000)]
    [2000, 4000, 5000]
    """
    depth = _checked(depth_mm)
    n_runs, n_cans = depth.shape
    runs, summed = _low(depth), float(_low(depth.sum(axis=0)))
    mean = float(runs.mean())
    if n_runs < 2:
        yield NightRanges(n_runs, n_cans, mean, summed, None, None, 0)
        return
    # the pooled DU moves with a run by its pull
    pulls = _influence(depth)
    one: list[_Drawn] = []
    many: list[_Drawn] = []
    for single, pooled in _chunks(depth, resamples, seed):
        one.append(single)
        many.append(pooled)
        yield NightRanges(
            n_runs,
            n_cans,
            mean,
            summed,
            _range(mean, runs, one, n_cans, "one night"),
            _range(summed, pulls, many, n_cans, "as many nights"),
            sum(part.measure.size for part in one),
        )


def night_ranges(
    depth_mm: FloatArray, *, resamples: int = RESAMPLES, seed: int = SEED
) -> NightRanges:
    """Ranges of DU low quarter on another night, from runs on one grid.

    Parameters
    ----------
    depth_mm : array of shape (n_runs, n_positions)
        Depth a minute of each run where each can stood, NaN where none was read. [mm]
    resamples : int
        How many joint resamples of the positions.
    seed : int
        Start of the random numbers; the same seed gives the same ranges.

    Returns
    -------
    NightRanges
        The mean DU of one night and the DU of as many nights summed, each with the
        level that simulation measures. No ranges for one run.

    Raises
    ------
    TooFewCansError, ReadingsError
        As `night_ranges_step_by_step`.

    Notes
    -----
    depth[r, p] = rate of the night x (1 + position + position x night + can). What is
    aimed at is the mean, over nights like the ones tested, of the DU of that night;
    and of the DU of as many such nights summed. It is no range for one single night,
    which varies more. Nights unlike those tested, in another wind, are outside it.
    Half-widths of positions and nights are added as squares (Graybill and Wang).

    References
    ----------
    .. [1] Owen, 2007, The pigeonhole bootstrap, Annals of Applied Statistics 1 (from
       memory): crossed factors are each resampled as a whole.
    .. [2] Graybill and Wang, 1980, Confidence intervals on nonnegative linear
       combinations of variances, J. Am. Stat. Assoc. 75 (from memory).

    Examples
    --------
    >>> even = night_ranges(np.full((3, 12), 5.0), resamples=100)
    >>> even.one_night.low, even.one_night.high
    (1.0, 1.0)
    """
    *_, last = night_ranges_step_by_step(depth_mm, resamples=resamples, seed=seed)
    return last


def another_night_level(n_runs: int, measure: str = "one night") -> float:
    """How often a range of another night holds the truth, by simulation.

    Parameters
    ----------
    n_runs : int
        How many runs, at least 2; more than the table has count as its last.
    measure : {'one night', 'as many nights'}
        Which range.

    Returns
    -------
    float
        Lowest share over the simulated kinds of nights.

    References
    ----------
    Source: `python -m tests.bench coverage`.

    Examples
    --------
    >>> 0.5 < another_night_level(2) < 1.0
    True
    """
    rows = [row for row in read_table("night_level.csv") if row["measure"] == measure]
    counts = [float(row["n_runs"]) for row in rows]
    levels = [float(row["level"]) for row in rows]
    return float(np.interp(n_runs, counts, levels))
