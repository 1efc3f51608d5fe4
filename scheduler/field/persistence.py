"""Maps of runs on one grid in; the places that stay dry, and how surely out."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.uniformity import MIN_CANS

SEED = 20260512
PERMUTATIONS = 999
# A pattern is called lasting where chance would show as much one time in twenty.
LEVEL = 0.05


@dataclass(frozen=True, slots=True, eq=False)
class Persistence:
    """What several runs on one grid say together.

    Attributes
    ----------
    runs : tuple of str
        The runs.
    n_days : int
        Days that they come from; runs of one day share its wind.
    times_driest : array of shape (n_rows, n_columns)
        Runs in which the place was in the driest quarter, NaN without a reading.
    share_driest : array of shape (n_rows, n_columns)
        The same over the runs that read the place, 0 to 1.
    mean_relative : array of shape (n_rows, n_columns)
        Mean over the runs of the catch over the run's mean catch. [-]
    p_driest : array of shape (n_rows, n_columns)
        How often chance alone makes the place dry that often, place by place.
    n_always : int
        Places that were in the driest quarter of every run that read them.
    n_always_by_chance : float
        How many such places chance alone would give.
    agreement : float
        Mean correlation of the maps, run with run, -1 to 1.
    p : float
        How often chance alone makes the maps agree as much.
    """

    runs: tuple[str, ...]
    n_days: int
    times_driest: FloatArray
    share_driest: FloatArray
    mean_relative: FloatArray
    p_driest: FloatArray
    n_always: int
    n_always_by_chance: float
    agreement: float
    p: float

    @property
    def is_beyond_chance(self) -> bool:
        """Whether the runs agree more than chance would let them."""
        return self.agreement > 0 and self.p <= LEVEL


def relative_map(depth: FloatArray) -> FloatArray:
    """Catch at each place over the mean catch.

    Parameters
    ----------
    depth : array of shape (n_rows, n_columns)
        Depths or readings, NaN where there is none.

    Returns
    -------
    array of the same shape
        Relative catch, mean 1 over the places with a reading. [-]

    Raises
    ------
    ReadingsError
        If no water was caught.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> relative_map(np.array([[1.0, 3.0]])).tolist()
    [[0.5, 1.5]]
    """
    known = depth[np.isfinite(depth)]
    if not known.size or known.mean() <= 0:
        raise ReadingsError("no water caught", "see whether the valve was open")
    return np.asarray(depth / known.mean())


def persistence(
    maps: Sequence[FloatArray],
    *,
    runs: Sequence[str] = (),
    n_days: int = 1,
    seed: int = SEED,
) -> Persistence:
    """Which places stay dry from run to run.

    Parameters
    ----------
    maps : sequence of array of shape (n_rows, n_columns)
        Two runs or more on one grid, NaN where nothing was read. [any unit]
    runs : sequence of str, optional
        Their names.
    n_days : int
        Days that they come from.
    seed : int
        Start of the random numbers; the same seed gives the same answer.

    Returns
    -------
    Persistence
        Maps and how surely they are more than chance.

    Raises
    ------
    ReadingsError
        If there are fewer than two runs, or they stood on different grids.
    TooFewCansError
        If the runs share fewer than 4 places.

    Notes
    -----
    Chance means: within a run any order of its catches is as likely as any other. Of
    one place, the number of dry runs is then a sum of independent draws (exact). Of
    the whole map, catches are shuffled within each run. Neighbouring cans are alike,
    so two unlike maps can agree by luck more often than shuffling shows. Runs of one
    morning share its wind, which then lasts too.

    References
    ----------
    Source: definition (exact sum of independent draws; permutation of places).

    Examples
    --------
    >>> one = np.array([[1.0, 2.0, 3.0, 4.0], [5.0, 6.0, 7.0, 8.0]])
    >>> found = persistence([one, one])
    >>> found.n_always, round(found.agreement, 6)
    (2, 1.0)
    """
    if len(maps) < 2:
        raise ReadingsError("one run shows nothing that lasts", "repeat the run")
    if len({one.shape for one in maps}) > 1:
        raise ReadingsError(
            "the runs stood on different grids", "repeat runs on the same grid"
        )
    relative = np.array([relative_map(one) for one in maps])
    shared = np.isfinite(relative).all(axis=0)
    if shared.sum() < MIN_CANS:
        raise TooFewCansError(int(shared.sum()), MIN_CANS)
    dry, chance = _driest(relative)
    read = np.isfinite(relative)
    times = np.where(read.any(axis=0), dry.sum(axis=0), np.nan)
    n_read = read.sum(axis=0)
    with np.errstate(invalid="ignore", divide="ignore"):
        share = times / n_read
        mean = np.where(read, relative, 0.0).sum(axis=0) / n_read
    always = [
        float(np.prod(chance[read[:, i, j]])) for i, j in np.argwhere(n_read >= 2)
    ]
    agreement, p = _agreement(relative[:, shared], seed)
    return Persistence(
        runs=tuple(runs),
        n_days=n_days,
        times_driest=frozen(times),
        share_driest=frozen(share),
        mean_relative=frozen(mean),
        p_driest=frozen(_p_of_places(times, read, chance)),
        n_always=int(((times == n_read) & (n_read >= 2)).sum()),
        n_always_by_chance=sum(always),
        agreement=agreement,
        p=p,
    )


def _driest(relative: FloatArray) -> tuple[BoolArray, FloatArray]:
    """Driest quarter of each run, as the map of one run marks it, and its part."""
    dry = np.zeros(relative.shape, dtype=np.bool_)
    chance = np.zeros(len(relative))
    for run, depth in enumerate(relative):
        flat = np.flatnonzero(np.isfinite(depth))
        count = max(1, flat.size // 4)
        order = flat[np.argsort(depth.ravel()[flat], kind="stable")[:count]]
        dry[run].ravel()[order] = True
        chance[run] = count / flat.size
    return dry, chance


def at_least(times: int, chance: Sequence[float]) -> float:
    """How often independent draws come up that many times or more.

    Parameters
    ----------
    times : int
        How often it came up.
    chance : sequence of float
        Chance of each draw, 0 to 1.

    Returns
    -------
    float
        Probability, 0 to 1; exact.

    References
    ----------
    Source: definition; a binomial tail where all chances are equal.

    Examples
    --------
    >>> at_least(2, [0.25, 0.25])
    0.0625
    """
    spread = np.array([1.0])
    for one in chance:
        spread = np.convolve(spread, [1 - one, one])
    return float(min(1.0, spread[times:].sum()))


def _p_of_places(times: FloatArray, read: BoolArray, chance: FloatArray) -> FloatArray:
    p = np.full(times.shape, np.nan)
    for i, j in np.argwhere(np.isfinite(times)):
        p[i, j] = at_least(int(times[i, j]), chance[read[:, i, j]].tolist())
    return p


def _agreement(relative: FloatArray, seed: int) -> tuple[float, float]:
    """Mean correlation of runs on the shared places, and its p by shuffling."""
    centred = relative - relative.mean(axis=1, keepdims=True)
    size = np.linalg.norm(centred, axis=1, keepdims=True)
    if (size < 1e-12).any():
        return 0.0, 1.0  # an even run agrees with nothing
    unit = centred / size
    n_runs = len(unit)
    rng = np.random.default_rng(seed)
    drawn = np.broadcast_to(unit, (PERMUTATIONS, *unit.shape)).copy()
    drawn[:, 1:] = rng.permuted(drawn[:, 1:], axis=2)
    pairs = list(itertools.combinations(range(n_runs), 2))
    by_chance = np.mean(
        [np.einsum("ki,ki->k", drawn[:, a], drawn[:, b]) for a, b in pairs], axis=0
    )
    seen = float(np.mean([unit[a] @ unit[b] for a, b in pairs]))
    # one extreme is the map itself, so that p is never 0
    p = (1 + int((by_chance >= seen - 1e-12).sum())) / (PERMUTATIONS + 1)
    return seen, p
