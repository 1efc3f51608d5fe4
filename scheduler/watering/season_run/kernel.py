"""Arrays of a season in; sums of every position out, compiled.

Importing it needs the package numba. Zones stand side by side in the innermost loop, so
that one instruction serves several of them. Nights depend on the served position alone:
so those of a block of zones come first, and then every position passes through four
days at once, its numbers loaded and stored once for all of them.

Whatever the innermost loops touch lies in flat arrays, a quantity at a fixed distance
from the next: with one array each the compiler cannot prove them apart, and uses no
vectors. The rows of each array, `BLOCK` numbers a row, have their names below.
"""

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numpy as np
from numba import njit

# Zones of one block: long rows to read from far places of memory, and cells that stay
# in the second cache.
BLOCK = 64
# a position: its share [-], water left, used and drained so far [mm], days of stress
SHARE, LEFT, USED, DRAINED, STRESS = (i * BLOCK for i in range(5))
CELL = 5 * BLOCK
# a day: mean depth of its night (until then the use ahead), rain, use asked for [mm],
# and what of the water left may be used [-]
DEPTH, RAIN, ASKED, USABLE = (i * BLOCK for i in range(4))
DAY = 4 * BLOCK
# a zone: water held, water left below which plants lack water [mm], one over it [1/mm],
# share of the served position [-], water left below which a night is due, and depths of
# its nights together [mm]
HELD, LACK, PER_LACK, SERVES, DUE, DEPTHS = (i * BLOCK for i in range(6))
# use ahead of a closed night: less than any zone asks for
NEVER = -1e30
# rows of the array of constants of all zones: share of the served position [-], water
# held and allowed [mm], one over the rest [1/mm], minutes a millimetre [min/mm], the
# longest cycle [min], fixed depth, depletion at the start [mm], and two that are 0 or 1
SERVED, TOTAL, ALLOWED, BELOW, PER_MM, LIMIT, FIXED, START, ALWAYS, IS_FIXED = range(10)
F = TypeVar("F", bound=Callable[..., Any])


def _fast(function: F) -> F:
    return cast(F, njit(fastmath=True, nogil=True)(function))


@_fast
def _night_minutes(depletion_mm: float, zone: Any, k: int) -> float:
    """Whole minutes of a night that is due, as `lanes.whole_minutes_of`."""
    exact = depletion_mm / zone[SERVED, k] * zone[PER_MM, k]
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
def _begin(cell: Any, own: Any, share: Any, zone: Any, at: tuple[int, int]) -> None:
    """Lay out the zones of a block, and their positions before the first day."""
    first, n = at
    cell[:] = 0.0
    for z in range(n):
        k = first + z
        is_any = zone[ALWAYS, k] > 0 or zone[IS_FIXED, k] > 0
        own[HELD + z] = zone[TOTAL, k]
        own[LACK + z] = 1.0 / zone[BELOW, k]
        own[PER_LACK + z] = zone[BELOW, k]
        own[SERVES + z] = zone[SERVED, k]
        # an open night of such a zone is always due: above any water left
        own[DUE + z] = zone[TOTAL, k] - (-1.0 if is_any else zone[ALLOWED, k])
        own[DEPTHS + z] = 0.0
    for p in range(share.shape[1]):
        for z in range(n):
            cell[p * CELL + SHARE + z] = share[0, p, first + z]
            cell[p * CELL + LEFT + z] = zone[TOTAL, first + z] - zone[START, first + z]


@_fast
def _copy_days(calendar: Any, own: Any, days: Any, at: tuple[int, int]) -> None:
    """Lay out the days of a block; use ahead lasts until the next open night."""
    (etc, rain, is_open), (first, n) = days, at
    ahead = np.zeros(BLOCK)
    for day in range(etc.shape[0] - 1, -1, -1):
        today = calendar[day * DAY : (day + 1) * DAY]
        asked, fell = etc[day, first : first + n], rain[day, first : first + n]
        for z in range(n):
            today[RAIN + z] = fell[z]
            today[ASKED + z] = asked[z]
            # all that is asked for, until too little is left; never more than is left
            today[USABLE + z] = min(own[PER_LACK + z] * asked[z], 1.0)
        opened = is_open[day, first : first + n]
        for z in range(n):
            use = ahead[z] + asked[z]
            today[DEPTH + z] = use if opened[z] else NEVER
            ahead[z] = 0.0 if opened[z] else use


@_fast
def _nights(calendar: Any, own: Any, zone: Any, out: Any, at: tuple[int, int]) -> None:
    """Depth of every night of a block, from the served position."""
    (counts, depths), (first, n) = out, at
    left = np.zeros(BLOCK)
    for z in range(n):
        left[z] = zone[TOTAL, first + z] - zone[START, first + z]
    for day in range(depths.shape[0]):
        today = calendar[day * DAY : (day + 1) * DAY]
        due = 0.0
        for z in range(BLOCK):
            due += 1.0 if left[z] - today[DEPTH + z] < own[DUE + z] else 0.0
        if due > 0.0:
            _water(today, left, own, zone, (counts, depths[day]), at)
        else:
            today[DEPTH : DEPTH + BLOCK] = 0.0
        for z in range(BLOCK):
            came = left[z] + own[SERVES + z] * today[DEPTH + z] + today[RAIN + z]
            held = min(came, own[HELD + z])
            left[z] = held - min(held * today[USABLE + z], today[ASKED + z])


