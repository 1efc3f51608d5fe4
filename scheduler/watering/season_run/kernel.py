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

# Zones of one block: their cells stay in the nearest cache. Days are copied for more
# zones at once, for a few numbers from each far row of memory would cost more.
BLOCK = 16
COPIED = 128
ROW = 5 * BLOCK
# use ahead of a closed night: less than any zone asks for
NEVER = -1e30
# rows of the array of constants of each zone
SERVED, TOTAL, ALLOWED, BELOW, PER_MM, LIMIT, FIXED, START, ALWAYS, IS_FIXED = range(10)
F = TypeVar("F", bound=Callable[..., Any])


def _fast(function: F) -> F:
    return cast(F, njit(fastmath=True, nogil=True)(function))


@_fast
def _night_minutes(served_mm: float, zone: Any, k: int) -> float:
    """Whole minutes of a night that is due, as `lanes.whole_minutes_of`."""
    exact = served_mm / zone[SERVED, k] * zone[PER_MM, k]
    if zone[IS_FIXED, k] > 0:
        exact = zone[FIXED, k] * zone[PER_MM, k]
    if exact <= 0.0:
        return 0.0
    cycles = max(np.ceil((exact - 1e-9) / zone[LIMIT, k]), 1.0)
    each = max(np.floor(exact / cycles + 0.5 + 1e-9), 1.0)
    if each > zone[LIMIT, k]:
        cycles += 1.0
        each = np.floor(exact / cycles + 0.5 + 1e-9)
    return float(cycles * each)


@_fast
def _begin(cells: Any, share: Any, zone: Any, at: tuple[int, int]) -> None:
    """Lay out a block: shares, depletion at the start, water held, what is asked."""
    (cell, today, asks), (first, n) = cells, at
    n_positions = share.shape[1]
    cell[:] = 0.0
    today[:] = 0.0
    asks[:] = -NEVER
    for z in range(n):
        is_any = zone[ALWAYS, first + z] > 0 or zone[IS_FIXED, first + z] > 0
        # an open night of such a zone is always due: below any use
        asks[z] = -1.0 if is_any else zone[ALLOWED, first + z]
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
def _copy_days(local: Any, days: Any, at: tuple[int, int]) -> None:
    """Use, rain, and use until the next open night, which never comes due if closed."""
    (etc, rain, is_open), (first, n) = days, at
    until = np.zeros(COPIED)
    for day in range(etc.shape[0] - 1, -1, -1):
        for z in range(n):
            k = first + z
            until[z] += etc[day, k]
            local[0, day, z] = etc[day, k]
            local[1, day, z] = rain[day, k]
            local[2, day, z] = until[z] if is_open[day, k] else NEVER
            if is_open[day, k]:
                until[z] = 0.0


@_fast
def _is_due(cell: Any, today: Any, asks: Any, local: Any, at: tuple[int, int]) -> bool:
    """Set out a day's rain and use; whether the night before it is due anywhere."""
    (day, z0), due = at, 0.0
    served_at = cell.size - ROW + BLOCK
    for z in range(BLOCK):
        today[z] = 0.0
        today[BLOCK + z] = local[1, day, z0 + z]
        today[2 * BLOCK + z] = local[0, day, z0 + z]
        due += 1.0 if cell[served_at + z] + local[2, day, z0 + z] > asks[z] else 0.0
    return due > 0.0


@_fast
def _water(cells: Any, local: Any, zone: Any, out: Any, at: tuple[int, ...]) -> bool:
    """Whole minutes of every zone that is due; whether any watered."""
    (cell, today, asks), (counts, depths), (day, first, n, z0) = cells, out, at
    served_at, wet = cell.size - ROW + BLOCK, False
    for z in range(n):
        k = first + z
        if cell[served_at + z] + local[2, day, z0 + z] > asks[z]:
            minutes = _night_minutes(cell[served_at + z], zone, k)
            if minutes > 0:
                wet = True
                today[z] = minutes / zone[PER_MM, k]
                depths[day, k] = today[z]
                counts[0, k] += 1
                counts[1, k] += minutes
    return wet


@_fast
def _is_rainy(today: Any) -> bool:
    """Whether it rained on any zone of the block."""
    rain = 0.0
    for z in range(BLOCK):
        rain += today[BLOCK + z]
    return rain > 0.0


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
def _dry_day(cell: Any, today: Any) -> None:
    """One day on which no zone of the block got water: use alone, as in `_day`."""
    for p in range(cell.size // ROW):
        at = p * ROW
        for z in range(BLOCK):
            short = today[3 * BLOCK + z] - cell[at + BLOCK + z]
            can = min(short * today[4 * BLOCK + z], 1.0)
            use = min(can * today[2 * BLOCK + z], short)
            cell[at + 2 * BLOCK + z] += use
            cell[at + 4 * BLOCK + z] += 1.0 if can < 1.0 else 0.0
            cell[at + BLOCK + z] += use


@_fast
def _any_day(cell: Any, today: Any, wet: bool) -> None:
    """One day of a block, by what falls on it; most days nothing does."""
    if wet or _is_rainy(today):
        _day(cell, today)
    else:
        _dry_day(cell, today)


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
    n_days = days[0].shape[0]
    cells = (np.zeros((n_positions + 1) * ROW), np.zeros(ROW), np.zeros(BLOCK))
    cell, today, asks = cells
    sums, counts, depths = out
    clock = (counts, depths)
    local = np.zeros((3, n_days, COPIED))
    for far in range(0, n_zones, COPIED):
        n_far = min(COPIED, n_zones - far)
        _copy_days(local, days, (far, n_far))
        for z0 in range(0, n_far, BLOCK):
            first, n = far + z0, min(BLOCK, n_far - z0)
            _begin(cells, share, zone, (first, n))
            for day in range(n_days):
                wet = _is_due(cell, today, asks, local, (day, z0))
                if wet:
                    wet = _water(cells, local, zone, clock, (day, first, n, z0))
                if wet and n_shares > 1:
                    _draw(cell, share[day], (first, n))
                    for p in range(n_positions):
                        for z in range(n):
                            sums[0, p, first + z] += cell[p * ROW + z] * today[z]
                _any_day(cell, today, wet)
            _end(cell, sums, (first, n))
