"""Catches drawn from known truths, for checking how often a range holds the truth."""

from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.stats import gamma, norm

from scheduler.arrays import FloatArray

KINDS = ("normal", "skewed")
SUB = 5  # points on the ground a can stands for, along each side


@cache
def _quantiles(kind: str, cv: float) -> FloatArray:
    """The catch at 200,000 equal parts of the ground; mean close to 1."""
    middle = (np.arange(200_000) + 0.5) / 200_000
    if kind == "normal":
        return np.asarray(np.maximum(norm.ppf(middle, 1.0, cv), 0.0))
    # a gamma catch has skewness 2 CV: mildly to the wet side
    return np.asarray(gamma.ppf(middle, cv**-2, scale=cv**2))


def true_measures(kind: str, cv: float) -> tuple[float, float, float]:
    """DU low quarter, CU and mean of a catch, had it been caught everywhere."""
    ground = _quantiles(kind, cv)
    mean = float(ground.mean())
    low = float(ground[: ground.size // 4].mean())
    return low / mean, 1 - float(np.abs(ground - mean).mean()) / mean, mean


def caught(
    rng: np.random.Generator, kind: str, cv: float, shape: tuple[int, ...]
) -> FloatArray:
    """Independent cans of one kind of catch."""
    if kind == "normal":
        return np.maximum(rng.normal(1.0, cv, shape), 0.0)
    return np.asarray(rng.gamma(cv**-2, cv**2, shape))


@cache
def _root(rows: int, columns: int, neighbour: float) -> FloatArray:
    """Root of the exponential correlation between all points on the ground."""
    y, x = np.mgrid[: rows * SUB, : columns * SUB] / SUB
    place = np.stack([y.ravel(), x.ravel()], axis=1)
    apart = np.linalg.norm(place[:, None] - place[None], axis=-1)
    root = np.linalg.cholesky(neighbour**apart + 1e-9 * np.eye(len(place)))
    return np.asarray(root)


def alike_cell(
    rng: np.random.Generator, *, rows: int, columns: int, neighbour: float, cv: float
) -> tuple[FloatArray, FloatArray]:
    """Cans on a grid whose neighbours are alike, and the whole ground of the cell."""
    root = _root(rows, columns, neighbour)
    ground = np.maximum(1 + cv * (root @ rng.normal(size=len(root))), 0.0)
    grid = ground.reshape(rows * SUB, columns * SUB)
    return grid[SUB // 2 :: SUB, SUB // 2 :: SUB].ravel(), ground


@dataclass(frozen=True, slots=True)
class Nights:
    """How positions and nights make a catch: spreads as fractions of the mean."""

    position: float
    night: float  # position x night, on a usual night
    can: float
    between: float = 0.0  # how much nights differ in their unevenness (log scale)
    skewness: float = 0.0
    rate: float = 0.1  # how much nights differ in their rate (log scale)


# Nights alike; nights as they usually differ; windy ones among calm ones; skewed.
USUAL_NIGHTS = {
    "alike": Nights(0.15, 0.10, 0.07),
    "usual": Nights(0.15, 0.12, 0.07, between=0.4),
    "firm positions": Nights(0.20, 0.03, 0.05),
    "wind differs": Nights(0.10, 0.18, 0.05, between=0.5),
    "wind differs, skewed": Nights(0.10, 0.18, 0.05, between=0.5, skewness=0.7),
}


def _standard(
    rng: np.random.Generator, shape: tuple[int, ...], skewness: float
) -> FloatArray:
    if skewness == 0:
        return rng.normal(size=shape)
    shaped = 4 / skewness**2
    return np.asarray((rng.gamma(shaped, 1.0, shape) - shaped) / shaped**0.5)


def nights_caught(
    rng: np.random.Generator, nights: Nights, *, n_runs: int, n_positions: int
) -> FloatArray:
    """Catches of some runs on one grid, shape (n_runs, n_positions)."""
    shape = (n_runs, n_positions)
    position = nights.position * _standard(rng, (1, n_positions), nights.skewness)
    spread = nights.between * rng.normal(size=(n_runs, 1)) - nights.between**2 / 2
    night = nights.night * np.exp(spread) * _standard(rng, shape, nights.skewness)
    can = nights.can * rng.normal(size=shape)
    rate = np.exp(nights.rate * rng.normal(size=(n_runs, 1)))
    return np.asarray(rate * np.maximum(1 + position + night + can, 0.0))


def low_quarter(depth: FloatArray) -> FloatArray:
    """DU of rows of many positions, counted apart from the engine."""
    ordered = np.sort(depth, axis=-1)
    quarter = ordered.shape[-1] // 4
    return np.asarray(ordered[..., :quarter].mean(-1) / ordered.mean(-1))


@cache
def true_nights(nights: Nights, n_runs: int) -> tuple[float, float]:
    """Mean DU of one night, and of as many nights summed, over the whole ground."""
    rng = np.random.default_rng(99)
    one, many = [], []
    for _ in range(400):
        depth = nights_caught(rng, nights, n_runs=n_runs, n_positions=4000)
        one.append(float(low_quarter(depth).mean()))
        many.append(float(low_quarter(depth.sum(axis=0))))
    return float(np.mean(one)), float(np.mean(many))
