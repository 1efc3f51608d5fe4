"""Uncertain uniformities and prices in; how likely it is that an option pays, out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, FloatArray
from scheduler.money.gain import LEAST_DAYS, KnownDu, drawn_du

DRAWS = 20_000
SEED = 20261128
# ends of the range that a gain must leave zero out of: nine times in ten
LOW, HIGH = 0.05, 0.95


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """What may be, drawn many times.

    Attributes
    ----------
    now, then : array of shape (n_zones, n_draws)
        Uniformities. [-]
    water, energy, outlay : array of shape (n_draws,)
        What the prices are multiplied with. [-]
    n_days : int
        Days that the least tested of all was tested on.
    """

    now: FloatArray
    then: FloatArray
    water: FloatArray
    energy: FloatArray
    outlay: FloatArray
    n_days: int


def drawn(
    known: Sequence[tuple[KnownDu, KnownDu]],
    *,
    within: tuple[float, float, float],
    draws: int = DRAWS,
    seed: int = SEED,
) -> Drawn:
    """Draw what may be.

    Parameters
    ----------
    known : sequence of (KnownDu, KnownDu)
        Now and then, by zone.
    within : tuple of float
        How far the prices of water, of energy and the outlay may be off, each as a
        part of it, evenly likely inside. [-]
    draws : int
        How many.
    seed : int
        Start of the random numbers; the same seed gives the same answer.

    Returns
    -------
    Drawn
        Zones are drawn apart; a package that stands in several has one uniformity.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> sure = KnownDu(0.6, None, None, 0.9, 0, "")
    >>> drawn([(sure, sure)], within=(0.0, 0.0, 0.0), draws=2).then.tolist()
    [[0.6, 0.6]]
    """
    rng = np.random.default_rng(seed)
    now, then = [], []
    shared: dict[KnownDu, FloatArray] = {}
    for before, after in known:
        now.append(drawn_du(before, rng, draws))
        if after.is_difference:
            then.append(drawn_du(after, rng, draws, now[-1]))
            continue
        if after not in shared:
            shared[after] = drawn_du(after, rng, draws)
        then.append(shared[after])
    water, energy, outlay = (1.0 + one * _evenly(rng, draws) for one in within)
    days = min((min(one.n_days for one in pair) for pair in known), default=0)
    return Drawn(np.array(now), np.array(then), water, energy, outlay, days)


def _evenly(rng: np.random.Generator, draws: int) -> FloatArray:
    """Evenly likely from -1 to 1: one draw in each of as many equal steps."""
    steps = (rng.permutation(draws) + rng.random(draws)) / draws
    return np.asarray(2.0 * steps - 1.0)


def gain_range(found: Drawn, area_m2: FloatArray) -> tuple[float, float]:
    """Range of what the uniformity gains, zones by their area.

    Parameters
    ----------
    found : Drawn
        What may be.
    area_m2 : array of shape (n_zones,)
        Areas. [m2]

    Returns
    -------
    tuple of float
        Ends that hold it nine times in ten. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> a, b = (KnownDu(du, None, None, 0.9, 3, "") for du in (0.6, 0.7))
    >>> low, high = gain_range(drawn([(a, b)], within=(0, 0, 0), draws=9), np.ones(1))
    >>> round(low, 2), round(high, 2)
    (0.1, 0.1)
    """
    gain = np.average(found.then - found.now, axis=0, weights=area_m2)
    low, high = np.quantile(gain, [LOW, HIGH])
    return float(low), float(high)


def chance_above_zero(net_money: FloatArray, *, n_days: int) -> float | None:
    """Part of the draws in which more comes back than it costs.

    Parameters
    ----------
    net_money : array of shape (n_draws,)
        Yearly saving less yearly cost.
    n_days : int
        Days of tests.

    Returns
    -------
    float or None
        None under three days of tests: then nobody knows how nights differ. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> chance_above_zero(np.array([1.0, -1.0]), n_days=3)
    0.5
    >>> chance_above_zero(np.array([1.0, -1.0]), n_days=2) is None
    True
    """
    if n_days < LEAST_DAYS:
        return None
    pays: BoolArray = net_money > 0
    return float(pays.mean())
