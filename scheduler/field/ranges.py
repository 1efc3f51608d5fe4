"""Caught depths in, ranges of the measures out: this cell in this run.

Resampling cans asks what the same cell would have shown had it been caught everywhere.
It does not ask what another night would show; `nights` does.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray
from scheduler.errors import TooFewCansError
from scheduler.field.uniformity import MIN_CANS
from scheduler.tables import read_table

RESAMPLES = 10_000
SEED = 20240
STATED = 0.90
MEASURES = ("du_lq", "cu", "mean")
# Nearer to perfectly even than this, a resample says nothing about spread: it drew one
# can over and over.
EVEN = 1e-5


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


@dataclass(frozen=True, slots=True)
class Factors:
    """What the spread of the resamples is multiplied with, and what that achieves."""

    low: float
    high: float
    level: float
    lowest: float


def resampled_measures(
    sample: npt.NDArray[np.floating[Any]],
) -> npt.NDArray[np.floating[Any]]:
    """DU low quarter, CU and mean of many rows of cans.

    Parameters
    ----------
    sample : array of shape (..., n_cans)
        Depths; half width is kept. [mm]

    Returns
    -------
    array of shape (3, ...)
        The three measures; a row without water has DU 0 and CU 1.

    References
    ----------
    Source: definition, as in `uniformity`.

    Examples
    --------
    >>> resampled_measures(np.array([[5.0, 10.0, 10.0, 15.0]])).ravel().tolist()
    [0.5, 0.75, 10.0]
    """
    n_cans = sample.shape[-1]
    ordered = np.sort(sample, axis=-1)
    mean = ordered.mean(axis=-1)
    weight = np.clip(n_cans / 4 - np.arange(n_cans), 0.0, 1.0).astype(sample.dtype)
    low = ordered @ weight / (n_cans / 4)
    deviation = np.abs(ordered - mean[..., None]).mean(axis=-1)
    safe = np.where(mean > 0, mean, 1.0)
    return np.stack([low / safe, 1.0 - deviation / safe, mean])


def uneven(measure: FloatArray) -> FloatArray:
    """Logarithm of what a uniformity lacks to 1: the scale ranges are made on.

    Parameters
    ----------
    measure : array of any shape
        DU or CU, below 1.

    Returns
    -------
    array of the same shape
        Its spread hardly depends on how even the catch is.

    References
    ----------
    Source: definition; for bell-shaped catches 1 - DU is in proportion to the CV.

    Examples
    --------
    >>> float(uneven(np.array(0.0)))
    0.0
    """
    return np.asarray(np.log(np.maximum(1.0 - np.asarray(measure), EVEN)))


def _as_depth(measure: FloatArray) -> FloatArray:
    """A mean, turned so that low is high, as `uneven` turns a uniformity."""
    return -np.asarray(measure)


SCALES: tuple[Callable[[FloatArray], FloatArray], ...] = (uneven, uneven, _as_depth)


def centre_and_spread(
    point: float, resampled: FloatArray, measure: str = "du_lq"
) -> tuple[float, float]:
    """Where a range stands and its yardstick, on the scale that ranges are made on.

    Parameters
    ----------
    point : float
        The measure of the cans as caught.
    resampled : array of shape (resamples,)
        The same of each resample.
    measure : {'du_lq', 'cu', 'mean'}
        Which it is.

    Returns
    -------
    centre : float
        The point less the bias that resampling shows.
    spread : float
        Standard deviation of the resamples; 0 where nothing varies.

    References
    ----------
    .. [1] Efron and Tibshirani, 1993, An Introduction to the Bootstrap, equations 6.6
       and 10.5 (from memory).

    Examples
    --------
    >>> centre_and_spread(10.0, np.array([9.0, 10.0, 11.0]), "mean")[0]
    -10.0
    """
    scale = SCALES[MEASURES.index(measure)]
    drawn = np.asarray(resampled, dtype=np.float64)
    if measure != "mean":
        drawn = drawn[drawn < 1.0 - EVEN]
        if point >= 1.0 - EVEN:
            drawn = drawn[:0]
    at = float(scale(np.asarray(point)))
    if drawn.size < 2:
        return at, 0.0
    turned = scale(drawn)
    spread = float(turned.std(ddof=1))
    if spread < 1e-6 * max(1.0, abs(at)):
        return at, 0.0
    return 2 * at - float(turned.mean()), spread


def cans_resampled(
    depth_mm: FloatArray, *, resamples: int = RESAMPLES, seed: int = SEED
) -> FloatArray:
    """The three measures of many resamples of the cans.

    Parameters
    ----------
    depth_mm : array of shape (n_cans,)
        Caught depth in each can. [mm]
    resamples : int
        How many.
    seed : int
        Start of the random numbers.

    Returns
    -------
    array of shape (3, resamples)
        One matrix of draws serves all three.

    References
    ----------
    .. [1] Efron, 1979, Bootstrap methods, Annals of Statistics 7.

    Examples
    --------
    >>> cans_resampled(np.full(8, 10.0), resamples=2)[0].tolist()
    [1.0, 1.0]
    """
    rng = np.random.default_rng(seed)
    # half the width is enough for a drawn statistic and twice as fast
    cans = np.asarray(depth_mm).astype(np.float32)
    drawn = cans[rng.integers(0, cans.size, (resamples, cans.size))]
    return resampled_measures(drawn).astype(np.float64)


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
    On the scale log(1 - DU) the range is the point, less the bias that resampling
    shows, and so many spreads of the resamples to either side. How many is a table by
    the number of cans, as Student's t is one: made by simulation so that 90 % of the
    ranges hold the truth. Level and remaining error: `range_factors`. Cans are taken
    as independent; `range_caveat` says what neighbours do that are alike.

    References
    ----------
    .. [1] Efron and Tibshirani, 1993, An Introduction to the Bootstrap, chapters 10
       and 12 (from memory).
    .. [2] Loh, 1987, Calibrating confidence coefficients, J. Am. Stat. Assoc. 82 (from
       memory), for choosing the factor by simulation.

    Examples
    --------
    >>> even = cell_ranges(np.full(24, 10.0), resamples=100)
    >>> even.du_lq.low, even.du_lq.high
    (1.0, 1.0)
    """
    depth = np.asarray(depth_mm, dtype=np.float64)
    if depth.size < MIN_CANS:
        raise TooFewCansError(depth.size, MIN_CANS)
    resampled = cans_resampled(depth, resamples=resamples, seed=seed)
    points = resampled_measures(depth[None, :])[:, 0]
    found = []
    for name, point, drawn in zip(MEASURES, points, resampled, strict=True):
        factors = range_factors(depth.size, name)
        centre, spread = centre_and_spread(float(point), drawn, name)
        if spread == 0.0:
            found.append(Range(float(point), float(point), factors.level))
            continue
        ends = (centre + factors.low * spread, centre - factors.high * spread)
        found.append(range_from(float(point), ends, factors.level, name))
    return CellRanges(found[0], found[1], found[2], resamples, seed)


