"""Caught depths in, uniformity measures out.

Every measure takes depths of shape (..., n_cans) and works along the last axis.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import ReadingsError, TooFewCansError

MIN_CANS = 4


def _sorted(depth_mm: FloatArray) -> FloatArray:
    """Sorted depths, after the one check at the door."""
    depth = np.asarray(depth_mm, dtype=np.float64)
    if depth.shape[-1] < MIN_CANS:
        raise TooFewCansError(depth.shape[-1], MIN_CANS)
    if not np.isfinite(depth).all():
        raise ReadingsError("a depth is not a number", "leave the can out")
    if (depth < 0).any():
        raise ReadingsError("a depth is negative", "read the can again")
    if (depth.mean(axis=-1) <= 0).any():
        raise ReadingsError("no water caught", "see whether the valve was open")
    return np.sort(depth, axis=-1)


def _lowest_mean(depth_mm: FloatArray, part: float) -> FloatArray:
    """Mean of the driest part of the cans, the last can counting by its fraction."""
    ordered = _sorted(depth_mm)
    n_cans = ordered.shape[-1]
    wanted = part * n_cans
    weight = np.clip(wanted - np.arange(n_cans), 0.0, 1.0)
    return np.asarray((ordered * weight).sum(axis=-1) / wanted)


def low_quarter_uniformity(depth_mm: FloatArray) -> FloatArray:
    """Distribution uniformity of the driest quarter of the cans.

    Parameters
    ----------
    depth_mm : array of shape (..., n_cans)
        Caught depth in each can. [mm]

    Returns
    -------
    array of shape (...)
        Mean of the driest quarter over the mean of all cans, 0 to 1; best is 1.

    Raises
    ------
    TooFewCansError
        If there are fewer than 4 cans.
    ReadingsError
        If a depth is negative or not finite, or no water was caught.

    Notes
    -----
    When n is not a multiple of 4 the last can counts by its fraction; floor and
    round give other answers, so n and method are printed beside the result.

    References
    ----------
    .. [1] University of Florida, container-nursery irrigation page.
    .. [2] UC Davis (Oki), Measuring DU and calculating run time.

    Examples
    --------
    >>> float(low_quarter_uniformity(np.array([10.0, 10.0, 10.0, 10.0])))
    1.0
    """
    return np.asarray(_lowest_mean(depth_mm, 0.25) / np.mean(depth_mm, axis=-1))


def low_half_uniformity(depth_mm: FloatArray) -> FloatArray:
    """Distribution uniformity of the driest half of the cans.

    Parameters
    ----------
    depth_mm : array of shape (..., n_cans)
        Caught depth in each can. [mm]

    Returns
    -------
    array of shape (...)
        Mean of the driest half over the mean of all cans, 0 to 1; best is 1.

    Raises
    ------
    TooFewCansError, ReadingsError
        As `low_quarter_uniformity`.

    References
    ----------
    .. [1] von Bernuth and Mecham, Defining the run time multiplier (n.d.), p. 1.

    Examples
    --------
    >>> float(low_half_uniformity(np.array([5.0, 10.0, 10.0, 15.0])))
    0.75
    """
    return np.asarray(_lowest_mean(depth_mm, 0.5) / np.mean(depth_mm, axis=-1))


def christiansen_uniformity(depth_mm: FloatArray) -> FloatArray:
    """Christiansen's coefficient: 1 less the mean absolute deviation over the mean.

    Parameters
    ----------
    depth_mm : array of shape (..., n_cans)
        Caught depth in each can. [mm]

    Returns
    -------
    array of shape (...)
        At most 1, which is best; very uneven catches make it negative.

    Raises
    ------
    TooFewCansError, ReadingsError
        As `low_quarter_uniformity`.

    References
    ----------
    .. [1] Zoldoske, Solomon and Norum, CSU Fresno Irrigation Notes, November 1994.

    Examples
    --------
    >>> float(christiansen_uniformity(np.array([5.0, 10.0, 10.0, 15.0])))
    0.75
    """
    depth = _sorted(depth_mm)
    mean = depth.mean(axis=-1, keepdims=True)
    return np.asarray(1.0 - np.abs(depth - mean).mean(axis=-1) / mean[..., 0])


def coefficient_of_variation(depth_mm: FloatArray) -> FloatArray:
    """Standard deviation (n - 1) over the mean.

    Parameters
    ----------
    depth_mm : array of shape (..., n_cans)
        Caught depth in each can. [mm]

    Returns
    -------
    array of shape (...)
        At least 0, which is best.

    Raises
    ------
    TooFewCansError, ReadingsError
        As `low_quarter_uniformity`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(float(coefficient_of_variation(np.array([8.0, 10.0, 10.0, 12.0]))), 3)
    0.163
    """
    depth = _sorted(depth_mm)
    return np.asarray(depth.std(axis=-1, ddof=1) / depth.mean(axis=-1))


MEASURES: dict[str, Callable[[FloatArray], FloatArray]] = {
    "du_lq": low_quarter_uniformity,
    "du_lh": low_half_uniformity,
    "cu": christiansen_uniformity,
    "cv": coefficient_of_variation,
}


@dataclass(frozen=True, slots=True)
class Uniformity:
    """All measures of one set of cans."""

    n_cans: int
    du_lq: float
    du_lh: float
    cu: float
    cv: float


def uniformity(depth_mm: FloatArray) -> Uniformity:
    """All measures of one set of cans.

    Parameters
    ----------
    depth_mm : array of shape (n_cans,)
        Caught depth in each can. [mm]

    Returns
    -------
    Uniformity
        Count and measures.

    Raises
    ------
    TooFewCansError, ReadingsError
        As `low_quarter_uniformity`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> uniformity(np.array([10.0, 10.0, 10.0, 10.0])).cu
    1.0
    """
    found = {name: float(measure(depth_mm)) for name, measure in MEASURES.items()}
    return Uniformity(n_cans=int(np.size(depth_mm)), **found)


def low_quarter_rounded(depth_mm: FloatArray, how: Literal["floor", "ceil"]) -> float:
    """Low quarter by whole cans, for comparing with publications that round.

    Parameters
    ----------
    depth_mm : array of shape (n_cans,)
        Caught depth in each can. [mm]
    how : {'floor', 'ceil'}
        Which whole number of cans a quarter is.

    Returns
    -------
    float
        DU of that many of the driest cans.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> low_quarter_rounded(np.array([5.0, 10.0, 10.0, 10.0, 15.0]), "floor")
    0.5
    """
    ordered = _sorted(depth_mm)
    n_low = ordered.size // 4 if how == "floor" else -(-ordered.size // 4)
    return float(ordered[:n_low].mean() / ordered.mean())


def quarter_means(share: FloatArray) -> FloatArray:
    """Mean share of the driest, second, third and wettest quarter.

    Parameters
    ----------
    share : array of shape (n_positions,)
        Catch over the mean catch at each position.

    Returns
    -------
    array of shape (4,)
        Ascending means; positions on a border count by their fraction.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> quarter_means(np.array([0.5, 1.0, 1.0, 1.5])).tolist()
    [0.5, 1.0, 1.0, 1.5]
    """
    return quarters_in_order(_sorted(share))


def quarters_in_order(values: FloatArray) -> FloatArray:
    """Means of four quarters of values that stand in an order already.

    Parameters
    ----------
    values : array of shape (n_positions, ...)
        Anything known at every position, in the order of its catch.

    Returns
    -------
    array of shape (4, ...)
        Means; positions on a border count by their fraction.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> quarters_in_order(np.array([9.0, 4.0, 1.0, 0.0, 0.0, 0.0])).round(2).tolist()
    [7.33, 2.0, 0.0, 0.0]
    """
    none = np.zeros((1, *values.shape[1:]))
    total = np.concatenate([none, np.cumsum(values, axis=0)])
    edges = np.linspace(0.0, values.shape[0], 5)
    below = np.minimum(np.floor(edges).astype(np.int64), values.shape[0] - 1)
    part = (edges - below).reshape(-1, *([1] * (values.ndim - 1)))
    upto = total[below] * (1.0 - part) + total[below + 1] * part
    return np.asarray(np.diff(upto, axis=0) / edges[1])


def rating(du_lq: float) -> str:
    """What the trade says of a low quarter under sprinklers, in words.

    Parameters
    ----------
    du_lq : float
        DU low quarter, 0 to 1.

    Returns
    -------
    str
        The mark it reaches, and whose mark that is.

    References
    ----------
    .. [1] Haman and Yeager, Univ. Florida AE194 (below 0.60 low, 0.80 high).
    .. [2] Common practice, no source: 0.75 acceptable, 0.85 exceptional.

    Examples
    --------
    >>> rating(0.72)
    'fair: 0.75 is usually accepted of sprinklers'
    """
    if du_lq >= 0.85:
        return "exceptional for sprinklers"
    if du_lq >= 0.80:
        return "very good: high for overhead sprinklers in a nursery"
    if du_lq >= 0.75:
        return "acceptable for sprinklers"
    if du_lq >= 0.60:
        return "fair: 0.75 is usually accepted of sprinklers"
    return "low for overhead sprinklers in a nursery (below 0.60)"
