"""A map and the shapes it may have in; the shapes that explain it, with p, out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.basis import Basis, Kind

SEED = 20260519
PERMUTATIONS = 499
LEVEL = 0.05
MOST_SHAPES = 3
# Breaks ties between kinds that no shuffle reaches; far below one part of all shuffles.
TIE = 1e-7
# A further shape that explains less of all the spread sends nobody anywhere (common
# practice, no source).
LEAST_SHARE = 0.05
# Two shapes that explain this nearly the same cannot be told apart (common practice,
# no source).
ALIKE = 0.85


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """One shape and how much of the spread it explains.

    Attributes
    ----------
    basis : Basis
        The best of its kind.
    share : float
        Part of all variance explained beyond what the best of that many candidates
        explains by chance; 0 to 1.
    p : float
        How often chance finds as good a shape of any kind.
    is_beyond_chance : bool
        Whether it adds more than chance to the shapes before it.
    coefficient : array of shape (n_columns,)
        Weight of each column.
    alike : tuple of Basis
        Shapes of other kinds that explain nearly as much of the same.
    covered : bool
        More than chance alone, but not beside a shape that explains more.
    """

    basis: Basis
    share: float
    p: float
    is_beyond_chance: bool
    coefficient: FloatArray
    alike: tuple[Basis, ...] = ()
    covered: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class _Round:
    """Best candidate of each kind, its share and its p among all kinds."""

    best: dict[Kind, Basis]
    part: dict[Kind, float]
    share: dict[Kind, float]
    p: dict[Kind, float]


def fits(
    relative: FloatArray, shapes: Sequence[Basis], *, seed: int = SEED
) -> tuple[Fit, ...]:
    """Shapes that explain a map, best first, then those that do not.

    Parameters
    ----------
    relative : array of shape (n_cans,)
        Relative catches. [-]
    shapes : sequence of Basis
        Candidates on these cans.
    seed : int
        Start of the random numbers; the same seed gives the same answer.

    Returns
    -------
    tuple of Fit
        One a kind, or more where a kind explains twice; empty without shapes or where
        all cans caught the same.

    Notes
    -----
    Least squares on each candidate. The catches are shuffled over the places, and the
    best candidate of each kind is searched again in every shuffle: what it explains by
    chance is its penalty, and the smallest p over all kinds corrects for looking for
    several kinds. The best shape is taken out and the rest is searched again.

    References
    ----------
    .. [1] Westfall and Young, 1993, Resampling-Based Multiple Testing (smallest p),
       from memory.
    .. [2] Freedman and Lane, 1983, J. Business and Economic Statistics 1(4) (shuffled
       residuals), from memory.

    Examples
    --------
    >>> from scheduler.field.basis import shapes_of
    >>> from scheduler.record import CanLayout
    >>> dry = np.ones((4, 6)) + 0.01 * np.arange(24).reshape(4, 6) % 0.05
    >>> dry[2] *= 0.6
    >>> shapes = shapes_of(np.ones((4, 6), dtype=bool), CanLayout())
    >>> fits(dry.ravel(), shapes)[0].basis.where
    (0, 2, 2)
    """
    rest = relative - relative.mean()
    total = float(rest @ rest)
    if not shapes or total <= 1e-12 * relative.size:
        return ()
    rng = np.random.default_rng(seed)
    candidates = list(shapes)
    first: _Round | None = None
    chosen: list[Fit] = []
    while candidates and len(chosen) < MOST_SHAPES:
        seen = _searched(rest, candidates, rng)
        first = first or seen
        sure = [kind for kind, p in seen.p.items() if p <= LEVEL]
        if not sure:
            break
        kind = max(sure, key=lambda one: seen.share[one])
        basis, left = seen.best[kind], float(rest @ rest) / total
        if chosen and seen.share[kind] * left < LEAST_SHARE:
            break
        chosen.append(
            Fit(
                basis,
                seen.share[kind] * left,
                seen.p[kind],
                True,
                basis.columns.T @ rest,
                tuple(_alike(seen, kind, sure)),
            )
        )
        rest = rest - basis.columns @ (basis.columns.T @ rest)
        candidates = _without(candidates, basis)
    taken = {one.basis.kind for one in chosen}
    return (*chosen, *_others(first, taken, relative))


def _others(
    first: _Round | None, taken: set[Kind], relative: FloatArray
) -> tuple[Fit, ...]:
    """Kinds that were looked for and not chosen, as they stood alone."""
    if first is None:
        return ()
    left = [
        Fit(
            basis,
            max(0.0, first.share[kind]),
            first.p[kind],
            False,
            basis.columns.T @ relative,
            covered=first.p[kind] <= LEVEL,
        )
        for kind, basis in first.best.items()
        if kind not in taken
    ]
    return tuple(sorted(left, key=lambda one: (one.p, -one.share)))


def _searched(
    rest: FloatArray, candidates: Sequence[Basis], rng: np.random.Generator
) -> _Round:
    """Best candidate of each kind in the map and in every shuffle of it."""
    shuffled = rng.permuted(np.tile(rest, (PERMUTATIONS, 1)), axis=1)
    both = np.column_stack([rest, shuffled.T])  # the map stands first
    size = float(rest @ rest)
    found: dict[Kind, FloatArray] = {}
    best: dict[Kind, Basis] = {}
    for one in candidates:
        part = _part(one, both, size)
        if one.kind not in found or part[0] > found[one.kind][0]:
            best[one.kind] = one
        before = found.get(one.kind)
        found[one.kind] = part if before is None else np.maximum(before, part)
    rank = {kind: _p_of(part) for kind, part in found.items()}
    smallest = np.min(list(rank.values()), axis=0)[1:]
    share, p = {}, {}
    for kind, part in found.items():
        by_chance = float(part[1:].mean())
        share[kind] = (float(part[0]) - by_chance) / max(1 - by_chance, 1e-9)
        at_most = int((smallest <= rank[kind][0] + 1e-12).sum())
        p[kind] = (1 + at_most) / (PERMUTATIONS + 1)
    return _Round(best, {k: float(v[0]) for k, v in found.items()}, share, p)


def _part(one: Basis, both: FloatArray, size: float) -> FloatArray:
    """Part of the variance that a candidate explains, in the map and each shuffle."""
    weight = one.columns.T @ both
    part = (weight**2).sum(axis=0) / size
    if one.sign:
        part = np.where(weight[0] * one.sign > 0, part, 0.0)
    return np.asarray(part)


def _p_of(part: FloatArray) -> FloatArray:
    """How often a shuffle explains as much, for the map and for each shuffle.

    Of equal ones the one that stands out further is the smaller, by next to nothing.
    """
    ordered = np.sort(part)
    return np.asarray(
        (part.size - np.searchsorted(ordered, part - 1e-12, side="left")) / part.size
        - TIE * (part - part.mean()) / max(float(part.std()), 1e-12)
    )


def _alike(seen: _Round, kind: Kind, sure: Sequence[Kind]) -> list[Basis]:
    return [
        seen.best[other]
        for other in sure
        if other != kind and seen.part[other] >= ALIKE * seen.part[kind]
    ]


def _without(candidates: Sequence[Basis], taken: Basis) -> list[Basis]:
    """Candidates made upright to a shape that was taken out; what vanishes is left."""
    made = []
    for one in candidates:
        upright = one.columns - taken.columns @ (taken.columns.T @ one.columns)
        if np.linalg.norm(upright[:, 0]) < 0.3:
            continue  # nearly the same shape: nothing left to find
        basis, _ = np.linalg.qr(upright)
        basis *= np.sign((basis * upright).sum(axis=0) + 1e-300)
        made.append(Basis(one.kind, one.where, basis, one.sign))
    return made