def range_from(
    point: float, ends: tuple[float, float], level: float, measure: str = "du_lq"
) -> Range:
    """A range back from the scale it was made on, kept to what is possible.

    Parameters
    ----------
    point : float
        The measure of the cans as caught.
    ends : tuple of float
        Low and high end on the scale of `uneven` (for the mean: turned).
    level : float
        How often such a range holds the truth.
    measure : {'du_lq', 'cu', 'mean'}
        Which it is.

    Returns
    -------
    Range
        Holds the point; DU and the mean are not below 0, DU and CU not above 1.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> range_from(0.7, (0.5, -3.0), 0.9).low
    0.0
    """
    if measure == "mean":
        low, high = (-end for end in ends)
    else:
        low, high = (1.0 - float(np.exp(min(end, 50.0))) for end in ends)
    if measure != "cu":
        low = max(low, 0.0)
    return Range(min(low, point), max(high, point), level)


def range_factors(n_cans: int, measure: str = "du_lq") -> Factors:
    """Factors of a range of one run, and how often it then holds the truth.

    Parameters
    ----------
    n_cans : int
        How many cans.
    measure : {'du_lq', 'cu', 'mean'}
        Which range.

    Returns
    -------
    Factors
        For the low and the high end; `level` is what is said beside the range: 0.90
        where each simulated kind of catch is within two points of it, else the lowest
        of them; `lowest` is always the lowest.

    References
    ----------
    Source: `python -m tests.bench coverage`.

    Examples
    --------
    >>> range_factors(24).level
    0.9
    """
    rows = [row for row in read_table("range_level.csv") if row["measure"] == measure]
    # in steps of 1/n a factor runs almost straight
    at = [-1.0 / float(row["n_cans"]) for row in rows]
    low, high, level, lowest = (
        float(np.interp(-1.0 / n_cans, at, [float(row[key]) for row in rows]))
        for key in ("factor_low", "factor_high", "level", "lowest")
    )
    return Factors(low, high, level, lowest)


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
        Level said beside the range, for independent cans.

    References
    ----------
    Source: `python -m tests.bench coverage`.

    Examples
    --------
    >>> range_level(36)
    0.9
    """
    return range_factors(n_cans, measure).level