@_fast
def _water(
    today: Any, left: Any, own: Any, zone: Any, out: Any, at: tuple[int, int]
) -> None:
    """Whole minutes of every zone that is due; the others get nothing."""
    (counts, depths), (first, n) = out, at
    for z in range(n):
        is_due = left[z] - today[DEPTH + z] < own[DUE + z]
        today[DEPTH + z] = 0.0
        if is_due:
            k = first + z
            minutes = _night_minutes(own[HELD + z] - left[z], zone, k)
            depths[k] = minutes / zone[PER_MM, k]
            today[DEPTH + z] = depths[k]
            own[DEPTHS + z] += depths[k]
            counts[0, k] += minutes > 0
            counts[1, k] += minutes


@_fast
def _draw(cell: Any, today: Any, share: Any, applied: Any, at: tuple[int, int]) -> None:
    """Shares of the run that a watering draws, and the water that they bring."""
    first, n = at
    for p in range(share.shape[0]):
        for z in range(n):
            cell[p * CELL + SHARE + z] = share[p, first + z]
            applied[p, first + z] += share[p, first + z] * today[DEPTH + z]


@_fast
def _pass(cell: Any, own: Any, today: Any, at: Any) -> Any:
    """One day of one position: water left, and the sums so far."""
    (left, used, drained, stress), (share, z, y) = cell, at
    came = left + share * today[DEPTH + y] + today[RAIN + y]
    held = min(came, own[HELD + z])
    taken = min(held * today[USABLE + y], today[ASKED + y])
    stress += 1.0 if held < own[LACK + z] else 0.0
    return held - taken, used + taken, drained + (came - held), stress


@_fast
def _one_day(cell: Any, own: Any, today: Any) -> None:
    """A day of every position of a block."""
    # counting positions, not offsets: so the compiler knows that none is negative
    for p in range(cell.size // CELL):
        q = p * CELL
        for z in range(BLOCK):
            left, used, drained, short = q + LEFT, q + USED, q + DRAINED, q + STRESS
            state = (cell[left + z], cell[used + z], cell[drained + z], cell[short + z])
            share = cell[q + SHARE + z]
            state = _pass(state, own, today, (share, z, z))
            cell[left + z], cell[used + z], cell[drained + z], cell[short + z] = state


@_fast
def _four_days(cell: Any, own: Any, today: Any) -> None:
    """Four days of every position, which is loaded and stored once for all of them."""
    for p in range(cell.size // CELL):
        q = p * CELL
        for z in range(BLOCK):
            left, used, drained, short = q + LEFT, q + USED, q + DRAINED, q + STRESS
            state = (cell[left + z], cell[used + z], cell[drained + z], cell[short + z])
            share = cell[q + SHARE + z]
            # written out: a loop here would keep the compiler from vectors
            state = _pass(state, own, today, (share, z, z))
            state = _pass(state, own, today, (share, z, DAY + z))
            state = _pass(state, own, today, (share, z, 2 * DAY + z))
            state = _pass(state, own, today, (share, z, 3 * DAY + z))
            cell[left + z], cell[used + z], cell[drained + z], cell[short + z] = state


@_fast
def _end(cell: Any, own: Any, sums: Any, at: Any) -> None:
    """Write the sums of a block: applied, used, drained, depletion, days of stress."""
    first, n, is_drawn = at
    for p in range(sums.shape[1]):
        for z in range(n):
            q, k = p * CELL, first + z
            if not is_drawn:
                sums[0, p, k] = cell[q + SHARE + z] * own[DEPTHS + z]
            sums[1, p, k] = cell[q + USED + z]
            sums[2, p, k] = cell[q + DRAINED + z]
            sums[3, p, k] = own[HELD + z] - cell[q + LEFT + z]
            sums[4, p, k] = cell[q + STRESS + z]


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
        Use and rain [mm], and whether the night before is open.
    out : tuple of arrays, zeros at first
        Sums (5, n_positions, n_zones): applied, used, drained, depletion [mm], days of
        stress; counts (2, n_zones): nights, minutes [-, min]; depth of each night
        (n_days, n_zones) [mm].

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
    sums, counts, depths = out
    n_days, is_drawn = depths.shape[0], n_shares > 1
    cell, own = np.zeros(n_positions * CELL), np.zeros(6 * BLOCK)
    calendar = np.zeros(n_days * DAY)
    for first in range(0, n_zones, BLOCK):
        at = (first, min(BLOCK, n_zones - first))
        _begin(cell, own, share, zone, at)
        _copy_days(calendar, own, days, at)
        _nights(calendar, own, zone, (counts, depths), at)
        day = 0
        while day < n_days:
            if is_drawn or day + 4 > n_days:
                today = calendar[day * DAY : (day + 1) * DAY]
                if is_drawn:
                    _draw(cell, today, share[day], sums[0], at)
                _one_day(cell, own, today)
                day += 1
            else:
                _four_days(cell, own, calendar[day * DAY : (day + 4) * DAY])
                day += 4
        _end(cell, own, sums, (at[0], at[1], is_drawn))
