"""One night's jobs in; minutes that no order of them can beat out."""

import math
from collections.abc import Sequence

from scheduler.watering.timetable.nouns import Grid, Job

_BINARY_DUST = 1e-6


def least_minutes(jobs: Sequence[Job], grid: Grid) -> int:
    """Minutes that one night's waterings take at the very least.

    Parameters
    ----------
    jobs : sequence of Job
        Zones of one night, one watering each.
    grid : Grid
        For pump, valves and change-over.

    Returns
    -------
    int
        The highest of: the longest zone with its soaks; all water over the pump's flow;
        all minutes over the valves that can be open at once; and, for each flow x, the
        minutes of zones that leave less than x free, and of the longest zone of x to
        half the pump, for no two of these can run together. [min]

    References
    ----------
    .. [1] Martello and Toth, 1990, Knapsack Problems, section 8.3 (bounds for bin
       packing), from memory; applied to minutes.

    Examples
    --------
    >>> import numpy as np
    >>> grid = Grid(np.ones((1, 1, 99), dtype=bool), np.ones((1, 1, 99)), 100.0)
    >>> least_minutes([Job("A", 1, 30, 0, 60.0), Job("B", 1, 20, 0, 50.0)], grid)
    50
    """
    if not jobs:
        return 0
    lead = grid.change_over_min
    held = [job.cycles * (job.cycle_min + lead) for job in jobs]
    flow = [job.flow_l_per_min or 0.0 for job in jobs]
    longest = max(
        job.elapsed_min + lead + (job.cycles - 1) * max(lead - job.soak_min, 0)
        for job in jobs
    )
    found = [float(longest), sum(held) / _at_once(flow, grid)]
    pump = grid.pump_l_per_min
    if pump is not None and pump > 0:
        found.append(sum(h * f for h, f in zip(held, flow, strict=True)) / pump)
        found += [_apart(held, flow, pump, x) for x in {*flow, pump / 2}]
    return math.ceil(max(found) - _BINARY_DUST)


def _at_once(flow: list[float], grid: Grid) -> int:
    """Most valves that can ever be open together: the smallest flows first."""
    most = min(grid.max_valves or len(flow), len(flow))
    if grid.pump_l_per_min is None:
        return max(most, 1)
    count, total = 0, 0.0
    for one in sorted(flow):
        total += one
        if total > grid.pump_l_per_min + _BINARY_DUST:
            break
        count += 1
    return max(min(most, count), 1)


def _apart(held: list[int], flow: list[float], pump: float, x: float) -> float:
    """Minutes of zones of which no two can run together."""
    if x > pump / 2:
        return 0.0
    big = [h for h, f in zip(held, flow, strict=True) if f > pump - x + _BINARY_DUST]
    small = [
        h for h, f in zip(held, flow, strict=True) if x <= f <= pump - x + _BINARY_DUST
    ]
    return float(sum(big) + max(small, default=0))
