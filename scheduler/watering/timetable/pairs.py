"""One night's jobs in; the zones to start together, two by two, out."""

from collections.abc import Sequence
from functools import cache

from scheduler.watering.timetable.nouns import Grid, Job

# with more zones than this, pairs are made longest with longest and not proven best
EXACT_UP_TO = 14
_BINARY_DUST = 1e-6


def pairs_that_start_together(
    jobs: Sequence[Job], grid: Grid
) -> tuple[tuple[tuple[str, ...], ...], int]:
    """Pairs of zones whose slots, one after the other, take the fewest minutes.

    Parameters
    ----------
    jobs : sequence of Job
        Zones of one night.
    grid : Grid
        For pump, valves and change-over.

    Returns
    -------
    pairs : tuple of tuple of str
        One or two zones a slot, the longest first.
    minutes : int
        Sum over the slots of the longer zone and the change-over. [min]

    Notes
    -----
    Two valves on one start time is how nights are laid out by hand. Up to 14 zones
    every pairing is tried: the longest zone left takes each partner or none.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> grid = Grid(np.ones((1, 1, 99), dtype=bool), np.ones((1, 1, 99)), 100.0)
    >>> three = [Job("A", 1, 30, 0, 60.0), Job("B", 1, 20, 0, 40.0),
    ...          Job("C", 1, 10, 0, 40.0)]
    >>> pairs_that_start_together(three, grid)
    ((('A', 'B'), ('C',)), 40)
    """
    ordered = sorted(jobs, key=lambda one: (-one.elapsed_min, one.zone))
    fits = [
        [i != j and _may_share(a, b, grid) for j, b in enumerate(ordered)]
        for i, a in enumerate(ordered)
    ]
    if len(ordered) <= EXACT_UP_TO:
        slots = _best_slots(ordered, fits)
    else:
        slots = _longest_with_longest(ordered, fits)
    minutes = sum(ordered[slot[0]].elapsed_min + grid.change_over_min for slot in slots)
    return tuple(tuple(ordered[i].zone for i in slot) for slot in slots), minutes


def _may_share(a: Job, b: Job, grid: Grid) -> bool:
    flow = (a.flow_l_per_min or 0.0) + (b.flow_l_per_min or 0.0)
    enough = grid.pump_l_per_min is None or flow <= grid.pump_l_per_min + _BINARY_DUST
    rivals = a.zone in b.not_with or b.zone in a.not_with
    if not grid.clock_valves:
        return enough and not rivals and (grid.max_valves or 2) >= 2
    is_held = a.clock != b.clock or (grid.clock_valves[a.clock] or 2) >= 2
    return enough and not rivals and is_held


def _best_slots(ordered: list[Job], fits: list[list[bool]]) -> list[tuple[int, ...]]:
    @cache
    def best(left: int) -> tuple[int, tuple[tuple[int, ...], ...]]:
        if not left:
            return 0, ()
        first = (left & -left).bit_length() - 1
        rest = left & ~(1 << first)
        found = best(rest)
        chosen = (found[0], ((first,), *found[1]))
        for other in range(first + 1, len(ordered)):
            if rest >> other & 1 and fits[first][other]:
                found = best(rest & ~(1 << other))
                if found[0] < chosen[0]:
                    chosen = (found[0], ((first, other), *found[1]))
        return chosen[0] + ordered[first].elapsed_min + 1, chosen[1]

    # a minute a slot on top: of equal nights the one with fewer slots
    return list(best((1 << len(ordered)) - 1)[1])


def _longest_with_longest(
    ordered: list[Job], fits: list[list[bool]]
) -> list[tuple[int, ...]]:
    left = list(range(len(ordered)))
    slots: list[tuple[int, ...]] = []
    while left:
        first = left.pop(0)
        other = next((j for j in left if fits[first][j]), None)
        if other is None:
            slots.append((first,))
        else:
            left.remove(other)
            slots.append((first, other))
    return slots
