"""Arrays of a season in; sums of every position out, compiled.

Importing it needs the package numba. Zones stand side by side in the innermost loop, so
that one instruction serves several of them; a block of them stays in the cache for the
whole season.

All of a block lies in two flat arrays at fixed distances: with one array a quantity the
compiler cannot prove them apart, and uses no vectors. `cell` holds five rows of `BLOCK`
numbers a position, the served one last: share, depletion, used, drained, days of
stress. `today` holds depth, rain, use asked for, water held, 1 / (held - allowed).
"""

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numpy as np
from numba import njit

# zones of one block (measured: 48 to 128 are alike, 8 is three times slower)
BLOCK = 64
ROW = 5 * BLOCK
# rows of the array of constants of each zone
SERVED, TOTAL, ALLOWED, BELOW, PER_MM, LIMIT, FIXED, START, ALWAYS, IS_FIXED = range(10)
F = TypeVar("F", bound=Callable[..., Any])


def _fast(function: F) -> F:
    return cast(F, njit(fastmath=True, nogil=True)(function))


@_fast
def _night_minutes(served_mm: float, ahead_mm: float, zone: Any, k: int) -> float:
    """Whole minutes of one zone's open night, as `lanes.whole_minutes_of`."""
    exact = 0.0
    if zone[IS_FIXED, k] > 0:
        exact = zone[FIXED, k] * zone[PER_MM, k]
    elif (zone[ALWAYS, k] > 0 and served_mm > 0) or (
        served_mm + ahead_mm > zone[ALLOWED, k]
    ):
        exact = served_mm / zone[SERVED, k] * zone[PER_MM, k]
    if exact <= 0.0:
        return 0.0
    cycles = max(np.ceil((exact - 1e-9) / zone[LIMIT, k]), 1.0)
    each = max(np.floor(exact / cycles + 0.5 + 1e-9), 1.0)
    if each > zone[LIMIT, k]:
        cycles += 1.0
        each = np.floor(exact / cycles + 0.5 + 1e-9)
    return float(cycles * each)


@_fast
def _begin(cell: Any, today: Any, share: Any, zone: Any, at: tuple[int, int]) -> None:
    """Lay out a block: shares, depletion at the start, water held."""
    first, n = at
    n_positions = share.shape[1]
    cell[:] = 0.0
    today[:] = 0.0
    for z in range(n):
        today[3 * BLOCK + z] = zone[TOTAL, first + z]
        today[4 * BLOCK + z] = zone[BELOW, first + z]
        for p in range(n_positions + 1):
            k = p * ROW + z
            if p == n_positions:
                cell[k] = zone[SERVED, first + z]
            else:
                cell[k] = share[0, p, first + z]
            cell[k + BLOCK] = zone[START, first + z]


@_fast
def _use_ahead(ahead: Any, etc: Any, is_open: Any, at: tuple[int, int]) -> None:
    """Use from each day until the next open night, backwards."""
    first, n = at
    last = etc.shape[0] - 1
    for day in range(last, -1, -1):
        for z in range(n):
            until = 0.0
            if day < last and not is_open[day + 1, first + z]:
                until = ahead[day + 1, z]
            ahead[day, z] = etc[day, first + z] + until


@_fast
def _morning(
    day: int, cells: Any, days: Any, zone: Any, out: Any, at: tuple[int, int]
) -> bool:
    """Decide the night before a day in every zone; whether any watered."""
    (cell, today, ahead), (etc, rain, is_open), (_, counts, nights) = cells, days, out
    first, n = at
    served_at, wet = cell.size - ROW + BLOCK, False
    for z in range(n):
        k = first + z
        minutes = 0.0
        if is_open[day, k]:
            minutes = _night_minutes(cell[served_at + z], ahead[day, z], zone, k)
        today[z] = minutes / zone[PER_MM, k]
        today[BLOCK + z] = rain[day, k]
        today[2 * BLOCK + z] = etc[day, k]
        nights[day, k] = today[z]
        if minutes > 0:
            wet = True
            counts[0, k] += 1
            counts[1, k] += minutes
    return wet


@_fast
def _day(cell: Any, today: Any) -> None:
    """One day of every position: water and rain, drain, then use."""
    # counting positions, not offsets: so the compiler knows that none is negative
    for p in range(cell.size // ROW):
        at = p * ROW
        for z in range(BLOCK):
            early = cell[at + BLOCK + z] - cell[at + z] * today[z] - today[BLOCK + z]
            over = min(early, 0.0)
            early -= over
            short = today[3 * BLOCK + z] - early
            can = min(short * today[4 * BLOCK + z], 1.0)
            use = min(can * today[2 * BLOCK + z], short)
            cell[at + 2 * BLOCK + z] += use
            cell[at + 3 * BLOCK + z] -= over
            cell[at + 4 * BLOCK + z] += 1.0 if can < 1.0 else 0.0
            cell[at + BLOCK + z] = early + use


@_fast
def _draw(cell: Any, share: Any, at: tuple[int, int]) -> None:
    """Shares of the run that this watering draws."""
    first, n = at
    for p in range(share.shape[0]):
        for z in range(n):
            cell[p * ROW + z] = share[p, first + z]


@_fast
def _end(cell: Any, sums: Any, at: tuple[int, int]) -> None:
    """Write the sums of a block: used, drained, depletion, days of stress."""
    first, n = at
    for p in range(sums.shape[1]):
        for z in range(n):
            k = p * ROW + z
            sums[1, p, first + z] = cell[k + 2 * BLOCK]
            sums[2, p, first + z] = cell[k + 3 * BLOCK]
            sums[3, p, first + z] = cell[k + BLOCK]
            sums[4, p, first + z] = cell[k + 4 * BLOCK]


@_fast
def run_zones(share: Any, zone: Any, days: Any, out: Any) -> None:
    """Run a season of all zones, block by block.

    Parameters
    ----------
    share : array of shape (1 or n_days, n_positions, n_zones)
        Catch over the mean catch. [-]
    zone : array of shape (10, n_zones)
        Constants of each zone, in the order of the names above.
    days : tuple of arrays of shape (n_days, n_zones)
        Use and rain, and whether the night before is open. [mm]
    out : tuple of arrays
        Sums (5, n_positions, n_zones), of which applied water is written only where
        shares differ by day; counts (2, n_zones); depth of each night. Zeros at first.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, in the order of example 38.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> constants = np.array([1, 160, 64, 1 / 96, 1, 9, 0, 55, 0, 0.0])[:, None]
    >>> out = (np.zeros((5, 1, 1)), np.zeros((2, 1)), np.zeros((1, 1)))
    >>> run_zones(one[None], constants, (6 * one, 0 * one, one > 1), out)
    >>> float(out[0][3, 0, 0])
    61.0
    """
    n_shares, n_positions, n_zones = share.shape
    cell = np.zeros((n_positions + 1) * ROW)
    today = np.zeros(ROW)
    ahead = np.zeros((days[0].shape[0], BLOCK))
    for first in range(0, n_zones, BLOCK):
        at = (first, min(BLOCK, n_zones - first))
        _begin(cell, today, share, zone, at)
        _use_ahead(ahead, days[0], days[2], at)
        for day in range(days[0].shape[0]):
            wet = _morning(day, (cell, today, ahead), days, zone, out, at)
            if wet and n_shares > 1:
                _draw(cell, share[day], at)
                for p in range(n_positions):
                    for z in range(at[1]):
                        out[0][0, p, first + z] += cell[p * ROW + z] * today[z]
            _day(cell, today)
        _end(cell, out[0], at)
